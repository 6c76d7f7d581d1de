#include "plan/lone.h"

#include "base/arena.h"
#include "finish/drying.h"

#include <math.h>
#include <string.h>

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

/* Litres of the whole mix, and for an area into how many mixes it falls. False: into too many. */
static bool measure(struct arena *arena, struct lone_mix *lone, double *volume_l)
{
    const struct lone_want *want = &lone->want;
    struct bench bench;
    struct litre_term *terms;
    lone->count = 1;
    *volume_l = want->amount;
    if (want->by == LONE_HAVE)
        *volume_l = mix_volume_from(want->finish, want->component, want->amount, want->thin);
    if (want->by != LONE_AREA)
        return true;
    bench_set(&bench, want, want->amount);
    struct litres litres = coat_litres(&bench.pass, &bench.coat, true);
    struct coat_minutes minutes = coat_minutes(&bench.pass, &bench.coat, want->temperature_c);
    coat_terms(arena, &bench.pass, &bench.coat, &terms);
    lone->term = terms[0];
    lone->term.surface = NULL;
    lone->loss_l = want->shop->loss_l[want->tool];
    *volume_l = litres.likely + litres.thinner;
    lone->count = minutes.mixes > 1 ? minutes.mixes : 1;
    lone->laying_min = minutes.laying / lone->count;
    return lone->count <= LONE_MIXES_MOST;
}

/* A volume says nothing of the time that it takes; what it covers does. */
static void check_time(struct lone_mix *lone, double volume_l)
{
    const struct lone_want *want = &lone->want;
    struct bench bench;
    bench_set(&bench, want, 1);
    struct litres each = coat_litres(&bench.pass, &bench.coat, false);
    double area_m2 = volume_l / (each.likely + each.thinner);
    bench_set(&bench, want, area_m2);
    double laying = coat_minutes(&bench.pass, &bench.coat, want->temperature_c).laying;
    double working = coat_working_min(&bench.pass, &bench.coat, want->temperature_c);
    if (want->by == LONE_AREA || mix_count(laying, working) <= 1)
        return;
    warn(lone, (struct mix_warning){.kind = MIX_WARNING_AREA,
                                    .volume_l = volume_l,
                                    .area_m2 = area_m2,
                                    .minutes = laying,
                                    .working_min = working,
                                    .tool = want->tool,
                                    .most_l = volume_l * working / laying});
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
                                  .working_min = finish_working_min(want->finish, want->temperature_c)});
    lone->sound = mix->within && !beyond && mix->working_min > 0;
}

struct lone_mix *lone_mix_make(struct arena *arena, const struct lone_want *want)
{
    struct lone_mix *lone = ARENA_NEW(arena, struct lone_mix);
    struct bench bench;
    double volume_l;
    lone->want = *want;
    if (!measure(arena, lone, &volume_l))
        return NULL;
    struct mix_want each = {volume_l / lone->count, want->thin, want->scale_g, want->temperature_c};
    struct mix *mix = mix_make(arena, want->finish, each);
    bench_set(&bench, want, 1);
    mix->working_min = coat_working_min(&bench.pass, &bench.coat, want->temperature_c);
    lone->mix = mix;
    check_mix(lone);
    check_time(lone, volume_l);
    struct mix_warning hot;
    if (mix_warns_of_cup(want->finish, lone->mix, &hot))
        warn(lone, hot);
    return lone;
}
