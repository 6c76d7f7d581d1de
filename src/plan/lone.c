#include "plan/lone.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/number.h"
#include "finish/drying.h"
#include "plan/mix_words.h"

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

static void warn(struct arena *arena, struct lone_mix *lone, const char *sentence)
{
    const char **more = ARENA_ARRAY(arena, lone->warning_count + 1, const char *);
    for (size_t i = 0; i < lone->warning_count; i++)
        more[i] = lone->warnings[i];
    more[lone->warning_count++] = sentence;
    lone->warnings = more;
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
static void check_time(struct arena *arena, struct lone_mix *lone, double volume_l)
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
    warn(arena, lone,
         arena_textf(
             arena,
             "%s covers %s, which takes %s by %s, longer than one mix may be laid (%s): mix at most %s "
             "at a time",
             volume_format(volume_l, UNITS_METRIC).text, area_format(area_m2, UNITS_METRIC).text,
             span_format((int64_t)fmin(laying, 1e9)).text, tool_name(want->tool),
             span_format((int64_t)working).text,
             volume_format(volume_l * working / laying, UNITS_METRIC).text));
}

static void check_mix(struct arena *arena, struct lone_mix *lone)
{
    const struct lone_want *want = &lone->want;
    const struct mix *mix = lone->mix;
    const char *name = want->finish->name;
    const char *step = arena_text(arena, number_significant(want->scale_g, 6).text);
    bool beyond = want->by == LONE_HAVE && mix->pours[want->component].weigh_g > want->amount * (1 + 1e-9);
    if (!mix->within)
        warn(arena, lone,
             arena_textf(arena, "%s: a scale in steps of %s g cannot keep the ratio", name, step));
    else if (beyond)
        warn(arena, lone,
             arena_textf(arena, "%s: %s of %s is too little to be weighed in the ratio in steps of %s g",
                         name, mass_format(want->amount, UNITS_METRIC).text,
                         want->finish->components[want->component].name, step));
    if (mix->working_min <= 0)
        warn(arena, lone,
             arena_textf(arena, "%s: at %s C the pot is dead before %s", name,
                         number_round(want->temperature_c, 0).text,
                         mix_too_late(want->finish, want->temperature_c)));
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
    check_mix(arena, lone);
    check_time(arena, lone, volume_l);
    const char *hot = mix_cup_warning(arena, want->finish, lone->mix);
    if (hot)
        warn(arena, lone, hot);
    return lone;
}
