/* A network as variables and edges: operation starts first, then the value, the flags, the number of flags at 1, and
 * one order variable per disjunctive pair (0: a first, 1: b first), and with MODEL_RULES one variable per rule,
 * without which nothing of that rule is in force. Resources stay with their propagators. */
#ifndef SOLVER_MODEL_MODEL_H
#define SOLVER_MODEL_MODEL_H

#include "solver/propagators/edges.h"

struct model {
    const struct network *net;
    struct edges edges;
    int value, first_flag, flag_sum, first_order;
    int first_rule;
    int *rules; /* rising, the numbers of the rule variables */
    size_t rule_count, variables;
};

/* What a model holds beside minimum lags and goals. */
enum { MODEL_MAXIMUM = 1, MODEL_DISJUNCTIONS = 2, MODEL_RULES = 4 };

/* model_add_edge may follow, then edges_index. */
void model_init(struct model *model, const struct network *net, struct arena *arena, unsigned parts);

/* The trail with every domain, and propagation on level 0; false where that proves that there is no plan. */
bool model_start(const struct model *model, struct trail *trail, struct arena *arena);

/* The two halves of it, between which trail_domain may narrow what is known to be narrower. */
bool model_domains(const struct model *model, struct trail *trail, struct arena *arena);
bool model_propagate(const struct model *model, struct trail *trail);

/* The literal of a guard; NET_ALWAYS has none (bound -1). */
struct literal model_guard(const struct model *model, struct net_guard guard);

/* The literal that puts a rule in force; bound -1: it always is. */
struct literal model_rule(const struct model *model, int rule);

/* The edge by which one of a pair comes after the other; it has no guard. */
struct edge model_pair_edge(const struct net_disjunction *pair, bool b_first);

/* Adds an edge of the model's own between two operations, present both. */
void model_add_edge(struct model *model, struct edge edge);
/* Fills `value`, one per variable, from a plan: the side on which decisions fall (phases: Pipatsrisawat, Darwiche,
 * SAT 2007). */
void model_phases(const struct model *model, const struct net_result *result, int32_t *value);

#endif
