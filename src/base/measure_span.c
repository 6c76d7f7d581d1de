/* Time spans, temperatures, and the two that stand together: a climate. */
#include "base/measure.h"

#include "base/measure_scan.h"

#include <math.h>
#include <string.h>

static const struct kind span_kind = {DIM_SPAN, "a time span", "\"45 min\" or \"1 h 30 min\""};
static const struct kind temperature_kind = {0, "a temperature", "\"20 C\" or \"68 F\""};

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

bool temperature_scan(const char **at, double *temperature_c, struct err *fault)
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
    *at = p + n + strspn(p + n, " \t");
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
