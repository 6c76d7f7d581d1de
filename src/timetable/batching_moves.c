/* What a search changes of an order, at random. */
#include "timetable/batching.h"

#include <string.h>

/* xorshift64*: Vigna, ACM TOMS 42, 2016. The same numbers everywhere. */
static uint32_t draw(struct moving *s, size_t below)
{
    s->random ^= s->random >> 12;
    s->random ^= s->random << 25;
    s->random ^= s->random >> 27;
    return (uint32_t)((s->random * 2685821657736338717u >> 33) % (below ? below : 1));
}

static void remove_run(struct order *order, size_t index)
{
    memmove(&order->runs[index], &order->runs[index + 1],
            (order->run_count - index - 1) * sizeof *order->runs);
    order->run_count--;
}

/* Rewrites the items so that runs lie one behind the other in their order; `joins` to the first of the two. */
static void gather(struct moving *s, struct order *order, size_t into, size_t from)
{
    int *items = s->trial->draft->apart;
    size_t count = 0;
    for (size_t i = 0; i < order->run_count; i++) {
        struct run *run = &order->runs[i];
        if (i == from)
            continue;
        size_t begin = count;
        memcpy(items + count, order->items + run->from, run->count * sizeof *items);
        count += run->count;
        if (i == into) {
            memcpy(items + count, order->items + order->runs[from].from,
                   order->runs[from].count * sizeof *items);
            count += order->runs[from].count;
        }
        run->from = begin;
        run->count = count - begin;
    }
    memcpy(order->items, items, count * sizeof *items);
    if (from < order->run_count)
        remove_run(order, from);
}

/* Takes an item out of the run that it is in and puts it at the end of another; a run that it leaves empty goes. Where that
 * other then is. */
static size_t move_item(struct order *order, int item, size_t into)
{
    size_t at = 0, from = 0;
    while (order->items[at] != item)
        at++;
    while (at < order->runs[from].from || at >= order->runs[from].from + order->runs[from].count)
        from++;
    size_t end = order->runs[into].from + order->runs[into].count;
    if (at < end)
        memmove(&order->items[at], &order->items[at + 1], (end - at - 1) * sizeof item);
    else
        memmove(&order->items[end + 1], &order->items[end], (at - end) * sizeof item);
    order->items[at < end ? end - 1 : end] = item;
    for (size_t i = 0; i < order->run_count; i++) {
        struct run *run = &order->runs[i];
        if (at < end && run->from > at && run->from < end)
            run->from--;
        else if (at >= end && run->from >= end && run->from <= at)
            run->from++;
    }
    order->runs[from].count--;
    order->runs[into].count++;
    if (order->runs[from].count > 0)
        return into;
    remove_run(order, from);
    return from < into ? into - 1 : into;
}

static bool holds(const struct order *order, const struct run *run, int item)
{
    for (size_t i = 0; i < run->count; i++)
        if (order->items[run->from + i] == item)
            return true;
    return false;
}

/* Where one batch coats both sides of a piece the piece is turned within it. Where the batch then is. */
static size_t take_turns_along(struct moving *s, size_t at)
{
    struct order *order = &s->trial->order;
    const struct task_row *rows = s->site->rows;
    for (size_t i = 0; i < order->runs[at].count; i++) {
        int coat = order->items[order->runs[at].from + i], turn = coat - 1;
        while (turn > 0 && rows[turn].optional)
            turn--;
        if (turn < 1 || site_turned_for(s->site, turn) != coat || holds(order, &order->runs[at], turn))
            continue;
        bool before = false;
        for (size_t k = 0; k < order->runs[at].count && !before; k++) {
            int other = order->items[order->runs[at].from + k];
            before = other < turn && rows[other].operation->chain == rows[coat].operation->chain &&
                     rows[other].job == rows[coat].job;
        }
        if (before)
            at = move_item(order, turn, at);
    }
    return at;
}

static bool may_join(const struct moving *s, const struct run *a, const struct run *b)
{
    return a->kind == b->kind && s->site->rows[s->trial->order.items[a->from]].operation->doing != DO_TASK;
}

/* Two batches of one kind become one, where the first of them stands, or the last. */
bool moves_join(struct moving *s, size_t a, size_t b, bool early, bool sorted)
{
    struct order *order = &s->trial->order;
    size_t first = a < b ? a : b, last = a < b ? b : a;
    if (first == last || !may_join(s, &order->runs[first], &order->runs[last]))
        return false;
    gather(s, order, early ? first : last, early ? last : first);
    size_t at = early ? first : last - 1, count = order->runs[at].count;
    at = take_turns_along(s, at);
    if (sorted || order->runs[at].count > count)
        order_sort_run(s->site, order, &order->runs[at]);
    return true;
}

static void move_run(struct order *order, size_t from, size_t to)
{
    struct run run = order->runs[from];
    remove_run(order, from);
    memmove(&order->runs[to + 1], &order->runs[to], (order->run_count - to) * sizeof run);
    order->runs[to] = run;
    order->run_count++;
}

static bool divide(struct moving *s)
{
    struct order *order = &s->trial->order;
    size_t index = draw(s, order->run_count);
    struct run *run = &order->runs[index];
    if (run->count < 2)
        return false;
    size_t at = draw(s, 3) ? run->count / 2 : 1 + draw(s, run->count - 1);
    order_cut(order, index, at);
    size_t to = index + 1 + draw(s, order->run_count - index - 1);
    if (draw(s, 2))
        move_run(order, index + 1, to);
    return true;
}

/* A batch of the same kind; there is none: the batch itself. */
static size_t other_of_kind(struct moving *s, size_t index)
{
    const struct order *order = &s->trial->order;
    size_t other = draw(s, order->run_count), tried = 0;
    while (tried++ < order->run_count &&
           (other == index || !may_join(s, &order->runs[index], &order->runs[other])))
        other = (other + 1) % order->run_count;
    return tried > order->run_count ? index : other;
}

static bool join_some(struct moving *s)
{
    struct order *order = &s->trial->order;
    size_t a = draw(s, order->run_count), b = other_of_kind(s, a);
    bool sorted = draw(s, 4),
         early = draw(s, 2); /* one after the other: a call leaves their order to the compiler */
    return moves_join(s, a, b, early, sorted);
}

/* A batch does its items as they become free, or does not any more. */
static bool turn_step(struct moving *s)
{
    struct run *run = &s->trial->order.runs[draw(s, s->trial->order.run_count)];
    if (run->count < 2)
        return false;
    run->in_step = !run->in_step;
    return true;
}

/* Items at the end or the beginning of one batch go to another of its kind. */
static bool shift_items(struct moving *s)
{
    struct order *order = &s->trial->order;
    size_t index = draw(s, order->run_count);
    struct run *run = &order->runs[index];
    if (run->count < 2)
        return false;
    size_t moved = draw(s, 2) ? 1 : 1 + draw(s, run->count - 1), to = other_of_kind(s, index);
    if (to == index)
        return false;
    bool front = draw(s, 2);
    memmove(run + 2, run + 1, (order->run_count - index - 1) * sizeof *run);
    size_t at = front ? moved : run->count - moved;
    run[1] = *run;
    run[1].from += at;
    run[1].count -= at;
    run->count = at;
    order->run_count++;
    to += to > index;
    size_t source = front ? index : index + 1;
    gather(s, order, to, source);
    order_sort_run(s->site, order, &order->runs[to > source ? to - 1 : to]);
    return true;
}

/* All that one batch does on one piece, a turn with the coat behind it, goes to another of its kind. */
static bool shift_piece(struct moving *s)
{
    struct order *order = &s->trial->order;
    const struct task_row *rows = s->site->rows;
    size_t index = draw(s, order->run_count), to = other_of_kind(s, index);
    if (to == index)
        return false;
    const struct run *run = &order->runs[index];
    const struct task_row *row = &rows[order->items[run->from + draw(s, run->count)]];
    int *items = s->trial->draft->apart;
    size_t count = 0;
    for (size_t i = 0; i < run->count; i++) {
        const struct task_row *other = &rows[order->items[run->from + i]];
        if (other->job == row->job && other->operation->chain == row->operation->chain)
            items[count++] = order->items[run->from + i];
    }
    for (size_t i = 0; i < count; i++)
        to = move_item(order, items[i], to);
    order_sort_run(s->site, order, &order->runs[to]);
    return true;
}

static bool swap_items(struct moving *s)
{
    struct order *order = &s->trial->order;
    struct run *run = &order->runs[draw(s, order->run_count)];
    if (run->count < 2)
        return false;
    size_t a = draw(s, run->count), b = draw(s, run->count);
    int item = order->items[run->from + a];
    order->items[run->from + a] = order->items[run->from + b];
    order->items[run->from + b] = item;
    return a != b;
}

static bool move_some(struct moving *s)
{
    struct order *order = &s->trial->order;
    size_t from = draw(s, order->run_count), to = draw(s, order->run_count);
    if (from == to)
        return false;
    move_run(order, from, to);
    return true;
}

static bool give_to(struct moving *s)
{
    struct order *order = &s->trial->order;
    int people = s->site->crew->count;
    if (people < 2)
        return move_some(s);
    struct run *run = &order->runs[draw(s, order->run_count)];
    int person = (int)draw(s, (size_t)people + 1) - 1;
    if (run->person == person)
        return false;
    run->person = person;
    return true;
}

static size_t optional_of(const struct moving *s, const struct run *run)
{
    size_t at = 0;
    while (at < run->count && !s->site->rows[s->trial->order.items[run->from + at]].optional)
        at++;
    return at;
}

static void leave_out(struct moving *s, size_t index, size_t at)
{
    struct order *order = &s->trial->order;
    struct run *run = &order->runs[index];
    int *item = &order->items[run->from + at];
    s->trial->draft->left_out[*item] = true;
    memmove(item, item + 1, (run->count - at - 1) * sizeof *item);
    run->count--;
    order->item_count--;
    if (run->count == 0)
        remove_run(order, index);
    gather(s, order, order->run_count, order->run_count);
}

static bool drop_scuff(struct moving *s)
{
    const struct order *order = &s->trial->order;
    size_t first = draw(s, order->run_count);
    for (size_t n = 0; n < order->run_count; n++) {
        size_t index = (first + n) % order->run_count, at = optional_of(s, &order->runs[index]);
        if (at == order->runs[index].count)
            continue;
        leave_out(s, index, at);
        return true;
    }
    return false;
}

void moves_leave_out(struct moving *moving, int item)
{
    const struct order *order = &moving->trial->order;
    for (size_t i = 0; i < order->run_count; i++)
        for (size_t at = 0; at < order->runs[i].count; at++)
            if (order->items[order->runs[i].from + at] == item) {
                leave_out(moving, i, at);
                return;
            }
}

bool moves_is_mixed(const struct site *site, const struct run *run)
{
    return site->kinds[run->kind].working != INT32_MAX;
}

/* A batch that is mixed for waits for the best start, or does not any more. */
static bool turn_thrifty(struct moving *s)
{
    struct order *order = &s->trial->order;
    size_t first = draw(s, order->run_count);
    for (size_t n = 0; n < order->run_count; n++) {
        struct run *run = &order->runs[(first + n) % order->run_count];
        if (!moves_is_mixed(s->site, run))
            continue;
        run->thrifty = !run->thrifty;
        return true;
    }
    return false;
}

bool moves_change(struct moving *s)
{
    if (s->mixes && draw(s, 12) == 0)
        return turn_thrifty(s);
    if (s->limits && draw(s, 8) == 0)
        s->trial->waits = !s->trial->waits;
    if (s->scuffs != SCUFF_NEVER && draw(s, 12) == 0)
        return drop_scuff(s);
    if (s->pieces && draw(s, 11) == 0)
        return shift_piece(s);
    if (s->steps && draw(s, 10) == 0)
        return turn_step(s);
    switch (draw(s, 10)) {
    case 0:
    case 1:
    case 2:
        return join_some(s);
    case 3:
    case 4:
        return divide(s);
    case 5:
        return shift_items(s);
    case 6:
        return swap_items(s);
    case 7:
        return give_to(s);
    default:
        return move_some(s);
    }
}

/* One change, or a few: what only pays together is found together. */
bool moves_change_some(struct moving *s)
{
    bool changed = moves_change(s);
    for (uint32_t more = draw(s, 2) ? draw(s, 5) : 0; more > 0; more--)
        changed |= moves_change(s);
    return changed;
}
