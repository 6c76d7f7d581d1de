/* Work as a planner of batches sees it: kinds of batches, lots, links, moments and waits in minutes from Monday 1 March 2027 00:00.
 * The shop opens 08:00-17:00 daily, the job starts on Monday 08:00. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"
#include "timetable/site.h"

#include <math.h>

enum { H = 60, D = 24 * 60 };

static struct site *site_of(struct arena *arena, struct hand_work *work)
{
    return site_make(arena, &work->operations, march(1, 0, 0), 14 * D);
}

static void moments_and_minutes(void **state)
{
    (void)state;
    struct crew crew = {.origin_min = 1000};
    struct site site = {.crew = &crew};
    check_int(HERE, site_moment(&site, 25), 1025);
    check_int(HERE, site_minute(&site, 1025), 25);
    check_int(HERE, site_minute(&site, 1000), 0);
    check_int(HERE, site_minute(&site, 999), 0);
    check_int(HERE, site_minute(&site, INT64_MIN / 2), 0);
    check_int(HERE, site_minute(&site, INT64_MAX), SITE_NEVER);
    check_int(HERE, site_minute(&site, 1000 + (int64_t)SITE_NEVER + 1), SITE_NEVER);
    check_int(HERE, site_minute(&site, 1000 + (int64_t)SITE_NEVER - 1), SITE_NEVER - 1);
    check_int(HERE, site_up(0), 0);
    check_int(HERE, site_up(1), 5);
    check_int(HERE, site_up(5), 5);
}

/* Sanding takes 10 min of set-up and 4 of clean-up, scuffing 6 and 8; with one grit they are one kind of batch that takes 6 and 4 at
 * the least, and needs somebody who sands: whoever does that may scuff. */
static void sanding_and_scuffing_with_one_grit(void **state)
{
    (void)state;
    for (int scuff_first = 0; scuff_first < 2; scuff_first++) {
        struct arena *arena = arena_make(0);
        struct hand_work work;
        hand_work(&work);
        struct shop *shop = &work.panel.job.shop;
        shop->set_up_min[WORK_SAND] = 10;
        shop->clean_up_min[WORK_SAND] = 4;
        shop->set_up_min[WORK_SCUFF] = 6;
        shop->clean_up_min[WORK_SCUFF] = 8;
        hand_add(&work, 0, scuff_first ? DO_SCUFF : DO_SAND, 30);
        hand_add(&work, 0, scuff_first ? DO_SAND : DO_SCUFF, 30);
        hand_add(&work, 0, DO_SAND, 30)->grit = 240;
        const struct site *site = site_of(arena, &work);
        check_int(HERE, (intmax_t)site->kind_count, 2);
        check_int(HERE, site->rows[1].kind, 0);
        check_int(HERE, site->rows[2].kind, 1);
        const struct kind *kind = &site->kinds[0];
        check_int(HERE, kind->set_up, 6);
        check_int(HERE, kind->clean_up, 4);
        check_true(HERE, kind->unlike && !site->kinds[1].unlike, "they are set up differently");
        check_int(HERE, kind->needs, 1u << WORK_SAND);
        check_int(HERE, kind->work, WORK_SAND);
        check_int(HERE, kind->rest, INT32_MAX);
        check_true(HERE, kind->dry && !kind->mixed && !kind->sprays && !kind->two_part, "no finish");
        check_int(HERE, site->rows[scuff_first].set_up, 10);
        check_int(HERE, site->rows[scuff_first].clean_up, 4);
        check_int(HERE, site->rows[!scuff_first].set_up, 6);
        check_int(HERE, site->rows[!scuff_first].clean_up, 8);
        arena_free(arena);
    }
}

/* Only one of set-up and clean-up differs: the batch is set up differently all the same. */
static void one_difference_is_enough(void **state)
{
    (void)state;
    for (int clean = 0; clean < 2; clean++) {
        struct arena *arena = arena_make(0);
        struct hand_work work;
        hand_work(&work);
        struct shop *shop = &work.panel.job.shop;
        (clean ? shop->clean_up_min : shop->set_up_min)[WORK_SAND] = 10;
        hand_add(&work, 0, DO_SAND, 30);
        hand_add(&work, 0, DO_SCUFF, 30);
        check_true(HERE, site_of(arena, &work)->kinds[0].unlike, "unlike");
        arena_free(arena);
    }
}

/* A task is of no kind but its own, lies no minute, and asks for no set-up and no skill. */
static void tasks_stay_apart(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    hand_add(&work, -1, DO_TASK, 30);
    hand_add(&work, -1, DO_TASK, 30);
    hand_add(&work, 0, DO_MASK, 30);
    const struct site *site = site_of(arena, &work);
    check_int(HERE, (intmax_t)site->kind_count, 3);
    for (int i = 0; i < 2; i++) {
        check_int(HERE, site->rows[i].kind, i);
        check_int(HERE, site->rows[i].lot, i);
        check_int(HERE, site->kinds[i].rest, 0);
        check_int(HERE, site->kinds[i].work, -1);
        check_int(HERE, site->kinds[i].needs, 0);
        check_int(HERE, site->kinds[i].set_up, 0);
        check_true(HERE, !site->kinds[i].dry, "a task is not left half done");
    }
    check_int(HERE, site->kinds[2].rest, INT32_MAX);
    arena_free(arena);
}

struct mix_row {
    struct row row;
    size_t components;
    double thin;
    bool dead;
    double working[2], pot_life[2]; /* of two coats of one kind */
    int32_t want_working, want_pot_life, want_induction;
};

/* A mix is laid within the shorter of the working times, cut to whole minutes, at least one. What is poured as it is, or mixed for
 * thinning alone, has no pot life; what dies before it may be laid is planned as if it lived. */
static const struct mix_row mixes[] = {
    {ROW("two parts"), 2, 0, false, {45.7, 80}, {90.9, 100}, 45, 90, 10},
    {ROW("the second is shorter"), 2, 0, false, {80, 45.7}, {100, 90.9}, 45, 90, 10},
    {ROW("less than a minute"), 2, 0, false, {0.4, 0.4}, {1.9, 1.9}, 1, 1, 10},
    {ROW("two minutes and a half"), 2, 0, false, {2.5, 2.5}, {3.2, 3.2}, 2, 3, 10},
    {ROW("no pot life"), 2, 0, false, {INFINITY, INFINITY}, {INFINITY, INFINITY}, INT32_MAX, INT32_MAX, 10},
    {ROW("dead"), 2, 0, true, {45.7, 80}, {90.9, 100}, INT32_MAX, INT32_MAX, 10},
    {ROW("thinned"), 1, 0.1, false, {45.7, 80}, {90.9, 100}, 45, INT32_MAX, 10},
    {ROW("as it is"), 1, 0, false, {45.7, 80}, {90.9, 100}, INT32_MAX, INT32_MAX, 0},
};

static void mix_is(void **state)
{
    const struct mix_row *r = *state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    struct panel *panel = &work.panel;
    const struct component components[] = {panel->component, panel->component};
    panel->finish.components = components;
    panel->finish.component_count = r->components;
    panel->finish.induction_min = 10;
    panel->steps[0][0].thin = r->thin;
    panel->job.shop.clean_up_min[TOOL_CLOTH] = 7;
    panel->job.shop.two_part_clean_up_min[TOOL_CLOTH] = 12;
    panel->job.shop.rest_min[TOOL_CLOTH] = 25;
    for (int i = 0; i < 2; i++) {
        struct operation *coat = hand_add(&work, 0, DO_APPLY, 30);
        coat->working_min = r->working[i];
        coat->pot_life_min = r->pot_life[i];
        coat->detail.pot_dead = r->dead;
    }
    const struct site *site = site_of(arena, &work);
    check_int(&r->row, (intmax_t)site->kind_count, 1);
    const struct kind *kind = &site->kinds[0];
    check_int(&r->row, kind->working, r->want_working);
    check_int(&r->row, kind->pot_life, r->want_pot_life);
    check_int(&r->row, kind->induction, r->want_induction);
    check_int(&r->row, kind->mixed, r->want_induction > 0);
    check_int(&r->row, kind->two_part, r->components == 2);
    check_int(&r->row, kind->clean_up, r->components == 2 ? 12 : 7);
    check_int(&r->row, kind->rest, 25);
    check_true(&r->row, !kind->dry && !kind->sprays && !kind->unlike, "a coat by cloth");
    arena_free(arena);
}

/* What is laid with a gun is of another kind, and sprays. */
static void a_gun_sprays(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_add_piece(&work.panel);
    work.panel.steps[1][0].by = TOOL_HVLP;
    hand_add(&work, 0, DO_APPLY, 30);
    hand_add(&work, 1, DO_APPLY, 30)->work = TOOL_HVLP;
    const struct site *site = site_of(arena, &work);
    check_int(HERE, (intmax_t)site->kind_count, 2);
    check_true(HERE, !site->kinds[0].sprays && site->kinds[1].sprays, "the gun alone");
    check_int(HERE, site->kinds[0].needs, 1u << TOOL_CLOTH);
    check_int(HERE, site->kinds[1].needs, 1u << TOOL_HVLP);
    arena_free(arena);
}

/* The second job starts later and was looked at later still; the first is looked at before it starts. */
static void jobs_have_their_own_dates(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    struct job *first = &work.panel.job;
    first->now_min = march(1, 7, 0);
    first->to_spare_min = 90;
    struct job second = *first;
    second.start_min = march(2, 8, 0);
    second.now_min = march(3, 9, 0);
    second.deliver_min = march(5, 12, 0);
    hand_add(&work, 0, DO_SAND, 30);
    hand_add(&work, 0, DO_SAND, 30)->job = &second;
    hand_add(&work, 0, DO_SCUFF, 30);
    const struct site *site = site_of(arena, &work);
    check_int(HERE, site->job_count, 2);
    check_int(HERE, site->rows[0].job, 0);
    check_int(HERE, site->rows[1].job, 1);
    check_int(HERE, site->rows[2].job, 0);
    check_true(HERE, site->jobs[0].job == first && site->jobs[1].job == &second, "in their order");
    check_int(HERE, site->jobs[0].due, 11 * D + 17 * H);
    check_int(HERE, site->jobs[0].aim, 11 * D + 17 * H - 90);
    check_int(HERE, site->jobs[0].from, 8 * H);
    check_int(HERE, site->jobs[0].floor, 0);
    check_int(HERE, site->jobs[1].due, 4 * D + 12 * H);
    check_int(HERE, site->jobs[1].from, 2 * D + 9 * H);
    check_int(HERE, site->rows[0].release, 8 * H);
    check_int(HERE, site->rows[1].release, 2 * D + 9 * H);
    check_int(HERE, site->rows[0].lot, 0);
    check_int(HERE, site->rows[1].lot, 1); /* a piece of the same number, but of another job */
    arena_free(arena);
}

/* What the facts ask of it: not before 10:00, not after 15:00. */
static void lots_and_limits(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_add_piece(&work.panel);
    hand_add(&work, 0, DO_SAND, 30)->release_min = march(1, 10, 0);
    hand_add(&work, 0, DO_APPLY, 30)->latest_min = march(1, 15, 0);
    struct operation *other = hand_add(&work, 0, DO_APPLY, 30);
    other->lot = 2;
    hand_add(&work, 1, DO_APPLY, 30);
    hand_add(&work, 1, DO_POLISH, 30);
    const struct site *site = site_of(arena, &work);
    static const int lots[] = {0, 0, 1, 2, 2};
    for (int i = 0; i < 5; i++)
        check_int(HERE, site->rows[i].lot, lots[i]);
    check_int(HERE, site->lot_count, 3);
    check_int(HERE, site->rows[0].release, 10 * H);
    check_int(HERE, site->rows[0].latest, SITE_NEVER);
    check_int(HERE, site->rows[1].release, 8 * H);
    check_int(HERE, site->rows[1].latest, 15 * H);
    check_true(HERE, !site->rows[0].film && site->rows[1].film, "only a coat has a film");
    check_true(HERE, site->rows[1].film == site->rows[3].film, "one finish, one film");
    check_int(HERE, (intmax_t)site->film_count, 1);
    arena_free(arena);
}

/* 0.300 05 m2 take 3 000.5 cm2: 3 001 of the rack's 25 000, of which 0.5 are lost; what is sanded takes none. */
static void the_rack_in_square_centimetres(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_add_piece(&work.panel);
    work.panel.pieces[0].rack_m2 = 0.30005;
    work.panel.pieces[1].rack_m2 = 0.3;
    work.panel.job.shop.rack_m2 = 2.50005;
    hand_add(&work, 0, DO_SAND, 30);
    hand_add(&work, 0, DO_APPLY, 30);
    hand_add(&work, 1, DO_APPLY, 30);
    const struct site *site = site_of(arena, &work);
    check_int(HERE, site->rack, 25000);
    check_int(HERE, site->rows[0].rack, 0);
    check_int(HERE, site->rows[1].rack, 3001);
    check_int(HERE, site->rows[2].rack, 3000);
    work.panel.job.shop.rack_m2 = 0;
    site = site_of(arena, &work);
    check_int(HERE, site->rack, 0);
    check_int(HERE, site->rows[2].rack, 3000);
    work.panel.job.shop.rack_m2 = -1;
    site = site_of(arena, &work);
    check_int(HERE, site->rack, -1);
    check_int(HERE, site->rows[1].rack, 0);
    arena_free(arena);
}

static void dust_settles_in_a_shared_room(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    hand_add(&work, 0, DO_SAND, 30);
    work.panel.job.shop.settle_min = 20;
    work.panel.job.shop.dust_separate = false;
    check_int(HERE, site_of(arena, &work)->settle, 20);
    work.panel.job.shop.dust_separate = true;
    check_int(HERE, site_of(arena, &work)->settle, 0);
    arena_free(arena);
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

/* Sand 30 min, 20 min of settling, coat 60, recoat after 600, coat 50, dry to handle after 120, polish after 15 for 10 and a rest of
 * 30: from the end backwards 10 + 30 = 40; the larger of 50 + 120 and 50 + 15 + 40; 60 + 600 + 170; 30 + 20 + 830. Another piece is
 * coated (60) on the day before that coat: a day to its start. */
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

/* A coat laid at 09:00 is dust-free at 10:00 and dry to handle at 14:00 and asked for until 16:00; now it is noon. Another, of a lot of
 * which nothing is left, is dry to handle on Tuesday 08:00. What was dry by noon, was passed over, or is no coat does not lie there. */
static void what_was_laid_lies_on_the_rack(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_add_piece(&work.panel);
    panel_add_piece(&work.panel);
    work.panel.job.now_min = march(1, 12, 0);
    work.panel.job.shop.rack_m2 = 5;
    for (int i = 0; i < 3; i++)
        work.panel.pieces[i].rack_m2 = 0.1 * (i + 1);
    static const struct log_entry entry = {.number = 1};
    const int pieces[] = {1, 2, 1, 1, 1};
    for (int i = 0; i < 5; i++) {
        struct fact *fact = &work.facts[i];
        fact->operation = *hand_add(&work, pieces[i], i == 4 ? DO_SAND : DO_APPLY, 60);
        fact->entry = i == 3 ? NULL : &entry;
        fact->ready_min = INT64_MIN;
        fact->state_min[STATE_DUST_FREE] = march(1, 10, 0);
        fact->state_min[STATE_HANDLE] = march(1, 14, 0);
    }
    work.facts[0].ready_min = march(1, 16, 0);
    work.facts[1].state_min[STATE_DUST_FREE] = march(1, 11, 0);
    work.facts[1].state_min[STATE_HANDLE] = march(2, 8, 0);
    work.facts[1].ready_min = march(1, 15, 0);
    work.facts[2].state_min[STATE_HANDLE] = march(1, 12, 0);
    work.operations.count = 0;
    work.operations.fact_count = 5;
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 1, DO_APPLY, 60);
    const struct site *site = site_of(arena, &work);
    check_int(HERE, (intmax_t)site->lying_count, 2);
    check_int(HERE, site->lying[0].lot, 1);
    check_int(HERE, site->lying[0].clear, 10 * H);
    check_int(HERE, site->lying[0].handle, 14 * H);
    check_int(HERE, site->lying[0].rack, 2000);
    check_int(HERE, site->lying[1].lot, 2);
    check_int(HERE, site->lying[1].clear, 11 * H);
    check_int(HERE, site->lying[1].handle, D + 8 * H);
    check_int(HERE, site->lying[1].rack, 3000);
    check_int(HERE, site->lot_count, 3);
    check_int(HERE, site->jobs[0].floor, 16 * H);
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
};

static void turned_for(void **state)
{
    const struct turn_row *r = *state;
    struct operation operations[4] = {0};
    struct task_row rows[4] = {0};
    for (int i = 0; i < r->count; i++) {
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
    return CHECK_ALL(
        CHECK_TEST(moments_and_minutes), CHECK_TEST(sanding_and_scuffing_with_one_grit),
        CHECK_TEST(one_difference_is_enough), CHECK_TEST(tasks_stay_apart), CHECK_ROWS(mixes, mix_is),
        CHECK_TEST(a_gun_sprays), CHECK_TEST(jobs_have_their_own_dates), CHECK_TEST(lots_and_limits),
        CHECK_TEST(the_rack_in_square_centimetres), CHECK_TEST(dust_settles_in_a_shared_room),
        CHECK_TEST(links_by_operation), CHECK_TEST(lines_by_operation), CHECK_TEST(the_way_to_the_end),
        CHECK_TEST(a_wait_that_never_ends), CHECK_TEST(links_that_point_back),
        CHECK_TEST(what_was_laid_lies_on_the_rack), CHECK_ROWS(turns, turned_for), CHECK_TEST(at_once));
}
