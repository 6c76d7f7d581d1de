/* From the job to the work: every hands-on operation with its units, and what each waits for. An operation is a lot at one
 * step on one side; set-up, mixing and clean-up belong to the batch in which it is done.
 *
 * Built once, in the order of the part list; nothing here knows a date but the warmest working hour, for which
 * the number of mixes is the cautious one. The reading of contract and method stands in chain.c (the coats of
 * one piece, side by side) and emit.c (one operation with what it waits for). */
#ifndef TIMETABLE_OPERATIONS_H
#define TIMETABLE_OPERATIONS_H

#include "amount/units.h"

enum doing {
    DO_SAND,
    DO_SCUFF,
    DO_RAISE,
    DO_MASK,
    DO_APPLY,
    DO_FLIP,
    DO_POLISH,
    DO_RUB,
    DO_TASK,
    DOING_COUNT
};

struct operation {
    const struct job *job;
    const char *id; /* piece/schedule/coat+side/what */
    enum doing doing;
    int piece, schedule; /* -1: a task of the job */
    int task;            /* -1: work on a piece */
    int chain;           /* its row: operations of one row follow one another */
    int coat, coats;     /* coats of the schedule laid on this side when it is done; of how many */
    enum side side;
    struct pass pass;
    int lot, lots;              /* of the piece's lots, from 1 */
    struct coat of;             /* apply, and polish or flip after it: the coat */
    struct coat_minutes detail; /* apply */
    struct units units;
    int32_t minutes; /* of its units, rounded down: it never takes less */
    int work;        /* whose set-up it needs, an enum work; -1: none */
    double working_min,
        pot_life_min;   /* apply: of a mix as large as can be laid, in the warmest working hour */
    int32_t dry_by_min; /* apply: minute of the day by which its film is dry to handle; 0: any */
    int people;         /* who must be there at once: 1, or 2 to turn what is heavy */
    int grit;           /* sand, scuff */
    const char *words;  /* task, rub */
    bool late_scuff;    /* done only where a recoat window was missed */
    bool dusty;
    int again;       /* the first, second ... repeat of a coat that the log asks for; 0: no repeat */
    int part, parts; /* of work that was cut to fit the working stretches: from 1 */
    bool last_coat;  /* apply: the last of its schedule on its side */
    /* What work that was done already asks of it: not before, and not after unless a late scuff is done (-1: none). */
    int64_t release_min, latest_min; /* INT64_MIN; INT64_MAX: no limit */
    int latest_unless;
};

/* What was done against what the work before it asked. */
enum broke { BROKE_WAIT, BROKE_WINDOW, BROKE_ORDER, BROKE_AIR };

struct fact_break {
    enum broke kind;
    int64_t at_min;          /* when it would have been right, or the window's end */
    enum finish_state state; /* of a wait */
    const char *before;      /* order: what was not done yet */
    struct air air;          /* as it was */
};

enum { BREAKS_MOST = 4 };

/* Work that is behind: done as the log says, or passed over. */
struct fact {
    struct operation operation;
    const struct log_entry *entry; /* NULL: passed over, as later work of its row was done */
    int64_t began_min, done_min;
    int64_t state_min[STATE_COUNT]; /* apply: when its film is there */
    int64_t
        window_min; /* apply: the end of its recoat window, where it binds what is left; INT64_MAX: none */
    struct fact_break breaks[BREAKS_MOST];
    int break_count;
    double loss_share; /* apply: of what stayed in the tool of its batch */
    int64_t ready_min; /* when the job no longer waits for it; INT64_MIN: it never does */
};

enum link_kind {
    LINK_END,    /* after its end, and `span_min` of the clock */
    LINK_STATE,  /* after its film has reached `state` */
    LINK_WINDOW, /* not later than the end of its recoat window */
    LINK_POLISH, /* not later than `span_min` after its end */
    LINK_DAY,    /* on a later day: so many coats a day */
};

struct link {
    int from, to; /* operations */
    enum link_kind kind;
    enum finish_state state;
    int32_t span_min;
    int unless;   /* LINK_WINDOW: the late scuff that lifts it; -1: none */
    bool settles; /* LINK_END: the span is the time in which dust settles */
};

/* What is left waits for work that was done: not before so much was over. */
struct fact_wait {
    size_t fact;      /* index into facts */
    int to;           /* operation that is left */
    struct link link; /* its kind, state and span; `from` and `to` are those of the whole work */
    int64_t until_min;
};

/* What must be over before the job is ready: the end of an operation and a span, or a state of its film. */
struct finish_line {
    int operation;
    bool is_state;
    enum finish_state state;
    int32_t span_min;
};

struct operations {
    const struct job *job;
    const struct surfaces *surfaces;
    struct operation *items;
    size_t count, room;
    struct link *links;
    size_t link_count, link_room;
    struct finish_line *lines;
    size_t line_count, line_room;
    struct fact *facts; /* in the order of the work */
    size_t fact_count;
    struct fact_wait *waits; /* in the order of the links */
    size_t wait_count;
    const struct log_entry *
        *strays; /* entries that name no work of the job, or are of a moment that has not come */
    size_t stray_count;
};

/* Not before: the start, what the piece says, and what was done before it. */
int64_t operation_release_min(const struct operation *operation);

/* "sand", "apply": as in ids and formats. */
const char *doing_name(enum doing doing);

/* Whether two belong to one kind of batch: what is done, and with which finish, thinning and tool, or grit. */
bool operation_same_kind(const struct operation *a, const struct operation *b);
/* Whether two are work on one lot of a piece. */
bool operation_same_lot(const struct operation *a, const struct operation *b);
/* "hardwax-oil", "180", or the word itself. */
const char *operation_with(struct arena *arena, const struct operation *operation);
/* Raises no film: may lie as it is until the end of the working day. */
bool operation_is_dry(const struct operation *operation);
/* A finish of several components, or thinned: it is mixed before it is laid. */
bool operation_is_mixed(const struct operation *operation);
/* The skills of which one is needed, as bits 1 << enum work; 0: none. */
unsigned operation_needs(const struct operation *operation);

/* What stays in a tool once is shared by the coats that are laid with it as they take of the finish: shares of 1. */
void operations_share_loss(const struct operation *const *coats, size_t count, double *shares);

/* Whether it lays a coat with a gun. */
bool operation_sprays(const struct operation *operation);
/* Whether any of them lays the finish. */
bool operations_lay(const struct operations *operations, const struct finish *finish);

/* Reference minutes from the end of an apply to a state, and the end of its window. */
int32_t operation_state_min(const struct operation *apply, enum finish_state state);
int32_t operation_window_min(const struct operation *apply);

#endif
