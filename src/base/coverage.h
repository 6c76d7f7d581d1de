/* Quantities that are more than one number: what a can holds, how far it goes, how it is mixed. Read and written by the
 * rules of measure.h. */
#ifndef BASE_COVERAGE_H
#define BASE_COVERAGE_H

#include "base/measure.h"

#include <stddef.h>

struct arena;

/* What a pack or a can on the shelf holds: by volume in l, or by mass in g. */
struct amount {
    bool by_mass;
    double value;
};
bool amount_parse(const char *text, struct amount *amount, struct err *fault);
struct text_short amount_write(struct amount amount);
struct text_short amount_format(struct amount amount, enum unit_system system);

/* A coverage keeps the form in which it was given, until a density is known. Always above 0. */
enum coverage_form {
    COVERAGE_M2_PER_L,
    COVERAGE_ML_PER_M2,
    COVERAGE_G_PER_M2,
    COVERAGE_M2_PER_KG,
};
struct coverage {
    enum coverage_form form;
    double value; /* in the unit of its form */
};
bool coverage_parse(const char *text, struct coverage *coverage, struct err *fault);
/* m2 per litre; the density is used by the two forms with a mass only and must then be above 0. */
double coverage_m2_per_l(struct coverage coverage, double density_kg_per_l);
/* Whether coverage_m2_per_l needs the density. */
bool coverage_by_mass(struct coverage coverage);
struct text_short coverage_write(struct coverage coverage);
struct text_short coverage_format(struct coverage coverage, enum unit_system system);

enum { RATIO_MOST = 8 };
/* `4:1:0.5`: two to RATIO_MOST parts, each above 0. */
struct ratio {
    size_t count;
    double part[RATIO_MOST];
};
bool ratio_parse(const char *text, struct ratio *ratio, struct err *fault);
/* How much of a second part belongs to one of the first: `2:1` (0.5), or a share such as `10 %` (0.1). */
bool proportion_parse(const char *text, double *second_per_first, struct err *fault);
char *ratio_write(struct arena *arena, const struct ratio *ratio);

#endif
