/* Film and spreading, as painters compute them. Thickness in um, spreading in m2/l, shares 0..1. */
#ifndef AMOUNT_FILM_H
#define AMOUNT_FILM_H

/* DFT = WFT x VS: MIL-HDBK-1110 in UFC 3-190-06 (2004), procedure 13. */
double film_dry_um(double wet_um, double solids);
double film_wet_um(double dry_um, double solids);

/* Theoretical spreading: m2/l = 10 x VS% / DFT(um); 1 l at 1 um covers 1000 m2. */
double film_spreading_m2_per_l(double solids, double dry_um);
/* Practical = theoretical x (1 - loss): what is lost on the way does not cover. */
double film_practical_m2_per_l(double theoretical_m2_per_l, double loss);

/* Share by volume after `thin` litres of thinner to a litre: VS / (1 + thin). */
double film_thinned_solids(double solids, double thin);

#endif
