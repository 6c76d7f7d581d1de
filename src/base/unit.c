/* Sources: NIST Handbook 44, appendix C (2024) and NIST SP 811, appendix B (2008): 1 in = 25.4 mm, 1 yd = 0.9144 m,
 * 1 lb = 453.59237 g, 1 US gal = 231 in3; the Units of Measurement Regulations 1995 (UK): 1 imp gal = 4.54609 l. The
 * others follow from these by whole numbers. A month of 30 and a year of 365 days are the contract's own. */
#include "base/unit.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define E6 UINT64_C(1000000)
#define E9 UINT64_C(1000000000)
#define GALLON_NL UINT64_C(3785411784)   /* 1e-9 l */
#define IMPERIAL_NL UINT64_C(4546090000) /* 1e-9 l */

static const struct unit units[] = {
    {DIM_LENGTH, 1, 1000, {"mm", "millimetre", "millimeter"}},
    {DIM_LENGTH, 1, 100, {"cm", "centimetre", "centimeter"}},
    {DIM_LENGTH, 1, 1, {"m", "metre", "meter"}},
    {DIM_LENGTH, 254, 10000, {"in", "\"", "''", "inch", "inches"}},
    {DIM_LENGTH, 3048, 10000, {"ft", "'", "foot", "feet"}},
    {DIM_LENGTH, 9144, 10000, {"yd", "yard"}},
    {DIM_THIN, 1, E6, {"um", "micron", "micrometre", "micrometer"}},
    {DIM_THIN, 254, 10 * E6, {"mil"}},
    {DIM_AREA, 1, E6, {"mm2", "sq mm", "sqmm"}},
    {DIM_AREA, 1, 10000, {"cm2", "sq cm", "sqcm"}},
    {DIM_AREA, 1, 1, {"m2", "sq m", "sqm", "square metre", "square meter"}},
    {DIM_AREA, 64516, 100 * E6, {"in2", "sq in", "sqin", "square inch", "square inches"}},
    {DIM_AREA, 9290304, 100 * E6, {"ft2", "sq ft", "sqft", "sq feet", "square foot", "square feet"}},
    {DIM_AREA, 83612736, 100 * E6, {"yd2", "sq yd", "sqyd", "square yard"}},
    {DIM_VOLUME, 1, 1000, {"ml", "cm3", "cc", "millilitre", "milliliter"}},
    {DIM_VOLUME, 1, 100, {"cl", "centilitre", "centiliter"}},
    {DIM_VOLUME, 1, 10, {"dl", "decilitre", "deciliter"}},
    {DIM_VOLUME, 1, 1, {"l", "litre", "liter", "dm3"}},
    {DIM_VOLUME, 1000, 1, {"m3"}},
    {DIM_VOLUME, 16387064, E9, {"in3", "cu in"}},
    {DIM_VOLUME, GALLON_NL, 128 * E9, {"fl oz", "floz", "us fl oz", "fluid ounce"}},
    {DIM_VOLUME, GALLON_NL, 8 * E9, {"pt", "us pt", "pint"}},
    {DIM_VOLUME, GALLON_NL, 4 * E9, {"qt", "us qt", "quart"}},
    {DIM_VOLUME, GALLON_NL, E9, {"gal", "us gal", "gallon"}},
    {DIM_VOLUME, IMPERIAL_NL, 160 * E9, {"imp fl oz", "imp floz", "imperial fl oz", "uk fl oz"}},
    {DIM_VOLUME, IMPERIAL_NL, 8 * E9, {"imp pt", "imp pint", "imperial pint", "uk pt"}},
    {DIM_VOLUME, IMPERIAL_NL, 4 * E9, {"imp qt", "imp quart", "imperial quart", "uk qt"}},
    {DIM_VOLUME, IMPERIAL_NL, E9, {"imp gal", "imp gallon", "imperial gallon", "uk gal"}},
    {DIM_MASS, 1, 1000, {"mg", "milligram"}},
    {DIM_MASS, 1, 1, {"g", "gram", "gr"}},
    {DIM_MASS, 1000, 1, {"kg", "kilogram", "kilo"}},
    {DIM_MASS, 45359237, 16 * UINT64_C(100000), {"oz", "ounce"}},
    {DIM_MASS, 45359237, 100000, {"lb", "lbs", "pound"}},
    {DIM_SPAN, 1, 60, {"s", "sec", "second"}},
    {DIM_SPAN, 1, 1, {"min", "minute"}},
    {DIM_SPAN, 60, 1, {"h", "hr", "hrs", "hour"}},
    {DIM_SPAN, 1440, 1, {"d", "day"}},
    {DIM_SPAN, 7 * 1440, 1, {"wk", "week"}},
    {DIM_SPAN, 30 * 1440, 1, {"mo", "month"}},
    {DIM_SPAN, 365 * 1440, 1, {"y", "yr", "yrs", "year"}},
    {DIM_SHARE, 1, 100, {"%", "percent", "per cent"}},
};

enum { UNIT_COUNT = sizeof units / sizeof units[0], NAME_SIZE = 24 };

const struct unit *unit_table(size_t *count)
{
    *count = UNIT_COUNT;
    return units;
}

static bool letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* "sq.  ft." to "sq ft", "m^2" to "m2". Too long for any unit: false. */
static bool squeeze(const char *name, size_t length, char squeezed[NAME_SIZE])
{
    size_t n = 0;
    for (size_t i = 0; i < length; i++) {
        char before = i ? name[i - 1] : '\0', after = i + 1 < length ? name[i + 1] : '\0';
        bool drop = (name[i] == '.' && letter(before)) ||
                    (name[i] == '^' && letter(before) && after >= '0' && after <= '9') ||
                    (name[i] == ' ' && before == ' ');
        if (!drop && n + 1 == NAME_SIZE)
            return false;
        if (!drop)
            squeezed[n++] = name[i];
    }
    squeezed[n] = '\0';
    return true;
}

static bool named(const struct unit *unit, const char *name)
{
    size_t length = strlen(name);
    size_t singular =
        length > 3 && (name[length - 1] == 's' || name[length - 1] == 'S') ? length - 1 : length;
    for (size_t i = 0; i < UNIT_NAMES && unit->names[i]; i++)
        if (text_same(name, unit->names[i]) || text_same_n(name, singular, unit->names[i]))
            return true;
    return false;
}

const struct unit *unit_find(unsigned dimensions, const char *name, size_t length)
{
    char squeezed[NAME_SIZE];
    if (!squeeze(name, length, squeezed))
        return NULL;
    for (size_t i = 0; i < UNIT_COUNT; i++)
        if ((units[i].dimension & dimensions) && named(&units[i], squeezed))
            return &units[i];
    return NULL;
}

/* What is written out of habit where another unit is wanted. */
struct habit {
    enum dimension dimension;
    const char *wrote, *meant;
};

static const struct habit habits[] = {
    {DIM_VOLUME, "oz", "fl oz"}, {DIM_SPAN, "m", "min"},  {DIM_AREA, "m", "m2"},   {DIM_AREA, "cm", "cm2"},
    {DIM_AREA, "ft", "ft2"},     {DIM_AREA, "sf", "ft2"}, {DIM_AREA, "in", "in2"}, {DIM_MASS, "k", "kg"},
};

const char *unit_nearest(unsigned dimensions, const char *name, size_t length)
{
    char squeezed[NAME_SIZE];
    const char *candidates[UNIT_COUNT * UNIT_NAMES];
    size_t count = 0;
    if (!squeeze(name, length, squeezed))
        return NULL;
    for (size_t i = 0; i < sizeof habits / sizeof habits[0]; i++)
        if ((habits[i].dimension & dimensions) && text_same(squeezed, habits[i].wrote))
            return habits[i].meant;
    /* Right spelling, wrong quantity: `m2` is not a slip for `ml`. */
    if (unit_find(~dimensions, name, length))
        return NULL;
    /* A word of three letters is near too much: only the usual names are offered for it. */
    size_t most = strlen(squeezed) > 3 ? UNIT_NAMES : 1;
    for (size_t i = 0; i < UNIT_COUNT; i++)
        for (size_t k = 0; k < most && units[i].names[k] && (units[i].dimension & dimensions); k++)
            candidates[count++] = units[i].names[k];
    return text_nearest(squeezed, candidates, count);
}

double unit_per_base(enum dimension dimension, const char *name)
{
    const struct unit *unit = unit_find(dimension, name, strlen(name));
    assert(unit);
    return (double)unit->down / (double)unit->up;
}

/* `number unit`. */
static struct text_short with_unit(struct text_short number, const char *unit)
{
    size_t n = strlen(number.text), length = strlen(unit);
    assert(n + length + 2 <= sizeof number.text);
    number.text[n] = ' ';
    memcpy(number.text + n + 1, unit, length + 1);
    return number;
}

struct text_short unit_round(double value, int decimals, const char *unit)
{
    return with_unit(number_round(value, decimals), unit);
}

struct text_short unit_fixed(double value, int decimals, const char *unit)
{
    return with_unit(number_fixed(value, decimals), unit);
}

struct text_short unit_write(double value, int shift, const char *unit)
{
    return with_unit(number_shifted(value, shift), unit);
}

void kind_fill(const struct kind *kind, struct err *fault)
{
    err_expect(fault, "%s such as %s", kind->noun, kind->such);
}

bool kind_fold(const char *text, const struct kind *kind, struct folded *folded, struct err *fault)
{
    return (text_fold(text, folded) && folded->text[0] != '\0') || kind_fault(kind, fault);
}

bool kind_number(const char **at, const struct kind *kind, struct exact *number, struct err *fault)
{
    enum scan scan = number_scan(at, number);
    if (scan == SCAN_READ) {
        *at = blanks_skip(*at);
        return true;
    }
    if (scan == SCAN_NOT)
        return kind_fault(kind, fault);
    return number_fault(scan, *at, kind->noun, "", fault);
}

const struct unit *kind_unit(const char *name, size_t length, const struct kind *kind, struct err *fault)
{
    if (length == 0) {
        err_expect(fault, "%s with a unit, such as %s", kind->noun, kind->such);
        return NULL;
    }
    const struct unit *unit = unit_find(kind->dimensions, name, length);
    if (unit)
        return unit;
    const char *nearest = unit_nearest(kind->dimensions, name, length);
    if (nearest)
        err_expect(fault, "%s such as %s (did you mean \"%s\"?)", kind->noun, kind->such, nearest);
    else
        kind_fill(kind, fault);
    return NULL;
}

size_t blanks_cut(const char *at, size_t n)
{
    while (n > 0 && (at[n - 1] == ' ' || at[n - 1] == '\t'))
        n--;
    return n;
}

size_t unit_reach(const char *at, const char **next)
{
    size_t n = 0;
    while (at[n] && (at[n] < '0' || at[n] > '9') && !(at[n] == '.' && at[n + 1] >= '0' && at[n + 1] <= '9'))
        n++;
    *next = at + n;
    return blanks_cut(at, n);
}

bool kind_sane(double value, const struct kind *kind, struct err *fault)
{
    if (value == 0 || (value >= 1e-9 && value <= 1e12))
        return true;
    return err_say(fault, "%s that can be meant, such as %s", kind->noun, kind->such);
}

bool kind_round(struct exact number, const struct kind *kind, double *value, struct err *fault)
{
    double rounded = exact_round(number);
    if (!kind_sane(rounded, kind, fault))
        return false;
    *value = rounded;
    return true;
}

bool kind_single(const char *text, const struct kind *kind, struct exact *number, const struct unit **unit,
                 struct err *fault)
{
    const char *at = text;
    if (!kind_number(&at, kind, number, fault))
        return false;
    *unit = kind_unit(at, strlen(at), kind, fault);
    if (!*unit)
        return false;
    *number = exact_times(*number, (*unit)->up, (*unit)->down);
    return true;
}

/* Where the unit before `/` or ` per ` ends and the one behind it begins; NULL if there is neither. */
static const char *per_find(const char *at, size_t *before)
{
    for (size_t i = 0; at[i]; i++) {
        size_t length = at[i] == '/'                                                       ? 1
                        : at[i] == ' ' && text_same_n(at + i, strnlen(at + i, 5), " per ") ? 5
                                                                                           : 0;
        if (length == 0)
            continue;
        *before = i;
        while (*before > 0 && at[*before - 1] == ' ')
            --*before;
        return blanks_skip(at + i + length);
    }
    return NULL;
}

bool kind_per(const char *text, const struct kind *kind, struct exact *number, const struct unit *sides[2],
              struct err *fault)
{
    const char *at = text;
    size_t before;
    if (!kind_number(&at, kind, number, fault))
        return false;
    if (*at == '\0')
        return kind_unit(at, 0, kind, fault) != NULL;
    const char *behind = per_find(at, &before);
    if (!behind || before == 0 || *behind == '\0')
        return kind_fault(kind, fault);
    sides[0] = kind_unit(at, before, kind, fault);
    sides[1] = sides[0] ? kind_unit(behind, strlen(behind), kind, fault) : NULL;
    return sides[1] != NULL;
}

struct exact exact_per(struct exact number, const struct unit *a, const struct unit *b)
{
    return exact_times(exact_times(number, a->up, a->down), b->down, b->up);
}
