#include "solver/solve.h"

#include "base/arena.h"
#include "base/observer.h"
#include "solver/bounds/destructive.h"
#include "solver/engine/search.h"
#include "solver/explain/core.h"
#include "solver/improve/incumbent.h"
#include "solver/improve/insertion.h"
#include "solver/improve/neighbourhood.h"

enum { ROUND_CONFLICTS = 100, FLAG_SHARE = 8, LAGRANGIAN_ROUNDS = 16, LAGRANGIAN_SHARE = 12 };
/* A network of few operations is searched whole, and its bound raised step by step. In a larger one neighbourhoods get one
 * part in so many of the work, a larger part while they find better plans. In one of very many, where a search of
 * the whole proves nothing any more, they get all but one part in so many (tests/bench/shop.sh). */
enum { LARGE_OPERATIONS = 50, VAST_OPERATIONS = 100 };
enum { NEIGHBOURHOOD_IDLE = 24, NEIGHBOURHOOD_SHARE = 2, NEIGHBOURHOOD_SHARE_IDLE = 8, VAST_SHARE_WHOLE = 5 };

struct rounds {
    struct incumbent *incumbent;
    struct search search;
    struct destructive destructive;
    struct neighbourhood neighbourhood;
    int32_t *best; /* per variable */
    int64_t effort;
    int64_t number;             /* rounds so far */
    int64_t neighbourhood_work; /* of the effort */
};

static bool is_large(const struct rounds *rounds)
{
    return rounds->incumbent->net->operation_count >= LARGE_OPERATIONS;
}

/* A large network is searched near its best plan; in a small one, which is to be proven, operations start early. */
static void set_phases(struct rounds *rounds)
{
    if (!is_large(rounds))
        return;
    model_phases(rounds->search.engine.model, rounds->incumbent->result, rounds->best);
    rounds->search.best = rounds->best;
}

static void take_plan(struct rounds *rounds)
{
    if (incumbent_take(rounds->incumbent, &rounds->search))
        set_phases(rounds);
}

static void assume(struct rounds *rounds, struct literal literal)
{
    literals_add(&rounds->search.assumptions, rounds->search.engine.arena, literal);
}

static enum outcome search(struct rounds *rounds, int64_t conflicts)
{
    enum outcome outcome = search_run(&rounds->search, conflicts, rounds->effort);
    if (outcome == SEARCH_FOUND)
        take_plan(rounds);
    return outcome;
}

/* Better than the best plan, or any. Without flags nothing but better plans is sought from now on, so that the value
 * may stay below the best plan's for good. */
static void improve(struct rounds *rounds, int64_t conflicts)
{
    struct engine *engine = &rounds->search.engine;
    struct net_result *result = rounds->incumbent->result;
    bool found = incumbent_found(rounds->incumbent);
    struct literal better = at_most(engine->model->value, result->value - 1);
    rounds->search.assumptions.count = 0;
    engine_backjump(engine, 0);
    if (found && engine->model->net->flag_count > 0)
        assume(rounds, better);
    else if (found)
        engine->refuted = !trail_decide(&engine->trail, better) || engine->refuted;
    if (search(rounds, conflicts) == SEARCH_REFUTED && found)
        incumbent_raise_bound(rounds->incumbent, result->value);
}

/* Decides a value of at most `most`, below the best plan's: that of the bound, or one halfway to the plan, which a
 * night or a weekend may make no harder to refute than the next slot. */
static void raise_bound(struct rounds *rounds, int32_t most, int64_t conflicts)
{
    const struct model *model = rounds->search.engine.model;
    rounds->search.assumptions.count = 0;
    assume(rounds, at_most(model->value, most));
    rounds->search.engine.overload_on = true;
    if (search(rounds, conflicts) == SEARCH_REFUTED) {
        bool all = rounds->search.engine.refuted;
        if (!all)
            incumbent_raise_bound(rounds->incumbent, most + 1);
        else if (incumbent_found(rounds->incumbent))
            incumbent_raise_bound(rounds->incumbent, rounds->incumbent->result->value);
    }
    rounds->search.engine.overload_on = false;
}

/* With the value frozen, fewer flags until there are none to spare. */
static void fewer_flags(struct rounds *rounds)
{
    const struct model *model = rounds->search.engine.model;
    struct net_result *result = rounds->incumbent->result;
    for (enum outcome outcome = SEARCH_FOUND;
         outcome == SEARCH_FOUND && incumbent_flags(rounds->incumbent) > 0;) {
        rounds->search.assumptions.count = 0;
        assume(rounds, at_most(model->value, result->value));
        assume(rounds, at_most(model->flag_sum, incumbent_flags(rounds->incumbent) - 1));
        outcome = search(rounds, INT64_MAX);
    }
}

static bool over(const struct rounds *rounds)
{
    return rounds->search.engine.refuted || incumbent_optimal(rounds->incumbent) ||
           rounds->search.engine.trail.work >= rounds->effort ||
           observer_ended(rounds->incumbent->net->observer);
}

/* How much of the work so far neighbourhoods should have had. */
static int64_t neighbourhood_share(const struct rounds *rounds)
{
    int64_t work = rounds->search.engine.trail.work;
    if (rounds->incumbent->net->operation_count >= VAST_OPERATIONS)
        return work - work / VAST_SHARE_WHOLE;
    bool idle = rounds->neighbourhood.idle >= NEIGHBOURHOOD_IDLE;
    return work / (idle ? NEIGHBOURHOOD_SHARE_IDLE : NEIGHBOURHOOD_SHARE);
}

static void search_neighbourhoods(struct rounds *rounds)
{
    int64_t *work = &rounds->search.engine.trail.work;
    if (!incumbent_found(rounds->incumbent) || !is_large(rounds))
        return;
    while (!over(rounds) && rounds->neighbourhood_work <= neighbourhood_share(rounds)) {
        int64_t used = 0;
        if (neighbourhood_try(&rounds->neighbourhood, rounds->effort - *work, &used))
            set_phases(rounds);
        rounds->neighbourhood_work += used;
        *work += used;
    }
}

static void search_whole(struct rounds *rounds)
{
    const struct trail *trail = &rounds->search.engine.trail;
    int64_t conflicts = ROUND_CONFLICTS * luby(1 + rounds->number);
    const struct net_result *result = rounds->incumbent->result;
    int64_t turn = rounds->number++ % (is_large(rounds) ? 4 : 16);
    if (turn == 3)
        raise_bound(rounds, result->bound, conflicts);
    else if (turn == 1 && incumbent_found(rounds->incumbent) && is_large(rounds))
        raise_bound(rounds, result->bound + (result->value - 1 - result->bound) / 2, conflicts);
    else
        improve(rounds, conflicts);
    engine_backjump(&rounds->search.engine, 0);
    incumbent_raise_bound(rounds->incumbent, trail_low(trail, rounds->search.engine.model->value));
}

static void find_value(struct rounds *rounds)
{
    struct engine *engine = &rounds->search.engine;
    incumbent_raise_bound(rounds->incumbent, trail_low(&engine->trail, engine->model->value));
    destructive_by_energy(&rounds->destructive);
    while (!over(rounds)) {
        search_whole(rounds);
        search_neighbourhoods(rounds);
        if (rounds->number % LAGRANGIAN_ROUNDS == 0 && !over(rounds))
            destructive_by_multipliers(&rounds->destructive, rounds->effort / LAGRANGIAN_SHARE);
    }
}

/* Searches until the plan is proven best, impossible, or the effort (in trail.work) is spent; a share of it is kept
 * for the flags. */
static void rounds_run(struct rounds *rounds, struct incumbent *incumbent, const struct model *model,
                       struct arena *arena, int64_t effort)
{
    bool flags = model->net->flag_count > 0;
    *rounds =
        (struct rounds){.incumbent = incumbent, .effort = flags ? effort - effort / FLAG_SHARE : effort};
    if (!search_init(&rounds->search, model, arena)) {
        incumbent->result->status = NET_IMPOSSIBLE;
        return;
    }
    destructive_init(&rounds->destructive, &rounds->search.engine, incumbent);
    neighbourhood_init(&rounds->neighbourhood, incumbent, arena);
    rounds->best = ARENA_ARRAY(arena, model->variables, int32_t);
    if (incumbent_found(incumbent))
        set_phases(rounds);
    find_value(rounds);
    rounds->effort = effort;
    if (incumbent_found(incumbent) && flags)
        fewer_flags(rounds);
    if (rounds->search.engine.refuted && !incumbent_found(incumbent))
        incumbent->result->status = NET_IMPOSSIBLE;
}

enum { SCRATCH_BYTES = 1 << 29, ATTEMPTS = 40, FIRST_SHARE = 2, REASON_SHARE = 4 };

/* By default larger networks get more work, up to an end. */
static const int64_t DEFAULT_EFFORT = 240000000, OPERATION_EFFORT = 6000000;
enum { USUAL_OPERATIONS = 60, LARGEST_OPERATIONS = 200 };

static int64_t default_effort(const struct network *net)
{
    int64_t count = (int64_t)net->operation_count;
    count = count < LARGEST_OPERATIONS ? count : LARGEST_OPERATIONS;
    return DEFAULT_EFFORT + (count > USUAL_OPERATIONS ? OPERATION_EFFORT * (count - USUAL_OPERATIONS) : 0);
}

/* Every attempt after the first shuffles the keys by up to a share of their spread, and puts first what could not
 * be placed in the attempt before. */
static void shuffle(struct incumbent *incumbent, struct insertion *in, int attempt, bool failed)
{
    size_t count = incumbent->net->operation_count;
    int32_t low = INT32_MAX, high = 0;
    for (size_t i = 0; i < count; i++) {
        low = in->key[i] < low ? in->key[i] : low;
        high = in->key[i] > high ? in->key[i] : high;
    }
    uint32_t spread = count ? (uint32_t)(high - low) / 8 * (uint32_t)(1 + attempt % 4) + 2 : 1;
    for (size_t i = 0; i < count; i++)
        in->noise[i] = (int32_t)incumbent_random(incumbent, spread);
    if (failed)
        in->key[in->stuck] -= (int32_t)spread / 2 + 1;
}

static void insert_plans(struct incumbent *incumbent, struct insertion *in, int attempts, int64_t work_limit)
{
    size_t patience = 4 * incumbent->net->operation_count + 20;
    for (int attempt = 0;
         attempt < attempts && !incumbent_optimal(incumbent) && insertion_work(in) < work_limit; attempt++) {
        if (observer_ask(incumbent->net->observer, 0, attempts) && attempt > 0)
            return;
        bool planned = insertion_run(in, patience, work_limit);
        if (planned)
            incumbent_update(incumbent, in->schedule.start, in->flag);
        shuffle(incumbent, in, attempt, !planned);
    }
}

/* One call of net_solve. What is read after memory has ended is in here, not in scratch memory. */
struct solving {
    void (*part)(struct solving *solving, struct arena *arena);
    struct incumbent incumbent;
    int64_t effort;
    struct insertion insertion;
    struct rounds rounds;
    bool ran_out; /* of memory, when there was a plan */
};

static void first_plans(struct solving *solving, struct arena *arena)
{
    struct net_result *result = solving->incumbent.result;
    struct insertion *in = &solving->insertion;
    struct model model;
    model_init(&model, solving->incumbent.net, arena, MODEL_MAXIMUM);
    edges_index(&model.edges);
    if (!insertion_init(in, &model, arena)) {
        result->status = NET_IMPOSSIBLE;
        return;
    }
    result->bound = trail_low(&in->trail, model.value);
    if (solving->effort == 1)
        insert_plans(&solving->incumbent, in, 1, default_effort(solving->incumbent.net));
    else
        insert_plans(&solving->incumbent, in, ATTEMPTS, solving->effort / FIRST_SHARE);
    net_left_shift(solving->incumbent.net, result);
}

static void search_plans(struct solving *solving, struct arena *arena)
{
    struct model model;
    struct network net = *solving->incumbent.net;
    if (net.operation_count < LARGE_OPERATIONS)
        net = net_with_pairs(solving->incumbent.net, arena);
    model_init(&model, &net, arena, MODEL_MAXIMUM | MODEL_DISJUNCTIONS);
    edges_index(&model.edges);
    rounds_run(&solving->rounds, &solving->incumbent, &model, arena,
               solving->effort - insertion_work(&solving->insertion));
    net_left_shift(solving->incumbent.net, solving->incumbent.result);
}

static void give_reasons(const struct network *net, int64_t effort, struct net_result *result)
{
    struct net_core reasons;
    net_explain(net, NET_NEVER, effort, &reasons);
    result->rules = reasons.rules;
    result->rule_count = reasons.count;
    result->rules_minimal = reasons.minimal;
    result->any_horizon = reasons.any_horizon;
}

static void run_part(void *call)
{
    struct solving *solving = call;
    struct arena *owner = solving->incumbent.net->arena, *arena = arena_make_within(owner, SCRATCH_BYTES);
    solving->part(solving, arena);
    arena_free_within(owner, arena);
}

/* Without a plan, memory that ended is the caller's matter, as it is anywhere else. */
static void run(struct solving *solving, void (*part)(struct solving *solving, struct arena *arena))
{
    const struct network *net = solving->incumbent.net;
    solving->part = part;
    bool ran_out = !arena_try(net->arena, run_part, solving);
    if (ran_out && !incumbent_found(&solving->incumbent))
        arena_run_out(net->arena);
    solving->ran_out |= ran_out;
}

void net_solve(const struct network *net, struct net_options options, struct net_result *result)
{
    *result = (struct net_result){.status = NET_UNKNOWN};
    struct solving solving = {.incumbent = {.net = net, .result = result},
                              .effort = options.effort ? options.effort : default_effort(net)};
    const struct incumbent *incumbent = &solving.incumbent;
    run(&solving, first_plans);
    if (result->status != NET_IMPOSSIBLE && solving.effort > 1 &&
        !(incumbent_optimal(incumbent) && incumbent_flags(incumbent) == 0))
        run(&solving, search_plans);
    result->effort = insertion_work(&solving.insertion) + solving.rounds.search.engine.trail.work;
    result->nodes = solving.rounds.search.nodes;
    result->proven = incumbent_optimal(incumbent);
    result->ended = !result->proven && (solving.ran_out || observer_ended(net->observer));
    if (result->status == NET_IMPOSSIBLE)
        give_reasons(net, solving.effort / REASON_SHARE, result);
}
