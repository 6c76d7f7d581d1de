/* From the work of jobs to their timetables: what is proven, what a little effort and each aim give, how
 * pieces are divided, and what is said where there is no plan. Open 08:00 to 17:00 daily; one person,
 * unless a test says otherwise. */
#include "check.h"
#include "panel_site.h"

#include "base/arena.h"
#include "base/observer.h"
#include "timetable/batching.h"
#include "timetable/work.h"

enum { TOO_MANY = 20001 };

static struct timetable *planned(struct arena *arena, struct panel *panel, enum timetable_aim aim,
                                 int64_t effort)
{
    return timetable_make(arena, panel_operations(arena, panel),
                          (struct timetable_options){.aim = aim, .effort = effort});
}

struct second_row {
    struct row row;
    int32_t seconds;
    int64_t minutes;
};

/* One coat of so many seconds: nothing can take less, and minutes are told rounded up. */
static const struct second_row seconds[] = {
    {ROW("an hour"), 3600, 60},
    {ROW("a second more"), 3601, 61},
    {ROW("a second less than a minute more"), 3659, 61},
    {ROW("a whole minute more"), 3660, 61},
};

static void least_work_is_told(void **state)
{
    const struct second_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_hours(&panel, 0, r->seconds / 3600.0);
    const struct timetable *timetable = planned(arena, &panel, AIM_LEAST_WORK, 0);
    check_int(&r->row, timetable->hands_on_min, r->minutes);
    check_int(&r->row, timetable->no_less_work_min, r->minutes);
    check_true(&r->row, timetable->work_proven && timetable->ready_proven, "nothing is better");
    check_int(&r->row, timetable->no_earlier_than_min, timetable->ready_min);
    arena_free(arena);
}

/* Of jobs that are planned together no work is proven, and each could be ready as if it were alone: in an
 * hour. */
static void together_no_work_is_proven(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel desk, shelf, *panels[] = {&desk, &shelf};
    const struct operations *jobs[2];
    for (int i = 0; i < 2; i++) {
        panel_init(panels[i]);
        panel_add_step(panels[i], 0, STEP_COAT);
        jobs[i] = panel_operations(arena, panels[i]);
    }
    struct timetable **each = timetable_several(arena, jobs, 2, (struct timetable_options){0});
    for (int i = 0; i < 2; i++) {
        check_int(HERE, each[i]->status, TIMETABLE_PLANNED);
        check_int(HERE, each[i]->hands_on_min, 60);
        check_int(HERE, each[i]->no_less_work_min, 0);
        check_true(HERE, !each[i]->work_proven, "not proven");
        check_int(HERE, each[i]->no_earlier_than_min, march(1, 9, 0));
        check_int(HERE, each[i]->ready_proven, each[i]->ready_min == march(1, 9, 0));
    }
    check_int(HERE, each[0]->ready_min + each[1]->ready_min, march(1, 9, 0) + march(1, 10, 0));
    arena_free(arena);
}

struct lot_row {
    struct row row;
    enum timetable_aim aim;
    int people, qty, lots; /* lots: what the piece says */
    int due_h;
    int64_t effort;
    int want_lots, ready_h;
};

/* A piece of four parts, an hour each. One person at a time works on a lot, so that two need two lots to
 * be ready at 10:00. A piece is divided where it would be late, or is wanted soonest, in four at the most,
 * and never where it says how. */
static const struct lot_row lots[] = {
    {ROW("there is time"), AIM_LEAST_WORK, 2, 4, 0, 12, 0, 1, 12},
    {ROW("it would be late"), AIM_LEAST_WORK, 2, 4, 0, 10, 0, 2, 10},
    {ROW("it would be late, in as few as serve"), AIM_LEAST_WORK, 4, 4, 0, 10, 0, 2, 10},
    {ROW("four lots serve"), AIM_LEAST_WORK, 4, 4, 0, 9, 0, 4, 9},
    {ROW("alone it does not help"), AIM_LEAST_WORK, 1, 4, 0, 10, 0, 1, 12},
    {ROW("soonest"), AIM_SOONEST, 2, 4, 0, 12, 0, 2, 10},
    {ROW("soonest of four"), AIM_SOONEST, 4, 4, 0, 12, 0, 4, 9},
    {ROW("as late as may be, and not late"), AIM_LATEST, 2, 4, 0, 12, 0, 1, 12},
    {ROW("as the piece says"), AIM_SOONEST, 4, 4, 2, 12, 0, 2, 10},
    {ROW("one part is one lot"), AIM_SOONEST, 2, 1, 0, 9, 0, 1, 12},
    {ROW("with next to no effort, too"), AIM_LEAST_WORK, 2, 4, 0, 10, 1, 2, 10},
};

static void is_divided(void **state)
{
    const struct lot_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel.parts[0].qty = r->qty;
    panel.pieces[0].lots = r->lots;
    panel_set_hours(&panel, 0, 4);
    panel.job.shop.people = r->people;
    panel.job.deliver_min = march(1, r->due_h, 0);
    const struct timetable *timetable = planned(arena, &panel, r->aim, r->effort);
    check_int(&r->row, (intmax_t)timetable->step_count, r->want_lots);
    check_int(&r->row, timetable->steps[0].operation->lots, r->want_lots);
    check_ready(&r->row, timetable, march(1, r->ready_h, 0));
    arena_free(arena);
}

struct sooner_row {
    struct row row;
    int32_t recoat_min;
    double sand_min, coat_min; /* set-up for sanding; set-up and clean-up for a coat, each */
    bool little;
};

/* Three pieces of six parts are sanded and get two coats: 18 h of one person, two days of 9 h. With 10 min of set-up nothing can be ready
 * before 08:10 on the third day; once a plan is within half an hour of that, a search in more lots may take a quarter of the effort.
 * With more set-ups and a longer wait none comes so near to what is proven, and each may take as much as the first. */
static const struct sooner_row sooner[] = {
    {ROW("hardly sooner"), 30, 10, 0, true},
    {ROW("much sooner"), 60, 15, 20, false},
};

enum { SOONER_EFFORT = 100000 };

/* The least effort that any search was given. */
static bool see_effort(void *with, const struct observer *observer)
{
    int64_t *least = with;
    *least = observer->effort < *least ? observer->effort : *least;
    return true;
}

static void lots_are_worth_effort(void **state)
{
    const struct sooner_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    int64_t least = INT64_MAX;
    struct observer observer = {.look = see_effort, .with = &least};
    panel_init(&panel);
    for (size_t i = 0; i < PANEL_PIECES; i++) {
        if (i > 0)
            panel_add_piece(&panel);
        panel_add_step(&panel, i, STEP_SAND);
        panel_add_step(&panel, i, STEP_COAT)->coats = 2;
        panel.parts[i].qty = 6;
        panel_set_hours(&panel, i, (double)i + 1);
    }
    panel_set_window(&panel, r->recoat_min, SPAN_NEVER);
    panel.job.shop.set_up_min[WORK_SAND] = r->sand_min;
    panel.job.shop.set_up_min[TOOL_CLOTH] = panel.job.shop.clean_up_min[TOOL_CLOTH] = r->coat_min;
    const struct timetable *timetable = timetable_make(
        arena, panel_operations(arena, &panel),
        (struct timetable_options){.aim = AIM_SOONEST, .effort = SOONER_EFFORT, .observer = &observer});
    check_int(&r->row, timetable->ready_min - timetable->no_earlier_than_min <= 30, r->little);
    check_int(&r->row, least <= SOONER_EFFORT / 4, r->little);
    arena_free(arena);
}

struct aim_row {
    struct row row;
    enum timetable_aim aim;
    int due_h;
    int64_t work_min;
    int ready_h, start_h; /* of B */
};

/* A is there at 08:00, B at 10:00; both are sanded for two hours, with a set-up of an hour: one batch,
 * from 08:00 to 13:00, is the least work, and B is begun at 11:00. */
static const struct aim_row aims[] = {
    {ROW("the least work"), AIM_LEAST_WORK, 17, 300, 13, 11},
    {ROW("as late as may be"), AIM_LATEST, 17, 300, 17, 15},
    {ROW("as late as may be, within the time"), AIM_LATEST, 15, 300, 15, 13},
};

static void is_aimed_at(void **state)
{
    const struct aim_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    for (size_t i = 0; i < 2; i++) {
        panel_add_step(&panel, i, STEP_SAND);
        panel_set_hours(&panel, i, 2);
    }
    panel.job.shop.set_up_min[WORK_SAND] = 60;
    panel.pieces[1].ready_min = march(1, 10, 0);
    panel.job.deliver_min = march(1, r->due_h, 0);
    const struct timetable *timetable = planned(arena, &panel, r->aim, 0);
    check_ready(&r->row, timetable, march(1, r->ready_h, 0));
    check_int(&r->row, timetable->hands_on_min, r->work_min);
    check_int(&r->row, timetable->no_less_work_min, r->work_min);
    check_starts(&r->row, timetable, "b/oil-b/0/sand-180", march(1, r->start_h, 0));
    check_int(&r->row, timetable->aim, r->aim);
    check_int(&r->row, timetable->why_count > 0, r->aim != AIM_LATEST);
    arena_free(arena);
}

/* A coat of A takes two hours and is dry to recoat after seven, behind closing time, and its window ends after nine: A is coated on three
 * days, and scuffed before the second coat and the third, 10 h in all until Wednesday 12:00. B is sanded, coated from 08:00 to 09:00 and
 * once more from 16:00, within its window: 3 h. With a little effort that is found, and no plan that is ready as soon but takes more work
 * comes in its place. */
static void soonest_takes_no_more_work(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    panel_add_step(&panel, 1, STEP_SAND);
    panel_add_step(&panel, 1, STEP_COAT)->coats = 2;
    panel_set_hours(&panel, 0, 2);
    panel_set_window(&panel, 420, 540);
    panel.job.shop.people = 2;
    panel.job.deliver_min = march(1, 8, 30);
    const struct timetable *timetable = planned(arena, &panel, AIM_SOONEST, 10000);
    check_ready(HERE, timetable, march(3, 12, 0));
    check_int(HERE, timetable->hands_on_min, 13 * 60);
    arena_free(arena);
}

/* Late for a Monday that is over; the reasons are there for every aim. */
static void late_in_any_case(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel.job.deliver_min = march(1, 8, 30);
    const struct timetable *timetable = planned(arena, &panel, AIM_LATEST, 0);
    check_int(HERE, timetable->late_min, 30);
    check_int(HERE, timetable->spare_min, 0);
    check_true(HERE, timetable->why_count > 0, "why");
    check_true(HERE, timetable->ready_proven && timetable->work_proven, "nothing is better");
    arena_free(arena);
}

/* Sanding is as early as the coat allows, dry to handle at 19:00: B's may be done until 17:00. Two people. */
static void slack_is_told(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_RUB)->words = "wax";
    panel_set_state(&panel, STATE_HANDLE, 600);
    panel.job.shop.people = 2;
    const struct timetable *timetable = planned(arena, &panel, AIM_LEAST_WORK, 0);
    check_ready(HERE, timetable, march(1, 19, 0));
    const struct timetable_step *coat = timetable_find(timetable, "a/oil/1/apply");
    const struct timetable_step *rub = timetable_find(timetable, "b/oil-b/0/rub");
    check_int(HERE, coat->float_min, 0);
    check_int(HERE, rub->float_min, 480);
    check_int(HERE, timetable->batches[rub->batch].float_min, 480);
    arena_free(arena);
}

struct far_row {
    struct row row;
    int closed_days, ready_day;
    int want_day;
};

/* A plan is sought as far ahead as it takes. */
static const struct far_row fars[] = {
    {ROW("at once"), 0, 1, 1},
    {ROW("closed for three weeks and a day"), 22, 1, 23},
    {ROW("closed for half a year"), 180, 1, 181},
    {ROW("a piece that comes in half a year"), 0, 181, 181},
};

static void is_found_far_ahead(void **state)
{
    const struct far_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    int64_t first = march(1, 0, 0) / DAY_MINUTES;
    struct day_range closed = {first, first + r->closed_days - 1};
    panel.job.shop.closed = &closed;
    panel.job.shop.closed_count = r->closed_days > 0;
    panel.pieces[0].ready_min = march(r->ready_day, 8, 0);
    const struct timetable *timetable = planned(arena, &panel, AIM_LEAST_WORK, 0);
    check_int(&r->row, timetable->status, TIMETABLE_PLANNED);
    check_int(&r->row, timetable->steps[0].start_min, march(r->want_day, 8, 0));
    arena_free(arena);
}

/* A piece that comes in half a year: the looks that were too short count, beside the one that finds the plan. */
static void every_look_ahead_counts(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel.pieces[0].ready_min = march(181, 8, 0);
    const struct operations *operations = panel_operations(arena, &panel);
    const struct site *site = site_make(arena, operations, march(1, 8, 0), HORIZON_MOST_MIN);
    struct batching far = {.site = site, .effort = 1};
    batching_start(&far);
    check_true(HERE, far.score.whole && far.spent > 0, "one look that is long enough");
    const struct timetable *timetable = planned(arena, &panel, AIM_LEAST_WORK, 1);
    check_true(HERE, timetable->effort > far.spent, "all of them take more");
    arena_free(arena);
}

/* No plan looks further ahead than 104 weeks: a piece that comes after three years has none yet. */
static void nothing_is_planned_in_three_years(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel.pieces[0].ready_min = march(1 + 3 * 365, 8, 0);
    const struct timetable *timetable = planned(arena, &panel, AIM_LEAST_WORK, 0);
    check_true(HERE, timetable->status != TIMETABLE_PLANNED && timetable->step_count == 0, "not yet");
    arena_free(arena);
}

struct refused_row {
    struct row row;
    int64_t effort;
    enum timetable_status status;
    bool searched; /* whether it was tried to show that there is no plan */
};

/* A window of 14 h that closes in the night: the proof is tried with the usual effort, with a million or
 * more, and in a first look. */
static const struct refused_row refused[] = {
    {ROW("as usual"), 0, TIMETABLE_IMPOSSIBLE, true},
    {ROW("a first look"), 1, TIMETABLE_IMPOSSIBLE, true},
    {ROW("little effort"), 2, TIMETABLE_UNKNOWN, false},
    {ROW("a little less than a proof takes"), 999999, TIMETABLE_UNKNOWN, false},
    {ROW("as much as a proof takes"), 1000000, TIMETABLE_IMPOSSIBLE, true},
};

static void is_refused(void **state)
{
    const struct refused_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel.finish.refuses_late_recoat = true;
    panel_set_window(&panel, 600, 840);
    const struct timetable *timetable = planned(arena, &panel, AIM_LEAST_WORK, r->effort);
    check_int(&r->row, timetable->status, r->status);
    check_true(&r->row, timetable->why_count > 0 && timetable->step_count == 0, "a reason, no steps");
    check_int(&r->row, timetable->why[0].kind != REASON_EFFORT, r->searched);
    arena_free(arena);
}

/* 300 lots of three coats whose windows close in the night. The effort of a first look is that which a first plan may take, two million,
 * and up to a quarter more for the last way that is tried. */
static void a_first_look_ends(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    panel.parts[0].qty = panel.pieces[0].lots = 300;
    panel.finish.refuses_late_recoat = true;
    panel_set_window(&panel, 600, 840);
    const struct timetable *timetable = planned(arena, &panel, AIM_LEAST_WORK, 1);
    check_int(HERE, timetable->status, TIMETABLE_UNKNOWN);
    check_int(HERE, timetable->why[0].kind, REASON_EFFORT);
    check_true(HERE, timetable->effort >= 2000000 && timetable->effort < 3000000, "what it takes");
    arena_free(arena);
}

/* More steps than one timetable takes are refused with their number, before anything is looked at. */
static void too_large(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    struct operations many = *panel_operations(arena, &panel);
    struct operation *items = ARENA_ARRAY(arena, TOO_MANY, struct operation);
    for (size_t i = 0; i < TOO_MANY; i++)
        items[i] = (struct operation){.job = &panel.job, .doing = DO_SAND};
    many.items = items;
    many.count = TOO_MANY;
    const struct timetable *timetable = timetable_make(arena, &many, (struct timetable_options){0});
    check_int(HERE, timetable->status, TIMETABLE_UNKNOWN);
    check_int(HERE, (intmax_t)timetable->why_count, 1);
    check_int(HERE, timetable->why[0].kind, REASON_SIZE);
    check_int(HERE, (intmax_t)timetable->why[0].count, TOO_MANY);
    check_int(HERE, (intmax_t)timetable->why[0].most, 20000);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(seconds, least_work_is_told), CHECK_TEST(together_no_work_is_proven),
                     CHECK_ROWS(lots, is_divided), CHECK_ROWS(sooner, lots_are_worth_effort),
                     CHECK_ROWS(aims, is_aimed_at), CHECK_TEST(soonest_takes_no_more_work),
                     CHECK_TEST(late_in_any_case), CHECK_TEST(slack_is_told),
                     CHECK_ROWS(fars, is_found_far_ahead), CHECK_TEST(every_look_ahead_counts),
                     CHECK_TEST(nothing_is_planned_in_three_years), CHECK_ROWS(refused, is_refused),
                     CHECK_TEST(a_first_look_ends), CHECK_TEST(too_large));
}
