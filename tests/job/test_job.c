/* What job_check finds: circles, moments, tools, thinning; and what it warns of. */
#include "check.h"
#include "sample.h"
#include "sample_job.h"

#include "base/arena.h"
#include "base/err.h"

#include <math.h>
#include <string.h>

/* piece i waits for piece k */
static void wait_for(struct sample_job *b, size_t i, size_t slot, size_t k)
{
    b->after[slot] = (struct after){false, k, STATE_HANDLE};
    b->pieces[i].after = &b->after[slot];
    b->pieces[i].after_count = 1;
}

static void circle_of_two(struct sample_job *b)
{
    wait_for(b, 0, 0, 1);
    wait_for(b, 1, 1, 0);
}
static void circle_of_one(struct sample_job *b)
{
    wait_for(b, 0, 0, 0);
}
static void circle_through_a_task(struct sample_job *b)
{
    b->after[0] = (struct after){false, 2, STATE_HANDLE};
    b->tasks[0].after = &b->after[0];
    b->tasks[0].after_count = 1;
    b->before[0] = 1;
    b->before[1] = 2;
    b->tasks[0].before = b->before;
    b->tasks[0].before_count = 2;
}
static void circle_beside_a_tail(struct sample_job *b)
{
    circle_of_two(b);
    wait_for(b, 2, 2, 0);
}
static void early_delivery(struct sample_job *b)
{
    b->job.start_min = 20 * 1440 + 480;
}
/* For Thursday 22 January 1970, a closed day, and from Friday on. */
static void early_closed_delivery(struct sample_job *b)
{
    b->job.start_min = 22 * 1440 + 480;
    b->job.deliver_min = 20 * 1440 + 1020;
    b->job.deliver_is_day = true;
    b->job.deliver_day = 21;
}
static void wrong_tool(struct sample_job *b)
{
    b->case_steps[0].by = TOOL_ROLLER;
}
static void much_thinner(struct sample_job *b)
{
    b->top_steps[1].thin = 12.5;
}
static void endless_thinner(struct sample_job *b)
{
    b->top_steps[1].thin = INFINITY;
}
static void wait_before_coat(struct sample_job *b)
{
    b->top_steps[0] = b->top_steps[2];
}

struct wrong_row {
    struct row row;
    void (*spoil)(struct sample_job *b);
    const char *pointer, *expected, *found;
};

static const struct wrong_row wrong[] = {
    {ROW("a circle of two, from the first in the file"), circle_of_two, "/pieces/0/after/0",
     "no circle in `after`", "case -> top -> case"},
    {ROW("a piece after itself"), circle_of_one, "/pieces/1/after/0", "no circle in `after`", "top -> top"},
    {ROW("through a task's `before`"), circle_through_a_task, "/tasks/0/after/0", "no circle in `after`",
     "fit hinges -> leg -> fit hinges"},
    {ROW("a tail is no part of the circle"), circle_beside_a_tail, "/pieces/0/after/0",
     "no circle in `after`", "case -> top -> case"},
    {ROW("delivery before start"), early_delivery, "/deliver",
     "a moment not before the start, 1970-01-21 08:00", "1970-01-15 00:00"},
    {ROW("the last closing before start"), early_closed_delivery, "/deliver",
     "a moment not before the start, 1970-01-23 08:00",
     "1970-01-22 (closed; last open moment 1970-01-21 17:00)"},
    {ROW("a tool that the finish does not take"), wrong_tool, "/schedules/case~1inside/0/by",
     "one of cloth, brush", "roller"},
    {ROW("impossible thinning"), much_thinner, "/schedules/top/1/thin",
     "at most 10 parts of thinner to 1 of finish", "12.5 to 1"},
    {ROW("all thinner"), endless_thinner, "/schedules/top/1/thin",
     "at most 10 parts of thinner to 1 of finish", "too many to 1"},
    {ROW("a state to wait for without a coat"), wait_before_coat, "/schedules/top/0/wait",
     "a coat before it, or a time span", "cured"},
};

static void mistake_is(void **state)
{
    const struct wrong_row *r = *state;
    struct sample_job b;
    struct err_list errors = {0}, warnings = {0};
    struct arena *arena = arena_make(0);
    sample_job(&b);
    r->spoil(&b);
    job_check(arena, &b.job, &errors, &warnings);
    arena_free(arena);
    check_int(&r->row, (intmax_t)errors.count, 1);
    check_text(&r->row, errors.items[0].file, "desk.json");
    check_text(&r->row, errors.items[0].pointer, r->pointer);
    check_text(&r->row, errors.items[0].expected, r->expected);
    check_text(&r->row, errors.items[0].found, r->found);
}

static void own_part_list(struct sample_job *b)
{
    b->job.parts_file = "parts.csv";
}
static void wide_one_face(struct sample_job *b)
{
    b->parts[1].size_m[DIM_WIDTH] = 0.201;
}
static void wide_one_back(struct sample_job *b)
{
    own_part_list(b);
    wide_one_face(b);
    b->parts[1].schedule[REGION_BACK] = 1;
    b->parts[1].schedule[REGION_FACE] = SCHEDULE_NONE;
}
static void two_faces(struct sample_job *b)
{
    b->parts[0].schedule[REGION_BACK] = 0;
}
static void two_faces_by_parts_only(struct sample_job *b)
{
    own_part_list(b);
    b->parts[2].schedule[REGION_BACK] = 1;
}
static void no_wood(struct sample_job *b)
{
    b->parts[1].wood = NULL;
}
static void no_wood_at_all(struct sample_job *b)
{
    b->parts[0].wood = b->parts[1].wood = b->parts[2].wood = NULL;
}
static void many_coats(struct sample_job *b)
{
    b->top_steps[1].coats = 7;
}
static void idle_schedule(struct sample_job *b)
{
    b->parts[0].schedule[REGION_FACE] = 1;
}
static void no_solvent(struct sample_job *b)
{
    b->finish.solvent = NULL;
    b->top_steps[1].thin = 0.1;
}
static void late_piece(struct sample_job *b)
{
    b->pieces[1].ready_min = 15 * 1440;
}

struct warning_row {
    struct row row;
    void (*spoil)(struct sample_job *b);
    const char *file, *pointer, *words;
};

static const struct warning_row doubtful[] = {
    {ROW("a wide board finished on its face only"), wide_one_face, "desk.json", "/parts/1/back",
     "\"board\" is wider than 200 mm and finished on its face only: it will cup; finish both, or write - for "
     "the "
     "back"},
    {ROW("a wide board finished on its back only"), wide_one_back, "parts.csv", "/1/face",
     "\"board\" is wider than 200 mm and finished on its back only: it will cup; finish both, or write - for "
     "the "
     "face"},
    {ROW("standing by default"), two_faces, "desk.json", "/pieces/1",
     "\"top\" has two large faces and is taken as standing, coated all round in one go; write \"laid\": "
     "\"flat\" "
     "if it lies"},
    {ROW("standing, without an entry of its own"), two_faces_by_parts_only, "parts.csv", "/2/piece",
     "\"leg\" has two large faces and is taken as standing, coated all round in one go; write \"laid\": "
     "\"flat\" "
     "if it lies"},
    {ROW("no wood"), no_wood, "desk.json", "/parts/1/wood",
     "no wood is given for \"board\": a closed grain is assumed"},
    {ROW("no wood anywhere: reported once"), no_wood_at_all, "desk.json", "/parts/0/wood",
     "no wood is given for \"board\" and 2 more: a closed grain is assumed"},
    {ROW("more coats than the finish bears"), many_coats, "desk.json", "/schedules/top/1/coats",
     "7 coats of Sample varnish, which bears 6 at most"},
    {ROW("a schedule that nothing uses"), idle_schedule, "desk.json", "/schedules/top",
     "no part uses the schedule \"top\""},
    {ROW("thinned, no solvent known"), no_solvent, "desk.json", "/schedules/top/1/thin",
     "Sample varnish names no solvent to thin it with: ask its data sheet"},
    {ROW("ready after the delivery"), late_piece, "desk.json", "/pieces/0/ready",
     "\"case\" is not there to be finished before the delivery"},
};

static void warning_is(void **state)
{
    const struct warning_row *r = *state;
    struct sample_job b;
    struct err_list errors = {0}, warnings = {0};
    struct arena *arena = arena_make(0);
    sample_job(&b);
    r->spoil(&b);
    job_check(arena, &b.job, &errors, &warnings);
    arena_free(arena);
    check_int(&r->row, (intmax_t)errors.count, 0);
    check_int(&r->row, (intmax_t)warnings.count, 1);
    check_int(&r->row, warnings.items[0].code, ERR_WARNING);
    check_text(&r->row, warnings.items[0].file, r->file);
    check_text(&r->row, warnings.items[0].pointer, r->pointer);
    check_text(&r->row, warnings.items[0].found, r->words);
}

static void nothing_wrong(void **state)
{
    (void)state;
    struct sample_job b;
    struct err_list errors = {0}, warnings = {0};
    struct arena *arena = arena_make(0);
    sample_job(&b);
    wait_for(&b, 0, 0, 1); /* top after case: no circle */
    wide_one_face(&b);
    b.parts[1].schedule[REGION_BACK] = SCHEDULE_BARE; /* bare on purpose */
    two_faces(&b);
    b.pieces[0].laid_given = true; /* standing on purpose */
    job_check(arena, &b.job, &errors, &warnings);
    arena_free(arena);
    check_int(HERE, (intmax_t)errors.count, 0);
    check_int(HERE, (intmax_t)warnings.count, 0);
}

/* Each finish bears its own coats: six of one over six of another are none too many. */
static void coats_of_two_finishes(void **state)
{
    (void)state;
    struct sample_job b;
    struct err_list errors = {0}, warnings = {0};
    struct arena *arena = arena_make(0);
    struct finish other = sample_varnish();
    sample_job(&b);
    b.top_steps[0] = (struct step){.kind = STEP_COAT, .finish = &other, .coats = 6, .by = TOOL_CLOTH};
    b.top_steps[1].coats = 6;
    job_check(arena, &b.job, &errors, &warnings);
    check_int(HERE, (intmax_t)(errors.count + warnings.count), 0);
    b.top_steps[0].finish = &b.finish; /* of one finish they are twelve */
    job_check(arena, &b.job, &errors, &warnings);
    arena_free(arena);
    check_int(HERE, (intmax_t)warnings.count, 1);
    check_text(HERE, warnings.items[0].found, "12 coats of Sample varnish, which bears 6 at most");
}

/* "Wider than 200 mm" does not hold of a board of 200 mm. */
static void a_board_of_200_mm(void **state)
{
    (void)state;
    struct sample_job b;
    struct err_list errors = {0}, warnings = {0};
    struct arena *arena = arena_make(0);
    sample_job(&b);
    wide_one_face(&b);
    b.parts[1].size_m[DIM_WIDTH] = 0.2;
    job_check(arena, &b.job, &errors, &warnings);
    arena_free(arena);
    check_int(HERE, (intmax_t)errors.count, 0);
    check_int(HERE, (intmax_t)warnings.count, 0);
}

static void found_by_name(void **state)
{
    (void)state;
    struct sample_job b;
    sample_job(&b);
    check_int(HERE, job_schedule_find(&b.job, "case/inside"), 1);
    check_int(HERE, job_schedule_find(&b.job, "lid"), -1);
    check_text(HERE, step_kind_name(STEP_RAISE), "raise");
}

/* The place of a schedule with a long name is cut so that a last "/" of it has room for both of its characters. */
static void places_of_long_names(void **state)
{
    (void)state;
    enum { BEFORE = sizeof "/schedules/" - 1, ROOM = sizeof((struct job_pointer *)0)->text };
    char name[ROOM + 1];
    memset(name, 'x', ROOM);
    name[ROOM] = '\0';
    struct schedule schedule = {.name = name};
    check_int(HERE, (intmax_t)strlen(job_schedule_place(&schedule).text), ROOM - 3);
    name[ROOM - 4 - BEFORE] = '/';
    struct job_pointer pointer = job_schedule_place(&schedule);
    check_int(HERE, (intmax_t)strlen(pointer.text), ROOM - 2);
    check_text(HERE, pointer.text + ROOM - 4, "~1");
}

struct spare_row {
    struct row row;
    struct stretch open; /* Monday to Friday */
    int32_t days;
    int day; /* of January 1970 */
};

/* Due on Tuesday 6 January 1970 at 12:00. Days on which the shop is closed are none to spare. */
static const struct spare_row spares[] = {
    {ROW("none"), {8 * 60, 17 * 60}, 0, 6},
    {ROW("a day"), {8 * 60, 17 * 60}, 1, 5},
    {ROW("over the weekend"), {8 * 60, 17 * 60}, 2, 2},
    {ROW("open until midnight"), {8 * 60, DAY_MINUTES}, 2, 2},
    {ROW("open for the first minute of a day"), {0, 1}, 1, 5},
};

static void days_to_spare(void **state)
{
    const struct spare_row *r = *state;
    struct sample_job b;
    sample_job(&b);
    for (int day = 0; day < 7; day++)
        b.job.shop.hours[day] = (struct shop_day){&r->open, day < SATURDAY ? 1 : 0};
    b.job.deliver_min = 5 * DAY_MINUTES + 12 * 60;
    b.job.to_spare_days = r->days;
    check_int(&r->row, job_aims_at_min(&b.job), (r->day - 1) * DAY_MINUTES + 12 * 60);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(places_of_long_names), CHECK_ROWS(wrong, mistake_is),
                     CHECK_ROWS(doubtful, warning_is), CHECK_TEST(nothing_wrong),
                     CHECK_TEST(coats_of_two_finishes), CHECK_TEST(a_board_of_200_mm),
                     CHECK_TEST(found_by_name), CHECK_ROWS(spares, days_to_spare));
}
