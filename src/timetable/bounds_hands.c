/* How soon all people together can be through with the work that cannot begin before some moment, and the job be ready behind it. */
#include "base/arena.h"
#include "timetable/bounds.h"

#include <stdlib.h>

enum { MOMENTS_MOST = 100 };

/* Minutes on duty of the busiest `people` between two moments. */
static int64_t hands_between(const struct site *site, int people, int32_t from, int32_t until)
{
    int64_t most[PEOPLE_MOST] = {0}, sum = 0;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        int64_t minutes = 0;
        for (size_t i = crew_duty_at(worker, from); i < worker->duty_count && worker->duties[i].from < until;
             i++) {
            const struct duty *duty = &worker->duties[i];
            minutes += (duty->to < until ? duty->to : until) - (duty->from > from ? duty->from : from);
        }
        int at = p;
        for (; at > 0 && most[at - 1] < minutes; at--)
            most[at] = most[at - 1];
        most[at] = minutes;
    }
    for (int p = 0; p < people; p++)
        sum += most[p];
    return sum;
}

int32_t bounds_hands_done(const struct site *site, int people, int32_t from, int64_t work)
{
    int32_t low = from, high = site->crew->horizon;
    if (high <= from || hands_between(site, people, from, high) < work)
        return from > high ? from : high;
    while (low < high) {
        int32_t middle = low + (high - low) / 2;
        if (hands_between(site, people, from, middle) >= work)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

/* Work that cannot begin before a moment; minutes of the kinds that it is of. */
struct late_work {
    int64_t units_s, set_ups, clean_ups;
    int32_t most_set_up, most_clean_up, least_set_up;
};

static void add_kind(struct late_work *late, const struct kind *kind)
{
    int32_t set_up = bounds_before_units(kind);
    late->set_ups += set_up;
    late->clean_ups += kind->clean_up;
    bounds_raise(&late->most_set_up, set_up);
    late->least_set_up = set_up < late->least_set_up ? set_up : late->least_set_up;
}

static int64_t larger(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

/* When the last unit can be done by some of the people. Each of them may have set up before the moment for what he begins with, but
 * not where that is the very beginning, and clean up behind the last unit. `all_s`: seconds of all work there is; 0: of no account. */
static int32_t last_unit(const struct site *site, const struct late_work *late, int32_t from, int64_t all_s)
{
    int32_t best = SITE_NEVER;
    for (int people = 1; people <= site->crew->count; people++) {
        int64_t set_ups = larger(late->set_ups - (int64_t)people * late->most_set_up, 0);
        if (all_s > 0 && late->set_ups > 0)
            set_ups = larger(late->set_ups, (int64_t)people * late->least_set_up);
        int64_t clean_ups = larger(late->clean_ups - (int64_t)people * late->most_clean_up, 0);
        int64_t work = larger(late->units_s / MINUTE_S + set_ups + clean_ups,
                              all_s / MINUTE_S - (int64_t)people * late->most_clean_up);
        int32_t at = bounds_hands_done(site, people, from, work);
        best = at < best ? at : best;
    }
    return best;
}

static bool is_last(const struct site *site, int item)
{
    const struct task_row *row = &site->rows[item];
    for (size_t k = 0; k < row->out_count; k++) {
        const struct link *link = &site->operations->links[row->out[k]];
        if (!site_link_is_limit(link) && !site->rows[link->to].optional)
            return false;
    }
    return true;
}

struct beginning {
    int32_t at;
    int item;
};

static int latest_first(const void *a, const void *b)
{
    const struct beginning *left = a, *right = b;
    if (left->at != right->at)
        return left->at > right->at ? -1 : 1;
    return left->item - right->item;
}

/* Of some items those behind which nothing is done: one of them ends last, and the job is ready behind it. */
static int32_t ready_behind(const struct site *site, const int *lasts, size_t count, int32_t end)
{
    int32_t ready = SITE_NEVER;
    for (size_t i = 0; i < count; i++) {
        int32_t own = bounds_line(site, lasts[i], end);
        ready = own < ready ? own : ready;
    }
    return count > 0 ? ready : 0;
}

int32_t bounds_hands_ready(const struct site *site, const int32_t *start, int64_t work_s)
{
    struct beginning *begins = ARENA_ARRAY(site->arena, site->count, struct beginning);
    int *lasts = ARENA_ARRAY(site->arena, site->count, int);
    bool *seen = ARENA_ARRAY(site->arena, site->kind_count, bool);
    struct late_work late = {.least_set_up = INT32_MAX};
    size_t count = 0, last_count = 0;
    int32_t ready = 0;
    for (size_t i = 0; i < site->count; i++)
        if (!site->rows[i].optional && start[i] < SITE_NEVER)
            begins[count++] = (struct beginning){start[i], (int)i};
    qsort(begins, count, sizeof *begins, latest_first);
    for (size_t n = 0, looked = 0; n < count; n++) {
        int item = begins[n].item;
        const struct task_row *row = &site->rows[item];
        late.units_s += row->operation->units.seconds * bounds_hands(site, (size_t)item);
        if (!seen[row->kind] && row->operation->units.seconds > 0)
            add_kind(&late, &site->kinds[row->kind]);
        seen[row->kind] |= row->operation->units.seconds > 0;
        bounds_raise(&late.most_clean_up, row->clean_up); /* its kind may ask for less */
        if (is_last(site, item))
            lasts[last_count++] = item;
        bool all = n + 1 == count;
        if (!all && (begins[n + 1].at == begins[n].at || n + 1 < looked * count / MOMENTS_MOST))
            continue;
        looked++;
        int32_t from = all ? bounds_begin(site) : begins[n].at - 1; /* moments are told rounded up */
        int32_t end = last_unit(site, &late, from, all ? work_s : 0);
        bounds_raise(&ready, ready_behind(site, lasts, last_count, end));
    }
    return ready;
}
