#include "solver/engine/analyse.h"

#include <assert.h>
#include <string.h>

#include "base/arena.h"

enum asked_state {
    NOT_ASKED,
    ASKED,      /* part of the clash, or of what explains it */
    FOLLOWS,    /* shown to follow from earlier requirements */
    FOLLOWS_NOT /* tried in vain */
};

enum { DEEPEST = 60 };

static void make_room(struct engine *engine)
{
    struct analysis *an = &engine->analysis;
    if (engine->trail.count >= an->room) {
        an->room = engine->trail.count + engine->trail.count / 2 + 256;
        an->asked = ARENA_ARRAY(engine->arena, an->room, int32_t);
        an->state = ARENA_ARRAY(engine->arena, an->room, unsigned char);
    }
    if (engine->trail.level >= an->level_room) {
        an->level_room = 2 * engine->trail.level + 64;
        an->level_stamp = ARENA_ARRAY(engine->arena, an->level_room, int32_t);
        an->stamp = 0;
    }
}

static void set_state(struct engine *engine, int32_t entry, enum asked_state state)
{
    struct analysis *an = &engine->analysis;
    if (an->state[entry] == NOT_ASKED) {
        an->touched =
            arena_grow(engine->arena, an->touched, an->touched_count, &an->touched_room, sizeof *an->touched);
        an->touched[an->touched_count++] = entry;
    }
    an->state[entry] = (unsigned char)state;
}

static void forget(struct analysis *an)
{
    for (size_t i = 0; i < an->touched_count; i++)
        an->state[an->touched[i]] = NOT_ASKED;
    an->touched_count = 0;
}

/* Requires a literal; true where this opens a requirement on the level under analysis. */
static bool ask(struct engine *engine, struct literal literal, int32_t level)
{
    struct analysis *an = &engine->analysis;
    int32_t at = trail_find(&engine->trail, literal);
    if (at < 0 || engine->trail.entries[at].level == 0)
        return false;
    if (an->state[at] == ASKED) {
        if (an->asked[at] < literal.value)
            an->asked[at] = literal.value;
        return false;
    }
    set_state(engine, at, ASKED);
    an->asked[at] = literal.value;
    return engine->trail.entries[at].level == level;
}

static void explain(struct engine *engine, struct literal literal, struct reason reason, int32_t entry)
{
    engine->analysis.why.count = 0;
    engine_explain(engine, literal, reason, entry, &engine->analysis.why);
    if (reason.kind == REASON_CLAUSE)
        clauses_used(&engine->clauses, reason.index);
}

/* Two bounds crossed. An explanation that can be lifted is asked for the least value that still clashes; any other
 * for all it gives, and the bound against it for less. */
static void explain_clash(struct engine *engine)
{
    struct trail *trail = &engine->trail;
    struct literal clash = trail->clash;
    if (trail->clash_reason.kind == REASON_ARC || trail->clash_reason.kind == REASON_CALENDAR)
        clash.value = 1 - trail->now[clash.bound ^ 1];
    explain(engine, clash, trail->clash_reason, (int32_t)trail->count);
    literals_add(&engine->analysis.why, engine->arena, literal_not(clash));
}

static int32_t level_of(const struct engine *engine, struct literal literal)
{
    int32_t at = trail_find(&engine->trail, literal);
    return at < 0 ? 0 : engine->trail.entries[at].level;
}

static int32_t clash_level(const struct engine *engine)
{
    int32_t level = 0;
    for (size_t i = 0; i < engine->analysis.why.count; i++) {
        int32_t at = level_of(engine, engine->analysis.why.items[i]);
        level = at > level ? at : level;
    }
    return level;
}

/* Replaces requirements of the clash's level by their reasons, latest first, until one is left: its entry. */
static int32_t find_point(struct engine *engine, int32_t level)
{
    struct analysis *an = &engine->analysis;
    int open = 0;
    int32_t at = (int32_t)engine->trail.count;
    for (;;) {
        for (size_t i = 0; i < an->why.count; i++)
            open += ask(engine, an->why.items[i], level);
        do
            at--;
        while (an->state[at] != ASKED || engine->trail.entries[at].level != level);
        const struct trail_entry *entry = &engine->trail.entries[at];
        struct literal literal = {entry->bound, an->asked[at]};
        branch_used(&engine->branch, literal);
        if (--open == 0)
            return at;
        explain(engine, literal, entry->reason, at);
    }
}

static bool follows(struct engine *engine, int32_t at, int32_t value, int depth);

/* Whether everything that explains an entry is required already, or follows in turn. */
static bool explained(struct engine *engine, int32_t at, int32_t value, int depth)
{
    const struct trail_entry *entry = &engine->trail.entries[at];
    struct literals *pile = &engine->analysis.pile;
    size_t base = pile->count;
    bool all = true;
    engine_explain(engine, (struct literal){entry->bound, value}, entry->reason, at, pile);
    for (size_t i = base, end = pile->count; i < end && all; i++) {
        struct literal literal = pile->items[i];
        int32_t from = trail_find(&engine->trail, literal);
        assert(from < at);
        all = from < 0 || follows(engine, from, literal.value, depth + 1);
    }
    pile->count = base;
    return all;
}

/* Whether an entry's value follows from requirements of earlier entries or of its own. */
static bool follows(struct engine *engine, int32_t at, int32_t value, int depth)
{
    struct analysis *an = &engine->analysis;
    const struct trail_entry *entry = &engine->trail.entries[at];
    if (entry->level == 0)
        return true;
    if (an->state[at] == ASKED && an->asked[at] >= value)
        return true;
    if (an->state[at] == FOLLOWS && an->asked[at] >= value)
        return true;
    if (an->state[at] == FOLLOWS_NOT && an->asked[at] <= value)
        return false;
    if (depth > DEEPEST || entry->reason.kind == REASON_DECISION)
        return false;
    bool shown = explained(engine, at, value, depth);
    if (an->state[at] != ASKED) {
        set_state(engine, at, shown ? FOLLOWS : FOLLOWS_NOT);
        an->asked[at] = value;
    }
    return shown;
}

/* The requirements below the clash's level that do not follow from others, as clause literals after the first. */
static void collect(struct engine *engine, int32_t point)
{
    struct analysis *an = &engine->analysis;
    const struct trail_entry *entries = engine->trail.entries;
    an->clause.count = 0;
    literals_add(&an->clause, engine->arena,
                 literal_not((struct literal){entries[point].bound, an->asked[point]}));
    size_t asked = an->touched_count;
    for (size_t i = 0; i < asked; i++) {
        int32_t at = an->touched[i];
        if (an->state[at] != ASKED || entries[at].level >= entries[point].level)
            continue;
        struct literal literal = {entries[at].bound, an->asked[at]};
        if (entries[at].reason.kind == REASON_DECISION || !explained(engine, at, literal.value, 0)) {
            branch_used(&engine->branch, literal);
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

/* Puts the literal that fell last into the second place; its level, and the number of levels. */
static int32_t order_clause(struct engine *engine, int32_t *levels)
{
    struct analysis *an = &engine->analysis;
    int32_t highest = 0;
    *levels = 1;
    an->stamp++;
    for (size_t i = 1; i < an->clause.count; i++) {
        int32_t level = level_of(engine, literal_not(an->clause.items[i]));
        if (an->level_stamp[level] != an->stamp) {
            an->level_stamp[level] = an->stamp;
            ++*levels;
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

static bool learn(struct engine *engine, int32_t back, int32_t levels)
{
    const struct literals *clause = &engine->analysis.clause;
    engine_back(engine, (size_t)back);
    struct reason reason = {REASON_DECISION, 0};
    if (clause->count > 1)
        reason = (struct reason){REASON_CLAUSE,
                                 clauses_add(&engine->clauses, clause->items, clause->count, levels)};
    if (trail_set(&engine->trail, clause->items[0], reason))
        return true;
    assert(back == 0);
    engine->refuted = true;
    return false;
}

bool analyse_clash(struct engine *engine)
{
    int32_t levels;
    make_room(engine);
    explain_clash(engine);
    int32_t level = clash_level(engine);
    engine->trail.work += 10;
    if (level == 0) {
        engine->refuted = true;
        engine_back(engine, 0);
        return false;
    }
    int32_t point = find_point(engine, level);
    collect(engine, point);
    merge(&engine->analysis);
    forget(&engine->analysis);
    int32_t back = order_clause(engine, &levels);
    branch_fade(&engine->branch);
    return learn(engine, back, levels);
}

void analyse_decisions(struct engine *engine, struct literal literal, struct literals *into)
{
    struct analysis *an = &engine->analysis;
    make_room(engine);
    ask(engine, literal, 0);
    for (int32_t at = (int32_t)engine->trail.count - 1; at >= 0; at--) {
        const struct trail_entry *entry = &engine->trail.entries[at];
        if (an->state[at] != ASKED)
            continue;
        struct literal asked = {entry->bound, an->asked[at]};
        if (entry->reason.kind == REASON_DECISION)
            literals_add(into, engine->arena, asked);
        explain(engine, asked, entry->reason, at);
        for (size_t i = 0; i < an->why.count; i++)
            ask(engine, an->why.items[i], 0);
    }
    forget(an);
}
