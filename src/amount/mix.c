#include "amount/mix.h"

#include "base/arena.h"
#include "finish/drying.h"
#include "finish/vapour.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { GRAMS = 1000, RAISE_MOST = 1000000 };

/* Roundings of doubles must not decide. */
static const double slack = 1e-9;

struct weighing {
    const double *steps; /* of each component, whole numbers */
    double exact_l;      /* the volume to which the exact masses belong: asked, or raised */
    double made_l;       /* as weighed */
    double error; /* share, component to first component, the largest; infinite: nothing of the first */
    bool within, raised;
};

struct search {
    const struct finish *finish;
    size_t count;
    double scale_g, asked_l;
    double exact[FINISH_PARTS_MOST]; /* in steps, for the volume tried */
    double best[FINISH_PARTS_MOST];
    double error, made_l; /* of the best */
    bool found;
};

static double litres_of(const struct search *s, const double *steps)
{
    double litres = 0;
    for (size_t i = 0; i < s->count; i++)
        litres += steps[i] * s->scale_g / GRAMS / s->finish->components[i].density_kg_per_l;
    return litres;
}

/* The largest of component to first component, as weighed against as asked. */
static double error_of(const struct search *s, const double *steps)
{
    double error = 0;
    for (size_t i = 1; i < s->count; i++)
        error = fmax(error, fabs(steps[i] * s->exact[0] / (steps[0] * s->exact[i]) - 1));
    return steps[0] > 0 ? error : INFINITY;
}

static bool tolerates(const struct search *s, double error)
{
    return s->count < 2 || error <= s->finish->ratio_tolerance * (1 + slack);
}

/* Less error; of equal error less volume. */
static void consider(struct search *s, const double *steps)
{
    double error = error_of(s, steps), made = litres_of(s, steps);
    bool better = error < s->error - slack || (error <= s->error + slack && made < s->made_l - slack);
    if (s->found && !better)
        return;
    memcpy(s->best, steps, s->count * sizeof *steps);
    s->error = error;
    s->made_l = made;
    s->found = true;
}

/* Every choice of the step below or above each exact mass; `enough` leaves out those below the volume asked, and
 * `sound` those beyond the tolerance. */
static bool try_all(struct search *s, bool enough, bool sound)
{
    double steps[FINISH_PARTS_MOST] = {0};
    s->found = false;
    for (unsigned choice = 0; choice < 1u << s->count; choice++) {
        for (size_t i = 0; i < s->count; i++)
            steps[i] = choice >> i & 1 ? ceil(s->exact[i] - slack) : floor(s->exact[i] + slack);
        if (enough && litres_of(s, steps) < s->asked_l * (1 - slack))
            continue;
        if (sound && !tolerates(s, error_of(s, steps)))
            continue;
        consider(s, steps);
    }
    return s->found;
}

static void set_volume(struct search *s, double litres)
{
    for (size_t i = 0; i < s->count; i++)
        s->exact[i] = litres * finish_volume_share(s->finish, i) * s->finish->components[i].density_kg_per_l *
                      GRAMS / s->scale_g;
}

static double volume_at(const struct search *s, double first_steps)
{
    return first_steps * s->scale_g / GRAMS / s->finish->components[0].density_kg_per_l /
           finish_volume_share(s->finish, 0);
}

/* The next volume, by whole steps of the first component, that keeps the tolerance. */
static double raise_volume(struct search *s)
{
    double from = ceil(s->exact[0] - slack);
    for (int i = 0; s->finish->ratio_tolerance > 0 && i < RAISE_MOST; i++) {
        double litres = volume_at(s, from + i);
        set_volume(s, litres);
        if (try_all(s, true, true))
            return litres;
    }
    return 0;
}

/* The steps of the scale that come nearest to the ratio, for `litres` of mixed finish without thinner. */
static struct weighing weigh(struct arena *arena, const struct finish *finish, double litres, double scale_g)
{
    struct search s = {finish, finish->component_count, scale_g, litres, {0}, {0}, INFINITY, INFINITY, false};
    struct weighing w = {.exact_l = litres};
    assert(s.count <= FINISH_PARTS_MOST && scale_g > 0);
    set_volume(&s, litres);
    w.within = try_all(&s, true, true) || try_all(&s, false, true);
    if (!w.within) {
        double raised = raise_volume(&s);
        w.within = w.raised = raised > 0;
        w.exact_l = w.raised ? raised : litres;
    }
    if (!w.within) {
        set_volume(&s, litres);
        try_all(&s, true, false);
    }
    double *steps = ARENA_ARRAY(arena, s.count, double);
    memcpy(steps, s.best, s.count * sizeof *steps);
    w.steps = steps;
    w.made_l = s.made_l;
    w.error = s.error;
    return w;
}

int mix_count(double laying_min, double working_min)
{
    if (!(working_min > 0))
        return 0;
    return (int)fmax(ceil(laying_min / working_min - 1e-9), 1);
}

double mix_volume_from(const struct finish *finish, size_t component, double mass_g, double thin)
{
    double litres = mass_g / GRAMS / finish->components[component].density_kg_per_l;
    return litres / finish_volume_share(finish, component) * (1 + thin);
}

double mix_partner_g(const struct finish *finish, size_t from, double from_g, size_t to)
{
    double litres = mix_volume_from(finish, from, from_g, 0) * finish_volume_share(finish, to);
    return litres * finish->components[to].density_kg_per_l * GRAMS;
}

double mix_mass_g(const struct mix *mix)
{
    double mass = 0;
    for (size_t i = 0; i < mix->pour_count; i++)
        mass += mix->pours[i].weigh_g;
    return mass;
}

double mix_mass_of(const struct finish *finish, double volume_l, double thin)
{
    double thinner = solvent_density(finish->solvent);
    return volume_l / (1 + thin) * (finish_density(finish) + thin * thinner) * GRAMS;
}

double tool_feed_l(enum tool tool)
{
    return tool_sprays(tool) ? 0.08 : 0;
}

/* Fills pours[0..n) for `litres` of finish; masses are exact. */
static void fill_components(const struct finish *finish, double litres, struct pour *pours)
{
    for (size_t i = 0; i < finish->component_count; i++) {
        pours[i].component = i;
        pours[i].volume_l = litres * finish_volume_share(finish, i);
        pours[i].mass_g = pours[i].volume_l * finish->components[i].density_kg_per_l * GRAMS;
    }
}

/* The thinner to the finish as weighed, up to the scale's next step. */
static void fill_thinner(const struct finish *finish, double litres, double scale_g, struct pour *pour)
{
    pour->component = SIZE_MAX;
    pour->volume_l = litres;
    pour->mass_g = litres * solvent_density(finish->solvent) * GRAMS;
    pour->weigh_g = scale_g * ceil(pour->mass_g / scale_g - 1e-9);
}

/* The largest component is poured first; of equal ones the first of the file. */
static void rank_pours(struct mix *mix, size_t components)
{
    for (size_t i = 0; i < mix->pour_count; i++) {
        struct pour *pour = &mix->pours[i];
        pour->rank = i < components ? 0 : i;
        for (size_t k = 0; k < components && i < components; k++)
            pour->rank +=
                mix->pours[k].mass_g > pour->mass_g || (mix->pours[k].mass_g == pour->mass_g && k < i);
    }
    for (size_t i = 0; i < mix->pour_count; i++)
        for (size_t k = 0; k < mix->pour_count; k++)
            if (mix->pours[k].rank <= mix->pours[i].rank)
                mix->pours[i].total_g += mix->pours[k].weigh_g;
}

/* Half a step of the scale is within the tolerance of every component. */
static double smallest(const struct finish *finish, const struct mix_want *want)
{
    double litres = 0;
    if (finish->component_count < 2)
        return 0;
    for (size_t i = 0; i < finish->component_count; i++)
        litres =
            fmax(litres, mix_volume_from(finish, i, want->scale_g / 2 / finish->ratio_tolerance, want->thin));
    return litres;
}

static double thinner_made_l(const struct finish *finish, const struct pour *pour)
{
    double density = solvent_density(finish->solvent);
    return density > 0 ? pour->weigh_g / GRAMS / density : pour->volume_l;
}

struct mix *mix_make(struct arena *arena, const struct finish *finish, struct mix_want want)
{
    struct mix *mix = ARENA_NEW(arena, struct mix);
    size_t components = finish->component_count;
    double asked_l = want.volume_l / (1 + want.thin);
    mix->want = want;
    mix->volume_l = want.volume_l;
    mix->pour_count = components + (want.thin > 0);
    mix->pours = ARENA_ARRAY(arena, components + 1, struct pour);
    struct weighing weighing = weigh(arena, finish, asked_l, want.scale_g);
    fill_components(finish, weighing.exact_l, mix->pours);
    for (size_t i = 0; i < components; i++)
        mix->pours[i].weigh_g = weighing.steps[i] * want.scale_g;
    mix->made_l = weighing.made_l;
    if (want.thin > 0) {
        fill_thinner(finish, weighing.exact_l * want.thin, want.scale_g, &mix->pours[components]);
        mix->made_l += thinner_made_l(finish, &mix->pours[components]);
    }
    rank_pours(mix, components);
    mix->ratio_error = weighing.error;
    mix->within = weighing.within;
    mix->raised = weighing.raised;
    mix->smallest_l = smallest(finish, &want);
    mix->pot_life_min = finish_pot_life_min(finish, want.temperature_c, mix_mass_g(mix));
    mix->working_min = finish_working_min(finish, want.temperature_c, mix_mass_g(mix));
    return mix;
}

bool mix_warns_of_cup(const struct finish *finish, const struct mix *mix, struct mix_warning *warning)
{
    double tray_min = finish_pot_life_min(finish, mix->want.temperature_c, 0);
    *warning = (struct mix_warning){.kind = MIX_WARNING_CUP,
                                    .finish = finish,
                                    .mass_g = mix_mass_g(mix),
                                    .minutes = mix->pot_life_min,
                                    .pot_life_min = tray_min};
    return mix->pot_life_min < tray_min;
}

static const double apart = 0.02;

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
