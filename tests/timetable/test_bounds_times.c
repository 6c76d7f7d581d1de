/* How soon and how late operations can be at all: by their waits, the hours of who does them, and the set-
 * up of their batch. */
#include "check.h"
#include "work_list.h"

#include "base/arena.h"
#include "timetable/bounds.h"

static void check_first(const struct row *row, const struct site *site, int item, int32_t start, int32_t end)
{
    int32_t *starts = ARENA_ARRAY(site->arena, site->count, int32_t);
    int32_t *ends = ARENA_ARRAY(site->arena, site->count, int32_t);
    bounds_first(site, starts, ends);
    check_int(row, starts[item], start);
    check_int(row, ends[item], end);
}

static void check_last(const struct row *row, const struct site *site, int item, int32_t ready_by,
                       int32_t want)
{
    int32_t *last = ARENA_ARRAY(site->arena, site->count, int32_t);
    int32_t *by = ARENA_ARRAY(site->arena, (size_t)site->job_count, int32_t);
    for (int j = 0; j < site->job_count; j++)
        by[j] = ready_by;
    bounds_last(site, by, last);
    check_int(row, last[item], want);
}

/* Set up from 08:00 to 08:10, sanded for 61 min; clean at 09:16, in the slot to 09:20 the person is free.
 * The coat's batch is set up then by the only person, for 20 min; where there are two, the other has set
 * up while the first sands. */
static void a_batch_is_set_up_behind_the_one_before(void **state)
{
    (void)state;
    for (int people = 1; people <= 2; people++) {
        struct work_list list;
        work_begin(&list);
        list.panel.job.shop.people = people;
        work_set_up(&list, WORK_SAND, 10, 5);
        work_set_up(&list, TOOL_CLOTH, 20, 0);
        int sand = work_add(&list, DO_SAND, 1, 61 * 60), coat = work_add(&list, DO_APPLY, 1, 30 * 60);
        work_link(&list, sand, coat, 0);
        const struct site *site = work_site(&list, 7);
        check_true(HERE, bounds_is_over_before(site, sand, coat) == (people == 1), "one person does both");
        check_first(HERE, site, sand, work_at(0, 8, 10), work_at(0, 9, 11));
        int32_t start = people == 1 ? work_at(0, 9, 40) : work_at(0, 9, 11);
        check_first(HERE, site, coat, start, start + 30);
        work_end(&list);
    }
}

/* Two units of 30 min behind a wait; off from 12:00 to 13:00. The units of the task before, whose ends stand in front of theirs, are none of
 * them. */
struct break_row {
    struct row row;
    enum doing doing;
    int32_t wait_min; /* behind a task of 60 min, 08:00-09:00 */
    int32_t start, end;
};

static const struct break_row breaks[] = {
    {ROW("both before"), DO_SAND, 120, 11 * 60, 12 * 60},
    {ROW("one before, one behind"), DO_SAND, 125, 11 * 60 + 5, 13 * 60 + 30},
    {ROW("the first just fits"), DO_SAND, 150, 11 * 60 + 30, 13 * 60 + 30},
    {ROW("none before"), DO_SAND, 155, 13 * 60, 14 * 60},
    {ROW("a task is done in one go"), DO_TASK, 125, 13 * 60, 14 * 60},
    {ROW("a cloth with finish may lie two hours"), DO_APPLY, 125, 11 * 60 + 5, 13 * 60 + 30},
    {ROW("when the break is over"), DO_SAND, 240, 13 * 60, 14 * 60},
    {ROW("just before closing"), DO_SAND, 420, 16 * 60, 17 * 60},
    {ROW("too late for both: the next morning"), DO_SAND, 425, 24 * 60 + 8 * 60, 24 * 60 + 9 * 60},
    {ROW("behind closing"), DO_SAND, 480, 24 * 60 + 8 * 60, 24 * 60 + 9 * 60},
};

static void breaks_are_kept(void **state)
{
    const struct break_row *r = *state;
    struct work_list list;
    work_begin(&list);
    work_hours(&list, 8, 12, 13, 17);
    int before = work_add(&list, DO_TASK, WORK_UNITS, 3600 / WORK_UNITS);
    int item = work_add(&list, r->doing, 2, 1800);
    work_link(&list, before, item, r->wait_min);
    check_first(&r->row, work_site(&list, 7), item, r->start, r->end);
    work_end(&list);
}

/* 10 min of set-up: on the next morning the batch is set up anew, behind a break it is not. */
static void a_day_begins_with_a_set_up(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    work_hours(&list, 8, 12, 13, 17);
    work_set_up(&list, WORK_SAND, 10, 0);
    int task = work_add(&list, DO_TASK, 1, 3600), after_noon = work_add(&list, DO_SAND, 1, 3600),
        next_day = work_add(&list, DO_SAND, 1, 3600);
    work_link(&list, task, after_noon, 150);
    work_link(&list, task, next_day, 450);
    const struct site *site = work_site(&list, 7);
    check_first(HERE, site, after_noon, work_at(0, 13, 0), work_at(0, 14, 0));
    check_first(HERE, site, next_day, work_at(1, 8, 10), work_at(1, 9, 10));
    work_end(&list);
}

/* Mixed for 5 min, stands for 10; laid within 30 min, so that 61 min of units take two mixes more. */
static void a_mix_stands_before_the_coat(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    work_set_up(&list, TOOL_CLOTH, 20, 0);
    list.panel.finish.induction_min = 10;
    int coat = work_add(&list, DO_APPLY, 1, 61 * 60), whole = work_add(&list, DO_APPLY, 1, 60 * 60);
    work_mixed(&list, 30, 60);
    const struct site *site = work_site(&list, 7);
    check_first(HERE, site, coat, work_at(0, 8, 35), work_at(0, 9, 46));
    check_first(HERE, site, whole, work_at(0, 8, 35), work_at(0, 9, 40));
    work_end(&list);
}

/* Nine units of half an hour and as many mixes of 5 min: 5 h 15 min of work from 08:00 on, of which the 5 min off at 12:05 spare
 * nothing. */
static void mixes_take_the_time_of_work(void **state)
{
    (void)state;
    static const struct stretch stretches[] = {{8 * 60, 12 * 60 + 5}, {12 * 60 + 10, 17 * 60}};
    struct work_list list;
    work_begin(&list);
    for (int day = 0; day < 7; day++)
        list.panel.job.shop.hours[day] = (struct shop_day){stretches, 2};
    int coat = work_add(&list, DO_APPLY, 9, 1800);
    work_mixed(&list, 30, 60);
    check_first(HERE, work_site(&list, 7), coat, work_at(0, 8, 5), work_at(0, 13, 15));
    work_end(&list);
}

/* 3 C until 10:00, where the finish wants 5: the coat is laid from then on, the sanding is not kept. */
static void a_coat_waits_for_the_air(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    list.panel.spells[0] = (struct air_spell){0, {3, 0.5}};
    list.panel.spells[1] = (struct air_spell){600, {23, 0.5}};
    list.panel.job.shop.air.daily.spell_count = 2;
    int coat = work_add(&list, DO_APPLY, 1, 3600), sand = work_add(&list, DO_SAND, 1, 3600);
    const struct site *site = work_site(&list, 7);
    check_first(HERE, site, coat, work_at(0, 10, 0), work_at(0, 11, 0));
    check_first(HERE, site, sand, work_at(0, 8, 0), work_at(0, 9, 0));
    work_end(&list);
}

/* Sand before noon is what one does, in the afternoon the other; start and end are each as soon as either
 * reaches them. */
static void whoever_is_first(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    static const struct stretch early = {6 * 60, 9 * 60}, late = {8 * 60 + 30, 17 * 60};
    struct person crew[2] = {{.name = "E", .does = SKILLS_ALL}, {.name = "L", .does = 1u << WORK_SAND}};
    for (int day = 0; day < 7; day++) {
        crew[0].hours[day] = (struct shop_day){&early, 1};
        crew[1].hours[day] = (struct shop_day){&late, 1};
    }
    list.panel.job.shop.crew = crew;
    list.panel.job.shop.people = 2;
    int sand = work_add(&list, DO_SAND, 2, 3600), coat = work_add(&list, DO_APPLY, 2, 3600),
        short_sand = work_add(&list, DO_SAND, 1, 1800);
    const struct site *site = work_site(&list, 7);
    check_first(HERE, site, sand, work_at(0, 8, 30), work_at(0, 10, 30));
    check_first(HERE, site, coat, work_at(1, 6, 0), work_at(1, 8, 0));
    check_first(HERE, site, short_sand, work_at(0, 8, 0), work_at(0, 8, 30));
    work_end(&list);
}

/* A part is turned for 4 min before its second side is coated: by itself, or in the batch of that coat,
 * which is set up for 10 min and mixed for 5 before its first unit, but not before the turn. */
static void a_turn_may_be_in_the_batch(void **state)
{
    (void)state;
    for (int people = 1; people <= 2; people++) {
        struct work_list list;
        work_begin(&list);
        work_set_up(&list, TOOL_CLOTH, 10, 0);
        int face = work_add(&list, DO_SAND, 1, 3600), turn = work_add(&list, DO_FLIP, 1, 240),
            back = work_add(&list, DO_APPLY, 1, 3600);
        list.items[turn].people = people;
        work_link(&list, face, turn, 0);
        work_link(&list, turn, back, 0);
        const struct site *site = work_site(&list, 7);
        check_int(HERE, site_turned_for(site, turn), people == 1 ? back : SITE_NONE);
        check_first(HERE, site, turn, work_at(0, 9, 0), work_at(0, 9, 4));
        /* In the batch: set up until 09:10, turned until 09:14. By itself it is through at 09:04, free at
         * 09:05, set up at 09:15. */
        int32_t start = people == 1 ? work_at(0, 9, 14) : work_at(0, 9, 15);
        check_first(HERE, site, back, start, start + 60);
        work_end(&list);
    }
}

static void what_takes_no_time(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    int sand = work_add(&list, DO_SAND, 1, 9 * 3600), nothing = work_add(&list, DO_SAND, 0, 0);
    work_link(&list, sand, nothing, 60);
    check_first(HERE, work_site(&list, 7), nothing, work_at(0, 18, 0), work_at(0, 18, 0));
    work_end(&list);
}

static void what_no_day_holds_is_never(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    work_set_up(&list, WORK_SAND, 5, 0);
    int sand = work_add(&list, DO_SAND, 1, 9 * 3600), behind = work_add(&list, DO_SAND, 1, 3600);
    work_link(&list, sand, behind, 0);
    const struct site *site = work_site(&list, 7);
    check_first(HERE, site, sand, SITE_NEVER, SITE_NEVER);
    check_first(HERE, site, behind, SITE_NEVER, SITE_NEVER);
    work_end(&list);
}

/* The coat of an hour, set up for 10 min, ends by the moment; sanding, clean in 5 min, is over before its
 * batch begins. */
struct last_row {
    struct row row;
    int32_t ready_by, coat, sand;
};

static const struct last_row lasts[] = {
    {ROW("when the shop closes"), 17 * 60, 17 * 60, 15 * 60 + 45},
    {ROW("closed: when it did"), 24 * 60, 17 * 60, 15 * 60 + 45},
    {ROW("behind the break"), 15 * 60, 15 * 60, 13 * 60 + 45},
    /* An hour and its set-up before 14:05 begins at 11:55, in the stretch before the break. */
    {ROW("over the break"), 14 * 60 + 5, 14 * 60 + 5, 11 * 60 + 50},
    {ROW("in the break"), 12 * 60 + 30, 12 * 60, 10 * 60 + 45},
    {ROW("any time"), SITE_NEVER, SITE_NEVER, SITE_NEVER},
};

static void last_ends_are(void **state)
{
    const struct last_row *r = *state;
    struct work_list list;
    work_begin(&list);
    work_hours(&list, 8, 12, 13, 17);
    work_set_up(&list, WORK_SAND, 0, 5);
    work_set_up(&list, TOOL_CLOTH, 10, 0);
    int sand = work_add(&list, DO_SAND, 1, 3600), coat = work_add(&list, DO_APPLY, 2, 1800);
    work_link(&list, sand, coat, 0);
    work_line(&list, coat, 0);
    const struct site *site = work_site(&list, 7);
    check_last(&r->row, site, coat, r->ready_by, r->coat);
    check_last(&r->row, site, sand, r->ready_by, r->sand);
    work_end(&list);
}

/* Behind sanding a wait of 2 h and a coat of 1 h, and the job is ready 3 h behind that: by Tuesday noon. */
static void waits_count_from_the_end(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    list.panel.job.shop.people = 2;
    int sand = work_add(&list, DO_SAND, 1, 3600), coat = work_add(&list, DO_APPLY, 1, 3600);
    work_link(&list, sand, coat, 120);
    work_line(&list, coat, 180);
    const struct site *site = work_site(&list, 7);
    check_last(HERE, site, coat, work_at(1, 12, 0), work_at(1, 9, 0));
    check_last(HERE, site, sand, work_at(1, 12, 0), work_at(0, 17, 0));
    check_last(HERE, site, coat, work_at(1, 16, 0), work_at(1, 13, 0));
    check_last(HERE, site, sand, work_at(1, 16, 0), work_at(1, 10, 0));
    check_last(HERE, site, coat, work_at(0, 10, 59), SITE_NONE);
    work_end(&list);
}

/* When a batch of so many minutes must begin that has done them by a moment: 08:00-12:00 and 13:00-17:00. */
struct by_row {
    struct row row;
    enum doing doing;
    int32_t by, minutes, want;
};

static const struct by_row bys[] = {
    {ROW("in a stretch"), DO_SAND, 15 * 60, 60, 14 * 60},
    {ROW("all of it"), DO_SAND, 15 * 60, 120, 13 * 60},
    {ROW("over the break"), DO_SAND, 15 * 60, 125, 11 * 60 + 55},
    {ROW("not over the break"), DO_TASK, 15 * 60, 125, 9 * 60 + 55},
    {ROW("in the break"), DO_SAND, 12 * 60 + 30, 60, 11 * 60},
    {ROW("when it is over"), DO_SAND, 13 * 60, 60, 11 * 60},
    {ROW("on a minute: down to five"), DO_SAND, 15 * 60 + 4, 60, 14 * 60},
    {ROW("a minute is too much for the slot"), DO_SAND, 15 * 60, 61, 13 * 60 + 55},
    {ROW("a whole day"), DO_SAND, 17 * 60, 480, 8 * 60},
    {ROW("more than a day"), DO_SAND, 17 * 60, 485, SITE_NONE},
    {ROW("more than is left of a day: the day before"), DO_SAND, 34 * 60, 180, 14 * 60},
    {ROW("when the shop opens"), DO_SAND, 8 * 60, 5, SITE_NONE},
    {ROW("before it ever opens"), DO_SAND, 7 * 60, 5, SITE_NONE},
    {ROW("behind all days"), DO_SAND, 9 * 24 * 60, 60, 6 * 24 * 60 + 16 * 60},
    {ROW("any time"), DO_SAND, SITE_NEVER, 60, SITE_NEVER},
};

static void begins_by(void **state)
{
    const struct by_row *r = *state;
    struct work_list list;
    work_begin(&list);
    work_hours(&list, 8, 12, 13, 17);
    work_add(&list, r->doing, 1, 60);
    const struct site *site = work_site(&list, 7);
    check_int(&r->row,
              bounds_batch_by(&site->crew->workers[0], &site->kinds[0], r->by, (int64_t)r->minutes * 60),
              r->want);
    work_end(&list);
}

/* 10 min of set-up, 5 of mixing and 10 in which the mix stands are before the hour of the coat; a turn of
 * 4 min may be in its batch, whose set-up it does not wait for. */
static void batches_begin_by(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    work_set_up(&list, TOOL_CLOTH, 10, 0);
    list.panel.finish.induction_min = 10;
    int turn = work_add(&list, DO_FLIP, 1, 240), coat = work_add(&list, DO_APPLY, 1, 3600),
        nothing = work_add(&list, DO_SAND, 0, 0);
    work_mixed(&list, 120, 120);
    const struct site *site = work_site(&list, 7);
    check_int(HERE, bounds_begin_by(site, coat, work_at(0, 12, 0)), work_at(0, 10, 35));
    check_int(HERE, bounds_begin_by(site, coat, work_at(0, 9, 24)), SITE_NONE);
    check_int(HERE, bounds_begin_by(site, turn, work_at(0, 12, 0)), work_at(0, 11, 56));
    check_int(HERE, bounds_begin_by(site, nothing, work_at(0, 12, 3)), work_at(0, 12, 3));
    check_int(HERE, bounds_begin_by(site, coat, SITE_NEVER), SITE_NEVER);
    work_end(&list);
}

static void the_best_of_those_who_can(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    static const struct stretch early = {6 * 60, 9 * 60}, late = {8 * 60, 17 * 60};
    struct person crew[2] = {{.name = "E", .does = SKILLS_ALL}, {.name = "L", .does = 1u << WORK_SAND}};
    for (int day = 0; day < 7; day++) {
        crew[0].hours[day] = (struct shop_day){&early, 1};
        crew[1].hours[day] = (struct shop_day){&late, 1};
    }
    list.panel.job.shop.crew = crew;
    list.panel.job.shop.people = 2;
    int sand = work_add(&list, DO_SAND, 1, 3600), coat = work_add(&list, DO_APPLY, 1, 3600);
    const struct site *site = work_site(&list, 7);
    check_int(HERE, bounds_begin_by(site, sand, work_at(0, 12, 0)), work_at(0, 11, 0));
    check_int(HERE, bounds_begin_by(site, coat, work_at(0, 12, 0)), work_at(0, 8, 0));
    check_last(HERE, site, sand, work_at(0, 12, 0), work_at(0, 12, 0));
    check_last(HERE, site, coat, work_at(0, 12, 0), work_at(0, 9, 0));
    work_end(&list);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(a_batch_is_set_up_behind_the_one_before), CHECK_ROWS(breaks, breaks_are_kept),
                     CHECK_TEST(a_day_begins_with_a_set_up), CHECK_TEST(a_mix_stands_before_the_coat),
                     CHECK_TEST(mixes_take_the_time_of_work), CHECK_TEST(a_coat_waits_for_the_air),
                     CHECK_TEST(whoever_is_first), CHECK_TEST(a_turn_may_be_in_the_batch),
                     CHECK_TEST(what_takes_no_time), CHECK_TEST(what_no_day_holds_is_never),
                     CHECK_ROWS(lasts, last_ends_are), CHECK_TEST(waits_count_from_the_end),
                     CHECK_ROWS(bys, begins_by), CHECK_TEST(batches_begin_by),
                     CHECK_TEST(the_best_of_those_who_can));
}
