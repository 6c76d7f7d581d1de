/* Solvent that a coat frees, the air that it asks for, and VOC against its limits. */
#include "finish/vapour.h"

#include "base/text.h"
#include "finish/caution.h"

#include <stddef.h>
#include <math.h>
#include <string.h>

enum { GRAMS = 1000 };

static const double flammable_c = 60;             /* GHS category 3, from memory */
static const double beside_water_kg_per_l = 0.92; /* glycol ethers in water-borne finishes: from memory */

static bool is_water_borne(const struct finish *finish)
{
    return finish->dries_by == DRIES_BY_WATER || (finish->solvent && strcmp(finish->solvent, "water") == 0);
}

/* Grams of VOC in a litre of thinner. */
static double thinner_voc(const struct finish *finish)
{
    const struct solvent *solvent = solvent_find(finish->solvent);
    return solvent && solvent->vapour_ft3_per_gal > 0 ? solvent->density_kg_per_l * GRAMS : 0;
}

/* g/l of the finish itself; -1: not known. */
static double own_voc(const struct finish *finish)
{
    if (finish->voc_g_per_l >= 0)
        return finish->voc_g_per_l;
    if (is_water_borne(finish) || finish->solids <= 0 || thinner_voc(finish) <= 0)
        return -1;
    return (1 - finish->solids) * thinner_voc(finish);
}

double finish_voc_thinned(const struct finish *finish, double thin)
{
    double own = own_voc(finish);
    return own < 0 ? -1 : (own + thin * thinner_voc(finish)) / (1 + thin);
}

bool solvent_is_flammable(const char *name)
{
    const struct solvent *solvent = solvent_find(name);
    return solvent && solvent->flash_c <= flammable_c;
}

struct vapour finish_vapour(const struct finish *finish, double litres, double thinner_l)
{
    const struct solvent *solvent = solvent_find(finish->solvent);
    double own = own_voc(finish);
    struct vapour vapour = {.voc_g = (own > 0 ? own * litres : 0) + thinner_voc(finish) * thinner_l};
    if (!solvent || solvent->vapour_ft3_per_gal <= 0)
        return vapour;
    vapour.counted_as = solvent->counted_as;
    vapour.solvent_l = vapour.voc_g / GRAMS / solvent->density_kg_per_l;
    vapour.fire_air_m3 = vapour.solvent_l * solvent_air_m3_per_l(solvent);
    vapour.limit_mg_per_m3 = solvent->limit_mg_per_m3;
    vapour.lungs_air_m3 = vapour.voc_g * 1000 / solvent->limit_mg_per_m3;
    return vapour;
}

void vapour_add(struct vapour *sum, struct vapour more)
{
    more.solvent_l += sum->solvent_l;
    more.voc_g += sum->voc_g;
    more.fire_air_m3 += sum->fire_air_m3;
    more.lungs_air_m3 += sum->lungs_air_m3;
    *sum = more;
}

/* Of a kind of finish, water-borne and solvent-borne; phase II is from 2010. */
struct limit_row {
    const char *family;
    double eu_water, eu_solvent;
    const char *eu_kind;
    double us;
    const char *us_kind;
};

static const struct limit_row two_part = {"", 140, 500, "two-part performance coating (j)", 0, NULL},
                              conversion = {"",  140,
                                            500, "two-part performance coating (j)",
                                            725, "conversion varnish"},
                              one_pack = {"", 140, 500, "one-pack performance coating (i)", 450, "varnish"},
                              blocking = {"", 30, 350, "primer (g)", 550, "opaque shellac"};

static const struct limit_row limits[] = {
    {"oil-varnish", 130, 400, "varnish or woodstain (e)", 450, "varnish"},
    {"waterborne", 130, 400, "varnish or woodstain (e)", 450, "varnish"},
    {"catalysed", 130, 400, "varnish or woodstain (e)", 450, "varnish"},
    {"lacquer", 130, 400, "varnish or woodstain (e)", 680, "lacquer"},
    {"shellac", 130, 400, "varnish or woodstain (e)", 730, "clear shellac"},
    {"hardwax-oil", 130, 400, "varnish or woodstain (e)", 550, "clear or semi-transparent stain"},
    {"oil", 130, 700, "minimal-build woodstain (f)", 550, "clear or semi-transparent stain"},
    {"stain", 130, 700, "minimal-build woodstain (f)", 550, "clear or semi-transparent stain"},
    {"paint", 130, 300, "trim and cladding paint for wood (d)", 0, NULL},
    {"primer", 30, 350, "primer (g)", 350, "primer"},
};

static const struct limit_row *limit_row_of(const struct finish *finish)
{
    const struct solvent *solvent = solvent_find(finish->solvent);
    if (finish->component_count > 1 && strcmp(finish->family, "catalysed") == 0 &&
        finish_warns_of(finish, "formaldehyde"))
        return &conversion;
    if (finish->component_count > 1)
        return strcmp(finish->family, "bleach") == 0 ? NULL : &two_part;
    if (finish_warns_of(finish, "isocyanate"))
        return &one_pack;
    if (strcmp(finish->family, "primer") == 0 && solvent && strcmp(solvent->counted_as, "ethyl alcohol") == 0)
        return &blocking;
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++)
        if (strcmp(limits[i].family, finish->family) == 0)
            return &limits[i];
    return NULL;
}

const char *const country_names[COUNTRY_OTHER] = {"EU", "UK", "US"};

struct voc_limit finish_voc_limit(const struct finish *finish, enum country country)
{
    const struct limit_row *row = limit_row_of(finish);
    if (!row || country == COUNTRY_OTHER)
        return (struct voc_limit){0, NULL};
    if (country == COUNTRY_US)
        return (struct voc_limit){row->us, row->us_kind};
    return (struct voc_limit){is_water_borne(finish) ? row->eu_water : row->eu_solvent, row->eu_kind};
}

/* Litres of water in a litre of a water-borne finish: neither solids nor the solvents beside them. */
static double water_share(const struct finish *finish)
{
    if (!is_water_borne(finish) || finish->solids <= 0 || finish->voc_g_per_l < 0)
        return 0;
    return fmax(1 - finish->solids - finish->voc_g_per_l / GRAMS / beside_water_kg_per_l, 0);
}

double finish_voc_regulated(const struct finish *finish, double thin, enum country country)
{
    double voc = finish_voc_thinned(finish, thin);
    if (country != COUNTRY_US || voc < 0 || !is_water_borne(finish))
        return voc;
    double water = (water_share(finish) + thin) / (1 + thin);
    return water < 1 ? voc / (1 - water) : voc;
}

/* Vapour volumes: 29 CFR 1910.94(c)(6)(ii), table G-11, from memory. Lower explosive limits: of several published values
 * the one that asks for more air (ethanol 3.3, toluene 1.1: NIOSH IDLH documentation, 1994; white spirit 0.8, ethyl acetate
 * 2.0, methanol 6.0, methyl ethyl ketone 1.4, xylene 0.9 from memory). Exposure limits recommended by NIOSH, mg/m3 over a
 * working day: ethanol 1900, toluene 375, Stoddard solvent 350 (Pocket Guide, 2007); the others from memory. Flash points:
 * Stoddard solvent 39-43 C (OSHA), the others from memory. Densities from memory; denatured alcohol is 190-proof (ASTM
 * D360-89, 1.1), 0.81. A blend is counted as the part of it that asks for much air. */
static const struct solvent table[] = {
    {"acetone", "acetone", 0.79, 44.0, 2.6, 590, -18},
    {"alcohol", "ethyl alcohol", 0.81, 55.2, 3.3, 1900, 13},
    {"butyl acetate", "n-butyl acetate", 0.88, 24.8, 1.7, 710, 22},
    {"catalysed-lacquer thinner", "xylene", 0.85, 26.4, 0.9, 435, 25},
    {"citrus solvent", "turpentine", 0.84, 20.8, 0.8, 560, 48},
    {"dearomatised white spirit", "Stoddard solvent", 0.77, 23.2, 0.8, 350, 39},
    {"denatured alcohol", "ethyl alcohol", 0.81, 55.2, 3.3, 1900, 13},
    {"ethanol", "ethyl alcohol", 0.79, 55.2, 3.3, 1900, 13},
    {"ethyl acetate", "ethyl acetate", 0.90, 32.8, 2.0, 1400, -4},
    {"isopropyl alcohol", "isopropyl alcohol", 0.79, 44.0, 2.0, 980, 12},
    {"lacquer thinner", "toluene", 0.83, 30.4, 1.1, 375, 4},
    {"methanol", "methyl alcohol", 0.79, 80.8, 6.0, 260, 11},
    {"methyl ethyl ketone", "methyl ethyl ketone", 0.80, 36.0, 1.4, 590, -9},
    {"methylated spirits", "ethyl alcohol", 0.81, 55.2, 3.3, 1900, 13},
    {"mineral spirits", "Stoddard solvent", 0.78, 23.2, 0.8, 350, 39},
    {"mineral spirits or citrus solvent", "Stoddard solvent", 0.78, 23.2, 0.8, 350, 39},
    {"naphtha", "naphtha (VM&P)", 0.75, 22.4, 0.9, 350, -6},
    {"toluene", "toluene", 0.87, 30.4, 1.1, 375, 4},
    {"turpentine", "turpentine", 0.86, 20.8, 0.8, 560, 35},
    {"urethane thinner", "xylene", 0.90, 26.4, 0.9, 435, 25},
    {"water", "water", 1.00, 0, 0, 0, 999},
    {"white spirit", "Stoddard solvent", 0.78, 23.2, 0.8, 350, 39},
    {"xylene", "xylene", 0.86, 26.4, 0.9, 435, 25},
};

static const double l_per_gal = 3.785411784, m_per_ft = 0.3048; /* NIST Handbook 44, appendix C */

const struct solvent *solvent_find(const char *name)
{
    for (size_t i = 0; name && i < sizeof table / sizeof table[0]; i++)
        if (text_same(table[i].name, name))
            return &table[i];
    return NULL;
}

double solvent_density(const char *name)
{
    const struct solvent *solvent = solvent_find(name);
    return solvent ? solvent->density_kg_per_l : 0;
}

double solvent_air_ft3_per_gal(const struct solvent *solvent)
{
    if (solvent->vapour_ft3_per_gal <= 0)
        return 0;
    return 4 * (100 - solvent->lel_percent) * solvent->vapour_ft3_per_gal / solvent->lel_percent;
}

double solvent_air_m3_per_l(const struct solvent *solvent)
{
    return solvent_air_ft3_per_gal(solvent) * m_per_ft * m_per_ft * m_per_ft / l_per_gal;
}
