/* Everything that propagates, in one place, with the explanation of whatever it did, and learning from conflicts. */
#ifndef SOLVER_ENGINE_ENGINE_H
#define SOLVER_ENGINE_ENGINE_H

#include "solver/engine/clause.h"
#include "solver/model/model.h"
#include "solver/propagators/overload.h"
#include "solver/propagators/cumulative.h"

struct literals {
    struct literal *items;
    size_t count, capacity;
};

/* Per trail entry what the conflict requires of it (analysis.h). */
struct analysis {
    int32_t *needed;      /* the value that must hold, where `state` says so */
    unsigned char *state; /* enum mark */
    size_t capacity;
    struct literals clause;      /* the learned clause, the literal to be set first */
    struct literals explanation; /* explanation under construction */
    struct literals stack;       /* explanations under way in minimisation */
    int32_t *touched;            /* entries whose state is to be cleared */
    size_t touched_count, touched_capacity;
    int32_t *level_stamp; /* per level, to count levels */
    size_t level_capacity;
    int32_t stamp;
};

struct engine {
    const struct model *model;
    struct arena *arena;
    struct trail trail;
    struct clauses clauses;
    struct profiles profiles;
    struct overloads overloads;
    bool overload_on; /* run the overload check too: after engine_prepare_overload */
    struct atoms atoms;
    struct analysis analysis;
    struct literal *flag_sum_explanation;
    size_t head;  /* trail entries before it have been looked at */
    bool refuted; /* level 0 has a conflict: there is no solution at all */
};

/* False (and refuted): propagation on level 0 proves that there is no solution. */
bool engine_init(struct engine *engine, const struct model *model, struct arena *arena);

/* On level 0; not part of engine_init, as most searches never run the check. */
void engine_prepare_overload(struct engine *engine);

/* Propagates to the end. False on a conflict (in the trail). */
bool engine_propagate(struct engine *engine);

void engine_backjump(struct engine *engine, size_t level);

/* Appends the literals from which `literal` follows for a reason given at trail entry `entry` (trail.count: the
 * conflict). None for a decision. */
void engine_explain(const struct engine *engine, struct literal literal, struct reason reason, int32_t entry,
                    struct literals *into);

void literals_add(struct literals *literals, struct arena *arena, struct literal literal);

#endif
