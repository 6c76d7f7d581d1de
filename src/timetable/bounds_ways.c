/* Kinds that are done in few batches: each way to share their items among them is tried, until one fits or none does. What cannot be in a
 * batch by what is known so far is not tried, and the item with the fewest ways comes first (Haralick and Elliott, Artificial
 * Intelligence 14, 1980). */
#include "base/arena.h"
#include "timetable/bounds_fit.h"

#include <string.h>

/* What is known so far, to come back to. */
struct known {
    int32_t *start, *end, *set_up, *last;
};

static struct known *known_make(struct arena *arena, size_t count)
{
    struct known *known = ARENA_NEW(arena, struct known);
    int32_t *room = ARENA_ARRAY(arena, 4 * count, int32_t);
    *known = (struct known){room, room + count, room + 2 * count, room + 3 * count};
    return known;
}

static void copy_known(const struct known *to, const struct known *from, size_t count)
{
    memcpy(to->start, from->start, count * sizeof *to->start);
    memcpy(to->end, from->end, count * sizeof *to->end);
    memcpy(to->set_up, from->set_up, count * sizeof *to->set_up);
    memcpy(to->last, from->last, count * sizeof *to->last);
}

static struct known known_of(const struct fitting *f)
{
    return (struct known){f->start, f->end, f->set_up, f->last};
}

/* An item in the only batch that can hold it. */
struct put {
    int item, group;
};

struct trying {
    struct fitting fitting;
    const struct tally *tallies;
    const struct few *few;
    int64_t until; /* steps that must be left */
    struct put *put;
    size_t put_count;
    int *group;           /* room for what is known of the batches otherwise */
    struct known **known; /* by depth; NULL: there is no room yet */
    size_t depth;         /* items that are being tried, one within the other */
};

/* The batches that hold something, and one that may be begun where there are to be more. */
static int groups_most(const struct trying *t, const struct tally *tally)
{
    const struct counting *c = t->fitting.c;
    int groups = kind_groups(c, tally), leads = 0;
    for (size_t i = 0; i < tally->count; i++)
        leads += c->leads[tally->items[i]];
    return groups < leads + t->few->more[tally->kind - c->site->kinds] ? groups + 1 : groups;
}

/* Whether by what is known of both two items may share a batch, and by what is known of the batch of the other one. */
static bool may_join(const struct fitting *f, const struct tally *tally, int item, int other)
{
    const struct stay *stay = &f->stay[other];
    int64_t units = fitting_units(f, item),
            from = (int64_t)(stay->begin + bounds_before_units(tally->kind)) * MINUTE_S;
    return !kind_parts(f->c, tally, item, other) &&
           ((int64_t)f->start[item] - f->last[other]) * MINUTE_S <= tally->apart_s &&
           ((int64_t)f->start[other] - f->last[item]) * MINUTE_S <= tally->apart_s &&
           fitting_second(f->start[item]) + units <= (int64_t)stay->done_by * MINUTE_S &&
           from + units <= (int64_t)f->last[item] * MINUTE_S;
}

static bool may_be_in(const struct fitting *f, const struct tally *tally, int item, int group)
{
    bool may = true;
    for (size_t i = 0; i < tally->count && may; i++)
        may = f->c->group[tally->items[i]] != group || may_join(f, tally, item, tally->items[i]);
    return may;
}

/* The item to be tried next. */
struct next {
    int item;        /* SITE_NONE: there is none */
    int ways;        /* 0: no batch can hold it */
    uint64_t not_in; /* batches that cannot hold it, of the first 64 */
};

/* Where an item begins a batch no other is put there with it: that one may begin a batch of its own. */
static void put(struct trying *t, const struct tally *tally, size_t before, struct put own)
{
    bool begun = own.group == kind_groups(t->fitting.c, tally);
    for (size_t i = before; i < t->put_count && begun; i++)
        if (t->fitting.site->rows[t->put[i].item].kind == t->fitting.site->rows[own.item].kind)
            return;
    t->put[t->put_count++] = own;
}

/* Items of a kind with a single way, and the one with the fewest of the others. */
static void look_at(struct trying *t, const struct tally *tally, struct next *next)
{
    const struct counting *c = t->fitting.c;
    int groups = groups_most(t, tally);
    size_t before = t->put_count;
    for (size_t i = 0; i < tally->count && groups > 0; i++) {
        struct put own = {tally->items[i], SITE_NONE};
        int ways = 0;
        uint64_t not_in = 0;
        if (c->group[own.item] != SITE_NONE || fitting_units(&t->fitting, own.item) == 0)
            continue;
        for (int group = 0; group < groups; group++)
            if (may_be_in(&t->fitting, tally, own.item, group)) {
                ways++;
                own.group = group;
            } else if (group < 64) {
                not_in |= (uint64_t)1 << group;
            }
        if (ways == 1)
            put(t, tally, before, own);
        else if (next->item == SITE_NONE || ways < next->ways ||
                 (ways == next->ways && t->fitting.last[own.item] < t->fitting.last[next->item]))
            *next = (struct next){own.item, ways, not_in};
    }
}

static struct next find_next(struct trying *t)
{
    const struct counting *c = t->fitting.c;
    struct next next = {SITE_NONE, 1, 0};
    for (size_t k = 0; k<c->site->kind_count && * c->left> 0; k++)
        if (t->few->is[k])
            look_at(t, &t->tallies[k], &next);
    return next;
}

static bool fits_from(struct trying *t);

static bool any_way_fits(struct trying *t, const struct next *next)
{
    const struct counting *c = t->fitting.c;
    const struct tally *tally = &t->tallies[c->site->rows[next->item].kind];
    struct known **known = &t->known[t->depth++], now = known_of(&t->fitting);
    int groups = groups_most(t, tally);
    bool fit = false;
    if (!*known)
        *known = known_make(c->arena, c->site->count);
    copy_known(*known, &now, c->site->count);
    for (int group = 0; group < groups && !fit; group++) {
        if (group < 64 && next->not_in >> group & 1)
            continue;
        copy_known(&now, *known, c->site->count);
        memset(t->fitting.lowered, 0, c->site->count * sizeof *t->fitting.lowered);
        c->group[next->item] = group;
        fit = fits_from(t);
    }
    c->group[next->item] = SITE_NONE;
    t->depth--;
    return fit;
}

/* From what is known, which is made more. */
static bool fits_from(struct trying *t)
{
    const struct counting *c = t->fitting.c;
    size_t mark = t->put_count, before;
    struct next next;
    bool fit;
    do {
        before = t->put_count;
        fit = fitting_holds(&t->fitting, t->tallies, t->few, NULL);
        next = fit ? find_next(t) : (struct next){SITE_NONE, 0, 0};
        fit = next.ways > 0;
        for (size_t i = before; i < t->put_count; i++)
            c->group[t->put[i].item] = t->put[i].group;
    } while (fit && t->put_count > before);
    if (fit && next.item != SITE_NONE && *c->left > t->until)
        fit = any_way_fits(t, &next);
    for (; t->put_count > mark; t->put_count--)
        c->group[t->put[t->put_count - 1].item] = SITE_NONE;
    return fit;
}

/* Where there may be more batches, only of the items that lead the row is it known which one holds them. */
static void open_others(const struct counting *c, const struct tally *tally)
{
    for (size_t i = 0; i < tally->count; i++)
        if (!c->leads[tally->items[i]])
            c->group[tally->items[i]] = SITE_NONE;
}

struct trying *trying_make(struct arena *arena, const struct site *site)
{
    struct trying *t = ARENA_NEW(arena, struct trying);
    t->put = ARENA_ARRAY(arena, site->count, struct put);
    t->group = ARENA_ARRAY(arena, site->count, int);
    t->known = ARENA_ARRAY(arena, site->count, struct known *);
    return t;
}

bool kinds_fit(const struct counting *c, const struct tally *tallies, const struct few *few)
{
    struct trying *t = c->trying;
    size_t size = c->site->count * sizeof *t->group;
    t->fitting = fitting_begin(c);
    t->tallies = tallies;
    t->few = few;
    t->until = TEST_STEPS_MOST - BRANCH_STEPS_MOST;
    memcpy(t->group, c->group, size);
    for (size_t k = 0; k < c->site->kind_count; k++)
        if (few->is[k] && few->more[k] > 0)
            open_others(c, &tallies[k]);
    bool fit = fits_from(t);
    memcpy(c->group, t->group, size);
    return fit;
}
