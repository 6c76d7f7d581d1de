#include "timetable/between.h"

#include "base/arena.h"

#include <stdlib.h>

enum { STEPS_MOST = 20000000, BETWEENS_MOST = 2000000, TOGETHER_MIN = 45 };

/* Ways from one item being looked for. */
struct looking {
    const struct site *site;
    struct arena *arena;
    struct betweens *found;
    struct between *items;
    size_t room;
    int *place;   /* per operation: in the order; SITE_NONE: it is in none */
    int32_t *at;  /* per operation: minutes from the end of the first to its start; SITE_NONE: no way to it */
    bool *alone;  /* per operation: on a way to it lies work that the person of the first would have to do */
    int *reached; /* by place */
    size_t reached_count;
    int64_t steps;
};

static bool counts(const struct site *site, const struct link *link)
{
    return !site_link_is_limit(link) && !site->rows[link->from].optional && !site->rows[link->to].optional;
}

/* Each behind all that it waits for; what waits for itself in a circle is left out. */
static void put_in_order(struct looking *l)
{
    const struct site *site = l->site;
    int *order = ARENA_ARRAY(l->arena, site->count, int);
    int *open = ARENA_ARRAY(l->arena, site->count, int);
    size_t count = 0;
    for (size_t i = 0; i < site->operations->link_count; i++)
        open[site->operations->links[i].to] += counts(site, &site->operations->links[i]);
    for (size_t i = 0; i < site->count; i++)
        if (open[i] == 0 && !site->rows[i].optional)
            order[count++] = (int)i;
    for (size_t n = 0; n < count; n++) {
        const struct task_row *row = &site->rows[order[n]];
        l->place[order[n]] = (int)n;
        for (size_t k = 0; k < row->out_count; k++) {
            const struct link *link = &site->operations->links[row->out[k]];
            if (counts(site, link) && --open[link->to] == 0)
                order[count++] = link->to;
        }
    }
    l->found->order = order;
    l->found->ordered = count;
}

/* The way to an operation over those before it, all of which have been seen. */
static void find_way(struct looking *l, int first, int item)
{
    const struct site *site = l->site;
    const struct task_row *row = &site->rows[item], *start = &site->rows[first];
    for (size_t k = 0; k < row->in_count; k++) {
        const struct link *link = &site->operations->links[row->in[k]];
        int from = link->from;
        l->steps++;
        if (!counts(site, link) || (from != first && l->at[from] == SITE_NONE))
            continue;
        int32_t then = site_link_least(site, link);
        if (from != first)
            then += l->at[from] + site->rows[from].operation->units.seconds / 60;
        l->at[item] = then > l->at[item] ? then : l->at[item];
        if (from == first)
            continue;
        const struct task_row *other = &site->rows[from];
        l->alone[item] |=
            l->alone[from] ||
            (other->kind != start->kind && other->operation->doing != DO_FLIP &&
             other->operation->units.seconds > 0 && !site_may_be_at_once(site, start->kind, other->kind));
    }
    bool dusts = row->operation->dusty && start->film && !site->shop->dust_separate;
    int32_t clear = dusts ? site_fastest(site, first, STATE_DUST_FREE) : 0;
    l->at[item] = clear > l->at[item] ? clear : l->at[item];
}

static int by_place(const void *a, const void *b)
{
    return *(const int *)a - *(const int *)b;
}

static void reach(struct looking *l, int item)
{
    const struct task_row *row = &l->site->rows[item];
    for (size_t k = 0; k < row->out_count; k++) {
        const struct link *link = &l->site->operations->links[row->out[k]];
        l->steps++;
        if (!counts(l->site, link) || l->place[link->to] == SITE_NONE || l->alone[link->to])
            continue;
        l->alone[link->to] = true; /* so far: it is among the reached */
        l->reached[l->reached_count++] = l->place[link->to];
    }
}

static void keep(struct looking *l, int from, int to)
{
    struct betweens *found = l->found;
    l->items = arena_grow(l->arena, l->items, found->count, &l->room, sizeof *l->items);
    l->items[found->count++] = (struct between){from, to, l->alone[to] ? SITE_NEVER : l->at[to]};
    found->items = l->items;
}

static void look_from(struct looking *l, int first)
{
    const struct site *site = l->site;
    l->reached_count = 0;
    reach(l, first);
    for (size_t n = 0; n < l->reached_count; n++)
        reach(l, l->found->order[l->reached[n]]);
    qsort(l->reached, l->reached_count, sizeof *l->reached, by_place);
    for (size_t n = 0; n < l->reached_count; n++)
        l->alone[l->found->order[l->reached[n]]] = false;
    for (size_t n = 0; n < l->reached_count; n++) {
        int item = l->found->order[l->reached[n]];
        find_way(l, first, item);
        if (site->rows[item].kind == site->rows[first].kind)
            keep(l, first, item);
    }
    for (size_t n = 0; n < l->reached_count; n++) {
        int item = l->found->order[l->reached[n]];
        l->at[item] = SITE_NONE;
        l->alone[item] = false;
    }
}

struct betweens between_make(struct arena *arena, const struct site *site)
{
    struct betweens found = {0};
    struct looking l = {.site = site, .arena = arena, .found = &found};
    size_t *first = ARENA_ARRAY(arena, site->count + 1, size_t);
    l.place = ARENA_ARRAY(arena, site->count, int);
    l.at = ARENA_ARRAY(arena, site->count, int32_t);
    l.alone = ARENA_ARRAY(arena, site->count, bool);
    l.reached = ARENA_ARRAY(arena, site->count, int);
    for (size_t i = 0; i < site->count; i++)
        l.place[i] = l.at[i] = SITE_NONE;
    put_in_order(&l);
    found.first = first;
    found.place = l.place;
    for (size_t i = 0; i < site->count; i++) {
        first[i] = found.count;
        if (l.place[i] != SITE_NONE && l.steps < STEPS_MOST && found.count < BETWEENS_MOST)
            look_from(&l, (int)i);
    }
    first[site->count] = found.count;
    return found;
}

void between_ranks(const struct betweens *betweens, bool late, int *rank)
{
    for (size_t n = 0; n < betweens->ordered; n++) {
        int item = betweens->order[late ? betweens->ordered - 1 - n : n];
        for (size_t k = betweens->first[item]; k < betweens->first[item + 1]; k++) {
            const struct between *between = &betweens->items[k];
            int step = between->wait > TOGETHER_MIN;
            int *raised = late ? &rank[item] : &rank[between->to], own = step;
            own += late ? rank[between->to] : rank[item];
            *raised = own > *raised ? own : *raised;
        }
    }
}
