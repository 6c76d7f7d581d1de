#include "plan/lone.h"

#include "base/arena.h"
#include "finish/drying.h"

#include <math.h>
#include <string.h>

enum { HALVINGS = 60 };

/* The least job that has such a surface: amounts and minutes are then those of any other coat. */
struct bench {
    struct job job;
    struct part part;
    struct surface surface;
    struct surfaces surfaces;
    struct step step;
    struct pass pass;
    struct coat coat;
};

static void bench_set(struct bench *bench, const struct lone_want *want, double area_m2)
{
    memset(bench, 0, sizeof *bench);
    bench->part = (struct part){.qty = 1, .shape = SHAPE_AREA, .wood = want->wood, .work = 1};
    bench->surface = (struct surface){.region = REGION_FACE, .area_m2 = area_m2};
    bench->surfaces = (struct surfaces){.items = &bench->surface, .count = 1};
    bench->job.shop = *want->shop;
    bench->job.parts = &bench->part;
    bench->job.part_count = 1;
    bench->step = (struct step){
        .kind = STEP_COAT, .finish = want->finish, .coats = 1, .by = want->tool, .thin = want->thin};
    bench->pass = (struct pass){.job = &bench->job, .surfaces = &bench->surfaces};
    bench->coat = (struct coat){&bench->step, want->later ? 2 : 1, want->later ? 2 : 1};
}

static void warn(struct lone_mix *lone, struct mix_warning warning)
{
    warning.finish = lone->want.finish;
    lone->warnings[lone->warning_count++] = warning;
}

/* Litres of the whole, and its laying minutes: of a volume those of the area that it covers. */
static double measure(struct arena *arena, struct lone_mix *lone, double *laying_min)
{
    const struct lone_want *want = &lone->want;
    struct bench bench;
    struct litre_term *terms;
    double volume_l = want->amount, area_m2 = want->amount;
    if (want->by == LONE_HAVE)
        volume_l = mix_volume_from(want->finish, want->component, want->amount, want->thin);
    bench_set(&bench, want, 1);
    struct litres each = coat_litres(&bench.pass, &bench.coat, 0);
    if (want->by != LONE_AREA)
        area_m2 = volume_l / (each.likely + each.thinner);
    bench_set(&bench, want, area_m2);
    *laying_min = coat_minutes(&bench.pass, &bench.coat, want->temperature_c).laying;
    if (want->by != LONE_AREA)
        return volume_l;
    struct litres litres = coat_litres(&bench.pass, &bench.coat, 1);
    coat_terms(arena, &bench.pass, &bench.coat, &terms);
    lone->term = terms[0];
    lone->term.surface = NULL;
    lone->loss_l = coat_loss_l(want->shop, want->finish, want->tool);
    return litres.likely + litres.thinner;
}

/* As few mixes as can each be laid while the pot lives; what is poured as it is needs but one. */
static int count_mixes(const struct lone_want *want, double volume_l, double laying_min)
{
    struct bench bench;
    bench_set(&bench, want, 1);
    if (want->finish->component_count < 2 && want->thin <= 0)
        return 1;
    int count = coat_mix_count(&bench.pass, &bench.coat, want->temperature_c,
                               mix_mass_of(want->finish, volume_l, want->thin), laying_min);
    return count > 0 ? count : 1;
}

static void check_mix(struct lone_mix *lone)
{
    const struct lone_want *want = &lone->want;
    const struct mix *mix = lone->mix;
    bool beyond = want->by == LONE_HAVE && mix->pours[want->component].weigh_g > want->amount * (1 + 1e-9);
    if (!mix->within)
        warn(lone, (struct mix_warning){.kind = MIX_WARNING_SCALE, .scale_g = want->scale_g});
    else if (beyond)
        warn(lone, (struct mix_warning){.kind = MIX_WARNING_LITTLE,
                                        .mass_g = want->amount,
                                        .component = want->component,
                                        .scale_g = want->scale_g});
    if (mix->working_min <= 0)
        warn(lone,
             (struct mix_warning){.kind = MIX_WARNING_DEAD,
                                  .temperature_c = want->temperature_c,
                                  .working_min = finish_working_min(want->finish, want->temperature_c, 0)});
    lone->sound = mix->within && !beyond && mix->working_min > 0;
}

static struct mix *mix_of(struct arena *arena, const struct lone_mix *lone, const struct bench *bench,
                          double volume_l)
{
    const struct lone_want *want = &lone->want;
    struct mix_want each = {volume_l / lone->count, want->thin, want->scale_g, want->temperature_c};
    struct mix *mix = mix_make(arena, want->finish, each);
    mix->working_min = coat_working_min(&bench->pass, &bench->coat, want->temperature_c, mix_mass_g(mix));
    return mix;
}

/* Minutes in which the area that a volume covers is laid. */
static double laying_of(const struct lone_want *want, double volume_l)
{
    struct bench bench;
    bench_set(&bench, want, 1);
    struct litres each = coat_litres(&bench.pass, &bench.coat, 0);
    bench_set(&bench, want, volume_l / (each.likely + each.thinner));
    return coat_minutes(&bench.pass, &bench.coat, want->temperature_c).laying;
}

double lone_largest_l(const struct lone_want *want, double most_l)
{
    struct bench bench;
    double least = 0;
    bench_set(&bench, want, 1);
    for (int i = 0; i < HALVINGS; i++) {
        double middle = (least + most_l) / 2;
        double working = coat_working_min(&bench.pass, &bench.coat, want->temperature_c,
                                          mix_mass_of(want->finish, middle, want->thin));
        if (laying_of(want, middle) <= working)
            least = middle;
        else
            most_l = middle;
    }
    return least;
}

/* Why a volume is made in several pots. */
static void check_split(struct lone_mix *lone, double volume_l, double laying_min)
{
    const struct lone_want *want = &lone->want;
    double mass_g = mix_mass_of(want->finish, volume_l, want->thin);
    if (lone->count > 1 && want->by != LONE_AREA)
        warn(lone, (struct mix_warning){.kind = MIX_WARNING_SPLIT,
                                        .volume_l = volume_l,
                                        .minutes = laying_min,
                                        .pot_life_min =
                                            finish_pot_life_min(want->finish, want->temperature_c, mass_g),
                                        .tool = want->tool,
                                        .count = lone->count});
}

struct lone_mix *lone_mix_make(struct arena *arena, const struct lone_want *want)
{
    struct lone_mix *lone = ARENA_NEW(arena, struct lone_mix);
    struct bench bench;
    double laying_min;
    lone->want = *want;
    double volume_l = measure(arena, lone, &laying_min);
    lone->count = count_mixes(want, volume_l, laying_min);
    if (lone->count > LONE_MIXES_MOST)
        return NULL;
    bench_set(&bench, want, 1);
    lone->mix = mix_of(arena, lone, &bench, volume_l);
    /* What the scale rounds up may just be too much. */
    while (lone->count > 1 && laying_min / lone->count > lone->mix->working_min &&
           lone->count < LONE_MIXES_MOST) {
        lone->count++;
        lone->mix = mix_of(arena, lone, &bench, volume_l);
    }
    lone->laying_min = laying_min / lone->count;
    check_mix(lone);
    check_split(lone, volume_l, laying_min);
    struct mix_warning hot;
    if (mix_warns_of_cup(want->finish, lone->mix, &hot))
        warn(lone, hot);
    return lone;
}
