/* Shellac cuts against published charts. */
#include "check.h"

#include "sample.h"

#include "amount/mix.h"
#include "amount/shellac.h"
#include "base/arena.h"

static const double g_per_oz = 28.349523125, l_per_qt = 0.946352946;

struct flakes_row {
    struct row row;
    double cut_lb, quarts, want_oz;
};

/* Mixing chart: ounces of flakes = 16 x cut x gallons. */
static const struct flakes_row flakes[] = {
    {ROW("1-lb cut, a quart"), 1, 1, 4},  {ROW("2-lb cut, a quart"), 2, 1, 8},
    {ROW("3-lb cut, a quart"), 3, 1, 12}, {ROW("1-lb cut, a pint"), 1, 0.5, 2},
    {ROW("2-lb cut, a pint"), 2, 0.5, 4}, {ROW("3-lb cut, a pint"), 3, 0.5, 6},
};

static void flakes_are(void **state)
{
    const struct flakes_row *r = *state;
    check_double(&r->row, shellac_flakes_g_per_l(r->cut_lb) * r->quarts * l_per_qt / g_per_oz, r->want_oz,
                 1e-12);
}

struct dilution_row {
    struct row row;
    double from, to, want_parts;
};

/* Parts of alcohol to a part of cut, as the chart rounds them: 2/3 means 2 parts to 3. Within 0.2 of the rule. */
static const struct dilution_row dilutions[] = {
    {ROW("3 to 2"), 3, 2, 1 / 3.0},
    {ROW("3 to 1"), 3, 1, 1.5},
    {ROW("4 to 2"), 4, 2, 3 / 4.0},
    {ROW("2 to 1"), 2, 1, 2 / 3.0},
};

static void dilution_is(void **state)
{
    const struct dilution_row *r = *state;
    double got = shellac_dilution(r->from, r->to);
    check_true(&r->row, got > r->want_parts - 0.2 && got < r->want_parts + 0.2, "within 0.2 of the chart");
    /* what comes out has the flakes of the weaker cut to its alcohol */
    double alcohol = 1 / shellac_solution_l_per_l(r->from);
    check_double(&r->row, shellac_flakes_g_per_l(r->from) * alcohol / (alcohol + got),
                 shellac_flakes_g_per_l(r->to), 1e-12);
}

static void pound_per_gallon(void **state)
{
    (void)state;
    check_double(HERE, shellac_flakes_g_per_l(1), 119.826427, 1e-8); /* NIST, derived */
    check_double(HERE, shellac_solution_l_per_l(2), 1.2, 1e-15);     /* Fine Woodworking, as quoted */
    check_double(HERE, shellac_dilution(2, 2), 0, 0);
}

/* Two pounds in a US gallon of alcohol make 1.2 gallons (Fine Woodworking, as quoted): that much of the recipe holds
 * them again, and what is sold ready made is no kit of it. A 3-pound cut made 2-pound: what comes out has the flakes of a 2-pound
 * cut to its alcohol. */
static void recipes_hold_their_flakes(void **state)
{
    (void)state;
    static const double gal = 3.785411784, lb = 453.59237, alcohol = 0.81;
    /* 190 proof: ASTM D360-89, 1.1 */ /* kg/l, from memory */
    struct arena *arena = arena_make(0);
    struct finish shellac = sample_varnish();
    static const struct kit ready_made = {0};
    shellac.solvent = "denatured alcohol";
    shellac.kits = &ready_made;
    shellac.kit_count = 1;
    struct finish *two = shellac_recipe(arena, &shellac, 2, 0);
    check_int(HERE, (intmax_t)two->kit_count, 0);
    struct mix *mix = mix_make(arena, two, (struct mix_want){.volume_l = 1.2 * gal, .scale_g = 1});
    check_double(HERE, mix->pours[0].mass_g, 2 * lb, 1e-12);
    check_double(HERE, mix->pours[1].volume_l, gal, 1e-12);
    struct finish *weaker = shellac_recipe(arena, &shellac, 2, 3);
    mix = mix_make(arena, weaker, (struct mix_want){.volume_l = 1, .scale_g = 1});
    double cut_l = mix->pours[0].volume_l, added_l = mix->pours[1].volume_l;
    double flakes_g = 3 * lb * cut_l / (1.3 * gal), alcohol_l = cut_l / 1.3 + added_l;
    check_double(HERE, flakes_g / alcohol_l, 2 * lb / gal, 1e-12);
    /* 1.3 gal hold a gallon of alcohol and 3 lb */
    check_double(HERE, weaker->components[0].density_kg_per_l, (gal * alcohol + 3 * lb / 1000) / (1.3 * gal),
                 1e-12);
    check_text(HERE, weaker->components[0].name, "3-pound cut");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(flakes, flakes_are), CHECK_ROWS(dilutions, dilution_is),
                     CHECK_TEST(pound_per_gallon), CHECK_TEST(recipes_hold_their_flakes));
}
