/* Mixing cards worked by hand: a two-part oil of 10 m2/l, laid at 1 m2 an hour; a cloth keeps 5 ml. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "plan/plan.h"

static const double loss_l = 0.005;

struct world {
    struct arena *arena;
    struct panel panel;
    struct component components[2];
};

/* So many parts of so many minutes each, with one coat of a pot life. */
static struct world *world_make(int parts, double minutes_each, int32_t pot_life_min)
{
    struct arena *arena = arena_make(0);
    struct world *w = ARENA_NEW(arena, struct world);
    w->arena = arena;
    panel_init(&w->panel);
    w->components[0] = w->components[1] = w->panel.component;
    w->components[0].parts = 2;
    w->components[1].name = "hardener";
    struct finish *finish = &w->panel.finish;
    finish->components = w->components;
    finish->component_count = 2;
    finish->ratio_tolerance = 0.05;
    finish->pot_life_min = pot_life_min;
    panel_set_hours(&w->panel, 0, parts * minutes_each / 60);
    w->panel.parts[0].qty = parts;
    panel_add_step(&w->panel, 0, STEP_COAT)->coats = 1;
    return w;
}

static const struct mix_cards *cards_of(struct world *w)
{
    return mix_cards_make(w->arena, panel_dated(w->arena, &w->panel));
}

static void check_card(const struct row *row, const struct mix_card *card, int number, int of, int from,
                       int to)
{
    check_int(row, card->number, number);
    check_int(row, card->of, of);
    check_int(row, (intmax_t)card->serves_count, 1);
    check_int(row, card->serves[0].from_part, from);
    check_int(row, card->serves[0].to_part, to);
}

static void one_mix(void **state)
{
    (void)state;
    struct world *w = world_make(1, 30, 60);
    const struct mix_cards *cards = cards_of(w);
    check_int(HERE, (intmax_t)cards->count, 1);
    check_int(HERE, (intmax_t)cards->warning_count, 0);
    check_true(HERE, !cards->impossible, "possible");
    check_card(HERE, &cards->items[0], 1, 1, 1, 1);
    check_double(HERE, cards->items[0].volume_l, 0.05 + loss_l, 1e-9);
    check_double(HERE, cards->items[0].apply_min, 30, 1e-9);
    arena_free(w->arena);
}

/* Of an hour nine tenths are used: 54 minutes hold two parts of 20, so that the first of two mixes takes two of three. What
 * stays in the cloth is that of the batch. */
static void two_mixes(void **state)
{
    (void)state;
    struct world *w = world_make(3, 20, 60);
    const struct mix_cards *cards = cards_of(w);
    check_int(HERE, (intmax_t)cards->count, 2);
    check_card(HERE, &cards->items[0], 1, 2, 1, 2);
    check_card(HERE, &cards->items[1], 2, 2, 3, 3);
    check_double(HERE, cards->items[0].volume_l, (0.1 + loss_l) * 2 / 3, 1e-9);
    check_double(HERE, cards->items[1].volume_l, (0.1 + loss_l) / 3, 1e-9);
    check_double(HERE, cards->items[0].apply_min, 40, 1e-9);
    check_double(HERE, cards->items[1].apply_min, 20, 1e-9);
    check_int(HERE, (intmax_t)cards->warning_count, 0);
    arena_free(w->arena);
}

/* It must stand for as long as it lives. */
static void dead_when_it_may_be_used(void **state)
{
    (void)state;
    struct world *w = world_make(1, 30, 20);
    w->panel.finish.induction_min = 20;
    const struct mix_cards *cards = cards_of(w);
    check_int(HERE, (intmax_t)cards->count, 0);
    check_true(HERE, cards->impossible, "impossible");
    check_int(HERE, (intmax_t)cards->warning_count, 1);
    check_int(HERE, cards->warnings[0].kind, MIX_WARNING_DEAD);
    check_double(HERE, cards->warnings[0].working_min, 0, 0);
    check_double(HERE, cards->warnings[0].temperature_c, 23, 0);
    arena_free(w->arena);
}

/* Two hours on one part, and 54 minutes of pot life. */
static void a_part_takes_longer(void **state)
{
    (void)state;
    struct world *w = world_make(1, 120, 60);
    const struct mix_cards *cards = cards_of(w);
    check_int(HERE, (intmax_t)cards->warning_count, 1);
    check_int(HERE, cards->warnings[0].kind, MIX_WARNING_PART);
    check_text(HERE, cards->warnings[0].piece, "A");
    check_double(HERE, cards->warnings[0].minutes, 120, 1e-9);
    check_double(HERE, cards->warnings[0].working_min, 54, 1e-9);
    arena_free(w->arena);
}

/* 314159265 to 100000000, to ten places: smaller numbers come near, but no steps up to a million, of which nobody stirs more. */
static void a_ratio_that_no_scale_keeps(void **state)
{
    (void)state;
    struct world *w = world_make(1, 30, 60);
    w->components[0].parts = 3.14159265;
    w->panel.finish.ratio_tolerance = 1e-13;
    const struct mix_cards *cards = cards_of(w);
    check_int(HERE, (intmax_t)cards->count, 1);
    check_true(HERE, cards->impossible && !cards->items[0].mix->within, "impossible");
    check_int(HERE, (intmax_t)cards->warning_count, 1);
    check_int(HERE, cards->warnings[0].kind, MIX_WARNING_SCALE);
    check_double(HERE, cards->warnings[0].scale_g, w->panel.job.shop.scale_g, 0);
    arena_free(w->arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(one_mix), CHECK_TEST(two_mixes), CHECK_TEST(dead_when_it_may_be_used),
                     CHECK_TEST(a_part_takes_longer), CHECK_TEST(a_ratio_that_no_scale_keeps));
}
