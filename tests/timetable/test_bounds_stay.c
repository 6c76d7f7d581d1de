/* When one batch of two coats can be: each an hour in two units, set up for 10 min and cleaned up for 5,
 * by one person who is there from 08:00 to 17:00, in some cases off from 12:00 to 13:00. Worked by hand in
 * minutes of Monday. */
#include "check.h"
#include "work_list.h"

#include "base/arena.h"
#include "timetable/bounds_fit.h"

enum { COATS = 2, DAY = 24 * 60 };

/* Two items of one batch: when each can start at the soonest and must end at the latest; in rising order
 * of both. */
struct stay_row {
    struct row row;
    bool breaks;
    int32_t start[COATS], last[COATS];
    int32_t from; /* the batch begins no sooner */
    bool fits;
    struct stay want;
};

static const struct stay_row stays[] = {
    /* Begins at 14:50 at the latest to be through at 17:00. */
    {ROW("all day"), false, {490, 490}, {1020, 1020}, 480, true, {480, 615, 890, 1020, 615}},
    /* Told rounded up: it may begin its units at any second of the minute before 08:11. */
    {ROW("a minute later"), false, {491, 491}, {1020, 1020}, 480, true, {480, 620, 890, 1020, 616}},
    {ROW("not before ten"), false, {490, 490}, {1020, 1020}, 600, true, {600, 735, 890, 1020, 735}},
    /* Clean at 17:00. */
    {ROW("as late as the day allows"),
     false,
     {490, 490},
     {1020, 1020},
     885,
     true,
     {885, 1020, 890, 1020, 1020}},
    /* The first must be through by 09:10: it begins at once, and all is done at 10:10. */
    {ROW("the first at once"), false, {490, 490}, {550, 1020}, 480, true, {480, 615, 480, 610, 615}},
    {ROW("a minute too soon"), false, {490, 490}, {549, 1020}, 480, false, {0, 0, 0, 0, 0}},
    {ROW("both by noon"), false, {490, 490}, {720, 720}, 480, true, {480, 615, 590, 720, 615}},
    {ROW("the second not before noon"),
     false,
     {490, 720},
     {1020, 1020},
     480,
     true,
     {650, 785, 890, 1020, 785}},
    {ROW("the set-up fits the next day only"),
     false,
     {490, 490},
     {DAY + 1020, DAY + 1020},
     1015,
     true,
     {DAY + 480, DAY + 615, DAY + 890, DAY + 1020, DAY + 615}},
    {ROW("over the break"), true, {490, 490}, {1020, 1020}, 650, true, {650, 845, 890, 1020, 845}},
    /* At 13:00 no more than the first coat and its set-up, 1 h 10 min, are behind, and half an hour in
     * which no unit had room. */
    {ROW("the second behind the break"),
     true,
     {490, 780},
     {1020, 1020},
     480,
     true,
     {620, 845, 890, 1020, 845}},
    /* At 14:00, told rounded up by less than a minute, an hour of 70 min is worked behind the break, the
     * rest and the idle half hour before it. */
    {ROW("the second an hour behind the break"),
     true,
     {490, 840},
     {1020, 1020},
     480,
     true,
     {680, 905, 890, 1020, 905}},
    /* Of 2 h 10 min 70 are before the break, but for half an hour in which no unit may have room: an hour
     * and a half is behind it. */
    {ROW("begun before the break at the latest"),
     true,
     {490, 490},
     {840, 840},
     480,
     true,
     {480, 615, 650, 870, 615}},
};

static void check_stay(const struct row *row, struct fitting *f, int32_t from, bool fits, struct stay want)
{
    struct stay got;
    check_true(row, stay_within(f, from, &got) == fits, "whether it can be in time");
    if (!fits)
        return;
    check_int(row, got.begin, want.begin);
    check_int(row, got.end, want.end);
    check_int(row, got.begin_by, want.begin_by);
    check_int(row, got.done_by, want.done_by);
    check_int(row, got.over, want.over);
}

struct stay_case {
    struct work_list list;
    struct tally tally;
    int items[COATS];
    int32_t start[COATS], last[COATS];
    struct fitting f;
};

static void begin(struct stay_case *c)
{
    work_begin(&c->list);
    work_set_up(&c->list, TOOL_CLOTH, 10, 5);
    for (int i = 0; i < COATS; i++)
        c->items[i] = work_add(&c->list, DO_APPLY, 2, 1800);
}

static struct fitting *fitting(struct stay_case *c, const struct site *site)
{
    c->tally = (struct tally){.kind = &site->kinds[0], .items = c->items, .count = COATS, .idle_s = 1800};
    c->f = (struct fitting){.site = site,
                            .start = c->start,
                            .last = c->last,
                            .item = c->items,
                            .by_last = c->items,
                            .count = COATS,
                            .tally = &c->tally,
                            .units_s = 7200,
                            .fill_s = 7200};
    return &c->f;
}

static void set_times(struct stay_case *c, const int32_t *start, const int32_t *last)
{
    for (int i = 0; i < COATS; i++) {
        c->start[i] = start[i];
        c->last[i] = last[i];
    }
}

static void stays_are(void **state)
{
    const struct stay_row *r = *state;
    struct stay_case c;
    begin(&c);
    if (r->breaks)
        work_hours(&c.list, 8, 12, 13, 17);
    set_times(&c, r->start, r->last);
    check_stay(&r->row, fitting(&c, work_site(&c.list, 7)), r->from, r->fits, r->want);
    work_end(&c.list);
}

/* A mix of 5 min before and one between the two hours of units; up to three may be made. */
static void mixes_take_their_time(void **state)
{
    (void)state;
    struct stay_case c;
    begin(&c);
    work_mixed(&c.list, 60, 60);
    set_times(&c, (const int32_t[]){495, 495}, (const int32_t[]){1020, 1020});
    struct fitting *f = fitting(&c, work_site(&c.list, 7));
    f->mixing_s = 900;
    check_stay(HERE, f, 480, true, (struct stay){480, 625, 880, 1020, 625});
    set_times(&c, (const int32_t[]){495, 720}, (const int32_t[]){1020, 1020});
    check_stay(HERE, f, 480, true, (struct stay){635, 785, 880, 1020, 785});
    work_end(&c.list);
}

/* A turn of 10 min that must be done in the batch, and another that may be. */
static void turns_take_their_time(void **state)
{
    (void)state;
    struct stay_case c;
    begin(&c);
    set_times(&c, (const int32_t[]){490, 720}, (const int32_t[]){1020, 1020});
    struct fitting *f = fitting(&c, work_site(&c.list, 7));
    f->turns_s = 600;
    c.tally.flips_s = 1200;
    check_stay(HERE, f, 480, true, (struct stay){630, 785, 890, 1020, 785});
    check_stay(HERE, f, 700, true, (struct stay){700, 845, 890, 1020, 845});
    work_end(&c.list);
}

/* One who comes at 10:00, and one who leaves at 11:00: the batch may begin with the second, and be as late
 * as the first allows. */
static void whoever_may_do_it(void **state)
{
    (void)state;
    static const struct stretch late = {600, 1020}, early = {480, 660};
    struct stay_case c;
    begin(&c);
    struct person crew[2] = {{.name = "L", .does = SKILLS_ALL}, {.name = "E", .does = SKILLS_ALL}};
    for (int day = 0; day < 7; day++) {
        crew[0].hours[day] = (struct shop_day){&late, 1};
        crew[1].hours[day] = (struct shop_day){&early, 1};
    }
    c.list.panel.job.shop.crew = crew;
    c.list.panel.job.shop.people = 2;
    set_times(&c, (const int32_t[]){490, 490}, (const int32_t[]){1020, 1020});
    check_stay(HERE, fitting(&c, work_site(&c.list, 7)), 480, true, (struct stay){480, 615, 890, 1020, 615});
    crew[1].does = 1u << WORK_SAND;
    check_stay(HERE, fitting(&c, work_site(&c.list, 7)), 480, true, (struct stay){600, 735, 890, 1020, 735});
    work_end(&c.list);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(stays, stays_are), CHECK_TEST(mixes_take_their_time),
                     CHECK_TEST(turns_take_their_time), CHECK_TEST(whoever_may_do_it));
}
