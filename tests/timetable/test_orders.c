/* Orders of batches: the first that is tried, every one of a few, and how a run of an order is cut and
 * sorted. One person, open 08:00 to 17:00 daily. */
#include "check.h"
#include "orders.h"
#include "panel_site.h"

#include "base/arena.h"
#include "base/buf.h"

#include <string.h>

/* The pieces A, B, C: as many as there are hours, each sanded and coated so often, in as many hours for
 * each. */
static struct site *pieces(struct arena *arena, struct panel *panel, const double *hours, const int *coats,
                           size_t count)
{
    panel_init(panel);
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            panel_add_piece(panel);
        panel_add_step(panel, i, STEP_SAND);
        panel_add_step(panel, i, STEP_COAT)->coats = coats[i];
        panel_set_hours(panel, i, hours[i]);
    }
    return panel_site(arena, panel);
}

/* Of a run's first item; a turn is done as the coat that it is for. */
static int kind_of(const struct site *site, const struct order *order, size_t run)
{
    int first = order->items[order->runs[run].from], coat = site_turned_for(site, first);
    return site->rows[coat == SITE_NONE ? first : coat].kind;
}

static void check_groups(const struct row *row, struct site *site, bool late, int groups, const char *want)
{
    struct variant *variant = variant_make(site->arena, site);
    struct betweens betweens = between_make(site->arena, site);
    order_first(site, &betweens, late, groups, &variant->order);
    check_text(row, order_words(site->arena, &variant->order), want);
    for (size_t i = 0; i < variant->order.run_count; i++) {
        check_int(row, variant->order.runs[i].person, SITE_NONE);
        check_int(row, variant->order.runs[i].kind, kind_of(site, &variant->order, i));
    }
}

static void check_first(const struct row *row, struct site *site, bool late, const char *want)
{
    check_groups(row, site, late, 1, want);
}

/* All is sanded, then coated: the longest way to the end first, which is B's (3 h and 3 h), then C's, then
 * A's. */
static void the_longest_way_first(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct site *site = pieces(arena, &panel, (double[]){1, 3, 2}, (int[]){1, 1, 1}, 3);
    check_first(HERE, site, false, "2 4 0 | 3 5 1");
    /* B is there on Tuesday only. */
    panel.pieces[1].ready_min = march(2, 8, 0);
    check_first(HERE, panel_site(arena, &panel), false, "4 0 2 | 5 1 3");
    /* All alike: in the order of the part list. */
    site = pieces(arena, &panel, (double[]){1, 1, 1}, (int[]){1, 1, 1}, 3);
    check_first(HERE, site, false, "0 2 4 | 1 3 5");
    arena_free(arena);
}

/* A and B are sanded and coated before anything is done to C, or each piece by itself; within a group the
 * longest way to the end comes first. */
static void a_group_after_the_other(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct site *site = pieces(arena, &panel, (double[]){1, 3, 2}, (int[]){1, 1, 1}, 3);
    check_int(HERE, order_chains(site), 3);
    check_groups(HERE, site, false, 2, "2 0 | 3 1 | 4 | 5");
    check_groups(HERE, site, false, 3, "0 | 1 | 2 | 3 | 4 | 5");
    check_groups(HERE, site, false, 8, "0 | 1 | 2 | 3 | 4 | 5");
    arena_free(arena);
}

/* A has two coats, with a day between, B one. Counted from the beginning B's goes with A's first, counted
 * from the end with A's last. */
static void ranks_from_either_end(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct site *site = pieces(arena, &panel, (double[]){1, 1}, (int[]){2, 1}, 2);
    panel_set_state(&panel, STATE_RECOAT, DAY_MINUTES);
    site = panel_site(arena, &panel);
    check_text(HERE, site->operations->items[2].id, "a/oil/2/apply");
    check_first(HERE, site, false, "0 3 | 1 4 | 2");
    check_first(HERE, site, true, "0 3 | 1 | 2 4");
    arena_free(arena);
}

/* Two flat pieces, coated on both sides: the turns stand before the faces that they are for. */
static void turns_go_with_their_coats(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    for (size_t i = 0; i < 2; i++) {
        panel_add_step(&panel, i, STEP_COAT);
        panel_two_sides(&panel, i);
    }
    panel_set_state(&panel, STATE_HANDLE, 60);
    struct site *site = panel_site(arena, &panel);
    check_first(HERE, site, false, "0 3 | 1 2 4 5");
    int items[] = {5, 2, 4, 1};
    struct run run = {.count = 4};
    struct order order = {.items = items, .item_count = 4, .runs = &run, .run_count = 1};
    order_sort_run(site, &order, &run);
    check_text(HERE, order_words(arena, &order), "1 2 4 5");
    /* What two must lift is turned by itself, and one piece at a time. */
    panel.pieces[0].lift = panel.pieces[1].lift = 2;
    panel.job.shop.people = 2;
    check_first(HERE, panel_site(arena, &panel), false, "0 3 | 1 | 4 | 2 5");
    arena_free(arena);
}

/* Two tasks of a schedule are never one batch. */
static void tasks_by_themselves(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    for (size_t i = 0; i < 2; i++) {
        struct step *step = panel_add_step(&panel, i, STEP_TASK);
        step->words = "glue";
        step->takes_min = 30;
    }
    check_first(HERE, panel_site(arena, &panel), false, "0 | 1");
    arena_free(arena);
}

/* A late scuff that need not be done is in no first order. */
static void late_scuffs_are_left_out(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 60, DAY_MINUTES);
    struct site *site = panel_site(arena, &panel);
    check_text(HERE, site->operations->items[1].id, "a/oil/1/scuff-320");
    check_first(HERE, site, false, "0 | 2");
    struct variant *variant = variant_make(arena, site);
    check_int(HERE, order_every(site), 4);
    check_true(HERE, order_numbered(site, 0, &variant->order), "the order of the part list");
    check_text(HERE, order_words(arena, &variant->order), "0 | 2");
    /* Not though something is sanded with the grit of the scuff. */
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_SAND)->grit = 320;
    check_first(HERE, panel_site(arena, &panel), false, "0 | 2 | 3");
    arena_free(arena);
}

/* How many different orders there are among those numbers. */
static int different(struct arena *arena, const struct site *site, int64_t count)
{
    struct variant *variant = variant_make(arena, site);
    const char **texts = ARENA_ARRAY(arena, (size_t)count, const char *);
    int found = 0;
    for (int64_t n = 0; n < count; n++) {
        if (!order_numbered(site, n, &variant->order))
            continue;
        struct buf text;
        buf_init(&text, arena);
        buf_addf(&text, "%s by", order_words(arena, &variant->order));
        for (size_t i = 0; i < variant->order.run_count; i++) {
            const struct run *run = &variant->order.runs[i];
            buf_addf(&text, " %d", run->person);
            check_int(HERE, run->kind, kind_of(site, &variant->order, i));
        }
        for (int i = 0; i < found; i++)
            check_true(HERE, strcmp(texts[i], text.text) != 0, text.text);
        texts[found++] = text.text;
    }
    return found;
}

/* A and B, sanded (S) and coated (C): 4! / (2! 2!) = 6 orders keep each piece's own. Two are SCSC, in four
 * batches; four are SSCC, where either pair may be one batch or two: 2 + 4 x 4. Two persons: 2 x 2^4 + 4 x
 * (2^4 + 2 x 2^3 + 2^2). The numbers are those of all rows, with a batch begun or not before each item but
 * the first: 4! x 2^3, for each person 2^4 as many. */
static void every_order_of_four(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct site *site = pieces(arena, &panel, (double[]){1, 1}, (int[]){1, 1}, 2);
    check_int(HERE, order_every(site), 192);
    check_int(HERE, different(arena, site, 192), 18);
    struct variant *variant = variant_make(arena, site);
    check_true(HERE, order_numbered(site, 0, &variant->order), "the first is that of the part list");
    check_text(HERE, order_words(arena, &variant->order), "0 | 1 | 2 | 3");
    panel.job.shop.people = 2;
    site = panel_site(arena, &panel);
    check_int(HERE, order_every(site), 3072);
    check_int(HERE, different(arena, site, 3072), 176);
    arena_free(arena);
}

/* Six in a row: 6! x 2^5 = 23040, and only the part list's order keeps the links; seven are too many. */
static void as_many_as_can_be_tried(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct site *site = pieces(arena, &panel, (double[]){1}, (int[]){5}, 1);
    check_int(HERE, order_every(site), 23040);
    site = pieces(arena, &panel, (double[]){1}, (int[]){6}, 1);
    check_int(HERE, order_every(site), 0);
    arena_free(arena);
}

/* Two tasks, or two turns that take two, are two batches: 2 orders of each. The turn is the face's, the
 * back is coated before. */
static void what_is_never_one_batch(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    for (size_t i = 0; i < 2; i++) {
        struct step *step = panel_add_step(&panel, i, STEP_TASK);
        step->words = "glue";
        step->takes_min = 30;
    }
    struct site *site = panel_site(arena, &panel);
    check_int(HERE, different(arena, site, order_every(site)), 2);
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_two_sides(&panel, 0);
    site = panel_site(arena, &panel);
    /* back, turn, face: each of the two that follow may go along with what is before it */
    check_int(HERE, different(arena, site, order_every(site)), 4);
    panel.pieces[0].lift = 2;
    site = panel_site(arena, &panel);
    check_int(HERE, different(arena, site, order_every(site)), 1);
    arena_free(arena);
}

static void a_run_is_cut(void **state)
{
    (void)state;
    struct run runs[4] = {{.kind = 7, .person = 1, .from = 0, .count = 2, .thrifty = true},
                          {.kind = 8, .person = 2, .from = 2, .count = 5, .thrifty = true, .in_step = true},
                          {.kind = 9, .person = 3, .from = 7, .count = 1}};
    struct order order = {.runs = runs, .run_count = 3};
    order_cut(&order, 1, 2);
    check_int(HERE, (intmax_t)order.run_count, 4);
    static const struct run want[] = {{7, 1, 0, 2, true, false},
                                      {8, 2, 2, 2, true, true},
                                      {8, 2, 4, 3, true, true},
                                      {9, 3, 7, 1, false, false}};
    for (size_t i = 0; i < 4; i++) {
        check_int(HERE, runs[i].kind, want[i].kind);
        check_int(HERE, runs[i].person, want[i].person);
        check_int(HERE, (intmax_t)runs[i].from, (intmax_t)want[i].from);
        check_int(HERE, (intmax_t)runs[i].count, (intmax_t)want[i].count);
        check_int(HERE, runs[i].thrifty, want[i].thrifty);
        check_int(HERE, runs[i].in_step, want[i].in_step);
    }
}

/* Only the run's own items are put in order. */
static void a_run_by_the_part_list(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    int items[] = {9, 5, 2, 8, 3, 0};
    struct run run = {.from = 1, .count = 4};
    struct order order = {.items = items, .item_count = 6, .runs = &run, .run_count = 1};
    order_list_run(&order, &run);
    check_text(HERE, order_words(arena, &order), "2 3 5 8");
    check_true(HERE, items[0] == 9 && items[5] == 0, "what is not in the run stays");
    arena_free(arena);
}

struct sort_row {
    struct row row;
    double hours[3];
    int ready[3]; /* day */
    const char *want;
};

static const struct sort_row sorts[] = {
    {ROW("the longest way first"), {1, 2, 3}, {1, 1, 1}, "5 3 1"},
    {ROW("it is already so"), {3, 2, 1}, {1, 1, 1}, "1 3 5"},
    {ROW("who is there first"), {1, 2, 3}, {1, 2, 3}, "1 3 5"},
    {ROW("who is there first, backwards"), {3, 2, 1}, {3, 2, 1}, "5 3 1"},
    {ROW("all alike"), {2, 2, 2}, {1, 1, 1}, "1 3 5"},
};

static void a_run_in_step_with_all(void **state)
{
    const struct sort_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    pieces(arena, &panel, r->hours, (int[]){1, 1, 1}, 3);
    for (int i = 0; i < 3; i++)
        panel.pieces[i].ready_min = march(r->ready[i], 8, 0);
    const struct site *site = panel_site(arena, &panel);
    for (int first = 0; first < 3; first++) {
        int items[3];
        for (int i = 0; i < 3; i++)
            items[i] = 1 + 2 * ((first + i * (first < 2 ? 1 : 2)) % 3);
        struct run run = {.count = 3};
        struct order order = {.items = items, .item_count = 3, .runs = &run, .run_count = 1};
        order_sort_run(site, &order, &run);
        check_text(&r->row, order_words(arena, &order), r->want);
    }
    arena_free(arena);
}

/* A is sanded after B and C: its coat, listed first, comes last where a batch takes its pieces as they become free. */
static void as_they_become_free(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    pieces(arena, &panel, (double[]){1, 1, 1}, (int[]){1, 1, 1}, 3);
    const struct site *site = panel_site(arena, &panel);
    for (int in_step = 0; in_step < 2; in_step++) {
        struct variant *variant = ordered(site, (int[]){2, 4, 0, 1, 3, 5}, (size_t[]){1, 1, 1, 3, 0});
        variant->order.runs[3].in_step = in_step;
        variant_place(variant, SCUFF_NEVER, INT64_MAX / 2);
        check_text(HERE, order_words(arena, &variant->order),
                   in_step ? "2 | 4 | 0 | 3 5 1" : "2 | 4 | 0 | 1 3 5");
    }
    arena_free(arena);
}

/* A copy has the order, what is left out and the plan, whose batches are of its own items. */
static void a_copy_is_its_own(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct site *site = pieces(arena, &panel, (double[]){1, 2}, (int[]){1, 1}, 2);
    struct variant *from = variant_make(arena, site), *to = variant_make(arena, site);
    struct betweens betweens = between_make(arena, site);
    order_first(site, &betweens, false, 1, &from->order);
    from->waits = true;
    from->draft->left_out[3] = true;
    variant_copy_order(to, from);
    check_text(HERE, order_words(arena, &to->order), "2 0 | 3 1");
    check_true(HERE, to->waits && to->draft->left_out[3] && !to->draft->left_out[2], "how it is read");
    check_int(HERE, (intmax_t)to->draft->count, 0);
    from->draft->left_out[3] = false;
    variant_place(from, SCUFF_NEVER, INT32_MAX);
    check_true(HERE, from->whole, "all can be placed");
    to = variant_make(arena, site);
    variant_copy(to, from);
    check_text(HERE, order_words(arena, &to->order), "2 0 | 3 1");
    check_true(HERE, to->whole && !to->draft->left_out[3], "all is placed in the copy");
    check_int(HERE, (intmax_t)to->draft->count, 2);
    for (int i = 0; i < 4; i++) {
        check_int(HERE, to->draft->start[i], from->draft->start[i]);
        check_int(HERE, to->draft->end[i], from->draft->end[i]);
        check_int(HERE, to->draft->batch_of[i], i % 2);
    }
    for (size_t k = 0; k < 2; k++)
        check_true(HERE, to->draft->placed[k].batch.items == to->order.items + 2 * k, "its own items");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(the_longest_way_first), CHECK_TEST(a_group_after_the_other),
                     CHECK_TEST(ranks_from_either_end), CHECK_TEST(turns_go_with_their_coats),
                     CHECK_TEST(tasks_by_themselves), CHECK_TEST(late_scuffs_are_left_out),
                     CHECK_TEST(every_order_of_four), CHECK_TEST(as_many_as_can_be_tried),
                     CHECK_TEST(what_is_never_one_batch), CHECK_TEST(a_run_is_cut),
                     CHECK_TEST(a_run_by_the_part_list), CHECK_ROWS(sorts, a_run_in_step_with_all),
                     CHECK_TEST(as_they_become_free), CHECK_TEST(a_copy_is_its_own));
}
