/* Shellac by its cut: pounds of flakes to a US gallon of alcohol (not of solution), displacement 0.1 gal a pound. */
#ifndef AMOUNT_SHELLAC_H
#define AMOUNT_SHELLAC_H

#include "finish/finish.h"

struct arena;

/* Grams of flakes per litre of alcohol for an n-pound cut: 119.826427 g/l a pound. */
double shellac_flakes_g_per_l(double cut_lb);
/* Litres of alcohol to add per litre of one cut to make a weaker one. */
double shellac_dilution(double from_lb, double to_lb);
/* Litres of solution that a litre of alcohol makes. */
double shellac_solution_l_per_l(double cut_lb);

/* A cut as something to be mixed: of flakes and alcohol (from_lb 0), or of a stronger cut and alcohol. Everything but
 * the components is that of `shellac`; the ratio is held to 5 % (common practice, from memory). */
struct finish *shellac_recipe(struct arena *arena, const struct finish *shellac, double cut_lb,
                              double from_lb);

#endif
