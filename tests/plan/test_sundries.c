/* What the work of a plan uses up beside finish: cups by the mixes of each coat, discs by what is sanded. */
#include "check.h"
#include "panel.h"

#include "amount/sundry.h"
#include "base/arena.h"
#include "plan/plan.h"

static const struct sundry_rule rules[] = {
    {"cup", "pcs", 1, PER_MIX, EACH_TOGETHER, {[TOOL_CLOTH] = true}, false, "test", 0},
    {"disc", "pcs", 0.5, PER_WORKED_M2, EACH_GRIT, {[WORK_SAND] = true}, false, "test", 0},
};

static const char *coat_of(const struct timetable *timetable, int piece)
{
    for (size_t i = 0; i < timetable->operations->count; i++)
        if (timetable->operations->items[i].doing == DO_APPLY &&
            timetable->operations->items[i].piece == piece)
            return timetable->operations->items[i].id;
    return NULL;
}

/* A of 3 m2 is sanded and coated from two mixes, B coated from one, and one mix is for a coat of another job. */
static void cups_and_discs(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT);
    panel_set_hours(&panel, 0, 3);
    panel.job.sundries = (struct sundry_rules){rules, sizeof rules / sizeof rules[0]};
    const struct timetable *timetable = panel_dated(arena, &panel);
    struct mix_card cards[] = {{.step_id = coat_of(timetable, 0)},
                               {.step_id = coat_of(timetable, 1)},
                               {.step_id = coat_of(timetable, 0)},
                               {.step_id = "other"}};
    const struct mix_cards mixes = {.items = cards, .count = sizeof cards / sizeof cards[0]};
    const struct sundries *used = plan_sundries(arena, timetable, &mixes);
    assert_int_equal(used->count, 2);
    check_text(HERE, used->items[0].rule->name, "cup");
    check_double(HERE, used->items[0].amount, 3, 0);
    check_text(HERE, used->items[1].rule->name, "disc");
    check_double(HERE, used->items[1].amount, 1.5, 1e-12);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(cups_and_discs));
}
