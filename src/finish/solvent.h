/* Solvents and thinners by their trade names: density, vapour, and the air that keeps the vapour below its lower
 * explosive limit (LEL). */
#ifndef FINISH_SOLVENT_H
#define FINISH_SOLVENT_H

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

#endif
