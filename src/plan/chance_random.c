/* The factors of a draw, each draw from a stream of its own. */
#include "plan/chance_desk.h"

#include "base/arena.h"

#include <math.h>

/* Steele, Lea, Flood, Fast splittable pseudorandom number generators (2014): splitmix64. */
static uint64_t next_random(uint64_t *state)
{
    uint64_t z = (*state += UINT64_C(0x9E3779B97F4A7C15));
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return z ^ (z >> 31);
}

/* The inverse of the distribution at a number uniform in [0, 1). */
static double draw_factor(struct chance_spread spread, uint64_t *state)
{
    double u = (double)(next_random(state) >> 11) * 0x1p-53, width = spread.high - spread.low;
    if (spread.even)
        return spread.low + u * width;
    if (width <= 0)
        return spread.low;
    if (u * width < 1 - spread.low)
        return spread.low + sqrt(u * width * (1 - spread.low));
    return spread.high - sqrt((1 - u) * width * (spread.high - 1));
}

struct desk *chance_desk_make(struct arena *arena, const struct chance_model *model)
{
    struct desk *desk = ARENA_NEW(arena, struct desk);
    desk->start = ARENA_ARRAY(arena, model->count, int32_t);
    desk->end = ARENA_ARRAY(arena, model->count, int32_t);
    desk->film = ARENA_ARRAY(arena, model->count, double);
    desk->hands = ARENA_ARRAY(arena, model->count, double);
    desk->common = ARENA_ARRAY(arena, model->finish_count, double);
    desk->cause = ARENA_ARRAY(arena, model->count, const struct hold *);
    desk->dust = ARENA_ARRAY(arena, model->rooms, struct latest);
    desk->wet = ARENA_ARRAY(arena, model->rooms, struct latest);
    desk->tally = ARENA_ARRAY(arena, model->count * STATE_COUNT, struct tally);
    return desk;
}

/* Every draw has its own stream, and takes the same numbers from it whatever happens. */
void chance_draw_factors(const struct chance_model *model, struct desk *desk, int32_t draw)
{
    const struct chance_options *options = &model->options;
    uint64_t seed = options->seed, state = next_random(&seed) + (uint64_t)draw;
    state = next_random(&state);
    for (size_t i = 0; i < model->finish_count; i++)
        desk->common[i] = draw_factor(options->drying, &state);
    for (size_t i = 0; i < model->count; i++) {
        double own = draw_factor(options->drying, &state);
        int finish = model->items[i].finish;
        desk->film[i] = finish < 0 ? 1 : options->shared * desk->common[finish] + (1 - options->shared) * own;
        desk->hands[i] = draw_factor(options->hands, &state);
    }
}

void chance_desk_clear(const struct chance_model *model, struct desk *desk)
{
    static const struct latest none = {-1, -1, -1, INT32_MIN, INT32_MIN};
    for (size_t i = 0; i < model->count; i++)
        desk->start[i] = NET_NONE;
    for (size_t i = 0; i < model->rooms; i++)
        desk->dust[i] = desk->wet[i] = none;
    desk->missed = desk->ruined = false;
}
