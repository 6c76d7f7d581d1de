/* Work as a planner of batches sees it: kinds of batches, lots, moments and the rack, in minutes from Monday
 * 1 March 2027 00:00. The shop opens 08:00-17:00 daily, the job starts on Monday 08:00. */
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

/* Sanding takes 10 min of set-up and 4 of clean-up, scuffing 6 and 8; with one grit they are one kind of
 * batch that takes 6 and 4 at the least, and needs somebody who sands: whoever does that may scuff. */
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

/* A mix is laid within the shorter of the working times, cut to whole minutes, at least one. What is poured
 * as it is, or mixed for thinning alone, has no pot life; what dies before it may be laid is planned as if it
 * lived. */
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

/* 0.300 05 m2 take 3 000.5 cm2: 3 001 of the rack's 25 000, of which 0.5 are lost; what is sanded takes none.
 */
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

/* A coat laid at 09:00 is dust-free at 10:00 and dry to handle at 14:00 and asked for until 16:00; now it is
 * noon. Another, of a lot of which nothing is left, is dry to handle on Tuesday 08:00. What was dry by noon,
 * was passed over, or is no coat does not lie there. */
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

int main(void)
{
    return CHECK_ALL(CHECK_TEST(moments_and_minutes), CHECK_TEST(sanding_and_scuffing_with_one_grit),
                     CHECK_TEST(one_difference_is_enough), CHECK_TEST(tasks_stay_apart),
                     CHECK_ROWS(mixes, mix_is), CHECK_TEST(a_gun_sprays),
                     CHECK_TEST(jobs_have_their_own_dates), CHECK_TEST(lots_and_limits),
                     CHECK_TEST(the_rack_in_square_centimetres), CHECK_TEST(dust_settles_in_a_shared_room),
                     CHECK_TEST(what_was_laid_lies_on_the_rack));
}
