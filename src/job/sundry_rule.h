/* A line of the sundries: what the shop uses up beside finish, and by what it is counted. Rules of thumb, as data
 * (finishes/rules/sundries.json, and the shop's own file). */
#ifndef JOB_SUNDRY_RULE_H
#define JOB_SUNDRY_RULE_H

#include "job/shop.h"

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
    double cents_each; /* of one unit; 0: no price is known */
};

struct sundry_rules {
    const struct sundry_rule *items;
    size_t count;
};

/* Words of the files, by enum. */
extern const char *const sundry_per_names[SUNDRY_PER_COUNT], *const sundry_each_names[SUNDRY_EACH_COUNT];

#endif
