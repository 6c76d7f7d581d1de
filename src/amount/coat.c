#include "amount/coat.h"

#include "amount/factors.h"
#include "amount/film.h"
#include "base/arena.h"
#include "surface/sum.h"

/* A coat that is thinned by hand on bare wood covers by the litre of what is in the pot. */
static bool covers_by_mixture(const struct coat *coat)
{
    return coat->number == 1 && !tool_sprays(coat->step->by);
}

/* Litres that a surface takes of what the coverage counts. */
static struct litre_term term_of(const struct job *job, const struct surface *surface,
                                 const struct coat *coat)
{
    const struct part *part = &job->parts[surface->part];
    const struct finish *finish = coat->step->finish;
    enum handling handling = surface_handling(part, surface->region);
    struct litre_term term = {
        .surface = surface,
        .absorb = surface_absorb(part, surface->region, finish, coat->number),
        .coverage_m2_per_l = finish_coverage(finish, coat->number == 1),
        .transfer = surface_transfer(&job->shop, coat->step->by, handling),
    };
    term.litres = surface->area_m2 * term.absorb / (term.coverage_m2_per_l * term.transfer);
    return term;
}

size_t coat_terms(struct arena *arena, const struct pass *pass, const struct coat *coat,
                  struct litre_term **terms)
{
    size_t count = 0, capacity = 0, i = 0;
    *terms = NULL;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i)) {
        *terms = arena_grow(arena, *terms, count, &capacity, sizeof **terms);
        (*terms)[count++] = term_of(pass->job, s, coat);
    }
    return count;
}

struct litres coat_litres(const struct pass *pass, const struct coat *coat, bool with_loss)
{
    const struct step *step = coat->step;
    struct sum taken = {0};
    size_t i = 0;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i))
        sum_add(&taken, term_of(pass->job, s, coat).litres);
    if (with_loss)
        sum_add(&taken, pass->job->shop.loss_l[step->by]);
    double likely = sum_value(&taken) / (covers_by_mixture(coat) ? 1 + step->thin : 1);
    double tolerance = step->finish->tolerance;
    return (struct litres){likely * (1 - tolerance), likely, likely * (1 + tolerance), likely * step->thin};
}

double coat_wet_film_um(const struct coat *coat)
{
    const struct finish *finish = coat->step->finish;
    if (finish->has_wipe_off)
        return 0;
    double um = 1000 / finish_coverage(finish, coat->number == 1);
    return covers_by_mixture(coat) ? um : um * (1 + coat->step->thin);
}

double coat_dry_film_um(const struct pass *pass, const struct coat *coat)
{
    (void)pass;
    return film_dry_um(coat_wet_film_um(coat),
                       film_thinned_solids(coat->step->finish->solids, coat->step->thin));
}
