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
    double limit_mg_per_m3; /* recommended exposure limit over a working day; 0: water */
    double flash_c;
};

/* NULL: unknown. */
const struct solvent *solvent_find(const char *name);

/* Whether it flashes at 60 C or below (GHS category 3, from memory). */
bool solvent_is_flammable(const char *name);

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
        fire_air_m3; /* to keep it at a quarter of the LEL: 29 CFR 1910.94(c)(6)(ii); California asks for 5/4 */
    double lungs_air_m3, limit_mg_per_m3; /* to stay at the recommended exposure limit */
    const char *counted_as;               /* the solvent of the regulation's table; NULL: water, or unknown */
};

/* VOC by the finish's own figure; where it has none, what is no solid of a solvent-borne finish. */
struct vapour finish_vapour(const struct finish *finish, double litres, double thinner_l);
/* Adds what more of the same finish gives off. */
void vapour_add(struct vapour *sum, struct vapour more);

/* Whose limits hold where the shop is; other: none are known here. */
enum country { COUNTRY_EU, COUNTRY_UK, COUNTRY_US, COUNTRY_OTHER };

/* "EU", "UK", "US". */
extern const char *const country_names[COUNTRY_OTHER];

/* The limit for architectural coatings, g/l ready to use; 0: no limit of that rule fits. Furniture coated in a works falls
 * under other rules. EU 2004/42 annex II phase II, which the UK has kept (SI 2012/1715, from memory): e, f, j as
 * published, d, g, h, i from memory. US 40 CFR 59 subpart D, table 1, from memory. */
struct voc_limit {
    double g_per_l;
    const char *kind;
};

struct voc_limit finish_voc_limit(const struct finish *finish, enum country country);

/* g/l ready to use: thinner (litres per litre) counted with its own VOC, water with none; -1: not known. */
double finish_voc_thinned(const struct finish *finish, double thin);
/* As the limit of a country counts it: in the US less water and exempt solvents (40 CFR 59.406). */
double finish_voc_regulated(const struct finish *finish, double thin, enum country country);

#endif
