#include "base/number.h"

#include "base/number_scan.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

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

static struct decimal decimal_of(double value)
{
    struct decimal d = {"", 0, 0};
    for (int digits = 15; digits <= 17; digits++) {
        char text[40];
        snprintf(text, sizeof text, "%.*e", digits - 1, value);
        put_point(text);
        char *exponent = strchr(text, 'e');
        d.digits[0] = text[0];
        memcpy(d.digits + 1, text + 2, (size_t)digits - 1);
        d.count = digits;
        d.point = (int)strtol(exponent + 1, NULL, 10) + 1;
        while (d.count > 1 && d.digits[d.count - 1] == '0')
            d.count--;
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

struct text_short number_shifted(double value, int shift)
{
    struct text_short out = {"0"};
    assert(isfinite(value) && fabs(value) < 1e16);
    if (fabs(value) < 1e-30)
        return out;
    struct decimal d = decimal_of(fabs(value));
    int point = d.point + shift, whole = point < 0 ? 0 : point < d.count ? point : d.count;
    char *to = out.text;
    to += put_repeat(to, '-', value < 0);
    memcpy(to, d.digits, (size_t)whole);
    to += whole;
    to += put_repeat(to, '0', point > 0 ? point - whole : 1);
    to += put_repeat(to, '.', whole < d.count);
    to += put_repeat(to, '0', -point);
    memcpy(to, d.digits + whole, (size_t)(d.count - whole));
    to[d.count - whole] = '\0';
    return out;
}

struct text_short number_with(struct text_short number, const char *unit)
{
    size_t n = strlen(number.text), length = strlen(unit);
    assert(n + length + 2 <= sizeof number.text);
    number.text[n] = ' ';
    memcpy(number.text + n + 1, unit, length + 1);
    return number;
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
