/* Mixes: published ratios to the gram, the scale's rounding as it truly is, and what is raised. */
#include "check.h"
#include "sample.h"

#include "amount/mix.h"
#include "base/arena.h"
#include "finish/drying.h"

#include <math.h>

/* 4:1 by volume, 1.20 and 0.95 g/ml: 500 ml = 400 + 100 ml = 480 + 95 g (arithmetic). */
static void four_to_one(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct finish finish = sample_two_part();
    struct mix *mix =
        mix_make(arena, &finish, (struct mix_want){.volume_l = 0.5, .scale_g = 1, .temperature_c = 31});
    check_int(HERE, (intmax_t)mix->pour_count, 2);
    check_double(HERE, mix->pours[0].volume_l, 0.4, 1e-15);
    check_double(HERE, mix->pours[1].volume_l, 0.1, 1e-15);
    check_double(HERE, mix->pours[0].mass_g, 480, 1e-12);
    check_double(HERE, mix->pours[1].mass_g, 95, 1e-12);
    check_double(HERE, mix->pours[0].weigh_g, 480, 1e-12);
    check_double(HERE, mix->pours[1].weigh_g, 95, 1e-12);
    check_double(HERE, mix->pours[1].total_g, 575, 1e-12);
    check_double(HERE, mix->ratio_error, 0, 1e-12);
    check_true(HERE, mix->within && !mix->raised, "as asked");
    check_double(HERE, mix->made_l, 0.5, 1e-12);
    /* UFGS-09971, 3.7.1.3: 4 h at 21 C are 2 h at 31 C */
    check_double(HERE, mix->pot_life_min, 120, 1e-12);
    check_double(HERE, mix->working_min, 108, 1e-12);
    arena_free(arena);
}

struct smallest_row {
    struct row row;
    double first, second, want_g;
};

/* From memory: 10:1 by mass on a 1 g scale at 5 % about 110 g; 100:3 needs 343 g. */
static const struct smallest_row smallest[] = {
    {ROW("10:1 by mass"), 10, 1, 110},
    {ROW("100:3 by mass"), 100, 3, 343},
};

static void smallest_is(void **state)
{
    const struct smallest_row *r = *state;
    struct arena *arena = arena_make(0);
    struct sample_recipe recipe;
    sample_recipe(&recipe, 2, (double[]){r->first, r->second}, (double[]){1.2, 0.95});
    recipe.finish.mix_by_mass = true;
    struct mix *mix = mix_make(arena, &recipe.finish, (struct mix_want){.volume_l = 1, .scale_g = 1});
    double grams = mix->smallest_l * finish_density(&recipe.finish) * 1000;
    arena_free(arena);
    check_double(&r->row, grams, r->want_g, 1e-3);
}

struct weigh_row {
    struct row row;
    double first, second; /* parts by mass, both 1 kg/l */
    double volume_ml, scale_g, tolerance;
    double want_first, want_second, want_error;
    bool raised;
};

/* By hand. 10:1, 20 ml: exact 18.18 + 1.82; 19 + 2 is 5.3 % off, and 18 + 2 = 20 ml is 11 %: at 8 % the former. */
static const struct weigh_row weighs[] = {
    {ROW("exact"), 10, 1, 110, 1, 0.05, 100, 10, 0, false},
    {ROW("one step of the scale of each"), 1, 1, 20, 10, 0.05, 10, 10, 0, false},
    {ROW("together: the second choice of the first"), 10, 1, 20, 1, 0.08, 19, 2, 1 / 19.0, false},
    /* 5 %: 19 + 2 is too much; below the volume 18 + 1, 18 + 2, 19 + 1 are worse; raised to 20 + 2 */
    {ROW("raised to the next that keeps it"), 10, 1, 20, 1, 0.05, 20, 2, 0, true},
    {ROW("a finer scale needs no raising"), 10, 1, 20, 0.1, 0.05, 18.2, 1.8, 1.0 / 91, false},
    /* 3:2, 2.5 ml: 1.5 + 1 exactly on the half gram of the first: 2 + 1 is 25 % off, 1 + 1 = 2 ml 50 %: raised to 3 + 2 */
    {ROW("three to two"), 3, 2, 2.5, 1, 0.05, 3, 2, 0, true},
    /* 1:1, 3 ml: 1.5 + 1.5: 2 + 2 is exact and no less than asked; 1 + 1 is exact, too, but less */
    {ROW("never below where above keeps it"), 1, 1, 3, 1, 0.05, 2, 2, 0, false},
    /* 1:1.02 exact 100.0 + 102.0 of 202 ml; asked 202.4: 100.2 + 102.2: 101 + 103 (0.02 % off) before 101 + 102 */
    {ROW("least error of those that suffice"), 1, 1.02, 202.4, 1, 0.05, 101, 103, 0.0001941370, false},
};

static void weighed_is(void **state)
{
    const struct weigh_row *r = *state;
    struct arena *arena = arena_make(0);
    struct sample_recipe recipe;
    sample_recipe(&recipe, 2, (double[]){r->first, r->second}, (double[]){1, 1});
    recipe.finish.mix_by_mass = true;
    recipe.finish.ratio_tolerance = r->tolerance;
    struct mix *mix = mix_make(arena, &recipe.finish,
                               (struct mix_want){.volume_l = r->volume_ml / 1000, .scale_g = r->scale_g});
    check_double(&r->row, mix->pours[0].weigh_g, r->want_first, 1e-12);
    check_double(&r->row, mix->pours[1].weigh_g, r->want_second, 1e-12);
    check_double(&r->row, mix->ratio_error, r->want_error, 1e-8);
    check_true(&r->row, mix->within && mix->raised == r->raised, "within the tolerance, raised or not");
    check_double(&r->row, mix->made_l, (r->want_first + r->want_second) / 1000, 1e-12);
    arena_free(arena);
}

static void thinner_comes_last(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct sample_recipe recipe;
    /* 1:3 by volume: the hardener of the file's second place is the larger part and is poured first */
    sample_recipe(&recipe, 2, (double[]){1, 3}, (double[]){1, 1});
    recipe.finish.solvent = "water";
    struct mix *mix =
        mix_make(arena, &recipe.finish, (struct mix_want){.volume_l = 0.5, .thin = 0.25, .scale_g = 1});
    check_int(HERE, (intmax_t)mix->pour_count, 3);
    check_double(HERE, mix->pours[0].volume_l, 0.1, 1e-15);
    check_double(HERE, mix->pours[1].volume_l, 0.3, 1e-15);
    check_double(HERE, mix->pours[2].volume_l, 0.1, 1e-15);
    check_true(HERE, mix->pours[2].component == SIZE_MAX, "thinner");
    check_int(HERE, (intmax_t)mix->pours[1].rank, 0);
    check_int(HERE, (intmax_t)mix->pours[0].rank, 1);
    check_int(HERE, (intmax_t)mix->pours[2].rank, 2);
    check_double(HERE, mix->pours[1].total_g, 300, 1e-12);
    check_double(HERE, mix->pours[0].total_g, 400, 1e-12);
    check_double(HERE, mix->pours[2].total_g, 500, 1e-12);
    recipe.finish.solvent = "moonshine";
    mix = mix_make(arena, &recipe.finish, (struct mix_want){.volume_l = 0.5, .thin = 0.25, .scale_g = 1});
    check_double(HERE, mix->pours[2].mass_g, 0, 0);
    check_double(HERE, mix->made_l, 0.5, 1e-12);
    arena_free(arena);
}

static void one_component(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct finish finish = sample_varnish(); /* 0.86 kg/l */
    struct mix *mix = mix_make(arena, &finish, (struct mix_want){.volume_l = 0.1234, .scale_g = 1});
    check_double(HERE, mix->pours[0].weigh_g, 107, 1e-12); /* 106.12 g, never below */
    check_double(HERE, mix->ratio_error, 0, 0);
    check_double(HERE, mix->smallest_l, 0, 0);
    check_true(HERE, mix->within && isinf(mix->working_min), "no ratio, no pot life");
    arena_free(arena);
}

static void what_so_much_hardener_makes(void **state)
{
    (void)state;
    struct finish finish = sample_two_part();
    /* 95 g of hardener are 100 ml, a fifth of 500 ml */
    check_double(HERE, mix_volume_from(&finish, 1, 95, 0), 0.5, 1e-12);
    check_double(HERE, mix_volume_from(&finish, 1, 95, 0.1), 0.55, 1e-12);
    check_double(HERE, mix_partner_g(&finish, 1, 95, 0), 480, 1e-12);
    check_double(HERE, mix_partner_g(&finish, 0, 240, 1), 47.5, 1e-12);
}

/* 0.4 l of varnish and a quarter of it of mineral spirits, 0.1 l or 78 g: together the half litre that was asked for. */
static void a_light_thinner_fills_its_share(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct finish finish = sample_varnish(); /* 0.86 kg/l: 344 g */
    struct mix *mix =
        mix_make(arena, &finish, (struct mix_want){.volume_l = 0.5, .thin = 0.25, .scale_g = 1});
    check_double(HERE, mix->pours[0].weigh_g, 344, 1e-12);
    check_double(HERE, mix->pours[1].weigh_g, 78, 1e-12);
    check_double(HERE, mix->made_l, 0.5, 1e-12);
    arena_free(arena);
}

/* Half a litre that is a quarter litre of water to each litre of finish: 0.4 l at (4 x 1.20 + 0.95) / 5 = 1.15 kg/l, and 100 g. */
static void what_a_thinned_mix_weighs(void **state)
{
    (void)state;
    struct finish finish = sample_two_part();
    finish.solvent = "water";
    check_double(HERE, mix_mass_of(&finish, 0.5, 0.25), 560, 1e-12);
}

/* 40 min are those of half a gram in one cup: 575 g are 1150 times as much, and live as much shorter. In a tray no mass heats
 * itself, however little the pot life is for. */
static void in_a_tray_it_stays_cool(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct finish finish = sample_two_part();
    struct mix_warning warning;
    finish.pot_life_min = 40;
    finish.pot_mass_g = 0.5;
    struct mix *mix =
        mix_make(arena, &finish, (struct mix_want){.volume_l = 0.5, .scale_g = 1, .temperature_c = 21});
    check_true(HERE, mix_warns_of_cup(&finish, mix, &warning), "too much for one cup");
    check_double(HERE, warning.mass_g, 575, 1e-12);
    check_double(HERE, warning.minutes, 40.0 / 1150, 1e-12);
    check_double(HERE, warning.pot_life_min, 40, 1e-12);
    arena_free(arena);
}

static void counts(void **state)
{
    (void)state;
    check_int(HERE, mix_count(0, 100), 1);
    check_int(HERE, mix_count(100, 100), 1);
    check_int(HERE, mix_count(100.5, 100), 2);
    check_int(HERE, mix_count(500, INFINITY), 1);
    check_int(HERE, mix_count(10, 0), 0);
    check_double(HERE, tool_feed_l(TOOL_HVLP), 0.08, 0); /* common practice, from memory */
    check_double(HERE, tool_feed_l(TOOL_BRUSH), 0, 0);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(four_to_one), CHECK_ROWS(smallest, smallest_is),
                     CHECK_ROWS(weighs, weighed_is), CHECK_TEST(thinner_comes_last),
                     CHECK_TEST(one_component), CHECK_TEST(what_so_much_hardener_makes),
                     CHECK_TEST(a_light_thinner_fills_its_share), CHECK_TEST(what_a_thinned_mix_weighs),
                     CHECK_TEST(in_a_tray_it_stays_cool), CHECK_TEST(counts));
}
