#include "amount/shellac.h"

#include "base/arena.h"
#include "base/number.h"
#include "finish/vapour.h"

/* NIST Handbook 44, appendix C: exact. */
static const double g_per_lb = 453.59237, l_per_gal = 3.785411784;
/* 2 lb in 1 gal make 1.2 gal (Fine Woodworking, as quoted). */
static const double gal_per_lb = 0.1;
static const double tolerance = 0.05, g_per_kg = 1000;

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

/* Of the solution: what a litre of alcohol and its flakes weigh, over the room that they take. */
static double cut_density(double cut_lb, double alcohol_kg_per_l)
{
    return (alcohol_kg_per_l + shellac_flakes_g_per_l(cut_lb) / g_per_kg) / shellac_solution_l_per_l(cut_lb);
}

static struct component part(const char *name, double parts, double density_kg_per_l)
{
    return (struct component){.name = name,
                              .parts = parts,
                              .density_kg_per_l = density_kg_per_l,
                              .shelf_life_min = SPAN_NEVER,
                              .opened_life_min = SPAN_NEVER};
}

struct finish *shellac_recipe(struct arena *arena, const struct finish *shellac, double cut_lb,
                              double from_lb)
{
    static const char usual[] = "denatured alcohol";
    struct finish *recipe = ARENA_NEW(arena, struct finish);
    struct component *components = ARENA_ARRAY(arena, 2, struct component);
    const char *alcohol = shellac->solvent ? shellac->solvent : usual;
    double density = solvent_density(alcohol) > 0 ? solvent_density(alcohol) : solvent_density(usual);
    if (from_lb > 0) {
        const char *name = arena_textf(arena, "%s-pound cut", number_round(from_lb, 2).text);
        components[0] = part(name, 1, cut_density(from_lb, density));
        components[1] = part(alcohol, shellac_dilution(from_lb, cut_lb), density);
    } else {
        components[0] = part("flakes", gal_per_lb * cut_lb, g_per_lb / g_per_kg / (gal_per_lb * l_per_gal));
        components[1] = part(alcohol, 1, density);
    }
    *recipe = *shellac;
    recipe->components = components;
    recipe->component_count = 2;
    recipe->kits = NULL;
    recipe->kit_count = 0;
    recipe->mix_by_mass = false;
    recipe->ratio_tolerance = tolerance;
    return recipe;
}
