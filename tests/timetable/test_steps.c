/* From a schedule to its steps, what each waits for, and what must be over before the job is ready. */
#include "check.h"
#include "panel_site.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/err.h"

static const char *link_told(struct arena *arena, const struct operations *operations,
                             const struct link *link)
{
    const char *from = operations->items[link->from].id;
    switch (link->kind) {
    case LINK_END:
        return arena_textf(arena, "%s%d min after %s", link->settles ? "settled " : "", link->span_min, from);
    case LINK_STATE:
        return arena_textf(arena, "%s of %s", finish_state_name(link->state), from);
    case LINK_WINDOW:
        return arena_textf(arena, "in the window of %s%s%s", from, link->unless >= 0 ? " unless " : "",
                           link->unless >= 0 ? operations->items[link->unless].id : "");
    case LINK_POLISH:
        return arena_textf(arena, "within %d min of %s", link->span_min, from);
    case LINK_DAY:
        return arena_textf(arena, "a day after %s", from);
    }
    return "";
}

/* A step a line, behind it what it waits for; but that it begins behind the one before it. Last what must be over. */
static const char *told(struct arena *arena, const struct operations *operations)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < operations->count; i++) {
        const char *before = ": ";
        buf_addf(&text, "%s", operations->items[i].id);
        for (size_t k = 0; k < operations->link_count; k++) {
            const struct link *link = &operations->links[k];
            bool plain = link->kind == LINK_END && link->span_min == 0 && link->from + 1 == link->to;
            if (link->to != (int)i || plain)
                continue;
            buf_addf(&text, "%s%s", before, link_told(arena, operations, link));
            before = ", ";
        }
        buf_addf(&text, "\n");
    }
    for (size_t i = 0; i < operations->line_count; i++) {
        const struct finish_line *line = &operations->lines[i];
        const char *of = operations->items[line->operation].id;
        if (line->is_state)
            buf_addf(&text, "ready: %s of %s\n", finish_state_name(line->state), of);
        else
            buf_addf(&text, "ready: %d min after %s\n", line->span_min, of);
    }
    return text.text;
}

static void check_steps(const struct row *row, struct panel *panel, const char *want)
{
    struct arena *arena = arena_make(0);
    check_text(row, told(arena, panel_operations(arena, panel)), want);
    arena_free(arena);
}

/* A coat waits until the one beneath may be recoated, what abrades until it may be sanded. */
static void a_schedule_in_its_order(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(&panel, 0, STEP_RUB)->words = "wax";
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/2/rub: sand of a/oil/2/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/rub\n");
}

/* The step between goes before further coats of one step. A coat on the piece waits until the dust that was raised on it last has
 * settled, but not where dust has a room of its own. */
static void dust_settles_before_a_coat(void **state)
{
    (void)state;
    struct panel panel;
    static const struct step between = {.kind = STEP_SCUFF, .grit = 320, .wait_min = -1};
    panel_init(&panel);
    panel.job.shop.settle_min = 30;
    struct step *coat = panel_add_step(&panel, 0, STEP_COAT);
    coat->coats = 3;
    coat->between = &between;
    panel_add_step(&panel, 0, STEP_SAND)->grit = 240;
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, settled 30 min after a/oil/1/scuff-320\n"
                "a/oil/2/scuff-320: sand of a/oil/2/apply\n"
                "a/oil/3/apply: recoat of a/oil/2/apply, settled 30 min after a/oil/2/scuff-320\n"
                "a/oil/3/sand-240: sand of a/oil/3/apply\n"
                "a/oil/4/apply: recoat of a/oil/3/apply, settled 30 min after a/oil/3/sand-240\n"
                "a/oil/5/apply: recoat of a/oil/4/apply, settled 30 min after a/oil/3/sand-240\n"
                "ready: handle of a/oil/5/apply\n"
                "ready: 0 min after a/oil/5/apply\n");
    panel.job.shop.dust_separate = true;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/2/scuff-320: sand of a/oil/2/apply\n"
                "a/oil/3/apply: recoat of a/oil/2/apply\n"
                "a/oil/3/sand-240: sand of a/oil/3/apply\n"
                "a/oil/4/apply: recoat of a/oil/3/apply\n"
                "a/oil/5/apply: recoat of a/oil/4/apply\n"
                "ready: handle of a/oil/5/apply\n"
                "ready: 0 min after a/oil/5/apply\n");
}

/* Grain that was raised dries 120 min, and the schedule waits for 30 more. What it waits for behind the last step must be over before
 * the job is ready: here 45 min, there that the last coat is cured. */
static void waits_add_up(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    struct step *raise = panel_add_step(&panel, 0, STEP_RAISE);
    raise->dry_min = 120;
    panel_add_step(&panel, 0, STEP_WAIT)->wait_min = 30;
    panel_add_step(&panel, 0, STEP_COAT);
    struct step *wait = panel_add_step(&panel, 0, STEP_WAIT);
    wait->wait_state = STATE_CURED;
    panel_add_step(&panel, 0, STEP_RUB)->words = "wax";
    panel_add_step(&panel, 0, STEP_WAIT)->wait_min = 45;
    check_steps(HERE, &panel,
                "a/oil/0/raise\n"
                "a/oil/1/apply: 150 min after a/oil/0/raise\n"
                "a/oil/1/rub: sand of a/oil/1/apply, cured of a/oil/1/apply\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 45 min after a/oil/1/rub\n");
    panel.schedules[0].step_count = 4;
    check_steps(HERE, &panel,
                "a/oil/0/raise\n"
                "a/oil/1/apply: 150 min after a/oil/0/raise\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: cured of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/apply\n");
}

/* Where the window may be missed a late scuff lifts it, with the grit of the finish, or 320; it may be left out, so that the coat
 * follows what was before it too. A finish that refuses late coats is not scuffed for. Sanding between lifts the window of any other. */
static void windows_and_what_lifts_them(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel.job.shop.settle_min = 30;
    panel_set_window(&panel, 60, 600);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, 0 min after a/oil/1/apply, settled 30 min after "
                "a/oil/1/scuff-320, in the window of a/oil/1/apply unless a/oil/1/scuff-320\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel.finish.between_grit = 240;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-240: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, 0 min after a/oil/1/apply, settled 30 min after "
                "a/oil/1/scuff-240, in the window of a/oil/1/apply unless a/oil/1/scuff-240\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel.finish.refuses_late_recoat = true;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, in the window of a/oil/1/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    static const struct step between = {.kind = STEP_SAND, .grit = 320, .wait_min = -1};
    panel.steps[0][0].between = &between;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/sand-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, settled 30 min after a/oil/1/sand-320, in the "
                "window of a/oil/1/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel.finish.refuses_late_recoat = false;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/sand-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, settled 30 min after a/oil/1/sand-320\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
}

/* A wait of the schedule that is longer than the window lifts it, be it of minutes or for a state. */
static void a_wait_lifts_the_window(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_set_window(&panel, 60, 600);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 0, STEP_WAIT)->wait_min = 601;
    panel_add_step(&panel, 0, STEP_COAT);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, 601 min after a/oil/1/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel.steps[0][1].wait_min = 600;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply, 600 min after a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, 600 min after a/oil/1/apply, in the window of "
                "a/oil/1/apply unless a/oil/1/scuff-320\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel.steps[0][1].wait_min = -1;
    panel.steps[0][1].wait_state = STATE_CURED;
    panel_set_state(&panel, STATE_CURED, 601);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, cured of a/oil/1/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel_set_state(&panel, STATE_CURED, 600);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply, cured of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, cured of a/oil/1/apply, 0 min after a/oil/1/apply, "
                "in the window of a/oil/1/apply unless a/oil/1/scuff-320\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
}

/* Two coats a day: the third is a day after the first. What the piece asks for holds where it is less. */
static void so_many_coats_a_day(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 5;
    panel.finish.coats_a_day = 2;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/3/apply: recoat of a/oil/2/apply, a day after a/oil/1/apply\n"
                "a/oil/4/apply: recoat of a/oil/3/apply, a day after a/oil/2/apply\n"
                "a/oil/5/apply: recoat of a/oil/4/apply, a day after a/oil/3/apply\n"
                "ready: handle of a/oil/5/apply\n"
                "ready: 0 min after a/oil/5/apply\n");
    panel.pieces[0].coats_a_day = 3;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/3/apply: recoat of a/oil/2/apply, a day after a/oil/1/apply\n"
                "a/oil/4/apply: recoat of a/oil/3/apply, a day after a/oil/2/apply\n"
                "a/oil/5/apply: recoat of a/oil/4/apply, a day after a/oil/3/apply\n"
                "ready: handle of a/oil/5/apply\n"
                "ready: 0 min after a/oil/5/apply\n");
    panel.pieces[0].coats_a_day = 1;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, a day after a/oil/1/apply\n"
                "a/oil/3/apply: recoat of a/oil/2/apply, a day after a/oil/2/apply\n"
                "a/oil/4/apply: recoat of a/oil/3/apply, a day after a/oil/3/apply\n"
                "a/oil/5/apply: recoat of a/oil/4/apply, a day after a/oil/4/apply\n"
                "ready: handle of a/oil/5/apply\n"
                "ready: 0 min after a/oil/5/apply\n");
}

/* What is polished 10 to 20 minutes after each coat has that of the schedule in it already, once. */
static void polishing_follows_its_coat(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel.finish.has_polish = true;
    panel.finish.polish = (struct span_range){10, 20};
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(&panel, 0, STEP_POLISH);
    panel_add_step(&panel, 0, STEP_POLISH);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/polish: 10 min after a/oil/1/apply, within 20 min of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/2/polish: 10 min after a/oil/2/apply, within 20 min of a/oil/2/apply\n"
                "a/oil/2/polish#2: sand of a/oil/2/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/polish#2\n");
    panel.finish.has_polish = false;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/2/polish: sand of a/oil/2/apply\n"
                "a/oil/2/polish#2: sand of a/oil/2/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/polish#2\n");
}

/* The back has its one coat first, the face its three; the other way round the face is coated last. A part is turned when it is dry
 * to handle, or wet where its finish or the piece says so; the piece has the last word. What is done on bare wood and at last is done
 * once, all over. */
static void one_side_has_fewer_coats(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    panel_add_step(&panel, 0, STEP_RUB)->words = "wax";
    panel_two_sides(&panel, 0);
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_COAT);
    panel.job.piece_count = panel.job.part_count = 1;
    panel.surfaces.count = 2;
    panel.parts[0].schedule[REGION_BACK] = panel.surface_items[1].schedule = 1;
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
    panel.parts[0].schedule[REGION_BACK] = panel.surface_items[1].schedule = 0;
    panel.parts[0].schedule[REGION_FACE] = panel.surface_items[0].schedule = 1;
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
    panel.finish.flip_now = true;
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil/1b/apply\n"
                "a/oil/2b/apply: recoat of a/oil/1b/apply\n"
                "a/oil/3b/apply: recoat of a/oil/2b/apply\n"
                "a/oil/3b/flip\n"
                "a/oil-b/1f/apply\n"
                "a/oil/3/rub: sand of a/oil/3b/apply\n"
                "ready: handle of a/oil/3b/apply\n"
                "ready: handle of a/oil-b/1f/apply\n"
                "ready: 0 min after a/oil/3/rub\n");
    panel.pieces[0].flip = FLIP_DRY;
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
    panel.finish.flip_now = false;
    panel.pieces[0].flip = FLIP_NOW;
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil/1b/apply\n"
                "a/oil/2b/apply: recoat of a/oil/1b/apply\n"
                "a/oil/3b/apply: recoat of a/oil/2b/apply\n"
                "a/oil/3b/flip\n"
                "a/oil-b/1f/apply\n"
                "a/oil/3/rub: sand of a/oil/3b/apply\n"
                "ready: handle of a/oil/3b/apply\n"
                "ready: handle of a/oil-b/1f/apply\n"
                "ready: 0 min after a/oil/3/rub\n");
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

/* After the work on bare wood, before the first coat, which then keeps its window; a late scuff is of the patch alone. */
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

/* A patch on the face: the part is turned for the back, and back again. On the back, which is first: turned once. */
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

/* Four parts in two lots. */
static void each_lot_by_itself(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel.parts[0].qty = 4;
    panel.pieces[0].lots = 2;
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    check_steps(HERE, &panel,
                "a.1/oil/0/sand-180\n"
                "a.1/oil/1/apply\n"
                "a.2/oil/0/sand-180\n"
                "a.2/oil/1/apply\n"
                "ready: handle of a.1/oil/1/apply\n"
                "ready: 0 min after a.1/oil/1/apply\n"
                "ready: handle of a.2/oil/1/apply\n"
                "ready: 0 min after a.2/oil/1/apply\n");
}

/* 9 h a day, so that 9 h 1 min are two parts, and 9 h are one; the same words before and behind a coat are two steps. */
static void a_task_is_cut_to_fit_the_day(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    struct step *task = panel_add_step(&panel, 0, STEP_TASK);
    task->words = "Glue up";
    task->takes_min = 541;
    panel_add_step(&panel, 0, STEP_COAT);
    task = panel_add_step(&panel, 0, STEP_TASK);
    task->words = "glue up";
    task->takes_min = 540;
    check_steps(HERE, &panel,
                "a/oil/0/glue-up\n"
                "a/oil/0/glue-up#2\n"
                "a/oil/1/apply\n"
                "a/oil/1/glue-up: handle of a/oil/1/apply\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/glue-up\n");
}

/* Left out: the sanding, and the last coat. Done again: the first coat, sanded before, and once more without. */
static void the_log_asks(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_set_window(&panel, 60, 600);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    struct log_entry entries[] = {{.number = 1, .kind = LOG_SKIP, .step = "a/oil/3/apply"},
                                  {.number = 2, .kind = LOG_AGAIN, .step = "a/oil/1/apply", .grit = 400},
                                  {.number = 3, .kind = LOG_AGAIN, .step = "a/oil/1/apply"},
                                  {.number = 4, .kind = LOG_SKIP, .step = "a/oil/0/sand-180"}};
    panel.job.log = (struct log){.file = "log", .entries = entries, .count = 4, .last = 4};
    panel.job.now_min = march(1, 8, 0);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/sand-400-again: sand of a/oil/1/apply\n"
                "a/oil/1/apply-again: recoat of a/oil/1/apply\n"
                "a/oil/1/apply-again-2: sand of a/oil/1/apply-again\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply-again-2\n"
                "a/oil/2/apply: recoat of a/oil/1/apply-again-2, 0 min after a/oil/1/apply-again-2, in the "
                "window of a/oil/1/apply-again-2 unless a/oil/1/scuff-320\n"
                "a/oil/2/scuff-320: sand of a/oil/2/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
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

/* A waits until B may be handled: its first step does. */
static void a_piece_behind_another(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT);
    panel.after[0] = (struct after){.index = 1, .state = STATE_HANDLE};
    panel.pieces[0].after = panel.after;
    panel.pieces[0].after_count = 1;
    check_steps(HERE, &panel,
                "a/oil/0/sand-180: handle of b/oil-b/1/apply\n"
                "a/oil/1/apply\n"
                "b/oil-b/1/apply\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/apply\n"
                "ready: handle of b/oil-b/1/apply\n"
                "ready: 0 min after b/oil-b/1/apply\n");
}

static const struct operation *the(const struct operations *operations, const char *id)
{
    return &operations->items[panel_item(operations, id)];
}

/* Three coats on the back, one on the face: what is rubbed at last lies on three of three. A coat is the last of its side. */
static void coats_are_counted(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    panel_add_step(&panel, 0, STEP_RUB)->words = "wax";
    panel_two_sides(&panel, 0);
    panel.pieces[0].dry_by_min = 1080;
    const struct operations *operations = panel_operations(arena, &panel);
    const struct operation *sand = the(operations, "a/oil/0/sand-180"), *rub = the(operations, "a/oil/3/rub");
    const struct operation *second = the(operations, "a/oil/2b/apply"),
                           *last = the(operations, "a/oil/3f/apply");
    check_true(HERE, sand->coat == 0 && sand->coats == 3 && rub->coat == 3 && rub->coats == 3,
               "around the coats");
    check_true(HERE, second->coat == 2 && second->coats == 3 && second->of.number == 2, "of a coat");
    check_true(HERE, second->of.of_finish == 2 && last->of.of_finish == 3, "of one finish in a row");
    check_true(HERE, !second->last_coat && last->last_coat, "the last of its side");
    check_true(HERE, last->dry_by_min == 1080 && sand->dry_by_min == 0, "by which hour it is dry");
    check_true(HERE, sand->dusty && !rub->dusty && !last->dusty, "what raises dust");
    check_true(HERE, sand->work == WORK_SAND && rub->work == WORK_RUB && last->work == TOOL_CLOTH,
               "whose set-up");
    arena_free(arena);
}

struct kind_row {
    struct row row;
    enum step_kind kind;
    int work;
    enum doing doing;
    bool dusty;
};

static const struct kind_row kinds[] = {
    {ROW("sand"), STEP_SAND, WORK_SAND, DO_SAND, true},
    {ROW("scuff"), STEP_SCUFF, WORK_SCUFF, DO_SCUFF, true},
    {ROW("raise"), STEP_RAISE, WORK_RAISE, DO_RAISE, false},
    {ROW("mask"), STEP_MASK, -1, DO_MASK, false},
    {ROW("polish"), STEP_POLISH, WORK_POLISH, DO_POLISH, false},
    {ROW("rub"), STEP_RUB, WORK_RUB, DO_RUB, false},
    {ROW("task"), STEP_TASK, -1, DO_TASK, false},
};

static void is_done_as(void **state)
{
    const struct kind_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    struct step *step = panel_add_step(&panel, 0, r->kind);
    step->words = "work";
    step->takes_min = 60;
    const struct operation *operation = &panel_operations(arena, &panel)->items[0];
    check_int(&r->row, operation->work, r->work);
    check_int(&r->row, operation->doing, r->doing);
    check_int(&r->row, operation->dusty, r->dusty);
    check_int(&r->row, operation->minutes, 60);
    arena_free(arena);
}

/* Nine coats: of seven a day the eighth waits for a day after the first, the ninth after the second; eight a day are no limit. */
static void many_coats_a_day(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 9;
    for (int a_day = 7; a_day <= 8; a_day++) {
        panel.finish.coats_a_day = a_day;
        const struct operations *operations = panel_operations(arena, &panel);
        int days = 0;
        for (size_t i = 0; i < operations->link_count; i++) {
            const struct link *link = &operations->links[i];
            days += link->kind == LINK_DAY;
            check_true(HERE, link->kind != LINK_DAY || link->to == link->from + 7, "seven later");
        }
        check_int(HERE, days, a_day == 7 ? 2 : 0);
    }
    arena_free(arena);
}

/* A coat of ten hours on one part fits no day of nine, be they days that come in three weeks only. */
static void too_long_for_any_day(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_hours(&panel, 0, 10);
    check_true(HERE, timetable_operations(arena, &panel.job, &panel.surfaces, &errors) == NULL, "refused");
    check_int(HERE, (intmax_t)errors.count, 1);
    struct day_range closed = {march(1, 0, 0) / DAY_MINUTES, march(22, 0, 0) / DAY_MINUTES};
    panel.job.shop.closed = &closed;
    panel.job.shop.closed_count = 1;
    check_true(HERE, timetable_operations(arena, &panel.job, &panel.surfaces, &errors) == NULL,
               "refused again");
    check_text(HERE, errors.items[0].found,
               "a/oil/1/apply: one part takes 10 h in one go and the longest stretch of work is 9 h: "
               "lengthen a stretch, or "
               "enter the part as several");
    arena_free(arena);
}

/* The last of two or three coats is left out: the one beneath is then the last. */
static void the_last_coat_that_is_left(void **state)
{
    (void)state;
    for (int coats = 2; coats <= 3; coats++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        panel_init(&panel);
        panel_add_step(&panel, 0, STEP_COAT)->coats = coats;
        struct log_entry entries[] = {
            {.number = 1, .kind = LOG_SKIP, .step = arena_textf(arena, "a/oil/%d/apply", coats)}};
        panel.job.log = (struct log){.file = "log", .entries = entries, .count = 1, .last = 1};
        panel.job.now_min = march(1, 8, 0);
        const struct operations *operations = panel_operations(arena, &panel);
        check_int(HERE, (intmax_t)operations->count, coats - 1);
        for (int i = 0; i < coats - 1; i++)
            check_int(HERE, operations->items[i].last_coat, i == coats - 2);
        arena_free(arena);
    }
}

/* Another finish between: its coats are counted anew. */
static void coats_of_one_finish_in_a_row(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    struct finish other = panel.finish;
    other.id = "other";
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(&panel, 0, STEP_COAT)->finish = &other;
    panel_add_step(&panel, 0, STEP_COAT);
    const struct operations *operations = panel_operations(arena, &panel);
    static const int want[] = {1, 2, 1, 1};
    for (int i = 0; i < 4; i++) {
        check_int(HERE, operations->items[i].of.of_finish, want[i]);
        check_int(HERE, operations->items[i].of.number, i + 1);
    }
    arena_free(arena);
}

/* A part is turned in a minute: four of a piece, two of a lot. */
static void every_part_is_turned(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_two_sides(&panel, 0);
    panel.parts[0].qty = 4;
    check_int(HERE, the(panel_operations(arena, &panel), "a/oil/1b/flip")->minutes, 4);
    panel.pieces[0].lots = 2;
    check_int(HERE, the(panel_operations(arena, &panel), "a.2/oil/1b/flip")->minutes, 2);
    arena_free(arena);
}

struct turn_row {
    struct row row;
    int lift;
    double thickness_m;
    int people;
};

/* Of 1 m by 500 mm; wood that is not named weighs 700 kg/m3, so that 25 kg are a board of 71.4 mm. */
static const struct turn_row turns[] = {
    {ROW("a light part"), 0, 0.071, 1},
    {ROW("a heavy part"), 0, 0.072, 2},
    {ROW("a light part that two turn"), 2, 0.02, 2},
    {ROW("a heavy part that one turns"), 1, 0.072, 1},
    {ROW("more than two are not told apart"), 3, 0.02, 2},
};

static void is_turned_by(void **state)
{
    const struct turn_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_two_sides(&panel, 0);
    panel.parts[0].size_m[DIM_THICKNESS] = r->thickness_m;
    panel.pieces[0].lift = r->lift;
    const struct operations *operations = panel_operations(arena, &panel);
    check_int(&r->row, the(operations, "a/oil/1b/flip")->people, r->people);
    check_int(&r->row, the(operations, "a/oil/1b/apply")->people, 1);
    arena_free(arena);
}

/* Masking takes 40 min for the piece and 3 for each part: of four parts in one lot 52, in two lots 20 and 6 each. */
static void lots_share_what_a_step_takes(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    struct step *mask = panel_add_step(&panel, 0, STEP_MASK);
    mask->takes_min = 40;
    mask->takes_each_min = 3;
    panel_add_step(&panel, 0, STEP_COAT);
    panel.parts[0].qty = 4;
    check_int(HERE, the(panel_operations(arena, &panel), "a/oil/0/mask")->minutes, 52);
    panel.pieces[0].lots = 2;
    check_int(HERE, the(panel_operations(arena, &panel), "a.1/oil/0/mask")->minutes, 26);
    check_int(HERE, the(panel_operations(arena, &panel), "a.2/oil/0/mask")->minutes, 26);
    arena_free(arena);
}

/* 541 min in two parts: 271 min each. */
static void parts_of_a_task_are_alike(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    struct step *task = panel_add_step(&panel, 0, STEP_TASK);
    task->words = "glue";
    task->takes_min = 541;
    const struct operations *operations = panel_operations(arena, &panel);
    check_int(HERE, (intmax_t)operations->count, 2);
    for (int i = 0; i < 2; i++) {
        check_int(HERE, operations->items[i].minutes, 271);
        check_int(HERE, operations->items[i].part, i + 1);
        check_int(HERE, operations->items[i].parts, 2);
    }
    arena_free(arena);
}

/* A finish of two parts, a coat of 1 m2 in an hour, 0.1 l of 0.9 kg/l; pot life 100 min, of which 90 % are worked. */
static void mixed(struct panel *panel, struct component *components)
{
    panel_init(panel);
    components[0] = components[1] = panel->component;
    panel->finish.components = components;
    panel->finish.component_count = 2;
    panel->finish.pot_life_min = 100;
    panel_add_step(panel, 0, STEP_COAT);
}

/* The mass does not matter: 90 and 100 minutes. Of what heats itself, up to 45 g in a cup, all of the 90 g live half as long, and
 * are worked for 45 min; less lives longer, so that the largest mix is one of x min, 1.5 g a minute: x = 0.9 x 100 x 45 / 1.5 x,
 * which is x = sqrt 2700 = 51.96, and lives for 57.74. */
static void the_largest_mix(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct component components[2];
    mixed(&panel, components);
    const struct operation *coat = the(panel_operations(arena, &panel), "a/oil/1/apply");
    check_double(HERE, coat->working_min, 90, 1e-9);
    check_double(HERE, coat->pot_life_min, 100, 1e-9);
    panel.finish.pot_mass_g = 45;
    coat = the(panel_operations(arena, &panel), "a/oil/1/apply");
    check_double(HERE, coat->working_min, 51.9615242, 1e-6);
    check_double(HERE, coat->pot_life_min, 57.7350269, 1e-6);
    panel.finish.pot_mass_g = 1; /* x = sqrt 60 */
    coat = the(panel_operations(arena, &panel), "a/oil/1/apply");
    check_double(HERE, coat->working_min, 7.7459667, 1e-6);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(
        CHECK_TEST(a_schedule_in_its_order), CHECK_TEST(dust_settles_before_a_coat), CHECK_TEST(waits_add_up),
        CHECK_TEST(windows_and_what_lifts_them), CHECK_TEST(a_wait_lifts_the_window),
        CHECK_TEST(so_many_coats_a_day), CHECK_TEST(polishing_follows_its_coat),
        CHECK_TEST(one_side_has_fewer_coats), CHECK_TEST(what_stands_has_a_row_for_each_schedule),
        CHECK_TEST(a_patch_is_treated_first), CHECK_TEST(a_patch_that_is_rubbed_at_last),
        CHECK_TEST(a_patch_and_then_a_wait), CHECK_TEST(a_patch_of_what_is_only_sanded),
        CHECK_TEST(a_patch_on_either_side), CHECK_TEST(each_lot_by_itself),
        CHECK_TEST(a_task_is_cut_to_fit_the_day), CHECK_TEST(the_log_asks),
        CHECK_TEST(rubbed_on_the_side_with_fewer), CHECK_TEST(a_piece_behind_another),
        CHECK_TEST(coats_are_counted), CHECK_ROWS(kinds, is_done_as), CHECK_TEST(many_coats_a_day),
        CHECK_TEST(too_long_for_any_day), CHECK_TEST(the_last_coat_that_is_left),
        CHECK_TEST(coats_of_one_finish_in_a_row), CHECK_TEST(every_part_is_turned),
        CHECK_ROWS(turns, is_turned_by), CHECK_TEST(lots_share_what_a_step_takes),
        CHECK_TEST(parts_of_a_task_are_alike), CHECK_TEST(the_largest_mix));
}
