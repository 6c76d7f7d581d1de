/* Day cards of batches that are placed by hand: whose they are, what comes next, what must be true before. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/moment.h"
#include "plan/day_card.h"

enum { BATCHES = 8 };

/* A plan of the panel's job whose batches are added one by one, each of one step that sands. */
struct world {
    struct arena *arena;
    struct panel panel;
    struct operations operations;
    struct operation items[BATCHES];
    struct timetable timetable;
    struct timetable_batch batches[BATCHES];
    struct timetable_step steps[BATCHES];
    size_t own[BATCHES]; /* the index of each batch's step */
    struct plan plan;
};

static struct world *world_make(struct arena *arena)
{
    struct world *w = ARENA_NEW(arena, struct world);
    w->arena = arena;
    panel_init(&w->panel);
    w->operations = (struct operations){.job = &w->panel.job, .items = w->items};
    w->timetable = (struct timetable){
        .job = &w->panel.job, .operations = &w->operations, .batches = w->batches, .steps = w->steps};
    w->plan = (struct plan){.job = &w->panel.job, .operations = &w->operations, .timetable = &w->timetable};
    return w;
}

/* From an hour of a day to another, by one person and one who helps (0: nobody); its step. */
static struct timetable_step *add(struct world *w, int person, int helper, int day, int from_h, int to_h)
{
    size_t i = w->timetable.batch_count++;
    w->timetable.step_count++;
    w->operations.count++;
    w->items[i] = (struct operation){
        .job = &w->panel.job, .doing = DO_SAND, .grit = 180, .piece = 0, .schedule = 0, .task = -1};
    w->own[i] = i;
    w->steps[i] = (struct timetable_step){.operation = &w->items[i],
                                          .start_min = march(day, from_h, 0),
                                          .end_min = march(day, to_h, 0),
                                          .person = person,
                                          .batch = i};
    w->batches[i] = (struct timetable_batch){.first = &w->items[i],
                                             .person = person,
                                             .helper = helper,
                                             .start_min = march(day, from_h, 0),
                                             .end_min = march(day, to_h, 0),
                                             .steps = &w->own[i],
                                             .step_count = 1};
    return &w->steps[i];
}

static int64_t day_of_march(int day)
{
    return march(day, 0, 0) / DAY_MINUTES;
}

/* "1 on 2 at 8, 2 helped by 1 on 3 at 13": person, day of March and hour of each batch. */
static const char *told(struct arena *arena, const struct day_batch *batches, size_t count)
{
    struct buf out;
    buf_init(&out, arena);
    for (size_t i = 0; i < count; i++) {
        const struct timetable_batch *batch = day_batch_main(&batches[i]);
        buf_addf(&out, "%s%d", i > 0 ? ", " : "", batch->person);
        if (batch->helper)
            buf_addf(&out, " helped by %d", batch->helper);
        buf_addf(&out, " on %d at %d", (int)(batch->start_min / DAY_MINUTES - day_of_march(0)),
                 (int)(batch->start_min % DAY_MINUTES / 60));
    }
    return out.text ? out.text : "";
}

struct card_row {
    struct row row;
    int day, person;
    const char *want, *want_next;
};

/* The first two begin together; the third person is only ever a help. */
static const struct card_row cards[] = {
    {ROW("the day before all of it"), 0, 0, "", "1 on 1 at 8, 2 on 1 at 8"},
    {ROW("everyone"), 1, 0, "1 on 1 at 8, 2 on 1 at 8, 1 helped by 3 on 1 at 10", "2 on 2 at 9, 1 on 3 at 8"},
    {ROW("one of them"), 1, 1, "1 on 1 at 8, 1 helped by 3 on 1 at 10", "1 on 3 at 8"},
    {ROW("the other"), 1, 2, "2 on 1 at 8", "2 on 2 at 9"},
    {ROW("who only helps"), 1, 3, "1 helped by 3 on 1 at 10", "2 helped by 3 on 3 at 9"},
    {ROW("nothing for one on a day of the other's"), 2, 1, "", "1 on 3 at 8"},
    {ROW("of what comes next only the first"), 2, 0, "2 on 2 at 9, 2 on 2 at 11",
     "1 on 3 at 8, 2 helped by 3 on 3 at 9"},
    {ROW("the last day"), 3, 0, "1 on 3 at 8, 2 helped by 3 on 3 at 9", ""},
    {ROW("who is not there"), 1, 4, "", ""},
};

static void a_card_of(void **state)
{
    const struct card_row *r = *state;
    struct arena *arena = arena_make(0);
    struct world *w = world_make(arena);
    add(w, 2, 0, 1, 8, 9);
    add(w, 1, 0, 1, 8, 10);
    add(w, 1, 3, 1, 10, 11);
    add(w, 2, 0, 2, 9, 10);
    add(w, 2, 0, 2, 11, 12);
    add(w, 1, 0, 3, 8, 9);
    add(w, 2, 3, 3, 9, 10);
    const struct plan *plan = &w->plan;
    const struct day_card *card = day_card_make(arena, &plan, 1, day_of_march(r->day), r->person);
    check_text(&r->row, told(arena, card->batches, card->count), r->want);
    check_text(&r->row, told(arena, card->next, card->next_count), r->want_next);
    arena_free(arena);
}

/* Two jobs' shares of one set-up are one batch: the same person from the same moment to the same. */
static void jobs_share_a_set_up(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct world *desk = world_make(arena), *shelf = world_make(arena);
    add(desk, 1, 0, 1, 8, 12);
    add(desk, 1, 0, 1, 13, 14);
    add(shelf, 1, 0, 1, 8, 12);
    add(shelf, 2, 0, 1, 8, 12);
    add(shelf, 1, 0, 1, 13, 15);
    const struct plan *plans[] = {&desk->plan, &shelf->plan};
    const struct day_card *card = day_card_make(arena, plans, 2, day_of_march(1), 0);
    assert_int_equal(card->count, 4);
    check_int(HERE, (intmax_t)card->batches[0].share_count, 2);
    check_true(HERE, card->batches[0].shares[0].plan == &desk->plan, "in the order of the plans");
    check_true(HERE, card->batches[0].shares[1].plan == &shelf->plan, "and the other");
    check_int(HERE, (intmax_t)card->batches[1].share_count, 1);
    check_int(HERE, day_batch_main(&card->batches[1])->person, 2);
    check_int(HERE, (intmax_t)card->batches[2].share_count, 1);
    check_int(HERE, (intmax_t)card->batches[3].share_count, 1);
    arena_free(arena);
}

/* The steps of both jobs in the order of work: what begins first, and of two that begin at once what ends first. */
static void steps_of_both_jobs_in_order(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct world *desk = world_make(arena), *shelf = world_make(arena);
    const struct plan *plans[] = {&desk->plan, &shelf->plan};
    add(desk, 1, 0, 1, 8, 12)->start_min = march(1, 9, 0);
    add(shelf, 1, 0, 1, 8, 12)->end_min = march(1, 9, 0);
    const struct day_card *card = day_card_make(arena, plans, 2, day_of_march(1), 0);
    assert_int_equal(card->count, 1);
    assert_int_equal(card->batches[0].step_count, 2);
    check_true(HERE, card->batches[0].steps[0].plan == &shelf->plan, "what begins first");
    desk->steps[0].start_min = march(1, 8, 0);
    card = day_card_make(arena, plans, 2, day_of_march(1), 0);
    check_true(HERE, card->batches[0].steps[0].plan == &shelf->plan, "what ends first");
    shelf->steps[0].end_min = march(1, 13, 0);
    card = day_card_make(arena, plans, 2, day_of_march(1), 0);
    check_true(HERE, card->batches[0].steps[0].plan == &desk->plan, "the other ends first");
    check_true(HERE, card->batches[0].steps[1].plan == &shelf->plan, "and is not lost");
    arena_free(arena);
}

enum { WAITS = 2 };

struct need_row {
    struct row row;
    struct {
        struct link link;
        int64_t until_min;
    } waits[WAITS];
    size_t want;
    int64_t want_until_min; /* of the first */
};

#define AN_END(span, dust, until)                                                                            \
    {                                                                                                        \
        {.kind = LINK_END, .span_min = (span), .settles = (dust)}, until                                     \
    }
#define A_STATE(which, until)                                                                                \
    {                                                                                                        \
        {.kind = LINK_STATE, .state = (which)}, until                                                        \
    }

static const struct need_row needs[] = {
    {ROW("the later of two ends"), {AN_END(0, false, 100), AN_END(0, false, 200)}, 1, 200},
    {ROW("whichever comes first"), {AN_END(0, false, 200), AN_END(0, false, 100)}, 1, 200},
    {ROW("waits of other lengths are one"), {AN_END(1, false, 100), AN_END(2, false, 200)}, 1, 200},
    {ROW("an end, and an end with a wait"), {AN_END(0, false, 100), AN_END(60, false, 200)}, 2, 100},
    {ROW("a wait, and dust that settles"), {AN_END(60, false, 100), AN_END(60, true, 200)}, 2, 100},
    {ROW("two states"), {A_STATE(STATE_RECOAT, 100), A_STATE(STATE_SAND, 200)}, 2, 100},
    {ROW("an end and a state"), {AN_END(0, false, 100), A_STATE((enum finish_state)0, 200)}, 2, 100},
    {ROW("a later day is none"), {{{.kind = LINK_DAY}, 100}, AN_END(0, false, 200)}, 1, 200},
    {ROW("what gives no moment is none"), {AN_END(0, false, INT64_MIN), A_STATE(STATE_SAND, 300)}, 1, 300},
};

/* Two steps were done in batches of their own, the third waits for both. */
static void what_must_be_true(void **state)
{
    const struct need_row *r = *state;
    struct arena *arena = arena_make(0);
    struct world *w = world_make(arena);
    struct waited waited[WAITS];
    add(w, 1, 0, 1, 8, 9);
    add(w, 1, 0, 1, 10, 11);
    struct timetable_step *step = add(w, 1, 0, 2, 8, 9);
    for (size_t i = 0; i < WAITS; i++)
        waited[i] = (struct waited){i, &r->waits[i].link, r->waits[i].until_min, INT64_MAX};
    step->after = waited;
    step->after_count = WAITS;
    const struct plan *plan = &w->plan;
    const struct day_card *card = day_card_make(arena, &plan, 1, day_of_march(2), 0);
    assert_int_equal(card->count, 1);
    check_int(&r->row, (intmax_t)card->batches[0].need_count, (intmax_t)r->want);
    check_int(&r->row, card->batches[0].needs[0].until_min, r->want_until_min);
    check_true(&r->row, card->batches[0].needs[0].step == step, "of the step");
    arena_free(arena);
}

/* What was done before in the batch itself needs no watching. What the log says was done does, and not for another step. */
static void what_was_done(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct world *w = world_make(arena);
    struct timetable_step *first = add(w, 1, 0, 1, 8, 9), *second = add(w, 1, 0, 1, 9, 10);
    const struct link link = {.kind = LINK_END};
    struct waited waited = {0, &link, march(1, 9, 0), INT64_MAX};
    size_t both[] = {0, 1};
    w->batches[0].steps = both;
    w->batches[0].step_count = 2;
    w->timetable.batch_count = 1;
    second->batch = first->batch;
    second->after = &waited;
    second->after_count = 1;
    const struct plan *plan = &w->plan;
    const struct day_card *card = day_card_make(arena, &plan, 1, day_of_march(1), 0);
    check_int(HERE, (intmax_t)card->batches[0].need_count, 0);

    struct fact fact = {.operation = w->items[0]};
    struct fact_wait waits[] = {{0, 1, link, march(1, 7, 0)},
                                {0, 1, {.kind = LINK_DAY}, march(1, 7, 30)},
                                {0, 2, {.kind = LINK_STATE}, march(1, 7, 45)}};
    w->operations.facts = &fact;
    w->operations.fact_count = 1;
    w->operations.waits = waits;
    w->operations.wait_count = 3;
    card = day_card_make(arena, &plan, 1, day_of_march(1), 0);
    assert_int_equal(card->batches[0].need_count, 1);
    check_true(HERE, card->batches[0].needs[0].step == second, "the second waits");
    check_true(HERE, card->batches[0].needs[0].earlier == &fact.operation, "for what was done");
    check_int(HERE, card->batches[0].needs[0].until_min, march(1, 7, 0));
    arena_free(arena);
}

/* Where one hour of the day asks for supplied air, no other respirator is named in any: it would be taken for enough. */
static void one_kind_of_air(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct world *w = world_make(arena);
    static const char *const vapour[] = {"vapour"};
    const struct step step = {.kind = STEP_COAT, .finish = &w->panel.finish, .by = TOOL_CLOTH};
    struct plan_caution supplied = {.kind = PLAN_CAUTION_BREATHING, .breathing = BREATHING_SUPPLIED};
    const struct plan *plan = &w->plan;
    w->panel.finish.cautions = vapour;
    w->panel.finish.caution_count = 1;
    add(w, 1, 0, 1, 8, 9);
    w->items[0].doing = DO_APPLY;
    w->items[0].of.step = &step;
    const struct day_card *card = day_card_make(arena, &plan, 1, day_of_march(1), 0);
    assert_int_equal(card->batches[0].caution_count, 1);
    check_int(HERE, card->batches[0].cautions[0].caution.breathing, BREATHING_VAPOUR);
    w->plan.cautions = &supplied;
    w->plan.caution_count = 1;
    card = day_card_make(arena, &plan, 1, day_of_march(1), 0);
    check_int(HERE, (intmax_t)card->batches[0].caution_count, 0);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(cards, a_card_of), CHECK_TEST(jobs_share_a_set_up),
                     CHECK_TEST(steps_of_both_jobs_in_order), CHECK_ROWS(needs, what_must_be_true),
                     CHECK_TEST(what_was_done), CHECK_TEST(one_kind_of_air));
}
