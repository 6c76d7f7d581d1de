/* What the search promises: a first plan with any effort, never a worse one, and of a small job the best
 * that any order of batches gives. Open 08:00 to 17:00 daily. */
#include "check.h"
#include "orders.h"
#include "panel_site.h"
#include "work_list.h"

#include "base/arena.h"
#include "base/observer.h"
#include "timetable/batching.h"
#include "timetable/bounds.h"

enum { DRAWS = 150, ENOUGH = 3000000 };

static struct batching begun(const struct site *site, enum timetable_aim aim, int64_t effort)
{
    struct batching batching = {.site = site, .aim = aim, .effort = effort, .least = bounds_of(site)};
    batching_start(&batching);
    return batching;
}

/* The best score of all orders, in every way of keeping windows. */
static struct score best_of_all(const struct site *site, enum timetable_aim aim)
{
    struct variant *variant = variant_make(site->arena, site);
    struct score best = {0};
    for (int64_t n = 0; n < order_every(site); n++)
        for (int waits = 0; waits < 2; waits++) {
            if (!order_numbered(site, n, &variant->order))
                continue;
            variant->waits = waits;
            variant_place(variant, SCUFF_NEVER, ENOUGH);
            struct score score = score_of(variant);
            if (score_compare(&score, &best, aim) < 0)
                best = score;
        }
    return best;
}

/* Two or three pieces, each sanded, coated once or twice, or both; set-ups, drying, arrivals and the
 * delivery are drawn. */
static void draw(struct panel *panel, uint64_t *seed)
{
    panel_init(panel);
    int pieces = check_random_int(seed, 2, 3);
    for (int i = 0; i < pieces; i++) {
        if (i > 0)
            panel_add_piece(panel);
        bool sanded = check_random_int(seed, 0, 1);
        if (sanded)
            panel_add_step(panel, (size_t)i, STEP_SAND);
        if (!sanded || pieces == 2)
            panel_add_step(panel, (size_t)i, STEP_COAT)->coats =
                sanded ? 1 : check_random_int(seed, 1, pieces == 2 ? 2 : 1);
        panel_set_hours(panel, (size_t)i, check_random_int(seed, 2, 12) / 4.0);
        panel->pieces[i].ready_min = march(1, check_random_int(seed, 8, 11), 0);
    }
    panel->job.shop.people = check_random_int(seed, 1, 2);
    panel->job.shop.set_up_min[WORK_SAND] = 5 * check_random_int(seed, 0, 6);
    panel->job.shop.set_up_min[TOOL_CLOTH] = 5 * check_random_int(seed, 0, 6);
    int least = check_random_int(seed, 0, 6), most = check_random_int(seed, 8, 16);
    panel_set_window(panel, 30 * least, 30 * most);
    panel->finish.refuses_late_recoat = true;
    panel_set_state(panel, STATE_HANDLE, 60 * check_random_int(seed, 0, 8));
    panel->job.deliver_min = march(1, check_random_int(seed, 12, 22), 0);
}

/* In what counts for the aim; once nothing can be better there, nobody searches for fewer batches or
 * sooner starts. */
static int compare(const struct score *a, const struct score *b, enum timetable_aim aim)
{
    struct score left = *a, right = *b;
    left.batches = right.batches = 0;
    left.starts = right.starts = 0;
    return score_compare(&left, &right, aim);
}

static void no_order_is_better(void **state)
{
    (void)state;
    for (uint64_t number = 0; number < DRAWS; number++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        uint64_t seed = number;
        struct row row = *HERE;
        row.name = arena_textf(arena, "drawn job %d", (int)number);
        draw(&panel, &seed);
        enum timetable_aim aim = number % 2 ? AIM_SOONEST : AIM_LEAST_WORK;
        const struct site *site = panel_site(arena, &panel);
        struct batching batching = begun(site, aim, 4 * ENOUGH);
        struct score first = batching.score, best = best_of_all(site, aim);
        batching_improve(&batching);
        check_int(&row, batching.score.whole, best.whole || first.whole);
        check_true(&row, score_compare(&batching.score, &first, aim) <= 0, "no worse than the first");
        struct score again = score_of(batching.best);
        check_int(&row, score_compare(&batching.score, &again, aim), 0);
        check_true(&row, compare(&batching.score, &best, aim) <= 0, "no order is better");
        check_true(&row, batching.nodes > 0 && batching.spent > 0 && !batching.ended, "what it took");
        arena_free(arena);
    }
}

/* A, B and C, sanded for as many hours. */
static const struct site *sanded(struct arena *arena, struct panel *panel, const double *hours, int people,
                                 int due_h)
{
    panel_init(panel);
    for (size_t i = 0; i < 3; i++) {
        if (i > 0)
            panel_add_piece(panel);
        panel_add_step(panel, i, STEP_SAND);
        panel_set_hours(panel, i, hours[i]);
    }
    panel->job.shop.people = people;
    panel->job.deliver_min = march(1, due_h, 0);
    return panel_site(arena, panel);
}

/* One after another they would be ready at 11:00. Where that is too late the first plan divides the batch
 * among those who are there: as nearly alike as whole pieces allow. */
static void the_first_plan_is_shared_out(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct batching batching = begun(sanded(arena, &panel, (double[]){1, 1, 1}, 2, 11), AIM_LEAST_WORK, 1);
    check_int(HERE, (intmax_t)batching.score.batches, 1);
    check_int(HERE, batching.score.ready, 11 * 60);
    batching = begun(sanded(arena, &panel, (double[]){1, 1, 1}, 2, 10), AIM_LEAST_WORK, 1);
    check_int(HERE, (intmax_t)batching.score.batches, 2);
    check_int(HERE, batching.score.ready, 10 * 60);
    check_int(HERE, (intmax_t)batching.best->order.runs[0].count, 1);
    check_int(HERE, (intmax_t)batching.best->order.runs[1].count, 2);
    for (int i = 0; i < 2; i++)
        check_int(HERE, batching.best->order.runs[i].person, i);
    batching = begun(sanded(arena, &panel, (double[]){1, 1, 1}, 5, 9), AIM_LEAST_WORK, 1);
    check_int(HERE, (intmax_t)batching.score.batches, 3);
    check_int(HERE, batching.score.ready, 9 * 60);
    batching = begun(sanded(arena, &panel, (double[]){1, 1, 1}, 2, 17), AIM_SOONEST, 1);
    check_int(HERE, batching.score.ready, 10 * 60);
    arena_free(arena);
}

/* A is coated twice, a day apart, B once and is there on Tuesday; set-up takes an hour. Counted from the
 * beginning B goes with A's first coat, on Tuesday, and all is ready on Wednesday; counted from the end
 * with A's second, on Tuesday from 10:00 to 12:00. */
static void ranks_from_the_end(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(&panel, 1, STEP_COAT);
    panel_set_state(&panel, STATE_RECOAT, DAY_MINUTES);
    panel.job.shop.set_up_min[TOOL_CLOTH] = 60;
    panel.pieces[1].ready_min = march(2, 8, 0);
    panel.job.deliver_min = march(2, 17, 0);
    struct batching batching = begun(panel_site(arena, &panel), AIM_LEAST_WORK, 1);
    check_int(HERE, batching.score.ready, site_at(2, 12, 0));
    arena_free(arena);
}

/* What costs nothing is done in the order of the part list: the longest way first would be C, B, A. */
static void the_part_list_where_it_costs_nothing(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct batching batching =
        begun(sanded(arena, &panel, (double[]){1, 2, 3}, 1, 17), AIM_LEAST_WORK, ENOUGH);
    batching_improve(&batching);
    for (int i = 0; i < 3; i++)
        check_int(HERE, batching.best->order.items[i], i);
    check_int(HERE, batching.best->draft->start[2], 11 * 60);
    arena_free(arena);
}

/* Two coats of an hour, the second of which must dry for five, and three pieces sanded for 20, 40 and 60 min. The coat that dries is
 * laid first, from which the ready moment hangs; the sanding is done in the order of the part list all the same. */
static void the_part_list_for_one_batch_alone(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    work_line(&list, work_add(&list, DO_APPLY, 1, 3600), 0);
    work_row(&list);
    work_line(&list, work_add(&list, DO_APPLY, 1, 3600), 300);
    for (int i = 0; i < 3; i++) {
        work_row(&list);
        work_line(&list, work_add(&list, DO_SAND, 1, 1200 * (i + 1)), 0);
    }
    struct batching batching = begun(work_site(&list, 7), AIM_LEAST_WORK, ENOUGH);
    batching_improve(&batching);
    static const int want[] = {1, 0, 2, 3, 4};
    check_int(HERE, batching.score.ready, site_at(1, 14, 0));
    for (int i = 0; i < 5; i++)
        check_int(HERE, batching.best->order.items[i], want[i]);
    work_end(&list);
}

/* A first plan is made with as much effort as one takes, however little is given; more is spent where it
 * is. */
static void effort_for_the_first_plan(void **state)
{
    (void)state;
    struct batching little = {.effort = 1}, some = {.effort = 1000}, much = {.effort = 1000000000};
    check_int(HERE, batching_first_effort(&little), batching_first_effort(&some));
    check_true(HERE, batching_first_effort(&some) > 1000, "more than is given");
    check_int(HERE, batching_first_effort(&much), 1000000000);
}

/* Five pieces for three people are soon shared out, and nothing says that no plan is better: the search gives up after so many rounds
 * for each batch, from all pieces together, from groups of them, and where batches take them as they become free. A round reads one
 * order, if it changes any, and a few more are read where it goes on from the best plan. */
static void gives_up_in_time(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel.pieces[0].lots = 5;
    panel.parts[0].qty = 5;
    panel.job.shop.people = 3;
    const struct site *site = panel_site(arena, &panel);
    check_int(HERE, (intmax_t)site->count, 5);
    check_int(HERE, order_every(site), 0);
    struct batching batching = {.site = site, .aim = AIM_SOONEST, .effort = 100 * ENOUGH};
    batching_start(&batching);
    batching_improve(&batching);
    check_int(HERE, (intmax_t)batching.score.batches, 3);
    check_true(HERE, batching.spent < batching.effort, "effort is left");
    int64_t rounds = 3 * 6 * (2000 + 200 * 3);
    check_true(HERE, batching.nodes > rounds / 2 && batching.nodes < rounds + 1000, "orders read");
    arena_free(arena);
}

/* Pieces sanded with a grit of their own, which take less from grit to grit. */
static void grits_in_turn(struct work_list *list, int grits, int pieces, int32_t shorter_s)
{
    for (int i = 0; i < grits; i++)
        for (int piece = 0; piece < pieces; piece++) {
            list->items[work_add(list, DO_SAND, 1, shorter_s * (grits - i))].grit = 80 + 20 * i;
            work_row(list);
        }
}

struct round_row {
    struct row row;
    int grits, pieces; /* of each grit */
    int32_t shorter_s; /* a piece than one of the grit before it: so long takes one of the last */
    int set_up_min;
    bool trades;
    int64_t effort;
};

/* What costs a set-up more is worse than all plans before it: twenty rounds that went on from there would end with many batches. */
static const struct round_row few_rounds[] = {
    {ROW("some hundred rounds"), 7, 1, 600, 0, false, 15000},
    {ROW("may be late on its way"), 7, 1, 600, 0, true, 15000},
    {ROW("a batch that is divided costs a set-up"), 5, 4, 300, 10, false, 2000},
};

/* The first plan takes the longest first. A search of few rounds begins the short ones sooner. */
static void goes_on_to_what_is_no_worse(void **state)
{
    const struct round_row *r = *state;
    struct work_list list;
    work_begin(&list);
    work_set_up(&list, WORK_SAND, r->set_up_min, 0);
    grits_in_turn(&list, r->grits, r->pieces, r->shorter_s);
    struct batching batching = {.site = work_site(&list, 7), .trades = r->trades, .effort = r->effort};
    batching_start(&batching);
    struct score first = batching.score;
    batching_improve(&batching);
    check_int(&r->row, batching.score.work, first.work);
    check_true(&r->row, batching.score.starts < first.starts, "begun sooner");
    work_end(&list);
}

/* The piece that takes 70 min must be begun by 08:30: those of 10 and 20 min go before it, then come the others, the shortest first. Many
 * changes leave it without a place, and from these the search does not go on. */
static void goes_on_to_what_has_a_place(void **state)
{
    (void)state;
    for (int trades = 0; trades < 2; trades++) {
        struct work_list list;
        work_begin(&list);
        grits_in_turn(&list, 7, 1, 600);
        list.items[0].latest_min = march(1, 8, 30);
        struct batching batching = {.site = work_site(&list, 7), .trades = trades, .effort = 20000};
        batching_start(&batching);
        batching_improve(&batching);
        check_int(HERE, batching.score.starts, 480 + 490 + 510 + 580 + 610 + 650 + 700);
        work_end(&list);
    }
}

/* A (0) and B (3), which comes at 11:00, are sanded with a set-up of 30 min each; between them C is coated for two hours (1) and polished
 * within a day (2). With one set-up for A and B all is ready at 13:00 where that batch is behind C, at 14:30 where it is before C, as no
 * two hours are left before 09:30; it is due at 13:30. No limit is missed, so that they are kept as before. */
static void joined_where_the_last_stands(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    work_add(&list, DO_SAND, 1, 3600);
    work_row(&list);
    work_add(&list, DO_APPLY, 1, 7200);
    work_add(&list, DO_POLISH, 1, 1800);
    work_link(&list, 1, 2, 0);
    work_link(&list, 1, 2, DAY_MINUTES)->kind = LINK_POLISH;
    work_row(&list);
    list.items[work_add(&list, DO_SAND, 1, 3600)].release_min = march(1, 11, 0);
    work_set_up(&list, WORK_SAND, 30, 0);
    for (int item = 0; item < 4; item++)
        work_line(&list, item, 0);
    list.panel.job.deliver_min = march(1, 13, 30);
    struct batching batching = {.site = work_site(&list, 7), .effort = 1};
    batching.best = ordered(batching.site, (int[]){0, 1, 2, 3}, (size_t[]){1, 1, 1, 1, 0});
    variant_place(batching.best, SCUFF_NEVER, ENOUGH);
    batching.score = score_of(batching.best);
    check_int(HERE, batching.score.work, 330 * 60);
    check_int(HERE, batching.score.ready, site_at(1, 13, 30));
    batching_improve(&batching);
    check_text(HERE, order_words(list.arena, &batching.best->order), "1 | 2 | 0 3");
    check_int(HERE, batching.score.work, 300 * 60);
    check_int(HERE, batching.score.ready, site_at(1, 13, 0));
    check_true(HERE, !batching.best->waits, "as before");
    work_end(&list);
}

static bool ends(void *with, const struct observer *observer)
{
    (void)observer;
    ++*(int *)with;
    return false;
}

/* Whoever looks on is asked before the first order that is tried, and ends the search: the first plan
 * stays. */
static void who_looks_on_may_end_it(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    int asked = 0;
    struct observer observer = {.look = ends, .with = &asked};
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    const struct timetable *timetable = timetable_make(arena, panel_operations(arena, &panel),
                                                       (struct timetable_options){.observer = &observer});
    check_true(HERE, timetable->status == TIMETABLE_PLANNED && !timetable->ended && asked == 0,
               "nothing is left to search");
    for (size_t i = 0; i < 3; i++) {
        if (i > 0)
            panel_add_piece(&panel);
        panel_add_step(&panel, i, STEP_SAND);
        panel_add_step(&panel, i, STEP_COAT)->coats = 2;
        panel_set_hours(&panel, i, 1 + (double)i);
        panel.pieces[i].ready_min = march(1, 8 + (int)i, 0);
    }
    panel_set_state(&panel, STATE_RECOAT, 100);
    panel.job.shop.people = 2;
    panel.job.shop.set_up_min[TOOL_CLOTH] = panel.job.shop.set_up_min[WORK_SAND] = 30;
    timetable = timetable_make(arena, panel_operations(arena, &panel),
                               (struct timetable_options){.observer = &observer, .aim = AIM_SOONEST});
    check_int(HERE, timetable->status, TIMETABLE_PLANNED);
    check_true(HERE, timetable->ended && asked == 1, "ended at the first question");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(no_order_is_better), CHECK_TEST(the_first_plan_is_shared_out),
                     CHECK_TEST(ranks_from_the_end), CHECK_TEST(the_part_list_where_it_costs_nothing),
                     CHECK_TEST(the_part_list_for_one_batch_alone), CHECK_TEST(effort_for_the_first_plan),
                     CHECK_TEST(gives_up_in_time), CHECK_ROWS(few_rounds, goes_on_to_what_is_no_worse),
                     CHECK_TEST(goes_on_to_what_has_a_place), CHECK_TEST(joined_where_the_last_stands),
                     CHECK_TEST(who_looks_on_may_end_it));
}
