/* The least work of a kind: batches, mixes. */
#include "base/arena.h"
#include "timetable/bounds_kinds.h"
#include "timetable/lay.h"

#include <stdlib.h>

enum { MIXES_MOST = 100, BATCHES_MOST = 40 };

static void count_items(const struct counting *c, struct tally *tally)
{
    for (size_t i = 0; i < tally->count; i++) {
        int item = tally->items[i];
        const struct task_row *row = &c->site->rows[item];
        const struct units *units = &row->operation->units;
        tally->seconds += units->seconds;
        tally->longest_s = units->longest_s > tally->longest_s ? units->longest_s : tally->longest_s;
        if (row->film) {
            int32_t handle = site_fastest(c->site, item, STATE_HANDLE);
            tally->handle = handle < tally->handle ? handle : tally->handle;
        }
    }
}

static void lengthen(const struct counting *c, int from, int to)
{
    if (c->most[from] < c->most[to])
        return;
    c->most[to] = c->most[from] + 1;
    c->before[to] = from;
}

/* For qsort without a context: an item with what it is sorted by. */
struct sorted {
    int32_t by;
    int place, item;
};

static int rising(const void *a, const void *b)
{
    const struct sorted *left = a, *right = b;
    if (left->by != right->by)
        return left->by < right->by ? -1 : 1;
    return left->place - right->place;
}

static struct sorted *sort_items(const struct counting *c, const struct tally *tally, const int32_t *by)
{
    struct sorted *sorted = ARENA_ARRAY(c->arena, tally->count, struct sorted);
    for (size_t i = 0; i < tally->count; i++)
        sorted[i] = (struct sorted){by[tally->items[i]], c->betweens.place[tally->items[i]], tally->items[i]};
    qsort(sorted, tally->count, sizeof *sorted, rising);
    return sorted;
}

/* The longest row of items of which each is apart from the next: by what is between, or since the first must end long before
 * the other can start. `row`, with room for all, gets them from the last to the first. */
static size_t longest_row(const struct counting *c, const struct tally *tally, int64_t apart_s, int *row)
{
    const struct sorted *firsts = sort_items(c, tally, c->key);
    const struct sorted *lasts = sort_items(c, tally, c->windows.last);
    int ended = SITE_NONE, longest = firsts[0].item;
    size_t over = 0, count = 0;
    for (size_t i = 0; i < tally->count; i++) {
        c->most[tally->items[i]] = 1;
        c->before[tally->items[i]] = SITE_NONE;
    }
    for (size_t i = 0; i < tally->count; i++) {
        int item = firsts[i].item;
        for (; over < tally->count && lasts[over].by < SITE_NEVER &&
               ((int64_t)firsts[i].by - lasts[over].by) * MINUTE_S > apart_s;
             over++)
            if (ended == SITE_NONE || c->most[lasts[over].item] > c->most[ended])
                ended = lasts[over].item;
        if (ended != SITE_NONE)
            lengthen(c, ended, item);
        longest = c->most[item] > c->most[longest] ? item : longest;
        for (size_t k = c->betweens.first[item]; k < c->betweens.first[item + 1]; k++)
            if ((int64_t)c->betweens.items[k].wait * MINUTE_S > apart_s)
                lengthen(c, item, c->betweens.items[k].to);
    }
    for (int item = longest; item != SITE_NONE; item = c->before[item])
        row[count++] = item;
    return count;
}

/* Seconds of work that one batch can hold: the longest row of stretches between which it may lie. */
static int64_t batch_most(const struct site *site, const struct kind *kind)
{
    int64_t most = 0;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        int64_t run = 0;
        for (size_t i = 0; i < worker->duty_count && worker_can(worker, kind->needs); i++) {
            const struct duty *duty = &worker->duties[i];
            run = (i > 0 && lay_may_go_on(kind, duty) ? run : 0) + duty->to - duty->from;
            most = run > most ? run : most;
        }
    }
    return most * MINUTE_S;
}

/* Seconds of units that one batch can hold: of its longest day, less set-up, clean-up and as many mixes as that is worked in. */
static int64_t units_most(const struct site *site, const struct kind *kind)
{
    int64_t room = batch_most(site, kind) - (int64_t)(kind->set_up + kind->clean_up) * MINUTE_S, most = 0;
    if (!kind->mixed)
        return room;
    room -= (int64_t)kind->induction * MINUTE_S;
    if (kind->working == INT32_MAX)
        return room - (int64_t)MIXING_MIN * MINUTE_S;
    for (int64_t mixes = 1; mixes * MIXING_MIN * MINUTE_S < room; mixes++) {
        int64_t left = room - mixes * MIXING_MIN * MINUTE_S, worked = mixes * kind->working * MINUTE_S;
        int64_t units = left < worked ? left : worked;
        most = units > most ? units : most;
        if (left <= worked)
            break;
    }
    return most;
}

static int64_t batches_for_days(const struct counting *c, const struct tally *tally)
{
    int64_t room = units_most(c->site, tally->kind);
    for (size_t i = 0; i < tally->count; i++)
        c->sizes[i] = c->site->rows[tally->items[i]].operation->units.seconds;
    return room > 0 ? bins_least(c->sizes, tally->count, room) : 1;
}

/* What a lot takes, of work and on the rack. */
struct load {
    int64_t seconds, rack;
};

/* Most work for its room first. */
static int by_room(const void *a, const void *b)
{
    const struct load *left = a, *right = b;
    int64_t first = left->seconds * right->rack, second = right->seconds * left->rack;
    return first > second ? -1 : first < second;
}

/* No more seconds of units than these are done when the first lot begins that overfills the rack, if nothing leaves it: of the lots
 * before it, and a part of one. */
static int64_t until_full(const struct counting *c, const struct tally *tally)
{
    const struct task_row *rows = c->site->rows;
    struct load *loads = ARENA_ARRAY(c->arena, tally->count, struct load);
    int64_t room = c->site->rack, seconds = 0;
    size_t count = 0;
    for (size_t i = 0; i < tally->count; i++) {
        int item = tally->items[i];
        bool same = i > 0 && rows[tally->items[i - 1]].lot == rows[item].lot;
        if (!same)
            loads[count++] = (struct load){0, rows[item].rack};
        loads[count - 1].seconds += rows[item].operation->units.seconds;
    }
    int64_t least = INT64_MAX, taken = 0;
    for (size_t i = 0; i < count; i++) {
        least = loads[i].rack > 0 && loads[i].seconds < least ? loads[i].seconds : least;
        taken += loads[i].rack;
    }
    qsort(loads, count, sizeof *loads, by_room);
    for (size_t i = 0; i < count && room > 0; i++) {
        int64_t rack = loads[i].rack < room ? loads[i].rack : room;
        seconds +=
            loads[i].rack > 0 ? bounds_divide_up(loads[i].seconds * rack, loads[i].rack) : loads[i].seconds;
        room -= rack;
    }
    int64_t without_one = tally->seconds - least;
    return taken > c->site->rack && without_one < seconds ? without_one : seconds;
}

/* Of each lot as many items as are apart in its rows, at the most. All of a batch lie on the rack at once where they are dry to
 * handle only after it is through, or after it has overfilled the rack: it does not stand still in between. */
static int64_t batches_for_rack(const struct counting *c, const struct tally *tally, int64_t apart_s)
{
    const struct site *site = c->site;
    size_t count = 0;
    if (site->rack <= 0 || tally->handle >= SITE_NEVER)
        return 1;
    int64_t full_s = kind_filled(site, tally, until_full(c, tally)),
            handle_s = (int64_t)tally->handle * MINUTE_S;
    if (handle_s <= apart_s && handle_s <= full_s)
        return 1;
    for (size_t i = 0, next; i < tally->count; i = next) {
        int lot = site->rows[tally->items[i]].lot;
        int64_t most = 0, own = 0;
        for (next = i; next < tally->count && site->rows[tally->items[next]].lot == lot;) {
            bool begins = next == i || !kind_same_row(site, tally->items[next - 1], tally->items[next]);
            own = begins ? 1 : own + 1;
            most = own > most ? own : most;
            size_t until = kind_row_until(c, tally, next, apart_s);
            next = until;
        }
        for (int64_t k = 0; k < most; k++)
            c->sizes[count++] = site->rows[tally->items[i]].rack;
    }
    return bins_least(c->sizes, count, site->rack);
}

/* A unit that outlasts a mix has some of its own, and shares the last of them. */
static int64_t mixes_least(const struct counting *c, const struct tally *tally)
{
    const struct kind *kind = tally->kind;
    int64_t whole = 0, working = (int64_t)kind->working * MINUTE_S;
    size_t count = 0, room = 0;
    int64_t *sizes = NULL;
    if (!kind->mixed)
        return 0;
    for (size_t i = 0; i < tally->count && kind->working != INT32_MAX; i++) {
        const struct units *units = &c->site->rows[tally->items[i]].operation->units;
        for (size_t k = 0; k < units->count; k++) {
            int64_t unit = units->ends_s[k] - (k > 0 ? units->ends_s[k - 1] : 0);
            int64_t more = unit > 0 ? (unit - 1) / working : 0;
            whole += more;
            sizes = arena_grow(c->arena, sizes, count, &room, sizeof *sizes);
            sizes[count++] = unit - more * working;
        }
    }
    int64_t mixes = count > 0 ? whole + bins_least(sizes, count, working) : 1;
    return mixes > 1 ? mixes : 1;
}

/* Minutes of units that so many mixes serve where a batch pauses: for each number of them made before its first break. The last of these
 * must live until the break is over, and the rest of its working time, if any is left, is less by the break. */
static int64_t mixes_over_break(const struct kind *kind, int64_t mixes, int64_t stretch, int64_t gap)
{
    int64_t working = kind->working, most = 0;
    for (int64_t before = 1; before <= mixes; before++) {
        int64_t stood = before == 1 ? kind->induction : 0, last = working;
        if (kind->pot_life != INT32_MAX && kind->pot_life - gap - stood < last)
            last = kind->pot_life - gap - stood;
        if (last < 0)
            continue;
        int64_t laid = (before - 1) * working + last, room = stretch - before * MIXING_MIN;
        int64_t all = (laid < room ? laid : room) + (mixes - before) * working;
        int64_t shared = mixes * working - gap;
        all = shared > all ? shared : all;
        most = all > most ? all : most;
    }
    return most;
}

/* Seconds of units that one batch with so many mixes can hold: within one stretch, or over breaks. */
static int64_t mixes_hold(const struct site *site, const struct tally *tally, int64_t mixes)
{
    const struct kind *kind = tally->kind;
    int64_t stretch = 0, gap = SITE_NEVER;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        int32_t shortest = worker->gap_least < worker->night_least ? worker->gap_least : worker->night_least;
        gap = shortest < gap ? shortest : gap;
        for (size_t i = 0; i < worker->duty_count && worker_can(worker, kind->needs); i++) {
            int32_t length = worker->duties[i].to - worker->duties[i].from;
            stretch = length > stretch ? length : stretch;
        }
    }
    int64_t fixed = kind->clean_up + mixes * MIXING_MIN;
    int64_t over = (batch_most(site, kind) / MINUTE_S) - fixed - kind->set_up - kind->induction;
    stretch -= kind->induction;
    stretch -= tally->flips_s > 0
                   ? 0
                   : kind->set_up; /* a turn may stand before the break, the first mix behind it */
    int64_t paused = mixes_over_break(kind, mixes, stretch, gap), within = stretch - fixed;
    over = over < paused ? over : paused;
    within = within < mixes * kind->working ? within : mixes * kind->working;
    int64_t most = over > within ? over : within;
    return most > 0 ? most * MINUTE_S : 0;
}

/* The fewest mixes in so many batches that hold all units: the most that m mixes in n batches hold, batch by batch. */
static int64_t mixes_in(const struct site *site, const struct tally *tally, int64_t batches, int64_t at_least)
{
    int64_t hold[MIXES_MOST + 1], most[MIXES_MOST + 1] = {0};
    if (batches > BATCHES_MOST)
        return at_least;
    for (int64_t m = 1; m <= MIXES_MOST; m++)
        hold[m] = mixes_hold(site, tally, m);
    for (int64_t m = 1; m <= MIXES_MOST; m++)
        most[m] = -1;
    for (int64_t n = 1; n <= batches; n++)
        for (int64_t m = MIXES_MOST; m >= 0; m--) {
            int64_t best = -1;
            for (int64_t own = 1; own <= m; own++)
                if (most[m - own] >= 0 && most[m - own] + hold[own] > best)
                    best = most[m - own] + hold[own];
            most[m] = best;
        }
    for (int64_t m = at_least > batches ? at_least : batches; m <= MIXES_MOST; m++)
        if (most[m] >= tally->seconds)
            return m;
    return at_least;
}

/* Seconds beside the units: of so many batches, or of more, which may do with fewer mixes. */
static int64_t overhead(const struct counting *c, const struct tally *tally, int64_t batches)
{
    const struct kind *kind = tally->kind;
    int64_t each = kind->set_up + kind->clean_up + kind->induction, mixes = mixes_least(c, tally),
            best = INT64_MAX;
    if (!kind->mixed || kind->working == INT32_MAX)
        return batches * (each + (kind->mixed ? MIXING_MIN : 0)) * MINUTE_S;
    for (int64_t n = batches; n * each + (mixes > n ? mixes : n) * MIXING_MIN < best; n++) {
        int64_t least = mixes > n ? mixes : n, in = mixes_in(c->site, tally, n, least);
        int64_t all = n * each + (in > least ? in : least) * MIXING_MIN;
        best = all < best ? all : best;
    }
    return best * MINUTE_S;
}

/* Where each row has as many items that are apart as there are batches, one of each is in every batch: the mixes of these loads.
 * 0: it is not so, or of no account; INT64_MAX: some load is more than a batch holds, so that there are more of them. */
static int64_t forced_mixes(const struct counting *c, const struct tally *tally, int64_t apart_s,
                            int64_t batches)
{
    int64_t *load = ARENA_ARRAY(c->arena, (size_t)batches, int64_t), mixes = 0;
    for (size_t i = 0, next; i < tally->count; i = next) {
        next = i + 1;
        bool each = true;
        while (next < tally->count && kind_same_row(c->site, tally->items[i], tally->items[next])) {
            each = each && kind_row_until(c, tally, next - 1, apart_s) == next;
            next++;
        }
        for (size_t k = i; k < next && each && (int64_t)(next - i) == batches; k++)
            load[k - i] += c->site->rows[tally->items[k]].operation->units.seconds;
    }
    bool sets = tally->kind->mixed && tally->kind->working != INT32_MAX;
    for (int64_t b = 0; b < batches; b++) {
        int64_t own = 1;
        if (load[b] > units_most(c->site, tally->kind))
            return INT64_MAX;
        while (sets && own < MIXES_MOST && mixes_hold(c->site, tally, own) < load[b])
            own++;
        mixes += own;
    }
    return sets ? mixes : 0;
}

/* Minutes by which an item asks for more set-up and clean-up than its kind at the least. */
static int32_t own_minutes(const struct counting *c, const struct tally *tally, int item)
{
    const struct task_row *row = &c->site->rows[item];
    return row->set_up - tally->kind->set_up + row->clean_up - tally->kind->clean_up;
}

/* Seconds of the set-ups and clean-ups that some work of a kind asks for and other does not: once for each of the longest row of those that
 * ask for so much, or for more. */
static int64_t dearer(const struct counting *c, const struct tally *tally, int64_t apart_s)
{
    if (!tally->kind->unlike)
        return 0;
    int *items = ARENA_ARRAY(c->arena, tally->count, int), *row = ARENA_ARRAY(c->arena, tally->count, int);
    int64_t seconds = 0;
    for (int32_t asked = 0, next = 0; next < INT32_MAX; asked = next) {
        struct tally dear = *tally;
        dear.items = items;
        dear.count = 0;
        next = INT32_MAX;
        for (size_t i = 0; i < tally->count; i++) {
            int32_t own = own_minutes(c, tally, tally->items[i]);
            if (own <= asked)
                continue;
            items[dear.count++] = tally->items[i];
            next = own < next ? own : next;
        }
        if (dear.count > 0)
            seconds += (int64_t)longest_row(c, &dear, apart_s, row) * (next - asked) * MINUTE_S;
    }
    return seconds;
}

static struct fewest_kind fewest_of(struct counting *c, struct tally *tally)
{
    int64_t apart_s = kind_apart(c, tally);
    if (kind_part_pairs(c, tally, apart_s))
        apart_s = kind_apart(c, tally);
    tally->apart_s = apart_s;
    int *row = ARENA_ARRAY(c->arena, tally->count, int), *in_time = ARENA_ARRAY(c->arena, tally->count, int);
    size_t leads = longest_row(c, tally, apart_s, row), in_time_count = kind_row_in_time(c, tally, in_time);
    if (in_time_count >= leads) {
        row = in_time;
        leads = in_time_count;
    }
    for (size_t i = 0; i < leads; i++)
        c->leads[row[i]] = true;
    int64_t days = batches_for_days(c, tally), rack = batches_for_rack(c, tally, apart_s),
            batches = (int64_t)leads;
    batches = days > batches ? days : batches;
    batches = rack > batches ? rack : batches;
    int64_t forced = batches > 0 ? forced_mixes(c, tally, apart_s, batches) : 0;
    batches += forced == INT64_MAX;
    kind_group(c, tally, row, (int64_t)leads == batches ? leads : 0);
    struct fewest_kind fewest = {.count = tally->count, .batches = batches, .apart_s = apart_s};
    for (int more = 0; more <= FEWEST_MORE; more++)
        fewest.cost_s[more] = overhead(c, tally, batches + more);
    const struct kind *kind = tally->kind;
    int64_t each = kind->set_up + kind->clean_up + kind->induction;
    int64_t so_many = forced == INT64_MAX ? 0 : (batches * each + forced * MIXING_MIN) * MINUTE_S;
    so_many = so_many < fewest.cost_s[1] ? so_many : fewest.cost_s[1];
    fewest.cost_s[0] = so_many > fewest.cost_s[0] ? so_many : fewest.cost_s[0];
    int64_t dear_s = dearer(c, tally, apart_s);
    for (int more = 0; more <= FEWEST_MORE; more++)
        fewest.cost_s[more] += dear_s;
    return fewest;
}

/* The turns that may be done among the coats of a kind, and how long a batch stands idle where less is left before a break than one
 * of them, or a unit, and its mixes take. */
static void count_turns(const struct site *site, int kind, struct tally *tally)
{
    const struct kind *own = tally->kind;
    int64_t longest = tally->longest_s, mixes = 1;
    for (size_t i = 0; i < site->count; i++) {
        const struct units *units = &site->rows[i].operation->units;
        int coat = site_turned_for(site, (int)i);
        if (coat == SITE_NONE || site->rows[coat].kind != kind)
            continue;
        tally->flips_s += units->seconds;
        longest = units->longest_s > longest ? units->longest_s : longest;
    }
    if (own->working != INT32_MAX)
        mixes += longest / MINUTE_S / own->working;
    tally->idle_s = longest + (own->mixed ? mixes * MIXING_MIN * MINUTE_S : 0);
}

static void fill_keys(struct counting *c)
{
    for (size_t i = 0; i < c->site->count; i++)
        c->key[i] = c->windows.first[i];
    for (size_t n = 0; n < c->betweens.ordered; n++) {
        int item = c->betweens.order[n];
        for (size_t k = c->betweens.first[item]; k < c->betweens.first[item + 1]; k++) {
            int to = c->betweens.items[k].to;
            c->key[to] = c->key[item] > c->key[to] ? c->key[item] : c->key[to];
        }
    }
}

/* Adds the units of a kind. */
static struct fewest_kind count_kind(struct counting *c, int kind, struct tally *told, int64_t *units_s)
{
    size_t count = 0;
    for (size_t i = 0; i < c->site->count; i++)
        count += c->site->rows[i].kind == kind && !c->site->rows[i].optional;
    int *items = ARENA_ARRAY(c->arena, count, int);
    struct tally tally = {.kind = &c->site->kinds[kind], .items = items, .handle = SITE_NEVER};
    for (size_t i = 0; i < c->site->count; i++)
        if (c->site->rows[i].kind == kind && !c->site->rows[i].optional) {
            c->place[i] = tally.count;
            items[tally.count++] = (int)i;
        }
    count_items(c, &tally);
    count_turns(c->site, kind, &tally);
    for (size_t i = 0; i < tally.count; i++)
        *units_s +=
            c->site->rows[items[i]].operation->units.seconds * bounds_hands(c->site, (size_t)items[i]);
    struct fewest_kind fewest = tally.seconds > 0 ? fewest_of(c, &tally) : (struct fewest_kind){0};
    *told = tally;
    return fewest;
}

int64_t fewest_work(struct arena *arena, const struct site *site, struct windows windows)
{
    int64_t work = 0, left = TEST_STEPS_MOST;
    struct counting c = {.arena = arena, .site = site, .windows = windows, .left = &left};
    struct tally *tallies = ARENA_ARRAY(arena, site->kind_count, struct tally);
    bool timed = false;
    for (size_t i = 0; i < site->count; i++)
        timed |= windows.last[i] < SITE_NEVER;
    left = timed ? left : 0;
    c.betweens = between_make(arena, site);
    c.key = ARENA_ARRAY(arena, site->count, int32_t);
    c.most = ARENA_ARRAY(arena, site->count, int32_t);
    c.before = ARENA_ARRAY(arena, site->count, int);
    c.place = ARENA_ARRAY(arena, site->count, size_t);
    c.group = ARENA_ARRAY(arena, site->count, int);
    c.sizes = ARENA_ARRAY(arena, site->count, int64_t);
    c.leads = ARENA_ARRAY(arena, site->count, bool);
    c.fitting = fitting_make(arena, site);
    c.trying = trying_make(arena, site);
    fill_keys(&c);
    struct fewest_kind *kinds = ARENA_ARRAY(arena, site->kind_count, struct fewest_kind);
    for (size_t k = 0; k < site->kind_count; k++)
        kinds[k] = count_kind(&c, (int)k, &tallies[k], &work);
    left = timed ? TEST_STEPS_MOST : 0;
    return work + merged_cost(&c, tallies, kinds);
}
