#include "base/number_scan.h"

#include <string.h>

static bool digit(char c)
{
    return c >= '0' && c <= '9';
}

static size_t digits_at(const char *at)
{
    size_t n = 0;
    while (digit(at[n]))
        n++;
    return n;
}

bool whole_scan(const char **at, size_t most_digits, uint64_t *value)
{
    size_t n = digits_at(*at);
    if (n == 0 || n > most_digits)
        return false;
    *value = 0;
    for (size_t i = 0; i < n; i++)
        *value = *value * 10 + (uint64_t)((*at)[i] - '0');
    *at += n;
    return true;
}

/* `3/4` with the slash right between digits; in a mixed number it is below 1. */
static bool fraction_scan(const char **at, uint64_t *top, uint64_t *bottom)
{
    const char *p = *at;
    if (!whole_scan(&p, FRACTION_DIGITS, top) || *p != '/' || !digit(p[1]))
        return false;
    p++;
    if (!whole_scan(&p, FRACTION_DIGITS, bottom) || *bottom == 0)
        return false;
    *at = p;
    return true;
}

/* ` 3/4` or `-3/4` behind a whole number. */
static bool rest_scan(const char **at, uint64_t *top, uint64_t *bottom)
{
    const char *p = *at;
    if (*p == '-')
        p++;
    else if (*p != ' ' && *p != '\t')
        return false;
    while (*p == ' ' || *p == '\t')
        p++;
    if (!fraction_scan(&p, top, bottom) || *top >= *bottom)
        return false;
    *at = p;
    return true;
}

static bool fractional_scan(const char **at, struct exact *number)
{
    const char *p = *at;
    uint64_t whole, top, bottom;
    while (*p == ' ' || *p == '\t')
        p++;
    if (fraction_scan(&p, &top, &bottom)) {
        *number = exact_of(top, bottom);
        *at = p;
        return true;
    }
    if (!whole_scan(&p, FRACTION_DIGITS, &whole) || !rest_scan(&p, &top, &bottom))
        return false;
    *number = exact_of(whole * bottom + top, bottom);
    *at = p;
    return true;
}

/* `12`, `12.5`, `.5`: the digits are known to be there. */
static void decimal_take(const char *p, size_t whole, size_t decimals, struct exact *number)
{
    *number = exact_of(0, 1);
    for (size_t i = 0; i < whole + decimals; i++) {
        char c = i < whole ? p[i] : p[i + 1];
        number->top = wide_plus(wide_times(number->top, 10), wide_of((uint64_t)(c - '0')));
        if (i >= whole)
            number->bottom = wide_times(number->bottom, 10);
    }
}

static enum scan decimal_scan(const char **at, struct exact *number)
{
    const char *p = *at;
    size_t whole = digits_at(p);
    size_t decimals = p[whole] == '.' ? digits_at(p + whole + 1) : 0;
    const char *end = p + whole + (p[whole] == '.') + decimals;
    if (whole + decimals == 0 || (p[whole] == '.' && decimals == 0))
        return SCAN_NOT;
    if (end[0] == ',' && digit(end[1]))
        return SCAN_COMMA;
    if ((end[0] == 'e' || end[0] == 'E') && (digit(end[1]) || end[1] == '+' || end[1] == '-'))
        return SCAN_EXPONENT;
    if (*end == '.' || *end == ',')
        return SCAN_NOT;
    if (whole + decimals > NUMBER_DIGITS)
        return SCAN_LONG;
    decimal_take(p, whole, decimals, number);
    *at = end;
    return SCAN_READ;
}

enum scan number_scan(const char **at, struct exact *number)
{
    if (**at == '-' && (digit((*at)[1]) || (*at)[1] == '.'))
        return SCAN_NEGATIVE;
    if (fractional_scan(at, number))
        return SCAN_READ;
    return decimal_scan(at, number);
}

/* What was meant by `1,5` and `1,500`. */
static void comma_fill(const char *at, struct err *fault)
{
    int whole = (int)strcspn(at, ","), behind = (int)digits_at(at + whole + 1);
    const char *rest = at + whole + 1;
    if (whole + behind > 24 || memchr(at, '.', (size_t)whole) || rest[behind] == ',' || rest[behind] == '.')
        err_expect(fault, "a number without commas");
    else if (behind == 3)
        err_expect(fault, "a number without a comma: write \"%.*s%.*s\" or \"%.*s.%.*s\"", whole, at, behind,
                   rest, whole, at, behind, rest);
    else
        err_expect(fault, "a decimal point: write \"%.*s.%.*s\"", whole, at, behind, rest);
}

void number_fill(enum scan scan, const char *at, const char *noun, const char *such, struct err *fault)
{
    switch (scan) {
    case SCAN_NEGATIVE:
        err_expect(fault, "%s that is not negative", noun);
        break;
    case SCAN_COMMA:
        comma_fill(at, fault);
        break;
    case SCAN_EXPONENT:
        err_expect(fault, "%s written out, without exponent", noun);
        break;
    case SCAN_LONG:
        err_expect(fault, "%s of at most %d digits", noun, NUMBER_DIGITS);
        break;
    default:
        err_expect(fault, "%s", such);
        break;
    }
}
