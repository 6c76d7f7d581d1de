#include "base/decimal.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>

enum { DIGITS_MOST = 19, EXPONENT_MOST = 100000 };

/* Powers of ten that are exact. */
static const double exact_tens[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                    1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

/* What is read, and how far it goes. */
struct digits {
    const char *text;
    size_t length;
};

static bool is_digit(const struct digits *w, size_t at)
{
    return at < w->length && w->text[at] >= '0' && w->text[at] <= '9';
}

/* A value as the sum of two doubles, the second far below the first: T. J. Dekker, "A floating-point technique for
 * extending the available precision" (1971), with the fused multiplication of C. The same on every machine. */
struct twofold {
    double high, low;
};

static struct twofold twofold_times(struct twofold a, double ten)
{
    double high = a.high * ten, low = fma(a.high, ten, -high) + a.low * ten;
    return (struct twofold){high + low, low - ((high + low) - high)};
}

static struct twofold twofold_over(struct twofold a, double ten)
{
    double high = a.high / ten, low = (fma(-high, ten, a.high) + a.low) / ten;
    return (struct twofold){high + low, low - ((high + low) - high)};
}

/* W. D. Clinger, "How to read floating point numbers accurately" (1990): one rounding where both are exact. */
static double scaled(uint64_t digits, int exponent)
{
    bool exact = digits <= (uint64_t)1 << 53;
    if (digits == 0 || exponent < -400)
        return 0;
    if (exponent > 400)
        return INFINITY;
    if (exact && exponent >= -22 && exponent <= 22)
        return exponent < 0 ? (double)digits / exact_tens[-exponent] : (double)digits * exact_tens[exponent];
    struct twofold value = {(double)(digits >> 11 << 11), (double)(digits & 0x7FF)};
    for (int left = exponent < 0 ? -exponent : exponent, step; left > 0; left -= step) {
        step = left < 22 ? left : 22;
        value = exponent < 0 ? twofold_over(value, exact_tens[step]) : twofold_times(value, exact_tens[step]);
        if (!isfinite(value.high) || value.high == 0)
            return value.high;
    }
    return value.high + value.low;
}

struct decimal {
    uint64_t digits;
    int exponent, kept;
    bool any;
};

/* Digits beyond the nineteenth only move the exponent. */
static void take_digits(const struct digits *w, size_t *at, struct decimal *d, bool fraction)
{
    for (; is_digit(w, *at); (*at)++) {
        d->any = true;
        bool room = d->kept < DIGITS_MOST;
        if (room) {
            d->digits = d->digits * 10 + (uint64_t)(w->text[*at] - '0');
            d->kept += d->digits > 0;
        }
        d->exponent += room ? -(int)fraction : !fraction;
    }
}

/* An exponent without digits is none, and is left where it stands. */
static void take_exponent(const struct digits *w, size_t *at, struct decimal *d)
{
    size_t from = *at;
    if (from == w->length || (w->text[from] != 'e' && w->text[from] != 'E'))
        return;
    bool minus = ++from < w->length && w->text[from] == '-';
    if (from < w->length && (w->text[from] == '-' || w->text[from] == '+'))
        from++;
    if (!is_digit(w, from))
        return;
    int exponent = 0;
    for (; is_digit(w, from); from++)
        if (exponent < EXPONENT_MOST)
            exponent = exponent * 10 + (w->text[from] - '0');
    d->exponent += minus ? -exponent : exponent;
    *at = from;
}

size_t decimal_read(const char *text, size_t length, double *value)
{
    struct digits w = {text, length};
    struct decimal d = {0};
    size_t at = 0;
    take_digits(&w, &at, &d, false);
    if (at < length && text[at] == '.') {
        at++;
        take_digits(&w, &at, &d, true);
    }
    if (!d.any)
        return 0;
    take_exponent(&w, &at, &d);
    *value = scaled(d.digits, d.exponent);
    return at;
}
