/* What else belongs on the shopping list: abrasives, cloths, brushes, thinner, gloves, filters, cups. Rules of thumb, as
 * data (finishes/rules/sundries.json, and the shop's own file); given the work, this room knows no timetable. */
#ifndef AMOUNT_SUNDRY_H
#define AMOUNT_SUNDRY_H

#include "job/job.h"

struct arena;

/* One hands-on operation. */
struct hand_use {
    int work;                    /* enum work: a tool that lays a coat, or sand, scuff, polish, rub */
    int grit;                    /* sand, scuff */
    const struct finish *finish; /* of a coat; NULL otherwise */
    double area_m2, thinner_l;
    int mixes;
    bool wiped; /* the coat is wiped off */
};

struct sundry {
    const struct sundry_rule *rule;
    int grit;           /* EACH_GRIT */
    const char *detail; /* the solvent's or the finish's name; NULL otherwise */
    double amount;      /* in the rule's unit */
    int whole;          /* rounded up */
};

struct sundries {
    struct sundry *items; /* in the order of the rules, then by grit, or as they are first needed */
    size_t count;
};

/* Water is no purchase: what is listed by its solvent leaves out finishes that are thinned and cleaned with water. */
struct sundries *sundries_make(struct arena *arena, struct sundry_rules rules, const struct hand_use *uses,
                               size_t use_count);

/* What they cost, as far as a price is known of each. */
int64_t sundries_cents(const struct sundries *sundries);

#endif
