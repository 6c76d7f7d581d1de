/* Mixing cards worked by hand: a two-part oil of 10 m2/l, laid at 1 m2 an hour; a cloth keeps 5 ml. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "plan/plan.h"
#include "timetable/site.h"

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

/* By a gun that keeps 5 ml too, 55 ml of 0.9 kg/l, 49.5 g: twice what stays cool, which halves the pot life of 60 min. Of those 30
 * nine tenths are good for laying, but the gun takes an hour to clean. */
static void dead_before_the_gun_is_clean(void **state)
{
    (void)state;
    struct world *w = world_make(1, 30, 60);
    struct shop *shop = &w->panel.job.shop;
    w->panel.steps[0][0].by = TOOL_HVLP;
    w->panel.finish.by[TOOL_HVLP] = true;
    w->panel.finish.pot_mass_g = 49.5 / 2;
    shop->transfer[TOOL_HVLP] = 1;
    shop->loss_l[TOOL_HVLP] = loss_l;
    shop->two_part_clean_up_min[TOOL_HVLP] = 60;
    const struct mix_cards *cards = cards_of(w);
    assert_int_equal(cards->warning_count, 1);
    check_int(HERE, cards->warnings[0].kind, MIX_WARNING_DEAD);
    check_double(HERE, cards->warnings[0].working_min, 30 * 0.9, 1e-9);
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

/* Three parts of 20 minutes on A and one on B: the second mix ends A and begins B. What stays in the cloth is shared as they take of
 * the finish, three to one; each is stirred when the one before is laid. */
static void a_mix_for_two_pieces(void **state)
{
    (void)state;
    struct world *w = world_make(3, 20, 60);
    size_t b = panel_add_piece(&w->panel);
    panel_set_hours(&w->panel, b, 20 / 60.0);
    panel_add_step(&w->panel, b, STEP_COAT)->coats = 1;
    const struct mix_cards *cards = cards_of(w);
    assert_int_equal(cards->count, 2);
    const struct mix_card *second = &cards->items[1];
    check_card(HERE, &cards->items[0], 1, 2, 1, 2);
    check_double(HERE, cards->items[0].volume_l, (0.1 + loss_l * 3 / 4) * 2 / 3, 1e-9);
    check_int(HERE, (intmax_t)second->serves_count, 2);
    check_int(HERE, second->serves[0].from_part, 3);
    check_int(HERE, second->serves[0].to_part, 3);
    check_int(HERE, second->serves[0].parts, 3);
    check_int(HERE, second->serves[1].from_part, 1);
    check_int(HERE, second->serves[1].to_part, 1);
    check_true(HERE, mix_serves_new_piece(second, 1), "B is another piece");
    check_double(HERE, second->volume_l, (0.1 + loss_l * 3 / 4) / 3 + 0.1 / 3 + loss_l / 4, 1e-9);
    check_double(HERE, second->apply_min, 40, 1e-9);
    check_text(HERE, second->step_id, second->serves[0].coat->id);
    check_int(HERE, cards->items[0].mixed_at_min, march(1, 8, 0));
    check_int(HERE, second->mixed_at_min, march(1, 8, MIXING_MIN + 40));
    arena_free(w->arena);
}

/* One part on A and three on B: the first mix lays all of A and one part of B. */
static void a_mix_that_begins_a_second_piece(void **state)
{
    (void)state;
    struct world *w = world_make(1, 20, 60);
    size_t b = panel_add_piece(&w->panel);
    panel_set_hours(&w->panel, b, 1);
    w->panel.parts[b].qty = 3;
    panel_add_step(&w->panel, b, STEP_COAT)->coats = 1;
    const struct mix_cards *cards = cards_of(w);
    assert_int_equal(cards->count, 2);
    check_double(HERE, cards->items[0].volume_l, 0.1 / 3 + loss_l / 4 + (0.1 + loss_l * 3 / 4) / 3, 1e-9);
    check_double(HERE, cards->items[1].volume_l, (0.1 + loss_l * 3 / 4) * 2 / 3, 1e-9);
    arena_free(w->arena);
}

/* Two parts of 20 minutes on A, and one on B: the first mix is used up with A, and B, which begins at that very second, has nothing
 * of it. */
static void a_mix_that_ends_with_its_piece(void **state)
{
    (void)state;
    struct world *w = world_make(2, 20, 60);
    size_t b = panel_add_piece(&w->panel);
    panel_set_hours(&w->panel, b, 20 / 60.0);
    panel_add_step(&w->panel, b, STEP_COAT)->coats = 1;
    const struct mix_cards *cards = cards_of(w);
    assert_int_equal(cards->count, 2);
    check_card(HERE, &cards->items[0], 1, 2, 1, 2);
    check_card(HERE, &cards->items[1], 2, 2, 1, 1);
    check_int(HERE, cards->items[0].serves[0].coat->piece, 0);
    check_int(HERE, cards->items[1].serves[0].coat->piece, (int)b);
    arena_free(w->arena);
}

/* Stirred at 08:00 and left for a quarter of an hour, of its hour it may be used for nine tenths of what is left. */
static void until_when_a_mix_is_good(void **state)
{
    (void)state;
    struct world *w = world_make(1, 30, 60);
    w->panel.finish.induction_min = 15;
    const struct mix_cards *cards = cards_of(w);
    assert_int_equal(cards->count, 1);
    const struct mix_card *card = &cards->items[0];
    check_double(HERE, card->mix->working_min, (60 - 15) * 0.9, 1e-9);
    check_int(HERE, card->apply_by_min, march(1, 8, MIXING_MIN + 15 + 40));
    check_int(HERE, card->pot_life_ends_min, march(1, 8, MIXING_MIN + 60));
    arena_free(w->arena);
}

/* Without a date nobody knows how much is laid at a time: two mixes are halves, and the second part is laid from both. */
static void without_a_date(void **state)
{
    (void)state;
    struct world *w = world_make(3, 20, 60);
    struct err_list errors = {0};
    const struct operations *operations =
        timetable_operations(w->arena, &w->panel.job, &w->panel.surfaces, &errors);
    const struct mix_cards *cards = mix_cards_make(w->arena, timetable_blank(w->arena, operations));
    assert_int_equal(cards->count, 2);
    check_card(HERE, &cards->items[0], 1, 2, 1, 2);
    check_card(HERE, &cards->items[1], 2, 2, 2, 3);
    for (size_t i = 0; i < 2; i++) {
        const struct mix_card *card = &cards->items[i];
        check_double(HERE, card->volume_l, (0.1 + loss_l) / 2, 1e-9);
        check_double(HERE, card->apply_min, 30, 1e-9);
        check_true(HERE, card->mixed_at_min == INT64_MAX && card->apply_by_min == INT64_MAX, "no moment");
    }
    arena_free(w->arena);
}

/* Half of the work lies within the first part, which takes 50 minutes of the hour. */
static void without_a_date_within_a_part(void **state)
{
    (void)state;
    struct world *w = world_make(1, 50, 60);
    size_t b = panel_add_piece(&w->panel);
    panel_set_hours(&w->panel, b, 10 / 60.0);
    w->panel.parts[b].piece = 0;
    w->panel.parts[b].schedule[REGION_FACE] = w->panel.surface_items[b].schedule = 0;
    w->panel.job.piece_count = w->panel.job.schedule_count = 1;
    struct err_list errors = {0};
    const struct operations *operations =
        timetable_operations(w->arena, &w->panel.job, &w->panel.surfaces, &errors);
    const struct mix_cards *cards = mix_cards_make(w->arena, timetable_blank(w->arena, operations));
    assert_int_equal(cards->count, 2);
    check_card(HERE, &cards->items[0], 1, 2, 1, 1);
    check_card(HERE, &cards->items[1], 2, 2, 1, 2);
    check_double(HERE, cards->items[0].volume_l, (0.1 + loss_l) / 2, 1e-9);
    check_double(HERE, cards->items[1].volume_l, (0.1 + loss_l) / 2, 1e-9);
    arena_free(w->arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(one_mix), CHECK_TEST(two_mixes), CHECK_TEST(dead_when_it_may_be_used),
                     CHECK_TEST(dead_before_the_gun_is_clean), CHECK_TEST(a_part_takes_longer),
                     CHECK_TEST(a_ratio_that_no_scale_keeps), CHECK_TEST(a_mix_for_two_pieces),
                     CHECK_TEST(until_when_a_mix_is_good), CHECK_TEST(without_a_date),
                     CHECK_TEST(without_a_date_within_a_part), CHECK_TEST(a_mix_that_begins_a_second_piece),
                     CHECK_TEST(a_mix_that_ends_with_its_piece));
}
