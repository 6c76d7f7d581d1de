/* When a film reaches a state, on the grid of 5 minutes: sums and inverses of a drying clock, in whole numbers. */
#include "finish/drying.h"

#include "base/number.h"

/* The spell that a minute lies in; a minute before the first counts to it. Looks from spell `i` on. */
static size_t spell_on(const struct drying_clock *clock, size_t i, int64_t minute)
{
    while (i + 1 < clock->count && clock->from_min[i + 1] <= minute)
        i++;
    return i;
}

static size_t spell_at(const struct drying_clock *clock, int64_t minute)
{
    size_t low = 0, high = clock->count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (clock->from_min[middle] <= minute)
            low = middle;
        else
            high = middle;
    }
    return low;
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
