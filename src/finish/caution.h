/* What a finish can do to the hand, the lungs and the shop: sentences with their sources, and the figures of solvent
 * vapour and VOC. None of it replaces the data sheet: whoever prints a caution adds caution_rider. */
#ifndef FINISH_CAUTION_H
#define FINISH_CAUTION_H

#include "finish/finish.h"

struct caution {
    const char *word;   /* as in the finish files: "oily-rags" */
    const char *text;   /* a sentence without its full stop */
    const char *source; /* document, place, year; or "common practice, from memory" */
};

/* NULL: unknown. */
const struct caution *caution_find(const char *word);
const struct caution *caution_table(size_t *count);

/* Whether a finish has the caution of that word. */
bool finish_warns_of(const struct finish *finish, const char *word);

/* "the data sheet and local rules decide" */
const char *caution_rider(void);

/* What some litres of finish, and the thinner in them, give off. */
struct vapour {
    double solvent_l;
    double voc_g;
    double
        air_m3; /* to keep it at a quarter of the LEL: 29 CFR 1910.94(c)(6)(ii); California asks for 5/4 of it */
    const char *counted_as; /* the solvent of the regulation's table; NULL: water, or unknown */
};

/* VOC by the finish's own figure; where it has none, what is no solid of a solvent-borne finish. */
struct vapour finish_vapour(const struct finish *finish, double litres, double thinner_l);

/* Limits for architectural coatings, g/l ready to use; 0: no limit of that rule fits. Furniture coated in a works falls
 * under other rules. EU 2004/42 annex II phase II: e, f, j as published, d, g from memory; US 40 CFR 59 subpart D,
 * table 1, from memory. */
struct voc_limit {
    double eu_g_per_l, us_g_per_l;
    const char *eu_kind, *us_kind;
};

struct voc_limit finish_voc_limit(const struct finish *finish);

/* g/l ready to use: thinner (litres per litre) counted with its own VOC, water with none; -1: not known. */
double finish_voc_thinned(const struct finish *finish, double thin);

#endif
