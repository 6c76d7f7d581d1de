#include "timetable/batching.h"

#include "base/arena.h"
#include "base/observer.h"

enum {
    FIRST_EFFORT = 2000000,
    MEMORY = 24,
    STALE_ROUNDS = 6,
    GROUPS_MOST = 4,  /* where there is a plan already */
    GROUPS_SHARE = 3, /* the part of the effort for them where not all is in time */
    ASK_EVERY = 32,
    TIDIED_MOST = 200,
    STEP_SHARE =
        4, /* a part of the work so far more, in which batches may take their items as they become free */
    TIDY_SHARE = 4, /* and one for putting the best plan in order */
    KICKS = 8,
    KICK_CHANGES = 4,
    LATE_WORK_S = 120 /* of work for a minute later, where the search trades */
};

/* A search under way. */
struct searching {
    struct batching *batching;
    const struct site *site;
    struct moving moving;
    struct variant *now;
    struct score now_score, memory[MEMORY];
    size_t turn;
    int64_t until; /* it ends when so much is spent; 0: when the effort is */
};

int64_t batching_first_effort(const struct batching *batching)
{
    return batching->effort > FIRST_EFFORT ? batching->effort : FIRST_EFFORT;
}

static bool is_spent(const struct searching *s)
{
    return s->batching->spent >= (s->until > 0 ? s->until : s->batching->effort);
}

static void read_trial(struct searching *s, struct variant *variant, struct score *score)
{
    int64_t before = variant->draft->effort;
    int64_t most = batching_first_effort(s->batching);
    if (variant != s->now)
        variant_share(variant, s->now);
    variant_place(variant, s->moving.scuffs,
                  most + most / STEP_SHARE + most / TIDY_SHARE - s->batching->spent);
    *score = score_of(variant);
    s->batching->spent += variant->draft->effort - before;
    s->batching->nodes++;
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

/* Keeps the trial, read, where it is better than what the search stands at. */
static bool keep_better(struct searching *s)
{
    struct score score;
    read_trial(s, s->moving.trial, &score);
    if (compare(s, &score, &s->now_score) >= 0)
        return false;
    variant_copy(s->now, s->moving.trial);
    s->now_score = score;
    return true;
}

/* Two batches as one, where the first or the last of them stands; where there are windows, either way of keeping them. */
static bool join_two(struct searching *s, size_t a, size_t b, int how)
{
    variant_copy_order(s->moving.trial, s->now);
    if (!moves_join(&s->moving, a, b, how % 2 == 0, true))
        return false;
    s->moving.trial->waits = how / 2 ? !s->now->waits : s->now->waits;
    return keep_better(s);
}

/* Batches of one kind are joined as long as that helps: the least work is mostly found so. */
static void join_all(struct searching *s)
{
    for (size_t a = 0; a < s->now->order.run_count; a++)
        for (size_t b = a + 1; b < s->now->order.run_count; b++) {
            bool joined = false;
            if (is_spent(s))
                return;
            for (int how = 0; how < (s->moving.limits ? 4 : 2) && !joined; how++)
                joined = join_two(s, a, b, how);
            b = joined ? a : b;
        }
}

/* Each batch that is mixed for waits for a better start where that helps. */
static void thrift_all(struct searching *s)
{
    for (size_t i = 0; i < s->now->order.run_count && !is_spent(s); i++) {
        if (!moves_is_mixed(s->site, &s->now->order.runs[i]) || s->now->order.runs[i].thrifty)
            continue;
        variant_copy_order(s->moving.trial, s->now);
        s->moving.trial->order.runs[i].thrifty = true;
        keep_better(s);
    }
}

static struct searching searching_of(struct arena *arena, struct batching *batching)
{
    struct searching s = {.batching = batching, .site = batching->site};
    s.moving.site = batching->site;
    s.moving.random = 88172645463325252u;
    s.now = variant_make(arena, batching->site);
    s.moving.trial = variant_make(arena, batching->site);
    for (size_t k = 0; k < batching->site->kind_count; k++)
        s.moving.mixes |= batching->site->kinds[k].working != INT32_MAX;
    for (size_t i = 0; i < batching->site->operations->link_count; i++)
        s.moving.limits |= site_link_is_limit(&batching->site->operations->links[i]);
    return s;
}

static void put_all_in_step(struct order *order)
{
    for (size_t i = 0; i < order->run_count; i++)
        order->runs[i].in_step = true;
}

static void read_first(struct searching *s, const struct betweens *betweens, bool late, int groups,
                       int people)
{
    const struct site *site = s->site;
    order_first(site, betweens, late, groups, &s->now->order);
    if (people > 1)
        order_share_out(&s->now->order, people);
    if (s->moving.steps)
        put_all_in_step(&s->now->order);
    for (size_t i = 0; i < site->count; i++)
        s->now->draft->left_out[i] = site->rows[i].optional;
    read_trial(s, s->now, &s->now_score);
    keep_best(s);
}

static bool is_in_time(const struct batching *batching)
{
    return batching->score.whole && batching->score.late <= 0 && batching->aim != AIM_SOONEST;
}

/* A group of pieces after another: where all together miss their windows, or the first would be ready long before the last. */
static void start_in_groups(struct searching *s, const struct betweens *betweens)
{
    struct batching *batching = s->batching;
    int chains = order_chains(s->site);
    for (int groups = 2; groups < 2 * chains && (groups <= GROUPS_MOST || !batching->score.whole);
         groups *= 2)
        for (int how = 0; how < 4; how++) {
            s->now->waits = how % 2;
            if ((how % 2 == 0 || s->moving.limits) && batching->spent <= batching_first_effort(batching))
                read_first(s, betweens, how / 2, groups, 1);
        }
}

void batching_start(struct batching *batching)
{
    batching->best = variant_make(batching->site->arena, batching->site);
    batching->score = (struct score){0};
    struct searching s = searching_of(batching->site->arena, batching);
    struct betweens betweens = between_make(batching->site->arena, batching->site);
    for (int how = 0; how < 4 * SCUFFINGS; how++) {
        int scuffs = how / 4;
        s.now->waits = how % 2;
        if ((how % 2 && !s.moving.limits) || (how > 0 && batching->spent > batching_first_effort(batching)))
            continue;
        if (scuffs && how % 4 == 0 && is_in_time(batching))
            break;
        s.moving.scuffs = batching->scuffs = (enum scuffing)scuffs;
        bool late = how / 2 % 2;
        read_first(&s, &betweens, late, 1, 1);
        if (batching->site->crew->count > 1 && !is_in_time(batching))
            read_first(&s, &betweens, late, 1, batching->site->crew->count);
    }
    s.moving.scuffs = SCUFF_NEVER;
    if (!batching->score.whole)
        start_in_groups(&s, &betweens);
}

/* Whether the search may go on to a plan where it could to another. */
static bool is_no_worse(const struct searching *s, const struct score *a, const struct score *b)
{
    if (!s->batching->trades || !a->whole || !b->whole)
        return compare(s, a, b) <= 0;
    int64_t cost = a->work + a->late_sum * LATE_WORK_S, other = b->work + b->late_sum * LATE_WORK_S;
    return cost < other || (cost == other && compare(s, a, b) <= 0);
}

static void accept(struct searching *s, const struct score *score)
{
    struct score *old = &s->memory[s->turn++ % MEMORY];
    if (is_no_worse(s, score, &s->now_score) || is_no_worse(s, score, old)) {
        struct variant *now = s->now;
        s->now = s->moving.trial;
        s->moving.trial = now;
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

static bool join_in_step(struct searching *s, size_t a, size_t b)
{
    bool joined = false;
    for (int early = 0; early < 2 && !joined; early++) {
        variant_copy_order(s->moving.trial, s->now);
        put_all_in_step(&s->moving.trial->order);
        joined = moves_join(&s->moving, a, b, early, true) && keep_better(s);
    }
    return joined;
}

/* Batches take their items as they become free, where that helps; and are joined so: what waited for two batches is in another order
 * than what waits for one. */
static void step_all(struct searching *s)
{
    begin_at_best(s);
    for (size_t i = 0; i < s->now->order.run_count && !is_spent(s); i++) {
        variant_copy_order(s->moving.trial, s->now);
        s->moving.trial->order.runs[i].in_step = true;
        keep_better(s);
    }
    for (size_t a = 0; a < s->now->order.run_count; a++)
        for (size_t b = a + 1; b < s->now->order.run_count && !is_spent(s); b++)
            b = join_in_step(s, a, b) ? a : b;
    keep_best(s);
}

/* Whether the trial, read, is as good in everything that counts; then it is kept. */
static bool keep_tidier(struct searching *s)
{
    struct score score;
    read_trial(s, s->moving.trial, &score);
    if (!score.whole || compare(s, &score, &s->batching->score) > 0)
        return false;
    variant_copy(s->batching->best, s->moving.trial);
    s->batching->score = score;
    return true;
}

/* What was scuffed for is coated soon enough now, perhaps. */
static void tidy_scuffs(struct searching *s)
{
    size_t tried = 0;
    begin_at_best(s);
    for (size_t i = 0; i < s->site->count && tried < TIDIED_MOST; i++) {
        if (!s->site->rows[i].optional || s->batching->best->draft->left_out[i])
            continue;
        tried++;
        variant_copy_order(s->moving.trial, s->batching->best);
        moves_leave_out(&s->moving, (int)i);
        keep_tidier(s);
    }
}

/* Batches in the order of the part list where that costs nothing: all at once, else each by itself. Whatever was read last, batches
 * are shared with the best plan. */
static void tidy(struct searching *s)
{
    struct order *order = &s->moving.trial->order;
    begin_at_best(s);
    variant_copy_order(s->moving.trial, s->batching->best);
    for (size_t i = 0; i < order->run_count; i++) {
        order->runs[i].in_step = false;
        order_list_run(order, &order->runs[i]);
    }
    if (keep_tidier(s))
        return;
    for (size_t i = 0; i < s->batching->best->order.run_count && i < TIDIED_MOST; i++)
        for (int how = 0; how < 2; how++) {
            variant_copy_order(s->moving.trial, s->batching->best);
            order->runs[i].in_step = false;
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
    variant_copy_order(s->moving.trial, s->now);
    for (int i = 0; i < KICK_CHANGES; i++)
        moves_change(&s->moving);
    read_trial(s, s->moving.trial, &score);
    if (!score.whole)
        return;
    variant_copy(s->now, s->moving.trial);
    s->now_score = score;
    for (size_t i = 0; i < MEMORY; i++)
        s->memory[i] = score;
    keep_best(s);
}

static bool is_cancelled(const struct batching *batching)
{
    return batching->nodes % ASK_EVERY == 0 &&
           observer_ask(batching->observer, batching->spent, batching->effort);
}

static void search(struct searching *s)
{
    struct batching *batching = s->batching;
    begin_at_best(s);
    int64_t stale = 0, patience = 2000 + 200 * (int64_t)batching->score.batches;
    while (!is_spent(s) && !is_least(batching) && stale < patience * STALE_ROUNDS) {
        struct score score, best = batching->score;
        if (is_cancelled(batching))
            return;
        variant_copy_order(s->moving.trial, s->now);
        batching->spent += (int64_t)s->now->order.item_count;
        if (!moves_change_some(&s->moving)) {
            stale++;
            continue;
        }
        read_trial(s, s->moving.trial, &score);
        accept(s, &score);
        stale = compare(s, &batching->score, &best) < 0 ? 0 : stale + 1;
        if (stale > 0 && stale % (patience / KICKS) == 0)
            kick(s, stale % patience != 0);
    }
}

/* One order, in every way of keeping windows and of saving mixes. */
static void try_order(struct searching *s, int64_t number)
{
    struct variant *now = s->now;
    int ways = (s->moving.limits ? 2 : 1) * (s->moving.mixes ? 2 : 1);
    for (int way = 0; way < ways; way++) {
        if (!order_numbered(s->site, number, &now->order))
            return;
        for (size_t i = 0; i < s->site->count; i++)
            now->draft->left_out[i] = s->site->rows[i].optional;
        for (size_t i = 0; i < now->order.run_count; i++)
            now->order.runs[i].thrifty = s->moving.mixes && way % 2;
        now->waits = s->moving.limits && way >= ways / 2;
        read_trial(s, now, &s->now_score);
        keep_best(s);
    }
}

/* Where there are only a few orders no search is needed; false: there are more, or what is scuffed for makes others of them, or not all
 * were tried. */
static bool try_all(struct searching *s)
{
    int64_t count = order_every(s->site), n = 0;
    for (; n < count && s->batching->spent < s->batching->effort && !is_least(s->batching) &&
           !is_cancelled(s->batching);
         n++)
        try_order(s, n);
    return count > 0 && n == count && s->moving.scuffs == SCUFF_NEVER;
}

/* From the best plan so far; whether every order was tried. */
static bool improve_from(struct searching *s)
{
    const struct batching *batching = s->batching;
    begin_at_best(s);
    for (size_t i = 0; i < batching->site->count; i++)
        if (batching->site->rows[i].optional && !s->now->draft->left_out[i])
            s->moving.scuffs = batching->aim == AIM_SOONEST ? SCUFF_AT_ONCE : SCUFF_IF_NEEDED;
    s->moving.pieces = is_in_time(batching);
    join_all(s);
    thrift_all(s);
    keep_best(s);
    bool all = try_all(s);
    if (!all)
        search(s);
    return all;
}

/* From orders in which every batch takes its items as they become free. */
static void step_first(struct searching *s, struct arena *scratch)
{
    struct betweens betweens = between_make(scratch, s->site);
    for (int late = 0; late < 2; late++) {
        read_first(s, &betweens, late, 1, 1);
        if (!s->now_score.whole)
            continue;
        join_all(s);
        keep_best(s);
    }
}

/* With the rest of the effort, from one group of pieces after another. */
static void improve_in_groups(struct arena *scratch, struct batching *batching)
{
    struct batching other = *batching;
    other.best = variant_make(scratch, batching->site);
    other.score = (struct score){0};
    struct searching s = searching_of(scratch, &other);
    struct betweens betweens = between_make(scratch, batching->site);
    start_in_groups(&s, &betweens);
    if (other.score.whole)
        improve_from(&s);
    batching->spent = other.spent;
    batching->nodes = other.nodes;
    if (compare(&s, &other.score, &batching->score) >= 0)
        return;
    variant_copy(batching->best, other.best);
    batching->score = other.score;
}

/* With a part of the work more, where batches may take their items as they become free. */
static void improve_in_step(struct arena *scratch, struct searching *s)
{
    s->until = s->batching->spent + s->batching->spent / STEP_SHARE;
    s->moving.steps = true;
    step_all(s);
    step_first(s, scratch);
    search(s);
}

static void improve(void *call)
{
    struct batching *batching = call;
    struct arena *scratch = arena_make_within(batching->site->arena, 0);
    struct searching s = searching_of(scratch, batching);
    int64_t effort = batching->effort;
    if (!is_in_time(batching))
        batching->effort -= (effort - batching->spent) / GROUPS_SHARE;
    bool all = improve_from(&s);
    batching->effort = effort;
    if (!all && !is_in_time(batching) && !is_least(batching) && !observer_ended(batching->observer))
        improve_in_groups(scratch, batching);
    if (!all && !is_least(batching) && !observer_ended(batching->observer))
        improve_in_step(scratch, &s);
    tidy_scuffs(&s);
    tidy(&s);
    arena_free_within(batching->site->arena, scratch);
}

void batching_improve(struct batching *batching)
{
    if (batching->score.whole && !arena_try(batching->site->arena, improve, batching))
        batching->ended = true;
}

void batching_again(struct batching *batching)
{
    struct variant *best = variant_make(batching->site->arena, batching->site);
    variant_copy_order(best, batching->best);
    variant_place(best, batching->scuffs, batching_first_effort(batching));
    batching->spent += best->draft->effort;
    batching->best = best;
    batching->score = score_of(best);
    batching_improve(batching);
}
