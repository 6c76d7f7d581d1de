/* Ways to change a job so that it is ready sooner: each a copy of the job with one change. Nothing is planned here. */
#ifndef PLAN_ALTERNATIVE_H
#define PLAN_ALTERNATIVE_H

#include "timetable/timetable.h"

struct arena;

/* Alternatives of one kind come from the least change to the greatest: a greater one is worth naming only where it
 * gains more. */
enum alternative_kind {
    ALTERNATIVE_PEOPLE,
    ALTERNATIVE_SPRAY,
    ALTERNATIVE_DUST,
    ALTERNATIVE_RACK,
    ALTERNATIVE_EVENING,
    ALTERNATIVE_SATURDAY,
    ALTERNATIVE_AIR,
    ALTERNATIVE_SOONEST, /* no change of a file: another aim */
    ALTERNATIVE_START,
    ALTERNATIVE_LOTS,
    ALTERNATIVE_LAID,
    ALTERNATIVE_DELIVERY,
    ALTERNATIVE_COATS,
    ALTERNATIVE_FINISH,
};

/* Which air. */
enum heating { HEATING_NIGHTS, HEATING_MORE, HEATING_DAY_AND_NIGHT };

/* How a piece would lie. */
enum position { POSITION_STANDING, POSITION_HUNG, POSITION_ON_POINTS, POSITION_COUNT };

/* What is changed, for whoever says it; what the kind does not need is 0. */
struct change {
    enum alternative_kind kind;
    double from_m2, to_m2; /* the rack */
    enum heating heating;
    double to_c;             /* nights, day and night: as warm as that; more: by so much */
    enum finish_state state; /* delivery */
    const struct finish *finish, *instead_of;
    int coats, instead_of_coats;
    const char *schedule;    /* coats */
    unsigned less_resistant; /* finish: bits of enum resistance in which it is weaker */
    int64_t start_min;       /* start */
    const char *piece;       /* lots, laid; NULL: every piece that could */
    int lots;
    enum position position;
};

/* What the copy points to lives in the arena; the rest is the job's. */
struct alternative {
    struct change change;
    const struct job *now; /* as it is */
    struct job job;        /* as it would be */
};

enum { ALTERNATIVES_MOST = 64 };

struct alternatives {
    struct arena *arena;
    const struct job *job;
    const struct timetable *timetable;   /* of the job as it is */
    const struct operations *operations; /* as that has them */
    int64_t now_min;                     /* nothing can begin before */
    struct alternative *items;
    size_t count;
};

/* All that can be thought of, ALTERNATIVES_MOST at most. Where nothing is late, and only less to spare than was asked for,
 * that is the other aim alone. */
void alternatives_init(struct alternatives *all, struct arena *arena, const struct timetable *timetable,
                       int64_t now_min, bool late);

/* The aim with which an alternative is planned. */
enum timetable_aim alternative_aim(const struct change *change, enum timetable_aim aim);

/* Whether a plan leaves something to ask: there is none, it is late, or has less to spare than was asked for. */
bool alternative_wanted(const struct timetable *timetable);

/* What a job that can be planned is warned of. */
size_t alternative_warnings(struct arena *arena, const struct job *job);

/* The work of a job as it was changed: no alternative touches a part, so the take-off of `now` stands. NULL: the changed
 * job has a mistake, or more warnings than it had. */
const struct operations *alternative_work(struct arena *arena, const struct operations *now,
                                          const struct job *changed, size_t warnings_now);

/* The parts of alternatives_init. */
void alternatives_add_shop(struct alternatives *all);
void alternatives_add_start(struct alternatives *all);
void alternatives_add_pieces(struct alternatives *all);
void alternatives_add_air(struct alternatives *all);
void alternatives_add_delivery(struct alternatives *all);
void alternatives_add_coats(struct alternatives *all);
void alternatives_add_finishes(struct alternatives *all);

/* Adds one; left out where there are too many. */
void alternatives_add_job(struct alternatives *all, struct change change, const struct job *job);
void alternatives_add_to_shop(struct alternatives *all, struct change change, const struct shop *shop);

/* Whether a kind changes the shop, and not the job alone. */
bool alternative_of_shop(enum alternative_kind kind);

/* Whether there is no plan, or a late one. */
bool alternative_late(const struct timetable *timetable);

#endif
