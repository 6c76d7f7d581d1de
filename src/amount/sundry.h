/* What else belongs on the shopping list: abrasives, cloths, brushes, thinner, gloves, filters, cups. Rules of thumb, as
 * data (finishes/rules/sundries.json, and the shop's own file); told the work, this room knows no timetable. */
#ifndef AMOUNT_SUNDRY_H
#define AMOUNT_SUNDRY_H

#include "job/job.h"

struct arena;

/* What an amount is counted by. */
enum sundry_per {
    PER_WORKED_M2, /* m2 under the hand: sanded, scuffed, rubbed, laid */
    PER_WIPED_M2,  /* m2 of what is wiped off */
    PER_COAT,      /* one operation of laying a coat */
    PER_MIX,
    PER_FINISH,  /* once for each finish that is laid by one of the tools */
    PER_THINNER, /* litres of thinner in the coats */
    SUNDRY_PER_COUNT
};

/* What is listed apart. */
enum sundry_each { EACH_TOGETHER, EACH_GRIT, EACH_SOLVENT, EACH_FINISH, SUNDRY_EACH_COUNT };

struct sundry_rule {
    const char *name, *unit; /* "abrasive disc 150 mm", "pcs" */
    double amount;           /* of that unit; 0: never listed */
    enum sundry_per per;
    enum sundry_each each;
    bool by[WORK_COUNT]; /* tools and works that need it */
    bool several_only;   /* only finishes of several components */
    const char *source;
};

struct sundry_rules {
    const struct sundry_rule *items;
    size_t count;
};

/* One hands-on operation. */
struct hand_use {
    int work;                    /* enum work: a tool that lays a coat, or sand, scuff, polish, rub */
    int grit;                    /* sand, scuff */
    const struct finish *finish; /* of a coat; NULL otherwise */
    double area_m2, thinner_l;
    int mixes;
};

struct sundry {
    const struct sundry_rule *rule;
    int grit;           /* EACH_GRIT */
    const char *detail; /* the solvent's or the finish's name; NULL otherwise */
    double amount;      /* in the rule's unit */
    int whole;          /* rounded up */
};

struct sundries {
    struct sundry *items; /* in the order of the rules, then as they are first needed */
    size_t count;
};

/* Water is no purchase: what is listed by its solvent leaves out finishes that are thinned and cleaned with water. */
struct sundries *sundries_make(struct arena *arena, struct sundry_rules rules, const struct hand_use *uses,
                               size_t use_count);

const char *sundry_per_name(enum sundry_per per);
const char *sundry_each_name(enum sundry_each each);

#endif
