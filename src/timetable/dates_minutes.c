/* What is told of the minutes of work. */
#include "timetable/dates.h"

#include "base/apportion.h"
#include "base/arena.h"

#include <stdlib.h>

static int64_t minutes_of(int64_t seconds)
{
    return (seconds + 59) / 60;
}

static int by_start_then_number(const void *a, const void *b)
{
    const struct placed *left = *(const struct placed *const *)a, *right = *(const struct placed *const *)b;
    if (left->laid.start != right->laid.start)
        return left->laid.start < right->laid.start ? -1 : 1;
    return left->batch.person - right->batch.person;
}

/* The draft's batches by start, then person. */
static const struct placed **by_start(struct arena *arena, const struct draft *draft)
{
    const struct placed **sorted = ARENA_ARRAY(arena, draft->count, const struct placed *);
    for (size_t i = 0; i < draft->count; i++)
        sorted[i] = &draft->placed[i];
    qsort(sorted, draft->count, sizeof *sorted, by_start_then_number);
    return sorted;
}

int64_t *dates_minutes(struct arena *arena, const struct draft *draft)
{
    const struct placed **sorted = by_start(arena, draft);
    int64_t *parts = ARENA_ARRAY(arena, draft->count, int64_t);
    int64_t *whole = ARENA_ARRAY(arena, draft->count, int64_t);
    int64_t *minutes = ARENA_ARRAY(arena, draft->count, int64_t);
    int64_t seconds = 0, least = 0, of_two = 0;
    size_t count = 0, at = 0;
    for (size_t i = 0; i < draft->count; i++) {
        int64_t own = sorted[i]->laid.hands_on_s;
        if (sorted[i]->batch.helper == SITE_NONE) {
            parts[count++] = own;
            seconds += own;
            least += own / 60;
        } else {
            seconds += 2 * own;
            of_two += 2 * minutes_of(own);
        }
    }
    int64_t sum = minutes_of(seconds) - of_two;
    apportion(parts, count, 60, sum > least ? sum : least, whole);
    for (size_t i = 0; i < draft->count; i++) {
        bool one = sorted[i]->batch.helper == SITE_NONE;
        minutes[sorted[i] - draft->placed] = one ? whole[at] : minutes_of(sorted[i]->laid.hands_on_s);
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
