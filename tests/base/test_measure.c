/* Quantities other than lengths and areas, read. Factors: NIST Handbook 44 appendix C and SP 811 unless a row says otherwise. */
#include "check.h"

#include "base/measure.h"

#include <float.h>

struct value_row {
    struct row row;
    const char *text;
    double want;
};

static const struct value_row volumes[] = {
    {ROW("ml"), "250 ml", 0.25},
    {ROW("mL"), "250 mL", 0.25},
    {ROW("l"), "1 l", 1},
    {ROW("L"), "1 L", 1},
    {ROW("cl"), "75 cl", 0.75},
    {ROW("cm3"), "40 cm3", 0.04},
    {ROW("cubic sign"), "40 cm\xC2\xB3", 0.04},
    {ROW("fl oz"), "1 fl oz", 0.0295735295625},
    {ROW("fl. oz."), "1 fl. oz.", 0.0295735295625},
    {ROW("pt"), "1 pt", 0.473176473},
    {ROW("qt"), "1 qt", 0.946352946},
    {ROW("gal"), "1 gal", 3.785411784},
    {ROW("half a gallon"), "1/2 gal", 1.892705892},
    {ROW("imp fl oz"), "1 imp fl oz", 0.0284130625},
    {ROW("imp pt"), "1 imp pt", 0.56826125},
    {ROW("imp qt"), "1 imp qt", 1.1365225},
    {ROW("imp gal"), "1 imp gal", 4.54609},
};

static const struct value_row masses[] = {
    {ROW("g"), "120 g", 120},          {ROW("kg"), "1.2 kg", 1200},
    {ROW("oz"), "1 oz", 28.349523125}, {ROW("four ounces"), "4 oz", 113.3980925},
    {ROW("lb"), "1 lb", 453.59237},    {ROW("pounds"), "2 pounds", 907.18474},
};

static const struct value_row densities[] = {
    {ROW("kg/l"), "0.9 kg/l", 0.9},   {ROW("g/ml"), "0.9 g/ml", 0.9},
    {ROW("g/l"), "30 g/l", 0.03},     {ROW("blanks at the slash"), "0.9 kg / l", 0.9},
    {ROW("kg/m3"), "900 kg/m3", 0.9}, {ROW("per"), "7.5 lb per gal", 0.45359237 * 7.5 / 3.785411784},
};

static const struct value_row thicknesses[] = {
    {ROW("um"), "125 um", 0.000125},
    {ROW("micro sign"), "125 \xC2\xB5m", 0.000125},
    {ROW("greek mu"), "125 \xCE\xBCm", 0.000125},
    {ROW("mil"), "1 mil", 0.0000254},
    {ROW("mils"), "5 mils", 0.000127},
    {ROW("mm"), "0.1 mm", 0.0001},
};

static const struct value_row temperatures[] = {
    {ROW("C"), "20 C", 20},
    {ROW("degree sign"),
     "20 \xC2\xB0"
     "C",
     20},
    {ROW("degree sign, tight"),
     "20\xC2\xB0"
     "C",
     20},
    {ROW("below zero"), "-5 C", -5},
    {ROW("minus sign"),
     "\xE2\x88\x92"
     "5 C",
     -5},
    {ROW("68 F"), "68 F", 20},
    {ROW("32 F"), "32 F", 0},
    {ROW("-40 F"), "-40 F", -40},
    {ROW("14 F"),
     "14 \xC2\xB0"
     "F",
     -10},
    {ROW("70 F"), "70 F", 190.0 / 9},
    {ROW("absolute zero"), "-273.15 C", -273.15},
};

static const struct value_row shares[] = {
    {ROW("half"), "50 %", 0.5},           {ROW("tight"), "12.5%", 0.125},     {ROW("none"), "0 %", 0},
    {ROW("more than all"), "150 %", 1.5}, {ROW("not a double"), "7 %", 0.07},
};

static const struct value_row spans[] = {
    {ROW("min"), "45 min", 45},
    {ROW("h"), "2 h", 120},
    {ROW("h and min"), "1 h 30 min", 90},
    {ROW("tight"), "1h30min", 90},
    {ROW("decimal hours"), "1.5 h", 90},
    {ROW("a third of an hour"), "1/3 h", 20},
    {ROW("d"), "3 d", 4320},
    {ROW("days"), "3 days", 4320},
    {ROW("wk"), "2 wk", 20160},
    {ROW("a month of 30 d"), "6 mo", 259200},
    {ROW("a year of 365 d"), "1 y", 525600},
    {ROW("three units"), "2 d 4 h 30 min", 3150},
    {ROW("none"), "0 min", 0},
    {ROW("seconds"), "90 s", 1.5},
};

static const struct value_row rates[] = {
    {ROW("m2/h"), "7 m2/h", 7},
    {ROW("m2/min"), "0.5 m2/min", 30},
    {ROW("ft2/h"), "100 ft2/h", 9.290304},
};

#define READS(name)                                                                                          \
    static void name##_reads(void **state)                                                                   \
    {                                                                                                        \
        const struct value_row *r = *state;                                                                  \
        struct err fault = {.expected = ""};                                                                 \
        double got = -1;                                                                                     \
        bool read = name##_parse(r->text, &got, &fault);                                                     \
        check_true(&r->row, read, fault.expected);                                                           \
        check_double(&r->row, got, r->want, DBL_EPSILON);                                                    \
    }
READS(volume)
READS(mass)
READS(density)
READS(thickness)
READS(temperature)
READS(share)
READS(rate)

static void span_reads(void **state)
{
    const struct value_row *r = *state;
    struct err fault = {.expected = ""};
    double got = -1;
    int64_t whole = -1;
    check_true(&r->row, span_parse_fraction(r->text, &got, &fault), fault.expected);
    check_double(&r->row, got, r->want, 0);
    bool is_whole = r->want == (double)(int64_t)r->want;
    check_int(&r->row, span_parse(r->text, &whole, NULL), is_whole);
    check_int(&r->row, whole, is_whole ? (intmax_t)r->want : -1);
}

static void climate_is_temperature_and_humidity(void **state)
{
    (void)state;
    double t = 0, h = 0;
    check_true(HERE, climate_parse("23 C 50 %", &t, &h, NULL), "read");
    check_double(HERE, t, 23, 0);
    check_double(HERE, h, 0.5, 0);
    check_true(HERE, climate_parse("68F 45%", &t, &h, NULL), "read");
    check_double(HERE, t, 20, 0);
    check_double(HERE, h, 0.45, 0);
    check_true(HERE, !climate_parse("23 C", &t, &h, NULL), "humidity missing");
    check_true(HERE, !climate_parse("50 %", &t, &h, NULL), "temperature missing");
    check_double(HERE, t, 20, 0);
}

/* 1 lb/gal = 119.826427 g/l, derived from NIST. */
static void pound_per_gallon(void **state)
{
    (void)state;
    double density = 0;
    check_true(HERE, density_parse("1 lb/gal", &density, NULL), "read");
    check_double(HERE, density, 0.119826427, 1e-9);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(volumes, volume_reads), CHECK_ROWS(masses, mass_reads),
                     CHECK_ROWS(densities, density_reads), CHECK_ROWS(thicknesses, thickness_reads),
                     CHECK_ROWS(temperatures, temperature_reads), CHECK_ROWS(shares, share_reads),
                     CHECK_ROWS(spans, span_reads), CHECK_ROWS(rates, rate_reads),
                     CHECK_TEST(climate_is_temperature_and_humidity), CHECK_TEST(pound_per_gallon));
}
