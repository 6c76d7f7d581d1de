/* A network as variables and edges: operation starts first, then the value, the flags, the number of flags at 1, and
 * one order variable per pair that may not meet (0: a first, 1: b first), and with MODEL_RULES one variable per rule,
 * without which nothing of that rule is in force. Resources stay with their propagators. */
#ifndef SOLVER_MODEL_MODEL_H
#define SOLVER_MODEL_MODEL_H

#include "solver/propagators/edges.h"

struct model {
    const struct network *net;
    struct edges edges;
    int value, first_flag, tally, first_order;
    int first_rule;
    int *rules; /* rising, the numbers of the rule variables */
    size_t rule_count, variables;
};

/* What a model holds beside minimum lags and goals. */
enum { MODEL_MAXIMUM = 1, MODEL_APARTS = 2, MODEL_RULES = 4 };

/* model_add_order may follow, then edges_index. */
void model_init(struct model *model, const struct network *net, struct arena *arena, unsigned parts);

/* The trail with every domain, and propagation on level 0; false where that proves that there is no plan. */
bool model_start(const struct model *model, struct trail *trail, struct arena *arena);

/* The two halves of it, between which trail_domain may narrow what is known to be narrower. */
bool model_domains(const struct model *model, struct trail *trail, struct arena *arena);
bool model_settle(const struct model *model, struct trail *trail);

/* The literal of a guard; NET_ALWAYS has none (bound -1). */
struct literal model_guard(const struct model *model, struct net_guard guard);

/* The literal that puts a rule in force; bound -1: it always is. */
struct literal model_rule(const struct model *model, int rule);

/* Adds an edge of the model's own between two operations, present both. */
void model_add_order(struct model *model, struct edge edge);

/* The allowed starts of an operation as they stand alone; false: none. */
bool net_window(const struct network *net, int operation, int32_t *low, int32_t *high);

#endif
