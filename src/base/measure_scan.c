#include "base/measure_scan.h"

#include "base/text.h"

#include <math.h>
#include <string.h>

void kind_fill(const struct kind *kind, struct err *fault)
{
    err_expect(fault, "%s such as %s", kind->noun, kind->such);
}

bool kind_fold(const char *text, const struct kind *kind, struct folded *folded, struct err *fault)
{
    return (text_fold(text, folded) && folded->text[0] != '\0') || kind_fault(kind, fault);
}

static const char *skip(const char *at)
{
    return at + strspn(at, " \t");
}

bool kind_number(const char **at, const struct kind *kind, struct exact *number, struct err *fault)
{
    enum scan scan = number_scan(at, number);
    if (scan == SCAN_READ) {
        *at = skip(*at);
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
        return skip(at + i + length);
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
