#include "solver/solve.h"

#include "base/arena.h"
#include "solver/improve/insert.h"
#include "solver/explain/reasons.h"
#include "solver/rounds.h"

enum { SCRATCH_BYTES = 1 << 29, ATTEMPTS = 40, REASON_SHARE = 4 };

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
static void shuffle(struct plan *plan, struct insertion *in, int attempt, bool failed)
{
    size_t count = plan->net->operation_count;
    int32_t low = INT32_MAX, high = 0;
    for (size_t i = 0; i < count; i++) {
        low = in->key[i] < low ? in->key[i] : low;
        high = in->key[i] > high ? in->key[i] : high;
    }
    uint32_t spread = count ? (uint32_t)(high - low) / 8 * (uint32_t)(1 + attempt % 4) + 2 : 1;
    for (size_t i = 0; i < count; i++)
        in->shift[i] = (int32_t)plan_draw(plan, spread);
    if (failed)
        in->key[in->stuck] -= (int32_t)spread / 2 + 1;
}

static void insert_plans(struct plan *plan, struct insertion *in, int attempts)
{
    size_t patience = 4 * plan->net->operation_count + 20;
    for (int attempt = 0; attempt < attempts && !plan_best(plan); attempt++) {
        bool planned = insertion_run(in, patience);
        if (planned)
            plan_keep(plan, in->usage.start, in->flag);
        shuffle(plan, in, attempt, !planned);
    }
}

static bool first_plans(struct plan *plan, struct arena *arena, int64_t effort)
{
    struct model model;
    struct insertion in;
    model_init(&model, plan->net, arena, MODEL_MAXIMUM);
    edges_index(&model.edges);
    if (!insertion_init(&in, &model, arena))
        return false;
    plan->result->bound = trail_low(&in.trail, model.value);
    insert_plans(plan, &in, effort == 1 ? 1 : ATTEMPTS);
    plan->result->effort = in.trail.work + in.usage.work;
    return true;
}

static void search_plans(struct plan *plan, struct arena *arena, int64_t effort)
{
    struct model model;
    struct rounds rounds;
    model_init(&model, plan->net, arena, MODEL_MAXIMUM | MODEL_APARTS);
    edges_index(&model.edges);
    rounds_run(&rounds, plan, &model, arena, effort);
    plan->result->effort += rounds.search.engine.trail.work;
    plan->result->nodes = rounds.search.nodes;
}

static void give_reasons(const struct network *net, int64_t effort, struct net_result *result)
{
    struct net_reasons reasons;
    net_explain(net, NET_NEVER, effort, &reasons);
    result->rules = reasons.rules;
    result->rule_count = reasons.count;
    result->rules_minimal = reasons.minimal;
}

void net_solve(const struct network *net, struct net_options options, struct net_result *result)
{
    *result = (struct net_result){.status = NET_UNKNOWN};
    struct plan plan = {.net = net, .result = result};
    struct arena *arena = arena_make_within(net->arena, SCRATCH_BYTES);
    int64_t effort = options.effort ? options.effort : default_effort(net);
    if (!first_plans(&plan, arena, effort))
        result->status = NET_IMPOSSIBLE;
    net_left_shift(net, result);
    if (result->status != NET_IMPOSSIBLE && effort > 1 && !(plan_best(&plan) && plan_flags(&plan) == 0))
        search_plans(&plan, arena, effort);
    arena_free_within(net->arena, arena);
    net_left_shift(net, result);
    result->proven = plan_best(&plan);
    if (result->status == NET_IMPOSSIBLE)
        give_reasons(net, effort / REASON_SHARE, result);
}
