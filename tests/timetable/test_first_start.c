/* A batch is placed at its first possible start: at none of the five minutes before does it fit. Tried on
 * drawn jobs: breaks, mixes that set, tools that may lie for some time, a rack, dust, drying, and films
 * that must not be late. */
#include "check.h"
#include "panel_site.h"

#include "base/arena.h"
#include "timetable/order.h"

enum { JOBS = 400 };

static void draw_shop(struct panel *panel, struct component *components, uint64_t *seed)
{
    panel_init(panel);
    int closes = 10 * 60 + 5 * check_random_int(seed, 0, 24),
        opens = closes + 5 * check_random_int(seed, 2, 18);
    panel_set_noon(panel, closes, opens);
    panel->job.shop.people = check_random_int(seed, 1, 2);
    panel->job.shop.settle_min = 10 * check_random_int(seed, 0, 3);
    panel->job.shop.set_up_min[WORK_SAND] = check_random_int(seed, 0, 10);
    panel->job.shop.set_up_min[TOOL_CLOTH] = check_random_int(seed, 0, 20);
    panel->job.shop.clean_up_min[WORK_SAND] = check_random_int(seed, 0, 10);
    panel->job.shop.two_part_clean_up_min[TOOL_CLOTH] = panel->job.shop.clean_up_min[TOOL_CLOTH] =
        check_random_int(seed, 0, 20);
    panel->job.shop.rest_min[TOOL_CLOTH] = 30 * check_random_int(seed, 0, 40);
    if (check_random_int(seed, 0, 1))
        panel->job.shop.rack_m2 = 1.2;
    if (check_random_int(seed, 0, 2) == 0)
        return;
    components[0] = components[1] = panel->component;
    panel->finish.components = components;
    panel->finish.component_count = 2;
    panel->finish.pot_life_min = check_random_int(seed, 60, 300);
    panel->finish.induction_min = 5 * check_random_int(seed, 0, 5);
}

static void draw_pieces(struct panel *panel, uint64_t *seed)
{
    for (size_t i = 0; i < 3; i++) {
        if (i > 0)
            panel_add_piece(panel);
        if (check_random_int(seed, 0, 1))
            panel_add_step(panel, i, STEP_SAND);
        panel_add_step(panel, i, STEP_COAT)->coats = check_random_int(seed, 1, 2);
        if (check_random_int(seed, 0, 2) == 0)
            panel_two_sides(panel, i);
        panel_set_hours(panel, i, check_random_int(seed, 5, 90) / 60.0);
        panel->pieces[i].rack_m2 = 0.5;
        panel->pieces[i].dry_by_min = check_random_int(seed, 0, 3) ? 0 : 22 * 60;
        if (check_random_int(seed, 0, 3) == 0)
            panel->pieces[i].ready_min = march(1, 8, 0) + check_random_int(seed, 0, 400);
    }
    panel_set_state(panel, STATE_DUST_FREE, check_random_int(seed, 0, 90));
    panel_set_state(panel, STATE_HANDLE, check_random_int(seed, 90, 300));
    int least_min = check_random_int(seed, 30, 200), most_h = check_random_int(seed, 8, 40);
    panel_set_window(panel, least_min, 60 * most_h);
}

/* Places it and adds it; false: it cannot be. */
static bool placed_first(const struct row *row, struct draft *draft, struct batch batch)
{
    struct placed placed, before;
    if (!draft_place(draft, batch, 0, site_at(8, 0, 0), &placed))
        return false;
    int32_t start = placed.laid.start;
    check_true(row, draft_fits(draft, batch, start, &before), "it fits then");
    check_int(row, before.laid.end, placed.laid.end);
    for (int32_t at = site_at(1, 0, 0); at < start; at += GRID_MIN)
        if (draft_fits(draft, batch, at, &before))
            check_int(row, start, at);
    draft_add(draft, &placed);
    return true;
}

static void no_start_is_sooner(void **state)
{
    (void)state;
    for (uint64_t number = 0; number < JOBS; number++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        struct component components[2];
        uint64_t seed = number;
        struct row row = *HERE;
        row.name = arena_textf(arena, "drawn job %d", (int)number);
        draw_shop(&panel, components, &seed);
        draw_pieces(&panel, &seed);
        const struct site *site = panel_site(arena, &panel);
        struct variant *variant = variant_make(arena, site);
        struct betweens betweens = between_make(arena, site);
        order_first(site, &betweens, number % 2, 1, &variant->order);
        for (size_t i = 0; i < variant->order.run_count; i++) {
            const struct run *run = &variant->order.runs[i];
            const int *items = variant->order.items + run->from;
            struct batch batch = {.kind = run->kind,
                                  .person = (int)i % panel.job.shop.people,
                                  .helper = SITE_NONE,
                                  .items = items,
                                  .count = run->count};
            if (placed_first(&row, variant->draft, batch))
                continue;
            for (size_t k = 0; k < run->count; k++) {
                batch = (struct batch){.kind = site->rows[items[k]].kind,
                                       .person = batch.person,
                                       .helper = SITE_NONE,
                                       .items = &items[k],
                                       .count = 1};
                (void)placed_first(&row, variant->draft, batch);
            }
        }
        check_true(&row, variant->draft->count > 0, "something is placed");
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(no_start_is_sooner));
}
