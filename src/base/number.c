#include "base/number.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct sign {
    uint32_t point;
    const char *ascii;
};

/* Quotation marks stand here too: telephones put them where a prime was meant. */
static const struct sign signs[] = {
    {0x00A0, " "},    {0x2009, " "},     {0x202F, " "},    {0x00B0, "deg"},  {0x00BA, "deg"},
    {0x00B2, "^2"},   {0x00B3, "^3"},    {0x00B5, "u"},    {0x03BC, "u"},    {0x00D7, "x"},
    {0x2032, "'"},    {0x2033, "\""},    {0x2018, "'"},    {0x2019, "'"},    {0x201C, "\""},
    {0x201D, "\""},   {0x2044, "/"},     {0x2212, "-"},    {0x2010, "-"},    {0x2011, "-"},
    {0x2013, "-"},    {0x00BC, " 1/4"},  {0x00BD, " 1/2"}, {0x00BE, " 3/4"}, {0x2150, " 1/7"},
    {0x2151, " 1/9"}, {0x2152, " 1/10"}, {0x2153, " 1/3"}, {0x2154, " 2/3"}, {0x2155, " 1/5"},
    {0x2156, " 2/5"}, {0x2157, " 3/5"},  {0x2158, " 4/5"}, {0x2159, " 1/6"}, {0x215A, " 5/6"},
    {0x215B, " 1/8"}, {0x215C, " 3/8"},  {0x215D, " 5/8"}, {0x215E, " 7/8"},
};

static const char *ascii_of(uint32_t point)
{
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
        if (signs[i].point == point)
            return signs[i].ascii;
    return NULL;
}

bool text_fold(const char *text, struct folded *folded)
{
    char wide[FOLDED_SIZE];
    size_t n = 0;
    for (uint32_t point; (point = text_next(&text)) != 0;) {
        if (point >= 0x20 && point < 0x7F && n + 1 < sizeof wide) {
            wide[n++] = (char)point;
            continue;
        }
        const char *ascii = point == '\t' ? "\t" : point >= 0x80 ? ascii_of(point) : NULL;
        if (!ascii)
            return false;
        size_t length = strlen(ascii);
        if (n + length >= sizeof wide)
            return false;
        memcpy(wide + n, ascii, length);
        n += length;
    }
    wide[n] = '\0';
    size_t length;
    const char *from = text_trim(wide, &length);
    memcpy(folded->text, from, length);
    folded->text[length] = '\0';
    return true;
}

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

/* `12`, `12.5`, `.5`: the digits are known to be there. As many at once as one word holds. */
static void decimal_take(const char *p, size_t whole, size_t decimals, struct exact *number)
{
    *number = exact_of(0, 1);
    for (size_t i = 0; i < whole + decimals;) {
        uint64_t digits = 0, tens = 1, tenths = 1;
        for (int n = 0; n < COUNT_DIGITS && i < whole + decimals; n++, i++) {
            digits = digits * 10 + (uint64_t)((i < whole ? p[i] : p[i + 1]) - '0');
            tens *= 10;
            tenths *= i < whole ? 1 : 10;
        }
        number->top = wide_plus(wide_times(number->top, tens), wide_of(digits));
        number->bottom = wide_times(number->bottom, tenths);
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

bool number_parse(const char *text, double *value, struct err *fault)
{
    static const char such[] = "a number such as \"12\", \"12.5\" or \"3 3/4\"";
    struct folded folded;
    struct exact number;
    if (!text_fold(text, &folded))
        return err_say(fault, such);
    const char *at = folded.text;
    enum scan scan = number_scan(&at, &number);
    if (scan == SCAN_READ && *at != '\0')
        scan = SCAN_NOT;
    if (scan != SCAN_READ)
        return number_fault(scan, folded.text, "a number", such, fault);
    *value = exact_round(number);
    return true;
}

bool count_parse(const char *text, int64_t most, int64_t *count, struct err *fault)
{
    struct folded folded;
    uint64_t value = 0;
    const char *at = folded.text;
    if (!text_fold(text, &folded) || !whole_scan(&at, COUNT_DIGITS, &value) || *at != '\0' || value == 0 ||
        value > (uint64_t)most)
        return err_say(fault, "a whole number from 1 to %lld", (long long)most);
    *count = (int64_t)value;
    return true;
}

/* What printf wrote with the locale's decimal point, whatever that is: only digits, '-' and one '.' stay. */
static void put_point(char *text)
{
    char *to = text;
    bool point = false;
    for (const char *from = text; *from; from++) {
        bool plain = (*from >= '0' && *from <= '9') || *from == '-' || *from == 'e' || *from == '+';
        if (plain || !point)
            *to++ = plain ? *from : '.';
        point |= !plain;
    }
    *to = '\0';
}

/* value = 0.DIGITS x 10^point with the fewest digits that read back as the same. */
struct decimal {
    char digits[24];
    int count, point;
};

static struct exact exact_of_decimal(const struct decimal *d)
{
    struct exact number = exact_of(0, 1);
    for (int i = 0; i < d->count; i++)
        number.top = wide_plus(wide_times(number.top, 10), wide_of((uint64_t)(d->digits[i] - '0')));
    for (int i = d->count; i < d->point; i++)
        number.top = wide_times(number.top, 10);
    for (int i = d->point; i < d->count; i++)
        number.bottom = wide_times(number.bottom, 10);
    return number;
}

/* To so many digits, zeros at the end dropped; above 0. */
static struct decimal decimal_to(double value, int digits)
{
    struct decimal d = {"", digits, 0};
    char text[40];
    snprintf(text, sizeof text, "%.*e", digits - 1, value);
    put_point(text);
    d.digits[0] = text[0];
    memcpy(d.digits + 1, text + (digits > 1 ? 2 : 1), (size_t)digits - 1);
    d.point = (int)strtol(strchr(text, 'e') + 1, NULL, 10) + 1;
    while (d.count > 1 && d.digits[d.count - 1] == '0')
        d.count--;
    return d;
}

static struct decimal decimal_of(double value)
{
    struct decimal d = {"", 0, 0};
    for (int digits = 15; digits <= 17; digits++) {
        d = decimal_to(value, digits);
        if (exact_round(exact_of_decimal(&d)) == value)
            break;
    }
    return d;
}

static int put_repeat(char *to, char c, int times)
{
    for (int i = 0; i < times; i++)
        to[i] = c;
    return times > 0 ? times : 0;
}

static struct text_short decimal_text(const struct decimal *d, bool negative, int shift)
{
    struct text_short out;
    int point = d->point + shift, whole = point < 0 ? 0 : point < d->count ? point : d->count;
    char *to = out.text;
    to += put_repeat(to, '-', negative);
    memcpy(to, d->digits, (size_t)whole);
    to += whole;
    to += put_repeat(to, '0', point > 0 ? point - whole : 1);
    to += put_repeat(to, '.', whole < d->count);
    to += put_repeat(to, '0', -point);
    memcpy(to, d->digits + whole, (size_t)(d->count - whole));
    to[d->count - whole] = '\0';
    return out;
}

static bool is_nothing(double value)
{
    assert(isfinite(value) && fabs(value) < 1e16);
    return fabs(value) < 1e-30;
}

struct text_short number_shifted(double value, int shift)
{
    if (is_nothing(value))
        return (struct text_short){"0"};
    struct decimal d = decimal_of(fabs(value));
    return decimal_text(&d, value < 0, shift);
}

struct text_short number_significant(double value, int digits)
{
    if (is_nothing(value))
        return (struct text_short){"0"};
    struct decimal d = decimal_to(fabs(value), digits);
    return decimal_text(&d, value < 0, 0);
}

struct text_short number_quiet(double value)
{
    return number_significant(value, 15);
}

struct text_short number_format(double value)
{
    return number_shifted(value, 0);
}

struct text_short number_fixed(double value, int decimals)
{
    struct text_short out;
    assert(isfinite(value) && fabs(value) < 1e16 && decimals >= 0 && decimals <= 17);
    snprintf(out.text, sizeof out.text, "%.*f", decimals, value);
    put_point(out.text);
    if (out.text[0] == '-' && strspn(out.text, "-0.") == strlen(out.text))
        memmove(out.text, out.text + 1, strlen(out.text));
    return out;
}

struct text_short number_round(double value, int decimals)
{
    struct text_short out = number_fixed(value, decimals);
    if (strchr(out.text, '.')) {
        size_t n = strlen(out.text);
        while (out.text[n - 1] == '0')
            n--;
        if (out.text[n - 1] == '.')
            n--;
        out.text[n] = '\0';
    }
    return out;
}
