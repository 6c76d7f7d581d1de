/* Rates (method: progress p' = r(T, RH) per minute of the clock, 1 at reference air):
 *   reaction, oxidation   2^((T - Tref)/10)     pot life and recoat tables double per 10 C (UFGS-09971, 3.7.1.3)
 *   solvent               2^((T - Tref)/15)     from memory: evaporation, weaker
 *   water                 deficit / reference deficit, at most 1.5; as reaction once it cures
 *   moisture              2^((T - Tref)/10) x RH/RHref
 *   none                  1: nothing dries, the table's times are minutes of the clock
 *   oxidation above 75 % humidity x 0.7 (from memory); below the finish's lowest temperature 0: films stop rather
 *   than slow. */
#include "finish/drying.h"

#include "base/arena.h"

#include <math.h>

static const double damp_humidity = 0.75, damp_factor = 0.7, water_most = 1.5;
static const double rate_most = 1000;
static const double margin = 0.9;

bool drying_state_is_cure(const struct finish *finish, enum finish_state state)
{
    bool cures = state == STATE_WRAP || state == STATE_LIGHT_USE || state == STATE_CURED;
    return cures && finish->dries_by == DRIES_BY_WATER;
}

static double doubling(const struct finish *finish, struct air air, double per_c)
{
    return exp2((air.temperature_c - finish->at_c) / per_c);
}

static double water_rate(const struct finish *finish, struct air air)
{
    struct air reference = {finish->at_c, finish->at_humidity};
    return fmin(air_deficit_hpa(air) / air_deficit_hpa(reference), water_most);
}

static double rate(const struct finish *finish, bool cure, struct air air)
{
    if (finish->dries_by == DRIES_BY_NOTHING)
        return 1;
    if (air.temperature_c < finish->air.lowest_c)
        return 0;
    switch (finish->dries_by) {
    case DRIES_BY_SOLVENT:
        return doubling(finish, air, 15);
    case DRIES_BY_WATER:
        return cure ? doubling(finish, air, 10) : water_rate(finish, air);
    case DRIES_BY_OXIDATION:
        return doubling(finish, air, 10) * (air.humidity > damp_humidity ? damp_factor : 1);
    case DRIES_BY_MOISTURE:
        return doubling(finish, air, 10) * air.humidity / finish->at_humidity;
    default:
        return doubling(finish, air, 10);
    }
}

int32_t drying_rate(const struct finish *finish, bool cure, struct air air)
{
    return (int32_t)lround(fmin(fmax(rate(finish, cure, air), 0), rate_most) * DRYING_UNIT);
}

/* Growing arrays of a clock in the making. */
struct making {
    struct arena *arena;
    size_t count, room[3];
    int64_t *from_min, *progress;
    int32_t *rate;
};

static void making_add(struct making *m, int64_t from_min, int32_t rate_now)
{
    size_t last = m->count - 1;
    if (m->count > 0 && m->rate[last] == rate_now)
        return;
    m->from_min = arena_grow(m->arena, m->from_min, m->count, &m->room[0], sizeof *m->from_min);
    m->progress = arena_grow(m->arena, m->progress, m->count, &m->room[1], sizeof *m->progress);
    m->rate = arena_grow(m->arena, m->rate, m->count, &m->room[2], sizeof *m->rate);
    m->from_min[m->count] = from_min;
    m->rate[m->count] = rate_now;
    m->progress[m->count] =
        m->count == 0 ? 0 : m->progress[last] + (from_min - m->from_min[last]) * m->rate[last];
    m->count++;
}

static struct drying_clock *making_end(const struct making *m)
{
    struct drying_clock *clock = ARENA_NEW(m->arena, struct drying_clock);
    *clock = (struct drying_clock){m->count, m->from_min, m->rate, m->progress};
    return clock;
}

struct drying_clock *drying_clock_make(struct arena *arena, const struct finish *finish, bool cure,
                                       const struct air_year *air, const struct zone *zone,
                                       struct drying_span span)
{
    struct making m = {.arena = arena};
    int64_t at = span.from_min;
    do {
        int64_t until;
        struct air now = air_at(air, zone, at, &until);
        making_add(&m, at, drying_rate(finish, cure, now));
        at = until;
    } while (at < span.to_min);
    return making_end(&m);
}

struct drying_clock *drying_clock_plain(struct arena *arena, int64_t from_min)
{
    struct making m = {.arena = arena};
    making_add(&m, from_min, DRYING_UNIT);
    return making_end(&m);
}

double finish_pot_life_min(const struct finish *finish, double temperature_c)
{
    if (finish->pot_life_min == SPAN_NEVER)
        return INFINITY;
    return finish->pot_life_min * exp2((finish->at_c - temperature_c) / 10);
}

double finish_working_min(const struct finish *finish, double temperature_c)
{
    return fmax((finish_pot_life_min(finish, temperature_c) - finish->induction_min) * margin, 0);
}
