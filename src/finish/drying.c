/* Progress per minute of the clock, 1 at reference air:
 *   reaction, oxidation   2^((T - Tref)/10)     pot life and recoat tables double per 10 C (UFGS-09971, 3.7.1.3)
 *     of an epoxy         2.4^((T - Tref)/10)   from its activation energy, 64 kJ/mol, by Arrhenius between 20 and 30 C
 *   solvent               2^((T - Tref)/12)     the vapour pressure of the usual solvents doubles per 12 C (Antoine, derived)
 *   water                 deficit / reference deficit, at most 1.5; as reaction once it cures
 *   moisture              2^((T - Tref)/10) x RH/RHref
 *   none                  1: nothing dries, the table's times are minutes of the clock
 *   oxidation above 75 % humidity x 0.7 (a handbook says that varnish of 24 h takes 36 in humid air, 0.667; 0.7 from memory);
 *   below the finish's lowest temperature 0: films stop rather than slow. The end of a recoat window runs on there, by
 *   the doubling and never slower than a quarter of the table's speed (the cautious side: from memory). */
#include "finish/drying.h"

#include "base/arena.h"
#include "base/number.h"

#include <math.h>
#include <string.h>

static const double damp_humidity = 0.75, damp_factor = 0.7, water_most = 1.5;
static const double rate_most = 1000;
static const double margin = 0.9, solvent_doubles_c = 12;

static const double window_least = 0.25, epoxy_haste = 2.4;
static const double above_dew_point_c = 3;

enum drying_kind drying_kind(const struct finish *finish, enum finish_state state)
{
    bool cures = state == STATE_WRAP || state == STATE_LIGHT_USE || state == STATE_CURED;
    return cures && finish->dries_by == DRIES_BY_WATER ? DRYING_CURE : DRYING_FILM;
}

bool drying_bears(const struct finish *finish, struct air air)
{
    const struct finish_air *limits = &finish->air;
    return air.temperature_c >= limits->lowest_c && air.temperature_c <= limits->highest_c &&
           air.humidity >= limits->driest && air.humidity <= limits->dampest;
}

bool drying_may_be_laid(const struct finish *finish, struct air air)
{
    return drying_bears(finish, air) && air.temperature_c - air_dew_point_c(air) >= above_dew_point_c;
}

bool drying_needs_air(const struct finish *finish)
{
    return finish->dries_by == DRIES_BY_WATER || finish->dries_by == DRIES_BY_REACTION;
}

double finish_haste(const struct finish *finish, double temperature_c)
{
    double tens = (temperature_c - finish->at_c) / 10;
    return strcmp(finish->family, "epoxy") == 0 ? pow(epoxy_haste, tens) : exp2(tens);
}

static double water_rate(const struct finish *finish, struct air air)
{
    struct air reference = {finish->at_c, finish->at_humidity};
    return fmin(air_deficit_hpa(air) / air_deficit_hpa(reference), water_most);
}

static double rate(const struct finish *finish, enum drying_kind kind, struct air air)
{
    double haste = finish_haste(finish, air.temperature_c);
    bool cold = air.temperature_c < finish->air.lowest_c;
    if (finish->dries_by == DRIES_BY_NOTHING)
        return 1;
    if (cold)
        return kind == DRYING_WINDOW ? fmax(haste, window_least) : 0;
    switch (finish->dries_by) {
    case DRIES_BY_SOLVENT:
        return exp2((air.temperature_c - finish->at_c) / solvent_doubles_c);
    case DRIES_BY_WATER:
        return kind == DRYING_CURE ? haste : water_rate(finish, air);
    case DRIES_BY_OXIDATION:
        return haste * (air.humidity > damp_humidity ? damp_factor : 1);
    case DRIES_BY_MOISTURE:
        return haste * air.humidity / finish->at_humidity;
    default:
        return haste;
    }
}

int32_t drying_rate(const struct finish *finish, enum drying_kind kind, struct air air)
{
    return (int32_t)lround(fmin(fmax(rate(finish, kind, air), 0), rate_most) * DRYING_UNIT);
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

/* The spell that a minute lies in; a minute before the first counts to it. Looks from spell `i` on. */
static size_t spell_on(const struct drying_clock *clock, size_t i, int64_t minute)
{
    while (i + 1 < clock->count && clock->from_min[i + 1] <= minute)
        i++;
    return i;
}

static struct drying_clock *making_end(const struct making *m)
{
    struct drying_clock *clock = ARENA_NEW(m->arena, struct drying_clock);
    size_t days = (size_t)((m->from_min[m->count - 1] - m->from_min[0]) / DAY_MINUTES) + 1, spell = 0;
    uint32_t *at_day = ARENA_ARRAY(m->arena, days, uint32_t);
    *clock = (struct drying_clock){m->count, m->from_min, m->rate, m->progress, at_day, days};
    for (size_t i = 0; i < days; i++) {
        spell = spell_on(clock, spell, m->from_min[0] + (int64_t)i * DAY_MINUTES);
        at_day[i] = (uint32_t)spell;
    }
    return clock;
}

struct drying_clock *drying_clock_make(struct arena *arena, const struct finish *finish,
                                       enum drying_kind kind, const struct air_year *air,
                                       const struct zone *zone, struct drying_span span)
{
    struct making m = {.arena = arena};
    int64_t at = span.from_min;
    do {
        int64_t until;
        struct air now = air_at(air, zone, at, &until);
        making_add(&m, at, drying_rate(finish, kind, now));
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

double finish_pot_life_min(const struct finish *finish, double temperature_c, double mass_g)
{
    if (finish->pot_life_min == SPAN_NEVER)
        return INFINITY;
    double heats = finish->pot_mass_g > 0 ? fmax(mass_g / finish->pot_mass_g, 1) : 1;
    return finish->pot_life_min / (finish_haste(finish, temperature_c) * heats);
}

double finish_working_min(const struct finish *finish, double temperature_c, double mass_g)
{
    return fmax((finish_pot_life_min(finish, temperature_c, mass_g) - finish->induction_min) * margin, 0);
}

static size_t spell_at(const struct drying_clock *clock, int64_t minute)
{
    int64_t since = minute - clock->from_min[0];
    size_t day = since > 0 ? (size_t)(since / DAY_MINUTES) : 0, last = clock->days - 1;
    return spell_on(clock, clock->days > 0 ? clock->at_day[day < last ? day : last] : 0, minute);
}

static int64_t progress_in(const struct drying_clock *clock, size_t i, int64_t minute)
{
    return clock->progress[i] + (minute - clock->from_min[i]) * clock->rate[i];
}

int64_t drying_progress(const struct drying_clock *clock, int64_t minute)
{
    return progress_in(clock, spell_at(clock, minute), minute);
}

static int64_t ceil_div(int64_t a, int64_t b)
{
    return -number_floor_div(-a, b);
}

static int64_t grid_up(int64_t origin_min, int64_t minute)
{
    return origin_min + DRYING_SLOT_MIN * ceil_div(minute - origin_min, DRYING_SLOT_MIN);
}

static int64_t grid_down(int64_t origin_min, int64_t minute)
{
    return origin_min + DRYING_SLOT_MIN * number_floor_div(minute - origin_min, DRYING_SLOT_MIN);
}

/* The first whole minute t whose progress, a second later, is at least `target`; *i moves to its spell. The target
 * lies beyond the beginning of spell *i. INT64_MAX: never. */
static int64_t minute_reaching(const struct drying_clock *clock, size_t *i, int64_t target)
{
    while (*i + 1 < clock->count && clock->progress[*i + 1] < target)
        ++*i;
    int64_t rate = clock->rate[*i];
    if (rate == 0)
        return INT64_MAX;
    return clock->from_min[*i] + ceil_div(60 * (target - clock->progress[*i]) - rate, 60 * rate);
}

/* The last whole minute whose progress is at most `limit`; INT64_MAX: all that follow. */
static int64_t minute_within(const struct drying_clock *clock, size_t *i, int64_t limit)
{
    while (*i + 1 < clock->count && clock->progress[*i + 1] <= limit)
        ++*i;
    if (clock->rate[*i] == 0)
        return INT64_MAX;
    return clock->from_min[*i] + number_floor_div(limit - clock->progress[*i], clock->rate[*i]);
}

static int64_t on_grid(int64_t origin_min, int64_t minute, bool last)
{
    if (minute == INT64_MAX)
        return minute;
    return last ? grid_down(origin_min, minute) : grid_up(origin_min, minute);
}

/* Where the search of one start stands: the spells of the start and of the answer, which move forward only. */
struct place {
    size_t start, answer;
};

static int64_t moment_of(const struct drying_clock *clock, struct place *at, int64_t start_min,
                         struct drying_need need)
{
    if (need.needed_min == SPAN_NEVER)
        return INT64_MAX;
    if (need.needed_min == 0 && !need.last)
        return start_min;
    at->start = spell_on(clock, at->start, start_min);
    at->answer = at->answer < at->start ? at->start : at->answer;
    int64_t target = progress_in(clock, at->start, start_min) + (int64_t)need.needed_min * DRYING_UNIT;
    return need.last ? minute_within(clock, &at->answer, target)
                     : minute_reaching(clock, &at->answer, target);
}

static int64_t moment_once(const struct drying_clock *clock, int64_t origin_min, int64_t start_min,
                           struct drying_need need)
{
    size_t i = spell_at(clock, start_min);
    struct place at = {i, i};
    return on_grid(origin_min, moment_of(clock, &at, start_min, need), need.last);
}

int64_t drying_reach(const struct drying_clock *clock, int64_t origin_min, int64_t start_min,
                     int32_t needed_min)
{
    return moment_once(clock, origin_min, start_min, (struct drying_need){.needed_min = needed_min});
}

int64_t drying_last(const struct drying_clock *clock, int64_t origin_min, int64_t start_min,
                    int32_t needed_min)
{
    return moment_once(clock, origin_min, start_min,
                       (struct drying_need){.needed_min = needed_min, .last = true});
}

void drying_table(const struct drying_clock *clock, int64_t origin_min, int32_t after_min,
                  struct drying_need need, int32_t *table)
{
    struct place at = {0, 0};
    for (int32_t s = 0; s <= need.slots; s++) {
        int64_t start_min = origin_min + (int64_t)DRYING_SLOT_MIN * s + after_min;
        int64_t moment = on_grid(origin_min, moment_of(clock, &at, start_min, need), need.last);
        int64_t slot = moment == INT64_MAX ? DRYING_NEVER_SLOT : (moment - origin_min) / DRYING_SLOT_MIN;
        table[s] = slot < DRYING_NEVER_SLOT ? (int32_t)slot : DRYING_NEVER_SLOT;
    }
}
