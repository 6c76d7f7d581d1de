/* A plan while it is made: batches placed as soon as they may, taken out again, and moved as late as they
 * may. One person, open 08:00 to 17:00 daily, an hour for each step of a piece; in minutes since Monday's
 * midnight. */
#include "drafts.h"
#include "panel_site.h"
#include "work_list.h"

#include "base/arena.h"

/* A, sanded and coated: its items 0 and 1. */
static void sanded_and_coated(struct panel *panel)
{
    panel_init(panel);
    panel_add_step(panel, 0, STEP_SAND);
    panel_add_step(panel, 0, STEP_COAT);
}

/* A, coated twice with a window: items 0 and 2, 1 is the late scuff. Dry to recoat after an hour; the
 * window ends after five. */
static struct draft *windowed(struct arena *arena, struct panel *panel)
{
    panel_init(panel);
    panel_add_step(panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(panel, 60, 300);
    return draft_make(arena, panel_site(arena, panel));
}

static const int FIRST[] = {0}, SECOND[] = {1}, THIRD[] = {2};

/* Nobody sets up before the job begins; a piece that comes at 10:00 is set up for before it. */
static void set_up_before_the_work(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    sanded_and_coated(&panel);
    panel.job.shop.set_up_min[WORK_SAND] = 20;
    struct draft *draft = draft_make(arena, panel_site(arena, &panel));
    check_true(HERE, draft_try(draft, FIRST, 1, 0, &placed), "at the start of the job");
    check_int(HERE, placed.laid.start, 480);
    check_int(HERE, placed.laid.work_from, 500);
    panel.pieces[0].ready_min = march(1, 10, 0);
    draft = draft_make(arena, panel_site(arena, &panel));
    check_true(HERE, draft_try(draft, FIRST, 1, 0, &placed), "when the piece is there");
    check_int(HERE, placed.laid.start, 580);
    check_cause(HERE, &placed, (struct cause_of_start){HINDERED_BY_RELEASE, 0, SITE_NONE, SITE_NONE, 600});
    check_int(HERE, draft->start[0], SITE_NONE);
    check_true(HERE, draft_try(draft, FIRST, 1, 585, &placed), "not before a minute");
    check_int(HERE, placed.laid.start, 585);
    check_true(HERE, draft_fits(draft, batch_of(draft, FIRST, 1), 580, &placed), "it fits then");
    check_true(HERE, !draft_fits(draft, batch_of(draft, FIRST, 1), 575, &placed), "the piece is not there");
    arena_free(arena);
}

static void not_before_the_job_begins(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    sanded_and_coated(&panel);
    panel.job.shop.set_up_min[WORK_SAND] = 20;
    panel.job.start_min = march(1, 9, 0);
    struct draft *draft = draft_make(arena, panel_site(arena, &panel));
    check_true(HERE, !draft_fits(draft, batch_of(draft, FIRST, 1), 535, &placed), "before it begins");
    check_true(HERE, draft_fits(draft, batch_of(draft, FIRST, 1), 540, &placed), "as it begins");
    arena_free(arena);
}

static void behind_what_it_waits_for(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    sanded_and_coated(&panel);
    struct draft *draft = draft_make(arena, panel_site(arena, &panel));
    check_true(HERE, draft_is_open(draft, 0) && !draft_is_open(draft, 1), "the coat waits for the sanding");
    draft_put(HERE, draft, FIRST, 1, 480);
    check_true(HERE, draft_is_open(draft, 1), "it is placed");
    check_true(HERE, draft_try(draft, SECOND, 1, 0, &placed), "behind it");
    check_int(HERE, placed.laid.start, 540);
    check_cause(HERE, &placed, (struct cause_of_start){HINDERED_BY_LINK, 1, 0, 0, 540});
    draft->hold[1] = 700;
    check_true(HERE, draft_try(draft, SECOND, 1, 0, &placed), "as long as it is held back");
    check_int(HERE, placed.laid.start, 700);
    check_cause(HERE, &placed, (struct cause_of_start){HINDERED_BY_FLOOR, 1, SITE_NONE, SITE_NONE, 700});
    draft->hold[1] = 0;
    draft_add(draft, &placed);
    draft_take_out(draft, 0);
    check_true(HERE, !draft_is_open(draft, 1) && draft->start[0] == SITE_NONE, "it is taken out");
    check_true(HERE, draft->batch_of[0] == SITE_NONE && draft->batch_of[1] == 0 && draft->count == 1,
               "one is left");
    check_true(HERE, draft_try(draft, FIRST, 1, 640, &placed), "up to the coat");
    check_int(HERE, placed.laid.start, 640);
    check_true(HERE, !draft_try(draft, FIRST, 1, 645, &placed), "never behind it, 12:40 to 13:40");
    check_cause(HERE, &placed, (struct cause_of_start){HINDERED_BY_LINK, 1, 0, 0, 820});
    draft->left_out[0] = true;
    check_true(HERE, draft_is_open(draft, 1), "what is left out is not waited for");
    arena_free(arena);
}

/* A and B are sanded one after the other: B's is the second batch, which waits for the person, and not for
 * an hour of the day; its coat waits for that batch. */
static void which_batch_is_waited_for(void **state)
{
    (void)state;
    static const int a_sand[] = {0}, b_sand[] = {2}, b_coat[] = {3};
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    sanded_and_coated(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_SAND);
    panel_add_step(&panel, 1, STEP_COAT);
    struct draft *draft = draft_make(arena, panel_site(arena, &panel));
    draft_put(HERE, draft, a_sand, 1, 480);
    check_true(HERE, draft_try(draft, b_sand, 1, 0, &placed), "behind the first");
    check_cause(HERE, &placed, (struct cause_of_start){HINDERED_BY_PERSON, 2, 0, SITE_NONE, 540});
    check_int(HERE, placed.hours.kind, HINDERED_BY_NOTHING);
    draft_add(draft, &placed);
    check_true(HERE, draft_try(draft, b_coat, 1, 0, &placed), "behind the second");
    check_int(HERE, placed.laid.start, 600);
    check_int(HERE, placed.cause.kind, HINDERED_BY_LINK);
    check_int(HERE, placed.cause.other, 1);
    arena_free(arena);
}

/* Laid until 09:00: the next coat is begun from 10:00 to 14:00. */
static void within_its_window(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    struct draft *draft = windowed(arena, &panel);
    check_true(HERE, draft->left_out[1] && !draft->left_out[2], "a scuff is not needed");
    draft_put(HERE, draft, FIRST, 1, 480);
    check_true(HERE, draft_try(draft, THIRD, 1, 0, &placed), "as soon as it may");
    check_int(HERE, placed.laid.start, 600);
    check_true(HERE, draft_try(draft, THIRD, 1, 840, &placed), "as late as it may");
    check_int(HERE, placed.laid.start, 840);
    check_true(HERE, !draft_try(draft, THIRD, 1, 845, &placed), "five minutes too late");
    check_int(HERE, placed.cause.kind, HINDERED_BY_LIMIT);
    check_int(HERE, placed.cause.item, 2);
    check_int(HERE, placed.cause.until, 5);
    const struct link *link = &draft->site->operations->links[placed.cause.link];
    check_true(HERE, link->kind == LINK_WINDOW && link->from == 0 && link->to == 2, "its window is missed");
    check_true(HERE, draft_waits(draft, link), "it holds");
    draft->left_out[2] = true;
    check_true(HERE, !draft_waits(draft, link), "nothing waits that is left out");
    draft->left_out[2] = false;
    draft->left_out[1] = false;
    check_true(HERE, !draft_waits(draft, link), "the scuff lifts it");
    check_true(HERE, draft_try(draft, THIRD, 1, 845, &placed), "scuffed for");
    arena_free(arena);
}

/* The second coat is placed, at 15:00: the first ends from 10:00 to 14:00. */
static void opened_in_time(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    struct draft *draft = windowed(arena, &panel);
    draft->hold[2] = 900;
    draft_put(HERE, draft, THIRD, 1, 900);
    check_true(HERE, draft_try(draft, FIRST, 1, 0, &placed), "as soon as it may");
    check_int(HERE, placed.laid.start, 540);
    check_int(HERE, placed.cause.kind, HINDERED_BY_LIMIT);
    check_int(HERE, placed.cause.until, 895);
    check_true(HERE, draft_try(draft, FIRST, 1, 780, &placed), "as late as it may");
    check_int(HERE, placed.laid.start, 780);
    check_true(HERE, !draft_try(draft, FIRST, 1, 785, &placed), "too late to be dry");
    check_int(HERE, placed.cause.kind, HINDERED_BY_LINK);
    arena_free(arena);
}

/* Work done before asks: not after 09:30, unless the late scuff is done. */
static void a_limit_from_before(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    struct draft *draft = windowed(arena, &panel);
    struct task_row *row = &draft->site->rows[0];
    struct operation operation = *row->operation;
    row->operation = &operation;
    row->latest = 570;
    operation.latest_unless = 1;
    check_true(HERE, draft_try(draft, FIRST, 1, 570, &placed), "in time");
    check_true(HERE, !draft_try(draft, FIRST, 1, 575, &placed), "too late");
    check_cause(HERE, &placed, (struct cause_of_start){HINDERED_BY_LIMIT, 0, SITE_NONE, SITE_NONE, 5});
    draft->left_out[1] = false;
    check_true(HERE, draft_try(draft, FIRST, 1, 575, &placed), "scuffed for");
    arena_free(arena);
}

/* Two coats of a piece in one batch would have to dry between; over noon they can: laid 10:05 to 11:05,
 * and from 13:00, for what is left before noon is too short. */
static void drying_within_a_batch(void **state)
{
    (void)state;
    static const int both[] = {0, 1};
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_state(&panel, STATE_RECOAT, 60);
    struct draft *draft = draft_make(arena, panel_site(arena, &panel));
    check_true(HERE, !draft_try(draft, both, 2, 0, &placed), "no break to dry in");
    check_int(HERE, placed.cause.kind, HINDERED_BY_LINK);
    check_int(HERE, placed.cause.item, 1);
    check_int(HERE, (intmax_t)placed.laid.broke_at, 1);
    check_true(HERE, draft->start[0] == SITE_NONE && draft->start[1] == SITE_NONE, "nothing is placed");
    panel_set_noon(&panel, 12 * 60, 13 * 60);
    draft = draft_make(arena, panel_site(arena, &panel));
    draft_put(HERE, draft, both, 2, 605);
    check_int(HERE, draft->start[1], 780);
    arena_free(arena);
}

static void not_within_the_time_given(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    sanded_and_coated(&panel);
    struct draft *draft = draft_make(arena, panel_site(arena, &panel));
    check_true(HERE, !draft_place(draft, batch_of(draft, FIRST, 1), 0, 480, &placed), "not before 480");
    check_true(HERE, draft_place(draft, batch_of(draft, FIRST, 1), 0, 481, &placed), "before 481");
    draft->effort_limit = draft->effort;
    check_true(HERE, !draft_try(draft, FIRST, 1, 0, &placed), "without effort nothing is tried");
    draft->effort_limit = INT64_MAX;
    check_true(HERE, draft_try(draft, FIRST, 1, 0, &placed), "with as much as it takes");
    arena_free(arena);
}

/* A day of 9 h has an hour too little for ten: on none. */
static void no_day_is_long_enough(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    sanded_and_coated(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_SAND);
    panel_set_hours(&panel, 0, 5);
    panel_set_hours(&panel, 1, 5);
    struct draft *draft = draft_make(arena, panel_site(arena, &panel));
    static const int both[] = {0, 2};
    check_true(HERE, !draft_try(draft, both, 2, 0, &placed), "ten hours");
    check_int(HERE, placed.cause.kind, HINDERED_BY_HOURS);
    check_int(HERE, (intmax_t)placed.laid.broke_at, 1);
    /* The first by itself, and then it is too late for the other that day. */
    draft_put(HERE, draft, FIRST, 1, 480);
    check_true(HERE, draft_try(draft, both + 1, 1, 0, &placed), "on Tuesday");
    check_int(HERE, placed.laid.start, site_at(2, 8, 0));
    check_int(HERE, placed.hours.kind, HINDERED_BY_HOURS);
    check_cause(HERE, &placed, (struct cause_of_start){HINDERED_BY_PERSON, 2, 0, SITE_NONE, 780});
    arena_free(arena);
}

/* Sanded until 09:00 and coated until 10:00, dry to handle at 12:00; a job of which nothing is left is
 * ready when its past is. */
static void when_it_is_ready(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    sanded_and_coated(&panel);
    panel_set_state(&panel, STATE_HANDLE, 120);
    struct site *site = panel_site(arena, &panel);
    struct draft *draft = draft_make(arena, site);
    site->jobs[0].floor = 500;
    check_int(HERE, draft_ready(draft, 0), 500);
    draft_put(HERE, draft, FIRST, 1, 480);
    draft_put(HERE, draft, SECOND, 1, 540);
    check_int(HERE, draft_ready(draft, 0), 720);
    check_true(HERE, draft->handle[1] == 720 && draft->clear[1] == 600, "its film");
    site->jobs[0].floor = 721;
    check_int(HERE, draft_ready(draft, 0), 721);
    struct draft *copy = draft_make(arena, site);
    draft_copy(copy, draft);
    check_true(HERE,
               copy->count == 2 && copy->start[1] == 540 && copy->end[1] == 600 && copy->handle[1] == 720,
               "a copy");
    check_true(HERE, copy->batch_of[1] == 1 && copy->placed[1].laid.start == 540, "of its batches");
    draft_clear(draft);
    check_true(HERE, draft->count == 0 && draft->start[1] == SITE_NONE && draft->batch_of[0] == SITE_NONE,
               "cleared");
    check_int(HERE, copy->start[1], 540);
    arena_free(arena);
}

struct late_row {
    struct row row;
    int64_t due_h, aim_h; /* hours of Tuesday */
    int32_t coat_h, want_coat, want_sand;
};

/* The coat takes an hour and is dry to handle 2 h later; sanding takes an hour. Placed on Monday at 08:00
 * and, but where told, at 09:00, so that it is ready at 12:00. */
static const struct late_row lates[] = {
    {ROW("up to the delivery"), 12, 12, 9, 24 + 9, 24 + 8},
    {ROW("dry in the night"), 7, 7, 9, 16, 15},
    {ROW("up to the time to spare"), 16, 12, 9, 24 + 9, 24 + 8},
    {ROW("time to spare is had no more"), 16, -13, 9, 24 + 13, 24 + 12},
    {ROW("late: the sanding alone moves"), -14, -14, 12, 12, 11},
    {ROW("there is no time"), -12, -12, 9, 9, 8},
};

static void as_late_as_may_be(void **state)
{
    const struct late_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    sanded_and_coated(&panel);
    panel_set_state(&panel, STATE_HANDLE, 120);
    struct site *site = panel_site(arena, &panel);
    struct draft *draft = draft_make(arena, site);
    site->jobs[0].due = DAY_MINUTES + (int32_t)r->due_h * 60;
    site->jobs[0].aim = DAY_MINUTES + (int32_t)r->aim_h * 60;
    draft_put(&r->row, draft, FIRST, 1, 480);
    draft->hold[1] = r->coat_h * 60;
    draft_put(&r->row, draft, SECOND, 1, r->coat_h * 60);
    draft->hold[1] = 0;
    draft_shift_late(draft);
    check_int(&r->row, draft->start[1], r->want_coat * 60);
    check_int(&r->row, draft->start[0], r->want_sand * 60);
    check_true(&r->row, draft->effort_limit == INT64_MAX, "effort is not limited any more");
    arena_free(arena);
}

/* A and B are sanded together and coated together, 2 h each, for Tuesday 10:00: coated from 08:00, sanded
 * on Monday from 15:00. Where the coats take a set-up of 30 min they cannot begin before 08:00: from 14:30
 * on Monday, and 12:30 for the sanding. */
static void batches_move_whole(void **state)
{
    (void)state;
    static const int sands[] = {0, 2}, coats[] = {1, 3};
    for (int set_up = 0; set_up <= 30; set_up += 30) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        sanded_and_coated(&panel);
        panel_add_piece(&panel);
        panel_add_step(&panel, 1, STEP_SAND);
        panel_add_step(&panel, 1, STEP_COAT);
        panel.job.shop.set_up_min[TOOL_CLOTH] = set_up;
        panel.job.deliver_min = march(2, 10, 0);
        struct draft *draft = draft_make(arena, panel_site(arena, &panel));
        draft_put(HERE, draft, sands, 2, 480);
        draft_put(HERE, draft, coats, 2, 600);
        draft_shift_late(draft);
        check_int(HERE, draft->start[1], set_up ? site_at(1, 15, 0) : site_at(2, 8, 0));
        check_int(HERE, draft->start[0], set_up ? site_at(1, 12, 30) : site_at(1, 15, 0));
        arena_free(arena);
    }
}

/* A scuff that is left out holds nothing back: for Tuesday 09:00 the coats are at 08:00 and, within its
 * window of 20 h, on Monday at 16:00. */
static void what_is_left_out_moves_nothing(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 60, 20 * 60);
    panel.job.deliver_min = march(2, 9, 0);
    struct draft *draft = draft_make(arena, panel_site(arena, &panel));
    draft_put(HERE, draft, FIRST, 1, 480);
    draft_put(HERE, draft, THIRD, 1, 600);
    draft_shift_late(draft);
    check_int(HERE, draft->start[2], site_at(2, 8, 0));
    check_int(HERE, draft->start[0], site_at(1, 16, 0));
    arena_free(arena);
}

/* A window lasts for as long as the scuff that would open it again is left out, and where no work would; it does not matter which
 * number the scuff has. Other links last in any case, but for work that is left out itself. */
static void when_a_window_lasts(void **state)
{
    (void)state;
    for (int scuff = 0; scuff < 3; scuff++) {
        bool left_out[3] = {false, false, false};
        struct draft draft = {.left_out = left_out};
        struct link link = {
            .kind = LINK_WINDOW, .from = (scuff + 1) % 3, .to = (scuff + 2) % 3, .unless = scuff};
        check_true(HERE, !draft_waits(&draft, &link), "the scuff opens it again");
        left_out[scuff] = true;
        check_true(HERE, draft_waits(&draft, &link), "without the scuff it lasts");
        left_out[link.to] = true;
        check_true(HERE, !draft_waits(&draft, &link), "nothing is laid in it");
        left_out[scuff] = left_out[link.to] = false;
        link.unless = -1;
        check_true(HERE, draft_waits(&draft, &link), "nothing opens it again");
        link.kind = LINK_STATE;
        link.unless = scuff;
        check_true(HERE, draft_waits(&draft, &link), "a film dries in any case");
    }
}

/* A draft of the first sixteen of seventeen operations: that the last one may be left out leaves out none of them, and holds none back. */
static void another_one_is_none_of_its_own(void **state)
{
    (void)state;
    enum { OWN = 16 };
    struct work_list list;
    work_begin(&list);
    for (int i = 0; i < OWN + 1; i++)
        work_add(&list, DO_SAND, 1, 60);
    struct site *site = work_site(&list, 7);
    site->rows[OWN].optional = true;
    site->count = OWN;
    const struct draft *draft = draft_make(list.arena, site);
    for (int i = 0; i < OWN; i++)
        check_true(HERE, !draft->left_out[i] && draft->hold[i] == 0, "it is done, as soon as may be");
    work_end(&list);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(when_a_window_lasts), CHECK_TEST(set_up_before_the_work),
                     CHECK_TEST(not_before_the_job_begins), CHECK_TEST(behind_what_it_waits_for),
                     CHECK_TEST(which_batch_is_waited_for), CHECK_TEST(within_its_window),
                     CHECK_TEST(opened_in_time), CHECK_TEST(a_limit_from_before),
                     CHECK_TEST(drying_within_a_batch), CHECK_TEST(not_within_the_time_given),
                     CHECK_TEST(no_day_is_long_enough), CHECK_TEST(when_it_is_ready),
                     CHECK_ROWS(lates, as_late_as_may_be), CHECK_TEST(batches_move_whole),
                     CHECK_TEST(what_is_left_out_moves_nothing), CHECK_TEST(another_one_is_none_of_its_own));
}
