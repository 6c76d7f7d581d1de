/* How a piece is divided into lots: by equal minutes, by what the rack and the longest day take, by what was
 * done ahead. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "timetable/lot.h"

enum { H = 60, LOTS_MOST = 4 };

/* Parts of a row, what each asks of the hand (m2 at ease 1), and the number of parts behind each lot. */
struct run_row {
    struct row row;
    int qty[2];
    double each[2];
    int lots;
    size_t want[LOTS_MOST];
};

/* A lot ends where the sum comes closest to its share: the next part belongs to it while at least half of
 * that lies within. Ten alike by three: shares 3.33 and 6.67; two of 3 and four of 1: shares 3.33 (half of
 * the second is at 4.5) and 6.67 (half of the third is at 6.5). Each lot has a part, whatever its share. */
static const struct run_row runs[] = {
    {ROW("one lot"), {10}, {1}, 1, {10}},
    {ROW("halves"), {10}, {1}, 2, {5, 10}},
    {ROW("thirds"), {10}, {1}, 3, {3, 7, 10}},
    {ROW("the middle is the first's"), {3}, {1}, 2, {2, 3}},
    {ROW("two large, four small, by two"), {2, 4}, {3, 1}, 2, {2, 6}},
    {ROW("by three"), {2, 4}, {3, 1}, 3, {1, 3, 6}},
    {ROW("a heavy first"), {1, 2}, {100, 1}, 3, {1, 2, 3}},
    {ROW("a heavy last"), {2, 1}, {1, 100}, 3, {1, 2, 3}},
    {ROW("one each"), {4}, {1}, 4, {1, 2, 3, 4}},
    {ROW("nothing to do"), {2}, {0}, 2, {1, 2}},
};

/* One piece of two rows; their surfaces carry what each part asks. */
static void two_rows(struct panel *panel, const int *qty, const double *each)
{
    panel_init(panel);
    panel_add_piece(panel);
    panel->job.piece_count = 1;
    panel->job.part_count = qty[1] > 0 ? 2 : 1;
    panel->surfaces.count = panel->job.part_count;
    for (int i = 0; i < 2; i++) {
        panel->parts[i].piece = 0;
        panel->parts[i].qty = qty[i];
        panel->surface_items[i].schedule = 0;
        panel->surface_items[i].area_m2 = each[i] * qty[i];
    }
    panel->surface_items[1].first_part = (size_t)qty[0];
}

static void runs_are(struct arena *arena, const struct row *row, const struct panel *panel, int lots,
                     const size_t *want)
{
    for (int number = 1; number <= lots; number++) {
        struct part_run run = lot_run(arena, &panel->job, &panel->surfaces, 0, number, lots);
        check_int(row, (intmax_t)run.from, number == 1 ? 0 : (intmax_t)want[number - 2]);
        check_int(row, (intmax_t)run.to, (intmax_t)want[number - 1]);
    }
}

static void run_is(void **state)
{
    const struct run_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    two_rows(&panel, r->qty, r->each);
    runs_are(arena, &r->row, &panel, r->lots, r->want);
    arena_free(arena);
}

/* Two parts that are large and four that are small, as above; what makes them so is the work of a part (three
 * times as much), the ease of a surface (edges take twice the time of a face), or a second surface. What is
 * left bare, treated as a patch, or of another piece asks for nothing here. */
static void what_a_part_asks_of_the_hand(void **state)
{
    (void)state;
    static const int qty[] = {2, 4};
    static const double alike[] = {1, 1};
    static const size_t want[] = {1, 3, 6};
    for (int how = 0; how < 3; how++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        two_rows(&panel, qty, alike);
        struct surface *items = panel.surface_items;
        items[2] = items[1];
        items[1] = items[0];
        panel.surfaces.count = 3;
        items[1].region = REGION_EDGES;
        if (how == 0) {
            panel.parts[0].work = 3;
            items[1].schedule = SCHEDULE_NONE;
        } else if (how == 1) {
            items[1].area_m2 = 2; /* 1 m2 each by an ease of a half, and 1 of the face */
        } else {
            items[0].area_m2 = 6;
            items[1].patch = true;
            panel.parts[2] = panel.parts[0];
            panel.parts[2].piece = 1;
            panel.job.part_count = 3;
            items[3] = (struct surface){.part = 2, .region = REGION_FACE, .schedule = 0, .area_m2 = 600};
            panel.surfaces.count = 4;
        }
        runs_are(arena, HERE, &panel, 3, want);
        arena_free(arena);
    }
}

/* Parts 5 and 6 of ten were done ahead: lots end behind 4, 6 and 10, if there are three; two are divided by
 * minutes. */
static void what_was_done_ahead_stays_apart(void **state)
{
    (void)state;
    static const int qty[] = {10, 0};
    static const double alike[] = {1, 1};
    static const size_t apart[] = {4, 6, 10}, halves[] = {5, 10};
    static const struct log_entry entry = {.number = 1, .step = "a/oil/1/apply", .first = 5, .parts = 2};
    struct arena *arena = arena_make(0);
    struct panel panel;
    two_rows(&panel, qty, alike);
    panel.job.log = (struct log){.entries = &entry, .count = 1, .partial = true};
    runs_are(arena, HERE, &panel, 3, apart);
    runs_are(arena, HERE, &panel, 2, halves);
    arena_free(arena);
}

/* Parts 1 to 3 of ten: two lots, of three and seven. */
static void the_first_three_stay_apart(void **state)
{
    (void)state;
    static const int qty[] = {10, 0};
    static const double alike[] = {1, 1};
    static const size_t apart[] = {3, 10};
    static const struct log_entry entry = {.number = 1, .step = "a/oil/1/apply", .first = 1, .parts = 3};
    struct arena *arena = arena_make(0);
    struct panel panel;
    two_rows(&panel, qty, alike);
    panel.job.log = (struct log){.entries = &entry, .count = 1, .partial = true};
    runs_are(arena, HERE, &panel, 2, apart);
    arena_free(arena);
}

/* A piece that takes 2 m2 in eight parts: three of them take 0.75. */
static void room_on_the_rack(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel.pieces[0].rack_m2 = 2;
    panel.parts[0].qty = 8;
    const struct job *job = &panel.job;
    check_double(HERE, lot_rack_m2(job, &panel.surfaces, 0, (struct part_run){0, 0}), 2, 1e-12);
    check_double(HERE, lot_rack_m2(job, &panel.surfaces, 0, (struct part_run){5, 8}), 0.75, 1e-12);
    check_double(HERE, lot_rack_m2(job, &panel.surfaces, 0, (struct part_run){0, 1}), 0.25, 1e-12);
}

/* A piece of so many parts, with the rack and the hours that it finds. */
struct least_row {
    struct row row;
    int parts;
    double rack_m2, piece_m2; /* of the shop, -1: no limit; of the piece */
    double hours;             /* of sanding all of it */
    int asked;                /* lots that the piece says; 0: nothing */
    int want;
};

/* The day is 9 h long, and sanding does not lie overnight. */
static const struct least_row least_rows[] = {
    {ROW("no limit"), 4, -1, 1, 1, 0, 1},
    {ROW("all of it fits"), 4, 1, 1, 1, 0, 1},
    {ROW("three quarters fit"), 4, 0.8, 1, 1, 0, 2},
    {ROW("half of it fits"), 4, 0.5, 1, 1, 0, 2},
    {ROW("of four, two by two"), 4, 0.74, 1, 1, 0, 2},
    {ROW("one at a time"), 4, 0.25, 1, 1, 0, 4},
    {ROW("not even one"), 4, 0.24, 1, 1, 0, 1},
    {ROW("a rack without room"), 4, 0, 1, 1, 0, 1},
    {ROW("as it says"), 4, 0.25, 1, 1, 3, 3},
    {ROW("it says one"), 4, 0.5, 1, 16, 1, 1},
    {ROW("no more than its parts"), 4, -1, 1, 1, 9, 4},
    {ROW("a day holds it"), 4, -1, 1, 9, 0, 1},
    {ROW("two days hold it"), 4, -1, 1, 16, 0, 2},
    {ROW("three days hold it"), 5, -1, 1, 20, 0, 3},
    {ROW("as many days as parts"), 3, -1, 1, 27, 0, 3},
    {ROW("a part longer than the day"), 2, -1, 1, 40, 0, 1},
    {ROW("the rack, then the day"), 6, 0.5, 1, 24, 0, 3},
};

static const struct shop_limits limits = {
    .longest_min = 9 * H, .break_min = INT32_MAX, .off_min = 15 * H, .warmest_c = 23};

static void parted_panel(struct panel *panel, const struct least_row *r)
{
    panel_init(panel);
    panel_add_step(panel, 0, STEP_SAND);
    panel_set_hours(panel, 0, r->hours);
    panel->parts[0].qty = r->parts;
    panel->pieces[0].rack_m2 = r->piece_m2;
    panel->pieces[0].lots = r->asked;
    panel->job.shop.rack_m2 = r->rack_m2;
}

static void least_is(void **state)
{
    const struct least_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    parted_panel(&panel, r);
    check_int(&r->row, lots_least(arena, &panel.job, &panel.surfaces, limits)[0], r->want);
    arena_free(arena);
}

static const struct least_row sixteen_hours = {ROW("16 h"), 4, -1, 1, 16, 0, 2};

/* Nobody sands: dividing the piece helps nothing. Where one of two does, it does. */
static void who_could_do_it(void **state)
{
    (void)state;
    for (int skilled = 0; skilled < 2; skilled++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        parted_panel(&panel, &sixteen_hours);
        struct person people[2] = {{.does = 1u << WORK_RUB}, {.does = 1u << WORK_RUB | 1u << WORK_SAND}};
        for (int p = 0; p < 2; p++)
            for (int day = 0; day < 7; day++)
                people[p].hours[day] = panel.job.shop.hours[day];
        panel.job.shop.crew = people;
        panel.job.shop.people = skilled ? 2 : 1;
        check_int(HERE, lots_least(arena, &panel.job, &panel.surfaces, limits)[0], skilled ? 2 : 1);
        arena_free(arena);
    }
}

/* One part of 9 h fills the day, and its set-up has no room beside it: each by itself, and no more lots than
 * parts. */
static void no_more_lots_than_parts(void **state)
{
    (void)state;
    static const struct least_row long_parts = {ROW("18 h"), 2, -1, 1, 18, 0, 2};
    struct arena *arena = arena_make(0);
    struct panel panel;
    parted_panel(&panel, &long_parts);
    panel.job.shop.set_up_min[WORK_SAND] = 30;
    check_int(HERE, lots_least(arena, &panel.job, &panel.surfaces, limits)[0], 2);
    arena_free(arena);
}

/* A piece of which no part is listed is one lot; one of very many parts, no more than 100 000. */
static void few_and_many_parts(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    parted_panel(&panel, &sixteen_hours);
    panel.surfaces.count = 0;
    panel.parts[0].qty = 0;
    static const int one = 1;
    int lots;
    check_true(HERE, !lots_raise(arena, &panel.job, &one, 3, &lots), "nothing to divide");
    check_int(HERE, lots, 1);
    panel.pieces[0].lots = 3;
    check_int(HERE, lots_least(arena, &panel.job, &panel.surfaces, limits)[0], 1);
    panel.pieces[0].lots = 0;
    panel.parts[0].qty = 100001;
    check_true(HERE, lots_raise(arena, &panel.job, &one, 150000, &lots), "many");
    check_int(HERE, lots, 100000);
    arena_free(arena);
}

/* Only the second piece is too long for a day. */
static void each_piece_by_itself(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    parted_panel(&panel, &sixteen_hours);
    panel_set_hours(&panel, 0, 1);
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_SAND);
    panel_set_hours(&panel, 1, 16);
    panel.parts[1].qty = 4;
    const struct task task = {.name = "hinges", .takes_min = 30};
    panel.job.tasks = &task;
    panel.job.task_count = 1;
    const int *lots = lots_least(arena, &panel.job, &panel.surfaces, limits);
    check_int(HERE, lots[0], 1);
    check_int(HERE, lots[1], 2);
    arena_free(arena);
}

/* One part of four was done ahead: two lots, whatever the day. */
static void done_ahead_makes_lots(void **state)
{
    (void)state;
    static const struct log_entry entry = {.number = 1, .step = "a/oil/0/sand-180", .first = 1, .parts = 1};
    struct arena *arena = arena_make(0);
    struct panel panel;
    parted_panel(&panel, &sixteen_hours);
    panel_set_hours(&panel, 0, 30);
    panel.job.log = (struct log){.entries = &entry, .count = 1, .partial = true};
    check_int(HERE, lots_least(arena, &panel.job, &panel.surfaces, limits)[0], 2);
    arena_free(arena);
}

/* Pieces of four and two parts, and one that says how many lots it wants. */
static void raised(void **state)
{
    (void)state;
    static const struct {
        int least[3], most, want[3];
        bool raises;
    } rows[] = {{{1, 1, 1}, 3, {3, 2, 1}, true},  {{1, 2, 1}, 2, {2, 2, 1}, true},
                {{3, 2, 1}, 3, {3, 2, 1}, false}, {{4, 2, 1}, 3, {4, 2, 1}, false},
                {{4, 1, 1}, 2, {4, 2, 1}, true},  {{1, 1, 1}, 1, {1, 1, 1}, false}};
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_piece(&panel);
    panel.parts[0].qty = panel.parts[2].qty = 4;
    panel.parts[1].qty = 2;
    panel.pieces[2].lots = 1;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        int lots[3];
        check_int(HERE, lots_raise(arena, &panel.job, rows[i].least, rows[i].most, lots), rows[i].raises);
        for (int k = 0; k < 3; k++)
            check_int(HERE, lots[k], rows[i].want[k]);
    }
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(runs, run_is), CHECK_TEST(what_a_part_asks_of_the_hand),
                     CHECK_TEST(what_was_done_ahead_stays_apart), CHECK_TEST(the_first_three_stay_apart),
                     CHECK_TEST(room_on_the_rack), CHECK_ROWS(least_rows, least_is),
                     CHECK_TEST(who_could_do_it), CHECK_TEST(each_piece_by_itself),
                     CHECK_TEST(no_more_lots_than_parts), CHECK_TEST(few_and_many_parts),
                     CHECK_TEST(done_ahead_makes_lots), CHECK_TEST(raised));
}
