/* Film and spreading against published values. */
#include "check.h"
#include "sample.h"
#include "sample_surfaces.h"

#include "amount/coat.h"

/* NIST Handbook 44, appendix C: exact. */
static const double l_per_gal = 3.785411784, m2_per_ft2 = 0.09290304, um_per_mil = 25.4;

/* What a finish that is laid to a dry film covers, as the program counts it. */
static double spreading_m2_per_l(double solids, double dry_um)
{
    struct finish finish = sample_varnish();
    finish.wet_film_um = dry_um / solids;
    return finish_coverage(&finish, true);
}

struct spreading_row {
    struct row row;
    double solids, dry_mil, transfer, want_ft2_per_gal, tolerance;
};

static const struct spreading_row spreadings[] = {
    {ROW("1 gal at 1 mil: 231/0.001/144"), 1, 1, 1, 1604.1667, 1e-7},
    {ROW("65 % at 5 mil (industry note on spreading rate)"), 0.65, 5, 1, 208.5, 3e-4},
    {ROW("52 %, 30 % transfer, 1.5 mil (R. Joseph, Calculating paint coverage, 2003)"), 0.52, 1.5, 0.3, 167,
     2e-3},
    {ROW("65 % at 125 um: 5.2 m2/l (industry note on spreading rate)"), 0.65, 125 / 25.4, 1,
     5.2 * 3.785411784 / 0.09290304, 1e-12},
};

/* Litres by hand at a transfer of that share, as area per litre. */
static void spreading_is(void **state)
{
    const struct spreading_row *r = *state;
    struct sample_surfaces s;
    sample_surfaces(&s, sample_varnish());
    s.finish.wet_film_um = r->dry_mil * um_per_mil / r->solids;
    s.job.shop.transfer[s.step.by] = r->transfer;
    sample_add_surface(&s, sample_add_part(&s, SHAPE_BOARD, NULL), REGION_FACE, 1);
    double litres = coat_litres(&s.pass, &s.coat, 0).likely;
    check_double(&r->row, l_per_gal / m2_per_ft2 / litres, r->want_ft2_per_gal, r->tolerance);
}

static void films(void **state)
{
    (void)state;
    struct sample_surfaces s;
    sample_surfaces(&s, sample_varnish());
    /* R. Joseph, 2003: wet film for 1.5 mil dry at 42 % is 3.57 mil */
    s.finish.wet_film_um = 3.57 * um_per_mil;
    s.finish.solids = 0.42;
    check_double(HERE, coat_dry_film_um(&s.pass, &s.coat), 1.5 * um_per_mil, 1e-3);
    check_double(HERE, spreading_m2_per_l(0.42, 1.5 * um_per_mil), finish_coverage(&s.finish, true), 1e-3);
    /* MIL-HDBK-1110 in UFC 3-190-06, 2004, procedure 13: DFT = WFT x VS */
    s.finish.wet_film_um = 100;
    s.finish.solids = 0.3;
    check_double(HERE, coat_dry_film_um(&s.pass, &s.coat), 30, 1e-12);
}

/* Contractor training article: 60 % solids, 1 gal + 1 qt: 48 %; 35 % (60 - 25) and 45 % (60 x 0.75) are the mistakes. */
static void thinning(void **state)
{
    (void)state;
    struct sample_surfaces s;
    sample_surfaces(&s, sample_varnish());
    s.finish.solids = 0.60;
    s.step.thin = 0.25;
    check_double(HERE, coat_dry_film_um(&s.pass, &s.coat) / coat_wet_film_um(&s.coat), 0.48, 1e-15);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(spreadings, spreading_is), CHECK_TEST(films), CHECK_TEST(thinning));
}
