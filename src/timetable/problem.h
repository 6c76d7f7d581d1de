/* Operations as a network of the solver: slots, maps, calendars, capacities. Each rule of the network is a number that
 * problem_rule tells back in terms of operations. */
#ifndef TIMETABLE_PROBLEM_H
#define TIMETABLE_PROBLEM_H

#include "solver/solve.h"
#include "timetable/films.h"

enum rule_kind {
    RULE_LINK, /* index: the link */
    RULE_PEOPLE,
    RULE_SPRAY,
    RULE_RACK,
    RULE_PIECE, /* index: a piece, a lot of which one person works on at a time */
    RULE_DUST,  /* one room for dust and wet films */
};

struct rule {
    enum rule_kind kind;
    size_t index;
};

struct problem {
    struct arena *arena;
    const struct operations *operations; /* network operation i is operations->items[i] */
    const struct hours *hours;
    struct films films;
    struct network net;
    int *flag; /* per operation: the flag of its presence, NET_NONE */
    struct rule *rules;
    size_t rule_count, rule_room;
    const int32_t *next_day; /* by slot: the first slot of the next day on the wall */
    int never;               /* an operation that no moment of the horizon allows, -1: none */
};

struct problem *problem_make(struct arena *arena, const struct operations *operations,
                             const struct hours *hours);

/* People, spray places, rack and dust: capacity.c. */
void problem_add_capacities(struct problem *problem);
int problem_add_rule(struct problem *problem, enum rule_kind kind, size_t index);

/* map of what a link asks of its later operation, from the start of its earlier one. */
struct net_map problem_link_map(struct problem *problem, const struct link *link);
struct net_map problem_line_map(struct problem *problem, const struct finish_line *line);
/* From the start of an apply to a state of its film. */
struct net_map problem_state_map(struct problem *problem, int apply, enum finish_state state);

/* m2 that a piece takes on the rack: as given, else the largest region of each of its rows together. */
double problem_rack_m2(const struct operation *operation);

/* The work without any set-up: what no plan of batches can beat, and where even that has no plan, why. Minutes are cut to whole
 * slots, so that every plan of batches is one of the network. */
struct relaxed {
    struct problem *problem;
    struct net_result result;
};

/* Within so many slots, with so much counted work. */
struct relaxed relaxed_solve(struct arena *arena, const struct operations *operations, int32_t slots,
                             int64_t effort);

#endif
