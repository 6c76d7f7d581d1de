/* What is told of the minutes of work. */
#include "timetable/dates.h"

#include "base/apportion.h"
#include "base/arena.h"

#include <stdlib.h>

static int64_t minutes_of(int64_t seconds)
{
    return (seconds + MINUTE_S - 1) / MINUTE_S;
}

/* A placed batch, by number. */
struct turn {
    int32_t start;
    int person;
    size_t number;
};

static int by_start_then_person(const void *a, const void *b)
{
    const struct turn *left = a, *right = b;
    if (left->start != right->start)
        return left->start < right->start ? -1 : 1;
    return left->person - right->person;
}

static struct turn *turns_of(struct arena *arena, const struct draft *draft)
{
    struct turn *turns = ARENA_ARRAY(arena, draft->count, struct turn);
    for (size_t i = 0; i < draft->count; i++)
        turns[i] = (struct turn){draft->placed[i].laid.start, draft->placed[i].batch.person, i};
    qsort(turns, draft->count, sizeof *turns, by_start_then_person);
    return turns;
}

int64_t *dates_minutes(struct arena *arena, const struct draft *draft)
{
    const struct turn *turns = turns_of(arena, draft);
    int64_t *parts = ARENA_ARRAY(arena, draft->count, int64_t);
    int64_t *whole = ARENA_ARRAY(arena, draft->count, int64_t);
    int64_t *minutes = ARENA_ARRAY(arena, draft->count, int64_t);
    int64_t seconds = 0, least = 0, of_two = 0;
    size_t count = 0, at = 0;
    for (size_t i = 0; i < draft->count; i++) {
        const struct placed *placed = &draft->placed[turns[i].number];
        int64_t own = placed->laid.hands_on_s;
        if (placed->batch.helper == SITE_NONE) {
            parts[count++] = own;
            seconds += own;
            least += own / MINUTE_S;
        } else {
            seconds += 2 * own;
            of_two += 2 * minutes_of(own);
        }
    }
    int64_t sum = minutes_of(seconds) - of_two;
    apportion(parts, count, MINUTE_S, sum > least ? sum : least, whole);
    for (size_t i = 0; i < draft->count; i++) {
        const struct placed *placed = &draft->placed[turns[i].number];
        bool one = placed->batch.helper == SITE_NONE;
        minutes[turns[i].number] = one ? whole[at] : minutes_of(placed->laid.hands_on_s);
        at += one;
    }
    return minutes;
}

int64_t dates_share(struct arena *arena, const struct site *site, const struct batch *batch, int64_t minutes,
                    int job)
{
    size_t jobs = (size_t)site->job_count;
    int64_t *parts = ARENA_ARRAY(arena, jobs, int64_t), *whole = ARENA_ARRAY(arena, jobs, int64_t), all = 0;
    for (size_t i = 0; i < batch->count; i++) {
        const struct task_row *row = &site->rows[batch->items[i]];
        all += row->operation->units.seconds;
        parts[row->job] += row->operation->units.seconds * minutes;
    }
    if (all == 0)
        parts[site->rows[batch->items[0]].job] = minutes;
    apportion(parts, jobs, all > 0 ? all : 1, minutes, whole);
    return whole[job];
}
