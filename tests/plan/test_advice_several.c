/* Advice to jobs that share a shop, worked by hand: one person, open 08:00-17:00 daily, Monday 1 March 2027. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "plan/advice.h"
#include "report/sentences.h"

#include <string.h>

enum { JOBS = 2 };

/* A desk of two coats of 2 h, due at 08:30, and a shelf of one coat of 3 h. */
struct shop_jobs {
    struct arena *arena;
    struct panel desk, shelf;
};

static struct shop_jobs *jobs_make(int64_t shelf_due_min)
{
    struct arena *arena = arena_make(0);
    struct shop_jobs *jobs = ARENA_NEW(arena, struct shop_jobs);
    jobs->arena = arena;
    panel_init(&jobs->desk);
    panel_init(&jobs->shelf);
    jobs->desk.job.name = "Desk";
    jobs->desk.job.file = "desk.json";
    jobs->shelf.job.name = "Shelf";
    jobs->shelf.job.file = "shelf.json";
    panel_add_step(&jobs->desk, 0, STEP_COAT)->coats = 2;
    panel_add_step(&jobs->shelf, 0, STEP_COAT)->coats = 1;
    panel_set_hours(&jobs->desk, 0, 2);
    panel_set_hours(&jobs->shelf, 0, 3);
    jobs->desk.job.deliver_min = march(1, 8, 30);
    jobs->shelf.job.deliver_min = shelf_due_min;
    jobs->desk.job.shop.hours_assumed = jobs->shelf.job.shop.hours_assumed = false;
    return jobs;
}

/* All sentences to one of the jobs, one a line, planned with so much effort; 0: the usual. */
static const char *told_with(struct shop_jobs *jobs, size_t to, int64_t effort)
{
    const struct timetable_options options = {.effort = effort};
    struct panel *panels[JOBS] = {&jobs->desk, &jobs->shelf};
    const struct operations *work[JOBS];
    struct err_list errors = {0};
    const char *text = "";
    for (size_t j = 0; j < JOBS; j++)
        work[j] = timetable_operations(jobs->arena, &panels[j]->job, &panels[j]->surfaces, &errors);
    struct timetable **each = timetable_several(jobs->arena, work, JOBS, options);
    struct advice_list *lists = advice_several(jobs->arena, each, JOBS, options, jobs->desk.job.start_min);
    for (size_t i = 0; i < lists[to].count; i++)
        text = arena_textf(
            jobs->arena, "%s%s\n", text,
            advice_sentence(jobs->arena, &lists[to].items[i], panels[to]->job.zone, UNITS_METRIC));
    return text;
}

static const char *told(struct shop_jobs *jobs, size_t to)
{
    return told_with(jobs, to, 0);
}

/* A person takes 4 h for the desk, due at 08:30, and 3 h for the shelf, due at 10:30. The latest job counts first: with the desk before
 * it the shelf is 4.5 h late, the other way round the desk 6.5 h. With one coat the desk is ready at 10:00 and the shelf at 13:00; two
 * people have the shelf ready at 11:00. */
static void what_helps_both_and_one(void **state)
{
    (void)state;
    struct shop_jobs *jobs = jobs_make(march(1, 10, 30));
    check_text(HERE, told(jobs, 0),
               "1 coat of oil instead of 2 (schedule \"oil\"): ready 2027-03-01 10:00, 2 h sooner, 2 h less "
               "work; in desk.json: "
               "`{\"schedules\": {\"oil\": [{\"coat\": \"oil\", \"coats\": 1, \"by\": \"cloth\"}]}}`\n");
    check_text(HERE, told(jobs, 1),
               "one more person: ready 2027-03-01 11:00, 4 h sooner; in desk.json and shelf.json: "
               "`{\"shop\": {\"people\": 2}}`\n"
               "1 coat of oil instead of 2 (schedule \"oil\") (Desk): ready 2027-03-01 13:00, 2 h sooner; in "
               "desk.json: "
               "`{\"schedules\": {\"oil\": [{\"coat\": \"oil\", \"coats\": 1, \"by\": \"cloth\"}]}}`\n");
    arena_free(jobs->arena);
}

/* One more person and one coat less leave the jobs late by 4 h together: 3.5 and 0.5 h, or 1.5 and 2.5 h. The first of the two uses up
 * the little effort that there is, and what is not planned in full is not told. */
static void no_more_than_the_effort_lasts_for(void **state)
{
    (void)state;
    struct shop_jobs *jobs = jobs_make(march(1, 10, 30));
    check_text(HERE, told_with(jobs, 0, 100), "");
    check_text(HERE, told_with(jobs, 1, 100),
               "one more person: ready 2027-03-01 11:00, 4 h sooner; in desk.json and shelf.json: "
               "`{\"shop\": {\"people\": 2}}`\n");
    arena_free(jobs->arena);
}

/* One file describes the shop of both: it is changed once. */
static void the_shop_of_both(void **state)
{
    (void)state;
    struct shop_jobs *jobs = jobs_make(march(1, 10, 30));
    jobs->desk.job.shop_file = jobs->shelf.job.shop_file = "shop.json";
    jobs->desk.steps[0][0].coats = 1;
    panel_set_hours(&jobs->desk, 0, 4);
    check_text(HERE, told(jobs, 1),
               "one more person: ready 2027-03-01 11:00, 4 h sooner; in shop.json: `{\"people\": 2}`\n");
    arena_free(jobs->arena);
}

/* The shelf, 3 h due at 11:00, goes first, and the desk, an hour due at 12:30, is ready at 12:00: both in time, with less than a day
 * to spare. The soonest that each can be on an average is the desk first: 09:00 and 12:00, and the shelf is an hour late. */
static void the_soonest_makes_another_late(void **state)
{
    (void)state;
    struct shop_jobs *jobs = jobs_make(march(1, 11, 0));
    jobs->desk.steps[0][0].coats = 1;
    panel_set_hours(&jobs->desk, 0, 1);
    jobs->desk.job.deliver_min = march(1, 12, 30);
    jobs->desk.job.to_spare_days = jobs->shelf.job.to_spare_days = 1;
    check_text(
        HERE, told(jobs, 0),
        "planned with --soonest, which makes Shelf 1 h late: ready 2027-03-01 09:00, 3 h sooner, in time\n");
    check_text(HERE, told(jobs, 1), "");
    arena_free(jobs->arena);
}

/* The desk is coated at 08:00 and again seven hours later, until 17:00; due at 16:45. The shelf's hour of coating is over at 10:00, an
 * hour and a half late. With a longer evening the shelf could go first: it would be ready at 09:00 and the desk at 18:00, so that the
 * latest would be less late, but the jobs together no less: that is no advice. One coat less, or one more person, helps the shelf and
 * does the desk no harm. */
static void what_one_gains_another_loses(void **state)
{
    (void)state;
    struct shop_jobs *jobs = jobs_make(march(1, 8, 30));
    panel_set_hours(&jobs->desk, 0, 1);
    panel_set_hours(&jobs->shelf, 0, 1);
    panel_set_window(&jobs->desk, 7 * 60, SPAN_NEVER);
    jobs->desk.finish.air.highest_c = jobs->desk.finish.at_c;
    jobs->desk.job.deliver_min = march(1, 16, 45);
    check_text(HERE, told(jobs, 1),
               "1 coat of oil instead of 2 (schedule \"oil\") (Desk): ready 2027-03-01 09:00, 1 h sooner; in "
               "desk.json: "
               "`{\"schedules\": {\"oil\": [{\"coat\": \"oil\", \"coats\": 1, \"by\": \"cloth\"}]}}`\n"
               "one more person: ready 2027-03-01 09:00, 1 h sooner; in desk.json and shelf.json: "
               "`{\"shop\": {\"people\": 2}}`\n");
    arena_free(jobs->arena);
}

/* Friday: the shelf until 16:00, then no room for 2 h. The desk, two coats of 2 h, is ready on Sunday at 12:00, and on Saturday where the
 * shop, closed on Saturdays, works then. The file of the desk says when the shop is open and that of the shelf does not: what is to be
 * written in both names every day, for days that are not named where no hours are given would be closed. */
static void a_file_without_hours_needs_every_day(void **state)
{
    (void)state;
    struct shop_jobs *jobs = jobs_make(march(5, 9, 0));
    struct panel *panels[JOBS] = {&jobs->desk, &jobs->shelf};
    panel_set_hours(&jobs->shelf, 0, 8);
    jobs->desk.job.deliver_min = march(5, 9, 0);
    jobs->shelf.job.shop.hours_assumed = true;
    for (size_t j = 0; j < JOBS; j++) {
        panels[j]->job.start_min = march(5, 8, 0);
        panels[j]->job.shop.hours[SATURDAY].count = 0;
    }
    const char *text = told(jobs, 0);
    check_true(
        HERE,
        strstr(text,
               "Saturdays worked as Fridays are: ready 2027-03-06 12:00, 1 d sooner; in desk.json and "
               "shelf.json: `{\"shop\": {\"hours\": {\"mon\": [\"08:00-17:00\"], \"tue\": [\"08:00-17:00\"], "
               "\"wed\": [\"08:00-17:00\"], \"thu\": [\"08:00-17:00\"], \"fri\": [\"08:00-17:00\"], "
               "\"sat\": [\"08:00-17:00\"], \"sun\": [\"08:00-17:00\"]}}}`\n"),
        text);
    arena_free(jobs->arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(what_helps_both_and_one), CHECK_TEST(no_more_than_the_effort_lasts_for),
                     CHECK_TEST(the_shop_of_both), CHECK_TEST(the_soonest_makes_another_late),
                     CHECK_TEST(what_one_gains_another_loses),
                     CHECK_TEST(a_file_without_hours_needs_every_day));
}
