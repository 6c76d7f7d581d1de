/* Film and spreading against published values. */
#include "check.h"

#include "amount/film.h"

/* NIST Handbook 44, appendix C: exact. */
static const double l_per_gal = 3.785411784, m2_per_ft2 = 0.09290304, um_per_mil = 25.4;

static double ft2_per_gal(double m2_per_l)
{
    return m2_per_l * l_per_gal / m2_per_ft2;
}

struct spreading_row {
    struct row row;
    double solids, dry_um, transfer, want_ft2_per_gal, tolerance;
};

static const struct spreading_row spreadings[] = {
    {ROW("1 gal at 1 mil: 231/0.001/144"), 1, 1 * 25.4, 1, 1604.1667, 1e-7},
    {ROW("65 % at 5 mil (industry note on spreading rate)"), 0.65, 5 * 25.4, 1, 208.5, 3e-4},
    {ROW("52 %, 30 % transfer, 1.5 mil (R. Joseph, Calculating paint coverage, 2003)"), 0.52, 1.5 * 25.4, 0.3,
     167, 2e-3},
};

static void spreading_is(void **state)
{
    const struct spreading_row *r = *state;
    double theoretical = film_spreading_m2_per_l(r->solids, r->dry_um);
    check_double(&r->row, ft2_per_gal(film_practical_m2_per_l(theoretical, 1 - r->transfer)),
                 r->want_ft2_per_gal, r->tolerance);
}

static void metric_spreading(void **state)
{
    (void)state;
    /* 65 % at 125 um: 5.2 m2/l (industry note on spreading rate) */
    check_double(HERE, film_spreading_m2_per_l(0.65, 125), 5.2, 1e-12);
    /* 100 ft2/gal at 30 % loss: 70 */
    check_double(HERE, film_practical_m2_per_l(100, 0.3), 70, 1e-12);
}

static void films(void **state)
{
    (void)state;
    /* R. Joseph, 2003: wet film for 1.5 mil dry at 42 % is 3.57 mil */
    check_double(HERE, film_wet_um(1.5 * um_per_mil, 0.42) / um_per_mil, 3.57, 1e-3);
    /* MIL-HDBK-1110 in UFC 3-190-06, 2004, procedure 13: DFT = WFT x VS */
    check_double(HERE, film_dry_um(100, 0.3), 30, 1e-12);
    check_double(HERE, film_dry_um(film_wet_um(38.1, 0.42), 0.42), 38.1, 1e-15);
}

/* Contractor training article: 60 % solids, 1 gal + 1 qt: 48 %; 35 % (60 - 25) and 45 % (60 x 0.75) are the mistakes. */
static void thinning(void **state)
{
    (void)state;
    check_double(HERE, film_thinned_solids(0.60, 0.25), 0.48, 1e-15);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(spreadings, spreading_is), CHECK_TEST(metric_spreading), CHECK_TEST(films),
                     CHECK_TEST(thinning));
}
