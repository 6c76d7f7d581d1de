/* Which items of one kind no batch can hold together. */
#include "timetable/bounds_kinds.h"

enum { ROUNDS_MOST = 200 };

/* Seconds that a batch with so many of units may pause in all, and stand idle before its pauses: before a break less is left
 * than the next unit or turn and a mix for it take, and both together are no more than the tool may lie. */
static int64_t pauses_most(const struct site *site, const struct tally *tally)
{
    const struct kind *kind = tally->kind;
    int64_t most = 0;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        if (!worker_can(worker, kind->needs))
            continue;
        if (kind->rest != INT32_MAX && kind->rest >= worker->night_least)
            return (int64_t)SITE_NEVER / 2 * MINUTE_S;
        if (kind->rest < worker->gap_least)
            continue;
        int64_t pauses = (int64_t)worker->gaps_most * MINUTE_S + worker->breaks_most * tally->idle_s;
        int64_t rests =
            kind->rest == INT32_MAX ? pauses : (int64_t)worker->breaks_most * kind->rest * MINUTE_S;
        pauses = rests < pauses ? rests : pauses;
        most = pauses > most ? pauses : most;
    }
    return most;
}

/* In a batch with so many seconds of units, if it pauses so long. */
static int64_t lasting(const struct tally *tally, int64_t units_s, int64_t pauses_s)
{
    return units_s + tally->flips_s + pauses_s + MINUTE_S - 1;
}

int64_t kind_mixing_most(const struct site *site, const struct tally *tally, int64_t units_s)
{
    const struct kind *kind = tally->kind;
    int64_t mixes = kind->mixed ? 1 : 0, least = (int64_t)kind->working * MINUTE_S - tally->longest_s;
    if (kind->mixed && kind->working != INT32_MAX)
        mixes += least > 0 ? lasting(tally, units_s, pauses_most(site, tally)) / least
                           : 2 * (units_s / MINUTE_S + 1);
    return (mixes * MIXING_MIN + kind->induction) * MINUTE_S;
}

int64_t kind_filled(const struct site *site, const struct tally *tally, int64_t units_s)
{
    return lasting(tally, units_s, pauses_most(site, tally)) + kind_mixing_most(site, tally, units_s);
}

bool kind_same_row(const struct site *site, int a, int b)
{
    return site->rows[a].job == site->rows[b].job &&
           site->rows[a].operation->chain == site->rows[b].operation->chain;
}

size_t kind_row_until(const struct counting *c, const struct tally *tally, size_t at, int64_t apart_s)
{
    int item = tally->items[at];
    size_t until = at + 1;
    while (until < tally->count && kind_same_row(c->site, item, tally->items[until]))
        until++;
    for (size_t k = c->betweens.first[item]; k < c->betweens.first[item + 1]; k++) {
        const struct between *between = &c->betweens.items[k];
        if ((int64_t)between->wait * MINUTE_S > apart_s && c->place[between->to] < until &&
            c->place[between->to] > at)
            until = c->place[between->to];
    }
    return until;
}

/* The units of the largest group of each row in which no two are apart, together. */
static int64_t widest(const struct counting *c, const struct tally *tally, int64_t apart_s)
{
    int64_t sum = 0, most = 0;
    for (size_t i = 0; i < tally->count; i++) {
        int64_t own = 0;
        size_t until = kind_row_until(c, tally, i, apart_s);
        for (size_t k = i; k < until; k++)
            own += c->site->rows[tally->items[k]].operation->units.seconds;
        most = own > most ? own : most;
        if (i + 1 < tally->count && kind_same_row(c->site, tally->items[i], tally->items[i + 1]))
            continue;
        sum += most;
        most = 0;
    }
    return sum;
}

/* How long a wait between two items must be for no batch to hold both. Suppose that a batch does, and take the first of its items
 * that is too far from an earlier one: none of those before it are too far from each other, so that no more time has passed than
 * the largest such groups of the rows fill. Where that is no longer than the wait there is no such batch. */
int64_t kind_apart(const struct counting *c, const struct tally *tally)
{
    int64_t apart_s = kind_filled(c->site, tally, widest(c, tally, -1));
    for (int round = 0; round < ROUNDS_MOST; round++) {
        int64_t longer = kind_filled(c->site, tally, widest(c, tally, apart_s));
        if (longer <= apart_s)
            return apart_s;
        apart_s = longer;
    }
    return kind_filled(c->site, tally, tally->seconds);
}

static bool must_wait(const struct counting *c, const struct tally *tally, int from, int to)
{
    for (size_t k = c->betweens.first[from]; k < c->betweens.first[from + 1]; k++)
        if (c->betweens.items[k].to == to)
            return (int64_t)c->betweens.items[k].wait * MINUTE_S > tally->apart_s;
    int32_t last = c->windows.last[from];
    return last < SITE_NEVER && ((int64_t)c->key[to] - last) * MINUTE_S > tally->apart_s;
}

bool kind_parts(const struct counting *c, const struct tally *tally, int item, int other)
{
    return must_wait(c, tally, item, other) || must_wait(c, tally, other, item);
}
