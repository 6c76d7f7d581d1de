/* Bounded integers whose bounds only rise, and the order in which they rose.
 *
 * Variable v has two bounds, both written as lower bounds: bound 2v is the least value of v, bound 2v + 1 the least
 * value of -v. So each propagator is written once for both directions. The only literals are bounds: (b, k) holds
 * when bound b is at least k; its negation is (b ^ 1, 1 - k). A 0..1 variable is a Boolean.
 *
 * Every rise is an entry of the trail with the reason it follows from, so that any bound can be explained by
 * earlier ones; levels mark where a backjump may lead.
 *
 * Literature: Ohrimenko, Stuckey, Codish, Propagation via lazy clause generation, Constraints 14 (2009).
 */
#ifndef SOLVER_ENGINE_TRAIL_H
#define SOLVER_ENGINE_TRAIL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct arena;

struct literal {
    int32_t bound, value;
};

static inline struct literal at_least(int variable, int32_t value)
{
    return (struct literal){2 * variable, value};
}

static inline struct literal at_most(int variable, int32_t value)
{
    return (struct literal){2 * variable + 1, -value};
}

static inline struct literal literal_not(struct literal literal)
{
    return (struct literal){literal.bound ^ 1, 1 - literal.value};
}

enum reason_kind {
    REASON_DECISION, /* on level 0: given */
    REASON_ARC,      /* index: the arc that raised its target bound (edges.h) */
    REASON_GUARD,    /* index: the violated arc whose guard had to fall */
    REASON_CALENDAR, /* a bound in a hole moves to the next allowed start */
    REASON_CLAUSE,   /* index: the clause whose other literals are all false (clause.h) */
    REASON_LIST,     /* index: literals stored in the trail's own lists */
};

struct reason {
    enum reason_kind kind;
    int32_t index;
};

struct trail_entry {
    int32_t bound, old, now;
    int32_t previous; /* entry of the same bound before this one, -1: none */
    int32_t level;
    struct reason reason;
};

/* Where a level began. */
struct trail_mark {
    size_t count, list_size;
};

struct trail {
    struct arena *arena;
    int32_t *now;    /* per bound */
    int32_t *newest; /* per bound its last entry, -1: as it began */
    size_t bound_count;
    struct trail_entry *entries;
    size_t count, capacity;
    struct trail_mark *marks; /* per level */
    size_t level, mark_capacity;
    struct literal *lists; /* each: {count, 0}, then its literals */
    size_t list_size, list_capacity;
    struct literal conflict; /* after a failed trail_set: what was to be set, and why */
    struct reason conflict_reason;
    int64_t work; /* counted effort */
};

/* All variables begin as 0..0; set their domains with trail_domain before anything else. */
void trail_init(struct trail *trail, struct arena *arena, size_t variables);
void trail_domain(struct trail *trail, int variable, int32_t low, int32_t high);

static inline int32_t trail_low(const struct trail *trail, int variable)
{
    return trail->now[2 * variable];
}

static inline int32_t trail_high(const struct trail *trail, int variable)
{
    return -trail->now[2 * variable + 1];
}

static inline bool trail_holds(const struct trail *trail, struct literal literal)
{
    return trail->now[literal.bound] >= literal.value;
}

/* The literal cannot hold any more. */
static inline bool trail_fails(const struct trail *trail, struct literal literal)
{
    return trail->now[literal.bound ^ 1] > -literal.value;
}

/* Makes a literal hold. False where its negation holds: then `conflict` and `conflict_reason` say what was tried. */
bool trail_set(struct trail *trail, struct literal literal, struct reason reason);
/* The same for a decision or something given, and for what follows from literals, which are kept until the level is
 * left. */
bool trail_decide(struct trail *trail, struct literal literal);
bool trail_infer(struct trail *trail, struct literal literal, const struct literal *explanation,
                 size_t count);

void trail_push_level(struct trail *trail);
void trail_backjump(struct trail *trail, size_t level);

/* The entry that first made a true literal hold; -1: it held from the beginning. */
int32_t trail_find(const struct trail *trail, struct literal literal);
/* The value of a bound just before an entry was made. */
int32_t trail_value_before(const struct trail *trail, int32_t bound, int32_t entry);

#endif
