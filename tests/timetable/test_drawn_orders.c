/* What must hold of every order, tried on drawn ones: batches that it shares with another are placed as by themselves, and no batch
 * could begin sooner than it does. Open 08:00 to 12:00 and 13:00 to 17:00 daily. */
#include "check.h"
#include "orders.h"
#include "panel_site.h"

#include "base/arena.h"
#include "timetable/batching.h"

#include <string.h>

enum { SHARED_JOBS = 300, SOONER_JOBS = 60, CHANGES = 60 };

/* Three pieces, sanded and coated once or twice, some on both sides; set-ups, drying, windows, rests and the rack are drawn. */
static struct site *drawn(struct arena *arena, struct panel *panel, uint64_t *seed)
{
    panel_init(panel);
    panel->stretches[0] = (struct stretch){8 * 60, 12 * 60};
    panel->stretches[1] = (struct stretch){13 * 60, 17 * 60};
    for (int day = 0; day < 7; day++)
        panel->job.shop.hours[day] = (struct shop_day){panel->stretches, 2};
    for (size_t i = 0; i < PANEL_PIECES; i++) {
        if (i > 0)
            panel_add_piece(panel);
        panel_add_step(panel, i, STEP_SAND);
        panel_add_step(panel, i, STEP_COAT)->coats = check_random_int(seed, 1, 2);
        if (check_random_int(seed, 0, 1))
            panel_two_sides(panel, i);
        panel_set_hours(panel, i, check_random_int(seed, 1, 9) / 6.0);
        panel->pieces[i].ready_min = march(1, check_random_int(seed, 8, 11), 0);
    }
    struct shop *shop = &panel->job.shop;
    shop->people = check_random_int(seed, 1, 2);
    shop->set_up_min[WORK_SAND] = 5 * check_random_int(seed, 0, 4);
    shop->set_up_min[TOOL_CLOTH] = 5 * check_random_int(seed, 0, 4);
    shop->rest_min[TOOL_CLOTH] = 30 * check_random_int(seed, 0, 3);
    int32_t recoat = 30 * check_random_int(seed, 0, 8), last = 30 * check_random_int(seed, 10, 40);
    panel_set_window(panel, recoat, last);
    panel->finish.refuses_late_recoat = true;
    panel_set_state(panel, STATE_HANDLE, 30 * check_random_int(seed, 0, 8));
    panel_set_state(panel, STATE_DUST_FREE, 15 * check_random_int(seed, 0, 4));
    return panel_site(arena, panel);
}

static struct moving moving_of(const struct site *site, uint64_t seed)
{
    return (struct moving){.site = site,
                           .trial = variant_make(site->arena, site),
                           .random = 88172645463325252u + seed,
                           .limits = true,
                           .steps = true};
}

/* The order in which everything of a kind and rank is one batch, placed. */
static struct variant *first_order(const struct site *site)
{
    struct betweens betweens = between_make(site->arena, site);
    struct variant *variant = variant_make(site->arena, site);
    order_first(site, &betweens, false, 1, &variant->order);
    variant_place(variant, SCUFF_NEVER, INT64_MAX / 2);
    return variant;
}

static void check_alike(const struct row *row, const struct variant *a, const struct variant *b)
{
    const struct site *site = a->draft->site;
    check_int(row, a->whole, b->whole);
    check_text(row, order_words(site->arena, &a->order), order_words(site->arena, &b->order));
    check_int(row, (intmax_t)a->draft->count, (intmax_t)b->draft->count);
    for (size_t i = 0; i < site->count; i++) {
        check_int(row, a->draft->start[i], b->draft->start[i]);
        check_int(row, a->draft->batch_of[i], b->draft->batch_of[i]);
        if (a->draft->start[i] != SITE_NONE)
            check_int(row, a->draft->end[i], b->draft->end[i]);
    }
}

/* What was held back while an order was divided is not in the order that came of it: read once more, it is placed alike. */
static void check_read_again(const struct row *row, const struct variant *variant)
{
    struct arena *arena = variant->draft->site->arena;
    struct variant *again = variant_make(arena, variant->draft->site);
    variant_copy_order(again, variant);
    variant_place(again, SCUFF_NEVER, INT64_MAX / 2);
    if (strcmp(order_words(arena, &again->order), order_words(arena, &variant->order)) == 0)
        check_alike(row, again, variant);
}

/* Goes from order to order by drawn changes; how many batches were shared. */
static size_t wander(const struct row *row, const struct site *site, uint64_t seed)
{
    struct moving moving = moving_of(site, seed);
    struct variant *now = first_order(site), *alone = variant_make(site->arena, site);
    size_t shared = 0;
    for (int n = 0; n < CHANGES; n++) {
        variant_copy_order(moving.trial, now);
        moves_change_some(&moving);
        variant_copy_order(alone, moving.trial);
        variant_share(moving.trial, now);
        shared += moving.trial->shared;
        variant_place(moving.trial, SCUFF_NEVER, INT64_MAX / 2);
        variant_place(alone, SCUFF_NEVER, INT64_MAX / 2);
        check_alike(row, moving.trial, alone);
        if (!moving.trial->whole)
            continue;
        check_read_again(row, moving.trial);
        variant_copy(now, moving.trial);
    }
    return shared;
}

static void shared_batches_are_the_same(void **state)
{
    (void)state;
    size_t shared = 0;
    for (uint64_t number = 0; number < SHARED_JOBS; number++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        uint64_t seed = number;
        struct row row = *HERE;
        row.name = arena_textf(arena, "drawn job %d", (int)number);
        shared += wander(&row, drawn(arena, &panel, &seed), number);
        arena_free(arena);
    }
    check_true(HERE, shared > (size_t)SHARED_JOBS * CHANGES, "batches are shared at all");
}

/* Places the batches of an order once more; at none of the starts that are passed over can one begin. */
static void check_none_sooner(const struct row *row, const struct variant *variant)
{
    const struct site *site = variant->draft->site;
    struct draft *draft = draft_make(site->arena, site);
    for (size_t i = 0; i < variant->draft->count; i++) {
        struct placed placed, other;
        if (!draft_place(draft, variant->draft->placed[i].batch, 0, SITE_NEVER, &placed))
            return;
        for (int32_t start = 0; start < placed.laid.start; start += GRID_MIN)
            check_true(row, !draft_fits(draft, placed.batch, start, &other), "nothing sooner fits");
        draft_add(draft, &placed);
    }
}

static void no_batch_can_begin_sooner(void **state)
{
    (void)state;
    for (uint64_t number = 0; number < SOONER_JOBS; number++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        uint64_t seed = number;
        struct row row = *HERE;
        row.name = arena_textf(arena, "drawn job %d", (int)number);
        const struct site *site = drawn(arena, &panel, &seed);
        struct moving moving = moving_of(site, number);
        struct variant *now = first_order(site);
        for (int n = 0; n < 6; n++) {
            check_none_sooner(&row, now);
            variant_copy_order(moving.trial, now);
            moves_change_some(&moving);
            variant_place(moving.trial, SCUFF_NEVER, INT64_MAX / 2);
            variant_copy(now, moving.trial);
        }
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(shared_batches_are_the_same), CHECK_TEST(no_batch_can_begin_sooner));
}
