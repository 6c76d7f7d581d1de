/* Cautions, dilution air and VOC against published figures. */
#include "check.h"
#include "reader.h"
#include "sample.h"

#include "finish/caution.h"
#include "finish/vapour.h"
#include "source/finish_table.h"

#include <string.h>

struct air_row {
    struct row row;
    const char *solvent;
    double want_ft3_per_gal;
};

/* 29 CFR 1910.94(c)(6)(ii), from memory: toluene 30.4 ft3/gal, LEL 1.4 %; mineral spirits 23.2, 1.0; acetone 44.0, 2.6. */
static const struct air_row airs[] = {
    {ROW("toluene"), "toluene", 8564},
    {ROW("mineral spirits"), "mineral spirits", 9187},
    {ROW("acetone"), "acetone", 6593},
    {ROW("water"), "water", 0},
};

static void air_is(void **state)
{
    const struct air_row *r = *state;
    const struct solvent *solvent = solvent_find(r->solvent);
    check_true(&r->row, solvent != NULL, "known");
    check_double(&r->row, solvent_air_ft3_per_gal(solvent), r->want_ft3_per_gal, 1e-4);
    /* 1 ft3/gal = 0.0074805195 m3/l: NIST, derived */
    check_double(&r->row, solvent_air_m3_per_l(solvent), r->want_ft3_per_gal * 0.0074805195, 1e-4);
}

/* A mole of gas at 70 F and 1 atm is 24.14 l. Molar mass in g: toluene 92.14, acetone 58.08, ethanol 46.07, xylene 106.17,
 * ethyl acetate 88.11 (chemistry tables): the vapour volumes of the table agree within 5 %. */
static void vapour_volumes_are_gases(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        double molar_g;
    } gases[] = {{"toluene", 92.14},
                 {"acetone", 58.08},
                 {"ethanol", 46.07},
                 {"xylene", 106.17},
                 {"ethyl acetate", 88.11}};
    for (size_t i = 0; i < sizeof gases / sizeof gases[0]; i++) {
        const struct solvent *s = solvent_find(gases[i].name);
        double litres_of_gas = s->density_kg_per_l * 1000 / gases[i].molar_g * 24.14;
        double ft3_per_gal = litres_of_gas * 3.785411784 / 28.316846592;
        check_double(HERE, s->vapour_ft3_per_gal / ft3_per_gal, 1, 0.05);
    }
}

/* 2 l of varnish at 450 g/l and 0.1 l of mineral spirits at 0.78 kg/l: 900 + 78 g, 1.2538 l of solvent. */
static void what_a_coat_gives_off(void **state)
{
    (void)state;
    struct finish finish = sample_varnish();
    struct vapour got = finish_vapour(&finish, 2, 0.1);
    check_double(HERE, got.voc_g, 978, 1e-12);
    check_double(HERE, got.solvent_l, 978 / 780.0, 1e-12);
    check_double(HERE, got.air_m3, 978 / 780.0 * 68.72, 1e-3); /* 9187 ft3/gal */
    check_text(HERE, got.counted_as, "Stoddard solvent");
    finish.voc_g_per_l = -1; /* 30 % solids: seven tenths are solvent */
    check_double(HERE, finish_vapour(&finish, 1, 0).voc_g, 546, 1e-12);
    finish.solvent = "water";
    finish.dries_by = DRIES_BY_WATER;
    finish.voc_g_per_l = 100;
    got = finish_vapour(&finish, 1, 0.2);
    check_double(HERE, got.voc_g, 100, 1e-12);
    check_double(HERE, got.air_m3, 0, 0);
    check_true(HERE, got.counted_as == NULL, "water asks for no air");
}

static void ready_to_use(void **state)
{
    (void)state;
    struct finish finish = sample_varnish();
    check_double(HERE, finish_voc_thinned(&finish, 0), 450, 0);
    check_double(HERE, finish_voc_thinned(&finish, 0.25), (450 + 195) / 1.25, 1e-12);
    finish.solvent = NULL;
    finish.voc_g_per_l = -1;
    check_double(HERE, finish_voc_thinned(&finish, 0), -1, 0);
}

struct limit_row {
    struct row row;
    const char *family;
    enum finish_drying by;
    bool two_part;
    double want_eu, want_us;
};

/* EU 2004/42 annex II, phase II: varnishes and woodstains 130 water-borne, 400 solvent-borne; minimal-build woodstains
 * 130, 700; two-part performance coatings 140, 500. US 40 CFR 59 subpart D, from memory: varnish 450, lacquer 680. */
static const struct limit_row limits[] = {
    {ROW("varnish"), "oil-varnish", DRIES_BY_OXIDATION, false, 400, 450},
    {ROW("water-borne varnish"), "waterborne", DRIES_BY_WATER, false, 130, 450},
    {ROW("stain"), "stain", DRIES_BY_OXIDATION, false, 700, 550},
    {ROW("water-borne stain"), "stain", DRIES_BY_WATER, false, 130, 550},
    {ROW("two parts"), "catalysed", DRIES_BY_REACTION, true, 500, 0},
    {ROW("two parts, water-borne"), "waterborne", DRIES_BY_WATER, true, 140, 0},
    {ROW("lacquer"), "lacquer", DRIES_BY_SOLVENT, false, 400, 680},
    {ROW("wax has none"), "wax", DRIES_BY_SOLVENT, false, 0, 0},
};

static void limit_is(void **state)
{
    const struct limit_row *r = *state;
    struct finish finish = r->two_part ? sample_two_part() : sample_varnish();
    finish.family = r->family;
    finish.dries_by = r->by;
    check_double(&r->row, finish_voc_limit(&finish).eu_g_per_l, r->want_eu, 0);
    check_double(&r->row, finish_voc_limit(&finish).us_g_per_l, r->want_us, 0);
}

/* The shipped finishes: every caution is known, every solvent its vapour. */
static void shipped_finishes_are_known(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish_folders folders = {.shipped = "finishes"};
    struct finish_table *table = finish_table_load(&reader->reading, &folders);
    check_true(HERE, table->count >= 34, "the whole table");
    for (size_t i = 0; i < table->count; i++) {
        const struct finish *f = table->items[i];
        const struct row row = {f->id, __FILE__, __LINE__};
        for (size_t k = 0; k < f->caution_count; k++)
            check_true(&row, caution_known(f->cautions[k]), f->cautions[k]);
        check_true(&row, f->solvent == NULL || solvent_find(f->solvent) != NULL, "the solvent is known");
    }
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(airs, air_is), CHECK_TEST(vapour_volumes_are_gases),
                     CHECK_TEST(what_a_coat_gives_off), CHECK_TEST(ready_to_use),
                     CHECK_ROWS(limits, limit_is), CHECK_TEST(shipped_finishes_are_known));
}
