#include "timetable/order.h"

#include "base/arena.h"

#include <stdlib.h>
#include <string.h>

struct variant *variant_make(struct arena *arena, const struct site *site)
{
    struct variant *variant = ARENA_NEW(arena, struct variant);
    variant->order.items = ARENA_ARRAY(arena, site->count, int);
    variant->order.runs = ARENA_ARRAY(arena, site->count + 1, struct run);
    variant->draft = draft_make(arena, site);
    return variant;
}

void variant_copy_order(struct variant *to, const struct variant *from)
{
    to->waits = from->waits;
    to->shared = 0;
    to->order.item_count = from->order.item_count;
    to->order.run_count = from->order.run_count;
    memcpy(to->order.items, from->order.items, from->order.item_count * sizeof *to->order.items);
    memcpy(to->order.runs, from->order.runs, from->order.run_count * sizeof *to->order.runs);
    memcpy(to->draft->left_out, from->draft->left_out, from->draft->site->count * sizeof(bool));
}

void variant_copy(struct variant *to, const struct variant *from)
{
    variant_copy_order(to, from);
    to->whole = from->whole;
    draft_copy(to->draft, from->draft);
    for (size_t i = 0; i < to->draft->count; i++) {
        struct batch *batch = &to->draft->placed[i].batch;
        batch->items = to->order.items + (batch->items - from->order.items);
    }
}

/* Whether the same is done at that place in both orders, and nothing of it was held back in the second. */
static bool same_run(const struct variant *to, const struct variant *from, size_t at)
{
    const struct run *a = &to->order.runs[at], *b = &from->order.runs[at];
    const int *items = to->order.items + a->from, *others = from->order.items + b->from;
    bool same = a->kind == b->kind && a->person == b->person && a->count == b->count &&
                a->thrifty == b->thrifty && a->in_step == b->in_step;
    for (size_t i = 0; i < a->count && same; i++)
        same = items[i] == others[i] && from->draft->hold[items[i]] == 0;
    return same;
}

void variant_share(struct variant *to, const struct variant *from)
{
    size_t shared = 0;
    size_t most = to->order.run_count < from->draft->count ? to->order.run_count : from->draft->count;
    if (memcmp(to->draft->left_out, from->draft->left_out, from->draft->site->count * sizeof(bool)) != 0)
        return;
    while (shared < most && same_run(to, from, shared))
        shared++;
    draft_clear(to->draft);
    for (size_t i = 0; i < shared; i++)
        draft_take_over(to->draft, from->draft, to->order.items + to->order.runs[i].from);
    to->shared = shared;
}

static bool goes_before(const struct site *site, int a, int b)
{
    int coat_a = site_turned_for(site, a), coat_b = site_turned_for(site, b);
    int of_a = coat_a == SITE_NONE ? a : coat_a, of_b = coat_b == SITE_NONE ? b : coat_b;
    if (of_a == of_b)
        return a < b;
    const struct task_row *left = &site->rows[of_a], *right = &site->rows[of_b];
    if (left->release != right->release)
        return left->release < right->release;
    if (site->tail[of_a] != site->tail[of_b])
        return site->tail[of_a] > site->tail[of_b];
    return of_a < of_b;
}

void order_sort_run(const struct site *site, struct order *order, struct run *run)
{
    int *items = order->items + run->from;
    for (size_t gap = run->count / 2; gap > 0; gap /= 2)
        for (size_t i = gap; i < run->count; i++) {
            int item = items[i];
            size_t k = i;
            for (; k >= gap && goes_before(site, item, items[k - gap]); k -= gap)
                items[k] = items[k - gap];
            items[k] = item;
        }
}

static int by_number(const void *a, const void *b)
{
    return *(const int *)a - *(const int *)b;
}

void order_list_run(struct order *order, struct run *run)
{
    qsort(order->items + run->from, run->count, sizeof *order->items, by_number);
}

static int32_t tail_of(const struct site *site, const struct order *order, const struct run *run)
{
    int32_t tail = 0;
    for (size_t i = 0; i < run->count; i++) {
        int32_t own = site->tail[order->items[run->from + i]];
        tail = own > tail ? own : tail;
    }
    return tail;
}

static void sort_runs(const struct site *site, const int *group, struct order *order)
{
    for (size_t i = 1; i < order->run_count; i++) {
        struct run run = order->runs[i];
        int own = group[order->items[run.from]];
        int32_t tail = tail_of(site, order, &run);
        size_t k = i;
        for (; k > 0; k--) {
            const struct run *before = &order->runs[k - 1];
            int other = group[order->items[before->from]];
            if (other < own || (other == own && tail_of(site, order, before) >= tail))
                break;
            order->runs[k] = *before;
        }
        order->runs[k] = run;
    }
}

/* Everything of one kind and rank; a task, or a turn that takes two, by itself. */
static bool goes_with(const struct site *site, const int *rank, int a, int b)
{
    int coat_a = site_turned_for(site, a), coat_b = site_turned_for(site, b);
    int of_a = coat_a == SITE_NONE ? a : coat_a, of_b = coat_b == SITE_NONE ? b : coat_b;
    if (site->rows[of_a].operation->doing == DO_TASK || site->rows[a].operation->people > 1 ||
        site->rows[b].operation->people > 1)
        return a == b;
    return site->rows[of_a].kind == site->rows[of_b].kind && rank[of_a] == rank[of_b];
}

static bool begins_chain(const struct site *site, size_t i)
{
    const struct task_row *row = &site->rows[i];
    return i == 0 || row->job != row[-1].job || row->operation->chain != row[-1].operation->chain;
}

int order_chains(const struct site *site)
{
    int chains = 0;
    for (size_t i = 0; i < site->count; i++)
        chains += begins_chain(site, i);
    return chains;
}

/* Into which group each item falls; the items of a chain, and of a piece of several, follow one another. */
static int *groups_of(const struct site *site, int groups)
{
    int *group = ARENA_ARRAY(site->arena, site->count, int);
    int chains = order_chains(site), chain = -1;
    for (size_t i = 0; i < site->count; i++) {
        chain += begins_chain(site, i);
        group[i] = (int)((int64_t)chain * groups / chains);
    }
    return group;
}

void order_first(const struct site *site, const struct betweens *betweens, bool late, int groups,
                 struct order *order)
{
    const int *group = groups_of(site, groups);
    int *rank = ARENA_ARRAY(site->arena, site->count, int);
    bool *taken = ARENA_ARRAY(site->arena, site->count, bool);
    between_ranks(betweens, late, rank);
    order->item_count = order->run_count = 0;
    for (size_t i = 0; i < site->count; i++) {
        if (taken[i] || site->rows[i].optional)
            continue;
        int coat = site_turned_for(site, (int)i);
        struct run *run = &order->runs[order->run_count++];
        *run = (struct run){.kind = site->rows[coat == SITE_NONE ? (int)i : coat].kind,
                            .person = SITE_NONE,
                            .from = order->item_count};
        for (size_t k = i; k < site->count; k++) {
            if (taken[k] || site->rows[k].optional || group[k] != group[i] ||
                !goes_with(site, rank, (int)i, (int)k))
                continue;
            taken[k] = true;
            order->items[order->item_count++] = (int)k;
            run->count++;
        }
        order_sort_run(site, order, run);
    }
    sort_runs(site, group, order);
}

void order_share_out(struct order *order, int people)
{
    size_t count = order->run_count, shared = 0;
    for (size_t i = 0; i < count; i++)
        shared += order->runs[i].count < (size_t)people ? order->runs[i].count : (size_t)people;
    order->run_count = shared;
    for (size_t i = count; i-- > 0;) {
        struct run whole = order->runs[i];
        size_t shares = whole.count < (size_t)people ? whole.count : (size_t)people, until = whole.count;
        for (size_t n = shares; n-- > 0;) {
            size_t from = whole.count * n / shares;
            order->runs[--shared] = (struct run){.kind = whole.kind,
                                                 .person = shares > 1 ? (int)n : whole.person,
                                                 .from = whole.from + from,
                                                 .count = until - from};
            until = from;
        }
    }
}
