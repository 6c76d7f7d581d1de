/* The factors of a draw, each draw from a stream of its own. */
#include "plan/chance.h"
#include "plan/chance_desk.h"

#include "base/arena.h"

#include <math.h>

static const double whole_turn = 6.283185307179586;

/* Steele, Lea, Flood, Fast splittable pseudorandom number generators (2014): splitmix64. */
static uint64_t next_random(uint64_t *state)
{
    uint64_t z = (*state += UINT64_C(0x9E3779B97F4A7C15));
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return z ^ (z >> 31);
}

/* Uniform in [0, 1). */
static double next_uniform(uint64_t *state)
{
    return (double)(next_random(state) >> 11) * 0x1p-53;
}

/* The inverse of the distribution at a uniform number. */
static double draw_factor(struct chance_spread spread, uint64_t *state)
{
    double u = next_uniform(state), width = spread.high - spread.low;
    if (spread.even)
        return spread.low + u * width;
    if (width <= 0)
        return spread.low;
    if (u * width < 1 - spread.low)
        return spread.low + sqrt(u * width * (1 - spread.low));
    return spread.high - sqrt((1 - u) * width * (spread.high - 1));
}

/* Normal about the logarithm of the factor (Box, Muller, A note on the generation of random normal deviates, 1958). */
static double draw_learned(const struct step *step, uint64_t *state)
{
    const struct tool_learned *learned = &step->finish->tool_learned[step->by];
    double radius = sqrt(-2 * log(1 - next_uniform(state)));
    double deviations = radius * cos(whole_turn * next_uniform(state));
    return learned->minutes_factor * exp(learned->minutes_tolerance / 2 * deviations);
}

struct desk *chance_desk_make(struct arena *arena, const struct chance_model *model)
{
    struct desk *desk = ARENA_NEW(arena, struct desk);
    size_t operations = model->timetable->operations->count;
    desk->start = ARENA_ARRAY(arena, model->count, int32_t);
    desk->end = ARENA_ARRAY(arena, model->count, int32_t);
    desk->step_start = ARENA_ARRAY(arena, operations, int32_t);
    desk->step_end = ARENA_ARRAY(arena, operations, int32_t);
    desk->film = ARENA_ARRAY(arena, operations, double);
    desk->hands = ARENA_ARRAY(arena, model->count, double);
    desk->common = ARENA_ARRAY(arena, model->site->film_count, double);
    desk->cause = ARENA_ARRAY(arena, model->count, const struct hold *);
    desk->tally = ARENA_ARRAY(arena, operations * STATE_COUNT, struct tally);
    return desk;
}

/* Every draw has its own stream, and takes the same numbers from it whatever happens. */
void chance_draw_factors(const struct chance_model *model, struct desk *desk, int32_t draw)
{
    const struct chance_options *options = model->options;
    uint64_t seed = options->seed, state = next_random(&seed) + (uint64_t)draw;
    state = next_random(&state);
    for (size_t i = 0; i < model->site->film_count; i++)
        desk->common[i] = draw_factor(options->drying, &state);
    for (size_t i = 0; i < model->count; i++) {
        const struct step *learned = model->items[i].learned;
        desk->hands[i] = learned ? draw_learned(learned, &state) : draw_factor(options->hands, &state);
    }
    for (size_t i = 0; i < model->timetable->operations->count; i++) {
        const struct film *film = model->site->rows[i].film;
        if (!film)
            continue;
        double own = draw_factor(options->drying, &state), common = desk->common[film - model->site->films];
        desk->film[i] = options->shared * common + (1 - options->shared) * own;
    }
}
