/* Lines of a quote, worked by hand. */
#include "check.h"
#include "sample_store.h"

#include "amount/cost.h"
#include "amount/sundry.h"
#include "base/arena.h"

/* The store's purchase: 1 l of oil at 55.00 for 750 ml, 3 x 125 ml of hardener at 45.00 for 250 ml. A litre of mix is
 * 0.75 x 55.00 + 0.25 x 120.00 = 71.25. */
static void price_of_a_mixed_litre(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct sample_store s;
    sample_store(&s);
    struct purchases *p = purchases_make(arena, &s.job, &s.need, 1);
    check_double(HERE, price_per_l(&p->items[0]), 7125, 1e-12);
    s.finish.kits = s.kits;
    s.finish.kit_count = 1;
    s.kits[0].price_cents = 3300; /* three sets of 0.5 l at 99.00 */
    p = purchases_make(arena, &s.job, &s.need, 1);
    check_double(HERE, price_per_l(&p->items[0]), 6600, 1e-12);
    arena_free(arena);
}

/* A litre of hardener is on the shelf, and none is bought: it counts at the cheapest pack on offer, 60.00 for the litre, and so a litre
 * of mix at 0.75 x 55.00 + 0.25 x 60.00; where the small pack costs nothing, at 0.75 x 55.00. */
static void what_is_on_the_shelf_counts_at_its_cheapest_pack(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct sample_store s;
    sample_store(&s);
    s.stock[0] = (struct stock){&s.finish, 1, 1, INT64_MIN, INT64_MAX, 0};
    s.job.stock_count = 1;
    struct purchases *p = purchases_make(arena, &s.job, &s.need, 1);
    check_double(HERE, price_per_l(&p->items[0]), 5625, 1e-12);
    s.hardener[0].price_cents = 0;
    p = purchases_make(arena, &s.job, &s.need, 1);
    check_double(HERE, price_per_l(&p->items[0]), 4125, 1e-12);
    arena_free(arena);
}

static const struct piece pieces[] = {{.name = "top"}, {.name = "idle"}, {.name = "case"}};

static void store_for_three(struct sample_store *s)
{
    sample_store(s);
    s->job.pieces = pieces;
    s->job.piece_count = 3;
}

/* 45.00 an hour. Top: 0.4 l and 95 min; case: 0.6 l and 130 min; a task of 20 min. */
static void lines_of_a_quote(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct sample_store s;
    store_for_three(&s);
    s.job.shop.rate_cents_per_hour = 4500;
    struct purchases *p = purchases_make(arena, &s.job, &s.need, 1);
    const struct cost_use uses[] = {
        {2, &s.finish, 0.6, 100}, {0, NULL, 0, 30}, {0, &s.finish, 0.4, 65},
        {SIZE_MAX, NULL, 0, 20},  {2, NULL, 0, 30},
    };
    struct costs *costs = costs_make(arena, &s.job, p, uses, 5);
    check_int(HERE, (intmax_t)costs->count, 3);
    check_int(HERE, (intmax_t)costs->lines[0].piece, 0);
    check_int(HERE, costs->lines[0].minutes, 95);
    check_int(HERE, costs->lines[0].labour_cents, 7125);   /* 95/60 x 45.00 */
    check_int(HERE, costs->lines[0].material_cents, 2850); /* 0.4 x 71.25 */
    check_int(HERE, (intmax_t)costs->lines[1].piece, 2);
    check_int(HERE, costs->lines[1].labour_cents, 9750);
    check_int(HERE, costs->lines[1].material_cents, 4275);
    check_true(HERE, costs->lines[2].piece == SIZE_MAX, "tasks come last");
    check_int(HERE, costs->lines[2].labour_cents, 1500);
    check_int(HERE, costs->lines[2].material_cents, 0);
    check_int(HERE, costs->total.minutes, 245);
    check_int(HERE, costs->total.labour_cents, 18375);
    check_int(HERE, costs->total.material_cents, 7125);
    /* 250 ml of oil at 55.00 and 125 ml of hardener at 120.00: with the material, all that was paid */
    check_int(HERE, costs->surplus_cents, 1375 + 1500);
    check_int(HERE, costs->total.material_cents + costs->surplus_cents, p->cost_cents);
    /* 12 discs at 0.50 and 95 ml of thinner at 0.008: 6.76; a brush without a price is not counted */
    const struct sundry_rule discs = {.cents_each = 50}, thinner = {.cents_each = 0.8},
                             brush = {.cents_each = 0};
    struct sundry used[] = {
        {.rule = &discs, .whole = 12}, {.rule = &thinner, .whole = 95}, {.rule = &brush, .whole = 1}};
    const struct sundries sundries = {used, 3};
    check_int(HERE, sundries_cents(&sundries), 676);
    arena_free(arena);
}

/* Lines of 23.756, 23.756 and 23.738 are rounded up, to a cent more than the 71.25 of a litre: of the 100.00 that were paid for the packs
 * a cent less is left. */
static void lines_and_surplus_are_what_was_paid(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct sample_store s;
    store_for_three(&s);
    const struct purchases *p = purchases_make(arena, &s.job, &s.need, 1);
    const struct cost_use uses[] = {
        {0, &s.finish, 0.33342, 0}, {1, &s.finish, 0.33342, 0}, {2, &s.finish, 0.33316, 0}};
    const struct costs *costs = costs_make(arena, &s.job, p, uses, 3);
    check_int(HERE, p->cost_cents, 10000);
    check_int(HERE, costs->total.material_cents, 2376 + 2376 + 2374);
    check_int(HERE, costs->surplus_cents, 10000 - 7126);
    arena_free(arena);
}

/* 200 ml of hardener are there; 125 ml more are bought, for 275 ml with the reserve, and 75 ml are left at 120.00; of the litre of
 * oil 250 ml at 55.00. */
static void what_was_there_is_left_too(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct sample_store s;
    store_for_three(&s);
    s.stock[0] = (struct stock){&s.finish, 1, 0.2, INT64_MIN, INT64_MAX, 0};
    s.job.stock_count = 1;
    const struct purchases *p = purchases_make(arena, &s.job, &s.need, 1);
    const struct cost_use use = {0, &s.finish, 1, 0};
    check_int(HERE, costs_make(arena, &s.job, p, &use, 1)->surplus_cents, 1375 + 900);
    arena_free(arena);
}

static void what_is_not_known(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct sample_store s;
    store_for_three(&s);
    s.job.shop.rate_cents_per_hour = -1;
    s.hardener[0].price_cents = s.hardener[1].price_cents = -1;
    struct purchases *p = purchases_make(arena, &s.job, &s.need, 1);
    const struct cost_use use = {0, &s.finish, 1, 60};
    struct costs *costs = costs_make(arena, &s.job, p, &use, 1);
    check_int(HERE, costs->lines[0].labour_cents, -1);
    check_int(HERE, costs->lines[0].material_cents, -1);
    check_int(HERE, costs->total.material_cents, -1);
    check_int(HERE, costs->surplus_cents, -1);
    check_int(HERE, costs->total.minutes, 60);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(price_of_a_mixed_litre),
                     CHECK_TEST(what_is_on_the_shelf_counts_at_its_cheapest_pack),
                     CHECK_TEST(lines_of_a_quote), CHECK_TEST(lines_and_surplus_are_what_was_paid),
                     CHECK_TEST(what_was_there_is_left_too), CHECK_TEST(what_is_not_known));
}
