/* Pairs of items of one kind that no batch can hold both of, each looked at by itself. */
#include "base/arena.h"
#include "timetable/bounds_kinds.h"
#include "timetable/lay.h"

#include <string.h>

enum { GRID_S = GRID_MIN * MINUTE_S, PASSES_MOST = 6, PAIR_STEPS_MOST = 20000000 };

/* How one item of a kind stands to another. */
enum standing { STANDS_FREE, STANDS_BEFORE, STANDS_APART };

struct pairs {
    const struct counting *c;
    const struct tally *tally;
    unsigned char *standing; /* of each place to each, enum standing */
    int32_t break_most;      /* minutes of the longest break in which a batch may pause; 0: it may in none */
    int32_t break_least;     /* of the shortest: before it the most may be left of what the tool may lie */
    int32_t stretch_least;   /* minutes of the shortest stretch between two such */
    bool all_off;            /* nobody works while another is off */
    int32_t *at;             /* room for a way */
};

/* Two items, and what could be done between them in a batch that holds both. */
struct pair {
    size_t first, last; /* places */
    int64_t between_s, longest_s,
        elsewhere_s; /* of units: that fit between; the longest; of all but these two */
    int64_t flips_s; /* of turns that may lie between */
    int64_t fill_s;  /* of all that may lie between */
};

static void find_breaks(struct pairs *p)
{
    const struct site *site = p->c->site;
    const struct kind *kind = p->tally->kind;
    p->stretch_least = p->break_least = SITE_NEVER;
    p->all_off = true;
    for (int n = 0; n < site->crew->count; n++) {
        const struct worker *worker = &site->crew->workers[n];
        p->all_off = p->all_off && worker->alike == 0;
        for (size_t i = 1; i < worker->duty_count && worker_can(worker, kind->needs); i++) {
            const struct duty *duty = &worker->duties[i];
            if (!lay_may_go_on(kind, duty))
                continue;
            int32_t off = duty->from - duty[-1].to, length = duty->to - duty->from;
            p->break_most = off > p->break_most ? off : p->break_most;
            p->break_least = off < p->break_least ? off : p->break_least;
            if (i + 1 < worker->duty_count && lay_may_go_on(kind, duty + 1) && length < p->stretch_least)
                p->stretch_least = length;
        }
    }
}

static bool is(const struct pairs *p, size_t a, size_t b, enum standing standing)
{
    return p->standing[a * p->tally->count + b] == standing;
}

static bool are_apart(const struct pairs *p, size_t a, size_t b)
{
    return is(p, a, b, STANDS_APART) || is(p, b, a, STANDS_APART);
}

static const struct operation *at_place(const struct pairs *p, size_t place)
{
    return p->c->site->rows[p->tally->items[place]].operation;
}

/* Which of two must come first, and which two no batch can hold: because of the waits between them, or because the first must be
 * done too long before the other can begin. */
static void fill_standing(struct pairs *p, int64_t apart_s)
{
    const struct counting *c = p->c;
    size_t count = p->tally->count;
    for (size_t i = 0; i < count; i++) {
        int item = p->tally->items[i];
        for (size_t k = c->betweens.first[item]; k < c->betweens.first[item + 1]; k++) {
            const struct between *between = &c->betweens.items[k];
            p->standing[i * count + c->place[between->to]] =
                (int64_t)between->wait * MINUTE_S > apart_s ? STANDS_APART : STANDS_BEFORE;
        }
        for (size_t j = 0; j < count; j++) {
            int64_t last = c->windows.last[item], first = c->key[p->tally->items[j]];
            if (last < SITE_NEVER && (first - last) * MINUTE_S > apart_s)
                p->standing[i * count + j] = STANDS_APART;
        }
    }
}

/* Whether a batch with the two may hold a third item, and before the last of them. */
static bool may_hold(const struct pairs *p, const struct pair *pair, size_t i)
{
    return i != pair->first && i != pair->last && !are_apart(p, i, pair->first) &&
           !are_apart(p, i, pair->last) && is(p, pair->last, i, STANDS_FREE);
}

/* Of each row the largest group in which none is apart from its first. */
static void find_between(const struct pairs *p, struct pair *pair)
{
    const struct tally *tally = p->tally;
    int64_t most = 0;
    for (size_t i = 0; i < tally->count; i++) {
        int64_t own = 0;
        if (may_hold(p, pair, i)) {
            const struct units *units = &at_place(p, i)->units;
            pair->elsewhere_s += units->seconds;
            pair->longest_s = units->longest_s > pair->longest_s ? units->longest_s : pair->longest_s;
        }
        for (size_t k = i; k < tally->count && kind_same_row(p->c->site, tally->items[i], tally->items[k]);
             k++)
            if (may_hold(p, pair, k) && is(p, k, pair->first, STANDS_FREE) && !are_apart(p, i, k))
                own += at_place(p, k)->units.seconds;
        most = own > most ? own : most;
        if (i + 1 < tally->count && kind_same_row(p->c->site, tally->items[i], tally->items[i + 1]))
            continue;
        pair->between_s += most;
        most = 0;
    }
}

/* Turns of the pair's own row lie between where the row has them there, those of other rows anywhere. Whether one must be done by
 * whoever does the two. */
static bool find_turns(const struct pairs *p, struct pair *pair)
{
    const struct site *site = p->c->site;
    int first = p->tally->items[pair->first], last = p->tally->items[pair->last];
    bool turned = false;
    for (size_t i = 0; i < site->count; i++) {
        int coat = site_turned_for(site, (int)i);
        if (coat == SITE_NONE || &site->kinds[site->rows[coat].kind] != p->tally->kind)
            continue;
        bool own = kind_same_row(site, (int)i, first), within = (int)i > first && (int)i < last;
        const struct units *units = &site->rows[i].operation->units;
        if (own && !within)
            continue;
        turned |= own && kind_same_row(site, first, last) && units->seconds > 0 && site->crew->count == 1;
        pair->flips_s += units->seconds;
        pair->longest_s = units->longest_s > pair->longest_s ? units->longest_s : pair->longest_s;
    }
    return turned;
}

/* Whether a turn of the pair's own row waits for the first for longer than what may lie between takes. */
static bool comes_behind(const struct pairs *p, const struct pair *pair, int turn)
{
    const struct site *site = p->c->site;
    int first = p->tally->items[pair->first], last = p->tally->items[pair->last];
    if (!kind_same_row(site, turn, first) || turn < first || turn > last)
        return false;
    int32_t way = site_way(site, first, turn, p->at);
    return way > 0 && (int64_t)way * MINUTE_S - (MINUTE_S - 1) > pair->fill_s;
}

static void reach(bool *reached, int64_t seconds)
{
    bool more[GRID_S];
    memcpy(more, reached, sizeof more);
    for (int r = 0; r < GRID_S; r++)
        if (reached[r])
            more[(r + seconds) % GRID_S] = true;
    memcpy(reached, more, sizeof more);
}

static void reach_units(bool *reached, const struct units *units)
{
    for (size_t k = 0; k < units->count; k++)
        reach(reached, units->ends_s[k] - (k > 0 ? units->ends_s[k - 1] : 0));
}

/* Whether before a break so many seconds may be left, from..to: a batch starts on the clock's five minutes, where breaks start
 * too, mixes take as long, and the rest is of units that are done before, of which the first of the pair is one. */
static bool may_be_left(const struct pairs *p, const struct pair *pair, int64_t from, int64_t to)
{
    const struct site *site = p->c->site;
    const struct kind *kind = p->tally->kind;
    bool reached[GRID_S] = {false};
    int64_t before =
        (int64_t)(kind->set_up + kind->induction) * MINUTE_S + at_place(p, pair->first)->units.seconds;
    if (to - from >= GRID_S || kind->unlike)
        return true;
    reached[before % GRID_S] = true;
    for (size_t i = 0; i < p->tally->count; i++)
        if (may_hold(p, pair, i))
            reach_units(reached, &at_place(p, i)->units);
    for (size_t i = 0; i < site->count; i++) {
        int coat = site_turned_for(site, (int)i);
        if (coat != SITE_NONE && &site->kinds[site->rows[coat].kind] == p->tally->kind &&
            !comes_behind(p, pair, (int)i))
            reach_units(reached, &site->rows[i].operation->units);
    }
    for (int64_t left = from; left <= to; left++)
        if (reached[(GRID_S - left % GRID_S) % GRID_S])
            return true;
    return false;
}

/* Mixes that may be made within so many seconds: each is followed by another where it does not last for the next unit. */
static int64_t mixing_within(const struct pairs *p, int64_t seconds)
{
    const struct kind *kind = p->tally->kind;
    int64_t least = (int64_t)kind->working * MINUTE_S - p->tally->longest_s;
    if (!kind->mixed || kind->working == INT32_MAX)
        return 0;
    return least > 0 ? (seconds / least + 1) * MIXING_MIN * MINUTE_S : SITE_NEVER;
}

/* Between two of a row somebody else has work to do: before the break, or there must be more than a break behind it. How many
 * seconds before the break are taken so, where all are off at the same time. */
static int64_t left_for_others(const struct pairs *p, const struct pair *pair, int64_t fill)
{
    const struct site *site = p->c->site;
    int first = p->tally->items[pair->first], last = p->tally->items[pair->last];
    int64_t most = 0;
    if (!p->all_off || !kind_same_row(site, first, last))
        return 0;
    for (int i = first + 1; i < last; i++) {
        const struct units *units = &site->rows[i].operation->units;
        if (units->seconds == 0 || units->count == 0 || site_turned_for(site, i) != SITE_NONE)
            continue;
        int32_t before = site_way(site, first, i, p->at),
                behind = before < 0 ? SITE_NONE : site_way(site, i, last, p->at);
        if (behind < 0)
            continue;
        int64_t end = units->seconds - (units->count > 1 ? units->ends_s[units->count - 2] : 0);
        int64_t by = units->seconds + (before > 0 ? (int64_t)before * MINUTE_S - (MINUTE_S - 1) : 0) - fill;
        if (end + (int64_t)behind * MINUTE_S - (MINUTE_S - 1) > fill && by > most)
            most = by;
    }
    return most;
}

/* Whether some batch could hold both, by the clock: the moments told are rounded up, each by less than a minute. */
static bool may_share(const struct pairs *p, size_t first, size_t last, int32_t wait)
{
    const struct kind *kind = p->tally->kind;
    struct pair pair = {.first = first, .last = last};
    find_between(p, &pair);
    bool turned = find_turns(p, &pair);
    const struct units *own = &at_place(p, last)->units;
    if (!turned && own->longest_s > pair.longest_s)
        pair.longest_s = own->longest_s;
    int64_t stands = kind->mixed && kind->working != INT32_MAX ? (int64_t)kind->induction * MINUTE_S : 0;
    int64_t next = pair.longest_s + mixing_within(p, pair.longest_s);
    int64_t stretch = p->stretch_least >= SITE_NEVER ? INT64_MAX : (int64_t)p->stretch_least * MINUTE_S;
    int64_t all = pair.elsewhere_s + pair.flips_s + at_place(p, first)->units.seconds + 2 * next;
    if (p->tally->flips_s + all + mixing_within(p, all) > stretch)
        return true;
    int64_t waits = (int64_t)wait * MINUTE_S - (MINUTE_S - 1), fill = pair.between_s + pair.flips_s;
    if (fill + mixing_within(p, fill) >= waits)
        return true;
    int64_t off = (int64_t)p->break_most * MINUTE_S, left_most = next - 1;
    if (kind->rest != INT32_MAX && left_most > (int64_t)(kind->rest - p->break_least) * MINUTE_S)
        left_most = (int64_t)(kind->rest - p->break_least) * MINUTE_S;
    fill += mixing_within(p, fill + off + next) + stands;
    pair.fill_s = fill;
    int64_t left = waits - fill - off, others = left_for_others(p, &pair, fill);
    left = others > left ? others : left;
    left = left > 0 ? left : 0;
    return off > 0 && left <= left_most && may_be_left(p, &pair, left, left_most);
}

/* Whoever works alone does no batch between two items of another; where there are others the two are apart only if those still
 * further from one another are. */
static bool spreads(const struct pairs *p, size_t first, size_t last)
{
    if (p->c->site->crew->count == 1)
        return true;
    for (size_t i = 0; i < p->tally->count; i++) {
        if (!is(p, last, i, STANDS_FREE) && !are_apart(p, first, i))
            return false;
        if (!is(p, i, first, STANDS_FREE) && !are_apart(p, i, last))
            return false;
    }
    return true;
}

/* And all that is done no later than the first from all that is done no sooner than the last. */
static void part(struct pairs *p, size_t first, size_t last)
{
    size_t count = p->tally->count;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < count && (i == first || !is(p, i, first, STANDS_FREE)); k++)
            if (k == last || !is(p, last, k, STANDS_FREE))
                p->standing[i * count + k] = STANDS_APART;
}

static void write_back(struct counting *c, const struct pairs *p)
{
    for (size_t i = 0; i < p->tally->count; i++) {
        int item = p->tally->items[i];
        for (size_t k = c->betweens.first[item]; k < c->betweens.first[item + 1]; k++)
            if (is(p, i, c->place[c->betweens.items[k].to], STANDS_APART))
                c->betweens.items[k].wait = SITE_NEVER;
    }
}

static bool part_from(struct pairs *p, size_t place)
{
    const struct betweens *betweens = &p->c->betweens;
    int item = p->tally->items[place];
    bool found = false;
    for (size_t k = betweens->first[item]; k < betweens->first[item + 1]; k++) {
        size_t to = p->c->place[betweens->items[k].to];
        if (!is(p, place, to, STANDS_BEFORE) || !spreads(p, place, to) ||
            may_share(p, place, to, betweens->items[k].wait))
            continue;
        part(p, place, to);
        found = true;
    }
    return found;
}

static bool is_too_much(const struct counting *c, const struct tally *tally)
{
    size_t tests = 0;
    for (size_t i = 0; i < tally->count; i++)
        tests += c->betweens.first[tally->items[i] + 1] - c->betweens.first[tally->items[i]];
    return tests == 0 || tests * (tally->count + c->site->count) > PAIR_STEPS_MOST;
}

bool kind_part_pairs(struct counting *c, const struct tally *tally, int64_t apart_s)
{
    struct pairs p = {.c = c, .tally = tally};
    bool found = false, more = true;
    if (is_too_much(c, tally))
        return false;
    p.standing = ARENA_ARRAY(c->arena, tally->count * tally->count, unsigned char);
    p.at = ARENA_ARRAY(c->arena, c->site->count, int32_t);
    find_breaks(&p);
    fill_standing(&p, apart_s);
    for (int pass = 0; pass < PASSES_MOST && more; pass++) {
        more = false;
        for (size_t i = 0; i < tally->count; i++)
            more |= part_from(&p, i);
        found |= more;
    }
    write_back(c, &p);
    return found;
}
