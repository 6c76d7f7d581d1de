#include "solver/engine/analysis.h"

#include <assert.h>
#include <string.h>

#include "base/arena.h"

enum mark {
    UNSEEN,
    SEEN,      /* required by the conflict, or by what explains it */
    REDUNDANT, /* shown to follow from earlier requirements */
    IRREDUNDANT
};

enum { DEEPEST = 60 };

static void grow_marks(struct engine *engine)
{
    struct analysis *an = &engine->analysis;
    if (engine->trail.count >= an->capacity) {
        an->capacity = engine->trail.count + engine->trail.count / 2 + 256;
        an->needed = ARENA_ARRAY(engine->arena, an->capacity, int32_t);
        an->state = ARENA_ARRAY(engine->arena, an->capacity, unsigned char);
    }
    if (engine->trail.level >= an->level_capacity) {
        an->level_capacity = 2 * engine->trail.level + 64;
        an->level_stamp = ARENA_ARRAY(engine->arena, an->level_capacity, int32_t);
    }
}

static void set_mark(struct engine *engine, int32_t entry, enum mark state)
{
    struct analysis *an = &engine->analysis;
    if (an->state[entry] == UNSEEN) {
        an->touched = arena_grow(engine->arena, an->touched, an->touched_count, &an->touched_capacity,
                                 sizeof *an->touched);
        an->touched[an->touched_count++] = entry;
    }
    an->state[entry] = (unsigned char)state;
}

static void clear_marks(struct analysis *an)
{
    for (size_t i = 0; i < an->touched_count; i++)
        an->state[an->touched[i]] = UNSEEN;
    an->touched_count = 0;
}

/* Requires a literal; true where this opens a requirement on the level under analysis. */
static bool ask(struct engine *engine, struct literal literal, int32_t level)
{
    struct analysis *an = &engine->analysis;
    int32_t at = trail_find(&engine->trail, literal);
    if (at < 0 || engine->trail.entries[at].level == 0)
        return false;
    if (an->state[at] == SEEN) {
        if (an->needed[at] < literal.value)
            an->needed[at] = literal.value;
        return false;
    }
    set_mark(engine, at, SEEN);
    an->needed[at] = literal.value;
    return engine->trail.entries[at].level == level;
}

static void explain(struct engine *engine, struct literal literal, struct reason reason, int32_t entry)
{
    engine->analysis.explanation.count = 0;
    engine_explain(engine, literal, reason, entry, &engine->analysis.explanation);
    if (reason.kind == REASON_CLAUSE)
        clauses_bump(&engine->clauses, reason.index);
}

/* Two bounds crossed. An explanation that can be lifted is asked for the least value that still conflicts; any other
 * for all it gives, and the bound against it for less. */
static void explain_conflict(struct engine *engine)
{
    struct trail *trail = &engine->trail;
    struct literal conflict = trail->conflict;
    if (trail->conflict_reason.kind == REASON_ARC || trail->conflict_reason.kind == REASON_CALENDAR)
        conflict.value = 1 - trail->now[conflict.bound ^ 1];
    explain(engine, conflict, trail->conflict_reason, (int32_t)trail->count);
    literals_add(&engine->analysis.explanation, engine->arena, literal_not(conflict));
}

static int32_t level_of(const struct engine *engine, struct literal literal)
{
    int32_t at = trail_find(&engine->trail, literal);
    return at < 0 ? 0 : engine->trail.entries[at].level;
}

static int32_t conflict_level(const struct engine *engine)
{
    int32_t level = 0;
    for (size_t i = 0; i < engine->analysis.explanation.count; i++) {
        int32_t at = level_of(engine, engine->analysis.explanation.items[i]);
        level = at > level ? at : level;
    }
    return level;
}

/* Replaces requirements of the conflict's level by their reasons, latest first, until one is left: its entry. */
static int32_t find_first_uip(struct engine *engine, int32_t level)
{
    struct analysis *an = &engine->analysis;
    int open = 0;
    int32_t at = (int32_t)engine->trail.count;
    for (;;) {
        for (size_t i = 0; i < an->explanation.count; i++)
            open += ask(engine, an->explanation.items[i], level);
        do
            at--;
        while (an->state[at] != SEEN || engine->trail.entries[at].level != level);
        const struct trail_entry *entry = &engine->trail.entries[at];
        struct literal literal = {entry->bound, an->needed[at]};
        atoms_bump(&engine->atoms, literal);
        if (--open == 0)
            return at;
        explain(engine, literal, entry->reason, at);
    }
}

static bool is_redundant(struct engine *engine, int32_t at, int32_t value, int depth);

/* Whether everything that explains an entry is required already, or follows in turn. */
static bool is_implied(struct engine *engine, int32_t at, int32_t value, int depth)
{
    const struct trail_entry *entry = &engine->trail.entries[at];
    struct literals *stack = &engine->analysis.stack;
    size_t base = stack->count;
    bool all = true;
    engine_explain(engine, (struct literal){entry->bound, value}, entry->reason, at, stack);
    for (size_t i = base, end = stack->count; i < end && all; i++) {
        struct literal literal = stack->items[i];
        int32_t from = trail_find(&engine->trail, literal);
        assert(from < at);
        all = from < 0 || is_redundant(engine, from, literal.value, depth + 1);
    }
    stack->count = base;
    return all;
}

/* Whether an entry's value follows from requirements of earlier entries or of its own. */
static bool is_redundant(struct engine *engine, int32_t at, int32_t value, int depth)
{
    struct analysis *an = &engine->analysis;
    const struct trail_entry *entry = &engine->trail.entries[at];
    if (entry->level == 0)
        return true;
    if (an->state[at] == SEEN && an->needed[at] >= value)
        return true;
    if (an->state[at] == REDUNDANT && an->needed[at] >= value)
        return true;
    if (an->state[at] == IRREDUNDANT && an->needed[at] <= value)
        return false;
    if (depth > DEEPEST || entry->reason.kind == REASON_DECISION)
        return false;
    bool shown = is_implied(engine, at, value, depth);
    if (an->state[at] != SEEN) {
        set_mark(engine, at, shown ? REDUNDANT : IRREDUNDANT);
        an->needed[at] = value;
    }
    return shown;
}

/* The requirements below the conflict's level that do not follow from others, as clause literals after the first. */
static void minimise(struct engine *engine, int32_t uip)
{
    struct analysis *an = &engine->analysis;
    const struct trail_entry *entries = engine->trail.entries;
    an->clause.count = 0;
    literals_add(&an->clause, engine->arena,
                 literal_not((struct literal){entries[uip].bound, an->needed[uip]}));
    size_t needed = an->touched_count;
    for (size_t i = 0; i < needed; i++) {
        int32_t at = an->touched[i];
        if (an->state[at] != SEEN || entries[at].level >= entries[uip].level)
            continue;
        struct literal literal = {entries[at].bound, an->needed[at]};
        if (entries[at].reason.kind == REASON_DECISION || !is_implied(engine, at, literal.value, 0)) {
            atoms_bump(&engine->atoms, literal);
            literals_add(&an->clause, engine->arena, literal_not(literal));
        }
    }
}

/* Of two literals on one bound the weaker requirement says nothing more. */
static void merge(struct analysis *an)
{
    size_t kept = 0;
    for (size_t i = 0; i < an->clause.count; i++) {
        struct literal literal = an->clause.items[i];
        size_t k = 0;
        while (k < kept && an->clause.items[k].bound != literal.bound)
            k++;
        if (k == kept)
            an->clause.items[kept++] = literal;
        else if (literal.value < an->clause.items[k].value)
            an->clause.items[k].value = literal.value;
    }
    an->clause.count = kept;
}

/* Puts the literal that fell last into the second place; its level, and the LBD. */
static int32_t order_clause(struct engine *engine, int32_t *lbd)
{
    struct analysis *an = &engine->analysis;
    int32_t highest = 0;
    *lbd = 1;
    an->stamp++;
    for (size_t i = 1; i < an->clause.count; i++) {
        int32_t level = level_of(engine, literal_not(an->clause.items[i]));
        if (an->level_stamp[level] != an->stamp) {
            an->level_stamp[level] = an->stamp;
            ++*lbd;
        }
        if (level > highest) {
            struct literal swap = an->clause.items[1];
            an->clause.items[1] = an->clause.items[i];
            an->clause.items[i] = swap;
            highest = level;
        }
    }
    return highest;
}

/* The first literal became false above this level: behind the backjump nothing speaks against it. */
static void learn(struct engine *engine, int32_t level, int32_t lbd)
{
    const struct literals *clause = &engine->analysis.clause;
    engine_backjump(engine, (size_t)level);
    struct reason reason = {REASON_DECISION, 0};
    if (clause->count > 1)
        reason =
            (struct reason){REASON_CLAUSE, clauses_add(&engine->clauses, clause->items, clause->count, lbd)};
    bool open = trail_set(&engine->trail, clause->items[0], reason);
    assert(open);
}

bool analyse_conflict(struct engine *engine)
{
    int32_t lbd;
    grow_marks(engine);
    explain_conflict(engine);
    int32_t level = conflict_level(engine);
    engine->trail.work += 10;
    if (level == 0) {
        engine->refuted = true;
        engine_backjump(engine, 0);
        return false;
    }
    int32_t uip = find_first_uip(engine, level);
    minimise(engine, uip);
    merge(&engine->analysis);
    clear_marks(&engine->analysis);
    level = order_clause(engine, &lbd);
    atoms_decay(&engine->atoms);
    learn(engine, level, lbd);
    return true;
}

/* Requires a literal wherever it was set, or records that it holds initially. */
static void ask_root(struct engine *engine, struct literal literal, struct literals *initial)
{
    struct analysis *an = &engine->analysis;
    int32_t at = trail_find(&engine->trail, literal);
    if (at < 0) {
        literals_add(initial, engine->arena, literal);
        return;
    }
    bool first = an->state[at] != SEEN;
    set_mark(engine, at, SEEN);
    an->needed[at] = first || an->needed[at] < literal.value ? literal.value : an->needed[at];
}

/* A use that is larger than its resource is a conflict by itself, whatever the bounds of its operation. */
static bool is_oversized(const struct engine *engine, struct reason reason, struct literal literal)
{
    if (reason.kind != REASON_ARC && reason.kind != REASON_GUARD)
        return false;
    const struct edge *edge = &engine->model->edges.items[reason.index / 2];
    return edge->from == edge->to && literal.bound / 2 == edge->from;
}

static void ask_roots(struct engine *engine, struct reason reason, struct literals *initial)
{
    const struct literals *explanation = &engine->analysis.explanation;
    for (size_t i = 0; i < explanation->count; i++)
        if (!is_oversized(engine, reason, explanation->items[i]))
            ask_root(engine, explanation->items[i], initial);
}

void analyse_roots(struct engine *engine, const struct literal *literal, struct literals *decisions,
                   struct literals *initial)
{
    struct analysis *an = &engine->analysis;
    grow_marks(engine);
    if (literal)
        ask_root(engine, *literal, initial);
    else {
        explain_conflict(engine);
        ask_roots(engine, engine->trail.conflict_reason, initial);
    }
    for (int32_t at = (int32_t)engine->trail.count - 1; at >= 0; at--) {
        const struct trail_entry *entry = &engine->trail.entries[at];
        if (an->state[at] != SEEN)
            continue;
        struct literal needed = {entry->bound, an->needed[at]};
        bool inferred = entry->level > 0 || entry->reason.kind != REASON_CLAUSE;
        if (entry->reason.kind == REASON_DECISION || !inferred)
            literals_add(entry->level > 0 ? decisions : initial, engine->arena, needed);
        if (inferred) {
            explain(engine, needed, entry->reason, at);
            ask_roots(engine, entry->reason, initial);
        }
    }
    clear_marks(an);
}
