/* The work as a network, in slots of five minutes since Monday's midnight: four days, open 08:00 to 17:00
 * daily. */
#include "check.h"
#include "panel_site.h"

#include "base/arena.h"
#include "solver/network.h"
#include "timetable/problem.h"

enum { HOUR = 12, DAY = 24 * HOUR, SLOTS = 4 * DAY, OPENS = 8 * HOUR, CLOSES = 17 * HOUR };

static struct problem *problem_of(struct arena *arena, struct panel *panel)
{
    const struct job *job = &panel->job;
    return problem_make(arena, panel_operations(arena, panel),
                        hours_make(arena, &job->shop, job->zone, march(1, 0, 0), SLOTS));
}

/* The lag of that kind, whose rule names its link. */
static const struct net_lag *lag_of(const struct row *row, const struct problem *problem, enum link_kind kind)
{
    for (size_t i = 0; i < problem->net.lag_count; i++) {
        const struct net_lag *lag = &problem->net.lags[i];
        check_int(row, problem->rules[lag->rule].kind, RULE_LINK);
        const struct link *link = &problem->operations->links[problem->rules[lag->rule].index];
        check_true(row, lag->from == link->from && lag->to == link->to, "from and to");
        if (link->kind == kind)
            return lag;
    }
    check_true(row, false, "there is one");
    return NULL;
}

static int32_t map_at(const struct problem *problem, struct net_map map, int32_t slot)
{
    return net_map_at(&problem->net, map, slot);
}

/* Whole slots of work, so that no plan of minutes is left out: 62 min are 12. A piece that comes at 10:02
 * is there at 10:05. */
static void operations_in_slots(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_SAND);
    panel_add_piece(&panel);
    panel_add_step(&panel, 2, STEP_SAND);
    panel_set_hours(&panel, 0, 62.0 / 60);
    panel_set_hours(&panel, 1, 2);
    panel_set_hours(&panel, 2, 2);
    panel.pieces[1].ready_min = march(1, 10, 2);
    panel.pieces[2].ready_min = march(9, 8, 0);
    struct problem *problem = problem_of(arena, &panel);
    const struct net_operation *operations = problem->net.operations;
    check_int(HERE, (intmax_t)problem->net.operation_count, 4);
    static const int32_t durations[] = {12, 12, 24, 24}, earliest[] = {OPENS, OPENS, 10 * HOUR + 1, SLOTS};
    for (int i = 0; i < 4; i++) {
        check_int(HERE, operations[i].duration, durations[i]);
        check_int(HERE, operations[i].earliest, earliest[i]);
        check_int(HERE, operations[i].latest, SLOTS);
        check_int(HERE, operations[i].presence.flag, NET_NONE);
    }
    /* One calendar for work of one length, one for each coat of a finish and a length. */
    check_int(HERE, (intmax_t)problem->net.calendar_count, 3);
    check_int(HERE, operations[2].calendar, operations[3].calendar);
    check_true(HERE, operations[0].calendar != operations[1].calendar, "sanding asks for no air");
    check_int(HERE, problem->never, -1);
    arena_free(arena);
}

/* A start is allowed while somebody is at work, and for a coat while the air suits: here from 09:00 to
 * 16:00, so that an hour of it is begun by 15:00. */
static void when_a_start_is_allowed(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel.spells[0] = (struct air_spell){9 * 60, {23, 0.5}};
    panel.spells[1] = (struct air_spell){16 * 60, {12, 0.5}};
    panel.job.shop.air.daily.spell_count = 2;
    panel.finish.air.lowest_c = 15;
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    struct problem *problem = problem_of(arena, &panel);
    const struct net_calendar *sand = &problem->net.calendars[problem->net.operations[0].calendar];
    const struct net_calendar *coat = &problem->net.calendars[problem->net.operations[1].calendar];
    check_true(HERE, sand->next[0] == OPENS && sand->next[OPENS] == OPENS, "opens");
    check_true(HERE, sand->next[CLOSES - 1] == CLOSES - 1 && sand->next[CLOSES] == DAY + OPENS, "closes");
    check_true(HERE, sand->previous[OPENS - 1] == -1 && sand->previous[OPENS] == OPENS, "not before");
    check_true(HERE, sand->previous[CLOSES] == CLOSES - 1 && sand->previous[DAY] == CLOSES - 1,
               "the last before");
    check_true(HERE, sand->next[3 * DAY + CLOSES] >= NET_NEVER, "behind the last day");
    check_int(HERE, sand->previous[SLOTS], 3 * DAY + CLOSES - 1);
    check_int(HERE, coat->next[OPENS], 9 * HOUR);
    check_int(HERE, coat->next[15 * HOUR], 15 * HOUR);
    check_int(HERE, coat->next[15 * HOUR + 1], DAY + 9 * HOUR);
    check_int(HERE, coat->previous[CLOSES], 15 * HOUR);
    arena_free(arena);
}

/* Half a minute of sanding is no slot: it starts while somebody is at work, whatever the air of the coat before it in the list. */
static void less_than_a_slot(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_SAND);
    panel_set_hours(&panel, 1, 0.5 / 60);
    panel.spells[0] = (struct air_spell){9 * 60, {23, 0.5}};
    panel.spells[1] = (struct air_spell){16 * 60, {12, 0.5}};
    panel.job.shop.air.daily.spell_count = 2;
    panel.finish.air.lowest_c = 15;
    struct problem *problem = problem_of(arena, &panel);
    const struct net_operation *operations = problem->net.operations;
    check_int(HERE, operations[1].duration, 0);
    check_int(HERE, problem->net.calendars[operations[0].calendar].next[OPENS], 9 * HOUR);
    check_int(HERE, problem->net.calendars[operations[1].calendar].next[OPENS], OPENS);
    arena_free(arena);
}

/* An hour of work from 08:00; what it asks of the next start. */
static void links_as_lags(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_RAISE)->dry_min = 31;
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    panel_set_window(&panel, 120, 600);
    panel.finish.coats_a_day = 1;
    panel.finish.has_polish = true;
    panel.finish.polish = (struct span_range){10, 23};
    struct problem *problem = problem_of(arena, &panel);
    const struct net_lag *lag = lag_of(HERE, problem, LINK_END);
    check_int(HERE, map_at(problem, lag->map, OPENS), OPENS + HOUR + 7); /* 31 min up */
    check_true(HERE, !lag->maximum && lag->guard.flag == NET_NONE, "at the least, always");
    lag = lag_of(HERE, problem, LINK_STATE);
    check_int(HERE, map_at(problem, lag->map, OPENS), OPENS + HOUR + 24);
    check_true(HERE, !lag->maximum && lag->guard.flag == NET_NONE, "at the least, always");
    lag = lag_of(HERE, problem, LINK_POLISH);
    check_int(HERE, map_at(problem, lag->map, OPENS), OPENS + HOUR + 4); /* 23 min down */
    check_true(HERE, lag->maximum && lag->guard.flag == NET_NONE, "at the most, always");
    lag = lag_of(HERE, problem, LINK_DAY);
    check_int(HERE, map_at(problem, lag->map, OPENS), DAY);
    check_int(HERE, map_at(problem, lag->map, DAY - 1), DAY);
    check_int(HERE, map_at(problem, lag->map, DAY), 2 * DAY);
    lag = lag_of(HERE, problem, LINK_WINDOW);
    check_int(HERE, map_at(problem, lag->map, OPENS), OPENS + HOUR + 120);
    check_true(HERE, lag->maximum, "at the most");
    int scuff = panel_item(problem->operations, "a/oil/1/scuff-320");
    check_true(HERE, lag->guard.flag == problem->flag[scuff] && lag->guard.value == 0,
               "unless it is scuffed for");
    check_true(HERE, problem->flag[0] == NET_NONE && problem->flag[scuff] != NET_NONE, "who may be left out");
    const struct net_guard *presence = &problem->net.operations[scuff].presence;
    check_true(HERE, presence->flag == problem->flag[scuff] && presence->value == 1, "a scuff that is done");
    arena_free(arena);
}

/* Due on Tuesday at 12:03, which is 12:00: the coat dry to handle, 2 h behind its hour, and 44 min behind
 * what is rubbed. */
static void what_is_due(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 0, STEP_RUB)->words = "wax";
    panel_add_step(&panel, 0, STEP_WAIT)->wait_min = 44;
    panel_set_state(&panel, STATE_HANDLE, 120);
    panel.job.deliver_min = march(2, 12, 3);
    struct problem *problem = problem_of(arena, &panel);
    check_int(HERE, (intmax_t)problem->net.goal_count, 2);
    for (int i = 0; i < 2; i++) {
        const struct net_goal *goal = &problem->net.goals[i];
        check_int(HERE, goal->operation, i);
        check_int(HERE, goal->due, DAY + 12 * HOUR);
        check_int(HERE, map_at(problem, goal->map, OPENS), OPENS + HOUR + (i ? 9 : 24));
    }
    arena_free(arena);
}

/* A coat on Monday, one on Tuesday, dry to handle at once, at 09:00: 08:05 is missed by 11 slots. */
static void work_alone_is_solved(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_state(&panel, STATE_RECOAT, 600);
    panel.job.deliver_min = march(2, 8, 5);
    struct relaxed relaxed = relaxed_solve(arena, panel_operations(arena, &panel), SLOTS, 1000000);
    check_int(HERE, relaxed.result.status, NET_PLANNED);
    check_int(HERE, relaxed.result.value, HOUR - 1);
    panel.finish.air.lowest_c = 30;
    relaxed = relaxed_solve(arena, panel_operations(arena, &panel), SLOTS, 1000000);
    check_int(HERE, relaxed.result.status, NET_IMPOSSIBLE);
    check_int(HERE, relaxed.problem->never, 0);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(operations_in_slots), CHECK_TEST(when_a_start_is_allowed),
                     CHECK_TEST(less_than_a_slot), CHECK_TEST(links_as_lags), CHECK_TEST(what_is_due),
                     CHECK_TEST(work_alone_is_solved));
}
