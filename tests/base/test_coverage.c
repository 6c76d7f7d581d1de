/* Coverage in its four forms, amounts, ratios. */
#include "check.h"

#include "base/arena.h"
#include "base/coverage.h"

struct coverage_row {
    struct row row;
    const char *text;
    enum coverage_form form;
    double value, tolerance;
};

static const struct coverage_row coverages[] = {
    {ROW("m2/l"), "12 m2/l", COVERAGE_M2_PER_L, 12, 0},
    {ROW("signs"), "12 m\xC2\xB2/L", COVERAGE_M2_PER_L, 12, 0},
    {ROW("words"), "12 sq m per litre", COVERAGE_M2_PER_L, 12, 0},
    {ROW("ml/m2"), "80 ml/m2", COVERAGE_ML_PER_M2, 80, 0},
    {ROW("l/m2"), "0.08 l/m2", COVERAGE_ML_PER_M2, 80, 0},
    {ROW("g/m2"), "110 g/m2", COVERAGE_G_PER_M2, 110, 0},
    {ROW("m2/kg"), "40 m2/kg", COVERAGE_M2_PER_KG, 40, 0},
    /* 1 m2/l = 40.745833 ft2/gal, derived from NIST. */
    {ROW("ft2/gal"), "40.745833 ft2/gal", COVERAGE_M2_PER_L, 1, 1e-8},
    {ROW("ft2/qt"), "125 ft2/qt", COVERAGE_M2_PER_L, 125 * 0.09290304 / 0.946352946, 1e-15},
    {ROW("500 ft2/gal is 125 ft2/qt"), "500 ft2/gal", COVERAGE_M2_PER_L, 125 * 0.09290304 / 0.946352946,
     1e-15},
    {ROW("ft2/lb"), "40 ft2/lb", COVERAGE_M2_PER_KG, 40 * 0.09290304 / 0.45359237, 1e-15},
};

static void coverage_reads(void **state)
{
    const struct coverage_row *r = *state;
    struct err fault = {.expected = ""};
    struct coverage got = {COVERAGE_M2_PER_L, -1}, back = {COVERAGE_M2_PER_L, -2};
    check_true(&r->row, coverage_parse(r->text, &got, &fault), fault.expected);
    check_int(&r->row, got.form, r->form);
    check_double(&r->row, got.value, r->value, r->tolerance);
    check_true(&r->row, coverage_parse(coverage_write(got).text, &back, NULL), "written reads back");
    check_int(&r->row, back.form, got.form);
    check_double(&r->row, back.value, got.value, 0);
}

struct per_litre_row {
    struct row row;
    struct coverage coverage;
    double density, want;
    bool by_mass;
};

static const struct per_litre_row per_litres[] = {
    {ROW("as it is"), {COVERAGE_M2_PER_L, 12}, 0, 12, false},
    {ROW("80 ml/m2"), {COVERAGE_ML_PER_M2, 80}, 0, 12.5, false},
    {ROW("110 g/m2 of 1.1 kg/l"), {COVERAGE_G_PER_M2, 110}, 1.1, 10, true},
    {ROW("40 m2/kg of 0.9 kg/l"), {COVERAGE_M2_PER_KG, 40}, 0.9, 36, true},
};

static void per_litre_is(void **state)
{
    const struct per_litre_row *r = *state;
    check_double(&r->row, coverage_m2_per_l(r->coverage, r->density), r->want, 1e-15);
    check_int(&r->row, coverage_by_mass(r->coverage), r->by_mass);
}

static void coverage_for_people(void **state)
{
    (void)state;
    check_text(HERE, coverage_format((struct coverage){COVERAGE_M2_PER_L, 12}, UNITS_METRIC).text, "12 m²/L");
    check_text(HERE, coverage_format((struct coverage){COVERAGE_M2_PER_L, 12}, UNITS_US).text, "489 ft²/gal");
    check_text(HERE, coverage_format((struct coverage){COVERAGE_ML_PER_M2, 80}, UNITS_METRIC).text,
               "80 ml/m²");
    check_text(HERE, coverage_format((struct coverage){COVERAGE_ML_PER_M2, 80}, UNITS_US).text,
               "509 ft²/gal");
    check_text(HERE, coverage_format((struct coverage){COVERAGE_G_PER_M2, 110}, UNITS_US).text,
               "0.36 oz/ft²");
    check_text(HERE, coverage_format((struct coverage){COVERAGE_M2_PER_KG, 40}, UNITS_US).text, "195 ft²/lb");
}

static void amounts_are_volumes_or_masses(void **state)
{
    (void)state;
    struct amount amount = {false, 0};
    check_true(HERE, amount_parse("500 ml", &amount, NULL), "read");
    check_true(HERE, !amount.by_mass && amount.value == 0.5, "half a litre");
    check_text(HERE, amount_write(amount).text, "500 ml");
    check_true(HERE, amount_parse("1.2 kg", &amount, NULL), "read");
    check_true(HERE, amount.by_mass && amount.value == 1200, "1200 g");
    check_text(HERE, amount_write(amount).text, "1.2 kg");
    check_text(HERE, amount_format(amount, UNITS_US).text, "2.65 lb");
    check_true(HERE, !amount_parse("3 m", &amount, NULL), "a length is refused");
    check_true(HERE, amount.by_mass && amount.value == 1200, "left alone");
}

struct ratio_row {
    struct row row;
    const char *text, *written;
    size_t count;
    double last;
};

static const struct ratio_row ratios[] = {
    {ROW("two parts"), "2:1", "2:1", 2, 1},
    {ROW("by mass"), "100:35", "100:35", 2, 35},
    {ROW("three parts"), "4:1:0.5", "4:1:0.5", 3, 0.5},
    {ROW("blanks"), " 4 : 1 ", "4:1", 2, 1},
    {ROW("fraction"), "1:1/2", "1:0.5", 2, 0.5},
    {ROW("eight parts"), "1:2:3:4:5:6:7:8", "1:2:3:4:5:6:7:8", 8, 8},
};

static void ratio_reads(void **state)
{
    const struct ratio_row *r = *state;
    struct ratio ratio = {0, {0}};
    struct arena *arena = arena_make(0);
    check_true(&r->row, ratio_parse(r->text, &ratio, NULL), "read");
    check_int(&r->row, (intmax_t)ratio.count, (intmax_t)r->count);
    check_double(&r->row, ratio.part[r->count - 1], r->last, 0);
    check_text(&r->row, ratio_write(arena, &ratio), r->written);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(coverages, coverage_reads), CHECK_ROWS(per_litres, per_litre_is),
                     CHECK_ROWS(ratios, ratio_reads), CHECK_TEST(coverage_for_people),
                     CHECK_TEST(amounts_are_volumes_or_masses));
}
