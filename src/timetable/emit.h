/* One operation on a piece, with everything that it waits for. Used by chain.c and work.c only. */
#ifndef TIMETABLE_EMIT_H
#define TIMETABLE_EMIT_H

#include "timetable/operations.h"

/* Facts of the shop that shape operations: the longest stretch of work and the warmest working hour. */
struct shop_limits {
    int32_t longest_min; /* of a stretch of work, of anybody */
    int32_t break_min;   /* the shortest within a day of anybody; INT32_MAX: nobody has one */
    int32_t off_min;     /* the shortest break or night of anybody */
    double warmest_c;
};

struct builder {
    struct arena *arena;
    const struct job *job;
    struct operations *out;
    struct shop_limits limits;
    const int *lots; /* per piece: into how many lots it is divided */
    struct err_list *errors;
    const struct log_entry **asked; /* what the log asks to leave out or to repeat */
    bool *heard;                    /* of each: it names an operation */
    size_t asked_count;
    const char **skipped; /* ids that are left out, in the order in which they came */
    size_t skipped_count, skipped_room;
};

enum { COATS_REMEMBERED = 8 }; /* a finish that takes more coats a day than this has no limit */

/* The coats of one schedule on one side, as far as they have been laid. */
struct track {
    size_t schedule;
    enum side side;
    enum side covers;             /* surfaces: SIDE_ALL also for a back whose schedule is on no face */
    int coats;                    /* in all */
    int laid;                     /* so far */
    int of_finish;                /* laid of the same finish in a row */
    int last_apply;               /* operation, -1: bare wood */
    int recent[COATS_REMEMBERED]; /* applies, by coat number */
    bool abraded;                 /* sanded or scuffed since the last coat */
    bool outlasted;               /* the schedule asked for a wait longer than the last coat's window */
    bool patch;                   /* the piece's patch, whose region goes on with another track ... */
    bool goes_on;                 /* ... that has coats */
    const struct track *under;    /* the patch under the coats of this one, until its first; NULL: none */
};

/* A row of operations that follow one another on a piece; the sides of a flat piece share one. */
struct chain {
    size_t piece;
    int lot, lots; /* from 1 */
    struct part_run run;
    bool two_sided;
    struct track *tracks;
    size_t track_count;
    size_t first_emitted; /* operations from here on are this chain's */
    int first, previous;  /* operations, -1: none yet */
    int dusty;            /* the last that raised dust, -1: none */
    int optional;         /* a late scuff after `previous` that may be left out, -1: none */
    int32_t hold_min;     /* to wait after the previous one: raised grain, a `wait` */
    int hold_state;       /* enum finish_state to wait for, -1: none */
};

/* A step that is no coat, on one track or (NULL) on every track of the schedule at once. A STEP_WAIT adds no operation
 * but holds the next one back. */
void emit_step(struct builder *builder, struct chain *chain, struct track *track, size_t schedule,
               const struct step *step);
/* The next coat of the track, the late scuff before it where its window may be missed, and its polish. */
void emit_coat(struct builder *builder, struct chain *chain, struct track *track, const struct step *step);
/* Turns the piece over after the track's coat. */
void emit_flip(struct builder *builder, struct chain *chain, struct track *track);

/* The next entry of a kind that names an operation among those asked, from number *at on, which moves behind it; NULL: none. */
const struct log_entry *emit_asked(const struct builder *builder, const struct operation *operation,
                                   enum log_kind kind, size_t *at);

/* An operation of the chain with its place filled in, and its way into the row, waiting for `under` of the film beneath:
 * a task in as many parts as the working stretches demand. The index of the last part; -1: the log leaves it out. */
struct operation emit_blank(const struct builder *builder, const struct chain *chain,
                            const struct track *track, size_t schedule);
int emit_on_piece(struct builder *builder, struct chain *chain, const struct track *track,
                  struct operation operation, enum finish_state under);

int emit_operation(struct builder *builder, struct operation operation);
void emit_link(struct builder *builder, struct link link);
void emit_line(struct builder *builder, struct finish_line line);
/* What waits for a film to reach a state. */
void emit_state_link(struct builder *builder, int from, int to, enum finish_state state);
/* Fills in the minutes of an operation and into how many equal parts a task must be cut to fit the working stretches, its units
 * then those of one part; any other unit that is longer than a stretch is an error. */
void emit_split(struct builder *builder, struct operation *operation);

/* Emits every operation of lot `number` of the piece, its `after` excepted. To firsts[0..*first_count) are added the
 * operations with which its independent rows begin; room for one per schedule. */
void chain_emit_lot(struct builder *builder, size_t piece, int number, int *firsts, size_t *first_count);

#endif
