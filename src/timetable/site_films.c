/* Films as a planner of batches sees them: when the air suits a finish, and when a coat reaches each state. */
#include "timetable/site.h"

#include "base/arena.h"

/* When the air does not suit, up to the horizon and a drying beyond it. */
static struct spells find_spells(const struct site *site, const struct finish *finish, bool applying)
{
    struct spell *items = NULL;
    size_t count = 0, room = 0;
    int64_t until = 0;
    int64_t end = site_moment(site, site->crew->horizon + 8 * 7 * DAY_MINUTES);
    for (int64_t at = site->crew->origin_min; at < end; at = until) {
        struct air air = air_at(&site->shop->air, site->zone, at, &until);
        if (applying ? drying_may_be_laid(finish, air) : drying_bears(finish, air))
            continue;
        struct spell spell = {site_minute(site, at), site_minute(site, until)};
        if (count > 0 && items[count - 1].to == spell.from) {
            items[count - 1].to = spell.to;
            continue;
        }
        items = arena_grow(site->arena, items, count, &room, sizeof *items);
        items[count++] = spell;
    }
    return (struct spells){items, count};
}

const struct spell *site_spell(const struct spells *spells, int32_t from, int32_t to)
{
    size_t low = 0, high = spells->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (spells->items[middle].to <= from)
            low = middle + 1;
        else
            high = middle;
    }
    return low < spells->count && spells->items[low].from < to ? &spells->items[low] : NULL;
}

static const struct film *film_of(struct site *site, const struct finish *finish)
{
    for (size_t i = 0; i < site->film_count; i++)
        if (site->films[i].finish == finish)
            return &site->films[i];
    struct film *film = &site->films[site->film_count++];
    struct drying_span span = {site->crew->origin_min,
                               site_moment(site, site->crew->horizon + DRYING_BEYOND_MIN)};
    film->finish = finish;
    for (int kind = 0; kind < DRYING_KINDS; kind++)
        film->clock[kind] = drying_clock_make(site->arena, finish, (enum drying_kind)kind, &site->shop->air,
                                              site->zone, span);
    film->until_handle = drying_needs_air(finish);
    film->wet = find_spells(site, finish, true);
    film->dry = film->until_handle ? find_spells(site, finish, false) : (struct spells){NULL, 0};
    return film;
}

/* The shortest time that a film takes for so many reference minutes: at the fastest rate of its clocks. */
static int32_t fastest(const struct film *film, enum drying_kind kind, int32_t needed)
{
    const struct drying_clock *clock = film->clock[kind];
    int32_t rate = 1;
    for (size_t i = 0; i < clock->count; i++)
        rate = clock->rate[i] > rate ? clock->rate[i] : rate;
    int64_t minutes = (int64_t)needed * DRYING_UNIT / rate - 1;
    return minutes < 0 ? 0 : minutes > SITE_NEVER ? SITE_NEVER : (int32_t)minutes;
}

static struct film_states *states_make(const struct site *site, const struct film *film,
                                       const struct finish_times *times)
{
    struct film_states *states = ARENA_NEW(site->arena, struct film_states);
    states->times = times;
    for (int state = 0; state < STATE_COUNT; state++) {
        enum drying_kind kind = drying_kind(film->finish, (enum finish_state)state);
        states->fastest[state] = fastest(film, kind, times->after_min[state]);
        for (int i = 0; i < STATES_RECALLED; i++)
            states->of[state][i].end = INT32_MIN;
    }
    return states;
}

void site_fill_film(struct site *site, size_t i)
{
    struct task_row *row = &site->rows[i];
    const struct operation *apply = row->operation;
    const struct finish_times *times =
        finish_times_of(apply->of.step->finish, apply->of.of_finish, apply->of.step->by);
    row->film = film_of(site, apply->of.step->finish);
    for (size_t k = 0; k < i && !row->states; k++)
        if (site->rows[k].states && site->rows[k].states->times == times)
            row->states = site->rows[k].states;
    row->states = row->states ? row->states : states_make(site, row->film, times);
}

int32_t site_state(const struct site *site, int operation, int32_t end, enum finish_state state)
{
    const struct task_row *row = &site->rows[operation];
    struct film_states *states = row->states;
    struct recalled *recalled = &states->of[state][(uint32_t)end % STATES_RECALLED];
    if (recalled->end == end)
        return recalled->moment;
    const struct drying_clock *clock = row->film->clock[drying_kind(row->film->finish, state)];
    int64_t moment =
        drying_reach(clock, site->crew->origin_min, site_moment(site, end), states->times->after_min[state]);
    *recalled = (struct recalled){end, site_minute(site, moment)};
    return recalled->moment;
}

int32_t site_fastest(const struct site *site, int item, enum finish_state state)
{
    return site->rows[item].states->fastest[state];
}

int32_t site_window(const struct site *site, int operation, int32_t end)
{
    const struct task_row *row = &site->rows[operation];
    int32_t needed = operation_window_min(row->operation);
    if (needed == SPAN_NEVER)
        return SITE_NEVER;
    const struct drying_clock *clock = row->film->clock[DRYING_WINDOW];
    return site_minute(site, drying_last(clock, site->crew->origin_min, site_moment(site, end), needed));
}
