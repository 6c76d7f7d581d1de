/* A batch that is mixed for waits for a start from which it takes fewer mixes, but for a window. One
 * person, in minutes since Monday's midnight. */
#include "drafts.h"
#include "panel_site.h"

#include "base/arena.h"

/* A and B, coated so often, 40 min each, with a finish of two parts that is worked for 90 min and lives
 * 100; closed for noon. */
static void two_parts(struct panel *panel, struct component *components, int coats)
{
    panel_init(panel);
    components[0] = components[1] = panel->component;
    panel->finish.components = components;
    panel->finish.component_count = 2;
    panel->finish.pot_life_min = 100;
    panel_set_noon(panel, 12 * 60, 13 * 60);
    panel_add_piece(panel);
    for (size_t i = 0; i < 2; i++) {
        panel_add_step(panel, i, STEP_COAT)->coats = coats;
        panel_set_hours(panel, i, 40.0 / 60);
    }
    for (int tool = 0; tool < TOOL_COUNT; tool++)
        panel->job.shop.two_part_clean_up_min[tool] = 0;
}

/* Begun at 11:15 the mix lives until 13:00, so that the cloth may rest over noon, but is worked until
 * 12:50: B takes one of its own. Begun at 13:00 both take one. Who saves waits for that. */
static void thrift_waits_for_one_mix(void **state)
{
    (void)state;
    static const int both[] = {0, 1};
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    struct component components[2];
    two_parts(&panel, components, 1);
    struct draft *draft = draft_make(arena, panel_site(arena, &panel));
    struct batch batch = batch_of(draft, both, 2);
    check_true(HERE, draft_place(draft, batch, 660, SITE_NEVER, &placed), "as soon as may be");
    check_int(HERE, placed.laid.start, 675);
    check_int(HERE, placed.laid.mixes, 2);
    check_int(HERE, placed.laid.hands_on, 90);
    batch.thrifty = true;
    check_true(HERE, draft_place(draft, batch, 660, SITE_NEVER, &placed), "with one mix");
    check_int(HERE, placed.laid.start, 780);
    check_int(HERE, placed.laid.mixes, 1);
    check_int(HERE, placed.laid.hands_on, 85);
    check_true(HERE, draft_place(draft, batch, 660, 780, &placed), "there is no time for that");
    check_int(HERE, placed.laid.start, 675);
    arena_free(arena);
}

/* Laid until 08:45 and 09:25, dry to recoat 150 min later. Together as soon as they may A is laid again at
 * 11:20, B behind noon with a mix of its own; with one mix both from 13:05. */
static struct draft *coated_twice(struct arena *arena, struct panel *panel, struct component *components,
                                  int32_t window_min)
{
    static const int first[] = {0, 2};
    two_parts(panel, components, 2);
    panel->finish.refuses_late_recoat = true;
    panel_set_window(panel, 150, window_min);
    struct draft *draft = draft_make(arena, panel_site(arena, panel));
    draft_put(HERE, draft, first, 2, 480);
    return draft;
}

/* A's window ends at 13:05, or at 13:00: then what opened it may wait, and nothing is placed; but where a
 * start is asked for from some moment on, the second mix is taken. */
static void thrift_and_a_window(void **state)
{
    (void)state;
    static const int second[] = {1, 3};
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct placed placed;
    struct component components[2];
    struct draft *draft = coated_twice(arena, &panel, components, 260);
    struct batch batch = batch_of(draft, second, 2);
    check_true(HERE, draft_place(draft, batch, 0, SITE_NEVER, &placed), "as soon as may be");
    check_int(HERE, placed.laid.start, 675);
    batch.thrifty = true;
    check_true(HERE, draft_place(draft, batch, 0, SITE_NEVER, &placed), "it saves");
    check_int(HERE, placed.laid.start, 780);
    draft = coated_twice(arena, &panel, components, 255);
    check_true(HERE, !draft_place(draft, batch, 0, SITE_NEVER, &placed), "it cannot save in time");
    check_int(HERE, placed.cause.kind, HINDERED_BY_LIMIT);
    check_int(HERE, placed.cause.item, 1);
    check_int(HERE, placed.cause.until, 5);
    check_int(HERE, draft->site->operations->links[placed.cause.link].kind, LINK_WINDOW);
    check_true(HERE, draft->start[1] == SITE_NONE && draft->start[3] == SITE_NONE, "nothing is placed");
    check_true(HERE, draft_place(draft, batch, 600, SITE_NEVER, &placed), "from ten on");
    check_int(HERE, placed.laid.start, 675);
    check_int(HERE, placed.laid.mixes, 2);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(thrift_waits_for_one_mix), CHECK_TEST(thrift_and_a_window));
}
