/* What the logs of a shop say of its own coverage, minutes and loss, beside what the finish table and the shop say.
 *
 * A ratio is what was recorded over what was computed: litres of a batch of coats, or minutes of one coat. Its logarithms y are
 * normal with mean m and variance s2, neither of them known; before anything is seen m is 0 (the table's) with the weight of
 * one observation, and s2 is T^2 / 8 with that of four, T being the table's tolerance: the next coat then lies within T of the
 * table's, two standard deviations. This is the normal model with its conjugate prior (Gelman et al., Bayesian Data Analysis,
 * 3rd ed., sections 2.5 and 3.3). After n observations of mean a and with squares Q about it:
 *
 *     m = n a / (n + 1)        s2 = (4 T^2 / 8 + Q + n a^2 / (n + 1)) / (4 + n)
 *     factor = exp(m)          tolerance = 2 sqrt(s2 (1 + 1 / (n + 1))), at most 95 %
 *
 * No ratio counts as more than 2 or less than 1/2 (winsorized at a fixed bound): whatever one of n entries says, it moves the
 * factor by at most 4^(1 / (n + 1)), and an entry of ten times what is right by at most 2^(1 / (n + 1)). */
#ifndef PLAN_LEARNED_H
#define PLAN_LEARNED_H

#include "timetable/operations.h"

struct arena;

struct estimate {
    double factor;    /* real over computed; 1 where nothing was seen */
    double tolerance; /* plus or minus, as a share, of the next coat */
    size_t count;     /* observations */
    size_t bounded;   /* of them counted as twice or half */
};

/* Of ratios above 0. `tolerance`: the table's. */
struct estimate estimate_make(const double *ratios, size_t count, double tolerance);

/* Minutes of the table may be 30 % off: half of the range of the chance's draws, 0.8 to 1.4. */
extern const double learned_minutes_tolerance;

/* A batch of coats whose litres were recorded. */
struct learned_batch {
    double used_l;
    double laid_l; /* of the coats with a record, at the table's coverage */
    double loss_l; /* their share of what stays in the tool */
    double share;  /* ... of the loss of one batch */
    size_t coats;
};

struct learned_row {
    const struct finish *finish; /* the table's, where the job has a file that was learned */
    enum tool tool;
    struct learned_batch *batches;
    size_t batch_count, batch_room;
    size_t coats; /* whose litres were recorded */
    double *minutes;
    size_t minutes_count, minutes_room;
    struct estimate litres, time;
    double table_loss_l, loss_l; /* the same where the batches do not tell */
    size_t loss_batches;         /* 0: they do not */
};

/* What became of a file of the shop's own folder. */
enum learned_fate { LEARNED_WRITTEN, LEARNED_REPLACED, LEARNED_LEFT };

struct learned_file {
    const char *path;
    enum learned_fate fate; /* LEARNED_LEFT: the shop's own figures stand there */
};

struct learned {
    struct learned_row *rows; /* by finish id, then tool */
    size_t count, room;
    size_t jobs, logs;                /* that were read; of them with a log */
    const struct learned_file *files; /* that were to be written */
    size_t file_count;
};

/* From the work of jobs with the facts of their logs. `table`: the finishes of the shipped table, which are what a finish that was
 * learned (finish->learned) is compared with. What was recorded of a whole batch or day at once has the minutes that were
 * planned and tells nothing of minutes. */
struct learned *learned_make(struct arena *arena, const struct operations *const *jobs, size_t count,
                             const struct finish *const *table, size_t table_count);

/* A finish's coverage as one file can say it: all tools that have none of their own together. */
struct estimate learned_coverage(struct arena *arena, const struct learned *learned,
                                 const struct finish *finish, size_t *coats);

/* Loss of a tool from batches of different size: the line used = slope x laid + loss through them, its slope the median of all
 * pairs' (Sen, J. American Statistical Association 63, 1968), its loss the median of what is left, moved to the table's by the
 * weight of one batch. *seen: the batches that it rests on, 0 where there are fewer than four or the largest is not three times
 * the smallest; then it is the table's. */
double learned_loss(struct arena *arena, const struct learned_batch *batches, size_t count, double table_l,
                    size_t *seen);

#endif
