#include "amount/weigh.h"

#include "base/arena.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { GRAMS = 1000, RAISE_MOST = 1000000 };

/* Roundings of doubles must not decide. */
static const double slack = 1e-9;

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

struct weighing weigh(struct arena *arena, const struct finish *finish, double litres, double scale_g)
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
