#include "solver/model/model.h"

#include <assert.h>

#include "base/arena.h"
#include "solver/model/rules.h"

enum { VALUE_MOST = NET_NEVER / 2 };

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

void model_add_order(struct model *model, struct edge edge)
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
        struct edge edge = {.from = lag->from,
                            .to = lag->to,
                            .maximum = lag->maximum,
                            .map = lag->map,
                            .origin = EDGE_LAG,
                            .index = (int)i};
        add_guard(&edge, model_guard(model, lag->guard));
        add_guard(&edge, model_rule(model, lag->rule));
        model_add_order(model, edge);
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
                            .origin = EDGE_GOAL,
                            .index = (int)i};
        add_presence(model, &edge, goal->operation);
        edges_add(&model->edges, edge);
    }
}

/* A use that is larger than its resource cannot take place: its operation would have to start after itself. */
static void add_oversized(struct model *model)
{
    for (size_t i = 0; i < model->net->use_count; i++) {
        const struct net_use *use = &model->net->uses[i];
        int32_t low, high;
        bool lasts = use->amount > model->net->resources[use->resource].capacity &&
                     net_window(model->net, use->operation, &low, &high);
        for (int32_t t = lasts ? low : 0; lasts && t <= high; t++)
            lasts = net_map_at(model->net, use->until, t) > t;
        struct edge edge = {.from = use->operation,
                            .to = use->operation,
                            .map = net_after(model->net->horizon + 1),
                            .origin = EDGE_RESOURCE,
                            .index = use->resource};
        add_guard(&edge, model_rule(model, model->net->resources[use->resource].rule));
        if (lasts)
            model_add_order(model, edge);
    }
}

static void add_apart(struct model *model, int index, bool b_first)
{
    const struct net_apart *apart = &model->net->aparts[index];
    struct edge edge = {.from = b_first ? apart->b : apart->a,
                        .to = b_first ? apart->a : apart->b,
                        .map = b_first ? apart->until_b : apart->until_a,
                        .origin = EDGE_APART,
                        .index = index};
    int order = model->first_order + index;
    add_guard(&edge, b_first ? at_least(order, 1) : at_most(order, 0));
    add_guard(&edge, model_rule(model, apart->rule));
    model_add_order(model, edge);
}

void model_init(struct model *model, const struct network *net, struct arena *arena, unsigned parts)
{
    size_t orders = parts & MODEL_APARTS ? net->apart_count : 0;
    *model = (struct model){.net = net, .value = (int)net->operation_count};
    model->first_flag = model->value + 1;
    model->tally = model->first_flag + net->flag_count;
    model->first_order = model->tally + 1;
    model->first_rule = model->first_order + (int)orders;
    if (parts & MODEL_RULES)
        model->rules = net_rules(net, arena, &model->rule_count);
    model->variables = (size_t)model->first_rule + model->rule_count;
    edges_init(&model->edges, net, arena, model->variables);
    add_lags(model, parts & MODEL_MAXIMUM);
    add_goals(model);
    add_oversized(model);
    for (size_t i = 0; i < orders; i++) {
        add_apart(model, (int)i, false);
        add_apart(model, (int)i, true);
    }
}

bool net_window(const struct network *net, int operation, int32_t *low, int32_t *high)
{
    const struct net_operation *o = &net->operations[operation];
    *low = o->earliest;
    *high = o->latest;
    if (*low > *high)
        return false;
    if (o->calendar != NET_NONE) {
        *low = net->calendars[o->calendar].next[*low];
        *high = net->calendars[o->calendar].previous[*high];
    }
    return *low <= *high;
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
        trail_domain(trail, (int)v, 0, (int)v == model->tally ? model->net->flag_count : 1);
    for (int i = 0; i < model->value; i++)
        if (!start_operation(model, trail, i))
            return false;
    return true;
}

bool model_settle(const struct model *model, struct trail *trail)
{
    size_t head = 0;
    return edges_start(&model->edges, trail) && edges_run(&model->edges, trail, &head);
}

bool model_start(const struct model *model, struct trail *trail, struct arena *arena)
{
    return model_domains(model, trail, arena) && model_settle(model, trail);
}
