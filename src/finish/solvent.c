#include "finish/solvent.h"

#include "base/text.h"

#include <stddef.h>

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
