/* Solvents and thinners by their trade names, the air that keeps their vapour below its lower explosive limit (LEL),
 * and what a coat gives off: solvent, and VOC against its limits. */
#ifndef FINISH_VAPOUR_H
#define FINISH_VAPOUR_H

#include "finish/finish.h"

struct solvent {
    const char *name;
    const char *counted_as; /* the entry of the regulation's table that stands for it */
    double density_kg_per_l;
    double vapour_ft3_per_gal; /* at 70 F; 0: water */
    double lel_percent;
};

/* NULL: unknown. */
const struct solvent *solvent_find(const char *name);

/* kg/l of a thinner (from memory); 0: unknown. `name` may be NULL. */
double solvent_density(const char *name);

/* Cubic feet of air per US gallon of solvent: 4 (100 - LEL) V / LEL, 29 CFR 1910.94(c)(6)(ii): a quarter of the LEL.
 * 0 for water. */
double solvent_air_ft3_per_gal(const struct solvent *solvent);
/* The same in m3 per litre. */
double solvent_air_m3_per_l(const struct solvent *solvent);

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
