/* Reading an order: each batch as soon as it may, and what is done where one cannot be placed whole. */
#include "timetable/order.h"

#include "base/arena.h"

#include <stdlib.h>
#include <string.h>

/* How often one window may be missed in a row while its opener waits, before it is scuffed for or its opener's batch is divided;
 * and before any batch is divided in an order that keeps them together: there breaks and drying can move on what misses the
 * window each time, so that a few rounds are not enough. */
enum { REPAIRS_LEAST = 60, WAITS_MOST = 2, LONG_WAITS_MOST = 20 };

/* An order being read. */
struct reading_order {
    struct variant *variant;
    const struct site *site;
    struct order *order;
    struct draft *draft;
    enum scuffing scuffs;
    bool again;              /* something was held back, divided or scuffed for: it is read once more */
    size_t from;             /* from this batch on */
    int missed_link, missed; /* the window that was missed last, how often in a row */
    int *apart;              /* scratch */
};

static bool open_within(const struct reading_order *r, const struct run *run, size_t i)
{
    const struct task_row *row = &r->site->rows[r->order->items[run->from + i]];
    for (size_t k = 0; k < row->in_count; k++) {
        int from = r->site->operations->links[row->in[k]].from;
        bool done = r->draft->start[from] != SITE_NONE || r->draft->left_out[from];
        for (size_t j = 0; j < i && !done; j++)
            done = r->order->items[run->from + j] == from;
        if (!done)
            return false;
    }
    return true;
}

static bool all_open(const struct reading_order *r, const struct run *run)
{
    for (size_t i = 0; i < run->count; i++)
        if (!draft_is_open(r->draft, r->order->items[run->from + i]) && !open_within(r, run, i))
            return false;
    return true;
}

void order_cut(struct order *order, size_t index, size_t at)
{
    struct run *run = &order->runs[index];
    memmove(run + 2, run + 1, (order->run_count - index - 1) * sizeof *run);
    run[1] = *run;
    run[1].from += at;
    run[1].count -= at;
    run->count = at;
    order->run_count++;
}

/* Those that can be done now to the front of the run; how many. */
static size_t part_open(struct reading_order *r, const struct run *run)
{
    int *items = r->order->items + run->from;
    size_t open = 0, rest = 0;
    for (size_t i = 0; i < run->count; i++) {
        struct run so_far = *run;
        so_far.count = open;
        int item = items[i];
        bool can = draft_is_open(r->draft, item);
        if (!can) {
            int kept = items[open];
            items[open] = item;
            can = open_within(r, &so_far, open);
            items[open] = kept;
        }
        if (can)
            items[open++] = item;
        else
            r->apart[rest++] = item;
    }
    memcpy(items + open, r->apart, rest * sizeof *items);
    return open;
}

static void to_front(struct order *order, size_t index, size_t at)
{
    struct run run = order->runs[index];
    memmove(&order->runs[at + 1], &order->runs[at], (index - at) * sizeof run);
    order->runs[at] = run;
}

/* Of the runs of which something can be done the one that costs least to divide, the first of them; SIZE_MAX. */
static size_t cheapest_open(const struct reading_order *r, size_t at)
{
    size_t best = SIZE_MAX;
    int32_t least = SITE_NEVER;
    for (size_t i = at; i < r->order->run_count; i++) {
        const struct run *run = &r->order->runs[i];
        const struct kind *kind = &r->site->kinds[run->kind];
        bool open = false;
        for (size_t k = 0; k < run->count && kind->set_up + kind->clean_up < least && !open; k++)
            open = draft_is_open(r->draft, r->order->items[run->from + k]);
        if (!open)
            continue;
        least = kind->set_up + kind->clean_up;
        best = i;
    }
    return best;
}

/* The next run to be placed, brought to `at`: the first that can be done whole, else the first part of one. */
static bool choose_run(struct reading_order *r, size_t at)
{
    for (size_t i = at; i < r->order->run_count; i++)
        if (all_open(r, &r->order->runs[i])) {
            to_front(r->order, i, at);
            return true;
        }
    size_t i = cheapest_open(r, at);
    if (i == SIZE_MAX)
        return false;
    size_t open = part_open(r, &r->order->runs[i]);
    if (open < r->order->runs[i].count)
        order_cut(r->order, i, open);
    to_front(r->order, i, at);
    return true;
}

static bool each_open(const struct reading_order *r, const struct run *run)
{
    bool open = true;
    for (size_t i = 0; i < run->count && open; i++)
        open = draft_is_open(r->draft, r->order->items[run->from + i]);
    return open;
}

/* Items that are free at the same time stay as they are; so do all where one waits for another of them. */
static void put_in_step(struct reading_order *r, struct run *run)
{
    int *items = r->order->items + run->from;
    int32_t *free_from = r->draft->scratch->floor;
    run->in_step = each_open(r, run);
    for (size_t i = 0; i < run->count && run->in_step; i++) {
        int item = items[i];
        int32_t own = draft_free_from(r->draft, item);
        size_t k = i;
        for (; k > 0 && free_from[k - 1] > own; k--) {
            items[k] = items[k - 1];
            free_from[k] = free_from[k - 1];
        }
        items[k] = item;
        free_from[k] = own;
    }
    r->draft->effort += (int64_t)run->count;
}

/* A second person for what two must lift: any other; SITE_NONE where there is none. */
static bool place_with_helper(struct reading_order *r, struct batch batch, struct placed *placed)
{
    struct placed best, trial;
    bool found = false;
    for (int h = 0; h < r->site->crew->count; h++) {
        batch.helper = h;
        if (h == batch.person || !draft_place(r->draft, batch, 0, SITE_NEVER, &trial))
            continue;
        if (!found || trial.laid.end < best.laid.end)
            best = trial;
        found = true;
    }
    *placed = found ? best : trial;
    return found;
}

static bool needs_two(const struct reading_order *r, const struct batch *batch)
{
    bool heavy = false;
    for (size_t i = 0; i < batch->count && !heavy; i++)
        heavy = r->site->rows[batch->items[i]].operation->people > 1;
    return heavy && r->site->crew->count > 1;
}

static bool same_class(const struct site *site, int a, int b)
{
    return site->crew->workers[a].alike == site->crew->workers[b].alike;
}

/* Whether somebody alike came before who has nothing to do yet either. */
static bool is_repeat(const struct reading_order *r, int person)
{
    bool used = false;
    for (size_t i = 0; i < r->draft->count && !used; i++)
        used = r->draft->placed[i].batch.person == person || r->draft->placed[i].batch.helper == person;
    for (int p = 0; p < person && !used; p++) {
        bool other = false;
        if (!same_class(r->site, p, person))
            continue;
        for (size_t i = 0; i < r->draft->count && !other; i++)
            other = r->draft->placed[i].batch.person == p || r->draft->placed[i].batch.helper == p;
        if (!other)
            return true;
    }
    return false;
}

/* Turns that lie by themselves are no batch of the coat that they were done among. */
static int kind_of_batch(const struct reading_order *r, const struct run *run, size_t count)
{
    const int *items = r->order->items + run->from;
    for (size_t i = 0; i < count; i++)
        if (r->site->rows[items[i]].operation->doing != DO_FLIP)
            return run->kind;
    return r->site->rows[items[0]].kind;
}

/* By whoever is through with it first. False: nobody can; *failed is the best that was tried. */
static bool place_run(struct reading_order *r, const struct run *run, size_t count, struct placed *failed)
{
    const struct site *site = r->site;
    struct placed best = {0}, trial;
    bool found = false;
    *failed = (struct placed){0};
    failed->cause.kind = HINDERED_BY_HOURS;
    int kind = kind_of_batch(r, run, count);
    for (int person = 0; person < site->crew->count; person++) {
        struct batch batch = {.kind = kind,
                              .person = person,
                              .helper = SITE_NONE,
                              .items = r->order->items + run->from,
                              .count = count,
                              .thrifty = run->thrifty};
        if ((run->person != SITE_NONE && run->person != person) || is_repeat(r, person) ||
            !worker_can(&site->crew->workers[person], site->kinds[kind].needs) || !lay_may_fit(site, &batch))
            continue;
        int32_t before = found ? best.laid.end : SITE_NEVER;
        bool good = needs_two(r, &batch) ? place_with_helper(r, batch, &trial)
                                         : draft_place(r->draft, batch, 0, before, &trial);
        if (good && (!found || trial.laid.end < best.laid.end)) {
            best = trial;
            found = true;
        } else if (!good && !found && trial.laid.broke_at >= failed->laid.broke_at) {
            *failed = trial;
        }
    }
    if (found)
        draft_add(r->draft, &best);
    return found;
}

/* Holds what opened a window back by as much as the window was missed, but for what the five minutes of the clock may give: never
 * longer than any plan of this order has it wait. */
static bool hold_back(struct reading_order *r, int opened, int32_t by)
{
    if (r->draft->start[opened] == SITE_NONE || by <= 0)
        return false;
    r->draft->hold[opened] = r->draft->start[opened] + (by < GRID_MIN ? 1 : by - GRID_MIN + 1);
    r->from = (size_t)r->draft->batch_of[opened];
    r->again = true;
    return true;
}

/* The order is another one from a batch on: nothing has to wait in it so far, and nothing stays placed as if it had to, also where no
 * effort is left to read it once more. */
static void release_all(struct reading_order *r, size_t from)
{
    for (size_t i = 0; i < r->site->count; i++) {
        bool held = r->draft->hold[i] > 0 && r->draft->start[i] != SITE_NONE;
        if (held && (size_t)r->draft->batch_of[i] < from)
            from = (size_t)r->draft->batch_of[i];
        r->draft->hold[i] = 0;
    }
    r->from = from;
    r->again = true;
    draft_keep(r->draft, from);
}

static bool holds_any(const struct reading_order *r)
{
    for (size_t i = 0; i < r->site->count; i++)
        if (r->draft->hold[i] > 0)
            return true;
    return false;
}

static void add_scuff(struct reading_order *r, int scuff)
{
    struct order *order = r->order;
    r->draft->left_out[scuff] = false;
    order->runs[order->run_count++] = (struct run){
        .kind = r->site->rows[scuff].kind, .person = SITE_NONE, .from = order->item_count, .count = 1};
    order->items[order->item_count++] = scuff;
    release_all(r, 0);
}

/* Items whose window the same batch opened as that of the one which missed it, to the front of the run; how many. */
static size_t part_opened(struct reading_order *r, const struct run *run, int opener)
{
    int *items = r->order->items + run->from;
    size_t same = 0, rest = 0;
    for (size_t i = 0; i < run->count; i++) {
        const struct task_row *row = &r->site->rows[items[i]];
        bool own = false;
        for (size_t k = 0; k < row->in_count && !own; k++) {
            const struct link *link = &r->site->operations->links[row->in[k]];
            own = site_link_is_limit(link) && r->draft->start[link->from] != SITE_NONE &&
                  r->draft->batch_of[link->from] == r->draft->batch_of[opener];
        }
        if (own)
            items[same++] = items[i];
        else
            r->apart[rest++] = items[i];
    }
    memcpy(items + same, r->apart, rest * sizeof *items);
    return same;
}

/* Halves the batch that opened a window: what is laid long before the batch is through cannot wait for its end. */
static bool halve_opener(struct reading_order *r, int opener)
{
    for (size_t i = 0; i < r->order->run_count; i++) {
        const struct run *run = &r->order->runs[i];
        for (size_t k = 0; k < run->count; k++)
            if (r->order->items[run->from + k] == opener && run->count > 1) {
                order_cut(r->order, i, run->count / 2);
                release_all(r, i);
                return true;
            }
    }
    return false;
}

/* The window of a film that was laid before cannot be moved: it is scuffed for. */
static bool scuff_for_fact(struct reading_order *r, const struct placed *failed)
{
    int scuff = r->site->rows[failed->cause.item].operation->latest_unless;
    if (r->scuffs == SCUFF_NEVER || scuff < 0 || !r->draft->left_out[scuff])
        return false;
    add_scuff(r, scuff);
    return true;
}

/* A window was missed: for the sake of others in the batch, which then wait by themselves; else its opener waits, or it is
 * scuffed for, at once or where waiting did not help. */
static bool repair(struct reading_order *r, size_t at, const struct placed *failed)
{
    struct run *run = &r->order->runs[at];
    if (failed->cause.kind != HINDERED_BY_LIMIT)
        return false;
    if (failed->cause.link == SITE_NONE)
        return scuff_for_fact(r, failed);
    const struct link *link = &r->site->operations->links[failed->cause.link];
    if (r->draft->start[link->from] == SITE_NONE)
        return false;
    r->missed = r->missed_link == failed->cause.link ? r->missed + 1 : 1;
    r->missed_link = failed->cause.link;
    bool chases = r->variant->waits && r->missed <= LONG_WAITS_MOST, divides = run->count > 1 && !chases;
    size_t same = divides ? part_opened(r, run, link->from) : run->count;
    if (same > 0 && same < run->count) {
        order_cut(r->order, at, same);
        release_all(r, at);
        return true;
    }
    bool may_scuff = link->kind == LINK_WINDOW && link->unless >= 0 && r->draft->left_out[link->unless];
    if (may_scuff &&
        (r->scuffs == SCUFF_AT_ONCE || (r->scuffs == SCUFF_IF_NEEDED && r->missed > WAITS_MOST))) {
        add_scuff(r, link->unless);
        return true;
    }
    if (r->missed > WAITS_MOST && !chases && halve_opener(r, link->from)) {
        r->missed = 0;
        return true;
    }
    return hold_back(r, link->from, failed->cause.until);
}

/* The most of a run's first items that can be placed together. */
static size_t most_that_fit(struct reading_order *r, size_t at, const struct placed *failed)
{
    struct run *run = &r->order->runs[at];
    size_t broke = failed->laid.broke_at, low = 0, high = run->count - 1;
    if (broke > 0 && broke < run->count && failed->cause.kind != HINDERED_BY_HOURS)
        high = broke;
    struct placed unused;
    while (low < high) {
        size_t middle = (low + high + 1) / 2;
        size_t before = r->draft->count;
        if (place_run(r, run, middle, &unused)) {
            draft_take_out(r->draft, before);
            low = middle;
        } else {
            high = middle - 1;
        }
    }
    return low;
}

/* Brings the shortest to the front of a run whose first item fits no stretch together with the set-up: behind a break it has a
 * stretch for itself. False: none is shorter. */
static bool shortest_first(struct reading_order *r, struct run *run, const struct placed *failed)
{
    int *items = r->order->items + run->from, item;
    size_t best = 0;
    if (failed->cause.kind != HINDERED_BY_HOURS)
        return false;
    for (size_t i = 1; i < run->count; i++)
        if (draft_is_open(r->draft, items[i]) && r->site->rows[items[i]].operation->units.longest_s <
                                                     r->site->rows[items[best]].operation->units.longest_s)
            best = i;
    item = items[best];
    memmove(items + 1, items, best * sizeof *items);
    items[0] = item;
    run->in_step = run->in_step && best == 0;
    return best > 0;
}

static bool read_once(struct reading_order *r)
{
    draft_keep(r->draft, r->from);
    r->again = false;
    for (size_t at = r->from; at < r->order->run_count; at++) {
        struct placed failed;
        if (!choose_run(r, at))
            return false;
        if (r->order->runs[at].in_step)
            put_in_step(r, &r->order->runs[at]);
        if (place_run(r, &r->order->runs[at], r->order->runs[at].count, &failed))
            continue;
        if (repair(r, at, &failed))
            return false;
        size_t most = most_that_fit(r, at, &failed);
        if (most == 0 && shortest_first(r, &r->order->runs[at], &failed)) {
            if (place_run(r, &r->order->runs[at], r->order->runs[at].count, &failed))
                continue;
            most = most_that_fit(r, at, &failed);
        }
        if (most == 0)
            return false;
        order_cut(r->order, at, most);
        if (holds_any(r)) { /* for the sake of what the batch held before */
            release_all(r, at);
            return false;
        }
        if (!place_run(r, &r->order->runs[at], most, &failed))
            return false;
    }
    return true;
}

void variant_place(struct variant *variant, enum scuffing scuffs, int64_t effort)
{
    const struct site *site = variant->draft->site;
    struct reading_order r = {.variant = variant,
                              .site = site,
                              .order = &variant->order,
                              .draft = variant->draft,
                              .scuffs = scuffs,
                              .missed_link = SITE_NONE,
                              .apart = variant->draft->apart};
    struct draft *draft = variant->draft;
    if (variant->shared == 0)
        draft_clear(draft);
    memset(draft->hold, 0, site->count * sizeof *draft->hold);
    r.from = variant->shared;
    variant->shared = 0;
    size_t repairs_most = REPAIRS_LEAST + site->count; /* each may scuff for one window */
    draft->effort_limit = draft->effort + effort;
    variant->whole = read_once(&r);
    for (size_t n = 0; !variant->whole && r.again && n < repairs_most && draft->effort < draft->effort_limit;
         n++)
        variant->whole = read_once(&r);
    draft->effort_limit = INT64_MAX;
}
