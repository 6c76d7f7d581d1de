/* Orders read from their beginning: what is placed when and by whom, and how a batch that cannot be is
 * divided, held back or scuffed for. One person, open 08:00 to 17:00 daily, an hour for each step of a
 * piece, unless a test says otherwise. */
#include "check.h"
#include "orders.h"
#include "panel_site.h"

#include "base/arena.h"

enum { WITHOUT_END = INT32_MAX };

static void check_placed(const struct row *row, const struct variant *variant, const char *order,
                         const int32_t *starts)
{
    check_true(row, variant->whole, "all is placed");
    check_text(row, order_words(variant->draft->site->arena, &variant->order), order);
    for (size_t i = 0; i < variant->draft->site->count; i++)
        check_int(row, variant->draft->start[i], starts[i]);
}

/* A, B, C: as many as there are hours, each sanded and coated, in as many hours for each. */
static void sanded_and_coated(struct panel *panel, const double *hours, size_t count)
{
    panel_init(panel);
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            panel_add_piece(panel);
        panel_add_step(panel, i, STEP_SAND);
        panel_add_step(panel, i, STEP_COAT);
        panel_set_hours(panel, i, hours[i]);
    }
}

/* What cannot be done yet waits for the first batch that can. */
static void the_first_that_can_be_done(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    sanded_and_coated(&panel, (double[]){1, 1}, 2);
    struct site *site = panel_site(arena, &panel);
    struct variant *variant = ordered(site, (int[]){1, 3, 0, 2}, (size_t[]){1, 1, 1, 1, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 | 1 | 2 | 3", (int32_t[]){480, 540, 600, 660});
    variant = ordered(site, (int[]){0, 1, 3, 2}, (size_t[]){1, 2, 1, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 | 2 | 1 3", (int32_t[]){480, 600, 540, 660});
    arena_free(arena);
}

/* A and B, coated twice: of the first batch the second waits for the other's, of that for the first's. The
 * first is divided. */
static void batches_that_wait_for_each_other(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    for (size_t i = 0; i < 2; i++)
        panel_add_step(&panel, i, STEP_COAT)->coats = 2;
    struct variant *variant = ordered(panel_site(arena, &panel), (int[]){3, 0, 2, 1}, (size_t[]){2, 2, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 | 2 1 | 3", (int32_t[]){480, 600, 540, 660});
    arena_free(arena);
}

/* A and B, scuffed between two coats. Neither the scuffs (A's can be done, B's not) nor the other coats
 * (B's first can, A's second not) can be one batch: what costs less to set up twice is divided. */
static void the_cheaper_is_divided(void **state)
{
    (void)state;
    static const struct step between = {.kind = STEP_SCUFF, .grit = 320, .wait_min = -1};
    static const char *const want[] = {"0 | 1 | 3 2 | 4 | 5", "0 | 3 | 1 4 | 2 | 5"};
    for (int dear = 0; dear < 2; dear++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        panel_init(&panel);
        panel_add_piece(&panel);
        for (size_t i = 0; i < 2; i++) {
            struct step *coat = panel_add_step(&panel, i, STEP_COAT);
            coat->coats = 2;
            coat->between = &between;
        }
        panel.job.shop.set_up_min[dear ? WORK_SCUFF : TOOL_CLOTH] = 5;
        panel.job.shop.clean_up_min[dear ? WORK_SCUFF : TOOL_CLOTH] = 5;
        panel.job.shop.set_up_min[dear ? TOOL_CLOTH : WORK_SCUFF] = 9;
        struct variant *variant =
            ordered(panel_site(arena, &panel), (int[]){0, 3, 2, 1, 4, 5}, (size_t[]){1, 2, 2, 1, 0});
        variant_place(variant, SCUFF_NEVER, WITHOUT_END);
        check_true(HERE, variant->whole, "all is placed");
        check_text(HERE, order_words(arena, &variant->order), want[dear]);
        arena_free(arena);
    }
}

/* 9 h a day: of three of 4 h two are done on Monday. */
static void as_many_as_a_day_holds(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    sanded_and_coated(&panel, (double[]){4, 4, 4}, 3);
    for (int i = 0; i < 3; i++)
        panel.schedules[i].step_count = 1;
    struct variant *variant = ordered(panel_site(arena, &panel), (int[]){0, 1, 2}, (size_t[]){3, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 1 | 2", (int32_t[]){480, 720, site_at(2, 8, 0)});
    for (int i = 0; i < 3; i++)
        panel_set_hours(&panel, (size_t)i, 3);
    variant = ordered(panel_site(arena, &panel), (int[]){0, 1, 2}, (size_t[]){3, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 1 2", (int32_t[]){480, 660, 840});
    arena_free(arena);
}

/* A set-up of 10 min and 4 h fit no stretch: the shorter goes first, 08:10 to 11:10, and the long one has
 * the afternoon. */
static void the_shortest_first(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    sanded_and_coated(&panel, (double[]){4, 3, 2}, 3);
    for (int i = 0; i < 3; i++)
        panel.schedules[i].step_count = 1;
    panel_set_noon(&panel, 12 * 60, 13 * 60);
    panel.job.shop.set_up_min[WORK_SAND] = 10;
    struct site *site = panel_site(arena, &panel);
    struct variant *variant = ordered(site, (int[]){0, 1}, (size_t[]){2, 0});
    variant->draft->left_out[2] = true;
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "1 0", (int32_t[]){780, 490, SITE_NONE});
    /* The shortest of three. Two hours, then four, are done on Monday, the third on Tuesday. */
    variant = ordered(site, (int[]){0, 1, 2}, (size_t[]){3, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "2 0 | 1", (int32_t[]){780, site_at(2, 8, 10), 490});
    /* Four hours by themselves never can be. */
    variant = ordered(site, (int[]){0, 1}, (size_t[]){1, 1, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_true(HERE, !variant->whole, "no day holds it");
    arena_free(arena);
}

/* Dry to recoat after 10 h; the window ends after so many. Coated at 08:00, dry at 19:00: the next coat is
 * on Tuesday at 08:00, 23 h after the first. With a window of 20 h the first waits until 11:00; 14 h
 * cannot be kept. */
static struct variant *recoated(struct arena *arena, int window_h, enum scuffing scuffs)
{
    struct panel *panel = ARENA_NEW(arena, struct panel);
    panel_init(panel);
    panel_add_step(panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(panel, 600, window_h * 60);
    struct variant *variant = ordered(panel_site(arena, panel), (int[]){0, 2}, (size_t[]){1, 1, 0});
    variant_place(variant, scuffs, WITHOUT_END);
    return variant;
}

static void a_window_that_can_be_kept(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    const int32_t held[] = {660, SITE_NONE, site_at(2, 8, 0)};
    const int32_t scuffed[] = {480, site_at(2, 8, 0), site_at(2, 9, 0)};
    check_placed(HERE, recoated(arena, 23, SCUFF_AT_ONCE), "0 | 2",
                 (int32_t[]){480, SITE_NONE, site_at(2, 8, 0)});
    check_placed(HERE, recoated(arena, 20, SCUFF_NEVER), "0 | 2", held);
    check_placed(HERE, recoated(arena, 20, SCUFF_IF_NEEDED), "0 | 2", held);
    check_placed(HERE, recoated(arena, 20, SCUFF_AT_ONCE), "0 | 1 | 2", scuffed);
    arena_free(arena);
}

static void a_window_that_cannot(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    const int32_t scuffed[] = {480, site_at(2, 8, 0), site_at(2, 9, 0)};
    check_true(HERE, !recoated(arena, 14, SCUFF_NEVER)->whole, "it is missed");
    check_placed(HERE, recoated(arena, 14, SCUFF_IF_NEEDED), "0 | 1 | 2", scuffed);
    check_placed(HERE, recoated(arena, 14, SCUFF_AT_ONCE), "0 | 1 | 2", scuffed);
    arena_free(arena);
}

/* A and B, coated twice, B from Tuesday 10:00 on; dry after an hour, the window ends after five. In one
 * batch A's second coat would miss it for the sake of B: it is done by itself, or the first coat of A
 * waits until Tuesday 08:00: then both follow from 11:00, B's an hour after its first. */
static void for_the_sake_of_others(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    for (size_t i = 0; i < 2; i++)
        panel_add_step(&panel, i, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 60, 300);
    panel.finish.refuses_late_recoat = true;
    panel.pieces[1].ready_min = march(2, 10, 0);
    struct site *site = panel_site(arena, &panel);
    struct variant *variant = ordered(site, (int[]){0, 2, 1, 3}, (size_t[]){1, 1, 2, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 | 2 | 1 | 3", (int32_t[]){480, 600, site_at(2, 10, 0), site_at(2, 12, 0)});
    variant = ordered(site, (int[]){0, 2, 1, 3}, (size_t[]){1, 1, 2, 0});
    variant->waits = true;
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 | 2 | 1 3",
                 (int32_t[]){site_at(2, 8, 0), site_at(2, 11, 0), site_at(2, 10, 0), site_at(2, 12, 0)});
    arena_free(arena);
}

/* Three people: Ann sands, the others coat. */
static void by_whom(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    sanded_and_coated(&panel, (double[]){1, 1}, 2);
    struct person crew[] = {shop_person(&panel.job.shop, 0), shop_person(&panel.job.shop, 0),
                            shop_person(&panel.job.shop, 0)};
    crew[0].does = 1 << WORK_SAND;
    crew[1].does = crew[2].does = 1 << TOOL_CLOTH;
    panel.job.shop.crew = crew;
    panel.job.shop.people = 3;
    panel.job.shop.dust_separate = true;
    struct site *site = panel_site(arena, &panel);
    struct variant *variant = ordered(site, (int[]){0, 2, 1, 3}, (size_t[]){2, 1, 1, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 2 | 1 | 3", (int32_t[]){480, 540, 540, 600});
    const struct placed *placed = variant->draft->placed;
    check_true(HERE, placed[0].batch.person == 0 && placed[1].batch.person == 1,
               "who can, the first of those alike");
    check_int(HERE, placed[2].batch.person, 1);
    variant = ordered(site, (int[]){0, 2, 1, 3}, (size_t[]){2, 1, 1, 0});
    variant->order.runs[2].person = 2;
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_true(HERE, variant->whole && variant->draft->placed[2].batch.person == 2, "as the order says");
    /* The second of two alike has nothing to do before the first has: the plan would be the same. */
    variant = ordered(site, (int[]){0, 2, 1, 3}, (size_t[]){2, 1, 1, 0});
    variant->order.runs[1].person = 2;
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_true(HERE, !variant->whole, "not the second first");
    variant = ordered(site, (int[]){0, 2, 1, 3}, (size_t[]){2, 1, 1, 0});
    variant->order.runs[1].person = 0;
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_true(HERE, !variant->whole, "Ann does not coat");
    arena_free(arena);
}

/* Two alike, two pieces of three hours and one of one: the first takes the first, the second, who has
 * nothing to do, the next; the third piece goes to whoever is through with it first. */
static void who_is_through_first(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    sanded_and_coated(&panel, (double[]){3, 2, 1}, 3);
    for (int i = 0; i < 3; i++)
        panel.schedules[i].step_count = 1;
    panel.job.shop.people = 2;
    struct variant *variant = ordered(panel_site(arena, &panel), (int[]){0, 1, 2}, (size_t[]){1, 1, 1, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 | 1 | 2", (int32_t[]){480, 480, 600});
    for (int k = 0; k < 3; k++)
        check_int(HERE, variant->draft->placed[k].batch.person, k > 0);
    arena_free(arena);
}

/* What two must lift: the back coated until 09:00, turned by two, the face from 09:01, on five minutes of
 * the clock. */
static void two_turn_a_heavy_part(void **state)
{
    (void)state;
    for (int people = 1; people <= 3; people++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        panel_init(&panel);
        panel_add_step(&panel, 0, STEP_COAT);
        panel_two_sides(&panel, 0);
        panel.pieces[0].lift = 2;
        panel.job.shop.people = people;
        struct variant *variant =
            ordered(panel_site(arena, &panel), (int[]){0, 1, 2}, (size_t[]){1, 1, 1, 0});
        variant_place(variant, SCUFF_NEVER, WITHOUT_END);
        check_placed(HERE, variant, "0 | 1 | 2", (int32_t[]){480, 540, 545});
        const struct batch *turn = &variant->draft->placed[1].batch;
        check_int(HERE, turn->helper, people > 1 ? 1 : SITE_NONE);
        check_int(HERE, turn->person, 0);
        check_int(HERE, variant->draft->placed[0].batch.helper, SITE_NONE);
        arena_free(arena);
    }
}

/* A turn alone is no batch of coats: it has no set-up. Among coats it is one of them. */
static void turns_alone_and_among_coats(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_two_sides(&panel, 0);
    panel.job.shop.set_up_min[TOOL_CLOTH] = 10;
    struct site *site = panel_site(arena, &panel);
    struct variant *variant = ordered(site, (int[]){0, 1, 2}, (size_t[]){1, 1, 1, 0});
    variant->order.runs[1].kind = site->rows[0].kind;
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 | 1 | 2", (int32_t[]){490, 550, 565});
    variant = ordered(site, (int[]){0, 1, 2}, (size_t[]){3, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 1 2", (int32_t[]){490, 550, 551});
    arena_free(arena);
}

/* Without effort nothing is placed; what was held back before is not any more. */
static void effort_and_what_was_held(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    sanded_and_coated(&panel, (double[]){1}, 1);
    struct variant *variant = ordered(panel_site(arena, &panel), (int[]){0, 1}, (size_t[]){1, 1, 0});
    variant_place(variant, SCUFF_NEVER, 0);
    check_true(HERE, !variant->whole && variant->draft->effort_limit == INT64_MAX, "no effort");
    variant->draft->hold[0] = 700;
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 | 1", (int32_t[]){480, 540});
    arena_free(arena);
}

/* A and B are coated in one batch, until 10:00 and 13:00; each is to be coated again 1 to 3 h later. A's 2
 * h from 13:00 on keep its window; B's 3 h behind them would not end by 17:00, and waiting does not help.
 * Where the batch is halved B is coated on Tuesday. */
static void the_batch_that_opened_is_halved(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    for (size_t i = 0; i < 2; i++)
        panel_add_step(&panel, i, STEP_COAT)->coats = 2;
    panel_set_hours(&panel, 0, 2);
    panel_set_hours(&panel, 1, 3);
    panel_set_window(&panel, 60, 180);
    panel.finish.refuses_late_recoat = true;
    struct variant *variant = ordered(panel_site(arena, &panel), (int[]){0, 2, 1, 3}, (size_t[]){2, 1, 1, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 | 2 | 1 | 3", (int32_t[]){480, 660, site_at(2, 8, 0), site_at(2, 12, 0)});
    arena_free(arena);
}

/* A and B are coated in one batch and again the next day, as the first pair is dry after 10 h. With a
 * window of 20 h it waits until 11:00, and is not divided for that. */
static void the_batch_that_opened_waits(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    for (size_t i = 0; i < 2; i++)
        panel_add_step(&panel, i, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 600, 1200);
    panel.finish.refuses_late_recoat = true;
    struct variant *variant = ordered(panel_site(arena, &panel), (int[]){0, 2, 1, 3}, (size_t[]){2, 2, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_placed(HERE, variant, "0 2 | 1 3", (int32_t[]){660, site_at(2, 8, 0), 720, site_at(2, 9, 0)});
    arena_free(arena);
}

/* Somebody is there at night too, but is busy on so many first ones from 17:00 to 08:00: a second coat, within 10 to 14 hours, is missed
 * each day until then. */
static void busy_at_night(struct arena *arena, struct panel *panel, int nights)
{
    struct busy *busy = ARENA_ARRAY(arena, (size_t)nights, struct busy);
    static const struct stretch all_day = {0, DAY_MINUTES};
    panel_set_window(panel, 600, 840);
    for (int day = 0; day < 7; day++)
        panel->job.shop.hours[day] = (struct shop_day){&all_day, 1};
    for (int night = 0; night < nights; night++)
        busy[night] = (struct busy){march(1 + night, 17, 0), march(2 + night, 8, 0)};
    panel->job.shop.busy = busy;
    panel->job.shop.busy_count = (size_t)nights;
}

/* Where it may be scuffed for, the first coat waits for the second night at the most. */
static void two_nights_are_waited_for(void **state)
{
    (void)state;
    for (int nights = 2; nights <= 3; nights++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        panel_init(&panel);
        panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
        busy_at_night(arena, &panel, nights);
        struct variant *variant = ordered(panel_site(arena, &panel), (int[]){0, 2}, (size_t[]){1, 1, 0});
        variant_place(variant, SCUFF_IF_NEEDED, WITHOUT_END);
        const int32_t waited[] = {site_at(3, 8, 0), SITE_NONE, site_at(3, 19, 0)};
        const int32_t scuffed[] = {480, site_at(2, 8, 0), site_at(2, 9, 0)};
        check_placed(HERE, variant, nights == 2 ? "0 | 2" : "0 | 1 | 2", nights == 2 ? waited : scuffed);
        arena_free(arena);
    }
}

/* In an order that keeps batches together the openers of two windows wait day by day, twenty times; then their batch is halved. */
static void twenty_nights_are_waited_for(void **state)
{
    (void)state;
    for (int nights = 20; nights <= 21; nights++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        panel_init(&panel);
        panel_add_piece(&panel);
        for (size_t i = 0; i < 2; i++)
            panel_add_step(&panel, i, STEP_COAT)->coats = 2;
        panel.finish.refuses_late_recoat = true;
        busy_at_night(arena, &panel, nights);
        struct variant *variant =
            ordered(panel_site(arena, &panel), (int[]){0, 2, 1, 3}, (size_t[]){2, 2, 0});
        variant->waits = true;
        variant_place(variant, SCUFF_NEVER, WITHOUT_END);
        if (nights == 20)
            check_placed(
                HERE, variant, "0 2 | 1 3",
                (int32_t[]){site_at(21, 8, 0), site_at(21, 19, 0), site_at(21, 9, 0), site_at(21, 20, 0)});
        else
            check_true(HERE, variant->order.run_count > 2, "it is halved");
        arena_free(arena);
    }
}

/* What was laid before asks the second coat to begin by 09:50; the first is done at 09:00 and dry at
 * 10:00. It is scuffed for, from 10:00 to 11:00, where that is allowed. */
static void a_window_from_before(void **state)
{
    (void)state;
    for (int scuffs = 0; scuffs < SCUFFINGS; scuffs++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        panel_init(&panel);
        panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
        panel_set_window(&panel, 60, DAY_MINUTES);
        struct site *site = panel_site(arena, &panel);
        struct operation operation = *site->rows[2].operation;
        site->rows[2].operation = &operation;
        site->rows[2].latest = 590;
        operation.latest_unless = 1;
        struct variant *variant = ordered(site, (int[]){0, 2}, (size_t[]){1, 1, 0});
        variant_place(variant, (enum scuffing)scuffs, WITHOUT_END);
        if (scuffs == SCUFF_NEVER)
            check_true(HERE, !variant->whole, "it is missed");
        else
            check_placed(HERE, variant, "0 | 1 | 2", (int32_t[]){480, 600, 660});
        operation.latest_unless = -1;
        variant = ordered(site, (int[]){0, 2}, (size_t[]){1, 1, 0});
        variant_place(variant, (enum scuffing)scuffs, WITHOUT_END);
        check_true(HERE, !variant->whole, "no scuff lifts it");
        arena_free(arena);
    }
}

/* The first coat was done at 09:00 on Monday, and its window ended at 14:00; it is 15:00. What is left is
 * the late scuff (0) and the second coat (1). */
static void a_window_of_what_was_done(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 60, 300);
    struct log_entry entries[] = {{.number = 1,
                                   .kind = LOG_DONE,
                                   .step = "a/oil/1/apply",
                                   .began_min = march(1, 8, 0),
                                   .done_min = march(1, 9, 0),
                                   .used_l = -1}};
    panel.job.log = (struct log){.file = "log", .entries = entries, .count = 1, .last = 1};
    panel.job.now_min = march(1, 15, 0);
    struct site *site = panel_site(arena, &panel);
    struct variant *variant = ordered(site, (int[]){1}, (size_t[]){1, 0});
    variant_place(variant, SCUFF_NEVER, WITHOUT_END);
    check_true(HERE, !variant->whole, "it is missed");
    variant_place(variant, SCUFF_IF_NEEDED, WITHOUT_END);
    check_placed(HERE, variant, "0 | 1", (int32_t[]){900, 960});
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(the_first_that_can_be_done), CHECK_TEST(batches_that_wait_for_each_other),
                     CHECK_TEST(the_cheaper_is_divided), CHECK_TEST(as_many_as_a_day_holds),
                     CHECK_TEST(the_shortest_first), CHECK_TEST(a_window_that_can_be_kept),
                     CHECK_TEST(a_window_that_cannot), CHECK_TEST(for_the_sake_of_others),
                     CHECK_TEST(by_whom), CHECK_TEST(who_is_through_first), CHECK_TEST(two_turn_a_heavy_part),
                     CHECK_TEST(turns_alone_and_among_coats), CHECK_TEST(effort_and_what_was_held),
                     CHECK_TEST(the_batch_that_opened_is_halved), CHECK_TEST(the_batch_that_opened_waits),
                     CHECK_TEST(two_nights_are_waited_for), CHECK_TEST(twenty_nights_are_waited_for),
                     CHECK_TEST(a_window_from_before), CHECK_TEST(a_window_of_what_was_done));
}
