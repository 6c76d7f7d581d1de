/* What a shop's logs say, worked by hand: an oil of 10 m2/l by cloth, which keeps 5 ml of each batch, at 1 m2 an hour. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "plan/learned.h"

#include <math.h>

enum { ENTRIES_MOST = 2 };
static const double loss_l = 0.005;

/* A of 2 m2, 0.2 l and 120 min, and B of 1 m2, 0.1 l and 60 min, with a coat each. */
struct shop_log {
    struct arena *arena;
    struct panel panel;
    struct log_entry entries[ENTRIES_MOST];
};

static const struct operations *work_of(struct shop_log *log)
{
    struct err_list errors = {0};
    return timetable_operations(log->arena, &log->panel.job, &log->panel.surfaces, &errors);
}

/* On Monday from 08:00 on, so many minutes and litres each (-1: not recorded), in one batch or each in its own. */
static struct shop_log *log_make(int minutes_a, double litres_a, int minutes_b, double litres_b,
                                 bool one_batch)
{
    struct arena *arena = arena_make(0);
    struct shop_log *log = ARENA_NEW(arena, struct shop_log);
    const int minutes[] = {minutes_a, minutes_b};
    const double litres[] = {litres_a, litres_b};
    log->arena = arena;
    panel_init(&log->panel);
    panel_add_piece(&log->panel);
    panel_add_step(&log->panel, 0, STEP_COAT)->coats = 1;
    panel_add_step(&log->panel, 1, STEP_COAT)->coats = 1;
    panel_set_hours(&log->panel, 0, 2);
    log->panel.finish.tolerance = 0.2;
    const struct operations *work = work_of(log);
    int64_t at = march(1, 8, 0);
    for (size_t i = 0; i < ENTRIES_MOST; i++) {
        log->entries[i] = (struct log_entry){.number = (int64_t)i + 1,
                                             .written_min = INT64_MIN,
                                             .kind = LOG_DONE,
                                             .step = work->items[i].id,
                                             .began_min = at,
                                             .done_min = at + minutes[i],
                                             .used_l = litres[i],
                                             .batch = one_batch || i == 0 ? "first" : "second"};
        at += minutes[i];
    }
    log->panel.job.log =
        (struct log){.file = "test.log", .entries = log->entries, .count = ENTRIES_MOST, .last = 2};
    log->panel.job.now_min = march(1, 16, 0);
    return log;
}

static const struct learned *learned_of(struct shop_log *log)
{
    const struct operations *work = work_of(log);
    check_int(HERE, (intmax_t)work->fact_count, ENTRIES_MOST);
    return learned_make(log->arena, &work, 1, NULL, 0);
}

/* 0.245 and 0.105 l: 1.2 and 1 of what was computed. 150 and 60 min: 1.25 and 1. Factors exp(m), m of two is their sum by 3. */
static void two_batches(void **state)
{
    (void)state;
    struct shop_log *log = log_make(150, 0.24 + loss_l, 60, 0.1 + loss_l, false);
    const struct learned *learned = learned_of(log);
    check_int(HERE, (intmax_t)learned->count, 1);
    const struct learned_row *row = &learned->rows[0];
    check_int(HERE, row->tool, TOOL_CLOTH);
    check_int(HERE, (intmax_t)row->batch_count, 2);
    check_int(HERE, (intmax_t)row->coats, 2);
    check_double(HERE, row->litres.factor, exp(log1p(0.2) / 3), 1e-9);
    check_int(HERE, (intmax_t)row->minutes_count, 2);
    check_double(HERE, row->time.factor, exp(log1p(0.25) / 3), 1e-9);
    check_double(HERE, row->loss_l, loss_l, 1e-12);
    check_int(HERE, (intmax_t)row->loss_batches, 0);
    arena_free(log->arena);
}

/* Both coats in one batch lose 5 ml together. */
static void one_batch_of_both(void **state)
{
    (void)state;
    struct shop_log *log = log_make(120, 0.24, 60, 0.12 + loss_l, true);
    const struct learned_row *row = &learned_of(log)->rows[0];
    check_int(HERE, (intmax_t)row->batch_count, 1);
    check_int(HERE, (intmax_t)row->batches[0].coats, 2);
    check_double(HERE, row->batches[0].laid_l, 0.3, 1e-9);
    check_double(HERE, row->batches[0].used_l, 0.36 + loss_l, 1e-9);
    check_double(HERE, row->batches[0].loss_l, loss_l, 1e-9);
    check_double(HERE, row->litres.factor, exp(log1p(0.2) / 2), 1e-9);
    arena_free(log->arena);
}

/* Of one alone the litres were recorded: its share of what stays in the cloth is that of its litres, two thirds, or one third. */
static void one_of_a_batch(void **state)
{
    (void)state;
    for (int first = 0; first < 2; first++) {
        struct shop_log *log = log_make(120, first ? 0.3 : -1, 60, first ? -1 : 0.2, true);
        const struct learned_row *row = &learned_of(log)->rows[0];
        check_int(HERE, (intmax_t)row->batch_count, 1);
        check_int(HERE, (intmax_t)row->coats, 1);
        check_double(HERE, row->batches[0].laid_l, first ? 0.2 : 0.1, 1e-9);
        check_double(HERE, row->batches[0].share, first ? 2.0 / 3 : 1.0 / 3, 1e-9);
        check_double(HERE, row->batches[0].loss_l, (first ? 2 : 1) * loss_l / 3, 1e-9);
        arena_free(log->arena);
    }
}

/* What was recorded as planned was not measured; what has no litres says nothing of them. */
static void nothing_measured(void **state)
{
    (void)state;
    struct shop_log *log = log_make(240, -1, 60, -1, true);
    log->entries[0].as_planned = log->entries[1].as_planned = true;
    const struct learned_row *row = &learned_of(log)->rows[0];
    check_int(HERE, (intmax_t)row->minutes_count, 0);
    check_int(HERE, (intmax_t)row->batch_count, 0);
    check_double(HERE, row->litres.factor, 1, 0);
    check_double(HERE, row->time.factor, 1, 0);
    arena_free(log->arena);
}

/* A was coated and C sanded: the one says how long a coat takes and what it uses, the other nothing. */
static void sanding_says_nothing(void **state)
{
    (void)state;
    struct shop_log *log = log_make(150, 0.24 + loss_l, 60, 0.1 + loss_l, false);
    size_t c = panel_add_piece(&log->panel);
    panel_add_step(&log->panel, c, STEP_SAND);
    panel_add_step(&log->panel, c, STEP_COAT)->coats = 1;
    log->panel.job.log.count = 0;
    const struct operations *work = work_of(log);
    for (size_t i = 0; i < work->count; i++)
        if (work->items[i].doing == DO_SAND)
            log->entries[1].step = work->items[i].id;
    log->panel.job.log.count = ENTRIES_MOST;
    const struct learned *learned = learned_of(log);
    check_int(HERE, (intmax_t)learned->count, 1);
    check_int(HERE, (intmax_t)learned->rows[0].minutes_count, 1);
    check_double(HERE, learned->rows[0].minutes[0], 1.25, 1e-12);
    check_int(HERE, (intmax_t)learned->rows[0].batch_count, 1);
    arena_free(log->arena);
}

/* Of all tools of the finish, but those with a coverage of their own, and of no other finish. */
static void coverage_of_a_finish(void **state)
{
    (void)state;
    struct shop_log *log = log_make(120, 0.24 + loss_l, 60, 0.12 + loss_l, false);
    const struct learned *learned = learned_of(log);
    struct finish finish = log->panel.finish, other = finish;
    size_t coats;
    struct estimate estimate = learned_coverage(log->arena, learned, &finish, &coats);
    check_int(HERE, (intmax_t)coats, 2);
    check_int(HERE, (intmax_t)estimate.count, 2);
    check_double(HERE, estimate.factor, exp(log1p(0.2) * 2 / 3), 1e-9);
    other.id = "wax";
    check_int(HERE, (intmax_t)learned_coverage(log->arena, learned, &other, &coats).count, 0);
    check_int(HERE, (intmax_t)coats, 0);
    finish.tool_m2_per_l[TOOL_PAD] = 12;
    check_int(HERE, (intmax_t)learned_coverage(log->arena, learned, &finish, &coats).count, 2);
    finish.tool_m2_per_l[TOOL_CLOTH] = 12;
    check_int(HERE, (intmax_t)learned_coverage(log->arena, learned, &finish, &coats).count, 0);
    check_int(HERE, (intmax_t)coats, 0);
    arena_free(log->arena);
}

/* A file that was learned is compared with the table's finish of its id. */
static void learned_before(void **state)
{
    (void)state;
    struct shop_log *log = log_make(120, 0.24 + loss_l, 60, 0.12 + loss_l, false);
    struct finish table = log->panel.finish, other = table;
    const struct finish *const finishes[] = {&other, &table};
    other.id = "wax";
    log->panel.finish.learned = true;
    log->panel.finish.first_m2_per_l = log->panel.finish.later_m2_per_l = 1000;
    const struct operations *work = work_of(log);
    const struct learned_row *row = &learned_make(log->arena, &work, 1, finishes, 2)->rows[0];
    check_true(HERE, row->finish == &table, "the table's");
    check_double(HERE, row->litres.factor, exp(log1p(0.2) * 2 / 3), 1e-9);
    arena_free(log->arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(two_batches), CHECK_TEST(one_batch_of_both), CHECK_TEST(one_of_a_batch),
                     CHECK_TEST(nothing_measured), CHECK_TEST(sanding_says_nothing),
                     CHECK_TEST(coverage_of_a_finish), CHECK_TEST(learned_before));
}
