#include "base/exact.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <stddef.h>

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

struct wide wide_times(struct wide a, uint64_t factor)
{
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
    if (wide_compare(a.top, wide_of(0)) == 0)
        return 0.0;
    if (small(a.top) && small(a.bottom))
        return double_of(a.top) / double_of(a.bottom);
    return divide(a);
}
