/* Steps of pieces with two sides, several schedules or a patch. */
#include "steps_words.h"

#include "base/arena.h"

/* A is flat, with three coats on the face and one on the back, or the other way round; rubbed at last,
 * where the three are. */
static void fewer_coats(struct panel *panel, enum region three, enum region one)
{
    panel_init(panel);
    panel_add_step(panel, 0, STEP_SAND);
    panel_add_step(panel, 0, STEP_COAT)->coats = 3;
    panel_add_step(panel, 0, STEP_RUB)->words = "wax";
    panel_two_sides(panel, 0);
    panel_add_piece(panel);
    panel_add_step(panel, 1, STEP_COAT);
    panel->job.piece_count = panel->job.part_count = 1;
    panel->surfaces.count = 2;
    for (int i = 0; i < 2; i++)
        panel->surface_items[i].schedule = panel->surface_items[i].region == one;
    panel->parts[0].schedule[three] = 0;
    panel->parts[0].schedule[one] = 1;
}

/* The back has its one coat first, the face its three; the other way round the face is coated last. What
 * is done on bare wood and at last is done once, all over. */
static void one_side_has_fewer_coats(void **state)
{
    (void)state;
    struct panel panel;
    fewer_coats(&panel, REGION_FACE, REGION_BACK);
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil-b/1b/apply\n"
                "a/oil-b/1b/flip: handle of a/oil-b/1b/apply\n"
                "a/oil/1f/apply\n"
                "a/oil/2f/apply: recoat of a/oil/1f/apply\n"
                "a/oil/3f/apply: recoat of a/oil/2f/apply\n"
                "a/oil/3/rub: sand of a/oil/3f/apply\n"
                "ready: handle of a/oil-b/1b/apply\n"
                "ready: handle of a/oil/3f/apply\n"
                "ready: 0 min after a/oil/3/rub\n");
    fewer_coats(&panel, REGION_BACK, REGION_FACE);
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil/1b/apply\n"
                "a/oil/2b/apply: recoat of a/oil/1b/apply\n"
                "a/oil/3b/apply: recoat of a/oil/2b/apply\n"
                "a/oil/3b/flip: handle of a/oil/3b/apply\n"
                "a/oil-b/1f/apply\n"
                "a/oil/3/rub: sand of a/oil/3b/apply\n"
                "ready: handle of a/oil/3b/apply\n"
                "ready: handle of a/oil-b/1f/apply\n"
                "ready: 0 min after a/oil/3/rub\n");
}

/* A part is turned when it is dry to handle, or wet where its finish or the piece says so; the piece has
 * the last word. */
static void turned_wet_or_dry(void **state)
{
    (void)state;
    static const struct {
        bool by_finish;
        enum flip flip;
        bool wet;
    } rows[] = {{false, FLIP_BY_FINISH, false},
                {true, FLIP_BY_FINISH, true},
                {true, FLIP_DRY, false},
                {false, FLIP_NOW, true}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        fewer_coats(&panel, REGION_BACK, REGION_FACE);
        panel.finish.flip_now = rows[i].by_finish;
        panel.pieces[0].flip = rows[i].flip;
        const struct operations *operations = panel_operations(arena, &panel);
        int flip = panel_item(operations, "a/oil/3b/flip"), waits = 0;
        for (size_t k = 0; k < operations->link_count; k++)
            waits += operations->links[k].to == flip && operations->links[k].kind == LINK_STATE &&
                     operations->links[k].state == STATE_HANDLE;
        check_int(HERE, waits, !rows[i].wet);
        arena_free(arena);
    }
}

/* What is done at last on one side counts its own coats. */
static void rubbed_on_the_side_with_fewer(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    panel_two_sides(&panel, 0);
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_COAT);
    panel_add_step(&panel, 1, STEP_RUB)->words = "wax";
    panel.job.piece_count = panel.job.part_count = 1;
    panel.surfaces.count = 2;
    panel.parts[0].schedule[REGION_BACK] = panel.surface_items[1].schedule = 1;
    check_steps(HERE, &panel,
                "a/oil-b/1b/apply\n"
                "a/oil-b/1b/flip: handle of a/oil-b/1b/apply\n"
                "a/oil/1f/apply\n"
                "a/oil/2f/apply: recoat of a/oil/1f/apply\n"
                "a/oil/3f/apply: recoat of a/oil/2f/apply\n"
                "a/oil-b/1/rub: sand of a/oil-b/1b/apply\n"
                "ready: handle of a/oil-b/1b/apply\n"
                "ready: handle of a/oil/3f/apply\n"
                "ready: 0 min after a/oil-b/1/rub\n");
}

/* On a piece that stands back and front have nothing to do with each other. */
static void what_stands_has_a_row_for_each_schedule(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_COAT);
    panel.job.piece_count = panel.job.part_count = 1;
    panel.surface_items[1].part = 0;
    panel.surface_items[1].region = REGION_BACK;
    panel.parts[0].schedule[REGION_BACK] = 1;
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil/1/apply\n"
                "a/oil-b/1/apply\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/apply\n"
                "ready: handle of a/oil-b/1/apply\n"
                "ready: 0 min after a/oil-b/1/apply\n");
}

/* B's schedule is that of a patch on A, which has a window. */
static void patch_on_a(struct panel *panel, struct patch *patch)
{
    panel_init(panel);
    panel_set_window(panel, 60, 600);
    panel_add_step(panel, 0, STEP_SAND);
    panel_add_step(panel, 0, STEP_COAT);
    panel_add_piece(panel);
    panel_add_step(panel, 1, STEP_SAND)->grit = 120;
    panel_add_step(panel, 1, STEP_COAT);
    panel->job.piece_count = panel->job.part_count = 1;
    panel->surface_items[1] =
        (struct surface){.region = patch->region, .schedule = 1, .area_m2 = 0.25, .patch = true};
    panel->pieces[0].patch = patch;
}

/* After the work on bare wood, before the first coat, which then keeps its window; a late scuff is of the
 * patch alone. */
static void a_patch_is_treated_first(void **state)
{
    (void)state;
    struct panel panel;
    struct patch patch = {.schedule = 1, .name = "oil-b", .area_m2 = 0.25, .region = REGION_FACE};
    patch_on_a(&panel, &patch);
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil-b/0/sand-120\n"
                "a/oil-b/1/apply\n"
                "a/oil-b/1/scuff-320: sand of a/oil-b/1/apply\n"
                "a/oil/1/apply: recoat of a/oil-b/1/apply, 0 min after a/oil-b/1/apply, in the window of "
                "a/oil-b/1/apply unless a/oil-b/1/scuff-320\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/apply\n");
}

/* Where no wood is sanded the patch is the first of all work: the late scuff is of the patch there, too. */
static void a_patch_before_anything_else(void **state)
{
    (void)state;
    struct panel panel;
    struct patch patch = {.schedule = 1, .name = "oil-b", .area_m2 = 0.25, .region = REGION_FACE};
    patch_on_a(&panel, &patch);
    for (size_t i = 0; i < 2; i++)
        panel.schedules[i] = (struct schedule){panel.schedules[i].name, &panel.steps[i][1], 1};
    check_steps(HERE, &panel,
                "a/oil-b/1/apply\n"
                "a/oil-b/1/scuff-320: sand of a/oil-b/1/apply\n"
                "a/oil/1/apply: recoat of a/oil-b/1/apply, 0 min after a/oil-b/1/apply, in the window of "
                "a/oil-b/1/apply unless a/oil-b/1/scuff-320\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/apply\n");
}

/* Rubbed, it has no window any more. */
static void a_patch_that_is_rubbed_at_last(void **state)
{
    (void)state;
    struct panel panel;
    struct patch patch = {.schedule = 1, .name = "oil-b", .area_m2 = 0.25, .region = REGION_FACE};
    patch_on_a(&panel, &patch);
    panel_add_step(&panel, 1, STEP_RUB)->words = "wax";
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil-b/0/sand-120\n"
                "a/oil-b/1/apply\n"
                "a/oil-b/1/rub: sand of a/oil-b/1/apply\n"
                "a/oil/1/apply: recoat of a/oil-b/1/apply\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/apply\n");
}

/* Nor behind a wait that is longer than it. */
static void a_patch_and_then_a_wait(void **state)
{
    (void)state;
    struct panel panel;
    struct patch patch = {.schedule = 1, .name = "oil-b", .area_m2 = 0.25, .region = REGION_FACE};
    patch_on_a(&panel, &patch);
    panel_add_step(&panel, 1, STEP_WAIT)->wait_min = 601;
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil-b/0/sand-120\n"
                "a/oil-b/1/apply\n"
                "a/oil/1/apply: recoat of a/oil-b/1/apply, 601 min after a/oil-b/1/apply\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/apply\n");
}

/* Where no coat follows its own must be dry at last. */
static void a_patch_of_what_is_only_sanded(void **state)
{
    (void)state;
    struct panel panel;
    struct patch patch = {.schedule = 1, .name = "oil-b", .area_m2 = 0.25, .region = REGION_FACE};
    patch_on_a(&panel, &patch);
    panel.schedules[0].step_count = 1;
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil-b/0/sand-120\n"
                "a/oil-b/1/apply\n"
                "ready: handle of a/oil-b/1/apply\n"
                "ready: 0 min after a/oil-b/1/apply\n");
}

/* A patch on the face: the part is turned for the back, and back again. On the back, which is first:
 * turned once. */
static void a_patch_on_either_side(void **state)
{
    (void)state;
    struct panel panel;
    struct patch patch = {.schedule = 1, .name = "oil-b", .area_m2 = 0.25, .region = REGION_FACE};
    patch_on_a(&panel, &patch);
    panel_two_sides(&panel, 0);
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil-b/0f/sand-120\n"
                "a/oil-b/1f/apply\n"
                "a/oil/0f/flip: handle of a/oil-b/1f/apply\n"
                "a/oil/1b/apply\n"
                "a/oil/1b/flip: handle of a/oil/1b/apply\n"
                "a/oil-b/1f/scuff-320: dust-free of a/oil/1b/apply, sand of a/oil-b/1f/apply\n"
                "a/oil/1f/apply: recoat of a/oil-b/1f/apply, 0 min after a/oil/1b/flip, in the window of "
                "a/oil-b/1f/apply unless a/oil-b/1f/scuff-320\n"
                "ready: handle of a/oil/1b/apply\n"
                "ready: handle of a/oil/1f/apply\n"
                "ready: 0 min after a/oil/1f/apply\n");
    patch.region = panel.surface_items[2].region = REGION_BACK;
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil-b/0b/sand-120\n"
                "a/oil-b/1b/apply\n"
                "a/oil-b/1b/scuff-320: sand of a/oil-b/1b/apply\n"
                "a/oil/1b/apply: recoat of a/oil-b/1b/apply, 0 min after a/oil-b/1b/apply, in the window of "
                "a/oil-b/1b/apply unless a/oil-b/1b/scuff-320\n"
                "a/oil/1b/flip: handle of a/oil/1b/apply\n"
                "a/oil/1f/apply\n"
                "ready: handle of a/oil/1b/apply\n"
                "ready: handle of a/oil/1f/apply\n"
                "ready: 0 min after a/oil/1f/apply\n");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(one_side_has_fewer_coats), CHECK_TEST(turned_wet_or_dry),
                     CHECK_TEST(what_stands_has_a_row_for_each_schedule),
                     CHECK_TEST(a_patch_is_treated_first), CHECK_TEST(a_patch_before_anything_else),
                     CHECK_TEST(a_patch_that_is_rubbed_at_last), CHECK_TEST(a_patch_and_then_a_wait),
                     CHECK_TEST(a_patch_of_what_is_only_sanded), CHECK_TEST(a_patch_on_either_side),
                     CHECK_TEST(rubbed_on_the_side_with_fewer));
}
