/* What may go over what, on which wood, and for which use: rules as data (finishes/rules/fit.json, and the shop's own
 * file), compared with what is known about one coat. A rule fits when every condition that it states holds; a condition
 * that it does not state always holds. */
#ifndef FINISH_FIT_H
#define FINISH_FIT_H

#include "finish/finish.h"

/* Borrowed words. */
struct fit_words {
    const char *const *items;
    size_t count;
};

struct fit_rule {
    const char *name;
    /* A finish by its id, its family, or what it dries by; in `under` also "wood": nothing lies under the coat. */
    struct fit_words over, under;
    struct fit_words wood;  /* traits and grains of the wood: "oily", "tannin", "mdf", ...; any of them */
    struct fit_words place; /* regions: "inside"; any of them */
    struct fit_words use;   /* what the piece must bear: "food", ...; any of them */
    struct fit_words
        between; /* a step since the last coat, or of the whole beginning: its kind or words hold one */
    struct fit_words without; /* ... and none of these */
    int grit_above;           /* the last sanding before the coat was finer than this; 0: not stated */
    int grit_below;           /* a sanding before the coat was coarser than this; 0: not stated */
    double grit_jump; /* one sanding was more than so many times finer than the one before; 0: not stated */
    bool has_until;   /* what lies under has not been waited for until this state */
    enum finish_state until;
    bool has_before; /* the job is delivered before this state of the coat */
    enum finish_state before;
    bool top;                     /* it is the coat that meets the use: nothing but wax goes over it */
    int resists;                  /* enum resistance, -1: not stated: ... */
    int least;                    /* ... and its mark is below this */
    bool thinned_beyond;          /* thinned more than its label allows */
    bool film_beyond;             /* all coats of it together, dry, are thicker than it bears */
    struct fit_words food, child; /* what is known of it there: "never", ...; any of them */
    const char *caution;          /* NULL: not stated: the finish has this caution */
    const char *because, *remedy, *source;
};

struct fit_rules {
    const struct fit_rule *items;
    size_t count;
};

/* One coat and what surrounds it. */
struct fit_case {
    const struct finish *over;
    const struct finish *under; /* NULL: wood */
    struct fit_words wood, place, use;
    struct fit_words between;  /* kinds and words of the steps since what lies under */
    int grit;                  /* of the last sanding among them; 0: none */
    int coarsest;              /* of all of them; 0: none */
    double grit_jump;          /* the largest from one to the next; 0: fewer than two */
    double thin;               /* litres of thinner to a litre */
    double film_um;            /* dry, of all coats of it that follow one another; 0: not known */
    int32_t waited_min;        /* reference minutes that what lies under has been given */
    enum finish_state deliver; /* the state at which the job is delivered */
    bool top;
};

/* Whether a rule states anything about wood, place or use; the others are judged by the schedule alone. */
bool fit_rule_needs_part(const struct fit_rule *rule);
/* Whether everything else that the rule states is so: no part need be looked at where it is not. */
bool fit_may_speak(const struct fit_rule *rule, const struct fit_case *of);

/* Whether the rule speaks against this case. */
bool fit_speaks(const struct fit_rule *rule, const struct fit_case *of);

#endif
