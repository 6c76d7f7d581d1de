/* Which of two plans is the better, key by key, and what counts of a plan. */
#include "check.h"

#include "timetable/batching.h"

struct pair_row {
    struct row row;
    enum timetable_aim aim;
    struct score better, worse;
};

static const struct pair_row pairs[] = {
    {ROW("all of the work is in it"), AIM_LEAST_WORK, {.whole = true, .late = 900}, {.late = 0}},
    {ROW("all of the work is in it, soonest"), AIM_SOONEST, {.whole = true, .ready = 900}, {.ready = 0}},
    {ROW("less late, though more work"), AIM_LEAST_WORK, {.late = 5, .work = 900}, {.late = 6, .work = 1}},
    {ROW("time to spare before none"), AIM_LEAST_WORK, {.late = -1, .work = 900}, {.late = 0, .work = 1}},
    {ROW("the next late job less late"),
     AIM_LEAST_WORK,
     {.late = 9, .lates = {9, 3}, .late_sum = 30, .work = 900},
     {.late = 9, .lates = {9, 4}, .late_sum = 13}},
    {ROW("the last that is compared by itself"),
     AIM_LEAST_WORK,
     {.lates = {9, 9, 9, 9, 9, 9, 9, 8}, .late_sum = 90},
     {.lates = {9, 9, 9, 9, 9, 9, 9, 9}, .late_sum = 72}},
    {ROW("less late in all"),
     AIM_LEAST_WORK,
     {.lates = {9}, .late_sum = 80, .work = 900},
     {.lates = {9}, .late_sum = 81, .work = 1}},
    {ROW("less work, though later"), AIM_LEAST_WORK, {.work = 60, .ready = 900}, {.work = 61, .ready = 1}},
    {ROW("as late as may be: less work"), AIM_LATEST, {.work = 60, .ready = 900}, {.work = 61, .ready = 1}},
    {ROW("ready sooner"), AIM_LEAST_WORK, {.ready = 60, .ready_sum = 900}, {.ready = 61, .ready_sum = 1}},
    {ROW("all jobs ready sooner"),
     AIM_LEAST_WORK,
     {.ready_sum = 60, .batches = 9},
     {.ready_sum = 61, .batches = 1}},
    {ROW("fewer batches"), AIM_LEAST_WORK, {.batches = 2, .starts = 900}, {.batches = 3, .starts = 1}},
    {ROW("begun sooner"), AIM_LEAST_WORK, {.starts = 60}, {.starts = 61}},
    {ROW("soonest: ready sooner, though late"), AIM_SOONEST, {.ready = 60, .late = 900}, {.ready = 61}},
    {ROW("soonest: ready sooner before each job"),
     AIM_SOONEST,
     {.ready = 60, .ready_sum = 900},
     {.ready = 61, .ready_sum = 1}},
    {ROW("soonest: each job sooner"), AIM_SOONEST, {.ready_sum = 60, .late = 900}, {.ready_sum = 61}},
    {ROW("soonest: less late"), AIM_SOONEST, {.late = 5, .lates = {9}}, {.late = 6, .lates = {5}}},
    {ROW("soonest: the next late job"),
     AIM_SOONEST,
     {.lates = {9, 3}, .work = 900},
     {.lates = {9, 4}, .work = 1}},
    {ROW("soonest: less work"), AIM_SOONEST, {.work = 60, .batches = 9}, {.work = 61, .batches = 1}},
    {ROW("soonest: fewer batches"), AIM_SOONEST, {.batches = 2, .starts = 900}, {.batches = 3, .starts = 1}},
    {ROW("soonest: begun sooner"), AIM_SOONEST, {.starts = 60}, {.starts = 61}},
};

static void is_better(void **state)
{
    const struct pair_row *r = *state;
    struct score better = r->better, worse = r->worse;
    if (!better.whole)
        better.whole = worse.whole = true;
    check_true(&r->row, score_compare(&better, &worse, r->aim) < 0, "the first is better");
    check_true(&r->row, score_compare(&worse, &better, r->aim) > 0, "the second is worse");
    check_int(&r->row, score_compare(&better, &better, r->aim), 0);
}

enum { JOBS = 10 };

/* Jobs of which nothing is left to do: each is ready when its past work lets it, is due, and has its time
 * to spare. */
static struct score scored(const struct site_job *jobs, int count, struct placed *placed, size_t batches)
{
    struct site_job own[JOBS];
    for (int i = 0; i < count; i++)
        own[i] = jobs[i];
    struct site site = {.jobs = own, .job_count = count};
    struct draft draft = {.site = &site, .placed = placed, .count = batches};
    struct variant variant = {.draft = &draft, .whole = true};
    return score_of(&variant);
}

/* Ready at 700, 500 and 950, due at 600, 500 and 800: late by 100, not at all and 150. */
static void each_job_counts(void **state)
{
    (void)state;
    struct site_job jobs[] = {{.floor = 700, .due = 600, .aim = 600},
                              {.floor = 500, .due = 500, .aim = 500},
                              {.floor = 950, .due = 800, .aim = 700}};
    struct score score = scored(jobs, 3, NULL, 0);
    check_int(HERE, score.late, 150);
    check_int(HERE, score.lates[0], 150);
    check_int(HERE, score.lates[1], 100);
    check_int(HERE, score.lates[2], 0);
    check_int(HERE, score.late_sum, 250);
    check_int(HERE, score.ready, 950);
    check_int(HERE, score.ready_sum, 2150);
    check_true(HERE, score.whole, "nothing is left to do");
}

/* 10, 20 ... 100 late: of ten the eight latest stand by themselves, all ten in the sum. */
static void the_latest_are_told(void **state)
{
    (void)state;
    struct site_job jobs[JOBS];
    for (int i = 0; i < JOBS; i++)
        jobs[i] = (struct site_job){.floor = 10 * (i + 1)};
    struct score score = scored(jobs, JOBS, NULL, 0);
    for (int i = 0; i < LATES_MOST; i++)
        check_int(HERE, score.lates[i], 100 - 10 * i);
    check_int(HERE, score.late_sum, 550);
}

/* All have time to spare; one has just what it aims at; one has a minute too little, and is in time. */
static void time_to_spare(void **state)
{
    (void)state;
    struct site_job jobs[] = {{.floor = 400, .due = 600, .aim = 500}, {.floor = 500, .due = 600, .aim = 500}};
    check_int(HERE, scored(jobs, 2, NULL, 0).late, -1);
    jobs[0].floor = 501;
    check_int(HERE, scored(jobs, 2, NULL, 0).late, 0);
    jobs[0].floor = 601;
    check_int(HERE, scored(jobs, 2, NULL, 0).late, 1);
}

/* One person for 90 s from 10 on, two for 60 s from 20 on: 90 + 2 x 60. */
static void hands_are_counted(void **state)
{
    (void)state;
    struct site_job job = {.due = 600, .aim = 600};
    struct placed placed[] = {{.batch = {.helper = SITE_NONE}, .laid = {.start = 10, .hands_on_s = 90}},
                              {.batch = {.helper = 0}, .laid = {.start = 20, .hands_on_s = 60}}};
    struct score score = scored(&job, 1, placed, 2);
    check_int(HERE, score.work, 210);
    check_int(HERE, score.starts, 30);
    check_int(HERE, (intmax_t)score.batches, 2);
}

/* Of a plan in which something is missing nothing is counted. */
static void a_part_of_a_plan(void **state)
{
    (void)state;
    struct placed placed = {.laid = {.start = 10, .hands_on_s = 90}};
    struct draft draft = {.placed = &placed, .count = 1};
    struct variant variant = {.draft = &draft};
    struct score score = score_of(&variant);
    check_true(HERE, !score.whole && score.work == 0 && score.batches == 0, "nothing is counted");
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(pairs, is_better), CHECK_TEST(each_job_counts),
                     CHECK_TEST(the_latest_are_told), CHECK_TEST(time_to_spare),
                     CHECK_TEST(hands_are_counted), CHECK_TEST(a_part_of_a_plan));
}
