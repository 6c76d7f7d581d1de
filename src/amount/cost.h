/* What a job costs: hands-on minutes at the shop's rate and materials at what was paid, by piece, as lines of a quote.
 * Money in whole cents; -1: a price or the rate is missing. */
#ifndef AMOUNT_COST_H
#define AMOUNT_COST_H

#include "amount/buy.h"

/* One hands-on operation. */
struct cost_use {
    size_t piece;                /* SIZE_MAX: a task of the job */
    const struct finish *finish; /* NULL: no coat */
    double litres;               /* of finish, likely */
    int32_t minutes;
};

struct cost_line {
    size_t piece; /* SIZE_MAX: the job's tasks */
    int64_t minutes;
    int64_t labour_cents, material_cents;
};

struct costs {
    struct cost_line *lines; /* in the order of the pieces, tasks last; only those with minutes or litres */
    size_t count;
    struct cost_line total;
    int64_t sundries_cents; /* of those with a price, in the total but in no line; 0: none has one */
    int64_t
        surplus_cents; /* what stays in the packs, at the same prices: not in the lines. Where nothing was on the
                              shelf, lines and surplus are together what was paid, to the cent */
};

/* Cents per litre of mixed finish: each component at the average of the packs bought, or at its cheapest pack where
 * none was; with kits the whole purchase over all its litres. -1: a price is missing. */
double price_per_l(const struct purchase *purchase);

struct costs *costs_make(struct arena *arena, const struct job *job, const struct purchases *purchases,
                         const struct cost_use *uses, size_t use_count);

#endif
