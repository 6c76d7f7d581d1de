#include "amount/film.h"

double film_dry_um(double wet_um, double solids)
{
    return wet_um * solids;
}

double film_wet_um(double dry_um, double solids)
{
    return dry_um / solids;
}

double film_spreading_m2_per_l(double solids, double dry_um)
{
    return 1000 * solids / dry_um;
}

double film_practical_m2_per_l(double theoretical_m2_per_l, double loss)
{
    return theoretical_m2_per_l * (1 - loss);
}

double film_thinned_solids(double solids, double thin)
{
    return solids / (1 + thin);
}
