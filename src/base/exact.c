#include "base/exact.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { WORD_BITS = 32, WIDE_BITS = WORD_BITS * WIDE_WORDS };

struct wide wide_of(uint64_t value)
{
    return (struct wide){{(uint32_t)value, (uint32_t)(value >> WORD_BITS)}};
}

struct wide wide_plus(struct wide a, struct wide b)
{
    uint64_t carry = 0;
    for (int i = 0; i < WIDE_WORDS; i++) {
        carry += (uint64_t)a.word[i] + b.word[i];
        a.word[i] = (uint32_t)carry;
        carry >>= WORD_BITS;
    }
    assert(carry == 0);
    return a;
}

struct wide wide_minus(struct wide a, struct wide b)
{
    uint64_t borrow = 0;
    for (int i = 0; i < WIDE_WORDS; i++) {
        uint64_t difference = (uint64_t)a.word[i] - b.word[i] - borrow;
        a.word[i] = (uint32_t)difference;
        borrow = difference >> 63;
    }
    assert(borrow == 0);
    return a;
}

int wide_compare(struct wide a, struct wide b)
{
    for (int i = WIDE_WORDS - 1; i >= 0; i--)
        if (a.word[i] != b.word[i])
            return a.word[i] < b.word[i] ? -1 : 1;
    return 0;
}

static struct wide times_word(struct wide a, uint32_t factor, int shift)
{
    struct wide product = {{0}};
    uint64_t carry = 0;
    for (int i = 0; i + shift < WIDE_WORDS; i++) {
        carry += (uint64_t)a.word[i] * factor;
        product.word[i + shift] = (uint32_t)carry;
        carry >>= WORD_BITS;
    }
    assert(carry == 0);
    return product;
}

static bool is_word(struct wide a)
{
    for (int i = 1; i < WIDE_WORDS; i++)
        if (a.word[i])
            return false;
    return true;
}

struct wide wide_times(struct wide a, uint64_t factor)
{
    /* Nearly always: a few digits, and a unit of few. */
    if (factor >> WORD_BITS == 0 && is_word(a))
        return wide_of(a.word[0] * factor);
    struct wide low = times_word(a, (uint32_t)factor, 0);
    uint32_t high = (uint32_t)(factor >> WORD_BITS);
    return high ? wide_plus(low, times_word(a, high, 1)) : low;
}

struct exact exact_of(uint64_t top, uint64_t bottom)
{
    return (struct exact){wide_of(top), wide_of(bottom)};
}

struct exact exact_times(struct exact a, uint64_t up, uint64_t down)
{
    return (struct exact){wide_times(a.top, up), wide_times(a.bottom, down)};
}

/* Below 2^53, so that it is a double without rounding. */
static bool small(struct wide a)
{
    for (int i = 2; i < WIDE_WORDS; i++)
        if (a.word[i])
            return false;
    return a.word[1] < 1u << 21;
}

static double double_of(struct wide a)
{
    return (double)((uint64_t)a.word[1] << WORD_BITS | a.word[0]);
}

static uint32_t bit_of(struct wide a, int i)
{
    return a.word[i / WORD_BITS] >> (i % WORD_BITS) & 1;
}

static struct wide doubled(struct wide a, uint32_t bit)
{
    for (int i = 0; i < WIDE_WORDS; i++) {
        uint32_t over = a.word[i] >> (WORD_BITS - 1);
        a.word[i] = a.word[i] << 1 | bit;
        bit = over;
    }
    assert(bit == 0);
    return a;
}

/* Long division bit by bit: first the whole part, then behind the point, until 55 bits of the quotient stand and the
 * whole part is through. `sticky` remembers whether anything was left. */
static double divide(struct exact a)
{
    enum { ENOUGH = 55 };
    struct wide rest = {{0}};
    uint64_t quotient = 0;
    int exponent = 0;
    bool sticky = false;
    for (int i = WIDE_BITS - 1; i >= 0 || quotient >> (ENOUGH - 1) == 0; i--) {
        rest = doubled(rest, i >= 0 ? bit_of(a.top, i) : 0);
        uint64_t bit = wide_compare(rest, a.bottom) >= 0;
        if (bit)
            rest = wide_minus(rest, a.bottom);
        if (quotient >> (ENOUGH - 1)) {
            sticky |= bit;
            exponent++;
        } else {
            quotient = quotient << 1 | bit;
            exponent -= i < 0;
        }
    }
    sticky |= wide_compare(rest, wide_of(0)) > 0;
    uint64_t mantissa = quotient >> 2, below = (quotient & 3) << 1 | sticky;
    mantissa += below > 4 || (below == 4 && (mantissa & 1));
    return ldexp((double)mantissa, exponent + 2);
}

double exact_round(struct exact a)
{
    assert(wide_compare(a.bottom, wide_of(0)) > 0);
    if (small(a.top) && small(a.bottom))
        return double_of(a.top) / double_of(a.bottom);
    return wide_compare(a.top, wide_of(0)) == 0 ? 0.0 : divide(a);
}

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
    /* The low part must not hold digits of the high one, or they take the room of what a division leaves. */
    double nearest = (double)digits;
    struct twofold value = {nearest, (double)(int64_t)(digits - (uint64_t)nearest)};
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
