/* What a job costs of which something is done; and what it was to be before, the plan to which a quote compares that. */
#include "check.h"
#include "job_text.h"
#include "panel.h"

#include "base/arena.h"
#include "plan/plan.h"

enum { JOBS = 2 };

static struct job *logged_job(struct reader *reader, struct log_entry *entry)
{
    struct job *job = job_text_read(reader, NOTHING, NULL, NULL);
    assert_non_null(job);
    job->log = (struct log){.file = "job.log", .entries = entry, .count = 1, .last = 1};
    job->now_min = job->start_min + 60;
    return job;
}

/* Of one job, or of two that share a shop. */
static void first_plan_knows_no_log(void **state)
{
    (void)state;
    for (size_t count = 1; count <= JOBS; count++) {
        struct reader *reader = reader_make();
        struct log_entry entry = {.number = 1, .kind = LOG_DONE, .step = "none"};
        const struct job *jobs[JOBS] = {logged_job(reader, &entry),
                                        job_text_read(reader, NOTHING, NULL, NULL)};
        struct plan_options options = {.timetable.effort = 1000};
        struct plan **plans = plan_without_logs(reader->arena, jobs, count, options);
        assert_non_null(plans);
        for (size_t j = 0; j < count; j++) {
            check_int(HERE, plans[j]->timetable->status, TIMETABLE_PLANNED);
            check_int(HERE, (intmax_t)plans[j]->job->log.count, 0);
            check_int(HERE, (intmax_t)plans[j]->operations->fact_count, 0);
        }
        reader_free(reader);
    }
}

static void no_first_plan_without_a_log(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const struct job *job = job_text_read(reader, NOTHING, NULL, NULL);
    check_true(HERE, !plan_without_logs(reader->arena, &job, 1, (struct plan_options){0}), "none");
    reader_free(reader);
}

/* A was sanded in 60 min, set up in 30, and coated in 90, with 10 before and 5 after: 195 min at 60.00 an hour. 150 ml were used of a
 * litre at 20.00. B is still to do. */
static void what_was_done_costs_what_it_took(void **state)
{
    (void)state;
    static const struct pack litre = {1, 2000, "1 l"};
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct panel panel;
    struct sundries none = {0};
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT);
    panel.component.packs = &litre;
    panel.component.pack_count = 1;
    panel.job.shop.rate_cents_per_hour = 6000;
    panel.job.shop.set_up_min[WORK_SAND] = 30;
    panel.job.shop.set_up_min[TOOL_CLOTH] = 10;
    panel.job.shop.clean_up_min[TOOL_CLOTH] = 5;
    const struct operations *work = timetable_operations(arena, &panel.job, &panel.surfaces, &errors);
    const struct log_entry done[] = {{.number = 1,
                                      .kind = LOG_DONE,
                                      .step = work->items[0].id,
                                      .began_min = march(1, 8, 0),
                                      .done_min = march(1, 9, 0),
                                      .used_l = -1,
                                      .batch = "first"},
                                     {.number = 2,
                                      .kind = LOG_DONE,
                                      .step = work->items[1].id,
                                      .began_min = march(1, 9, 0),
                                      .done_min = march(1, 10, 30),
                                      .used_l = 0.15,
                                      .batch = "second"}};
    panel.job.log = (struct log){.file = "test.log", .entries = done, .count = 2, .last = 2};
    panel.job.now_min = march(1, 12, 0);
    const struct timetable *timetable = panel_dated(arena, &panel);
    const struct plan plan = {
        .job = &panel.job, .operations = timetable->operations, .timetable = timetable, .sundries = &none};
    const struct purchases *in_all = plan_purchases_in_all(arena, timetable);
    const struct purchases *to_buy = plan_purchases(arena, timetable);
    const struct costs *costs = plan_costs(arena, &plan, in_all);
    /* What is left to buy is for B alone; in all, what A took comes on top of that. */
    check_int(HERE, (intmax_t)to_buy->count, 1);
    check_double(HERE, to_buy->items[0].need.used_l, 0.15, 1e-12);
    /* A square metre takes 0.1 l, and the cloth keeps 5 ml. */
    check_double(HERE, to_buy->items[0].need.likely_l, 0.105, 1e-12);
    check_double(HERE, in_all->items[0].need.likely_l, to_buy->items[0].need.likely_l + 0.15, 1e-12);
    check_int(HERE, (intmax_t)costs->count, 2);
    check_int(HERE, (intmax_t)costs->lines[0].piece, 0);
    check_int(HERE, costs->lines[0].minutes, 195);
    check_int(HERE, costs->lines[0].labour_cents, 19500);
    check_int(HERE, costs->lines[0].material_cents, 300);
    arena_free(arena);
}

/* Coated at 08:00 and again a day later, on the 2nd; delivered on the 12th. */
static void finish_is_good_until_the_last_coat(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(&panel, DAY_MINUTES, SPAN_NEVER);
    const struct purchases *to_buy = plan_purchases(arena, panel_dated(arena, &panel));
    check_int(HERE, (intmax_t)to_buy->count, 1);
    check_int(HERE, to_buy->items[0].need.last_coat_day, zone_day(panel.job.zone, march(2, 12, 0), NULL));
    arena_free(arena);
}

/* A is coated in an hour on its face and in another on its back, and turned in a minute by two, all that the shop has: 122 min are
 * paid. Where the face is done, and turning it took ten minutes of the clock: 60 + 2 x 10 and the hour to come. */
static void both_who_turn_a_piece_are_paid(void **state)
{
    (void)state;
    for (int is_turned = 0; is_turned < 2; is_turned++) {
        struct arena *arena = arena_make(0);
        struct err_list errors = {0};
        struct panel panel;
        struct sundries none = {0};
        panel_init(&panel);
        panel_add_step(&panel, 0, STEP_COAT);
        panel_two_sides(&panel, 0);
        panel.pieces[0].lift = panel.job.shop.people = 2;
        const struct operations *work = timetable_operations(arena, &panel.job, &panel.surfaces, &errors);
        const struct log_entry done[] = {{.number = 1,
                                          .kind = LOG_DONE,
                                          .step = work->items[0].id,
                                          .began_min = march(1, 8, 0),
                                          .done_min = march(1, 9, 0),
                                          .used_l = -1},
                                         {.number = 2,
                                          .kind = LOG_DONE,
                                          .step = work->items[1].id,
                                          .began_min = march(1, 9, 0),
                                          .done_min = march(1, 9, 10),
                                          .used_l = -1}};
        check_int(HERE, work->items[1].doing, DO_FLIP);
        if (is_turned) {
            panel.job.log = (struct log){.file = "test.log", .entries = done, .count = 2, .last = 2};
            panel.job.now_min = march(1, 12, 0);
        }
        const struct timetable *timetable = panel_dated(arena, &panel);
        const struct plan plan = {.job = &panel.job,
                                  .operations = timetable->operations,
                                  .timetable = timetable,
                                  .sundries = &none};
        const struct costs *costs = plan_costs(arena, &plan, plan_purchases_in_all(arena, timetable));
        check_int(HERE, costs->total.minutes, is_turned ? 60 + 2 * 10 + 60 : 60 + 2 * 1 + 60);
        arena_free(arena);
    }
}

/* Sanding takes no finish: its material is three discs at 0.50, and nothing beside. */
static void discs_alone_are_material(void **state)
{
    (void)state;
    static const struct sundry_rule disc = {.name = "disc", .cents_each = 50};
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct sundry three = {.rule = &disc, .whole = 3};
    struct sundries discs = {&three, 1};
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    const struct timetable *timetable = panel_dated(arena, &panel);
    const struct plan plan = {
        .job = &panel.job, .operations = timetable->operations, .timetable = timetable, .sundries = &discs};
    const struct costs *costs = plan_costs(arena, &plan, plan_purchases_in_all(arena, timetable));
    check_int(HERE, costs->total.material_cents, 150);
    arena_free(arena);
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_TEST(first_plan_knows_no_log), CHECK_TEST(no_first_plan_without_a_log),
                     CHECK_TEST(what_was_done_costs_what_it_took),
                     CHECK_TEST(finish_is_good_until_the_last_coat),
                     CHECK_TEST(both_who_turn_a_piece_are_paid), CHECK_TEST(discs_alone_are_material));
}
