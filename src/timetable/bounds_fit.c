/* Whether kinds can be done in as few batches as can be and the work still end in time: which items then share a batch is known. One person
 * does them one after another, with nothing else between (one machine with heads and tails: Carlier, EJOR 11, 1982). */
#include "base/arena.h"
#include "timetable/bounds_kinds.h"
#include "timetable/lay.h"

#include <stdlib.h>

enum { ROUNDS_MOST = 2000 };

struct keyed {
    int32_t key;
    int item;
};

struct fitting {
    const struct counting *c;
    const struct site *site;
    int32_t *start, *end; /* per operation, as told, so far */
    int32_t *set_up;      /* per operation: nobody sets up for it before */
    const int *
        group; /* per operation, of the kind looked at: see struct counting; NULL: of two items that share a batch */
    int *item;           /* of the batch looked at, by the start */
    int *by_last;        /* by the last end */
    struct keyed *keyed; /* room for sorting */
    int32_t *turned;     /* room for bounds_first_from */
    size_t count;
    const struct tally *tally;
    int64_t units_s, turns_s; /* of the batch; of turns that must be done in it */
    int64_t fill_s;           /* units of all that may be in it */
    int64_t mixing_s, idle_s; /* in the batch, at the most; before a pause */
    bool kept;                /* nobody does anything else while the batch lasts */
    bool moved;
};

/* When a batch begins, and when it is over. */
struct stay {
    int32_t begin, end;
};

static int32_t before_units(const struct kind *kind)
{
    return kind->set_up + (kind->mixed ? MIXING_MIN + kind->induction : 0);
}

/* Told rounded up: it may be up to a minute before. */
static int64_t second_of(int32_t told)
{
    return ((int64_t)told - 1) * MINUTE_S + 1;
}

/* The second by which somebody has worked so long since another, in a batch that pauses where it may; INT64_MAX: no batch goes on so
 * long. */
static int64_t worked_by(const struct worker *worker, const struct kind *kind, size_t duty, int64_t from,
                         int64_t seconds)
{
    for (size_t d = duty; d < worker->duty_count; d++) {
        const struct duty *own = &worker->duties[d];
        if (d > duty && !lay_may_go_on(kind, own))
            return INT64_MAX;
        int64_t at = (int64_t)own->from * MINUTE_S, to = (int64_t)own->to * MINUTE_S;
        at = from > at ? from : at;
        if (at + seconds <= to)
            return at + seconds;
        seconds -= to > at ? to - at : 0;
    }
    return INT64_MAX;
}

/* No batch that still does something at a second begins before, if it works no longer than that until then. */
static int64_t begun_by(const struct fitting *f, const struct worker *worker, int32_t told, int64_t seconds)
{
    size_t d = crew_duty_at(worker, told - 1);
    if (d == worker->duty_count)
        return 0;
    int64_t at = second_of(told);
    for (;; d--) {
        int64_t from = (int64_t)worker->duties[d].from * MINUTE_S, room = at > from ? at - from : 0;
        if (at < from)
            at = from;
        if (seconds <= room)
            return at - seconds;
        if (d == 0 || !lay_may_go_on(f->tally->kind, &worker->duties[d]))
            return from;
        seconds += f->idle_s - room;
        at = (int64_t)worker->duties[d - 1].to * MINUTE_S;
    }
}

static int rising(const void *a, const void *b)
{
    const struct keyed *left = a, *right = b;
    if (left->key != right->key)
        return left->key < right->key ? -1 : 1;
    return left->item - right->item;
}

static void sort_by(const struct fitting *f, const int32_t *key, int *sorted)
{
    struct keyed *keyed = f->keyed;
    for (size_t i = 0; i < f->count; i++)
        keyed[i] = (struct keyed){key[f->item[i]], f->item[i]};
    qsort(keyed, f->count, sizeof *keyed, rising);
    for (size_t i = 0; i < f->count; i++)
        sorted[i] = keyed[i].item;
}

static int64_t units_of(const struct fitting *f, int item)
{
    return f->site->rows[item].operation->units.seconds;
}

/* The second at which all items that start no sooner than one of them are done, if the batch begins then; INT64_MAX: never, or one of
 * them would be done after its last moment. */
static int64_t done_from(const struct fitting *f, const struct worker *worker, size_t duty, int64_t from,
                         size_t first)
{
    int32_t head = f->start[f->item[first]];
    int64_t at = second_of(head), seconds = 0, done = 0;
    at = at > from ? at : from;
    while (duty + 1 < worker->duty_count && (int64_t)worker->duties[duty].to * MINUTE_S <= at &&
           lay_may_go_on(f->tally->kind, &worker->duties[duty + 1]))
        duty++;
    for (size_t i = 0; i < f->count; i++) {
        int item = f->by_last[i];
        if (f->start[item] < head)
            continue;
        seconds += units_of(f, item);
        done = worked_by(worker, f->tally->kind, duty, at, seconds);
        if (done == INT64_MAX || (done + MINUTE_S - 1) / MINUTE_S > f->c->windows.last[item])
            return INT64_MAX;
    }
    return done;
}

/* When the batch is over that begins within a stretch; INT64_MAX: it does not end in time. */
static int64_t over_at(const struct fitting *f, const struct worker *worker, size_t duty, int32_t begin)
{
    const struct kind *kind = f->tally->kind;
    int64_t from = (int64_t)begin * MINUTE_S + (int64_t)before_units(kind) * MINUTE_S, mixing = 0;
    if (kind->mixed && kind->working != INT32_MAX)
        mixing = (f->units_s - 1) / ((int64_t)kind->working * MINUTE_S) * MIXING_MIN * MINUTE_S;
    int64_t clean_up = (int64_t)kind->clean_up * MINUTE_S;
    if (from > (int64_t)worker->duties[duty].to * MINUTE_S)
        return INT64_MAX;
    int64_t over = worked_by(worker, kind, duty, from, f->units_s + f->turns_s + mixing + clean_up);
    for (size_t i = 0; i < f->count && over < INT64_MAX; i++) {
        if (i > 0 && f->start[f->item[i]] == f->start[f->item[i - 1]])
            continue;
        int64_t done = done_from(f, worker, duty, from, i);
        over = done == INT64_MAX ? done : done + clean_up > over ? done + clean_up : over;
    }
    return over;
}

/* The first time for one person; begin SITE_NEVER: none. */
static struct stay stay_of(const struct fitting *f, const struct worker *worker, int32_t begin)
{
    int64_t all = f->mixing_s + f->fill_s + f->tally->flips_s + (int64_t)f->tally->kind->set_up * MINUTE_S;
    for (size_t i = 0; i < f->count && !f->tally->kind->unlike; i++) {
        int64_t then = begun_by(f, worker, f->start[f->item[i]], all - units_of(f, f->item[i]));
        bounds_raise(&begin, site_up((int32_t)((then + MINUTE_S - 1) / MINUTE_S)));
    }
    for (size_t d = crew_duty_at(worker, begin); d < worker->duty_count; d++) {
        int32_t at = begin > worker->duties[d].from ? begin : worker->duties[d].from;
        int64_t over = over_at(f, worker, d, at);
        if (over < INT64_MAX)
            return (struct stay){at, site_up((int32_t)((over + MINUTE_S - 1) / MINUTE_S))};
        if (worker->duties[d].from > f->c->windows.last[f->by_last[f->count - 1]])
            break;
    }
    return (struct stay){SITE_NEVER, SITE_NEVER};
}

static bool holds(const struct fitting *f, int item)
{
    const struct site *site = f->site;
    int coat = site_turned_for(site, item);
    if (&site->kinds[site->rows[item].kind] == f->tally->kind)
        return !f->group || f->group[item] == SITE_NONE || f->group[item] == f->group[f->item[0]];
    return coat != SITE_NONE && &site->kinds[site->rows[coat].kind] == f->tally->kind;
}

static bool is_other(const struct fitting *f, int item)
{
    const struct task_row *row = &f->site->rows[item];
    return !row->optional && row->operation->units.seconds > 0 && !holds(f, item) &&
           !site_may_be_at_once(f->site, row->kind, (int)(f->tally->kind - f->site->kinds));
}

/* What the batch waits for is over, and its tool clean, before it is set up. */
static int32_t waits_until(const struct fitting *f)
{
    const struct site *site = f->site;
    int64_t fore_s = before_units(f->tally->kind) * MINUTE_S + f->tally->flips_s - f->turns_s;
    int32_t begin = SITE_NEVER, until = 0, fore = (int32_t)((fore_s + MINUTE_S - 1) / MINUTE_S);
    for (size_t i = 0; i < f->count; i++) {
        const struct task_row *row = &site->rows[f->item[i]];
        int32_t own = f->start[f->item[i]] - fore;
        begin = own < begin ? own : begin;
        bounds_raise(&until, f->set_up[f->item[i]]);
        for (size_t k = 0; k < row->in_count; k++) {
            const struct link *link = &site->operations->links[row->in[k]];
            if (!site_link_is_limit(link) && is_other(f, link->from))
                bounds_raise(&until, f->end[link->from] + site->kinds[site->rows[link->from].kind].clean_up);
        }
    }
    return site_up(begin > until ? begin : until);
}

static void raise_set_up(struct fitting *f, int item, int32_t to)
{
    f->moved |= to > f->set_up[item];
    bounds_raise(&f->set_up[item], to);
}

/* What waits for the batch is set up when it is over. */
static void hold_back(struct fitting *f, struct stay stay)
{
    const struct site *site = f->site;
    for (size_t i = 0; i < f->count; i++) {
        const struct task_row *row = &site->rows[f->item[i]];
        raise_set_up(f, f->item[i], stay.begin);
        for (size_t k = 0; k < row->out_count; k++) {
            const struct link *link = &site->operations->links[row->out[k]];
            if (!site_link_is_limit(link) && is_other(f, link->to))
                raise_set_up(f, link->to, stay.end);
        }
    }
}

/* Turns between two coats of a row that are both in the batch are done in it by whoever is alone. */
static int64_t turns_within(const struct fitting *f)
{
    int64_t seconds = 0;
    for (size_t i = 0; i < f->site->count && f->site->crew->count == 1; i++) {
        int coat = site_turned_for(f->site, (int)i);
        bool own = false, before = false;
        for (size_t k = 0; k < f->count && coat != SITE_NONE; k++) {
            own |= f->item[k] == coat;
            before |= f->item[k] < (int)i && kind_same_row(f->site, f->item[k], coat);
        }
        seconds += own && before ? f->site->rows[i].operation->units.seconds : 0;
    }
    return seconds;
}

static bool is_in(const struct fitting *f, int item)
{
    bool in = false;
    for (size_t i = 0; i < f->count && !in; i++)
        in = f->item[i] == item;
    return in;
}

/* Units of its items and of all others that it may hold. */
static int64_t fill_of(const struct fitting *f)
{
    int64_t seconds = 0;
    for (size_t i = 0; i < f->tally->count; i++) {
        int item = f->tally->items[i];
        bool may = is_in(f, item) || !f->group || f->group[item] == SITE_NONE;
        for (size_t k = 0; k < f->count && may; k++)
            may = !kind_parts(f->c, f->tally, item, f->item[k]);
        seconds += may ? units_of(f, item) : 0;
    }
    return seconds;
}

/* What the batch can last. */
static void measure(struct fitting *f)
{
    const struct site *site = f->site;
    const struct kind *kind = f->tally->kind;
    int64_t longest = f->tally->longest_s;
    f->units_s = 0;
    for (size_t i = 0; i < f->count; i++)
        f->units_s += units_of(f, f->item[i]);
    for (size_t i = 0; i < site->count; i++) {
        int coat = site_turned_for(site, (int)i);
        int32_t turn = site->rows[i].operation->units.longest_s;
        if (coat != SITE_NONE && &site->kinds[site->rows[coat].kind] == kind && turn > longest)
            longest = turn;
    }
    int64_t mixes = kind->working == INT32_MAX ? 1 : 1 + longest / MINUTE_S / kind->working;
    f->idle_s = longest + (kind->mixed ? mixes * MIXING_MIN * MINUTE_S : 0);
    f->fill_s = fill_of(f);
    f->mixing_s = kind_mixing_most(site, f->tally, f->fill_s);
    f->turns_s = turns_within(f);
}

/* Takes the items of one batch together; false: they cannot end in time. */
static bool hold_batch(struct fitting *f)
{
    struct stay stay = {SITE_NEVER, SITE_NEVER};
    measure(f);
    sort_by(f, f->c->windows.last, f->by_last);
    sort_by(f, f->start, f->item);
    int32_t begin = waits_until(f);
    for (int p = 0; p < f->site->crew->count; p++) {
        const struct worker *worker = &f->site->crew->workers[p];
        if (!worker_can(worker, f->tally->kind->needs) || (p > 0 && worker->alike == 0))
            continue;
        struct stay own = stay_of(f, worker, begin);
        stay.begin = own.begin < stay.begin ? own.begin : stay.begin;
        stay.end = own.end < stay.end ? own.end : stay.end;
    }
    if (stay.begin < SITE_NEVER)
        hold_back(f, stay);
    return stay.begin < SITE_NEVER;
}

static bool hold_kind(struct fitting *f, const struct tally *tally)
{
    int most = SITE_NONE;
    f->tally = tally;
    f->group = f->c->group;
    for (size_t i = 0; i < tally->count; i++)
        most = f->group[tally->items[i]] > most ? f->group[tally->items[i]] : most;
    for (int group = 0; group <= most; group++) {
        f->count = 0;
        for (size_t i = 0; i < tally->count; i++)
            if (f->group[tally->items[i]] == group)
                f->item[f->count++] = tally->items[i];
        if (f->count > 1 && !hold_batch(f))
            return false;
    }
    return true;
}

static bool ends_in_time(const struct fitting *f)
{
    for (size_t i = 0; i < f->site->count; i++)
        if (!f->site->rows[i].optional && f->end[i] > f->c->windows.last[i])
            return false;
    return true;
}

/* Two items that share a batch. */
struct two {
    const struct tally *tally;
    int items[2];
};

static bool hold_two(struct fitting *f, const struct two *two)
{
    f->tally = two->tally;
    f->group = NULL;
    f->count = 2;
    f->item[0] = two->items[0];
    f->item[1] = two->items[1];
    return hold_batch(f);
}

/* False: some batch cannot be. */
static bool hold_all(struct fitting *f, const struct tally *tallies, const bool *few, const struct two *two)
{
    const struct site *site = f->site;
    for (int round = 0; round<ROUNDS_MOST && * f->c->left> 0; round++) {
        *f->c->left -= (int64_t)(site->count + site->operations->link_count);
        bounds_first_from(site, f->set_up, f->turned, f->start, f->end);
        if (!ends_in_time(f))
            return false;
        f->moved = false;
        for (size_t k = 0; k < site->kind_count && few; k++)
            if (few[k] && !hold_kind(f, &tallies[k]))
                return false;
        if (two && !hold_two(f, two))
            return false;
        if (!f->moved)
            return true;
    }
    return true;
}

const struct fitting *fitting_make(struct arena *arena, const struct site *site)
{
    struct fitting *f = ARENA_NEW(arena, struct fitting);
    *f = (struct fitting){.site = site,
                          .start = ARENA_ARRAY(arena, site->count, int32_t),
                          .end = ARENA_ARRAY(arena, site->count, int32_t),
                          .set_up = ARENA_ARRAY(arena, site->count, int32_t),
                          .turned = ARENA_ARRAY(arena, site->count, int32_t),
                          .item = ARENA_ARRAY(arena, site->count, int),
                          .by_last = ARENA_ARRAY(arena, site->count, int),
                          .keyed = ARENA_ARRAY(arena, site->count, struct keyed)};
    return f;
}

static bool fits(const struct counting *c, const struct tally *tallies, const bool *few,
                 const struct two *two)
{
    const struct site *site = c->site;
    struct fitting f = *c->fitting;
    f.c = c;
    for (size_t i = 0; i < site->count; i++) {
        f.start[i] = c->windows.first[i];
        f.end[i] = SITE_NONE;
        f.set_up[i] = bounds_begin(site);
    }
    return hold_all(&f, tallies, few, two);
}

bool kinds_fit(const struct counting *c, const struct tally *tallies, const bool *few)
{
    return fits(c, tallies, few, NULL);
}

bool kind_two_fit(const struct counting *c, const struct tally *tally, int item, int other)
{
    struct two two = {tally, {item, other}};
    return !kind_parts(c, tally, item, other) && fits(c, NULL, NULL, &two);
}
