/* Why a plan is late or impossible, in the user's words: one person, open 08:00-17:00 daily, air at 23 C 50 %, from
 * Monday 1 March 2027 08:00, unless a test says otherwise. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/err.h"
#include "report/sentences.h"

#include <string.h>

/* All sentences, one a line. */
static void check_why(const struct row *row, struct panel *panel, const char *want)
{
    struct arena *arena = arena_make(0);
    const struct timetable *timetable = panel_dated(arena, panel);
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < timetable->why_count; i++)
        buf_addf(&text, "%s\n", reason_words(arena, timetable, &timetable->why[i], UNITS_METRIC));
    check_text(row, text.text, want);
    arena_free(arena);
}

static void late_panel(struct panel *panel)
{
    panel_init(panel);
    panel->job.deliver_min = march(1, 8, 5);
}

/* Late: for Friday 17:00 the last coat would have to end by Tuesday 17:00. */
static void the_delivery_looks_back(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    panel_set_hours(&panel, 0, 0.5);
    panel.job.deliver_at = STATE_CURED;
    panel.job.deliver_min = march(5, 17, 0);
    panel_set_state(&panel, STATE_RECOAT, 24 * 60);
    panel_set_state(&panel, STATE_CURED, 72 * 60);
    check_why(HERE, &panel,
              "coat 1 of Oil on A (Mon 1 Mar 08:00) waits for the start of the job\n"
              "coat 2 of Oil on A (Tue 2 Mar 08:30) waits until coat 1 of Oil on A is dry to recoat\n"
              "coat 3 of Oil on A (Wed 3 Mar 09:00) waits until coat 2 of Oil on A is dry to recoat\n"
              "coat 3 of Oil on A is not fully cured until Sat 6 Mar 09:30; for Fri 5 Mar 17:00 it would "
              "have to end by Tue 2 Mar 17:00\n");
}

/* Dry to recoat at 19:00, when the shop is closed. No coat of 1 h ends by 08:05. */
static void the_shop_is_closed(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 600, SPAN_NEVER);
    check_why(HERE, &panel,
              "coat 1 of Oil on A (Mon 1 Mar 08:00) waits for the start of the job\n"
              "coat 2 of Oil on A (Tue 2 Mar 08:00) waits until coat 1 of Oil on A is dry to recoat (Mon 1 "
              "Mar 19:00), then for the shop to open\n"
              "coat 2 of Oil on A is not dry to handle until Tue 2 Mar 09:00\n");
}

/* Dry to recoat at 16:30, and 1 h 30 min of work. */
static void the_day_is_too_short(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_hours(&panel, 0, 1.5);
    panel_set_window(&panel, 420, SPAN_NEVER);
    check_why(HERE, &panel,
              "coat 1 of Oil on A (Mon 1 Mar 08:00) waits for the start of the job\n"
              "coat 2 of Oil on A (Tue 2 Mar 08:00) waits until coat 1 of Oil on A is dry to recoat (Mon 1 "
              "Mar 16:30), then for the shop to open again: it closes at 17:00, too early for the 1 h 30 min "
              "of this step\n"
              "coat 2 of Oil on A is not dry to handle until Tue 2 Mar 09:30\n");
}

/* Sanded until 09:00; 10 C until noon is below the 15 C that the finish wants. A piece that comes on Tuesday. */
static void the_air_is_too_cold(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    panel.finish.air.lowest_c = 15;
    panel.spells[0] = (struct air_spell){0, {10, 0.5}};
    panel.spells[1] = (struct air_spell){12 * 60, {23, 0.5}};
    panel.job.shop.air.daily.spell_count = 2;
    panel.pieces[0].ready_min = march(2, 8, 0);
    check_why(HERE, &panel,
              "sanding A to 180 (Tue 2 Mar 08:00) waits for A to arrive\n"
              "coat 1 of Oil on A (Tue 2 Mar 12:00) waits for sanding A to 180 (Tue 2 Mar 09:00), then for "
              "the right air\n"
              "coat 1 of Oil on A is not dry to handle until Tue 2 Mar 13:00\n");
}

/* Two people: the coat's set-up of 90 min begins at 08:30, before the second sanding does, for which the coat waits. */
static void a_set_up_begins_before_the_wait_does(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_step(&panel, 0, STEP_SAND)->grit = 120;
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    panel.job.shop.people = 2;
    panel.job.shop.set_up_min[TOOL_CLOTH] = 90;
    check_why(HERE, &panel,
              "sanding A to 120 (Mon 1 Mar 08:00) waits for the start of the job\n"
              "sanding A to 180 (Mon 1 Mar 09:00) waits for sanding A to 120\n"
              "coat 1 of Oil on A (Mon 1 Mar 10:00) waits for sanding A to 180\n"
              "coat 1 of Oil on A is not dry to handle until Mon 1 Mar 11:00\n");
}

/* Dry to recoat 10 h after its end and no longer than 16 h: for a second coat on Tuesday 08:00 the first ends at 16:00. */
static void a_coat_is_held_back_for_its_window(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 600, 960);
    panel.finish.refuses_late_recoat = true;
    check_why(
        HERE, &panel,
        "coat 1 of Oil on A (Mon 1 Mar 15:00) waits for coat 2 of Oil on A, which must keep its recoat "
        "window\n"
        "coat 2 of Oil on A (Tue 2 Mar 08:00) waits until coat 1 of Oil on A is dry to recoat (Tue 2 Mar "
        "02:00), then for the shop to open\n"
        "coat 2 of Oil on A is not dry to handle until Tue 2 Mar 09:00\n");
}

/* The same of a wax that is polished 10 to 16 h after its end. */
static void a_coat_is_held_back_for_its_polish(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel.finish.has_polish = true;
    panel.finish.polish = (struct span_range){600, 960};
    check_why(HERE, &panel,
              "coat 1 of Oil on A (Mon 1 Mar 15:00) waits for polishing A, which must not come too late\n"
              "polishing A (Tue 2 Mar 08:00) waits as the schedule asks after coat 1 of Oil on A (Tue 2 Mar "
              "02:00), then for the shop to open\n"
              "polishing A lasts until Tue 2 Mar 09:00\n");
}

/* Three pieces of five grits each and one person: a batch for each grit, in a row behind the first. */
static void a_row_is_told_at_once(void **state)
{
    static const int grits[] = {80, 100, 120, 150, 180};
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_piece(&panel);
    panel_add_piece(&panel);
    for (size_t piece = 0; piece < 3; piece++) {
        for (int grit = 0; grit < 5; grit++)
            panel_add_step(&panel, piece, STEP_SAND)->grit = grits[grit];
        panel_set_hours(&panel, piece, 0.5);
    }
    struct arena *arena = arena_make(0);
    const struct timetable *timetable = panel_dated(arena, &panel);
    check_int(HERE, (intmax_t)timetable->chain_count, 10);
    check_int(HERE, (intmax_t)timetable->why_count, 3);
    check_true(HERE,
               strncmp(reason_words(arena, timetable, &timetable->why[1], UNITS_METRIC),
                       "from Mon 1 Mar 09:30 to Mon 1 Mar 15:30 12 steps follow one another without a break, "
                       "from sanding ",
                       97) == 0,
               reason_words(arena, timetable, &timetable->why[1], UNITS_METRIC));
    arena_free(arena);
}

/* Three pieces of half an hour a grit and one person, a batch for each grit: three batches that follow the
 * first without a break between are one row, two are not, nor are three with a break from 11:00 to 12:00
 * between them. */
struct row_row {
    struct row row;
    int grits;
    int closes, opens; /* the break */
    size_t count;
    enum reason_kind second;
};

static const struct row_row in_a_row[] = {
    {ROW("two behind the first"), 3, 17, 18, 4, REASON_STEP},
    {ROW("three behind the first"), 4, 17, 18, 3, REASON_ROW},
    {ROW("three with a break"), 4, 11, 12, 5, REASON_STEP},
};

static void three_are_a_row(void **state)
{
    const struct row_row *r = *state;
    struct panel panel;
    late_panel(&panel);
    panel.stretches[0] = (struct stretch){8 * 60, r->closes * 60};
    panel.stretches[1] = (struct stretch){r->opens * 60, 19 * 60};
    for (int day = 0; day < 7; day++)
        panel.job.shop.hours[day].count = 2;
    panel_add_piece(&panel);
    panel_add_piece(&panel);
    for (size_t piece = 0; piece < 3; piece++) {
        for (int grit = 0; grit < r->grits; grit++)
            panel_add_step(&panel, piece, STEP_SAND)->grit = 80 + 40 * grit;
        panel_set_hours(&panel, piece, 0.5);
    }
    struct arena *arena = arena_make(0);
    const struct timetable *timetable = panel_dated(arena, &panel);
    check_int(&r->row, (intmax_t)timetable->why_count, (intmax_t)r->count);
    check_int(&r->row, timetable->why[0].kind, REASON_STEP);
    check_int(&r->row, timetable->why[1].kind, r->second);
    check_int(&r->row, timetable->why[r->count - 1].kind, REASON_READY);
    if (r->second == REASON_ROW) {
        check_int(&r->row, (intmax_t)timetable->why[1].count, 9);
        check_int(&r->row, timetable->why[1].from_min, march(1, 9, 30));
        check_int(&r->row, timetable->why[1].until_min, march(1, 14, 0));
        check_int(&r->row, timetable->why[1].first->grit, 120);
        check_int(&r->row, timetable->why[1].last->grit, 200);
    }
    arena_free(arena);
}

/* Closed on Monday and Tuesday; a piece that comes on Wednesday at noon, for 6 h of work. */
static void the_shop_opens_later(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    struct day_range closed = {march(1, 0, 0) / DAY_MINUTES, march(2, 0, 0) / DAY_MINUTES};
    panel.job.shop.closed = &closed;
    panel.job.shop.closed_count = 1;
    check_why(HERE, &panel,
              "coat 1 of Oil on A (Wed 3 Mar 08:00) waits for the start of the job, Mon 1 Mar 08:00, then "
              "for the shop to open\n"
              "coat 1 of Oil on A is not dry to handle until Wed 3 Mar 09:00\n");
    panel.pieces[0].ready_min = march(3, 12, 0);
    panel_set_hours(&panel, 0, 6);
    check_why(HERE, &panel,
              "coat 1 of Oil on A (Thu 4 Mar 08:00) waits for A to arrive, Wed 3 Mar 12:00, then for the "
              "shop to open again: it closes at 17:00, too early for the 6 h of this step\n"
              "coat 1 of Oil on A is not dry to handle until Thu 4 Mar 14:00\n");
}

/* As late as the delivery allows, a plan that misses it is late for what its earliest steps wait for, wherever they stand
 * now; one in time depends on the delivery alone. dry to recoat by Tue 08:00 after an end at 17:00, too. */
static void late_plans_are_late_for_the_same(void **state)
{
    (void)state;
    for (int in_time = 0; in_time < 2; in_time++) {
        struct panel panel;
        late_panel(&panel);
        panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
        panel_set_window(&panel, 600, SPAN_NEVER);
        if (in_time)
            panel.job.deliver_min = march(3, 17, 0);
        struct arena *arena = arena_make(0);
        struct err_list errors = {0};
        const struct timetable *timetable =
            timetable_make(arena, timetable_operations(arena, &panel.job, &panel.surfaces, &errors),
                           (struct timetable_options){.aim = AIM_LATEST});
        check_int(HERE, (intmax_t)timetable->chain_count, in_time ? 0 : 2);
        check_int(HERE, (intmax_t)timetable->why_count, in_time ? 0 : 3);
        if (!in_time) {
            check_starts(HERE, timetable, "a/oil/1/apply", march(1, 16, 0));
            check_text(HERE, reason_words(arena, timetable, &timetable->why[0], UNITS_METRIC),

                       "coat 1 of Oil on A (Mon 1 Mar 08:00) waits for the start of the job");
        }
        arena_free(arena);
    }
}

/* Two jobs of one person, a coat of 4 h each; the one is due at 12:00 and goes first, the other waits for
 * it and is late for that, whichever is named first: its chain is its own step, its reasons name both. */
static void another_job_goes_first(void **state)
{
    (void)state;
    for (int late = 0; late < 2; late++) {
        struct arena *arena = arena_make(0);
        struct panel panels[2];
        const struct operations *jobs[2];
        struct err_list errors = {0};
        for (int i = 0; i < 2; i++) {
            panel_init(&panels[i]);
            panel_add_step(&panels[i], 0, STEP_COAT);
            panel_set_hours(&panels[i], 0, 4);
            panels[i].job.deliver_min = march(1, i == late ? 13 : 12, 0);
            jobs[i] = timetable_operations(arena, &panels[i].job, &panels[i].surfaces, &errors);
        }
        struct timetable **each = timetable_several(arena, jobs, 2, (struct timetable_options){0});
        const struct timetable *timetable = each[late];
        check_starts(HERE, timetable, "a/oil/1/apply", march(1, 12, 0));
        check_int(HERE, (intmax_t)timetable->chain_count, 1);
        check_int(HERE, (intmax_t)timetable->chain[0], 0);
        check_int(HERE, (intmax_t)timetable->why_count, 3);
        check_true(HERE, timetable->why[0].first->job == &panels[1 - late].job,
                   "the other's coat is told first");
        check_true(HERE, timetable->why[1].first->job == &panels[late].job, "then its own");
        check_int(HERE, timetable->why[1].cause.wait, WAIT_PERSON);
        check_true(HERE, timetable->why[1].cause.earlier == timetable->why[0].first, "waits for the other's");
        check_int(HERE, timetable->why[2].kind, REASON_READY);
        arena_free(arena);
    }
}

/* A piece with two schedules has two first coats, here in one batch. */
static void schedules_are_told_apart(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT);
    panel.parts[1].piece = 0;
    panel.job.piece_count = 1;
    check_why(HERE, &panel,
              "coat 1 of Oil on A (oil) (Mon 1 Mar 08:00) waits for the start of the job\n"
              "coat 1 of Oil on A (oil-b) is not dry to handle until Mon 1 Mar 10:00\n");
}

static void nowhere_to_spray(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->by = TOOL_HVLP;
    panel.finish.by[TOOL_HVLP] = true;
    panel.job.shop.spray_places = 0;
    check_why(HERE, &panel, "the shop has no place to spray\n");
}

static void what_can_never_be(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel.finish.air.lowest_c = 25;
    check_why(HERE, &panel,
              "coat 1 of Oil on A can never start: within working hours the air is never right for it (25 °C "
              "to 35 °C and 0 % to 90 % humidity, 3 °C above the dew point)\n");
}

/* Each piece takes 0.6 m2 of a rack of 1 until it is dry to handle, 3 h behind its coat. */
static void the_rack_is_taken(void **state)
{
    (void)state;
    struct panel panel;
    late_panel(&panel);
    panel_add_piece(&panel);
    for (size_t i = 0; i < 2; i++) {
        panel_add_step(&panel, i, STEP_COAT);
        panel.pieces[i].rack_m2 = 0.6;
    }
    panel.job.shop.rack_m2 = 1;
    panel_set_state(&panel, STATE_HANDLE, 180);
    check_why(HERE, &panel,
              "coat 1 of Oil on A (Mon 1 Mar 08:00) waits for the start of the job\n"
              "coat 1 of Oil on B (Mon 1 Mar 12:00) waits for the rack, taken by coat 1 of Oil on A\n"
              "coat 1 of Oil on B is not dry to handle until Mon 1 Mar 16:00\n");
}

/* B and C are sanded with one set-up from 08:10 to 10:10, A and C coated with one from 10:20 to 12:20: A's coat waits until the person is
 * through with C, who began with B. */
static void a_chain_names_who_waited(void **state)
{
    (void)state;
    static const char *const want[] = {"b/oil-b/0/sand-180", "c/oil-c/0/sand-180", "a/oil/1/apply",
                                       "c/oil-c/1/apply"};
    struct arena *arena = arena_make(0);
    struct panel panel;
    late_panel(&panel);
    panel_add_piece(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_SAND);
    panel_add_step(&panel, 2, STEP_SAND);
    panel_add_step(&panel, 2, STEP_COAT);
    panel.job.shop.set_up_min[WORK_SAND] = panel.job.shop.set_up_min[TOOL_CLOTH] = 10;
    const struct timetable *timetable = panel_dated(arena, &panel);
    check_int(HERE, (intmax_t)timetable->chain_count, 4);
    for (int i = 0; i < 4; i++)
        check_text(HERE, timetable->steps[timetable->chain[i]].operation->id, want[i]);
    check_ready(HERE, timetable, march(1, 12, 20));
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(
        CHECK_TEST(the_delivery_looks_back), CHECK_TEST(the_shop_is_closed), CHECK_TEST(the_day_is_too_short),
        CHECK_TEST(the_air_is_too_cold), CHECK_TEST(a_set_up_begins_before_the_wait_does),
        CHECK_TEST(a_coat_is_held_back_for_its_window), CHECK_TEST(a_coat_is_held_back_for_its_polish),
        CHECK_TEST(a_row_is_told_at_once), CHECK_ROWS(in_a_row, three_are_a_row),
        CHECK_TEST(what_can_never_be), CHECK_TEST(the_shop_opens_later),
        CHECK_TEST(late_plans_are_late_for_the_same), CHECK_TEST(another_job_goes_first),
        CHECK_TEST(schedules_are_told_apart), CHECK_TEST(nowhere_to_spray), CHECK_TEST(the_rack_is_taken),
        CHECK_TEST(a_chain_names_who_waited));
}
