/* Links, lines and ways of the work of a planner of batches, whose flip is for which coat, and who may work
 * at once; in minutes, added up by hand. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"
#include "timetable/site.h"

enum { D = 24 * 60 };

static struct site *site_of(struct arena *arena, struct hand_work *work)
{
    return site_make(arena, &work->operations, march(1, 0, 0), 14 * D);
}

/* 0 -> 2, 0 -> 1, 1 -> 2, 3 alone: by number of the link, in their order. */
static void links_by_operation(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    for (int i = 0; i < 4; i++)
        hand_add(&work, 0, DO_SAND, 30);
    hand_link(&work, 0, 2, LINK_END, 0);
    hand_link(&work, 0, 1, LINK_END, 0);
    hand_link(&work, 1, 2, LINK_END, 0);
    const struct site *site = site_of(arena, &work);
    static const size_t in[] = {0, 1, 2, 0}, out[] = {2, 1, 0, 0};
    for (int i = 0; i < 4; i++) {
        check_int(HERE, (intmax_t)site->rows[i].in_count, (intmax_t)in[i]);
        check_int(HERE, (intmax_t)site->rows[i].out_count, (intmax_t)out[i]);
    }
    check_int(HERE, site->rows[0].out[0], 0);
    check_int(HERE, site->rows[0].out[1], 1);
    check_int(HERE, site->rows[1].in[0], 1);
    check_int(HERE, site->rows[1].out[0], 2);
    check_int(HERE, site->rows[2].in[0], 0);
    check_int(HERE, site->rows[2].in[1], 2);
    arena_free(arena);
}

/* Lines 0 and 2 are of operation 1, line 1 of operation 0. */
static void lines_by_operation(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    for (int i = 0; i < 3; i++)
        hand_add(&work, 0, DO_SAND, 30);
    work.lines[0].operation = work.lines[2].operation = 1;
    work.operations.line_count = 3;
    const struct site *site = site_of(arena, &work);
    check_int(HERE, site->rows[0].line, 1);
    check_int(HERE, site->next_line[1], SITE_NONE);
    check_int(HERE, site->rows[1].line, 0);
    check_int(HERE, site->next_line[0], 2);
    check_int(HERE, site->next_line[2], SITE_NONE);
    check_int(HERE, site->rows[2].line, SITE_NONE);
    arena_free(arena);
}

/* Sand 30 min, 20 min of settling, coat 60, recoat after 600, coat 50, dry to handle after 120, polish after
 * 15 for 10 and a rest of 30: from the end backwards 10 + 30 = 40; the larger of 50 + 120 and 50 + 15 + 40;
 * 60 + 600 + 170; 30 + 20 + 830. Another piece is coated (60) on the day before that coat: a day to its
 * start. */
static void the_way_to_the_end(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_add_piece(&work.panel);
    panel_set_state(&work.panel, STATE_RECOAT, 600);
    panel_set_state(&work.panel, STATE_HANDLE, 120);
    hand_add(&work, 0, DO_SAND, 30);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_APPLY, 50);
    hand_add(&work, 0, DO_POLISH, 10);
    hand_add(&work, 1, DO_APPLY, 60);
    hand_link(&work, 0, 1, LINK_END, 20);
    hand_link(&work, 1, 2, LINK_STATE, 0)->state = STATE_RECOAT;
    hand_link(&work, 2, 3, LINK_END, 15);
    hand_link(&work, 2, 3, LINK_POLISH, 5000); /* a limit: nobody waits for it */
    hand_link(&work, 4, 2, LINK_DAY, 0);
    work.lines[0] = (struct finish_line){.operation = 2, .is_state = true, .state = STATE_HANDLE};
    work.lines[1] = (struct finish_line){.operation = 3, .span_min = 30};
    work.lines[2] = (struct finish_line){.operation = 3, .span_min = 7};
    work.operations.line_count = 3;
    const struct site *site = site_of(arena, &work);
    check_int(HERE, site->tail[3], 40);
    check_int(HERE, site->tail[2], 170);
    check_int(HERE, site->tail[1], 830);
    check_int(HERE, site->tail[0], 880);
    check_int(HERE, site->tail[4], D + 170);
    arena_free(arena);
}

/* A film that is never cured is a wait of many years, and not one that overflows. */
static void a_wait_that_never_ends(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_set_state(&work.panel, STATE_CURED, SPAN_NEVER);
    for (int i = 0; i < 4; i++)
        hand_add(&work, 0, DO_APPLY, 60);
    for (int i = 0; i < 3; i++)
        hand_link(&work, i, i + 1, LINK_STATE, 0)->state = STATE_CURED;
    work.lines[0] = (struct finish_line){.operation = 3, .is_state = true, .state = STATE_CURED};
    work.operations.line_count = 1;
    const struct site *site = site_of(arena, &work);
    for (int i = 0; i < 4; i++)
        check_true(HERE, site->tail[i] > 50 * 365 * D && site->tail[i] < SITE_NEVER, "years");
    for (int i = 0; i < 3; i++)
        check_true(HERE, site->tail[i] > site->tail[i + 1], "longer by each coat");
    arena_free(arena);
}

/* What follows is named before what it waits for: the way is as long all the same. */
static void links_that_point_back(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    for (int i = 0; i < 4; i++)
        hand_add(&work, 0, DO_SAND, 10);
    for (int i = 3; i > 0; i--)
        hand_link(&work, i, i - 1, LINK_END, 5);
    const struct site *site = site_of(arena, &work);
    for (int i = 0; i < 4; i++)
        check_int(HERE, site->tail[i], 10 + 15 * i);
    arena_free(arena);
}

/* Whose flip is for which coat: rows are built by hand, one job unless a row says otherwise. */
struct turn_row {
    struct row row;
    enum doing doing[4];
    int count, people, other_chain, other_job, optional; /* numbers of rows; 0: none */
    int want;
};

static const struct turn_row turns[] = {
    {ROW("flip, coat"), {DO_APPLY, DO_FLIP, DO_APPLY}, 3, 1, 0, 0, 0, 2},
    {ROW("two must turn it"), {DO_APPLY, DO_FLIP, DO_APPLY}, 3, 2, 0, 0, 0, SITE_NONE},
    {ROW("no flip"), {DO_APPLY, DO_POLISH, DO_APPLY}, 3, 1, 0, 0, 0, SITE_NONE},
    {ROW("nothing follows"), {DO_APPLY, DO_FLIP}, 2, 1, 0, 0, 0, SITE_NONE},
    {ROW("sanding follows"), {DO_APPLY, DO_FLIP, DO_SAND}, 3, 1, 0, 0, 0, SITE_NONE},
    {ROW("another row follows"), {DO_APPLY, DO_FLIP, DO_APPLY}, 3, 1, 2, 0, 0, SITE_NONE},
    {ROW("another job follows"), {DO_APPLY, DO_FLIP, DO_APPLY}, 3, 1, 0, 2, 0, SITE_NONE},
    {ROW("a scuff that may be left out"), {DO_APPLY, DO_FLIP, DO_SCUFF, DO_APPLY}, 4, 1, 0, 0, 2, 3},
    {ROW("only such a scuff follows"), {DO_APPLY, DO_FLIP, DO_SCUFF}, 3, 1, 0, 0, 2, SITE_NONE},
    {ROW("what lies behind all rows is none"),
     {DO_APPLY, DO_FLIP, DO_SCUFF, DO_APPLY},
     2,
     1,
     0,
     0,
     2,
     SITE_NONE},
};

static void turned_for(void **state)
{
    const struct turn_row *r = *state;
    struct operation operations[4] = {0};
    struct task_row rows[4] = {0};
    for (int i = 0; i < 4; i++) {
        operations[i].doing = r->doing[i];
        operations[i].people = r->people;
        operations[i].chain = r->other_chain > 0 && i == r->other_chain;
        rows[i].operation = &operations[i];
        rows[i].job = r->other_job > 0 && i == r->other_job;
        rows[i].optional = r->optional > 0 && i == r->optional;
    }
    struct site site = {.rows = rows, .count = (size_t)r->count};
    check_int(&r->row, site_turned_for(&site, 1), r->want);
}

/* Two people: one sands only, the other sands and sprays. */
static void at_once(void **state)
{
    (void)state;
    struct worker workers[] = {{.does = 1u << WORK_SAND}, {.does = 1u << WORK_SAND | 1u << TOOL_HVLP}};
    struct crew crew = {.workers = workers, .count = 2};
    struct kind kinds[] = {{.needs = 1u << WORK_SAND}, {.needs = 1u << TOOL_HVLP}, {.needs = 0}};
    struct site site = {.crew = &crew, .kinds = kinds};
    check_true(HERE, site_may_be_at_once(&site, 0, 0), "both sand");
    check_true(HERE, site_may_be_at_once(&site, 0, 1), "one sands, the other sprays");
    check_true(HERE, site_may_be_at_once(&site, 1, 0), "the other way round");
    check_true(HERE, !site_may_be_at_once(&site, 1, 1), "one alone sprays");
    check_true(HERE, site_may_be_at_once(&site, 1, 2), "a task is anybody's");
    crew.count = 1;
    check_true(HERE, !site_may_be_at_once(&site, 0, 0), "one person is at one batch");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(links_by_operation), CHECK_TEST(lines_by_operation),
                     CHECK_TEST(the_way_to_the_end), CHECK_TEST(a_wait_that_never_ends),
                     CHECK_TEST(links_that_point_back), CHECK_ROWS(turns, turned_for), CHECK_TEST(at_once));
}
