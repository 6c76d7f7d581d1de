/* The order of work in drawn plans: what the plan passes on is passed on in every draw, whatever the threads. Open
 * 08:00-17:00 daily, air at reference; shares in closed form agree within three standard errors. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "plan/chance.h"

#include <math.h>

enum { DRAWS = 20000 };

static const struct chance_spread none = {1, 1, false};

static struct chance_options options_of(struct chance_spread drying, struct chance_spread hands)
{
    return (struct chance_options){.seed = 7, .draws = DRAWS, .threads = 2, .drying = drying, .hands = hands};
}

static void check_share(const struct row *row, int32_t got, double want)
{
    double error = sqrt(want * (1 - want) / DRAWS);
    check_double(row, (double)got / DRAWS, want, 3 * error);
}

/* Two coats by two guns, so in two batches, of two hours that may not overlap, each 1 to 3 h long, done within 3 h. In slots each is 13 to 36, all as likely:
 * of 24 x 24 pairs those with a sum of at most 36 are 11 x 12 / 2 = 66. */
static double of_two_hands(struct panel *panel, struct chance_options *options)
{
    panel_add_piece(panel);
    for (size_t piece = 0; piece < 2; piece++) {
        panel_add_step(panel, piece, STEP_COAT)->by = piece == 0 ? TOOL_HVLP : TOOL_AIRLESS;
        panel_set_hours(panel, piece, 2);
    }
    panel->finish.by[TOOL_HVLP] = panel->finish.by[TOOL_AIRLESS] = true;
    for (int i = 0; i < 2; i++)
        panel->job.shop.transfer[i == 0 ? TOOL_HVLP : TOOL_AIRLESS] = 1;
    *options = options_of(none, (struct chance_spread){0.5, 1.5, true});
    panel->job.deliver_min = march(1, 11, 0);
    return 66.0 / 576;
}

static double one_pair_of_hands(struct panel *panel, struct chance_options *options)
{
    return of_two_hands(panel, options);
}

static double one_spray_place(struct panel *panel, struct chance_options *options)
{
    double want = of_two_hands(panel, options);
    panel->job.shop.people = 2;
    return want;
}

/* Method, problem 8: the rack holds one piece at a time, B waits until A may be handled, 3 to 9 h; ready 9 h of drying and an
 * hour of work after 09:00. Whole minutes round to the nearest: in slots a wait is 36 with 1/720, 37 to 107 with 1/72 each.
 * Two waits of at most 108 together: (0.25 + 180 + 25 x 630) / 360^2. */
static double one_place_on_the_rack(struct panel *panel, struct chance_options *options)
{
    panel_add_piece(panel);
    for (size_t piece = 0; piece < 2; piece++) {
        panel_add_step(panel, piece, STEP_COAT);
        panel->pieces[piece].rack_m2 = 0.6;
    }
    panel->job.shop.people = 2;
    panel->job.shop.rack_m2 = 1;
    panel_set_state(panel, STATE_HANDLE, 360);
    *options = options_of((struct chance_spread){0.5, 1.5, true}, none);
    panel->job.deliver_min = march(1, 19, 0);
    return 15930.25 / 129600;
}

/* A rack with room for both: A, coated 08:00-09:00, may lie there until 18:00; B comes at 16:00 and waits for nothing. It is ready
 * 3 to 9 h after 17:00, by 23:00 where a wait rounds to 360 min: f <= 360.5 / 360 of 0.5 to 1.5. */
static double room_for_both_on_the_rack(struct panel *panel, struct chance_options *options)
{
    panel_add_piece(panel);
    for (size_t piece = 0; piece < 2; piece++) {
        panel_add_step(panel, piece, STEP_COAT)->by = piece == 0 ? TOOL_CLOTH : TOOL_BRUSH;
        panel->pieces[piece].rack_m2 = 0.6;
    }
    panel->finish.by[TOOL_BRUSH] = true;
    panel->pieces[1].ready_min = march(1, 16, 0);
    panel->job.shop.rack_m2 = 1.2;
    panel_set_state(panel, STATE_HANDLE, 360);
    *options = options_of((struct chance_spread){0.5, 1.5, true}, none);
    panel->job.deliver_min = march(1, 23, 0);
    return 360.5 / 360 - 0.5;
}

/* Method, problem 6: B is sanded when A's coat (08:00-08:30) is dust-free, 24 to 48 min after it, and takes an hour. By 10:05
 * the film has 35 min: 120 f is rounded to a minute, f <= 35.5 / 120 of 0.2 to 0.4. */
static double dust_against_wet_films(struct panel *panel, struct chance_options *options)
{
    panel_add_piece(panel);
    panel_add_step(panel, 0, STEP_COAT);
    panel_add_step(panel, 1, STEP_SAND);
    panel_set_hours(panel, 0, 0.5);
    panel_set_state(panel, STATE_DUST_FREE, 120);
    panel_set_state(panel, STATE_HANDLE, 240);
    *options = options_of((struct chance_spread){0.2, 0.4, true}, none);
    panel->job.shop.people = 2;
    panel->job.deliver_min = march(1, 10, 5);
    return (35.5 / 120 - 0.2) / 0.2;
}

/* Two pieces in one batch, half an hour of set-up and an hour each: whoever is slow is so from the set-up to the last piece. The
 * second is done after 150 f minutes, f evenly 0.5 to 1.5; rounded to a minute at most 180: f <= 180.5 / 150. Were each piece
 * slow by itself, the sum of three would lie closer to the middle. */
static double one_batch(struct panel *panel, struct chance_options *options)
{
    panel_add_piece(panel);
    for (size_t piece = 0; piece < 2; piece++) {
        panel_add_step(panel, piece, STEP_COAT);
        panel_set_hours(panel, piece, 1);
    }
    for (int work = 0; work < WORK_COUNT; work++)
        panel->job.shop.set_up_min[work] = 30;
    *options = options_of(none, (struct chance_spread){0.5, 1.5, true});
    panel->job.deliver_min = march(1, 11, 0);
    return 180.5 / 150 - 0.5;
}

struct order_row {
    struct row row;
    double (*set)(struct panel *panel, struct chance_options *options); /* the share wanted */
};

static const struct order_row orders[] = {
    {ROW("hands"), one_pair_of_hands},        {ROW("a spray place"), one_spray_place},
    {ROW("the rack"), one_place_on_the_rack}, {ROW("room for both on the rack"), room_for_both_on_the_rack},
    {ROW("dust"), dust_against_wet_films},    {ROW("a batch slips as a whole"), one_batch},
};

/* What is passed from one step to the next in the plan is so in every draw. */
static void order_is_kept(void **state)
{
    const struct order_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct chance_options options;
    panel_init(&panel);
    double want = r->set(&panel, &options);
    check_share(&r->row, chance_make(arena, panel_dated(arena, &panel), options)->on_time, want);
    arena_free(arena);
}

/* Up to three pieces with every kind of step that changes the order of work. */
static void random_panel(struct panel *panel, uint64_t *seed)
{
    static const enum step_kind kinds[] = {STEP_SAND, STEP_COAT, STEP_COAT, STEP_RUB, STEP_WAIT};
    panel_init(panel);
    for (int more = check_random_int(seed, 0, 2); more > 0; more--)
        panel_add_piece(panel);
    for (size_t piece = 0; piece < panel->job.piece_count; piece++) {
        for (int k = check_random_int(seed, 1, 4); k > 0; k--) {
            struct step *step = panel_add_step(panel, piece, kinds[check_random_int(seed, 0, 4)]);
            step->coats = check_random_int(seed, 1, 2);
            step->words = "wool";
            step->wait_min = step->kind == STEP_WAIT ? 60 * check_random_int(seed, 1, 9) : -1;
        }
        panel_set_hours(panel, piece, 0.25 * check_random_int(seed, 1, 8));
        if (check_random_int(seed, 0, 3) == 0)
            panel_two_sides(panel, piece);
    }
    panel->job.shop.people = check_random_int(seed, 1, 2);
    panel->job.shop.settle_min = 15 * check_random_int(seed, 0, 2);
    panel->job.shop.dust_separate = check_random_int(seed, 0, 2) == 0;
    panel->job.shop.rack_m2 = check_random_int(seed, 0, 1) ? -1 : 4;
    panel_set_state(panel, STATE_DUST_FREE, 60);
    panel_set_state(panel, STATE_HANDLE, 60 * check_random_int(seed, 1, 8));
    int least_h = check_random_int(seed, 1, 12), most_h = check_random_int(seed, 24, 72);
    panel_set_window(panel, 60 * least_h, 60 * most_h);
    panel->finish.refuses_late_recoat = check_random_int(seed, 0, 1);
}

/* Where nothing deviates every draw is the plan. */
static void without_spread_it_is_the_plan(void **state)
{
    (void)state;
    uint64_t seed = 3;
    for (int round = 0, planned = 0; planned < 120; round++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        uint64_t before = seed;
        random_panel(&panel, &seed);
        const struct timetable *timetable = panel_dated(arena, &panel);
        check_true(HERE, round < 400, "plans are found");
        if (timetable->status == TIMETABLE_PLANNED && timetable->step_count > 0) {
            struct chance_options options = options_of(none, none);
            options.draws = 3;
            const struct chance *chance = chance_make(arena, timetable, options);
            const struct row row = {arena_textf(arena, "seed %llu", (unsigned long long)before), __FILE__,
                                    __LINE__};
            check_int(&row, chance->half_min, timetable->ready_min);
            check_int(&row, chance->nine_tenths_min, timetable->ready_min);
            check_int(&row, chance->on_time, timetable->late_min == 0 ? 3 : 0);
            check_int(&row, chance->scuffed + chance->spoiled, 0);
            planned++;
        }
        arena_free(arena);
    }
}

static void check_same(const struct chance *a, const struct chance *b)
{
    check_int(HERE, a->on_time, b->on_time);
    check_int(HERE, a->scuffed, b->scuffed);
    check_int(HERE, a->spoiled, b->spoiled);
    check_int(HERE, a->half_min, b->half_min);
    check_int(HERE, a->nine_tenths_min, b->nine_tenths_min);
    check_true(HERE, a->driver == b->driver && a->driver_state == b->driver_state, "the same driver");
    check_double(HERE, a->driver_share, b->driver_share, 0);
    check_int(HERE, a->driver_adds_min, b->driver_adds_min);
}

/* The answer is a matter of the seed, not of the threads; a later delivery is never met less often. */
static void threads_do_not_matter(void **state)
{
    (void)state;
    uint64_t seed = 11;
    for (int round = 0; round < 20; round++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        random_panel(&panel, &seed);
        const struct timetable *timetable = panel_dated(arena, &panel);
        if (timetable->status == TIMETABLE_PLANNED && timetable->step_count > 0) {
            struct timetable looser = *timetable;
            struct chance_options options = chance_defaults();
            options.draws = 301;
            options.threads = 1;
            const struct chance *one = chance_make(arena, timetable, options);
            looser.deliver_min += 90;
            check_true(HERE, chance_make(arena, &looser, options)->on_time >= one->on_time,
                       "more time helps");
            for (int threads = 2; threads <= 7; threads += 5) {
                options.threads = threads;
                check_same(chance_make(arena, timetable, options), one);
            }
        }
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(orders, order_is_kept), CHECK_TEST(without_spread_it_is_the_plan),
                     CHECK_TEST(threads_do_not_matter));
}
