/* A network as variables and edges: operation starts first, then the value, the flags, the number of flags at 1, and
 * one order variable per pair that may not meet (0: a first, 1: b first). Resources stay with their propagators. */
#ifndef NETWORK_MODEL_H
#define NETWORK_MODEL_H

#include "network/edges.h"

struct model {
    const struct network *net;
    struct edges edges;
    int value, first_flag, tally, first_order;
    size_t variables;
};

/* What a model holds beside minimum lags and goals. */
enum { MODEL_MAXIMUM = 1, MODEL_APARTS = 2 };

/* model_add_order may follow, then edges_index. */
void model_init(struct model *model, const struct network *net, struct arena *arena, unsigned parts);

/* The trail with every domain, and propagation on level 0; false where that proves that there is no plan. */
bool model_start(const struct model *model, struct trail *trail, struct arena *arena);

/* The literal of a guard; NET_ALWAYS has none (bound -1). */
struct literal model_guard(const struct model *model, struct net_guard guard);

/* Adds an edge of the model's own between two operations, present both. */
void model_add_order(struct model *model, struct edge edge);

/* The allowed starts of an operation as they stand alone; false: none. */
bool net_window(const struct network *net, int operation, int32_t *low, int32_t *high);

#endif
