/* Several jobs in one shop, worked by hand: one person, open 08:00-17:00 daily, air at reference. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "base/err.h"
#include "timetable/several.h"

static const struct operations *work_of(struct arena *arena, struct panel *panel)
{
    struct err_list errors = {0};
    return timetable_operations(arena, &panel->job, &panel->surfaces, &errors);
}

/* Each coat takes 4 h: the job that is due on Monday 13:00 goes first, though it is named second. */
static void the_sooner_delivery_goes_first(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel desk, shelf;
    panel_init(&desk);
    panel_init(&shelf);
    panel_add_step(&desk, 0, STEP_COAT);
    panel_add_step(&shelf, 0, STEP_COAT);
    panel_set_hours(&desk, 0, 4);
    panel_set_hours(&shelf, 0, 4);
    desk.job.deliver_min = march(1, 17, 0);
    shelf.job.deliver_min = march(1, 13, 0);
    const struct operations *jobs[] = {work_of(arena, &desk), work_of(arena, &shelf)};
    struct timetable **each = several_make(arena, jobs, 2, (struct timetable_options){0});
    check_int(HERE, each[0]->status, TIMETABLE_PLANNED);
    check_int(HERE, each[1]->steps[0].start_min, march(1, 8, 0));
    check_int(HERE, each[0]->steps[0].start_min, march(1, 12, 0));
    check_int(HERE, each[0]->spare_min, 60);
    check_int(HERE, each[1]->spare_min, 60);
    check_true(HERE, each[1]->proven && !each[0]->proven, "alone the desk could be ready at noon");
    check_true(HERE, each[0]->steps[0].operation == &jobs[0]->items[0], "each timetable tells its own steps");
    arena_free(arena);
}

/* Two people: both begin at once, and are two persons. */
static void people_are_shared(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel desk, shelf;
    panel_init(&desk);
    panel_init(&shelf);
    desk.job.shop.people = 2;
    panel_add_step(&desk, 0, STEP_COAT);
    panel_add_step(&shelf, 0, STEP_COAT);
    const struct operations *jobs[] = {work_of(arena, &desk), work_of(arena, &shelf)};
    struct timetable **each = several_make(arena, jobs, 2, (struct timetable_options){0});
    check_int(HERE, each[0]->steps[0].start_min, march(1, 8, 0));
    check_int(HERE, each[1]->steps[0].start_min, march(1, 8, 0));
    check_int(HERE, each[0]->steps[0].person + each[1]->steps[0].person, 3);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(the_sooner_delivery_goes_first), CHECK_TEST(people_are_shared));
}
