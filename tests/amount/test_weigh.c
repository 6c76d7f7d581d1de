/* The scale's rounding against every choice of the step below or above each exact mass, on random mixes. */
#include "check.h"
#include "sample.h"

#include "amount/mix.h"
#include "base/arena.h"

#include <math.h>

/* An own account of the error, and of every choice of the step below or above each exact mass. */
struct account {
    const struct sample_recipe *recipe;
    double exact_g[3], scale_g, asked_l;
    double least_sufficient, least_short; /* errors; INFINITY: none within the tolerance */
};

static double error_of(const struct account *a, const double *grams)
{
    double worst = 0;
    for (size_t i = 1; i < a->recipe->finish.component_count; i++)
        worst = fmax(worst, fabs(grams[i] / grams[0] / (a->exact_g[i] / a->exact_g[0]) - 1));
    return grams[0] > 0 ? worst : INFINITY;
}

static double litres_of(const struct account *a, const double *grams)
{
    double litres = 0;
    for (size_t i = 0; i < a->recipe->finish.component_count; i++)
        litres += grams[i] / 1000 / a->recipe->components[i].density_kg_per_l;
    return litres;
}

static void account_all(struct account *a, double *grams, size_t i)
{
    if (i < a->recipe->finish.component_count) {
        for (int up = 0; up < 2; up++) {
            grams[i] = a->scale_g * (floor(a->exact_g[i] / a->scale_g) + up);
            account_all(a, grams, i + 1);
        }
        return;
    }
    double error = error_of(a, grams);
    if (error > a->recipe->finish.ratio_tolerance)
        return;
    double *least = litres_of(a, grams) >= a->asked_l ? &a->least_sufficient : &a->least_short;
    *least = fmin(*least, error);
}

static void random_recipe(struct sample_recipe *recipe, uint64_t *seed)
{
    double parts[3], densities[3];
    size_t count = (size_t)check_random_int(seed, 2, 3);
    for (size_t i = 0; i < count; i++) {
        parts[i] = check_random_int(seed, 1, 100);
        densities[i] = 0.7 + check_random_unit(seed);
    }
    sample_recipe(recipe, count, parts, densities);
    recipe->finish.mix_by_mass = check_random_int(seed, 0, 1) == 1;
    recipe->finish.ratio_tolerance = 0.005 * check_random_int(seed, 1, 12);
}

static void check_weighing(uintmax_t seed, const struct account *a, const struct mix *mix)
{
    double grams[3], litres = 0;
    size_t count = a->recipe->finish.component_count;
    for (size_t i = 0; i < count; i++) {
        grams[i] = mix->pours[i].weigh_g;
        litres += mix->pours[i].volume_l;
        double mass = mix->pours[i].volume_l * 1000 * a->recipe->components[i].density_kg_per_l;
        if (fabs(mass - mix->pours[i].mass_g) > 1e-9 * mass)
            fail_msg("seed %ju: mass and volume disagree", seed);
        if (fabs(grams[i] / a->scale_g - round(grams[i] / a->scale_g)) > 1e-6)
            fail_msg("seed %ju: %g g is no step of the scale", seed, grams[i]);
    }
    if (fabs(error_of(a, grams) - mix->ratio_error) > 1e-9)
        fail_msg("seed %ju: the error shown is %g, the true one %g", seed, mix->ratio_error,
                 error_of(a, grams));
    if (fabs(litres_of(a, grams) - mix->made_l) > 1e-12)
        fail_msg("seed %ju: made %g l, weighed %g", seed, mix->made_l, litres_of(a, grams));
    if (!mix->raised && fabs(litres - a->asked_l) > 1e-9 * litres)
        fail_msg("seed %ju: components add up to %g, not %g", seed, litres, a->asked_l);
    if (mix->within != (mix->ratio_error <= a->recipe->finish.ratio_tolerance * (1 + 1e-9)) || !mix->within)
        fail_msg("seed %ju: beyond the tolerance", seed);
}

static void agrees_with_every_choice(void **state)
{
    (void)state;
    uint64_t seed = 4711;
    for (int trial = 0; trial < 1000; trial++) {
        uint64_t was = seed;
        struct arena *arena = arena_make(0);
        struct sample_recipe recipe;
        double grams[3];
        random_recipe(&recipe, &seed);
        struct account a = {.recipe = &recipe, .scale_g = check_random_int(&seed, 0, 1) ? 1 : 0.1};
        a.asked_l = 0.005 + 0.4 * check_random_unit(&seed);
        a.least_sufficient = a.least_short = INFINITY;
        for (size_t i = 0; i < recipe.finish.component_count; i++)
            a.exact_g[i] = 1000 * a.asked_l * finish_volume_share(&recipe.finish, i) *
                           recipe.components[i].density_kg_per_l;
        account_all(&a, grams, 0);
        struct mix *mix =
            mix_make(arena, &recipe.finish, (struct mix_want){.volume_l = a.asked_l, .scale_g = a.scale_g});
        check_weighing((uintmax_t)was, &a, mix);
        double least = isfinite(a.least_sufficient) ? a.least_sufficient : a.least_short;
        if (mix->raised != isinf(least))
            fail_msg("seed %ju: raised %d, least error %g", (uintmax_t)was, mix->raised, least);
        if (!mix->raised && fabs(mix->ratio_error - least) > 2e-9)
            fail_msg("seed %ju: error %g, least %g", (uintmax_t)was, mix->ratio_error, least);
        if (isfinite(a.least_sufficient) && mix->made_l < a.asked_l * (1 - 1e-9))
            fail_msg("seed %ju: below the volume asked", (uintmax_t)was);
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(agrees_with_every_choice));
}
