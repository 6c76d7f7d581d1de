/* Quantities of one number and one unit, or one unit per another. For people they are rounded to what the trade reads. */
#include "base/measure.h"

#include "base/unit.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static bool single_parse(const char *text, const struct kind *kind, double *value, struct err *fault)
{
    struct folded folded;
    struct exact number;
    const struct unit *unit;
    return kind_fold(text, kind, &folded, fault) && kind_single(folded.text, kind, &number, &unit, fault) &&
           kind_round(number, kind, value, fault);
}

bool volume_parse(const char *text, double *volume_l, struct err *fault)
{
    static const struct kind volume = {DIM_VOLUME, "a volume", "\"250 ml\" or \"1 l\""};
    return single_parse(text, &volume, volume_l, fault);
}

bool mass_parse(const char *text, double *mass_g, struct err *fault)
{
    static const struct kind mass = {DIM_MASS, "a mass", "\"120 g\" or \"4 oz\""};
    return single_parse(text, &mass, mass_g, fault);
}

bool thickness_parse(const char *text, double *thickness_m, struct err *fault)
{
    static const struct kind thickness = {DIM_THIN | DIM_LENGTH, "a thickness", "\"125 um\" or \"5 mil\""};
    return single_parse(text, &thickness, thickness_m, fault);
}

bool share_parse(const char *text, double *share, struct err *fault)
{
    static const struct kind kind = {DIM_SHARE, "a share", "\"50 %\""};
    return single_parse(text, &kind, share, fault);
}

/* One unit per another, with the dimensions a and b. */
static bool per_parse(const char *text, const struct kind *kind, enum dimension a, enum dimension b,
                      struct exact *number, struct err *fault)
{
    struct folded folded;
    const struct unit *sides[2];
    if (!kind_fold(text, kind, &folded, fault) || !kind_per(folded.text, kind, number, sides, fault))
        return false;
    if (sides[0]->dimension != a || sides[1]->dimension != b)
        return kind_fault(kind, fault);
    *number = exact_per(*number, sides[0], sides[1]);
    return true;
}

bool density_parse(const char *text, double *density_kg_per_l, struct err *fault)
{
    static const struct kind kind = {DIM_MASS | DIM_VOLUME, "a density", "\"0.9 kg/l\" or \"7.5 lb/gal\""};
    struct exact number;
    return per_parse(text, &kind, DIM_MASS, DIM_VOLUME, &number, fault) &&
           kind_round(exact_times(number, 1, 1000), &kind, density_kg_per_l, fault);
}

bool rate_parse(const char *text, double *rate_m2_per_h, struct err *fault)
{
    static const struct kind kind = {DIM_AREA | DIM_SPAN, "a rate", "\"7 m2/h\""};
    struct exact number;
    double rate;
    if (!per_parse(text, &kind, DIM_AREA, DIM_SPAN, &number, fault) ||
        !kind_round(exact_times(number, 60, 1), &kind, &rate, fault))
        return false;
    if (rate == 0)
        return err_say(fault, "a rate above zero, such as \"7 m2/h\"");
    *rate_m2_per_h = rate;
    return true;
}

static const struct kind temperature_kind = {0, "a temperature", "\"20 C\" or \"68 F\""};

enum scale { SCALE_NONE, SCALE_C, SCALE_F };

static enum scale scale_of(const char *name, size_t length)
{
    static const char *const names[][4] = {
        [SCALE_NONE] = {"", "", "", ""},
        [SCALE_C] = {"C", "degC", "deg C", "celsius"},
        [SCALE_F] = {"F", "degF", "deg F", "fahrenheit"},
    };
    for (int i = SCALE_C; i <= SCALE_F; i++)
        for (size_t k = 0; k < 4; k++)
            if (text_same_n(name, length, names[i][k]))
                return (enum scale)i;
    return SCALE_NONE;
}

/* (F - 32) x 5 / 9 without rounding before the end. */
static double celsius(struct exact degrees, bool below, enum scale scale)
{
    if (scale == SCALE_C)
        return below ? -exact_round(degrees) : exact_round(degrees);
    struct wide zero = wide_times(degrees.bottom, 32);
    bool negative = below || wide_compare(degrees.top, zero) < 0;
    if (below)
        degrees.top = wide_plus(degrees.top, zero);
    else
        degrees.top = negative ? wide_minus(zero, degrees.top) : wide_minus(degrees.top, zero);
    double value = exact_round(exact_times(degrees, 5, 9));
    return negative ? -value : value;
}

/* A temperature at *at with its unit, and the blanks behind it. */
static bool temperature_scan(const char **at, double *temperature_c, struct err *fault)
{
    const char *p = *at;
    struct exact degrees;
    bool below = *p == '-';
    p += below && (p[1] == '.' || (p[1] >= '0' && p[1] <= '9'));
    if (*p == '-')
        return kind_fault(&temperature_kind, fault);
    if (!kind_number(&p, &temperature_kind, &degrees, fault))
        return false;
    size_t n = strspn(p, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ");
    if (n == 3 && text_same_n(p, n, "deg"))
        n += p[n] == ' ' && p[n + 1] ? 2 : 0;
    enum scale scale = scale_of(p, n);
    if (n == 0)
        return err_say(fault, "a temperature with a unit, such as %s", temperature_kind.such);
    if (scale == SCALE_NONE)
        return kind_fault(&temperature_kind, fault);
    double value = celsius(degrees, below, scale);
    if (value < -273.15)
        return err_say(fault, "a temperature above absolute zero");
    if (fabs(value) < 1e-9 && value != 0)
        value = 0;
    if (value > 1e6)
        return err_say(fault, "a temperature that can be meant, such as %s", temperature_kind.such);
    *temperature_c = value + 0.0; /* never -0 */
    *at = blanks_skip(p + n);
    return true;
}

bool temperature_parse(const char *text, double *temperature_c, struct err *fault)
{
    struct folded folded;
    double value;
    if (!kind_fold(text, &temperature_kind, &folded, fault))
        return false;
    const char *at = folded.text;
    if (!temperature_scan(&at, &value, fault))
        return false;
    if (*at != '\0')
        return kind_fault(&temperature_kind, fault);
    *temperature_c = value;
    return true;
}

bool climate_parse(const char *text, double *temperature_c, double *humidity, struct err *fault)
{
    static const struct kind kind = {DIM_SHARE, "a temperature and a humidity", "\"23 C 50 %\""};
    struct folded folded;
    struct exact share;
    const struct unit *unit;
    double temperature;
    if (!kind_fold(text, &kind, &folded, fault))
        return false;
    const char *at = folded.text;
    if (!temperature_scan(&at, &temperature, NULL))
        return kind_fault(&kind, fault);
    if (!kind_single(at, &kind, &share, &unit, fault) || !kind_round(share, &kind, humidity, fault))
        return false;
    *temperature_c = temperature;
    return true;
}

struct text_short volume_write(double volume_l)
{
    return volume_l < 1 ? unit_write(volume_l, 3, "ml") : unit_write(volume_l, 0, "l");
}

struct text_short mass_write(double mass_g)
{
    return mass_g < 1000 ? unit_write(mass_g, 0, "g") : unit_write(mass_g, -3, "kg");
}

struct text_short density_write(double density_kg_per_l)
{
    return unit_write(density_kg_per_l, 0, "kg/l");
}

struct text_short thickness_write(double thickness_m)
{
    return unit_write(thickness_m, 6, "um");
}

struct text_short temperature_write(double temperature_c)
{
    return unit_write(temperature_c, 0, "C");
}

struct text_short share_write(double share)
{
    return unit_write(share, 2, "%");
}

struct text_short rate_write(double rate_m2_per_h)
{
    return unit_write(rate_m2_per_h, 0, "m2/h");
}

struct text_short volume_format(double volume_l, enum unit_system system)
{
    if (system == UNITS_METRIC) {
        double ml = volume_l * 1000;
        return ml < 999.5 ? unit_round(ml, ml < 99.95 ? 1 : 0, "ml") : unit_round(volume_l, 2, "L");
    }
    double gallons = volume_l * unit_per_base(DIM_VOLUME, "gal");
    if (gallons >= 0.99)
        return unit_round(gallons, 2, "gal");
    if (gallons * 4 >= 0.99)
        return unit_round(gallons * 4, 2, "qt");
    return unit_round(volume_l * unit_per_base(DIM_VOLUME, "fl oz"), 1, "fl oz");
}

struct text_short mass_format(double mass_g, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return mass_g < 999.5 ? unit_round(mass_g, mass_g < 99.95 ? 1 : 0, "g")
                              : unit_round(mass_g / 1000, 2, "kg");
    double ounces = mass_g * unit_per_base(DIM_MASS, "oz");
    return ounces < 15.95 ? unit_round(ounces, 1, "oz") : unit_round(ounces / 16, 2, "lb");
}

struct text_short density_format(double density_kg_per_l, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return unit_round(density_kg_per_l, 2, "kg/L");
    double lb_per_l = density_kg_per_l * 1000 * unit_per_base(DIM_MASS, "lb");
    return unit_round(lb_per_l / unit_per_base(DIM_VOLUME, "gal"), 2, "lb/gal");
}

struct text_short thickness_format(double thickness_m, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return unit_round(thickness_m * 1e6, 0, "µm");
    return unit_round(thickness_m * unit_per_base(DIM_THIN, "mil"), 1, "mil");
}

struct text_short temperature_format(double temperature_c, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return unit_round(temperature_c, 1, "°C");
    return unit_round(temperature_c * 9 / 5 + 32, 0, "°F");
}

struct text_short rate_format(double rate_m2_per_h, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return unit_round(rate_m2_per_h, 1, "m²/h");
    return unit_round(rate_m2_per_h * unit_per_base(DIM_AREA, "ft2"), 0, "ft²/h");
}

struct text_short share_format(double share)
{
    return unit_round(share * 100, 1, "%");
}

static const struct kind span_kind = {DIM_SPAN, "a time span", "\"45 min\" or \"1 h 30 min\""};

enum { SPAN_MOST_MIN = 1000 * 365 * 1440 };

static bool smaller(const struct unit *a, const struct unit *b)
{
    return a->up * b->down < b->up * a->down;
}

bool span_parse_fraction(const char *text, double *span_min, struct err *fault)
{
    struct folded folded;
    const struct unit *last = NULL;
    double total = 0;
    if (!kind_fold(text, &span_kind, &folded, fault))
        return false;
    for (const char *at = folded.text; *at;) {
        struct exact number;
        if (!kind_number(&at, &span_kind, &number, fault))
            return false;
        const char *next;
        size_t n = unit_reach(at, &next);
        const struct unit *unit = kind_unit(at, n, &span_kind, fault);
        if (!unit)
            return false;
        if (last && !smaller(unit, last))
            return err_say(fault, "a time span with its largest unit first, such as %s", span_kind.such);
        total += exact_round(exact_times(number, unit->up, unit->down));
        last = unit;
        at = next;
    }
    if (total > SPAN_MOST_MIN)
        return err_say(fault, "a time span of at most 1000 y");
    if (!kind_sane(total, &span_kind, fault))
        return false;
    *span_min = total;
    return true;
}

bool span_parse(const char *text, int64_t *span_min, struct err *fault)
{
    double span;
    if (!span_parse_fraction(text, &span, fault))
        return false;
    if (span != floor(span))
        return err_say(fault, "a time span in whole minutes, such as %s", span_kind.such);
    *span_min = (int64_t)span;
    return true;
}

struct text_short span_write(double span_min)
{
    return unit_write(span_min, 0, "min");
}

struct text_short span_format(int64_t span_min)
{
    static const char *const names[] = {"d", "h", "min"};
    struct text_short out;
    uint64_t whole = span_min < 0 ? 0 - (uint64_t)span_min : (uint64_t)span_min;
    const uint64_t parts[] = {whole / 1440, whole / 60 % 24, whole % 60};
    int n = 0;
    const char *before = span_min < 0 ? "-" : "";
    for (int i = 0; i < 3; i++)
        if (parts[i] || (i == 2 && whole == 0)) {
            n += snprintf(out.text + n, sizeof out.text - (size_t)n, "%s%" PRIu64 " %s", before, parts[i],
                          names[i]);
            before = " ";
        }
    return out;
}

struct text_short hours_format(int64_t work_min)
{
    struct text_short out;
    long long minutes = work_min, hours = minutes / 60;
    if (minutes < 60)
        return span_format(minutes);
    snprintf(out.text, sizeof out.text, minutes % 60 ? "%lld h %lld min" : "%lld h", hours, minutes % 60);
    return out;
}
