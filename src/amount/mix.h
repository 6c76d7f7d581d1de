/* A mix for the hand that pours: what of each component, on this scale, good until when. */
#ifndef AMOUNT_MIX_H
#define AMOUNT_MIX_H

#include "finish/finish.h"

struct arena;

/* One component as poured; thinner comes last, with component SIZE_MAX. */
struct pour {
    size_t component;
    double volume_l, mass_g;
    double weigh_g; /* a multiple of the scale's step */
    double total_g; /* running total for a scale that is not zeroed */
};

struct mix_want {
    double volume_l; /* of finish and thinner together */
    double thin;     /* litres of thinner per litre of finish */
    double scale_g;
    double temperature_c; /* air of the hour */
};

struct mix {
    double volume_l;    /* asked */
    double made_l;      /* as weighed; more than asked where the tolerance needs it: the rest is waste */
    struct pour *pours; /* in the order of the components, thinner last */
    size_t pour_count;
    double ratio_error; /* share: of component to first component, the largest, as weighed against as asked */
    bool within;        /* ratio_error <= tolerance */
    double smallest_l;  /* the least volume that this scale can mix soundly */
    double pot_life_min; /* infinite: none */
    double working_min;
};

struct mix *mix_make(struct arena *arena, const struct finish *finish, struct mix_want want);

/* n mixes of near-equal size: each at most what can be laid in the working time. volume_l / n is the size of each. */
int mix_count(double laying_min, double working_min);

/* Shellac: grams of flakes per litre of alcohol for an n-pound cut: n lb per US gallon, 119.826427 g/l each. */
double shellac_flakes_g_per_l(double cut_lb);
/* Litres of alcohol to add per litre of one cut to make a weaker one, by displacement (0.1 US gal per lb). */
double shellac_dilution(double from_lb, double to_lb);

#endif
