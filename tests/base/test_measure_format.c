/* Quantities written for people, and written so that they read back as the very same double. */
#include "check.h"

#include "base/coverage.h"
#include "base/measure.h"

#include <float.h>
#include <string.h>

enum what { LENGTH, AREA, VOLUME, MASS, DENSITY, THICKNESS, TEMPERATURE, RATE, SHARE };

struct format_row {
    struct row row;
    enum what what;
    double value;
    const char *metric, *us;
};

static const struct format_row formats[] = {
    {ROW("3/4 in"), LENGTH, 0.01905, "19.1 mm", "3/4 in"},
    {ROW("an inch"), LENGTH, 0.0254, "25.4 mm", "1 in"},
    {ROW("13/16 in"), LENGTH, 0.0206375, "20.6 mm", "13/16 in"},
    {ROW("no sixteenth"), LENGTH, 0.02, "20 mm", "0.787 in"},
    {ROW("within 0.05 mm of a sixteenth"), LENGTH, 0.01909, "19.1 mm", "3/4 in"},
    {ROW("beyond 0.05 mm of a sixteenth"), LENGTH, 0.01911, "19.1 mm", "0.752 in"},
    {ROW("62 3/8 in"), LENGTH, 1.584325, "1584.3 mm", "62 3/8 in"},
    {ROW("9 ft 2 3/8 in"), LENGTH, 2.803525, "2803.5 mm", "9 ft 2 3/8 in"},
    {ROW("10 ft"), LENGTH, 3.048, "3048 mm", "10 ft"},
    {ROW("10 ft 1/2 in"), LENGTH, 3.0607, "3060.7 mm", "10 ft 1/2 in"},
    {ROW("12 m"), LENGTH, 12.192, "12.19 m", "40 ft"},
    {ROW("no length"), LENGTH, 0, "0 mm", "0 in"},
    {ROW("area"), AREA, 1.8580608, "1.86 m²", "20.0 ft²"},
    {ROW("small area"), AREA, 0.00645160, "64.5 cm²", "10 in²"},
    {ROW("no area"), AREA, 0, "0 m²", "0 ft²"},
    {ROW("a few ml"), VOLUME, 0.0125, "12.5 ml", "0.4 fl oz"},
    {ROW("a pint"), VOLUME, 0.473176473, "473 ml", "16 fl oz"},
    {ROW("a quart"), VOLUME, 0.946352946, "946 ml", "1 qt"},
    {ROW("just below a litre"), VOLUME, 0.9996, "1 L", "1.06 qt"},
    {ROW("a gallon"), VOLUME, 3.785411784, "3.79 L", "1 gal"},
    {ROW("grams"), MASS, 12.5, "12.5 g", "0.4 oz"},
    {ROW("a pound"), MASS, 453.59237, "454 g", "1 lb"},
    {ROW("two pounds and a half"), MASS, 1133.980925, "1.13 kg", "2.5 lb"},
    {ROW("density"), DENSITY, 0.9, "0.9 kg/L", "7.51 lb/gal"},
    {ROW("5 mil"), THICKNESS, 0.000127, "127 µm", "5 mil"},
    {ROW("20 C"), TEMPERATURE, 20, "20 °C", "68 °F"},
    {ROW("below zero"), TEMPERATURE, -10, "-10 °C", "14 °F"},
    {ROW("no minus at zero"), TEMPERATURE, -0.01, "0 °C", "32 °F"},
    {ROW("rate"), RATE, 9.290304, "9.3 m²/h", "100 ft²/h"},
    {ROW("share"), SHARE, 0.125, "12.5 %", "12.5 %"},
};

static struct text_short format(enum what what, double value, enum unit_system system)
{
    switch (what) {
    case LENGTH:
        return length_format(value, system);
    case AREA:
        return area_format(value, system);
    case VOLUME:
        return volume_format(value, system);
    case MASS:
        return mass_format(value, system);
    case DENSITY:
        return density_format(value, system);
    case THICKNESS:
        return thickness_format(value, system);
    case TEMPERATURE:
        return temperature_format(value, system);
    case RATE:
        return rate_format(value, system);
    default:
        return share_format(value);
    }
}

static void formats_as(void **state)
{
    const struct format_row *r = *state;
    check_text(&r->row, format(r->what, r->value, UNITS_METRIC).text, r->metric);
    check_text(&r->row, format(r->what, r->value, UNITS_US).text, r->us);
}

struct span_row {
    struct row row;
    intmax_t span_min;
    const char *text;
};

static const struct span_row spans[] = {
    {ROW("none"), 0, "0 min"},
    {ROW("minutes"), 45, "45 min"},
    {ROW("an hour"), 60, "1 h"},
    {ROW("hour and minutes"), 90, "1 h 30 min"},
    {ROW("days and hours"), 2 * 1440 + 240, "2 d 4 h"},
    {ROW("days and minutes"), 1445, "1 d 5 min"},
    {ROW("before"), -90, "-1 h 30 min"},
};

static void work_has_no_days(void **state)
{
    (void)state;
    check_text(HERE, hours_format(32 * 60 + 20).text, "32 h 20 min");
    check_text(HERE, hours_format(48 * 60).text, "48 h");
    check_text(HERE, hours_format(59).text, "59 min");
    check_text(HERE, hours_format(0).text, "0 min");
}

static void span_formats_as(void **state)
{
    const struct span_row *r = *state;
    int64_t back = -1;
    check_text(&r->row, span_format(r->span_min).text, r->text);
    check_int(&r->row, span_parse(r->text, &back, NULL), r->span_min >= 0);
    check_int(&r->row, back, r->span_min >= 0 ? r->span_min : -1);
}

typedef bool parse(const char *text, double *value, struct err *fault);
typedef struct text_short write(double value);

static bool length_parse_own(const char *text, double *value, struct err *fault)
{
    return length_parse(text, LENGTH_NONE, value, fault);
}

static bool area_parse_own(const char *text, double *value, struct err *fault)
{
    return area_parse(text, LENGTH_NONE, value, fault);
}

struct pair_row {
    struct row row;
    parse *parse;
    write *write;
};

static const struct pair_row pairs[] = {
    {ROW("length"), length_parse_own, length_write},
    {ROW("area"), area_parse_own, area_write},
    {ROW("volume"), volume_parse, volume_write},
    {ROW("mass"), mass_parse, mass_write},
    {ROW("density"), density_parse, density_write},
    {ROW("thickness"), thickness_parse, thickness_write},
    {ROW("share"), share_parse, share_write},
    {ROW("temperature"), temperature_parse, temperature_write},
    {ROW("rate"), rate_parse, rate_write},
    {ROW("span"), span_parse_fraction, span_write},
};

/* Any double from 1e-8 to 1e5, as often small as large. */
static double any_double(uint64_t *seed)
{
    double value = 1 + check_random_unit(seed);
    for (int exponent = check_random_int(seed, -26, 15); exponent != 0; exponent += exponent < 0 ? 1 : -1)
        value = exponent < 0 ? value / 2 : value * 2;
    return value;
}

static void written_reads_back(void **state)
{
    const struct pair_row *r = *state;
    uint64_t seed = 20270301;
    for (int i = 0; i < 3000; i++) {
        uint64_t before = seed;
        double value = any_double(&seed), back = -1;
        struct text_short text = r->write(value);
        if (!r->parse(text.text, &back, NULL) || back != value)
            fail_msg("%s:%d: %s: seed %ju: %.17g -> \"%s\" -> %.17g", r->row.file, r->row.line, r->row.name,
                     (uintmax_t)before, value, text.text, back);
    }
}

/* A sixteenth of an inch survives the US form, whatever its size. */
static void sixteenths_read_back(void **state)
{
    (void)state;
    for (int sixteenths = 0; sixteenths < 16 * 150; sixteenths++) {
        double length_m = sixteenths * 254 / 160000.0, back = -1;
        struct text_short text = length_format(length_m, UNITS_US);
        check_true(HERE, length_parse(text.text, LENGTH_NONE, &back, NULL), text.text);
        check_double(HERE, back, length_m, DBL_EPSILON);
    }
}

static void shortest_digits(void **state)
{
    (void)state;
    check_text(HERE, length_write(0.019).text, "19 mm");
    check_text(HERE, length_write(0.01905).text, "19.05 mm");
    check_text(HERE, volume_write(0.25).text, "250 ml");
    check_text(HERE, volume_write(3.785411784).text, "3.785411784 l");
    check_text(HERE, mass_write(1250).text, "1.25 kg");
    check_text(HERE, share_write(0.07).text, "7 %");
    check_text(HERE, thickness_write(0.000125).text, "125 um");
    check_text(HERE, temperature_write(-5).text, "-5 C");
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(formats, formats_as), CHECK_ROWS(spans, span_formats_as),
                     CHECK_TEST(work_has_no_days), CHECK_ROWS(pairs, written_reads_back),
                     CHECK_TEST(sixteenths_read_back), CHECK_TEST(shortest_digits));
}
