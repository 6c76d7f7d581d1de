#include "amount/shellac.h"

/* NIST Handbook 44, appendix C: exact. */
static const double g_per_lb = 453.59237, l_per_gal = 3.785411784;
/* 2 lb in 1 gal make 1.2 gal (Fine Woodworking, as quoted). */
static const double gal_per_lb = 0.1;

double shellac_flakes_g_per_l(double cut_lb)
{
    return cut_lb * g_per_lb / l_per_gal;
}

double shellac_solution_l_per_l(double cut_lb)
{
    return 1 + gal_per_lb * cut_lb;
}

double shellac_dilution(double from_lb, double to_lb)
{
    return (from_lb / to_lb - 1) / shellac_solution_l_per_l(from_lb);
}
