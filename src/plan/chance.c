#include "plan/chance.h"

#include "base/arena.h"
#include "plan/chance_desk.h"

#include <pthread.h>
#include <stdlib.h>

/* The draws of one thread. */
struct share {
    const struct chance_model *model;
    struct desk *desk;
    int32_t first, end, *ready;
    pthread_t thread;
    bool apart;
};

static void *work(void *context)
{
    struct share *share = context;
    chance_draw_range(share->model, share->desk, share->first, share->end, share->ready);
    return NULL;
}

/* Where no thread can be had, the draws are made here. */
static void draw_all(struct share *shares, int count)
{
    for (int i = 1; i < count; i++)
        shares[i].apart = pthread_create(&shares[i].thread, NULL, work, &shares[i]) == 0;
    for (int i = 0; i < count; i++)
        if (!shares[i].apart)
            work(&shares[i]);
    for (int i = 1; i < count; i++)
        if (shares[i].apart)
            pthread_join(shares[i].thread, NULL);
}

static void add_desk(const struct chance_model *model, struct desk *sum, const struct desk *desk)
{
    sum->on_time += desk->on_time;
    sum->scuffed += desk->scuffed;
    sum->spoiled += desk->spoiled;
    sum->late += desk->late;
    sum->slow += desk->slow;
    for (size_t i = 0; i < model->timetable->operations->count * STATE_COUNT; i++) {
        sum->tally[i].late_count += desk->tally[i].late_count;
        sum->tally[i].late_adds += desk->tally[i].late_adds;
        sum->tally[i].slow_count += desk->tally[i].slow_count;
        sum->tally[i].slow_adds += desk->tally[i].slow_adds;
    }
}

static int rising(const void *a, const void *b)
{
    int32_t left = *(const int32_t *)a, right = *(const int32_t *)b;
    return (left > right) - (left < right);
}

/* The moment by which so many of all draws are ready; `ready` is sorted. */
static int64_t ready_by(const struct chance_model *model, const int32_t *ready, int64_t tenths)
{
    int64_t draws = model->options->draws, index = (draws * tenths + 9) / 10 - 1;
    int32_t minute = ready[index < 0 ? 0 : index];
    return minute >= SITE_NEVER ? INT64_MAX : site_moment(model->site, minute);
}

static void find_driver(const struct chance_model *model, const struct desk *sum, struct chance *chance)
{
    int64_t most = 0;
    chance->driver_late = sum->late > 0;
    for (size_t i = 0; i < model->timetable->operations->count * STATE_COUNT; i++) {
        const struct tally *tally = &sum->tally[i];
        int64_t adds = chance->driver_late ? tally->late_adds : tally->slow_adds;
        int64_t count = chance->driver_late ? tally->late_count : tally->slow_count;
        if (adds <= most)
            continue;
        most = adds;
        chance->driver = model->step_of[i / STATE_COUNT];
        chance->driver_state = (enum finish_state)(i % STATE_COUNT);
        chance->driver_share = (double)count / (chance->driver_late ? sum->late : sum->slow);
        chance->driver_adds_min = adds / count;
    }
}

/* Each finish and tool once, in the order of the plan. */
static void list_learned(struct arena *arena, const struct chance_model *model, struct chance *chance)
{
    struct chance_learned *list = ARENA_ARRAY(arena, model->count + 1, struct chance_learned);
    for (size_t i = 0; i < model->count; i++) {
        const struct step *step = model->items[i].learned;
        size_t k = 0;
        while (step && k < chance->learned_count &&
               (list[k].tool != step->by || !finish_same(list[k].finish, step->finish)))
            k++;
        if (step && k == chance->learned_count)
            list[chance->learned_count++] = (struct chance_learned){step->finish, step->by};
    }
    chance->learned = list;
}

const struct chance *chance_make(struct arena *arena, const struct timetable *timetable,
                                 struct chance_options options)
{
    struct chance *chance = ARENA_NEW(arena, struct chance);
    struct chance_model *model = chance_model_make(arena, timetable, &options);
    struct desk *sum = chance_desk_make(arena, model);
    struct share *shares = ARENA_ARRAY(arena, (size_t)options.threads, struct share);
    int32_t *ready = ARENA_ARRAY(arena, (size_t)options.draws, int32_t);
    chance_settle_floors(model, sum);
    for (int i = 0; i < options.threads; i++)
        shares[i] = (struct share){.model = model,
                                   .desk = chance_desk_make(arena, model),
                                   .first = (int32_t)((int64_t)options.draws * i / options.threads),
                                   .end = (int32_t)((int64_t)options.draws * (i + 1) / options.threads),
                                   .ready = ready};
    draw_all(shares, options.threads);
    for (int i = 0; i < options.threads; i++)
        add_desk(model, sum, shares[i].desk);
    qsort(ready, (size_t)options.draws, sizeof *ready, rising);
    *chance = (struct chance){.options = options,
                              .on_time = sum->on_time,
                              .scuffed = sum->scuffed,
                              .spoiled = sum->spoiled,
                              .half_min = ready_by(model, ready, 5),
                              .nine_tenths_min = ready_by(model, ready, 9)};
    list_learned(arena, model, chance);
    find_driver(model, sum, chance);
    return chance;
}

struct chance_options chance_defaults(void)
{
    return (struct chance_options){.seed = 1,
                                   .draws = 10000,
                                   .threads = 2,
                                   .drying = {0.8, 1.3, false},
                                   .hands = {0.8, 1.4, false},
                                   .shared = 0.5};
}
