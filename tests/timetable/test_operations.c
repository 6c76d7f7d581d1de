/* What one operation is: its kind of batch, its lot, its name, who may do it, when it may begin. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"

#include <string.h>

struct doing_row {
    struct row row;
    enum doing doing;
    const char *name, *with; /* in an id */
    unsigned needs;
    bool dry;
};

/* Who sands may scuff; masking, turning over and tasks are anybody's. A coat and a task do not lie half done.
 */
static const struct doing_row doings[] = {
    {ROW("sand"), DO_SAND, "sand", "180", 1u << WORK_SAND, true},
    {ROW("scuff"), DO_SCUFF, "scuff", "180", 1u << WORK_SCUFF | 1u << WORK_SAND, true},
    {ROW("raise"), DO_RAISE, "raise", "raise", 0, true},
    {ROW("mask"), DO_MASK, "mask", "mask", 0, true},
    {ROW("apply"), DO_APPLY, "apply", "oil", 1u << TOOL_CLOTH, false},
    {ROW("flip"), DO_FLIP, "flip", "flip", 0, true},
    {ROW("polish"), DO_POLISH, "polish", "polish", 1u << WORK_POLISH, true},
    {ROW("rub"), DO_RUB, "rub", "rub", 1u << WORK_RUB, true},
    {ROW("task"), DO_TASK, "task", "fit-hinges", 0, false},
};

static void doing_is(void **state)
{
    const struct doing_row *r = *state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    struct operation *operation = hand_add(&work, r->doing == DO_TASK ? -1 : 0, r->doing, 30);
    operation->words = "Fit  hinges!";
    check_text(&r->row, doing_name(r->doing), r->name);
    check_text(&r->row, operation_with(arena, operation), r->with);
    check_int(&r->row, operation_needs(operation), r->needs);
    check_int(&r->row, operation_is_dry(operation), r->dry);
    check_true(&r->row, !operation_is_mixed(operation), "poured as it is, if at all");
    check_true(&r->row, !operation_sprays(operation), "by cloth, if at all");
    arena_free(arena);
}

struct kind_row {
    struct row row;
    enum doing a, b;
    int grit; /* of the second; the first has 180 */
    bool want;
};

static const struct kind_row kinds[] = {
    {ROW("sanding"), DO_SAND, DO_SAND, 180, true},
    {ROW("sanding and scuffing"), DO_SAND, DO_SCUFF, 180, true},
    {ROW("scuffing and sanding"), DO_SCUFF, DO_SAND, 180, true},
    {ROW("scuffing"), DO_SCUFF, DO_SCUFF, 180, true},
    {ROW("another grit"), DO_SAND, DO_SAND, 240, false},
    {ROW("scuffing with another grit"), DO_SAND, DO_SCUFF, 320, false},
    {ROW("sanding and rubbing"), DO_SAND, DO_RUB, 180, false},
    {ROW("rubbing and sanding"), DO_RUB, DO_SAND, 180, false},
    {ROW("masking, whatever the grit"), DO_MASK, DO_MASK, 240, true},
    {ROW("coats"), DO_APPLY, DO_APPLY, 180, true},
    {ROW("coat and flip"), DO_APPLY, DO_FLIP, 180, false},
    {ROW("tasks"), DO_TASK, DO_TASK, 180, false},
};

static void kind_is(void **state)
{
    const struct kind_row *r = *state;
    struct hand_work work;
    hand_work(&work);
    hand_add(&work, 0, r->a, 30)->grit = 180;
    hand_add(&work, 0, r->b, 30)->grit = r->grit;
    check_int(&r->row, operation_same_kind(&work.items[0], &work.items[1]), r->want);
}

/* Coats of one kind are of one finish, one thinning and one tool; of two lots and pieces, all the same. */
static void kinds_of_coats(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    panel_add_piece(&work.panel);
    hand_add(&work, 0, DO_APPLY, 30);
    hand_add(&work, 1, DO_APPLY, 30);
    struct step *other = &work.panel.steps[1][0];
    struct finish varnish = work.panel.finish;
    check_true(HERE, operation_same_kind(&work.items[0], &work.items[1]), "the same");
    other->thin = 0.1;
    check_true(HERE, !operation_same_kind(&work.items[0], &work.items[1]), "thinned");
    check_true(HERE, operation_is_mixed(&work.items[1]) && !operation_is_mixed(&work.items[0]),
               "so it is mixed");
    other->thin = 0;
    other->by = TOOL_HVLP;
    check_true(HERE, !operation_same_kind(&work.items[0], &work.items[1]), "another tool");
    check_true(HERE, operation_sprays(&work.items[1]) && !operation_sprays(&work.items[0]), "a gun");
    other->by = TOOL_CLOTH;
    other->finish = &varnish;
    check_true(HERE, !operation_same_kind(&work.items[0], &work.items[1]), "another finish");
    varnish.component_count = 2;
    check_true(HERE, operation_is_mixed(&work.items[1]), "two parts");
}

static void lots_of_a_piece(void **state)
{
    (void)state;
    const struct job jobs[2] = {{0}};
    const struct operation a = {.job = &jobs[0], .piece = 0, .lot = 1};
    struct operation b = a;
    check_true(HERE, operation_same_lot(&a, &b), "the same");
    b.lot = 2;
    check_true(HERE, !operation_same_lot(&a, &b), "another lot");
    b = a;
    b.piece = 1;
    check_true(HERE, !operation_same_lot(&a, &b), "another piece");
    b = a;
    b.job = &jobs[1];
    check_true(HERE, !operation_same_lot(&a, &b), "another job");
    b = a;
    b.piece = -1;
    check_true(HERE, !operation_same_lot(&b, &b), "a task is no lot");
}

struct release_row {
    struct row row;
    int now, facts, ready; /* hours of Monday; the job starts at 8; -1: nothing is said */
    bool task;
    int want;
};

/* The latest of the start, of now, of what was done before it, and of when the piece is there. */
static const struct release_row releases[] = {
    {ROW("the start"), -1, -1, -1, false, 8}, {ROW("before the start"), 7, 6, 5, false, 8},
    {ROW("now"), 10, 9, 9, false, 10},        {ROW("the facts"), 9, 11, 10, false, 11},
    {ROW("the piece"), 9, 10, 12, false, 12}, {ROW("no piece"), 9, 10, 12, true, 10},
};

static int64_t hour_of(int hour)
{
    return hour < 0 ? INT64_MIN : march(1, hour, 0);
}

static void release_is(void **state)
{
    const struct release_row *r = *state;
    struct hand_work work;
    hand_work(&work);
    work.panel.job.now_min = hour_of(r->now);
    work.panel.pieces[0].ready_min = hour_of(r->ready);
    struct operation *operation = hand_add(&work, r->task ? -1 : 0, r->task ? DO_TASK : DO_SAND, 30);
    operation->release_min = hour_of(r->facts);
    check_int(&r->row, operation_release_min(operation), march(1, r->want, 0));
}

/* The first coat dries 2 h and has a window of 5, later ones 3 h and 6. */
static void times_of_a_coat(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    work.panel.finish.first.after_min[STATE_HANDLE] = 120;
    work.panel.finish.later.after_min[STATE_HANDLE] = 180;
    work.panel.finish.first.recoat_last_min = 300;
    work.panel.finish.later.recoat_last_min = 360;
    struct operation *coat = hand_add(&work, 0, DO_APPLY, 30);
    check_int(HERE, operation_state_min(coat, STATE_HANDLE), 120);
    check_int(HERE, operation_state_min(coat, STATE_RECOAT), 0);
    check_int(HERE, operation_window_min(coat), 300);
    coat->of.of_finish = 2;
    check_int(HERE, operation_state_min(coat, STATE_HANDLE), 180);
    check_int(HERE, operation_window_min(coat), 360);
}

/* 1, 2 and 5 m2 of one finish: an eighth, a quarter, five eighths; by itself all; of no area at all, alike.
 */
static void shares_of_the_loss(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    panel_add_piece(&work.panel);
    panel_add_piece(&work.panel);
    static const double areas_m2[] = {1, 2, 5};
    const struct operation *coats[3];
    double shares[3];
    for (int i = 0; i < 3; i++) {
        panel_set_hours(&work.panel, (size_t)i, areas_m2[i]);
        coats[i] = hand_add(&work, i, DO_APPLY, 30);
    }
    operations_share_loss(coats, 3, shares);
    for (int i = 0; i < 3; i++)
        check_double(HERE, shares[i], areas_m2[i] / 8, 1e-12);
    operations_share_loss(&coats[2], 1, shares);
    check_double(HERE, shares[0], 1, 0);
    for (int i = 0; i < 3; i++)
        panel_set_hours(&work.panel, (size_t)i, 0);
    operations_share_loss(coats, 2, shares);
    check_double(HERE, shares[0], 0.5, 0);
    check_double(HERE, shares[1], 0.5, 0);
}

static void whether_a_finish_is_laid(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    const struct finish other = work.panel.finish;
    check_true(HERE, !operations_lay(&work.operations, &work.panel.finish), "no work");
    hand_add(&work, 0, DO_SAND, 30);
    check_true(HERE, !operations_lay(&work.operations, &work.panel.finish), "no coat");
    hand_add(&work, 0, DO_APPLY, 30);
    check_true(HERE, operations_lay(&work.operations, &work.panel.finish), "a coat");
    check_true(HERE, !operations_lay(&work.operations, &other), "of another finish");
    work.items[0] = work.items[1];
    work.operations.count = 1;
    check_true(HERE, operations_lay(&work.operations, &work.panel.finish), "the first of all");
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(doings, doing_is), CHECK_ROWS(kinds, kind_is), CHECK_TEST(kinds_of_coats),
                     CHECK_TEST(lots_of_a_piece), CHECK_ROWS(releases, release_is),
                     CHECK_TEST(times_of_a_coat), CHECK_TEST(shares_of_the_loss),
                     CHECK_TEST(whether_a_finish_is_laid));
}
