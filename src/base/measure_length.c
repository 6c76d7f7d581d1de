#include "base/measure.h"

#include "base/measure_scan.h"

#include <math.h>
#include <string.h>

static const struct kind length_kind = {DIM_LENGTH, "a length", "\"19 mm\" or \"3/4 in\""};
static const struct kind area_kind = {DIM_AREA, "an area", "\"1.8 m2\", \"20 sq ft\" or \"600 mm x 400 mm\""};

static const char *const unit_names[] = {"", "mm", "cm", "m", "in", "ft"};

bool length_unit_parse(const char *text, enum length_unit *unit, struct err *fault)
{
    for (int i = LENGTH_MM; i <= LENGTH_FT; i++)
        if (text_same(text, unit_names[i])) {
            *unit = (enum length_unit)i;
            return true;
        }
    return err_say(fault, "a unit of length: \"mm\", \"cm\", \"m\", \"in\" or \"ft\"");
}

const char *length_unit_name(enum length_unit unit)
{
    return unit_names[unit];
}

static const struct unit *bare_unit(enum length_unit bare)
{
    return unit_find(DIM_LENGTH, unit_names[bare], strlen(unit_names[bare]));
}

bool length_bare(double number, enum length_unit bare, double *length_m, struct err *fault)
{
    const struct unit *unit = bare_unit(bare);
    if (!unit)
        return kind_unit("", 0, &length_kind, fault) != NULL;
    if (!isfinite(number))
        return kind_fault(&length_kind, fault);
    if (number < 0)
        return err_say(fault, "a length that is not negative");
    double length = number * (double)unit->up / (double)unit->down;
    if (!kind_sane(length, &length_kind, fault))
        return false;
    *length_m = length;
    return true;
}

/* The inches behind whole feet, to the end: `2 3/8"`. Both together in inches replace *feet. */
static bool inches_join(const char *at, struct exact *feet, struct err *fault)
{
    struct exact inches;
    if (!kind_number(&at, &length_kind, &inches, fault))
        return false;
    const struct unit *unit = kind_unit(at, strlen(at), &length_kind, fault);
    if (!unit)
        return false;
    if (unit != bare_unit(LENGTH_IN) || wide_compare(feet->bottom, wide_of(1)) != 0)
        return kind_fault(&length_kind, fault);
    if (wide_compare(inches.top, wide_times(inches.bottom, 12)) >= 0)
        return err_say(fault, "less than 12 inches behind the feet");
    struct wide whole = feet->top;
    if (wide_compare(whole, wide_of(1000000)) > 0)
        return err_say(fault, "a length that can be meant, such as %s", length_kind.such);
    inches.top = wide_plus(inches.top, wide_times(inches.bottom, 12 * (uint64_t)whole.word[0]));
    *feet = inches;
    return true;
}

/* A length to the end of the text; *is_bare tells whether it stood without a unit. */
static bool length_read(const char *text, enum length_unit bare, struct exact *length, bool *is_bare,
                        struct err *fault)
{
    const char *at = text, *next;
    if (!kind_number(&at, &length_kind, length, fault))
        return false;
    *is_bare = *at == '\0';
    const struct unit *unit = *is_bare ? bare_unit(bare) : NULL;
    size_t n = unit_reach(at, &next);
    if (*next != '\0' && n > 1 && at[n - 1] == '-') /* 5'-2 3/8" */
        n = blanks_cut(at, n - 1);
    if (n == 0 && *next != '\0') /* 3 5/4 */
        return kind_fault(&length_kind, fault);
    if (!unit)
        unit = kind_unit(at, n, &length_kind, fault);
    if (!unit)
        return false;
    if (*next != '\0') {
        if (unit != bare_unit(LENGTH_FT))
            return kind_fault(&length_kind, fault);
        if (!inches_join(next, length, fault))
            return false;
        unit = bare_unit(LENGTH_IN);
    }
    *length = exact_times(*length, unit->up, unit->down);
    return true;
}

bool length_parse(const char *text, enum length_unit bare, double *length_m, struct err *fault)
{
    struct folded folded;
    struct exact length;
    bool is_bare;
    return kind_fold(text, &length_kind, &folded, fault) &&
           length_read(folded.text, bare, &length, &is_bare, fault) &&
           kind_round(length, &length_kind, length_m, fault);
}

enum { FACTORS = 3 };

/* Cuts `a x b x c` at its crosses; the number of factors, FACTORS + 1 for more. */
static int product_cut(char *text, const char *factor[FACTORS])
{
    int count = 1;
    factor[0] = text;
    for (char *at = text; *at; at++) {
        if (*at != 'x' && *at != 'X')
            continue;
        char *end = at;
        while (end > text && end[-1] == ' ')
            end--;
        *end = '\0';
        if (count == FACTORS)
            return FACTORS + 1;
        factor[count++] = at + 1 + strspn(at + 1, " \t");
    }
    return count;
}

static bool pair_read(const char *const factor[2], enum length_unit bare, double length_m[2],
                      struct err *fault)
{
    bool is_bare[2];
    double found[2];
    for (int i = 0; i < 2; i++) {
        struct exact length;
        if (!length_read(factor[i], bare, &length, &is_bare[i], fault) ||
            !kind_round(length, &length_kind, &found[i], fault))
            return false;
    }
    if (is_bare[0] != is_bare[1])
        return err_say(fault, "both lengths with a unit, such as \"300 mm x 120 mm\"");
    length_m[0] = found[0];
    length_m[1] = found[1];
    return true;
}

bool counted_area_parse(const char *text, enum length_unit bare, int64_t *count, double length_m[2],
                        struct err *fault)
{
    static const struct kind kind = {0, "an area", "\"300 mm x 120 mm\" or \"2 x 40 mm x 600 mm\""};
    struct folded folded;
    const char *factor[FACTORS];
    int64_t times = 1;
    if (!kind_fold(text, &kind, &folded, fault))
        return false;
    int factors = product_cut(folded.text, factor);
    if (factors < 2 || factors > FACTORS)
        return kind_fault(&kind, fault);
    if (factors == FACTORS) {
        uint64_t value = 0;
        const char *at = factor[0];
        if (!whole_scan(&at, FRACTION_DIGITS, &value) || *at != '\0' || value == 0 || value > 1000000)
            return err_say(fault, "a count before the lengths, such as \"2 x 40 mm x 600 mm\"");
        times = (int64_t)value;
    }
    if (!pair_read(factor + factors - 2, bare, length_m, fault))
        return false;
    *count = times;
    return true;
}

bool area_parse(const char *text, enum length_unit bare, double *area_m2, struct err *fault)
{
    struct folded folded;
    struct exact number;
    const struct unit *unit;
    const char *factor[FACTORS];
    double length_m[2];
    if (!kind_fold(text, &area_kind, &folded, fault))
        return false;
    if (!strpbrk(folded.text, "xX"))
        return kind_single(folded.text, &area_kind, &number, &unit, fault) &&
               kind_round(number, &area_kind, area_m2, fault);
    if (product_cut(folded.text, factor) != 2)
        return kind_fault(&area_kind, fault);
    if (!pair_read(factor, bare, length_m, fault) || !kind_sane(length_m[0] * length_m[1], &area_kind, fault))
        return false;
    *area_m2 = length_m[0] * length_m[1];
    return true;
}
