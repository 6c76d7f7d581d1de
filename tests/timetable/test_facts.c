/* What entries of a log name, ask and measure; each answer is read off the entry by hand. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"
#include "timetable/facts.h"

struct name_row {
    struct row row;
    const char *step;
    int first, parts; /* of the entry */
    const char *id;
    int lot, lots; /* of the operation */
    size_t from, to;
    bool want;
};

/* An entry of a whole piece goes for all its lots, one of a lot for that lot, one of parts 3 and 4 for what
 * has no others. */
static const struct name_row names[] = {
    {ROW("its id"), "doors/oil/1/apply", 0, 0, "doors/oil/1/apply", 1, 1, 0, 0, true},
    {ROW("another step"), "doors/oil/2/apply", 0, 0, "doors/oil/1/apply", 1, 1, 0, 0, false},
    {ROW("the beginning of its id"), "doors/oil/1", 0, 0, "doors/oil/1/apply", 1, 1, 0, 0, false},
    {ROW("a piece whose name begins so"), "door/oil/1/apply", 0, 0, "doors/oil/1/apply", 1, 1, 0, 0, false},
    {ROW("a piece as long"), "doers/oil/1/apply", 0, 0, "doors/oil/1/apply", 1, 1, 0, 0, false},
    {ROW("the whole piece"), "doors/oil/1/apply", 0, 0, "doors.2/oil/1/apply", 2, 3, 2, 4, true},
    {ROW("its lot"), "doors.2/oil/1/apply", 0, 0, "doors.2/oil/1/apply", 2, 3, 2, 4, true},
    {ROW("another lot"), "doors.3/oil/1/apply", 0, 0, "doors.2/oil/1/apply", 2, 3, 2, 4, false},
    {ROW("a lot of two digits"), "doors.12/oil/1/apply", 0, 0, "doors.12/oil/1/apply", 12, 12, 2, 4, true},
    {ROW("lot 2 is not lot 12"), "doors.2/oil/1/apply", 0, 0, "doors.12/oil/1/apply", 12, 12, 2, 4, false},
    {ROW("a lot of a piece that has one"), "doors.2/oil/1/apply", 0, 0, "doors/oil/1/apply", 1, 1, 0, 0,
     true},
    {ROW("its parts"), "doors/oil/1/apply", 3, 2, "doors.2/oil/1/apply", 2, 3, 2, 4, true},
    {ROW("one of them"), "doors/oil/1/apply", 3, 2, "doors.2/oil/1/apply", 2, 3, 3, 4, true},
    {ROW("one part more behind"), "doors/oil/1/apply", 3, 2, "doors.2/oil/1/apply", 2, 3, 2, 5, false},
    {ROW("one part more before"), "doors/oil/1/apply", 3, 2, "doors.2/oil/1/apply", 2, 3, 1, 4, false},
    {ROW("the first four"), "doors/oil/1/apply", 0, 4, "doors.1/oil/1/apply", 1, 3, 0, 4, true},
    {ROW("from part 1 on"), "doors/oil/1/apply", 1, 4, "doors.1/oil/1/apply", 1, 3, 0, 4, true},
    {ROW("more than the first four"), "doors/oil/1/apply", 0, 4, "doors.1/oil/1/apply", 1, 3, 0, 5, false},
    {ROW("parts of a piece of one lot"), "doors/oil/1/apply", 3, 2, "doors/oil/1/apply", 1, 1, 0, 0, true},
};

static void name_is(void **state)
{
    const struct name_row *r = *state;
    const struct log_entry entry = {.step = r->step, .first = r->first, .parts = r->parts};
    const struct operation operation = {
        .id = r->id, .lot = r->lot, .lots = r->lots, .pass.lot = {r->from, r->to}};
    check_int(&r->row, log_names(&entry, &operation), r->want);
}

/* Entry 6 takes back number 2; only what is left out or repeated is asked, in the order of the log. */
static void what_a_log_asks(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    static const struct log_entry entries[] = {
        {.number = 1, .kind = LOG_DONE},  {.number = 2, .kind = LOG_SKIP},
        {.number = 3, .kind = LOG_AGAIN}, {.number = 4, .kind = LOG_AIR},
        {.number = 5, .kind = LOG_SKIP},  {.number = 6, .kind = LOG_UNDO, .undone = 2},
    };
    const struct log log = {.entries = entries, .count = 6}, none = {0};
    const struct log_entry **asked;
    check_int(HERE, (intmax_t)facts_asked(arena, &log, &asked), 2);
    check_int(HERE, asked[0]->number, 3);
    check_int(HERE, asked[1]->number, 5);
    check_int(HERE, (intmax_t)facts_asked(arena, &none, &asked), 0);
    arena_free(arena);
}

struct cut_row {
    struct row row;
    struct log_entry entry;
    size_t want[2]; /* 0: no more */
};

/* Ten doors; what was done of some of them alone divides the piece before and behind these, unless that is
 * its end. */
static const struct cut_row cut_rows[] = {
    {ROW("parts 5 and 6"), {.step = "doors/oil/1/apply", .first = 5, .parts = 2}, {4, 6}},
    {ROW("of a lot"), {.step = "doors.2/oil/1/apply", .first = 5, .parts = 2}, {4, 6}},
    {ROW("the first three"), {.step = "doors/oil/1/apply", .parts = 3}, {3}},
    {ROW("the first one"), {.step = "doors/oil/1/apply", .first = 1, .parts = 1}, {1}},
    {ROW("the last two"), {.step = "doors/oil/1/apply", .first = 9, .parts = 2}, {8}},
    {ROW("the last"), {.step = "doors/oil/1/apply", .first = 10, .parts = 1}, {9}},
    {ROW("more than there are"), {.step = "doors/oil/1/apply", .first = 9, .parts = 5}, {8}},
    {ROW("behind the last"), {.step = "doors/oil/1/apply", .first = 11, .parts = 1}, {0}},
    {ROW("all"), {.step = "doors/oil/1/apply", .first = 1, .parts = 10}, {0}},
    {ROW("all of a lot"), {.step = "doors/oil/1/apply"}, {0}},
    {ROW("another piece"), {.step = "drawers/oil/1/apply", .first = 5, .parts = 2}, {0}},
    {ROW("another piece with a name as long"), {.step = "shelf/oil/1/apply", .first = 5, .parts = 2}, {0}},
    {ROW("a piece whose name begins so"), {.step = "doorstep/oil/1/apply", .first = 5, .parts = 2}, {0}},
    {ROW("a longer name with the same words"),
     {.step = "doors-left/oil/1/apply", .first = 5, .parts = 2},
     {0}},
    {ROW("left out"), {.step = "doors/oil/1/apply", .kind = LOG_SKIP, .first = 5, .parts = 2}, {0}},
};

static void panel_of_doors(struct panel *panel, struct log_entry *entries, size_t count)
{
    panel_init(panel);
    panel->pieces[0].name = "Doors";
    panel->parts[0].qty = 10;
    panel->job.log = (struct log){.entries = entries, .count = count, .partial = true};
}

static void cut_is(void **state)
{
    const struct cut_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct log_entry entry = r->entry;
    panel_of_doors(&panel, &entry, 1);
    size_t *cuts, count = facts_cuts(arena, &panel.job, 0, 10, &cuts);
    check_int(&r->row, (intmax_t)count, (r->want[0] > 0) + (r->want[1] > 0));
    for (size_t i = 0; i < count; i++)
        check_int(&r->row, (intmax_t)cuts[i], (intmax_t)r->want[i]);
    arena_free(arena);
}

/* Of several entries: 7-8, 2-3, 3-4 and 2-3 again, 5 taken back: cuts behind 1, 2, 3, 4, 6 and 8. */
static void cuts_rise_and_are_told_once(void **state)
{
    (void)state;
    static const size_t want[] = {1, 2, 3, 4, 6, 8};
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct log_entry entries[6] = {{.first = 7, .parts = 2}, {.first = 2, .parts = 2},
                                   {.first = 3, .parts = 2}, {.first = 2, .parts = 2},
                                   {.first = 5, .parts = 1}, {.kind = LOG_UNDO, .undone = 5}};
    for (int i = 0; i < 6; i++) {
        entries[i].number = i + 1;
        entries[i].step = "doors/oil/1/apply";
    }
    panel_of_doors(&panel, entries, 6);
    size_t *cuts;
    check_int(HERE, (intmax_t)facts_cuts(arena, &panel.job, 0, 10, &cuts), 6);
    for (int i = 0; i < 6; i++)
        check_int(HERE, (intmax_t)cuts[i], (intmax_t)want[i]);
    panel.job.log.partial = false;
    check_int(HERE, (intmax_t)facts_cuts(arena, &panel.job, 0, 10, &cuts), 0);
    arena_free(arena);
}

enum { H = 60, D = 24 * 60 };

struct measured_row {
    struct row row;
    int began, done; /* minutes from Monday 1 March 2027 00:00 */
    int64_t want;
};

/* The shop is open 08:00-17:00 daily: a night that lies within is taken off whole, one that somebody worked
 * in is not. */
static const struct measured_row measured[] = {
    {ROW("within a day"), 9 * H, 10 * H + 7, 67},
    {ROW("over a night"), 16 * H, D + 9 * H, 2 * H},
    {ROW("over three nights"), 16 * H, 3 * D + 9 * H, 20 * H},
    {ROW("from the closing on"), 17 * H, D + 8 * H + 30, 30},
    {ROW("until the opening"), 16 * H, D + 8 * H, H},
    {ROW("begun after the closing"), 17 * H + 5, D + 9 * H, 16 * H - 5},
    {ROW("ended before the opening"), 16 * H, D + 7 * H + 55, 16 * H - 5},
    {ROW("fourteen days"), 8 * H, 14 * D + 8 * H, 14 * 9 * H},
    {ROW("longer than anybody measures"), 8 * H, 14 * D + 8 * H + 1, 0},
    {ROW("at once"), 8 * H, 8 * H, 0},
};

static int64_t measured_min(const struct log_entry *entry)
{
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    const struct fact fact = {.operation = *hand_add(&work, 0, DO_APPLY, 60), .entry = entry};
    int64_t minutes = fact_measured_min(arena, &fact);
    arena_free(arena);
    return minutes;
}

static void measured_is(void **state)
{
    const struct measured_row *r = *state;
    const struct log_entry entry = {.began_min = march(1, 0, 0) + r->began,
                                    .done_min = march(1, 0, 0) + r->done};
    check_int(&r->row, measured_min(&entry), r->want);
}

static void what_nobody_measured(void **state)
{
    (void)state;
    const struct log_entry no_begin = {.began_min = INT64_MIN, .done_min = march(1, 10, 0)},
                           planned = {
                               .began_min = march(1, 9, 0), .done_min = march(1, 10, 0), .as_planned = true};
    check_int(HERE, measured_min(&no_begin), 0);
    check_int(HERE, measured_min(&planned), 0);
    check_int(HERE, measured_min(NULL), 0);
}

static void one_batch(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    static const struct log_entry first = {.batch = "2027-03-01/1"}, second = {.batch = "2027-03-01/1"},
                                  other = {.batch = "2027-03-01/2"}, unsaid = {0};
    const struct operation sand = *hand_add(&work, 0, DO_SAND, 60), coat = *hand_add(&work, 0, DO_APPLY, 60);
    const struct fact a = {.operation = sand, .entry = &first}, b = {.operation = sand, .entry = &second},
                      c = {.operation = sand, .entry = &other}, d = {.operation = coat, .entry = &first},
                      e = {.operation = sand, .entry = &unsaid}, f = {.operation = sand};
    check_true(HERE, facts_are_one_batch(&a, &b), "one batch, one kind");
    check_true(HERE, !facts_are_one_batch(&a, &c), "another batch");
    check_true(HERE, !facts_are_one_batch(&a, &d), "another kind of work");
    check_true(HERE, !facts_are_one_batch(&a, &e) && !facts_are_one_batch(&e, &a),
               "of one the batch is not said");
    check_true(HERE, !facts_are_one_batch(&a, &f) && !facts_are_one_batch(&f, &a), "one was passed over");
    check_true(HERE, facts_are_one_batch(&f, &f) && facts_are_one_batch(&e, &e), "itself");
}

/* Sanded until 10:00 and until 09:00, dust settles for 30 min: no coat before 10:30, a later one stays, no
 * other work waits. */
static void dust_of_what_was_done(void **state)
{
    (void)state;
    for (int separate = 0; separate < 2; separate++) {
        struct hand_work work;
        hand_work(&work);
        work.panel.job.shop.settle_min = 30;
        work.panel.job.shop.dust_separate = separate;
        static const struct log_entry entry = {.number = 1};
        for (int i = 0; i < 3; i++) {
            work.facts[i].operation = *hand_add(&work, 0, i == 2 ? DO_APPLY : DO_SAND, 60);
            work.facts[i].entry = &entry;
            work.facts[i].done_min = march(1, i == 2 ? 12 : 10 - i, 0);
        }
        work.facts[3].operation = work.facts[0].operation; /* passed over: nobody knows when */
        work.facts[3].done_min = march(1, 13, 0);
        work.operations.fact_count = 4;
        work.operations.count = 0;
        hand_add(&work, 0, DO_APPLY, 60);
        hand_add(&work, 0, DO_APPLY, 60)->release_min = march(1, 11, 0);
        hand_add(&work, 0, DO_SAND, 60);
        facts_settle_dust(&work.operations);
        check_int(HERE, work.items[0].release_min, separate ? INT64_MIN : march(1, 10, 30));
        check_int(HERE, work.items[1].release_min, march(1, 11, 0));
        check_int(HERE, work.items[2].release_min, INT64_MIN);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(names, name_is), CHECK_TEST(what_a_log_asks), CHECK_ROWS(cut_rows, cut_is),
                     CHECK_TEST(cuts_rise_and_are_told_once), CHECK_ROWS(measured, measured_is),
                     CHECK_TEST(what_nobody_measured), CHECK_TEST(one_batch),
                     CHECK_TEST(dust_of_what_was_done));
}
