#include "timetable/bounds.h"

#include "base/arena.h"

#include <string.h>

/* What is known of a kind. */
struct tally {
    int64_t seconds, minutes; /* of all its units; rounded up once */
    int64_t rack;             /* of all its items */
    int32_t longest_unit;
    int32_t handle;  /* the least time for which an item lies on the rack */
    bool shares_lot; /* two rows of one lot have it: the rack counts it once */
};

static int64_t divide_up(int64_t amount, int64_t by)
{
    return (amount + by - 1) / by;
}

/* Rows cut where more than so many minutes lie between: the most groups of a row, and the minutes of the largest group of
 * each row together. */
struct groups {
    int64_t most, widest;
};

static struct groups groups_of(const struct site *site, const int32_t *gap, int kind, int64_t apart)
{
    struct groups groups = {0, 0};
    int64_t count = 0, minutes = 0, largest = 0;
    for (size_t i = 0; i <= site->count; i++) {
        bool own = i < site->count && site->rows[i].kind == kind && !site->rows[i].operation->late_scuff;
        bool row_ends = i == site->count ||
                        (i > 0 && (site->rows[i].operation->chain != site->rows[i - 1].operation->chain ||
                                   site->rows[i].job != site->rows[i - 1].job));
        if (row_ends) {
            groups.most = count > groups.most ? count : groups.most;
            groups.widest += largest;
            count = minutes = largest = 0;
        }
        if (!own)
            continue;
        bool cut = gap[i] == SITE_NONE || gap[i] > apart;
        count += cut;
        minutes = (cut ? 0 : minutes) + divide_up(site->rows[i].operation->units.seconds, 60);
        largest = minutes > largest ? minutes : largest;
    }
    return groups;
}

static void count_items(const struct site *site, struct tally *tallies)
{
    for (size_t i = 0; i < site->count; i++) {
        const struct task_row *row = &site->rows[i];
        struct tally *tally = &tallies[row->kind];
        if (row->operation->late_scuff)
            continue;
        tally->seconds += row->operation->units.seconds;
        tally->rack += row->rack;
        int32_t unit = (row->operation->units.longest_s + 59) / 60;
        tally->longest_unit = unit > tally->longest_unit ? unit : tally->longest_unit;
        if (row->film) {
            int32_t handle = site_fastest(site, (int)i, STATE_HANDLE);
            tally->handle = handle < tally->handle ? handle : tally->handle;
        }
        for (size_t k = i; k > 0 && site->rows[k - 1].lot == row->lot; k--)
            tally->shares_lot |= site->rows[k - 1].kind == row->kind &&
                                 site->rows[k - 1].operation->chain != row->operation->chain;
    }
}

static struct tally *count_kinds(const struct site *site)
{
    struct tally *tallies = ARENA_ARRAY(site->arena, site->kind_count, struct tally);
    for (size_t k = 0; k < site->kind_count; k++)
        tallies[k].handle = SITE_NEVER;
    count_items(site, tallies);
    for (size_t k = 0; k < site->kind_count; k++)
        tallies[k].minutes = divide_up(tallies[k].seconds, 60);
    return tallies;
}

/* Minutes that a batch may pause in all, and lose before its pauses. */
static int32_t pauses_most(const struct site *site, const struct kind *kind, int32_t longest_unit)
{
    int32_t most = 0;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        if (kind->rest < worker->gap_least)
            continue;
        int32_t pauses = worker->gaps_most + worker->breaks_most * (longest_unit + MIXING_MIN);
        if (kind->rest != INT32_MAX && kind->rest >= worker->night_least)
            return SITE_NEVER / 2;
        most = pauses > most ? pauses : most;
    }
    return most;
}

/* Minutes of work that one batch can hold: the longest row of stretches between which it may lie. */
static int64_t batch_most(const struct site *site, const struct kind *kind)
{
    int64_t most = 0;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        int64_t run = 0;
        for (size_t i = 0; i < worker->duty_count && worker_can(worker, kind->needs); i++) {
            const struct duty *duty = &worker->duties[i];
            bool goes_on = i > 0 && (kind->rest == INT32_MAX ? duty[-1].day == duty->day
                                                             : duty->from - duty[-1].to <= kind->rest);
            run = (goes_on ? run : 0) + duty->to - duty->from;
            most = run > most ? run : most;
        }
    }
    return most;
}

static int64_t mixes_least(const struct kind *kind, int64_t minutes, int64_t batches)
{
    if (!kind->mixed)
        return 0;
    int64_t mixes = kind->working == INT32_MAX ? 1 : divide_up(minutes, kind->working);
    return mixes > batches ? mixes : batches;
}

/* Minutes that can pass within a batch that holds so much. */
static int64_t filled(const struct site *site, const struct kind *kind, const struct tally *tally,
                      int64_t units)
{
    return units + mixes_least(kind, units, 1) * MIXING_MIN + kind->induction +
           pauses_most(site, kind, tally->longest_unit);
}

/* Rows fall into groups of which a batch holds one at the most. Take the first item in a batch whose row has an item of an
 * earlier group there too: all before it in the batch are of one group of each row, so no more time has passed than the
 * largest groups fill. Where more must pass there is no such item. */
static struct groups apart_groups(const struct site *site, const int32_t *gap, int k,
                                  const struct tally *tally, int64_t *passes)
{
    const struct kind *kind = &site->kinds[k];
    *passes = filled(site, kind, tally, groups_of(site, gap, k, -1).widest);
    struct groups groups = groups_of(site, gap, k, *passes);
    if (filled(site, kind, tally, groups.widest) <= *passes)
        return groups;
    *passes = filled(site, kind, tally, tally->minutes);
    for (;;) {
        groups = groups_of(site, gap, k, *passes);
        int64_t less = filled(site, kind, tally, groups.widest);
        if (less >= *passes)
            return groups;
        *passes = less;
    }
}

/* How many batches a kind has at the least. */
static int64_t batches_least(const struct site *site, const int32_t *gap, int k, const struct tally *tally)
{
    const struct kind *kind = &site->kinds[k];
    int64_t room = batch_most(site, kind) - kind->set_up - kind->clean_up, passes;
    struct groups groups = apart_groups(site, gap, k, tally, &passes);
    int64_t batches = groups.most > 1 ? groups.most : 1;
    if (room > 0 && divide_up(tally->minutes, room) > batches)
        batches = divide_up(tally->minutes, room);
    bool all_lie = tally->handle < SITE_NEVER && tally->handle > filled(site, kind, tally, groups.widest);
    if (site->rack > 0 && all_lie && !tally->shares_lot && divide_up(tally->rack, site->rack) > batches)
        batches = divide_up(tally->rack, site->rack);
    return batches;
}

static int64_t work_of(const struct site *site, const int32_t *gap, int k, const struct tally *tally)
{
    const struct kind *kind = &site->kinds[k];
    int64_t batches = batches_least(site, gap, k, tally), mixes = mixes_least(kind, tally->minutes, batches);
    return tally->minutes + batches * (kind->set_up + kind->clean_up + kind->induction) + mixes * MIXING_MIN;
}

/* The first moment at which somebody who can is at work. */
static int32_t on_duty(const struct site *site, unsigned needs, int32_t at)
{
    int32_t first = SITE_NEVER;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        size_t duty = crew_duty_at(worker, at);
        if (!worker_can(worker, needs) || duty >= worker->duty_count)
            continue;
        int32_t from = worker->duties[duty].from > at ? worker->duties[duty].from : at;
        first = from < first ? from : first;
    }
    return first;
}

/* The first moment at which so much has been set up and mixed by somebody, from the very start. */
static int32_t set_up_by(const struct site *site, const struct kind *kind, int32_t release)
{
    int32_t least = SITE_NEVER, set_up = kind->set_up + (kind->mixed ? MIXING_MIN + kind->induction : 0);
    (void)release;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        int32_t left = set_up;
        for (size_t i = 0; i < worker->duty_count && worker_can(worker, kind->needs); i++) {
            int32_t length = worker->duties[i].to - worker->duties[i].from;
            if (left < length) {
                int32_t at = worker->duties[i].from + left;
                least = at < least ? at : least;
                break;
            }
            left -= length;
        }
    }
    return least;
}

static int32_t earliest(const struct site *site, int item, const int32_t *end, const int32_t *start)
{
    const struct task_row *row = &site->rows[item];
    const struct kind *kind = &site->kinds[row->kind];
    int32_t at = set_up_by(site, kind, row->release);
    at = row->release > at ? row->release : at;
    for (size_t k = 0; k < row->in_count; k++) {
        const struct link *link = &site->operations->links[row->in[k]];
        if (site_link_is_limit(link) || site->rows[link->from].operation->late_scuff || end[link->from] < 0)
            continue;
        int32_t then = site_link(site, link, start[link->from], end[link->from]);
        at = then > at ? then : at;
    }
    for (;;) {
        int32_t duty = on_duty(site, kind->needs, at);
        const struct spell *bad =
            row->film && duty < SITE_NEVER ? site_spell(&row->film->wet, duty, duty + 1) : NULL;
        if (!bad)
            return duty;
        at = bad->to;
    }
}

/* Waits alone: links mostly point forward, so that one pass or two settle them. */
static void pass_forward(const struct site *site, int32_t *start, int32_t *end)
{
    for (size_t i = 0; i < site->count; i++)
        end[i] = SITE_NONE;
    bool moved = true;
    for (int round = 0; round < 50 && moved; round++) {
        moved = false;
        for (size_t i = 0; i < site->count; i++) {
            if (site->rows[i].operation->late_scuff)
                continue;
            int32_t at = earliest(site, (int)i, end, start);
            if (end[i] >= 0 && at <= start[i])
                continue;
            start[i] = at;
            end[i] = at >= SITE_NEVER ? SITE_NEVER : at + site->rows[i].operation->minutes;
            moved = true;
        }
    }
}

static int32_t lines_of(const struct site *site, int item, int32_t end)
{
    int32_t ready = 0;
    for (int line = site->rows[item].line; line != SITE_NONE; line = site->next_line[line]) {
        int32_t at = end >= SITE_NEVER ? SITE_NEVER : site_line(site, &site->operations->lines[line], end);
        ready = at > ready ? at : ready;
    }
    return ready;
}

int32_t bounds_ready(const struct site *site, int job)
{
    int32_t *start = ARENA_ARRAY(site->arena, site->count, int32_t), ready = site->jobs[job].floor;
    int32_t *end = ARENA_ARRAY(site->arena, site->count, int32_t);
    pass_forward(site, start, end);
    for (size_t i = 0; i < site->count; i++) {
        if (site->rows[i].job != job || site->rows[i].operation->late_scuff)
            continue;
        int32_t at = lines_of(site, (int)i, end[i]);
        ready = at > ready ? at : ready;
    }
    return ready;
}

/* Minutes on duty of the busiest `people` up to a moment. */
static int64_t hands_until(const struct site *site, int people, int32_t until)
{
    int64_t most[PEOPLE_MOST] = {0}, sum = 0;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        int64_t minutes = 0;
        for (size_t i = 0; i < worker->duty_count && worker->duties[i].from < until; i++)
            minutes += (worker->duties[i].to < until ? worker->duties[i].to : until) - worker->duties[i].from;
        int at = p;
        for (; at > 0 && most[at - 1] < minutes; at--)
            most[at] = most[at - 1];
        most[at] = minutes;
    }
    for (int p = 0; p < people; p++)
        sum += most[p];
    return sum;
}

static int32_t done_by(const struct site *site, int people, int64_t work)
{
    int32_t low = 0, high = site->crew->horizon;
    if (hands_until(site, people, high) < work)
        return high;
    while (low < high) {
        int32_t middle = low + (high - low) / 2;
        if (hands_until(site, people, middle) >= work)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

/* All units and a set-up of each kind, shared by some of the people, each with a set-up at least. */
static int32_t all_hands(const struct site *site)
{
    int64_t units = 0, set_ups = 0, least = INT64_MAX;
    int32_t best = SITE_NEVER;
    for (size_t i = 0; i < site->count; i++)
        units += site->rows[i].operation->late_scuff ? 0 : site->rows[i].operation->units.seconds;
    for (size_t k = 0; k < site->kind_count; k++) {
        set_ups += site->kinds[k].set_up;
        least = site->kinds[k].set_up < least ? site->kinds[k].set_up : least;
    }
    for (int people = 1; people <= site->crew->count; people++) {
        int64_t more = least < INT64_MAX ? people * least : 0;
        int32_t at = done_by(site, people, units / 60 + (set_ups > more ? set_ups : more));
        best = at < best ? at : best;
    }
    return best;
}

struct least bounds_of(const struct site *site)
{
    struct least least = {0, 0};
    const struct tally *tallies = count_kinds(site);
    for (size_t k = 0; k < site->kind_count; k++)
        if (tallies[k].minutes > 0)
            least.work += work_of(site, site->gap, (int)k, &tallies[k]);
    for (int j = 0; j < site->job_count; j++) {
        int32_t ready = bounds_ready(site, j);
        least.ready = ready > least.ready ? ready : least.ready;
    }
    int32_t hands = all_hands(site);
    least.ready = hands > least.ready ? hands : least.ready;
    return least;
}
