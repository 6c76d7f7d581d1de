/* Whole minutes of batches, and of each job in a batch that several share; every number is worked out by hand. */
#include "check.h"

#include "base/arena.h"
#include "timetable/dates.h"

enum { MOST = 4 };

/* Work of some seconds, and the job that it is of. */
struct share {
    int64_t seconds;
    int job;
};

/* What each of the jobs gets of a batch of that work that takes so many minutes. */
static void shared(const struct row *row, const struct share *work, size_t count, int64_t minutes,
                   const int64_t *want, int jobs)
{
    struct arena *arena = arena_make(0);
    struct operation operations[MOST] = {0};
    struct task_row rows[MOST] = {0};
    int items[MOST];
    for (size_t i = 0; i < count; i++) {
        operations[i].units.seconds = work[i].seconds;
        rows[i] = (struct task_row){.operation = &operations[i], .job = work[i].job};
        items[i] = (int)i;
    }
    const struct site site = {.rows = rows, .count = count, .job_count = jobs};
    const struct batch batch = {.helper = SITE_NONE, .items = items, .count = count};
    for (int job = 0; job < jobs; job++)
        check_int(row, dates_share(arena, &site, &batch, minutes, job), want[job]);
    arena_free(arena);
}

/* Set-up 10 and clean-up 10 around 20 min of one job and 20 of another: 30 min each. */
static void a_set_up_is_shared_by_halves(void **state)
{
    (void)state;
    shared(HERE, (struct share[]){{1200, 0}, {1200, 1}}, 2, 60, (int64_t[]){30, 30}, 2);
}

/* The same around 10:20 and 10:40 of one and 5:00 of another, 46 min: 46 x 21/26 = 37 2/13 and 46 x 5/26 = 8 11/13, so the
 * minute that is missing goes to the second. */
static void what_is_missing_goes_to_the_larger_rest(void **state)
{
    (void)state;
    shared(HERE, (struct share[]){{620, 0}, {300, 1}, {640, 0}}, 3, 46, (int64_t[]){37, 9}, 2);
}

/* 100 min of three like jobs: 33 1/3 each, the first has one more. */
static void like_jobs_share_alike(void **state)
{
    (void)state;
    shared(HERE, (struct share[]){{60, 2}, {60, 0}, {60, 1}}, 3, 100, (int64_t[]){34, 33, 33}, 3);
}

/* A job that is not in the batch has nothing of it, though a minute is missing: 31 x 1/2 = 15 1/2. */
static void who_is_not_there_pays_nothing(void **state)
{
    (void)state;
    shared(HERE, (struct share[]){{60, 1}, {60, 2}}, 2, 31, (int64_t[]){0, 16, 15}, 3);
}

/* Set-up and clean-up around what takes no second belong to the job of the first item. */
static void no_work_is_of_the_first(void **state)
{
    (void)state;
    shared(HERE, (struct share[]){{0, 1}, {0, 0}}, 2, 20, (int64_t[]){0, 20}, 2);
}

/* A batch that begins at a minute and takes some seconds of one person, or of two. */
struct turn_of_work {
    int32_t start, seconds;
    bool helped;
};

static void told(const struct row *row, const struct turn_of_work *turns, size_t count, const int64_t *want)
{
    struct arena *arena = arena_make(0);
    struct placed placed[MOST] = {0};
    for (size_t i = 0; i < count; i++) {
        placed[i].batch.helper = turns[i].helped ? 1 : SITE_NONE;
        placed[i].laid.start = turns[i].start;
        placed[i].laid.hands_on_s = turns[i].seconds;
    }
    const struct draft draft = {.placed = placed, .count = count};
    const int64_t *minutes = dates_minutes(arena, &draft);
    for (size_t i = 0; i < count; i++)
        check_int(row, minutes[i], want[i]);
    arena_free(arena);
}

/* 10:20, 10:40 and 5:00 are 26 min: the 20 s go to the 40. */
static void batches_add_up(void **state)
{
    (void)state;
    told(HERE, (struct turn_of_work[]){{0, 620, false}, {20, 640, false}, {40, 300, false}}, 3,
         (int64_t[]){10, 11, 5});
}

/* 1:30 and 1:30 are 3 min: the one that is worked first is told as 2, though it was placed last. */
static void the_earlier_has_the_odd_minute(void **state)
{
    (void)state;
    told(HERE, (struct turn_of_work[]){{60, 90, false}, {0, 90, false}}, 2, (int64_t[]){1, 2});
}

/* Two turn for 1:30, told as 2 min of each; one works for 1:30 alone: 4:30 of all hands are told as 5 min, 4 of them by the two. */
static void two_are_told_in_full(void **state)
{
    (void)state;
    told(HERE, (struct turn_of_work[]){{0, 90, true}, {20, 90, false}}, 2, (int64_t[]){2, 1});
}

/* Two turn for a minute, one works for 1:59: 3:59 of all hands are 4 min, 2 of them by the two. */
static void what_two_do_in_full_minutes(void **state)
{
    (void)state;
    told(HERE, (struct turn_of_work[]){{0, 60, true}, {20, 119, false}}, 2, (int64_t[]){1, 2});
}

/* Two turn twice for 1:01, told as 2 min each time, 8 of all hands; 2:00 of one person stay 2, though all hands worked 6:04. */
static void nobody_is_told_less_than_whole_minutes(void **state)
{
    (void)state;
    told(HERE, (struct turn_of_work[]){{0, 61, true}, {20, 61, true}, {40, 120, false}}, 3,
         (int64_t[]){2, 2, 2});
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(a_set_up_is_shared_by_halves),
                     CHECK_TEST(what_is_missing_goes_to_the_larger_rest), CHECK_TEST(like_jobs_share_alike),
                     CHECK_TEST(who_is_not_there_pays_nothing), CHECK_TEST(no_work_is_of_the_first),
                     CHECK_TEST(batches_add_up), CHECK_TEST(the_earlier_has_the_odd_minute),
                     CHECK_TEST(two_are_told_in_full), CHECK_TEST(what_two_do_in_full_minutes),
                     CHECK_TEST(nobody_is_told_less_than_whole_minutes));
}
