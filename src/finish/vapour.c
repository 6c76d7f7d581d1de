/* Solvent that a coat frees, the air that it asks for, and VOC against its limits. */
#include "finish/vapour.h"

#include "base/text.h"

#include <stddef.h>
#include <string.h>

enum { GRAMS = 1000 };

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

struct vapour finish_vapour(const struct finish *finish, double litres, double thinner_l)
{
    const struct solvent *solvent = solvent_find(finish->solvent);
    double own = own_voc(finish);
    struct vapour vapour = {.voc_g = (own > 0 ? own * litres : 0) + thinner_voc(finish) * thinner_l};
    if (!solvent || solvent->vapour_ft3_per_gal <= 0)
        return vapour;
    vapour.counted_as = solvent->counted_as;
    vapour.solvent_l = vapour.voc_g / GRAMS / solvent->density_kg_per_l;
    vapour.air_m3 = vapour.solvent_l * solvent_air_m3_per_l(solvent);
    return vapour;
}

/* By family, water-borne and solvent-borne; `two` where there are several components. Phase II is from 2010. */
struct limit_row {
    const char *family;
    double eu_water, eu_solvent;
    const char *eu_kind;
    double us;
    const char *us_kind;
};

static const struct limit_row two_part = {"", 140, 500, "two-part performance coating (j)", 0, NULL};

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

struct voc_limit finish_voc_limit(const struct finish *finish)
{
    const struct limit_row *row = finish->component_count > 1 ? &two_part : NULL;
    for (size_t i = 0; !row && i < sizeof limits / sizeof limits[0]; i++)
        if (strcmp(limits[i].family, finish->family) == 0)
            row = &limits[i];
    if (!row)
        return (struct voc_limit){0, 0, NULL, NULL};
    double eu = is_water_borne(finish) ? row->eu_water : row->eu_solvent;
    return (struct voc_limit){eu, row->us, row->eu_kind, row->us_kind};
}

/* Vapour volumes and limits: 29 CFR 1910.94(c)(6)(ii), table G-11, from memory. Densities from memory. A blend is
 * counted as the part of it that asks for much air. */
static const struct solvent table[] = {
    {"acetone", "acetone", 0.79, 44.0, 2.6},
    {"alcohol", "ethyl alcohol", 0.79, 55.2, 4.3},
    {"butyl acetate", "n-butyl acetate", 0.88, 24.8, 1.7},
    {"catalysed-lacquer thinner", "xylene", 0.85, 26.4, 1.0},
    {"citrus solvent", "turpentine", 0.84, 20.8, 0.8},
    {"dearomatised white spirit", "Stoddard solvent", 0.77, 23.2, 1.0},
    {"denatured alcohol", "ethyl alcohol", 0.79, 55.2, 4.3},
    {"ethanol", "ethyl alcohol", 0.79, 55.2, 4.3},
    {"ethyl acetate", "ethyl acetate", 0.90, 32.8, 2.5},
    {"isopropyl alcohol", "isopropyl alcohol", 0.79, 44.0, 2.0},
    {"lacquer thinner", "toluene", 0.83, 30.4, 1.4},
    {"methanol", "methyl alcohol", 0.79, 80.8, 7.3},
    {"methyl ethyl ketone", "methyl ethyl ketone", 0.80, 36.0, 1.8},
    {"mineral spirits", "Stoddard solvent", 0.78, 23.2, 1.0},
    {"mineral spirits or citrus solvent", "Stoddard solvent", 0.78, 23.2, 1.0},
    {"naphtha", "naphtha (VM&P)", 0.75, 22.4, 0.9},
    {"toluene", "toluene", 0.87, 30.4, 1.4},
    {"turpentine", "turpentine", 0.86, 20.8, 0.8},
    {"urethane thinner", "xylene", 0.90, 26.4, 1.0},
    {"water", "water", 1.00, 0, 0},
    {"white spirit", "Stoddard solvent", 0.78, 23.2, 1.0},
    {"xylene", "xylene", 0.86, 26.4, 1.0},
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
