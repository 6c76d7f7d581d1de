/* Which plan of batches is the better, and the search for a good one.
 *
 * The first order puts everything of one kind and rank into one batch, of all pieces or of a group of them. It is then changed at
 * random but the same everywhere: batches are joined, divided, put earlier or later or to another person, an item moves to another
 * batch; what is no worse than a plan some steps ago is kept (late acceptance: Burke and Bykov, EJOR 258, 2017). At last batches may
 * also take their items as they become free, whatever changes before them: nothing else ends one batch sooner. Batching with set-ups:
 * Potts and Kovalyov, EJOR 120, 2000. */
#ifndef TIMETABLE_BATCHING_H
#define TIMETABLE_BATCHING_H

#include "timetable/order.h"
#include "timetable/timetable.h"

enum { LATES_MOST = 8 };

/* In the order in which it counts for the aim. */
struct score {
    bool whole;
    int32_t late; /* the latest job, in minutes; -1: all have their time to spare */
    int32_t lates
        [LATES_MOST]; /* of the jobs, the latest first: no job is late for the sake of another (the leximax order,
                                  Ehrgott, Multicriteria Optimization, ch. 5) */
    int64_t late_sum;
    int64_t work;      /* seconds of all hands */
    int32_t ready;     /* of the last job */
    int64_t ready_sum; /* of all jobs */
    size_t batches;
    int64_t starts;
};

struct score score_of(const struct variant *variant);
/* Below 0: a is better. */
int score_compare(const struct score *a, const struct score *b, enum timetable_aim aim);

/* What no plan goes below. */
struct least {
    int64_t work; /* seconds */
    int32_t ready;
};

struct batching {
    const struct site *site;
    enum timetable_aim aim;
    bool trades;               /* on its way to less work the search takes plans that are late */
    int64_t effort;            /* may be spent */
    struct observer *observer; /* NULL: nobody looks on */
    struct least least;
    struct variant *best;
    struct score score;
    enum scuffing scuffs;
    bool ended;           /* memory ended inside the search: the best plan so far */
    int64_t spent, nodes; /* counted work; orders read */
};

/* How much may be spent until there is a first plan: never so little that a large job has none. */
int64_t batching_first_effort(const struct batching *batching);

/* Room and the first plan of an aim; batching_improve makes it better. Without a plan score.whole is false. */
void batching_start(struct batching *batching);
void batching_improve(struct batching *batching);
/* Goes on from the best plan of another batching of the same work, where jobs may be due at other times. */
void batching_again(struct batching *batching);

/* Small changes of an order of batches, drawn by numbers that are the same everywhere. */
struct moving {
    const struct site *site;
    struct variant *trial; /* its order is changed */
    uint64_t random;
    bool limits; /* there are windows to keep */
    bool mixes;  /* there are mixes that do not keep */
    bool
        pieces; /* all that a batch does on one piece may go to another: it helps where only the work counts */
    bool steps; /* a batch may do its items as they become free */
    enum scuffing scuffs;
};

/* Whether the batch is of what must be laid before its mix sets. */
bool moves_is_mixed(const struct site *site, const struct run *run);

/* Two batches of one kind become one, where the first of them stands, or the last; a piece of which it then coats both sides is
 * turned within it. False: they are not of one kind. */
bool moves_join(struct moving *moving, size_t a, size_t b, bool early, bool sorted);

/* Takes an item, a late scuff, out of the order where it is in it. */
void moves_leave_out(struct moving *moving, int item);

/* Joins, divides, moves, ... one batch; false: nothing is changed. */
bool moves_change(struct moving *moving);
/* One change, or a few: what only pays together is found together. */
bool moves_change_some(struct moving *moving);

#endif
