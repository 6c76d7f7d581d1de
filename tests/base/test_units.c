/* Every factor of the table against the value that NIST Handbook 44 or SP 811 prints, and every name of every unit.
 * With the argument --print, the factors one a line, for check_units.sh. */
#include "check.h"

#include "base/exact.h"
#include "base/unit.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* Base units: m, m2, l, g, min, 1. */
struct unit_row {
    struct row row;
    unsigned dimensions;
    double want;
};

static const struct unit_row units[] = {
    {ROW("mm"), DIM_LENGTH, 0.001},
    {ROW("cm"), DIM_LENGTH, 0.01},
    {ROW("m"), DIM_LENGTH, 1},
    {ROW("in"), DIM_LENGTH, 0.0254},
    {ROW("ft"), DIM_LENGTH, 0.3048},
    {ROW("yd"), DIM_LENGTH, 0.9144},
    {ROW("um"), DIM_THIN, 0.000001},
    {ROW("mil"), DIM_THIN, 0.0000254},
    {ROW("mm2"), DIM_AREA, 0.000001},
    {ROW("cm2"), DIM_AREA, 0.0001},
    {ROW("m2"), DIM_AREA, 1},
    {ROW("in2"), DIM_AREA, 0.00064516},
    {ROW("ft2"), DIM_AREA, 0.09290304},
    {ROW("yd2"), DIM_AREA, 0.83612736},
    {ROW("ml"), DIM_VOLUME, 0.001},
    {ROW("cl"), DIM_VOLUME, 0.01},
    {ROW("dl"), DIM_VOLUME, 0.1},
    {ROW("l"), DIM_VOLUME, 1},
    {ROW("m3"), DIM_VOLUME, 1000},
    {ROW("in3"), DIM_VOLUME, 0.016387064},
    {ROW("fl oz"), DIM_VOLUME, 0.0295735295625},
    {ROW("pt"), DIM_VOLUME, 0.473176473},
    {ROW("qt"), DIM_VOLUME, 0.946352946},
    {ROW("gal"), DIM_VOLUME, 3.785411784},
    {ROW("imp fl oz"), DIM_VOLUME, 0.0284130625},
    {ROW("imp pt"), DIM_VOLUME, 0.56826125},
    {ROW("imp qt"), DIM_VOLUME, 1.1365225},
    {ROW("imp gal"), DIM_VOLUME, 4.54609},
    {ROW("mg"), DIM_MASS, 0.001},
    {ROW("g"), DIM_MASS, 1},
    {ROW("kg"), DIM_MASS, 1000},
    {ROW("oz"), DIM_MASS, 28.349523125},
    {ROW("lb"), DIM_MASS, 453.59237},
    {ROW("s"), DIM_SPAN, 1.0 / 60},
    {ROW("min"), DIM_SPAN, 1},
    {ROW("h"), DIM_SPAN, 60},
    {ROW("d"), DIM_SPAN, 1440},
    {ROW("wk"), DIM_SPAN, 10080},
    {ROW("mo"), DIM_SPAN, 43200},
    {ROW("y"), DIM_SPAN, 525600},
    {ROW("%"), DIM_SHARE, 0.01},
};

static void factor_is(void **state)
{
    const struct unit_row *r = *state;
    const struct unit *unit = unit_find(r->dimensions, r->row.name, strlen(r->row.name));
    check_true(&r->row, unit != NULL, "known");
    check_double(&r->row, exact_round(exact_of(unit->up, unit->down)), r->want, 0);
}

static void every_unit_is_checked_and_every_name_is_its_own(void **state)
{
    (void)state;
    size_t count;
    const struct unit *table = unit_table(&count);
    check_int(HERE, (intmax_t)count, sizeof units / sizeof units[0]);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < UNIT_NAMES && table[i].names[k]; k++) {
            const char *name = table[i].names[k];
            check_true(HERE, unit_find(~0u, name, strlen(name)) == &table[i], name);
        }
}

/* GNU units' name of what is not the same there. */
static const char *gnu_name(const char *name)
{
    static const char *const names[][2] = {
        {"mm2", "mm^2"},         {"cm2", "cm^2"},      {"m2", "m^2"},         {"in2", "in^2"},
        {"ft2", "ft^2"},         {"yd2", "yd^2"},      {"m3", "m^3"},         {"in3", "in^3"},
        {"fl oz", "usfloz"},     {"pt", "uspint"},     {"qt", "usquart"},     {"gal", "usgallon"},
        {"imp fl oz", "brfloz"}, {"imp pt", "brpint"}, {"imp qt", "brquart"}, {"imp gal", "brgallon"},
        {"um", "micrometer"},    {"h", "hour"},        {"d", "day"},          {"wk", "week"},
        {"mo", "30 day"},        {"y", "365 day"},     {"%", "percent"},
    };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strcmp(names[i][0], name) == 0)
            return names[i][1];
    return name;
}

static const char *base_of(enum dimension dimension)
{
    switch (dimension) {
    case DIM_AREA:
        return "m^2";
    case DIM_VOLUME:
        return "liter";
    case DIM_MASS:
        return "g";
    case DIM_SPAN:
        return "min";
    case DIM_SHARE:
        return "1";
    default:
        return "m";
    }
}

static int print_factors(void)
{
    size_t count;
    const struct unit *table = unit_table(&count);
    for (size_t i = 0; i < count; i++)
        printf("%s|%s|%" PRIu64 "|%" PRIu64 "\n", gnu_name(table[i].names[0]), base_of(table[i].dimension),
               table[i].up, table[i].down);
    return 0;
}

int main(int argc, char **argv)
{
    if (argc > 1 && strcmp(argv[1], "--print") == 0)
        return print_factors();
    return CHECK_ALL(CHECK_ROWS(units, factor_is),
                     CHECK_TEST(every_unit_is_checked_and_every_name_is_its_own));
}
