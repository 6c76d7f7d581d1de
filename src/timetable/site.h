/* The work of one or several jobs as a planner of batches sees it: what each operation waits for, how long its film takes,
 * what it takes of the rack, in minutes since an origin on five minutes of the clock. Nothing here is dated. */
#ifndef TIMETABLE_SITE_H
#define TIMETABLE_SITE_H

#include "finish/drying.h"
#include "timetable/crew.h"
#include "timetable/operations.h"

enum {
    SITE_NEVER = INT32_MAX / 4,
    SITE_NONE = -1,
    DRYING_KINDS = DRYING_WINDOW + 1,
    STATES_RECALLED = 256,
    MIXING_MIN = 5,
    GRID_MIN = 5,
    MINUTE_S = 60
};

/* [from, to) in which the air does not suit. */
struct spell {
    int32_t from, to;
};

struct spells {
    const struct spell *items; /* rising, apart */
    size_t count;
};

/* A finish in the air of the shop. */
struct film {
    const struct finish *finish;
    struct drying_clock *clock[DRYING_KINDS];
    struct spells wet, dry; /* while it is laid; while it dries */
    bool until_handle;      /* the air must also suit until it is dry to handle */
};

/* The moment that follows from the end of a coat. */
struct recalled {
    int32_t end, moment;
};

/* When coats of one finish, laid in one way, reach each state, as told before: a search asks for the same again and again. Kept by
 * the end of the coat, the latest that was asked for in each place. */
struct film_states {
    const struct finish_times *times;
    int32_t fastest[STATE_COUNT]; /* minutes in the air that dries fastest, rounded down */
    struct recalled of[STATE_COUNT][STATES_RECALLED];
};

/* What an operation is to the planner. */
struct task_row {
    const struct operation *operation;
    const struct film *film;    /* apply */
    struct film_states *states; /* apply */
    int kind;                   /* operations of one kind may be one batch */
    int lot;                    /* a number for its lot: two people do not work on one at a time */
    size_t lot_from, lot_to;    /* the operations of its lot */
    int job;                    /* by number */
    int32_t release, latest;    /* from the job, and from what was done: SITE_NEVER where nothing asks */
    int32_t rack;               /* whole square centimetres */
    int32_t set_up, clean_up;
    const int *in, *out; /* links, by number */
    size_t in_count, out_count;
    int line;      /* the first finish line of it, SITE_NONE; the next by next_line */
    bool optional; /* a late scuff that a plan can do without */
};

/* One kind of batch. */
struct kind {
    int work;
    int32_t set_up, clean_up; /* at the least: `unlike` work has its own (lay_set_up) */
    bool unlike;              /* what is sanded and what is scuffed with one grit, set up differently */
    int32_t rest;             /* how long it may lie; INT32_MAX: until the end of the day */
    bool mixed, two_part, sprays, dry;
    int32_t working; /* minutes in which a mix may be laid; INT32_MAX: no pot life */
    int32_t pot_life, induction;
    unsigned needs;
};

/* A film that was laid before and is still wet: the lot lies on the rack, and no dust may come to it. */
struct lying {
    int lot;
    int32_t handle, clear; /* dry to handle; dust-free */
    int32_t rack;
};

struct site_job {
    const struct job *job;
    int32_t due, aim; /* deliver; deliver less the time to spare */
    int32_t floor;    /* what was done before is ready by then */
    int32_t from;     /* no work on it before: its start, or now */
};

struct site {
    struct arena *arena;
    const struct operations *operations;
    const struct shop *shop;
    const struct zone *zone;
    struct crew *crew;
    struct task_row *rows; /* per operation */
    size_t count;
    struct kind *kinds;
    size_t kind_count;
    int *next_line; /* per finish line: the operation's next, SITE_NONE */
    struct film *films;
    size_t film_count;
    struct site_job *jobs;
    struct lying *lying;
    size_t lying_count;
    int job_count, lot_count;
    int32_t rack; /* -1: no limit */
    int32_t settle;
    int32_t night; /* the shortest time between anybody's work on one day and on another, at most a day */
    int32_t
        *tail; /* per operation: the longest way from its start to the end of its job, by reference times */
};

struct site *site_make(struct arena *arena, const struct operations *operations, int64_t origin_min,
                       int32_t horizon);

static inline int32_t site_up(int32_t minute)
{
    return (minute + GRID_MIN - 1) / GRID_MIN * GRID_MIN;
}

/* When a film whose coat ended then reaches a state, the last moment of its recoat window; SITE_NEVER. */
int32_t site_state(const struct site *site, int operation, int32_t end, enum finish_state state);
int32_t site_window(const struct site *site, int operation, int32_t end);
/* What a link asks of its later operation: not before, or not after (LINK_WINDOW, LINK_POLISH), given the earlier one. */
int32_t site_link(const struct site *site, const struct link *link, int32_t start, int32_t end);
bool site_link_is_limit(const struct link *link);
int32_t site_line(const struct site *site, const struct finish_line *line, int32_t end);
/* Minutes that the film of an operation takes to a state in the air that dries it fastest, rounded down. */
int32_t site_fastest(const struct site *site, int item, enum finish_state state);
/* Minutes from the end of a link's earlier operation to the start of the later one, at the least. */
int32_t site_link_least(const struct site *site, const struct link *link);
/* The longest way of waits and work from the end of one operation to the start of a later one over those listed between them, in
 * minutes, in the air that dries fastest; SITE_NONE: there is none. `at`: room for as many operations as lie between, and two. */
int32_t site_way(const struct site *site, int from, int to, int32_t *at);
/* Sets the film and the states of a coat's row, shared by all coats of one finish that take the same times; once the rows before it
 * have theirs. */
void site_fill_film(struct site *site, size_t i);
/* Finds the operations of each lot, which follow one another, from the lots' numbers. */
void site_find_lots(struct site *site);
/* Finds the late scuffs that no plan can do without: more must pass before the coat than the longest window allows. */
void site_find_optional(struct site *site);
/* The coat that a flip turns the part for, where one person does both; SITE_NONE. */
int site_turned_for(const struct site *site, int flip);
/* Whether one person may be at a batch of the first kind while another does one of the second. */
bool site_may_be_at_once(const struct site *site, int kind, int other);
/* The first spell that meets [from, to); NULL: none. */
const struct spell *site_spell(const struct spells *spells, int32_t from, int32_t to);
int64_t site_moment(const struct site *site, int32_t minute);
int32_t site_minute(const struct site *site, int64_t moment);

#endif
