/* A mix for the hand that pours: what of each component, on this scale, good until when. */
#ifndef AMOUNT_MIX_H
#define AMOUNT_MIX_H

#include "finish/finish.h"

struct arena;

/* One component as poured; thinner comes last, with component SIZE_MAX. */
struct pour {
    size_t component;
    double volume_l,
        mass_g; /* exact, of the mix as made; a thinner of unknown density has mass 0: pour it by volume */
    double weigh_g; /* a multiple of the scale's step */
    size_t rank;    /* in the order of pouring: the largest first, thinner last */
    double total_g; /* running total in that order, for a scale that is not zeroed */
};

struct mix_want {
    double volume_l; /* of finish and thinner together */
    double thin;     /* litres of thinner per litre of finish */
    double scale_g;
    double temperature_c; /* air of the hour */
};

struct mix {
    struct mix_want want;
    double volume_l;    /* asked */
    double made_l;      /* as weighed; more than asked where tolerance or scale need it: the rest is waste */
    struct pour *pours; /* in the order of the components, thinner last */
    size_t pour_count;
    double ratio_error; /* share: of component to first component, the largest, as weighed against as asked */
    bool within;        /* ratio_error <= tolerance */
    bool raised;        /* made for more than was asked, to keep the tolerance */
    double smallest_l;  /* above this volume every mix keeps the tolerance on this scale; 0: one component */
    double pot_life_min; /* infinite: none */
    double working_min;
};

/* Weighed amounts are chosen together among the steps next to the exact masses: the least ratio error, never below
 * the volume asked where that keeps the tolerance; then below it; else the mix is raised until it keeps it. */
struct mix *mix_make(struct arena *arena, const struct finish *finish, struct mix_want want);

/* n mixes of near-equal size: each at most what can be laid in the working time. volume_l / n is the size of each.
 * 0: nothing can be laid. */
int mix_count(double laying_min, double working_min);

/* The most that this much of one component makes, finish and thinner together, in litres. */
double mix_volume_from(const struct finish *finish, size_t component, double mass_g, double thin);
/* Grams of component `to` that belong to this much of component `from`: for a ladder around the target. */
double mix_partner_g(const struct finish *finish, size_t from, double from_g, size_t to);

double mix_mass_g(const struct mix *mix);
/* Grams of so many litres of finish and thinner together. */
double mix_mass_of(const struct finish *finish, double volume_l, double thin);

/* What a tool needs to feed at all: the smallest mix for it (a gun 80 ml: common practice, from memory; others 0). */
double tool_feed_l(enum tool tool);

/* For the hand that pours: when a little more or less of the largest component stands in the cup than was asked, how
 * much of the others belongs to it. */
enum { LADDER_RUNGS = 5 };

struct rung {
    bool asked;    /* the mix itself, as weighed */
    double *grams; /* by pour of the mix, multiples of the scale's step */
};

/* Rungs about 2 % apart around the mix, in whole steps of the scale; those whose rounding would break the tolerance
 * are left out. Returns their number; 0 where nothing is poured together. */
size_t ladder_make(struct arena *arena, const struct finish *finish, const struct mix *mix,
                   struct rung rungs[LADDER_RUNGS]);

/* The pour that goes into the cup first. */
const struct pour *mix_first_pour(const struct mix *mix);

/* What is wrong with a mix, of a plan or of a can alone: values, which a report says. */
enum mix_warning_kind {
    MIX_WARNING_DEAD, /* its pot life ends before the induction, or before the gun is clean: `working_min` is not 0 */
    MIX_WARNING_PART,  /* one part takes `minutes`, longer than `working_min` */
    MIX_WARNING_SCALE, /* steps of `scale_g` cannot keep the ratio */
    MIX_WARNING_CUP, /* `mass_g` in one cup heats itself and lives `minutes`; in a shallow tray `pot_life_min` */
    MIX_WARNING_LITTLE, /* `mass_g` of `component` is too little to be weighed in steps of `scale_g` */
    MIX_WARNING_SPLIT /* `volume_l` in one pot lives `pot_life_min` and takes `minutes` by `tool`: `count` mixes */
};

/* What the kind does not need is 0. */
struct mix_warning {
    enum mix_warning_kind kind;
    const struct finish *finish;
    int coat;          /* 0: a mix alone, */
    const char *piece; /* and then NULL */
    double temperature_c, minutes, working_min, pot_life_min;
    double mass_g, scale_g, volume_l;
    int count;
    size_t component;
    enum tool tool;
};

/* Whether so much of it in one cup lives shorter than its pot life in a tray; then fills in the warning. */
bool mix_warns_of_cup(const struct finish *finish, const struct mix *mix, struct mix_warning *warning);

#endif
