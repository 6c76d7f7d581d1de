/* Which work goes into which batch, and which batch is placed first: what a search changes. Reading an order from its
 * beginning and placing each batch as soon as it may gives a draft (serial schedule generation: Kolisch, EJOR 90, 1996). */
#ifndef TIMETABLE_ORDER_H
#define TIMETABLE_ORDER_H

#include "timetable/between.h"
#include "timetable/draft.h"

/* items[from .. from + count) of the order, one batch; person SITE_NONE: whoever is through with it first. */
struct run {
    int kind, person;
    size_t from, count;
    bool thrifty; /* see struct batch */
    bool in_step; /* its items are done in the order in which they become free */
};

struct order {
    int *items; /* every operation once that is not left out */
    size_t item_count;
    struct run *runs;
    size_t run_count;
};

/* An order and the draft that it gives. */
struct variant {
    struct order order;
    struct draft *draft;
    bool whole;    /* everything is placed */
    size_t shared; /* batches at the front that stand placed already: variant_place goes on behind them */
    bool
        waits; /* where a window would be missed for the sake of others in a batch its opener waits, before the batch is
                   divided */
};

struct variant *variant_make(struct arena *arena, const struct site *site);
void variant_copy(struct variant *to, const struct variant *from);
/* The order and what is left out; nothing is placed. */
void variant_copy_order(struct variant *to, const struct variant *from);
/* Takes over from another, of whose order this one was made, how the batches at the front were placed that both have alike. What is
 * read from the beginning comes out the same: nothing placed later, or held back later, changes it. */
void variant_share(struct variant *to, const struct variant *from);

/* What is done where a window would be missed: its opener is held back, or it is scuffed for, where the finish allows. */
enum scuffing { SCUFF_NEVER, SCUFF_IF_NEEDED, SCUFF_AT_ONCE, SCUFFINGS };

/* Places the order's batches one after another. A batch of which something still waits, or that no day holds, is divided, and
 * the order then has it so. It is read again after a repair as long as effort is left. */
void variant_place(struct variant *variant, enum scuffing scuffs, int64_t effort);

/* Everything of one kind and rank together, ranks counted from the beginning or (late) from the end of the work. First come the batches with the longest way to the end behind them; within a batch the parts of a lot stay together.
 * The pieces, as they are listed, go in so many groups: all work of one comes before that of the next. */
void order_first(const struct site *site, const struct betweens *betweens, bool late, int groups,
                 struct order *order);
/* Every batch is divided among so many people. */
void order_share_out(struct order *order, int people);
/* How many groups there can be. */
int order_chains(const struct site *site);

/* How many orders there are of everything that must be done, by whom; 0: too many to try them all. */
int64_t order_every(const struct site *site);
/* Writes the order of that number, from 0, which is that of the part list. False: in it something comes before what it waits for, or
 * shares a batch with another kind, or the order is the same as that of another number. */
bool order_numbered(const struct site *site, int64_t number, struct order *order);

/* Cuts a run before its item `at`; the rest follows it in the order. */
void order_cut(struct order *order, size_t index, size_t at);

/* Puts the items of a run into the order in which they are done in step with all others; or into that of the part list. */
void order_sort_run(const struct site *site, struct order *order, struct run *run);
void order_list_run(struct order *order, struct run *run);

#endif
