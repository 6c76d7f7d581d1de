/* The work of a whole job: tasks, what waits for what between pieces and tasks, names that give one id, jobs
 * together, and how far a plan looks ahead. The shop is open 08:00-17:00 daily; each step of a piece is named
 * by its id. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"
#include "base/err.h"
#include "timetable/work.h"

#include <string.h>

enum { H = 60, D = 24 * 60, TASKS = 3 };

/* Pieces of one coat each, and tasks. */
struct whole {
    struct panel panel;
    struct task tasks[TASKS];
    struct arena *arena;
    struct err_list errors;
    int lots[PANEL_PIECES];
};

static struct whole *whole_make(int pieces, int tasks)
{
    static const char *const names[TASKS] = {"Fit hinges", "Glue up", "Pack"};
    struct arena *arena = arena_make(0);
    struct whole *whole = ARENA_NEW(arena, struct whole);
    whole->arena = arena;
    panel_init(&whole->panel);
    for (int i = 1; i < pieces; i++)
        panel_add_piece(&whole->panel);
    for (int i = 0; i < PANEL_PIECES; i++)
        whole->lots[i] = 1;
    for (int i = 0; i < tasks; i++)
        whole->tasks[i] = (struct task){.name = names[i], .takes_min = 60};
    whole->panel.job.tasks = whole->tasks;
    whole->panel.job.task_count = (size_t)tasks;
    return whole;
}

static const struct operations *work_of(struct whole *whole)
{
    const struct shop_limits limits = {
        .longest_min = 9 * H, .break_min = INT32_MAX, .off_min = 15 * H, .warmest_c = 23};
    whole->errors = (struct err_list){0};
    return operations_make(whole->arena, &whole->panel.job, &whole->panel.surfaces, limits, whole->lots,
                           &whole->errors);
}

static int number_of(const struct operations *operations, const char *id)
{
    for (size_t i = 0; i < operations->count; i++)
        if (strcmp(operations->items[i].id, id) == 0)
            return (int)i;
    return -1;
}

/* Links of a kind from one step to another. */
static int links_of(const struct operations *operations, const char *from, const char *to,
                    enum link_kind kind)
{
    int count = 0;
    for (size_t i = 0; i < operations->link_count; i++) {
        const struct link *link = &operations->links[i];
        count += link->from == number_of(operations, from) && link->to == number_of(operations, to) &&
                 link->kind == kind && link->unless == -1;
    }
    return count;
}

static void a_task(void **state)
{
    (void)state;
    struct whole *whole = whole_make(1, 1);
    const struct operations *work = work_of(whole);
    check_int(HERE, (intmax_t)work->count, 1);
    check_true(HERE, work->job == &whole->panel.job && work->surfaces == &whole->panel.surfaces,
               "of its job");
    const struct operation *task = &work->items[0];
    check_text(HERE, task->id, "task/fit-hinges");
    check_text(HERE, task->words, "Fit hinges");
    check_int(HERE, task->doing, DO_TASK);
    check_int(HERE, task->minutes, 60);
    check_int(HERE, task->piece, -1);
    check_int(HERE, task->schedule, -1);
    check_int(HERE, task->task, 0);
    check_int(HERE, task->work, -1);
    check_int(HERE, task->lot, 1);
    check_int(HERE, task->lots, 1);
    check_int(HERE, task->part, 1);
    check_int(HERE, task->parts, 1);
    check_int(HERE, task->people, 1);
    check_int(HERE, task->release_min, INT64_MIN);
    check_int(HERE, task->latest_min, INT64_MAX);
    check_int(HERE, task->latest_unless, -1);
    check_int(HERE, (intmax_t)work->link_count, 0);
    check_int(HERE, (intmax_t)work->line_count, 1);
    check_int(HERE, work->lines[0].operation, 0);
    check_int(HERE, work->lines[0].is_state, false);
    check_int(HERE, work->lines[0].span_min, 0);
    arena_free(whole->arena);
}

/* 20 h in days of 9 h are three parts of 6 h 40 min, which follow one another; the job is ready with the
 * last. What waits for the task waits for its last part, what the task waits for holds its first back. */
static void a_task_of_several_days(void **state)
{
    (void)state;
    static const struct after after = {.is_task = true, .index = 1};
    struct whole *whole = whole_make(1, 3);
    whole->tasks[1].takes_min = 20 * H;
    whole->tasks[1].after = &(const struct after){.is_task = true, .index = 0};
    whole->tasks[2].after = &after;
    whole->tasks[1].after_count = whole->tasks[2].after_count = 1;
    const struct operations *work = work_of(whole);
    static const char *const ids[] = {"task/fit-hinges", "task/glue-up", "task/glue-up#2", "task/glue-up#3",
                                      "task/pack"};
    check_int(HERE, (intmax_t)work->count, 5);
    for (int i = 0; i < 5; i++)
        check_text(HERE, work->items[i].id, ids[i]);
    for (int i = 0; i < 3; i++) {
        check_int(HERE, work->items[i + 1].minutes, 400);
        check_int(HERE, work->items[i + 1].part, i + 1);
        check_int(HERE, work->items[i + 1].parts, 3);
        check_int(HERE, work->items[i + 1].chain, work->items[1].chain);
    }
    for (int i = 0; i < 4; i++)
        check_int(HERE, links_of(work, ids[i], ids[i + 1], LINK_END), 1);
    check_int(HERE, (intmax_t)work->link_count, 4);
    check_int(HERE, (intmax_t)work->line_count, 3);
    check_int(HERE, work->lines[1].operation, 3);
    check_true(HERE, work->items[0].chain != work->items[1].chain, "tasks are rows of their own");
    arena_free(whole->arena);
}

/* Two coats on A: B and a task wait until the last is dry to handle or may be coated; what waits is the first
 * step of B's row. */
static void waiting_for_a_coated_piece(void **state)
{
    (void)state;
    struct whole *whole = whole_make(2, 1);
    struct panel *panel = &whole->panel;
    panel_add_step(panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(panel, 1, STEP_SAND);
    panel_add_step(panel, 1, STEP_COAT);
    const struct after handle = {.index = 0, .state = STATE_HANDLE},
                       recoat = {.index = 0, .state = STATE_RECOAT};
    panel->pieces[1].after = &handle;
    whole->tasks[0].after = &recoat;
    panel->pieces[1].after_count = whole->tasks[0].after_count = 1;
    const struct operations *work = work_of(whole);
    check_int(HERE, links_of(work, "a/oil/2/apply", "b/oil-b/0/sand-180", LINK_STATE), 1);
    check_int(HERE, links_of(work, "a/oil/2/apply", "task/fit-hinges", LINK_STATE), 1);
    check_int(HERE, links_of(work, "a/oil/1/apply", "task/fit-hinges", LINK_STATE), 0);
    check_int(HERE, links_of(work, "a/oil/2/apply", "b/oil-b/1/apply", LINK_STATE), 0);
    check_int(HERE, links_of(work, "a/oil/2/apply", "task/fit-hinges", LINK_END), 0);
    for (size_t i = 0; i < work->link_count; i++) {
        const struct link *link = &work->links[i];
        if (link->to == number_of(work, "task/fit-hinges"))
            check_int(HERE, link->state, STATE_RECOAT);
        if (link->to == number_of(work, "b/oil-b/0/sand-180"))
            check_int(HERE, link->state, STATE_HANDLE);
    }
    check_int(HERE, (intmax_t)work->line_count, 5); /* each last coat, each last step, the task */
    arena_free(whole->arena);
}

/* A piece that is only sanded, with two grits and in two lots, is done when the last step of each lot is: two
 * rows, two ends. */
static void waiting_for_a_piece_without_coats(void **state)
{
    (void)state;
    struct whole *whole = whole_make(2, 1);
    struct panel *panel = &whole->panel;
    panel_add_step(panel, 0, STEP_SAND);
    panel_add_step(panel, 0, STEP_SAND)->grit = 240;
    panel_add_step(panel, 1, STEP_COAT);
    panel->parts[0].qty = 2;
    whole->lots[0] = 2;
    const struct after handle = {.index = 0, .state = STATE_HANDLE};
    whole->tasks[0].after = &handle;
    whole->tasks[0].after_count = 1;
    const struct operations *work = work_of(whole);
    check_int(HERE, links_of(work, "a.1/oil/0/sand-240", "task/fit-hinges", LINK_END), 1);
    check_int(HERE, links_of(work, "a.2/oil/0/sand-240", "task/fit-hinges", LINK_END), 1);
    int count = 0;
    for (size_t i = 0; i < work->link_count; i++)
        count += work->links[i].to == number_of(work, "task/fit-hinges");
    check_int(HERE, count, 2);
    arena_free(whole->arena);
}

/* The task comes before B and before both lots of A; the next task before A alone. */
static void a_task_before_pieces(void **state)
{
    (void)state;
    static const size_t both[] = {1, 0}, first[] = {0};
    struct whole *whole = whole_make(2, 2);
    struct panel *panel = &whole->panel;
    panel_add_step(panel, 0, STEP_SAND);
    panel_add_step(panel, 0, STEP_COAT);
    panel_add_step(panel, 1, STEP_COAT);
    panel->parts[0].qty = 2;
    whole->lots[0] = 2;
    whole->tasks[0].before = both;
    whole->tasks[0].before_count = 2;
    whole->tasks[1].before = first;
    whole->tasks[1].before_count = 1;
    const struct operations *work = work_of(whole);
    static const char *const firsts[] = {"a.1/oil/0/sand-180", "a.2/oil/0/sand-180", "b/oil-b/1/apply"};
    for (int i = 0; i < 3; i++) {
        check_int(HERE, links_of(work, "task/fit-hinges", firsts[i], LINK_END), 1);
        check_int(HERE, links_of(work, "task/glue-up", firsts[i], LINK_END), i < 2);
    }
    check_int(HERE, links_of(work, "task/fit-hinges", "a.1/oil/1/apply", LINK_END), 0);
    arena_free(whole->arena);
}

/* Names that differ by case, blanks and signs alone give one id, each kind of name by itself. */
static void names_that_give_one_id(void **state)
{
    (void)state;
    struct whole *whole = whole_make(3, 3);
    check_true(HERE, work_of(whole) && whole->errors.count == 0, "all differ");
    whole->panel.pieces[2].name = "a!";
    check_true(HERE, !work_of(whole) && whole->errors.count == 1, "two pieces");
    check_text(HERE, whole->errors.items[0].pointer, "/pieces");
    check_text(HERE, whole->errors.items[0].found, "two that are both \"a\"");
    whole->panel.schedules[2].name = "OIL";
    whole->tasks[2].name = "fit  hinges";
    check_true(HERE, !work_of(whole) && whole->errors.count == 3, "two of each");
    check_text(HERE, whole->errors.items[1].pointer, "/schedules");
    check_text(HERE, whole->errors.items[2].pointer, "/tasks");
    whole->panel.pieces[2].name = "oil"; /* as a schedule is called */
    whole->panel.schedules[2].name = "fit hinges";
    whole->tasks[2].name = "b";
    check_true(HERE, work_of(whole) != NULL, "a piece, a schedule and a task may share one");
    arena_free(whole->arena);
}

/* What the log leaves out is not there; what it asks of no step is told. */
static void what_the_log_asks(void **state)
{
    (void)state;
    static const struct log_entry entries[] = {{.number = 1, .kind = LOG_SKIP, .step = "a/oil/9/apply"},
                                               {.number = 2, .kind = LOG_SKIP, .step = "a/oil/0/sand-180"},
                                               {.number = 3, .kind = LOG_AGAIN, .step = "b/oil/1/apply"}};
    struct whole *whole = whole_make(1, 0);
    panel_add_step(&whole->panel, 0, STEP_SAND);
    panel_add_step(&whole->panel, 0, STEP_COAT);
    whole->panel.job.log = (struct log){.entries = entries, .count = 3};
    const struct operations *work = work_of(whole);
    check_int(HERE, (intmax_t)work->count, 1);
    check_text(HERE, work->items[0].id, "a/oil/1/apply");
    check_int(HERE, (intmax_t)work->stray_count, 2);
    check_int(HERE, work->strays[0]->number, 1);
    check_int(HERE, work->strays[1]->number, 3);
    arena_free(whole->arena);
}

/* The second job's steps, links, lines and facts stand behind the first's, with their numbers moved; the shop
 * works from the earlier start to the later delivery. */
static void jobs_together(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work *works = ARENA_ARRAY(arena, 2, struct hand_work);
    for (int j = 0; j < 2; j++) {
        struct hand_work *work = &works[j];
        hand_work(work);
        for (int i = 0; i < 2 + j; i++)
            hand_add(work, 0, DO_SAND, 30);
        hand_link(work, 0, 1, LINK_WINDOW, 7)->unless = 0;
        hand_link(work, 0, 1, LINK_END, 8);
        work->items[1].latest_unless = 0;
        work->lines[0].operation = 1;
        work->operations.line_count = 1;
        work->facts[0].operation.id = j ? "second" : "first";
        work->operations.fact_count = 1;
    }
    works[0].panel.job.start_min = march(2, 8, 0);
    works[1].panel.job.start_min = march(1, 8, 0);
    works[0].panel.job.deliver_min = march(5, 8, 0);
    works[1].panel.job.deliver_min = march(4, 8, 0);
    works[0].panel.job.name = "Desk";
    const struct operations *jobs[] = {&works[0].operations, &works[1].operations};
    struct joined joined;
    operations_join(arena, jobs, 2, &joined);
    check_text(HERE, joined.shop_job->name, "Desk");
    const struct operations *all = &joined.all;
    check_int(HERE, (intmax_t)all->count, 5);
    check_int(HERE, (intmax_t)all->link_count, 4);
    check_int(HERE, (intmax_t)all->line_count, 2);
    check_int(HERE, (intmax_t)all->fact_count, 2);
    check_int(HERE, (intmax_t)joined.first[0], 0);
    check_int(HERE, (intmax_t)joined.first[1], 2);
    check_int(HERE, (intmax_t)joined.first[2], 5);
    check_true(HERE, all->items[1].job == &works[0].panel.job && all->items[2].job == &works[1].panel.job,
               "whose");
    check_int(HERE, all->items[0].chain, 0);
    check_int(HERE, all->items[2].chain, 2);
    check_int(HERE, all->items[1].latest_unless, 0);
    check_int(HERE, all->items[3].latest_unless, 2);
    check_int(HERE, all->items[4].latest_unless, -1);
    check_int(HERE, all->links[0].unless, 0);
    check_int(HERE, all->links[2].from, 2);
    check_int(HERE, all->links[2].to, 3);
    check_int(HERE, all->links[2].unless, 2);
    check_int(HERE, all->links[3].unless, -1);
    check_int(HERE, all->links[3].span_min, 8);
    check_int(HERE, all->lines[0].operation, 1);
    check_int(HERE, all->lines[1].operation, 3);
    check_text(HERE, all->facts[0].operation.id, "first");
    check_text(HERE, all->facts[1].operation.id, "second");
    check_true(HERE, all->job == joined.shop_job && joined.shop_job != &works[0].panel.job,
               "a job of its own");
    check_true(HERE, all->surfaces == &works[0].panel.surfaces, "the first's");
    check_int(HERE, joined.shop_job->start_min, march(1, 8, 0));
    check_int(HERE, joined.shop_job->deliver_min, march(5, 8, 0));
    check_int(HERE, works[0].panel.job.start_min, march(2, 8, 0));
    arena_free(arena);
}

/* Each was read for its own time: what keeps people busy outside the first's is the second's. */
static void busy_times_together(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work *works = ARENA_ARRAY(arena, 2, struct hand_work);
    const struct busy busy = {march(20, 9, 0), march(20, 10, 0)};
    for (int j = 0; j < 2; j++) {
        hand_work(&works[j]);
        works[j].panel.job.shop.busy_from_min = march(1, 0, 0);
        works[j].panel.job.shop.busy_to_min = march(j ? 30 : 12, 0, 0);
    }
    works[1].panel.job.shop.busy = &busy;
    works[1].panel.job.shop.busy_count = 1;
    const struct operations *jobs[] = {&works[0].operations, &works[1].operations};
    struct joined joined;
    operations_join(arena, jobs, 2, &joined);
    check_int(HERE, (intmax_t)joined.shop_job->shop.busy_count, 1);
    check_int(HERE, (intmax_t)works[0].panel.job.shop.busy_count, 0);
    arena_free(arena);
}

/* How many minutes further a plan looks than that of two sandings of 30 min in one row. */
static int64_t looks_further(struct hand_work *work)
{
    struct arena *arena = arena_make(0);
    struct hand_work *plain = ARENA_NEW(arena, struct hand_work);
    hand_work(plain);
    hand_add(plain, 0, DO_SAND, 30);
    hand_add(plain, 0, DO_SAND, 30);
    hand_link(plain, 0, 1, LINK_END, 0);
    int64_t slots = operations_horizon(arena, &work->operations, false) -
                    operations_horizon(arena, &plain->operations, false);
    arena_free(arena);
    return slots * SLOT_MIN;
}

struct ahead_row {
    struct row row;
    struct link link;           /* between the first and the second */
    int closed_from, closed_to; /* days of March, 0: none */
    int64_t want;
};

/* A wait of the clock counts as it is, that of a film twice, since it may be cold; a day for so many coats a
 * day; limits nothing. Closed days count that are not over by the start, Monday the 1st. */
static const struct ahead_row aheads[] = {
    {ROW("nothing"), {.kind = LINK_END}, 0, 0, 0},
    {ROW("a wait"), {.kind = LINK_END, .span_min = 500}, 0, 0, 500},
    {ROW("a film"), {.kind = LINK_STATE, .state = STATE_RECOAT}, 0, 0, 2 * 600},
    {ROW("a day"), {.kind = LINK_DAY}, 0, 0, D - 30},
    {ROW("a window"), {.kind = LINK_WINDOW, .span_min = 500}, 0, 0, -30},
    {ROW("a polish"), {.kind = LINK_POLISH, .span_min = 500}, 0, 0, -30},
    {ROW("two closed days"), {.kind = LINK_END}, 4, 5, 2 * D},
    {ROW("closed on the first day"), {.kind = LINK_END}, 1, 1, D},
    {ROW("closed until the first day"), {.kind = LINK_END}, -3, 1, 5 * D},
    {ROW("closed before"), {.kind = LINK_END}, -3, 0, 0},
};

static void looks_ahead(void **state)
{
    const struct ahead_row *r = *state;
    struct hand_work work;
    hand_work(&work);
    panel_set_state(&work.panel, STATE_RECOAT, 600);
    int64_t day = date_days((struct date){2027, 2, 28});
    const struct day_range closed = {day + r->closed_from, day + r->closed_to};
    work.panel.job.shop.closed = &closed;
    work.panel.job.shop.closed_count = r->closed_from != 0;
    /* A coat takes as long as the sanding that it is compared with. */
    hand_add(&work, 0, DO_APPLY, 30);
    hand_add(&work, 0, DO_SAND, 30);
    *hand_link(&work, 0, 1, r->link.kind, r->link.span_min) = r->link;
    work.links[0].to = 1;
    check_int(&r->row, looks_further(&work), r->want);
}

/* Another row of 315 min, set-ups counted, in a week of 7 x 9 h: 315 x 168 / 63 = 840 min of the clock. Half
 * as long open: twice that for all 120 + 60 + 315 min: 495 x 168 / 31.5 less 180 x 168 / 63 = 2640 - 480. */
static void work_takes_opening_hours(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    hand_add(&work, 0, DO_SAND, 30);
    hand_add(&work, 0, DO_SAND, 30);
    hand_link(&work, 0, 1, LINK_END, 0);
    check_int(HERE, looks_further(&work), 0);
    hand_add(&work, 1, DO_SAND, 255);
    check_int(HERE, looks_further(&work), 840);
    work.panel.stretches[0] = (struct stretch){8 * H, 12 * H + 30};
    check_int(HERE, looks_further(&work), 2640 - 480);
    work.panel.stretches[0] = (struct stretch){8 * H, 8 * H};
    check_int(HERE, looks_further(&work), -480);
}

/* Links named from the last to the first are one way all the same: 5 x (10 + 100) min, of which the plain one
 * has 30. */
static void the_way_is_found_whatever_its_order(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    panel_add_piece(&work.panel);
    hand_add(&work, 0, DO_SAND, 30);
    hand_add(&work, 0, DO_SAND, 30);
    for (int i = 0; i < 6; i++)
        hand_add(&work, 1, DO_FLIP, 10);
    int64_t without = looks_further(&work);
    for (int i = 6; i > 1; i--)
        hand_link(&work, i, i + 1, LINK_END, 100);
    check_int(HERE, looks_further(&work) - without, 5 * 110);
    hand_link(&work, 0, 1, LINK_END, 0);
    check_int(HERE, looks_further(&work) - without, 5 * 110);
    hand_link(&work, 7, 0, LINK_END, 100);
    work.links[5].kind = LINK_POLISH; /* nothing waits for the first of all, which waits for the last */
    check_int(HERE, looks_further(&work) - without, 6 * 110);
}

/* Asked to, it looks a week behind a delivery that is far away; and never further than the program does. */
static void as_far_as_the_delivery(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    hand_add(&work, 0, DO_APPLY, 30);
    hand_add(&work, 0, DO_APPLY, 30);
    int32_t near = operations_horizon(arena, &work.operations, false);
    check_int(HERE, operations_horizon(arena, &work.operations, true), near);
    work.panel.job.deliver_min = work.panel.job.start_min + 100 * D;
    check_int(HERE, operations_horizon(arena, &work.operations, false), near);
    check_int(HERE, operations_horizon(arena, &work.operations, true), 107 * 288);
    panel_set_state(&work.panel, STATE_CURED, SPAN_NEVER);
    hand_link(&work, 0, 1, LINK_STATE, 0)->state = STATE_CURED;
    check_int(HERE, operations_horizon(arena, &work.operations, false), 2 * 52 * 7 * 288);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(a_task), CHECK_TEST(a_task_of_several_days),
                     CHECK_TEST(waiting_for_a_coated_piece), CHECK_TEST(waiting_for_a_piece_without_coats),
                     CHECK_TEST(a_task_before_pieces), CHECK_TEST(names_that_give_one_id),
                     CHECK_TEST(what_the_log_asks), CHECK_TEST(jobs_together),
                     CHECK_TEST(busy_times_together), CHECK_ROWS(aheads, looks_ahead),
                     CHECK_TEST(work_takes_opening_hours), CHECK_TEST(the_way_is_found_whatever_its_order),
                     CHECK_TEST(as_far_as_the_delivery));
}
