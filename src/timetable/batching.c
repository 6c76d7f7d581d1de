#include "timetable/batching.h"

#include "base/arena.h"
#include "base/observer.h"

#include <string.h>

/* Counted work for the first plans: less than this, a large job might have none. */
enum { START_EFFORT = 4000000 };

enum { MEMORY = 24, STALE_ROUNDS = 6, ASK_EVERY = 32, TIDIED_MOST = 200, KICKS = 8, KICK_CHANGES = 4 };

/* A search under way. */
struct searching {
    struct batching *batching;
    const struct site *site;
    struct variant *now, *trial;
    struct score now_score, memory[MEMORY];
    size_t turn;
    uint64_t random;
    bool limits; /* there are windows to keep */
    enum scuffing scuffs;
};

/* xorshift64*: Vigna, ACM TOMS 42, 2016. The same numbers everywhere. */
static uint32_t draw(struct searching *s, size_t below)
{
    s->random ^= s->random >> 12;
    s->random ^= s->random << 25;
    s->random ^= s->random >> 27;
    return (uint32_t)((s->random * 2685821657736338717u >> 33) % (below ? below : 1));
}

static void read_trial(struct searching *s, struct variant *variant, struct score *score)
{
    int64_t before = variant->draft->effort, most = s->batching->effort;
    variant_place(variant, s->scuffs, (most > START_EFFORT ? most : START_EFFORT) - s->batching->spent);
    *score = score_of(variant);
    s->batching->spent += variant->draft->effort - before;
    s->batching->nodes++;
}

static void remove_run(struct order *order, size_t index)
{
    memmove(&order->runs[index], &order->runs[index + 1],
            (order->run_count - index - 1) * sizeof *order->runs);
    order->run_count--;
}

/* Rewrites the items so that runs lie one behind the other in their order; `joins` to the first of the two. */
static void gather(struct searching *s, struct order *order, size_t into, size_t from)
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

static bool may_join(const struct searching *s, const struct run *a, const struct run *b)
{
    return a->kind == b->kind && s->site->rows[s->trial->order.items[a->from]].operation->doing != DO_TASK;
}

/* Two batches of one kind become one, where the first of them stands, or the last. */
static bool join(struct searching *s, size_t a, size_t b, bool early, bool sorted)
{
    struct order *order = &s->trial->order;
    size_t first = a < b ? a : b, last = a < b ? b : a;
    if (first == last || !may_join(s, &order->runs[first], &order->runs[last]))
        return false;
    gather(s, order, early ? first : last, early ? last : first);
    size_t at = early ? first : last - 1;
    if (sorted)
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

static bool divide(struct searching *s)
{
    struct order *order = &s->trial->order;
    size_t index = draw(s, order->run_count);
    struct run *run = &order->runs[index];
    if (run->count < 2)
        return false;
    size_t at = draw(s, 3) ? run->count / 2 : 1 + draw(s, run->count - 1);
    memmove(run + 2, run + 1, (order->run_count - index - 1) * sizeof *run);
    run[1] = (struct run){run->kind, run->person, run->from + at, run->count - at};
    run->count = at;
    order->run_count++;
    size_t to = index + 1 + draw(s, order->run_count - index - 1);
    if (draw(s, 2))
        move_run(order, index + 1, to);
    return true;
}

static bool join_some(struct searching *s)
{
    struct order *order = &s->trial->order;
    size_t a = draw(s, order->run_count), tried = 0, b = draw(s, order->run_count);
    while (tried++ < order->run_count && (a == b || !may_join(s, &order->runs[a], &order->runs[b])))
        b = (b + 1) % order->run_count;
    bool sorted = draw(s, 4),
         early = draw(s, 2); /* one after the other: a call leaves their order to the compiler */
    return join(s, a, b, early, sorted);
}

/* Items at the end or the beginning of one batch go to another of its kind. */
static bool shift_items(struct searching *s)
{
    struct order *order = &s->trial->order;
    size_t index = draw(s, order->run_count);
    struct run *run = &order->runs[index];
    if (run->count < 2)
        return false;
    size_t moved = draw(s, 2) ? 1 : 1 + draw(s, run->count - 1), to = draw(s, order->run_count), tried = 0;
    while (tried++ < order->run_count && (to == index || !may_join(s, run, &order->runs[to])))
        to = (to + 1) % order->run_count;
    if (to == index || !may_join(s, run, &order->runs[to]))
        return false;
    bool front = draw(s, 2);
    memmove(run + 2, run + 1, (order->run_count - index - 1) * sizeof *run);
    size_t at = front ? moved : run->count - moved;
    run[1] = (struct run){run->kind, run->person, run->from + at, run->count - at};
    run->count = at;
    order->run_count++;
    to += to > index;
    size_t source = front ? index : index + 1;
    gather(s, order, to, source);
    order_sort_run(s->site, order, &order->runs[to > source ? to - 1 : to]);
    return true;
}

static bool swap_items(struct searching *s)
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

static bool move_some(struct searching *s)
{
    struct order *order = &s->trial->order;
    size_t from = draw(s, order->run_count), to = draw(s, order->run_count);
    if (from == to)
        return false;
    move_run(order, from, to);
    return true;
}

static bool give_to(struct searching *s)
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

/* Takes a late scuff out of the order again. */
static bool drop_scuff(struct searching *s)
{
    struct order *order = &s->trial->order;
    size_t first = draw(s, order->run_count);
    for (size_t n = 0; n < order->run_count; n++) {
        struct run *run = &order->runs[(first + n) % order->run_count];
        for (size_t i = 0; i < run->count; i++) {
            int item = order->items[run->from + i];
            if (!s->site->rows[item].operation->late_scuff)
                continue;
            s->trial->draft->left_out[item] = true;
            memmove(&order->items[run->from + i], &order->items[run->from + i + 1],
                    (run->count - i - 1) * sizeof item);
            run->count--;
            order->item_count--;
            if (run->count == 0)
                remove_run(order, (first + n) % order->run_count);
            gather(s, order, order->run_count, order->run_count);
            return true;
        }
    }
    return false;
}

static bool change(struct searching *s)
{
    if (s->limits && draw(s, 8) == 0)
        s->trial->waits = !s->trial->waits;
    if (s->scuffs != SCUFF_NEVER && draw(s, 12) == 0)
        return drop_scuff(s);
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
static bool change_some(struct searching *s)
{
    bool changed = change(s);
    for (uint32_t more = draw(s, 2) ? draw(s, 5) : 0; more > 0; more--)
        changed |= change(s);
    return changed;
}

static int compare(const struct searching *s, const struct score *a, const struct score *b)
{
    return score_compare(a, b, s->batching->aim);
}

static void keep_best(struct searching *s)
{
    struct batching *batching = s->batching;
    if (compare(s, &s->now_score, &batching->score) >= 0)
        return;
    variant_copy(batching->best, s->now);
    batching->score = s->now_score;
}

/* Nothing can be better in what the aim counts. */
static bool is_least(const struct batching *batching)
{
    const struct score *score = &batching->score;
    bool work = score->work <= batching->least.work, ready = score->ready <= batching->least.ready;
    if (!score->whole || batching->site->job_count > 1)
        return false;
    return batching->aim == AIM_SOONEST ? ready && work : score->late < 0 && work && ready;
}

/* Two batches as one, where the first or the last of them stands; where there are windows, either way of keeping them. */
static bool join_two(struct searching *s, size_t a, size_t b, int how)
{
    struct score score;
    variant_copy_order(s->trial, s->now);
    if (!join(s, a, b, how % 2 == 0, true))
        return false;
    s->trial->waits = how / 2 ? !s->now->waits : s->now->waits;
    read_trial(s, s->trial, &score);
    if (compare(s, &score, &s->now_score) >= 0)
        return false;
    variant_copy(s->now, s->trial);
    s->now_score = score;
    return true;
}

/* Batches of one kind are joined as long as that helps: the least work is mostly found so. */
static void join_all(struct searching *s)
{
    for (size_t a = 0; a < s->now->order.run_count; a++)
        for (size_t b = a + 1; b < s->now->order.run_count; b++) {
            bool joined = false;
            if (s->batching->spent > s->batching->effort)
                return;
            for (int how = 0; how < (s->limits ? 4 : 2) && !joined; how++)
                joined = join_two(s, a, b, how);
            b = joined ? a : b;
        }
}

static struct searching searching_of(struct arena *arena, struct batching *batching)
{
    struct searching s = {.batching = batching, .site = batching->site, .random = 88172645463325252u};
    s.now = variant_make(arena, batching->site);
    s.trial = variant_make(arena, batching->site);
    for (size_t i = 0; i < batching->site->operations->link_count; i++)
        s.limits |= site_link_is_limit(&batching->site->operations->links[i]);
    return s;
}

/* Every batch is divided among so many people. */
static void share_out(struct order *order, int people)
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
            order->runs[--shared] =
                (struct run){whole.kind, shares > 1 ? (int)n : whole.person, whole.from + from, until - from};
            until = from;
        }
    }
}

static void read_first(struct searching *s, int people)
{
    const struct site *site = s->site;
    order_first(site, &s->now->order);
    if (people > 1)
        share_out(&s->now->order, people);
    for (size_t i = 0; i < site->count; i++)
        s->now->draft->left_out[i] = site->rows[i].operation->late_scuff;
    read_trial(s, s->now, &s->now_score);
    keep_best(s);
}

void batching_start(struct batching *batching)
{
    batching->best = variant_make(batching->site->arena, batching->site);
    batching->score = (struct score){0};
    struct searching s = searching_of(batching->site->arena, batching);
    for (int how = 0; how < 2 * SCUFFINGS; how++) {
        int scuffs = how / 2;
        s.now->waits = how % 2;
        if ((how % 2 && !s.limits) || (how > 0 && batching->spent > START_EFFORT))
            continue;
        if (scuffs && batching->score.whole && batching->score.late <= 0 && batching->aim != AIM_SOONEST)
            break;
        s.scuffs = batching->scuffs = (enum scuffing)scuffs;
        read_first(&s, 1);
        bool in_time = batching->score.whole && batching->score.late <= 0 && batching->aim != AIM_SOONEST;
        if (batching->site->crew->count > 1 && !in_time)
            read_first(&s, batching->site->crew->count);
    }
}

static void accept(struct searching *s, const struct score *score)
{
    struct score *old = &s->memory[s->turn++ % MEMORY];
    if (compare(s, score, &s->now_score) <= 0 || compare(s, score, old) <= 0) {
        struct variant *now = s->now;
        s->now = s->trial;
        s->trial = now;
        s->now_score = *score;
        keep_best(s);
    }
    *old = s->now_score;
}

static void begin_at_best(struct searching *s)
{
    variant_copy(s->now, s->batching->best);
    s->now_score = s->batching->score;
    for (size_t i = 0; i < MEMORY; i++)
        s->memory[i] = s->now_score;
}

/* Whether the trial, read, is as good in everything that counts; then it is kept. */
static bool keep_tidier(struct searching *s)
{
    struct score score;
    read_trial(s, s->trial, &score);
    if (!score.whole || compare(s, &score, &s->batching->score) > 0)
        return false;
    variant_copy(s->batching->best, s->trial);
    s->batching->score = score;
    return true;
}

/* Batches in the order of the part list where that costs nothing: all at once, else each by itself. */
static void tidy(struct searching *s)
{
    struct order *order = &s->trial->order;
    variant_copy_order(s->trial, s->batching->best);
    for (size_t i = 0; i < order->run_count; i++)
        order_list_run(order, &order->runs[i]);
    if (keep_tidier(s))
        return;
    for (size_t i = 0; i < s->batching->best->order.run_count && i < TIDIED_MOST; i++)
        for (int how = 0; how < 2; how++) {
            variant_copy_order(s->trial, s->batching->best);
            if (how == 0)
                order_list_run(order, &order->runs[i]);
            else
                order_sort_run(s->site, order, &order->runs[i]);
            if (keep_tidier(s))
                break;
        }
}

/* Goes on from the best plan, or from one some changes away from it, whatever that costs. */
static void kick(struct searching *s, bool away)
{
    struct score score;
    begin_at_best(s);
    if (!away)
        return;
    variant_copy_order(s->trial, s->now);
    for (int i = 0; i < KICK_CHANGES; i++)
        change(s);
    read_trial(s, s->trial, &score);
    if (!score.whole)
        return;
    variant_copy(s->now, s->trial);
    s->now_score = score;
    for (size_t i = 0; i < MEMORY; i++)
        s->memory[i] = score;
    keep_best(s);
}

static void search(struct searching *s)
{
    struct batching *batching = s->batching;
    begin_at_best(s);
    int64_t stale = 0, patience = 2000 + 200 * (int64_t)batching->score.batches;
    while (batching->spent < batching->effort && !is_least(batching) && stale < patience * STALE_ROUNDS) {
        struct score score, best = batching->score;
        if (batching->nodes % ASK_EVERY == 0 &&
            observer_ask(batching->observer, batching->spent, batching->effort))
            return;
        variant_copy_order(s->trial, s->now);
        batching->spent += (int64_t)s->now->order.item_count;
        if (!change_some(s)) {
            stale++;
            continue;
        }
        read_trial(s, s->trial, &score);
        accept(s, &score);
        stale = compare(s, &batching->score, &best) < 0 ? 0 : stale + 1;
        if (stale > 0 && stale % (patience / KICKS) == 0)
            kick(s, stale % patience != 0);
    }
}

static void improve(void *call)
{
    struct batching *batching = call;
    struct arena *scratch = arena_make_within(batching->site->arena, 0);
    struct searching s = searching_of(scratch, batching);
    begin_at_best(&s);
    for (size_t i = 0; i < batching->site->count; i++)
        if (batching->site->rows[i].operation->late_scuff && !s.now->draft->left_out[i])
            s.scuffs = batching->aim == AIM_SOONEST ? SCUFF_AT_ONCE : SCUFF_IF_NEEDED;
    join_all(&s);
    keep_best(&s);
    search(&s);
    tidy(&s);
    arena_free_within(batching->site->arena, scratch);
}

void batching_improve(struct batching *batching)
{
    if (batching->score.whole && !arena_try(batching->site->arena, improve, batching))
        batching->ended = true;
}
