#include "base/span.h"

#include "base/unit.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>

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
