/* What a finish is: its names, its ratio, and the mistakes that its own check finds. */
#include "check.h"
#include "sample.h"

#include "base/err.h"

#include <string.h>

static void names_round_trip(void **state)
{
    (void)state;
    for (int i = 0; i < STATE_COUNT; i++) {
        enum finish_state found = STATE_COUNT;
        check_true(HERE, finish_state_find(finish_state_name((enum finish_state)i), &found), "state found");
        check_int(HERE, found, i);
    }
    for (int i = 0; i < TOOL_COUNT; i++) {
        enum tool found = TOOL_COUNT;
        check_true(HERE, tool_find(tool_name((enum tool)i), &found), "tool found");
        check_int(HERE, found, i);
    }
}

static void names_of_the_contract(void **state)
{
    (void)state;
    check_text(HERE, finish_state_name(STATE_LIGHT_USE), "light-use");
    check_text(HERE, finish_drying_name(DRIES_BY_NOTHING), "none");
    check_text(HERE, tool_name(TOOL_FOAM_BRUSH), "foam-brush");
    check_text(HERE, resistance_name(RESISTS_OUTDOORS), "outdoors");
    check_true(HERE, finish_state_name(STATE_COUNT) == NULL, "no eighth state");
    enum tool tool;
    check_true(HERE, !tool_find("spoon", &tool), "a spoon is no tool");
    check_true(HERE, tool_sprays(TOOL_AIRLESS) && !tool_sprays(TOOL_ROLLER), "what sprays");
}

/* 4:1 by volume, 1.20 and 0.95 g/ml is 100 : 19.79 by mass (arithmetic). */
static void ratio_by_volume_and_mass(void **state)
{
    (void)state;
    struct finish finish = sample_two_part();
    check_double(HERE, finish_volume_share(&finish, 0), 0.8, 1e-15);
    check_double(HERE, finish_volume_share(&finish, 1), 0.2, 1e-15);
    check_double(HERE, finish_density(&finish), 0.8 * 1.20 + 0.2 * 0.95, 1e-15);

    struct component by_mass[2];
    memcpy(by_mass, finish.components, sizeof by_mass);
    by_mass[0].parts = 100;
    by_mass[1].parts = 100 * 0.95 / (4 * 1.20); /* 19.79 */
    check_double(HERE, by_mass[1].parts, 19.79, 3e-4);
    finish.components = by_mass;
    finish.mix_by_mass = true;
    check_double(HERE, finish_volume_share(&finish, 0), 0.8, 1e-12);
    check_double(HERE, finish_density(&finish), 1.15, 1e-12);
}

/* 1 l at 1 um covers 1000 m2: 100 um wet is 10 m2/l. */
static void coverage_of_a_wet_film(void **state)
{
    (void)state;
    struct finish finish = sample_varnish();
    check_double(HERE, finish_coverage(&finish, true), 12, 0);
    check_double(HERE, finish_coverage(&finish, false), 16, 0);
    finish.wet_film_um = 100;
    check_double(HERE, finish_coverage(&finish, true), 10, 1e-15);
    check_double(HERE, finish_coverage(&finish, false), 10, 1e-15);
    finish.wet_film_um = 1;
    check_double(HERE, finish_coverage(&finish, true), 1000, 1e-12);
}

static void oils(void **state)
{
    (void)state;
    struct finish finish = sample_varnish();
    check_true(HERE, !finish_is_oil(&finish), "an oil varnish is a varnish");
    finish.family = "hardwax-oil";
    check_true(HERE, finish_is_oil(&finish), "a hardwax oil is an oil");
    finish.family = "oil";
    check_true(HERE, finish_is_oil(&finish), "oil is an oil");
}

static void samples_are_sound(void **state)
{
    (void)state;
    struct err_list errors = {0};
    struct finish finish = sample_varnish();
    finish_check(&finish, &errors);
    finish = sample_two_part();
    finish_check(&finish, &errors);
    check_int(HERE, (intmax_t)errors.count, 0);
}

struct broken_row {
    struct row row;
    void (*spoil)(struct finish *finish);
    const char *pointer, *expected, *found;
};

static struct component spoilt[2];

static void spoil_component(struct finish *finish)
{
    memcpy(spoilt, finish->components, 2 * sizeof spoilt[0]);
    finish->components = spoilt;
}
static void heavy(struct finish *finish)
{
    spoil_component(finish);
    spoilt[1].density_kg_per_l = 90;
}
static void no_part(struct finish *finish)
{
    spoil_component(finish);
    spoilt[1].parts = 0;
}
static void one_name(struct finish *finish)
{
    spoil_component(finish);
    spoilt[1].name = "base";
}
static void empty_pack(struct finish *finish)
{
    static const struct pack pack = {.size_l = 0, .price_cents = -1, .label = "0 ml"};
    spoil_component(finish);
    spoilt[0].packs = &pack;
    spoilt[0].pack_count = 1;
}
static void no_tolerance(struct finish *finish)
{
    finish->ratio_tolerance = 0;
}
static void dead_pot(struct finish *finish)
{
    finish->pot_life_min = 0;
}
static void long_induction(struct finish *finish)
{
    finish->induction_min = 240;
}
static void wide_tolerance(struct finish *finish)
{
    finish->tolerance = 1;
}
static void late_window(struct finish *finish)
{
    finish->first.recoat_last_min = 300;
    finish->later = finish->first;
}
static void later_only(struct finish *finish)
{
    finish->later.after_min[STATE_CURED] = 60;
}
static void cured_early(struct finish *finish)
{
    finish->first.after_min[STATE_CURED] = 4300;
    finish->later = finish->first;
}
static void few_coats(struct finish *finish)
{
    finish->coats_most = 2;
}
static void backwards_wipe(struct finish *finish)
{
    finish->has_wipe_off = true;
    finish->wipe_off = (struct span_range){15, 5};
}
static void cold_reference(struct finish *finish)
{
    finish->at_c = 5;
}
static void great_mark(struct finish *finish)
{
    finish->resists[RESISTS_HEAT] = 4;
}
static void shipped_without(struct finish *finish, const char *group)
{
    static struct finish_source sources[] = {
        {"components", "memory"}, {"mix", "memory"},         {"pot-life", "memory"}, {"coverage", "memory"},
        {"solids", "memory"},     {"coats", "memory"},       {"times", "memory"},    {"between", "memory"},
        {"air", "memory"},        {"late-recoat", "memory"}, {"resists", "memory"},  {"voc", "memory"},
        {"shelf-life", "memory"},
    };
    for (size_t i = 0; i < sizeof sources / sizeof sources[0]; i++)
        sources[i].text = strcmp(sources[i].group, group) == 0 ? "" : "memory";
    finish->shipped = true;
    finish->sources = sources;
    finish->source_count = sizeof sources / sizeof sources[0];
}
static void shipped_without_times(struct finish *finish)
{
    shipped_without(finish, "times");
}
static void shipped_without_solids(struct finish *finish)
{
    finish->solids = 0.45;
    shipped_without(finish, "solids");
}
static void shipped_without_mix(struct finish *finish)
{
    shipped_without(finish, "mix");
}
static void shipped_without_pot_life(struct finish *finish)
{
    shipped_without(finish, "pot-life");
}
static void shipped_without_any(struct finish *finish)
{
    finish->shipped = true;
    finish->source_count = 0;
}

static void hot_in_any_pot(struct finish *finish)
{
    static const char *const exotherm[] = {"exotherm"};
    finish->cautions = exotherm;
    finish->caution_count = 1;
    finish->pot_mass_g = 0;
}
static void pot_of_less(struct finish *finish)
{
    finish->pot_mass_g = -500;
}
static void pot_without_life(struct finish *finish)
{
    finish->pot_mass_g = 500;
    finish->pot_life_min = SPAN_NEVER;
}

#define POT_MASS "with the caution \"exotherm\", the mass of which the pot life is: \"500 g\""

static const struct broken_row broken[] = {
    {ROW("heats itself in any pot"), hot_in_any_pot, "/pot-mass", POT_MASS, "0 g"},
    {ROW("less than nothing in the pot"), pot_of_less, "/pot-mass", POT_MASS, "-500 g"},
    {ROW("a pot without a life"), pot_without_life, "/pot-mass", POT_MASS, "500 g"},
    {ROW("density of 90 kg/l"), heavy, "/components/1/density",
     "a density that a liquid or a paste can have, 0.4 kg/l to 3 kg/l", "90 kg/L"},
    {ROW("ratio of zero"), no_part, "/components/1/parts", "a number of parts above 0", "0"},
    {ROW("two of one name"), one_name, "/components/1/component", "a name that no other component has",
     "base"},
    {ROW("empty pack"), empty_pack, "/components/0/packs/0/size", "a size above 0", "0 ml"},
    {ROW("no tolerance"), no_tolerance, "/ratio-tolerance", "a share above 0 % and below 100 %", "0 %"},
    {ROW("pot life of zero"), dead_pot, "/pot-life", "a time span above 0", "0 min"},
    {ROW("induction as long as the pot life"), long_induction, "/induction",
     "an induction shorter than the pot life", "4 h"},
    {ROW("tolerance of 100 %"), wide_tolerance, "/coverage/tolerance", "a tolerance below 100 %", "100 %"},
    {ROW("window that ends before it begins"), late_window, "/times/recoat",
     "a window that ends after it begins", "6 h to 5 h"},
    {ROW("later times have their own pointer"), later_only, "/later-times/cured",
     "no less than `light-use`, 3 d", "1 h"},
    {ROW("cured before light use"), cured_early, "/times/cured", "no less than `light-use`, 3 d",
     "2 d 23 h 40 min"},
    {ROW("fewer coats at most than usual"), few_coats, "/coats/most", "no fewer than the usual coats", "2"},
    {ROW("wipe-off backwards"), backwards_wipe, "/wipe-off",
     "two times, the second not before the first and above 0", "15 min to 5 min"},
    {ROW("reference air outside the limits"), cold_reference, "/times/at",
     "air inside the limits of `air`, humidity above 0 % and below 100 %", "5 °C 50 %"},
    {ROW("mark of 4"), great_mark, "/resists/heat", "a mark from 0 to 3", "4"},
    {ROW("shipped without a source of the times"), shipped_without_times, "/sources", "a source for `times`",
     "none"},
    {ROW("without any source"), shipped_without_any, "/sources", "a source for `components`", "none"},
    {ROW("of the solids"), shipped_without_solids, "/sources", "a source for `solids`", "none"},
    {ROW("of the ratio"), shipped_without_mix, "/sources", "a source for `mix`", "none"},
    {ROW("of the pot life"), shipped_without_pot_life, "/sources", "a source for `pot-life`", "none"},
};

/* The first mistake is the one of the row; a spoilt figure may break more than one rule. */
static void check_finds(void **state)
{
    const struct broken_row *r = *state;
    struct finish finish = sample_two_part();
    struct err_list errors = {0};
    r->spoil(&finish);
    finish_check(&finish, &errors);
    check_true(&r->row, errors.count > 0, "a mistake is found");
    check_text(&r->row, errors.items[0].file, "sample-two-part.json");
    check_text(&r->row, errors.items[0].pointer, r->pointer);
    check_text(&r->row, errors.items[0].expected, r->expected);
    check_text(&r->row, errors.items[0].found, r->found);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(names_round_trip), CHECK_TEST(names_of_the_contract),
                     CHECK_TEST(ratio_by_volume_and_mass), CHECK_TEST(coverage_of_a_wet_film),
                     CHECK_TEST(oils), CHECK_TEST(samples_are_sound), CHECK_ROWS(broken, check_finds));
}
