#include "timetable/films.h"

#include "base/arena.h"

enum { WATCHED_MIN = 56 * DAY_MINUTES };

void films_init(struct films *films, struct arena *arena, const struct shop *shop, const struct hours *hours,
                int32_t longest)
{
    *films = (struct films){arena, shop, hours, longest, NULL};
}

static const int32_t *table_of(struct films *films, struct film_table wanted)
{
    for (struct film_table *table = films->tables; table; table = table->next)
        if (table->finish == wanted.finish && table->kind == wanted.kind && table->last == wanted.last &&
            table->needed_min == wanted.needed_min)
            return table->slots;
    const struct hours *hours = films->hours;
    int32_t slots = hours->slots + films->longest;
    struct drying_span span = {hours->origin_min, hours_moment(hours, slots) + DRYING_BEYOND_MIN};
    struct drying_clock *clock =
        drying_clock_make(films->arena, wanted.finish, wanted.kind, &films->shop->air, hours->zone, span);
    struct film_table *table = ARENA_NEW(films->arena, struct film_table);
    *table = wanted;
    table->slots = ARENA_ARRAY(films->arena, (size_t)slots + 1, int32_t);
    drying_table(clock, hours->origin_min, 0, (struct drying_need){wanted.needed_min, wanted.last, slots},
                 table->slots);
    table->next = films->tables;
    films->tables = table;
    return table->slots;
}

const int32_t *films_state(struct films *films, const struct operation *apply, enum finish_state state)
{
    const struct finish *finish = apply->of.step->finish;
    return table_of(films, (struct film_table){.finish = finish,
                                               .kind = drying_kind(finish, state),
                                               .needed_min = operation_state_min(apply, state)});
}

const int32_t *films_window(struct films *films, const struct operation *apply)
{
    const struct finish *finish = apply->of.step->finish;
    return table_of(films, (struct film_table){.finish = finish,
                                               .kind = DRYING_WINDOW,
                                               .last = true,
                                               .needed_min = operation_window_min(apply)});
}

/* next[s]: the first slot at or after s whose air does not suit; slots + 1 where all do. */
static void next_unsuited(const struct films *films, const struct finish *finish, bool applying,
                          int32_t *next)
{
    const struct hours *hours = films->hours;
    int32_t slots = hours->slots + films->longest;
    int64_t until = INT64_MIN;
    bool good = false;
    for (int32_t s = 0; s <= slots; s++) {
        int64_t minute = hours_moment(hours, s);
        bool all_good = minute < until ? good : true;
        while (until < minute + SLOT_MIN) {
            int64_t at = until > minute ? until : minute;
            struct air air = air_at(&films->shop->air, hours->zone, at, &until);
            good = applying ? drying_may_be_laid(finish, air) : drying_bears(finish, air);
            all_good = all_good && good;
        }
        next[s] = all_good ? slots + 1 : s;
    }
    for (int32_t s = slots - 1; s >= 0; s--)
        if (next[s] > slots)
            next[s] = next[s + 1];
}

void films_allowed(struct films *films, const struct operation *apply, bool *allowed)
{
    const struct finish *finish = apply->of.step->finish;
    int32_t slots = films->hours->slots, all = slots + films->longest, length = apply->minutes / SLOT_MIN;
    int32_t *wet = ARENA_ARRAY(films->arena, (size_t)all + 1, int32_t);
    int32_t *dry = ARENA_ARRAY(films->arena, (size_t)all + 1, int32_t);
    const int32_t *handle = films_state(films, apply, STATE_HANDLE);
    bool until_handle = drying_needs_air(finish);
    next_unsuited(films, finish, true, wet);
    next_unsuited(films, finish, false, dry);
    for (int32_t s = 0; s <= slots; s++) {
        int32_t end = s + length;
        allowed[s] = wet[s] >= end && (!until_handle || dry[s] >= handle[end]);
    }
}

struct air_outside films_outside(const struct films *films, const struct finish *finish, int64_t from_min,
                                 int64_t until_min)
{
    struct air_outside outside = {INT64_MAX, INT64_MAX, 0};
    int64_t next, last = until_min < INT64_MAX ? until_min : from_min + WATCHED_MIN;
    for (int64_t at = from_min; at < last; at = next) {
        struct air air = air_at(&films->shop->air, films->hours->zone, at, &next);
        next = next < last ? next : last;
        if (drying_bears(finish, air))
            continue;
        if (outside.from_min == INT64_MAX)
            outside.from_min = outside.until_min = at;
        if (outside.until_min == at)
            outside.until_min = next;
        outside.minutes += next - at;
    }
    return outside;
}
