#include "solver/model/model.h"

#include <assert.h>
#include <stdlib.h>

#include "base/arena.h"

enum { VALUE_MOST = NET_NEVER / 2 };

static int by_number(const void *left, const void *right)
{
    const int *a = left, *b = right;
    return *a < *b ? -1 : *a > *b;
}

/* The rule numbers that constraints carry, each once, rising, without NET_NONE. */
static int *find_rules(const struct network *net, struct arena *arena, size_t *count)
{
    int *rules = ARENA_ARRAY(arena, net->lag_count + net->disjunction_count + net->resource_count, int);
    size_t all = 0, kept = 0;
    for (size_t i = 0; i < net->lag_count; i++)
        rules[all++] = net->lags[i].rule;
    for (size_t i = 0; i < net->disjunction_count; i++)
        rules[all++] = net->disjunctions[i].rule;
    for (size_t i = 0; i < net->resource_count; i++)
        rules[all++] = net->resources[i].rule;
    qsort(rules, all, sizeof *rules, by_number);
    for (size_t i = 0; i < all; i++)
        if (rules[i] != NET_NONE && (kept == 0 || rules[kept - 1] != rules[i]))
            rules[kept++] = rules[i];
    *count = kept;
    return rules;
}

struct literal model_guard(const struct model *model, struct net_guard guard)
{
    if (guard.flag == NET_NONE)
        return (struct literal){-1, 0};
    int variable = model->first_flag + guard.flag;
    return guard.value ? at_least(variable, 1) : at_most(variable, 0);
}

struct literal model_rule(const struct model *model, int rule)
{
    size_t low = 0, high = model->rule_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (model->rules[middle] < rule)
            low = middle + 1;
        else
            high = middle;
    }
    if (low == model->rule_count || model->rules[low] != rule)
        return (struct literal){-1, 0};
    return at_least(model->first_rule + (int)low, 1);
}

static void add_guard(struct edge *edge, struct literal guard)
{
    if (guard.bound < 0)
        return;
    for (int g = 0; g < edge->guard_count; g++)
        if (edge->guards[g].bound == guard.bound)
            return;
    assert(edge->guard_count < EDGE_GUARDS);
    edge->guards[edge->guard_count++] = guard;
}

static void add_presence(const struct model *model, struct edge *edge, int operation)
{
    add_guard(edge, model_guard(model, model->net->operations[operation].presence));
}

void model_add_edge(struct model *model, struct edge edge)
{
    add_presence(model, &edge, edge.from);
    add_presence(model, &edge, edge.to);
    edges_add(&model->edges, edge);
}

static void add_lags(struct model *model, bool maxima)
{
    for (size_t i = 0; i < model->net->lag_count; i++) {
        const struct net_lag *lag = &model->net->lags[i];
        if (lag->maximum && !maxima)
            continue;
        struct edge edge = {
            .from = lag->from, .to = lag->to, .maximum = lag->maximum, .map = lag->map, .origin = EDGE_LAG};
        add_guard(&edge, model_guard(model, lag->guard));
        add_guard(&edge, model_rule(model, lag->rule));
        model_add_edge(model, edge);
    }
}

static void add_goals(struct model *model)
{
    for (size_t i = 0; i < model->net->goal_count; i++) {
        const struct net_goal *goal = &model->net->goals[i];
        struct edge edge = {.from = goal->operation,
                            .to = model->value,
                            .map = goal->map,
                            .shift = -goal->due,
                            .origin = EDGE_GOAL};
        add_presence(model, &edge, goal->operation);
        edges_add(&model->edges, edge);
    }
}

/* A use that is larger than its resource cannot take place: its operation would have to start after itself. One such
 * operation that is surely present says all there is to say of a resource. */
static void add_oversized(struct model *model, struct arena *arena)
{
    const struct network *net = model->net;
    unsigned char *said = ARENA_ARRAY(arena, net->resource_count, unsigned char);
    for (size_t i = 0; i < net->use_count; i++) {
        const struct net_use *use = &net->uses[i];
        const struct net_resource *resource = &net->resources[use->resource];
        if (use->amount <= resource->capacity || said[use->resource] || !net_always_holds(net, use))
            continue;
        struct edge edge = {.from = use->operation,
                            .to = use->operation,
                            .map = net_after(net->horizon + 1),
                            .origin = EDGE_RESOURCE};
        add_guard(&edge, model_rule(model, resource->rule));
        model_add_edge(model, edge);
        said[use->resource] = net_certain(net, use->operation);
    }
}

struct edge model_pair_edge(const struct net_disjunction *pair, bool b_first)
{
    return (struct edge){.from = b_first ? pair->b : pair->a,
                         .to = b_first ? pair->a : pair->b,
                         .map = b_first ? pair->until_b : pair->until_a,
                         .origin = EDGE_DISJUNCTION};
}

static void add_disjunction(struct model *model, int index, bool b_first)
{
    const struct net_disjunction *pair = &model->net->disjunctions[index];
    struct edge edge = model_pair_edge(pair, b_first);
    int order = model->first_order + index;
    add_guard(&edge, b_first ? at_least(order, 1) : at_most(order, 0));
    add_guard(&edge, model_rule(model, pair->rule));
    model_add_edge(model, edge);
}

void model_init(struct model *model, const struct network *net, struct arena *arena, unsigned parts)
{
    size_t orders = parts & MODEL_DISJUNCTIONS ? net->disjunction_count : 0;
    *model = (struct model){.net = net, .value = (int)net->operation_count};
    model->first_flag = model->value + 1;
    model->flag_sum = model->first_flag + net->flag_count;
    model->first_order = model->flag_sum + 1;
    model->first_rule = model->first_order + (int)orders;
    if (parts & MODEL_RULES)
        model->rules = find_rules(net, arena, &model->rule_count);
    model->variables = (size_t)model->first_rule + model->rule_count;
    edges_init(&model->edges, net, arena, model->variables);
    add_lags(model, parts & MODEL_MAXIMUM);
    add_goals(model);
    add_oversized(model, arena);
    for (size_t i = 0; i < orders; i++) {
        add_disjunction(model, (int)i, false);
        add_disjunction(model, (int)i, true);
    }
}

/* A goal that counts in every plan bounds the value by itself. */
static int32_t least_value(const struct network *net)
{
    for (size_t i = 0; i < net->goal_count; i++)
        if (net_certain(net, net->goals[i].operation))
            return -VALUE_MOST;
    return 0;
}

static bool start_operation(const struct model *model, struct trail *trail, int operation)
{
    const struct net_guard presence = model->net->operations[operation].presence;
    int32_t low, high;
    if (net_window(model->net, operation, &low, &high)) {
        trail_domain(trail, operation, low, high);
        return true;
    }
    /* It cannot take place: its start means nothing, so any will do that the calendar does not touch. */
    model->edges.calendars[operation] = NULL;
    trail_domain(trail, operation, 0, model->net->horizon);
    if (presence.flag == NET_NONE)
        return false;
    int flag = model->first_flag + presence.flag, absent = 1 - presence.value;
    if (trail_low(trail, flag) > absent || trail_high(trail, flag) < absent)
        return false;
    trail_domain(trail, flag, absent, absent);
    return true;
}

bool model_domains(const struct model *model, struct trail *trail, struct arena *arena)
{
    trail_init(trail, arena, model->variables);
    trail_domain(trail, model->value, least_value(model->net), model->net->goal_count ? VALUE_MOST : 0);
    for (size_t v = (size_t)model->first_flag; v < model->variables; v++)
        trail_domain(trail, (int)v, 0, (int)v == model->flag_sum ? model->net->flag_count : 1);
    for (int i = 0; i < model->value; i++)
        if (!start_operation(model, trail, i))
            return false;
    return true;
}

bool model_propagate(const struct model *model, struct trail *trail)
{
    return edges_start(&model->edges, trail) && edges_run(&model->edges, trail, 0);
}

bool model_start(const struct model *model, struct trail *trail, struct arena *arena)
{
    return model_domains(model, trail, arena) && model_propagate(model, trail);
}

void model_phases(const struct model *model, const struct net_result *result, int32_t *value)
{
    const struct network *net = model->net;
    for (int i = 0; i < model->value; i++)
        value[i] = result->start[i];
    value[model->value] = result->bound;
    for (int f = 0; f < net->flag_count; f++)
        value[model->first_flag + f] = result->flag[f];
    for (int order = model->first_order; order < model->first_rule; order++)
        value[order] = !net_first_of_pair(net, &net->disjunctions[order - model->first_order], result->start);
    value[model->flag_sum] = 0;
}
