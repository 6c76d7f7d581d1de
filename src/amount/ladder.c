#include "amount/ladder.h"

#include "base/arena.h"
#include "finish/vapour.h"

#include <math.h>

enum { GRAMS = 1000 };

static const double apart = 0.02, slack = 1e-9;

const struct pour *mix_first_pour(const struct mix *mix)
{
    size_t i = 0;
    while (mix->pours[i].rank > 0)
        i++;
    return &mix->pours[i];
}

/* 1, 2, 5, 10, ... steps of the scale: the first that is no less than 2 % of the target. */
static double rung_step(double target_g, double scale_g)
{
    double step = scale_g;
    for (int i = 0; step < target_g * apart * (1 - slack); i++)
        step *= i % 3 == 1 ? 2.5 : 2;
    return step;
}

static double on_scale(double grams, double scale_g)
{
    return scale_g * floor(grams / scale_g + 0.5 + slack);
}

struct climb {
    const struct finish *finish;
    const struct mix *mix;
    size_t first;
};

/* Grams of one pour that belong to so much of the first, exact. */
static double belongs(const struct climb *c, const struct pour *pour, double first_g)
{
    if (pour->component != SIZE_MAX)
        return mix_partner_g(c->finish, c->first, first_g, pour->component);
    double litres = mix_volume_from(c->finish, c->first, first_g, 0);
    return litres * c->mix->want.thin * solvent_density(c->finish->solvent) * GRAMS;
}

static bool sound(const struct climb *c, const struct pour *pour, double grams, double exact)
{
    return pour->component == SIZE_MAX || fabs(grams / exact - 1) <= c->finish->ratio_tolerance * (1 + slack);
}

/* False: this scale cannot weigh that rung in the ratio. */
static bool fill(const struct climb *c, double first_g, double *grams)
{
    for (size_t i = 0; i < c->mix->pour_count; i++) {
        const struct pour *pour = &c->mix->pours[i];
        double exact = belongs(c, pour, first_g);
        grams[i] = pour->component == c->first ? first_g : on_scale(exact, c->mix->want.scale_g);
        if (!sound(c, pour, grams[i], exact))
            return false;
    }
    return true;
}

size_t ladder_make(struct arena *arena, const struct finish *finish, const struct mix *mix,
                   struct rung rungs[LADDER_RUNGS])
{
    const struct pour *first = mix_first_pour(mix);
    struct climb c = {finish, mix, first->component};
    double step = rung_step(first->weigh_g, mix->want.scale_g);
    size_t count = 0;
    for (int i = -LADDER_RUNGS / 2; mix->pour_count > 1 && i <= LADDER_RUNGS / 2; i++) {
        struct rung *rung = &rungs[count];
        *rung = (struct rung){i == 0, ARENA_ARRAY(arena, mix->pour_count, double)};
        double first_g = first->weigh_g + i * step;
        for (size_t k = 0; i == 0 && k < mix->pour_count; k++)
            rung->grams[k] = mix->pours[k].weigh_g;
        count += i == 0 || (first_g > 0 && fill(&c, first_g, rung->grams));
    }
    return count;
}
