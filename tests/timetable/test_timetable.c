/* The worked problems of the method (section 7) to the minute: worked by hand, and confirmed by two other programs when the
 * page was written. Shop open 08:00-17:00 daily, one person, air at reference, unless said otherwise; 1 March 2027 is a
 * Monday. */
#include "check.h"
#include "panel_site.h"

#include "base/arena.h"

static void problem_1_one_coat(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_state(&panel, STATE_HANDLE, 6 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    check_ready(HERE, timetable, march(1, 15, 0));
    check_true(HERE, timetable->ready_proven, "the longest path shows it");
    arena_free(arena);
}

static void problem_2_two_coats(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_state(&panel, STATE_RECOAT, 10 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    check_starts(HERE, timetable, "a/oil/2/apply", march(2, 8, 0));
    arena_free(arena);
}

static void problem_3_window(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel.finish.refuses_late_recoat = true;
    panel_set_window(&panel, 10 * 60, 20 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 11, 0));
    check_starts(HERE, timetable, "a/oil/2/apply", march(2, 8, 0));
    arena_free(arena);
}

static void problem_3_window_refused(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel.finish.refuses_late_recoat = true;
    panel_set_window(&panel, 10 * 60, 14 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_int(HERE, timetable->status, TIMETABLE_IMPOSSIBLE);
    check_true(HERE, timetable->step_count == 0 && timetable->why_count > 0, "no steps, a reason");
    arena_free(arena);
}

static void problem_3_window_scuffed(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 10 * 60, 14 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    check_starts(HERE, timetable, "a/oil/1/scuff-320", march(2, 8, 0));
    check_starts(HERE, timetable, "a/oil/2/apply", march(2, 9, 0));
    arena_free(arena);
}

static void problem_4_polish(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel.finish.has_polish = true;
    panel.finish.polish = (struct span_range){10, 20};
    panel.job.shop.rate_m2_per_h[WORK_POLISH] = 4;
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    check_starts(HERE, timetable, "a/oil/1/polish", march(1, 9, 10));
    check_starts(HERE, timetable, "b/oil-b/1/apply", march(1, 9, 25));
    arena_free(arena);
}

static void problem_5_two_sides(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_two_sides(&panel, 0);
    panel_set_hours(&panel, 0, 0.5);
    panel_set_state(&panel, STATE_HANDLE, 4 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1b/apply", march(1, 8, 0));
    check_starts(HERE, timetable, "a/oil/1b/flip", march(1, 12, 30));
    check_starts(HERE, timetable, "a/oil/1f/apply", march(1, 12, 31));
    arena_free(arena);
}

/* The rim has the back's schedule, which is on no face: it is laid with the back. */
static void a_rim_goes_with_the_back(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, panel_add_piece(&panel), STEP_COAT);
    panel.job.piece_count = 1;
    panel.pieces[0].laid = LAID_FLAT;
    panel.parts[1].piece = 0;
    panel.surface_items[1] =
        (struct surface){.part = 1, .region = REGION_BACK, .schedule = 1, .area_m2 = 1.0};
    panel.surface_items[2] =
        (struct surface){.part = 1, .region = REGION_EDGES, .schedule = 1, .area_m2 = 0.25};
    panel.surfaces.count = 3;
    struct timetable *timetable = panel_dated(arena, &panel);
    check_int(HERE, (intmax_t)timetable->step_count, 3);
    check_double(HERE, pass_area_m2(&timetable_find(timetable, "a/oil-b/1b/apply")->operation->pass), 1.25,
                 0);
    check_double(HERE, pass_area_m2(&timetable_find(timetable, "a/oil/1f/apply")->operation->pass), 1, 0);
    arena_free(arena);
}

/* Contract, section 8: two coats: back, flip, face, flip, back, flip, face: 3 flips. */
static void two_coats_three_flips(void **state)
{
    (void)state;
    static const char *const want[] = {
        "a/oil/0/sand-180",  "a/oil/1b/apply", "a/oil/1b/flip", "a/oil/1f/apply",    "a/oil/1f/flip",
        "a/oil/1b/sand-320", "a/oil/2b/apply", "a/oil/2b/flip", "a/oil/1f/sand-320", "a/oil/2f/apply"};
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel.finish.between_grit = 320;
    struct step *coats = panel_add_step(&panel, 0, STEP_COAT);
    coats->coats = 2;
    coats->between = step_usual_between(arena, &panel.finish, coats->by);
    panel_two_sides(&panel, 0);
    panel_set_hours(&panel, 0, 0.5);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_int(HERE, (intmax_t)timetable->step_count, 10);
    for (size_t i = 0; i < 10; i++)
        check_text(HERE, timetable->steps[i].operation->id, want[i]);
    arena_free(arena);
}

static void problem_6_dust(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_SAND);
    panel_set_hours(&panel, 0, 0.5);
    panel_set_state(&panel, STATE_DUST_FREE, 2 * 60);
    panel_set_state(&panel, STATE_HANDLE, 6 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    check_starts(HERE, timetable, "b/oil-b/0/sand-180", march(1, 10, 30));
    check_ready(HERE, timetable, march(1, 14, 30));
    arena_free(arena);
}

static void problem_7_night(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel.spells[0] = (struct air_spell){8 * 60, {23, 0.5}};
    panel.spells[1] = (struct air_spell){18 * 60, {13, 0.5}};
    panel.job.shop.air.daily.spell_count = 2;
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_hours(&panel, 0, 2);
    panel_set_state(&panel, STATE_HANDLE, 12 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_ready(HERE, timetable, march(2, 2, 0));
    arena_free(arena);
}

static void problem_8_rack(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel.job.shop.rack_m2 = 1;
    panel.pieces[0].rack_m2 = panel.pieces[1].rack_m2 = 0.6;
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT);
    panel_set_state(&panel, STATE_HANDLE, 6 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "b/oil-b/1/apply", march(1, 15, 0));
    check_ready(HERE, timetable, march(1, 22, 0));
    arena_free(arena);
}

/* The job planned, or the mistake that is found in it. */
static struct timetable *planned_or(struct arena *arena, struct panel *panel, struct err_list *errors)
{
    const struct operations *operations = timetable_operations(arena, &panel->job, &panel->surfaces, errors);
    return operations ? timetable_make(arena, operations, (struct timetable_options){0}) : NULL;
}

/* 08:00 to 17:00 is 9 h: a coat of 9 h fits without a set-up, and not with one of 5 min. */
static void a_part_as_long_as_the_day(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_hours(&panel, 0, 9);
    check_starts(HERE, planned_or(arena, &panel, &errors), "a/oil/1/apply", march(1, 8, 0));
    panel.job.shop.set_up_min[TOOL_CLOTH] = 5;
    check_true(HERE, planned_or(arena, &panel, &errors) == NULL && errors.count == 1, "one mistake");
    check_text(HERE, errors.items[0].found,
               "a/oil/1/apply: one part takes 9 h 5 min in one go with its set-up or clean-up, and the "
               "longest stretch "
               "of work is 9 h: lengthen a stretch, or enter the part as several");
    arena_free(arena);
}

/* 08:00 to 12:00 and 13:00 to 17:00, set-up 10: a coat of 4 h is too long by itself. Behind one of 3 h, 08:10 to 11:10, it fits the
 * afternoon, for a cloth may rest 2 h. With a clean-up of 10 it could only stand between two others. */
static void a_part_as_long_as_a_stretch(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct panel panel;
    panel_init(&panel);
    panel.stretches[0] = (struct stretch){8 * 60, 12 * 60};
    panel.stretches[1] = (struct stretch){13 * 60, 17 * 60};
    for (int day = 0; day < 7; day++)
        panel.job.shop.hours[day] = (struct shop_day){panel.stretches, 2};
    panel.job.shop.set_up_min[TOOL_CLOTH] = 10;
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_hours(&panel, 0, 4);
    check_true(HERE, planned_or(arena, &panel, &errors) == NULL && errors.count == 1, "too long alone");
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_COAT);
    panel_set_hours(&panel, 1, 3);
    struct timetable *timetable = planned_or(arena, &panel, &errors);
    check_starts(HERE, timetable, "b/oil-b/1/apply", march(1, 8, 10));
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 13, 0));
    panel.job.shop.clean_up_min[TOOL_CLOTH] = 10;
    check_true(HERE, planned_or(arena, &panel, &errors) == NULL && errors.count == 2, "too long for two");
    arena_free(arena);
}

/* A finish of two components that stands 30 min and lives 150, so that a mix is applied for (150 - 30) x 0.9 = 108 min; A takes 80
 * and B 50, set-up and clean-up 10; 08:00 to 12:00 and 12:30 to 17:00, begun at 09:50. */
static void stir_in_two(struct panel *panel, struct component *components)
{
    panel_init(panel);
    components[0] = components[1] = panel->component;
    panel->finish.components = components;
    panel->finish.component_count = 2;
    panel->finish.pot_life_min = 150;
    panel->finish.induction_min = 30;
    panel->job.start_min = march(1, 9, 50);
    panel->stretches[0] = (struct stretch){8 * 60, 12 * 60};
    panel->stretches[1] = (struct stretch){12 * 60 + 30, 17 * 60};
    for (int day = 0; day < 7; day++)
        panel->job.shop.hours[day] = (struct shop_day){panel->stretches, 2};
    panel->job.shop.set_up_min[TOOL_CLOTH] = panel->job.shop.two_part_clean_up_min[TOOL_CLOTH] = 10;
    panel_add_piece(panel);
    panel_add_step(panel, 0, STEP_COAT);
    panel_add_step(panel, 1, STEP_COAT);
    panel_set_hours(panel, 0, 80.0 / 60);
    panel_set_hours(panel, 1, 50.0 / 60);
}

static void stirred_at(const struct row *row, const struct timetable *timetable, int64_t first,
                       int64_t second)
{
    check_int(row, (intmax_t)timetable->batch_count, 1);
    check_int(row, (intmax_t)timetable->batches[0].mix_count, 2);
    check_int(row, timetable->batches[0].mixes[0].at_min, first);
    check_int(row, timetable->batches[0].mixes[1].at_min, second);
}

/* Soonest: stirred 10:00, A 10:35 to 11:55; the mix lives until 12:35, so the cloth may rest at lunch, but is applied until 12:23 only:
 * the next is stirred at 12:30, when somebody is there again, and stands until 13:05. B until 13:55. */
static void no_mix_is_stirred_in_a_break(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct component components[2];
    struct panel panel;
    stir_in_two(&panel, components);
    const struct operations *operations = timetable_operations(arena, &panel.job, &panel.surfaces, &errors);
    struct timetable *timetable =
        timetable_make(arena, operations, (struct timetable_options){.aim = AIM_SOONEST});
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 10, 35));
    check_starts(HERE, timetable, "b/oil-b/1/apply", march(1, 13, 5));
    stirred_at(HERE, timetable, march(1, 10, 0), march(1, 12, 30));
    check_int(HERE, timetable->hands_on_min, 220);
    arena_free(arena);
}

/* The least work does not wait twice: all of it behind lunch, set-up 12:30, stirred 12:40, A 13:15 to 14:35. The second mix is
 * stirred at 14:05, while A is done; its minutes of mixing are those before B, 14:40. 10 + 5 + 30 + 80 + 5 + 50 + 10 = 190. */
static void a_mix_stands_while_the_one_before_is_used(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct component components[2];
    struct panel panel;
    stir_in_two(&panel, components);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 13, 15));
    check_starts(HERE, timetable, "b/oil-b/1/apply", march(1, 14, 40));
    stirred_at(HERE, timetable, march(1, 12, 40), march(1, 14, 5));
    check_int(HERE, timetable->hands_on_min, 190);
    arena_free(arena);
}

/* Ann sands and Bob coats. Two pieces of an hour of each: Ann sands them by 10:00, Bob coats the first from 09:00, while she sands the
 * other, and that one until 11:00. */
static void who_does_what(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    for (size_t i = 0; i < 2; i++) {
        panel_add_step(&panel, i, STEP_SAND);
        panel_add_step(&panel, i, STEP_COAT);
    }
    panel.job.shop.dust_separate = true;
    struct person crew[] = {shop_person(&panel.job.shop, 0), shop_person(&panel.job.shop, 0)};
    crew[0].name = "Ann";
    crew[0].does = 1 << WORK_SAND;
    crew[1].name = "Bob";
    crew[1].does = 1 << TOOL_CLOTH;
    panel.job.shop.crew = crew;
    panel.job.shop.people = 2;
    panel.job.deliver_min = march(1, 11, 0);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_ready(HERE, timetable, march(1, 11, 0));
    for (size_t i = 0; i < timetable->step_count; i++)
        check_int(HERE, timetable->steps[i].person, timetable->steps[i].operation->doing == DO_APPLY ? 2 : 1);
    /* Without anything to sand Bob works alone. */
    panel.steps[0][0] = panel.steps[0][1];
    panel.steps[1][0] = panel.steps[1][1];
    panel.schedules[0].step_count = panel.schedules[1].step_count = 1;
    timetable = panel_dated(arena, &panel);
    check_ready(HERE, timetable, march(1, 10, 0));
    check_int(HERE, timetable->steps[0].person, 2);
    arena_free(arena);
}

/* Four parts of 0.25 m2 lie on 1 m2, and the rack has 0.55: they are coated two at a time, the second two when the first, ready to be
 * handled at 11:00 after half an hour of work and 2.5 h of drying, have left the rack. */
static void a_rack_for_two_of_four(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel.parts[0].qty = 4;
    panel.pieces[0].laid = LAID_FLAT;
    panel.job.shop.rack_m2 = 0.55;
    panel_set_state(&panel, STATE_HANDLE, 150);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_int(HERE, (intmax_t)timetable->step_count, 2);
    check_int(HERE, timetable->steps[0].start_min, march(1, 8, 0));
    check_int(HERE, timetable->steps[1].start_min, march(1, 11, 0));
    check_ready(HERE, timetable, march(1, 14, 0));
    arena_free(arena);
}

/* Before there are batches both sides of a coat share what stays in the tool by their litres: three of four have the back, which is three
 * times as large. */
static void sides_share_what_stays_in_the_tool(void **state)
{
    (void)state;
    for (int sanded = 0; sanded < 2; sanded++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        panel_init(&panel);
        if (sanded)
            panel_add_step(&panel, 0, STEP_SAND);
        panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
        panel_two_sides(&panel, 0);
        panel.surface_items[1].area_m2 = 3;
        const struct operations *operations = panel_operations(arena, &panel);
        const double *shares = timetable_blank(arena, operations)->loss_share;
        for (int coat = 1; coat <= 2; coat++) {
            int back = panel_item(operations, arena_textf(arena, "a/oil/%db/apply", coat));
            int face = panel_item(operations, arena_textf(arena, "a/oil/%df/apply", coat));
            check_double(HERE, shares[back], 0.75, 1e-12);
            check_double(HERE, shares[face], 0.25, 1e-12);
        }
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(
        CHECK_TEST(problem_1_one_coat), CHECK_TEST(problem_2_two_coats), CHECK_TEST(problem_3_window),
        CHECK_TEST(problem_3_window_refused), CHECK_TEST(problem_3_window_scuffed),
        CHECK_TEST(problem_4_polish), CHECK_TEST(problem_5_two_sides), CHECK_TEST(two_coats_three_flips),
        CHECK_TEST(a_rim_goes_with_the_back), CHECK_TEST(problem_6_dust), CHECK_TEST(problem_7_night),
        CHECK_TEST(problem_8_rack), CHECK_TEST(a_part_as_long_as_the_day),
        CHECK_TEST(a_part_as_long_as_a_stretch), CHECK_TEST(no_mix_is_stirred_in_a_break),
        CHECK_TEST(a_mix_stands_while_the_one_before_is_used), CHECK_TEST(who_does_what),
        CHECK_TEST(a_rack_for_two_of_four), CHECK_TEST(sides_share_what_stays_in_the_tool));
}
