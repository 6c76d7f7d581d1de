#include "timetable/crew.h"

#include "base/arena.h"
#include "timetable/hours.h"

#include <string.h>

/* The shop as one person sees it. */
static struct shop shop_of(const struct shop *shop, const struct person *person)
{
    struct shop own = *shop;
    memcpy(own.hours, person->hours, sizeof own.hours);
    own.closed = person->closed;
    own.closed_count = person->closed_count;
    own.busy = person->busy;
    own.busy_count = person->busy_count;
    return own;
}

static void measure_day(struct worker *worker, size_t first, size_t end)
{
    int32_t gaps = 0;
    for (size_t i = first + 1; i < end; i++) {
        int32_t gap = worker->duties[i].from - worker->duties[i - 1].to;
        gaps += gap;
        worker->gap_least = gap < worker->gap_least ? gap : worker->gap_least;
    }
    worker->gaps_most = gaps > worker->gaps_most ? gaps : worker->gaps_most;
    int breaks = (int)(end - first) - 1;
    worker->breaks_most = breaks > worker->breaks_most ? breaks : worker->breaks_most;
}

static void measure(struct worker *worker)
{
    worker->night_least = worker->gap_least = INT32_MAX;
    for (size_t from = 0, to; from < worker->duty_count; from = to) {
        for (to = from; to < worker->duty_count && worker->duties[to].day == worker->duties[from].day; to++)
            ;
        measure_day(worker, from, to);
        if (to < worker->duty_count &&
            worker->duties[to].from - worker->duties[to - 1].to < worker->night_least)
            worker->night_least = worker->duties[to].from - worker->duties[to - 1].to;
    }
}

static void index_days(struct arena *arena, struct worker *worker)
{
    int32_t last = worker->duty_count > 0 ? worker->duties[worker->duty_count - 1].to : 0;
    worker->days = (size_t)last / DAY_MINUTES + 1;
    size_t *at_day = ARENA_ARRAY(arena, worker->days, size_t), i = 0;
    for (size_t day = 0; day < worker->days; day++) {
        while (i < worker->duty_count && worker->duties[i].to <= (int32_t)day * DAY_MINUTES)
            i++;
        at_day[day] = i;
    }
    worker->at_day = at_day;
}

static void fill_duties(struct arena *arena, struct worker *worker, const struct hours *hours)
{
    struct duty *duties = ARENA_ARRAY(arena, hours->count, struct duty);
    int64_t first = zone_day(hours->zone, hours->origin_min, NULL);
    for (size_t i = 0; i < hours->count; i++) {
        const struct open_stretch *open = &hours->stretches[i];
        int64_t day = zone_day(hours->zone, hours_moment(hours, open->from), NULL);
        duties[i] = (struct duty){open->from * SLOT_MIN, open->to * SLOT_MIN, (int32_t)(day - first)};
    }
    worker->duties = duties;
    worker->duty_count = hours->count;
    measure(worker);
    index_days(arena, worker);
}

static bool same_duties(const struct worker *a, const struct worker *b)
{
    if (a->duty_count != b->duty_count)
        return false;
    for (size_t i = 0; i < a->duty_count; i++)
        if (a->duties[i].from != b->duties[i].from || a->duties[i].to != b->duties[i].to)
            return false;
    return true;
}

static void find_alike(struct crew *crew, int i)
{
    struct worker *worker = &crew->workers[i];
    for (worker->alike = 0; worker->alike < i; worker->alike++)
        if (crew->workers[worker->alike].does == worker->does &&
            same_duties(&crew->workers[worker->alike], worker))
            return;
}

bool crew_is_there_together(const struct crew *crew)
{
    for (int i = 1; i < crew->count; i++)
        if (!same_duties(&crew->workers[0], &crew->workers[i]))
            return false;
    return true;
}

struct crew *crew_make(struct arena *arena, const struct shop *shop, const struct zone *zone,
                       int64_t origin_min, int32_t horizon)
{
    struct crew *crew = ARENA_NEW(arena, struct crew);
    *crew = (struct crew){.count = shop->people, .origin_min = origin_min, .horizon = horizon};
    crew->workers = ARENA_ARRAY(arena, (size_t)shop->people, struct worker);
    for (int i = 0; i < shop->people; i++) {
        struct worker *worker = &crew->workers[i];
        struct person person = shop_person(shop, i);
        if (i > 0 && !shop->crew) {
            *worker = crew->workers[0];
            continue;
        }
        struct shop own = shop_of(shop, &person);
        const struct hours *hours = hours_make(arena, &own, zone, origin_min, horizon / SLOT_MIN);
        *worker = (struct worker){.name = person.name, .does = person.does};
        fill_duties(arena, worker, hours);
        find_alike(crew, i);
        int32_t longest = hours->longest * SLOT_MIN;
        crew->longest_duty = longest > crew->longest_duty ? longest : crew->longest_duty;
    }
    return crew;
}

size_t crew_duty_at(const struct worker *worker, int32_t minute)
{
    size_t day = minute > 0 ? (size_t)minute / DAY_MINUTES : 0;
    size_t i = worker->days > 0 ? worker->at_day[day < worker->days ? day : worker->days - 1] : 0;
    while (i < worker->duty_count && worker->duties[i].to <= minute)
        i++;
    return i;
}

bool worker_can(const struct worker *worker, unsigned needs)
{
    return needs == 0 || worker->does & needs;
}
