/* Whether kinds can be done in few batches and the work still end in time: which items then share a batch is known of some
 * and tried of the others. One person does them one after another, with nothing else between (one machine with heads and tails:
 * Carlier, EJOR 11, 1982), and one batch before another (disjunctive pairs: Carlier and Pinson, Management Science 35, 1989). */
#include "base/arena.h"
#include "timetable/bounds_fit.h"

#include <stdlib.h>

enum { ROUNDS_MOST = 2000 };

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
    int64_t fore_s = bounds_before_units(f->tally->kind) * MINUTE_S + f->tally->flips_s - f->turns_s;
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
    /* Something else may lie in the batch before its first item, and a break between the two. */
    bool alone = f->fill_s <= f->units_s && f->tally->flips_s <= f->turns_s;
    return site_up(alone && begin > until ? begin : until);
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
        seconds += may ? fitting_units(f, item) : 0;
    }
    return seconds;
}

/* What the batch can last. */
static void measure(struct fitting *f)
{
    f->units_s = 0;
    for (size_t i = 0; i < f->count; i++)
        f->units_s += fitting_units(f, f->item[i]);
    f->fill_s = fill_of(f);
    f->mixing_s = kind_mixing_most(f->site, f->tally, f->fill_s);
    f->turns_s = turns_within(f);
}

void fitting_lower(struct fitting *f, int item, int32_t to)
{
    if (to >= f->last[item])
        return;
    f->last[item] = to;
    f->lowered[item] = f->moved = true;
}

/* The batch from another that holds an item, which only the same person can do: one of them is over when the other begins. False: neither
 * can be. */
static bool part(struct fitting *f, struct stay stay, int item)
{
    const struct kind *own = f->tally->kind, *other = &f->site->kinds[f->site->rows[item].kind];
    bool before = f->over[item] <= stay.begin_by, behind = stay.end <= f->begin_by[item];
    if (!before && !behind)
        return false;
    if (!before)
        raise_set_up(f, item, stay.end);
    if (!behind)
        fitting_lower(f, item, stay.begin_by - other->clean_up);
    for (size_t i = 0; i < f->count; i++) {
        if (!before)
            fitting_lower(f, f->item[i], f->begin_by[item] - own->clean_up);
        if (!behind)
            raise_set_up(f, f->item[i], f->over[item]);
    }
    return true;
}

/* Takes the items of one batch together; false: they cannot end in time. */
static bool hold_batch(struct fitting *f)
{
    struct stay stay;
    measure(f);
    sort_by(f, f->last, f->by_last);
    sort_by(f, f->start, f->item);
    if (!stay_within(f, waits_until(f), &stay))
        return false;
    hold_back(f, stay);
    dust_keep_off(f, stay);
    for (size_t i = 0; i < f->count; i++) {
        f->begin_by[f->item[i]] = stay.begin_by;
        f->over[f->item[i]] = stay.end;
        f->stay[f->item[i]] = stay;
        fitting_lower(f, f->item[i], stay.done_by);
    }
    for (size_t i = 0; i < f->site->count; i++)
        if (is_other(f, (int)i) && !part(f, stay, (int)i))
            return false;
    return true;
}

int kind_groups(const struct counting *c, const struct tally *tally)
{
    int most = SITE_NONE;
    for (size_t i = 0; i < tally->count; i++)
        most = c->group[tally->items[i]] > most ? c->group[tally->items[i]] : most;
    return most + 1;
}

static bool hold_kind(struct fitting *f, const struct tally *tally)
{
    int groups = kind_groups(f->c, tally);
    f->tally = tally;
    f->group = f->c->group;
    for (int group = 0; group < groups; group++) {
        f->count = 0;
        for (size_t i = 0; i < tally->count; i++)
            if (f->group[tally->items[i]] == group)
                f->item[f->count++] = tally->items[i];
        if (f->count > 0 && !hold_batch(f))
            return false;
    }
    return true;
}

static bool ends_in_time(const struct fitting *f)
{
    for (size_t i = 0; i < f->site->count; i++)
        if (!f->site->rows[i].optional && f->end[i] > f->last[i])
            return false;
    return true;
}

/* Waits, from the end; then, of the batch that holds each operation, what is known of it alone. */
static void hand_back(struct fitting *f)
{
    const struct site *site = f->site;
    for (size_t i = site->count; i > 0; i--) {
        const struct task_row *row = &site->rows[i - 1];
        for (size_t k = 0; k < row->in_count && f->lowered[i - 1]; k++) {
            const struct link *link = &site->operations->links[row->in[k]];
            if (!site->rows[link->from].optional)
                fitting_lower(f, link->from,
                              bounds_last_for(site, link, f->last[i - 1], f->last[link->from]));
        }
        f->lowered[i - 1] = false;
        f->begin_by[i - 1] = bounds_begin_by(site, (int)i - 1, f->last[i - 1]);
        f->over[i - 1] = site_up(f->end[i - 1] + site->kinds[row->kind].clean_up);
    }
}

static bool hold_two(struct fitting *f, const struct two *two)
{
    f->tally = two->tally;
    f->group = NULL;
    f->count = 2;
    f->item[0] = two->items[0];
    f->item[1] = two->items[1];
    return hold_batch(f);
}

bool fitting_holds(struct fitting *f, const struct tally *tallies, const struct few *few,
                   const struct two *two)
{
    const struct site *site = f->site;
    for (int round = 0; round<ROUNDS_MOST && * f->c->left> 0; round++) {
        *f->c->left -= (int64_t)(site->count + site->operations->link_count);
        bounds_first_from(site, f->set_up, f->turned, f->start, f->end);
        if (!ends_in_time(f))
            return false;
        f->moved = false;
        hand_back(f);
        for (size_t k = 0; k < site->kind_count && few; k++)
            if (few->is[k] && !hold_kind(f, &tallies[k]))
                return false;
        if ((two && !hold_two(f, two)) || !limits_hold(f))
            return false;
        if (!f->moved)
            return share_fits(f, tallies, few, two);
    }
    return true;
}

const struct fitting *fitting_make(struct arena *arena, const struct site *site)
{
    struct fitting *f = ARENA_NEW(arena, struct fitting);
    size_t chores = 3 * site->count; /* of each operation, with its set-up and clean-up */
    *f = (struct fitting){.site = site,
                          .start = ARENA_ARRAY(arena, site->count, int32_t),
                          .end = ARENA_ARRAY(arena, site->count, int32_t),
                          .set_up = ARENA_ARRAY(arena, site->count, int32_t),
                          .last = ARENA_ARRAY(arena, site->count, int32_t),
                          .begin_by = ARENA_ARRAY(arena, site->count, int32_t),
                          .over = ARENA_ARRAY(arena, site->count, int32_t),
                          .stay = ARENA_ARRAY(arena, site->count, struct stay),
                          .lowered = ARENA_ARRAY(arena, site->count, bool),
                          .near = ARENA_ARRAY(arena, site->count, bool),
                          .seen = ARENA_ARRAY(arena, site->kind_count, bool),
                          .dusts = !site->shop->dust_separate && crew_is_there_together(site->crew),
                          .chores = ARENA_ARRAY(arena, chores, struct chore),
                          .urgent = ARENA_ARRAY(arena, chores, struct chore *),
                          .turned = ARENA_ARRAY(arena, site->count, int32_t),
                          .item = ARENA_ARRAY(arena, site->count, int),
                          .by_last = ARENA_ARRAY(arena, site->count, int),
                          .keyed = ARENA_ARRAY(arena, site->count, struct keyed)};
    return f;
}

struct fitting fitting_begin(const struct counting *c)
{
    const struct site *site = c->site;
    struct fitting f = *c->fitting;
    f.c = c;
    for (size_t i = 0; i < site->count; i++) {
        f.start[i] = c->windows.first[i];
        f.end[i] = SITE_NONE;
        f.set_up[i] = bounds_begin(site);
        f.last[i] = c->windows.last[i];
        f.lowered[i] = false;
    }
    return f;
}

bool kind_two_fit(const struct counting *c, const struct tally *tally, int item, int other)
{
    struct two two = {tally, {item, other}};
    if (kind_parts(c, tally, item, other))
        return false;
    struct fitting f = fitting_begin(c);
    return fitting_holds(&f, NULL, NULL, &two);
}
