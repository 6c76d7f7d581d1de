/* What could be asked of the job itself, what makes a plan possible, and what is not told; worked by hand in the shop of
 * test_advice.c. */
#include "check.h"
#include "late_desk.h"

#include "base/arena.h"
#include "base/observer.h"
#include "report/sentences.h"

#include <string.h>

static void in_time_there_is_nothing_to_say(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 2);
    panel_set_window(&desk->panel, 600, SPAN_NEVER);
    desk->panel.job.deliver_min = march(2, 9, 0);
    check_told(HERE, desk, "");
}

/* Sanded until 09:00; two coats of 1 h, 10 h between: ready on Tuesday at 09:00. One coat is ready on Monday at 10:00. */
static void a_coat_less(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    panel_add_step(&desk->panel, 0, STEP_SAND);
    desk_coat(desk, 0, 2);
    panel_set_window(&desk->panel, 600, SPAN_NEVER);
    check_told(
        HERE, desk,
        "1 coat of oil instead of 2 (schedule \"oil\"): ready 2027-03-01 10:00, 23 h sooner, 1 h less "
        "work; in test.json: `{\"schedules\": {\"oil\": [{\"sand\": 180}, {\"coat\": \"oil\", \"coats\": 1, "
        "\"by\": \"cloth\"}]}}`\n");
}

/* Coated until 09:00; cured 72 h later, fit for light use 10 h, to handle 5 h: 19:00 is in time and enough. */
static void an_earlier_state(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 1);
    desk_handled_after(desk, 300);
    panel_set_state(&desk->panel, STATE_WRAP, 1440);
    panel_set_state(&desk->panel, STATE_LIGHT_USE, 600);
    panel_set_state(&desk->panel, STATE_CURED, 4320);
    desk->panel.job.deliver_at = STATE_CURED;
    desk->panel.job.deliver_min = march(1, 20, 0);
    check_told(
        HERE, desk,
        "delivered as soon as it bears light use: ready 2027-03-01 19:00, 2 d 14 h sooner, in time; in "
        "test.json: `{\"deliver-at\": \"light-use\"}`\n");
}

static void add_finishes(struct desk *desk, struct finish *other, const struct finish **table)
{
    *other = desk->panel.finish;
    other->id = "quick-oil";
    other->resists[RESISTS_WATER] = 1;
    desk->panel.finish.resists[RESISTS_WATER] = 2;
    for (int state = 0; state < STATE_COUNT; state++)
        other->first.after_min[state] = other->later.after_min[state] = 60;
    table[0] = &desk->panel.finish;
    table[1] = other;
    desk->panel.job.finishes = table;
    desk->panel.job.finish_count = 2;
}

/* Handled 12 h after 09:00, or 1 h after. A finish of another family, one that colours, or one that is no match for it
 * is not named. */
static void a_faster_finish(void **state)
{
    (void)state;
    static const char want[] =
        "quick-oil instead of oil, which resists water less: ready 2027-03-01 10:00, 11 h sooner; in "
        "test.json: `{\"schedules\": {\"oil\": [{\"coat\": \"quick-oil\", \"coats\": 1, \"by\": "
        "\"cloth\"}]}}`\n";
    for (int spoilt = 0; spoilt < 5; spoilt++) {
        struct desk *desk = desk_make();
        struct finish other;
        const struct finish *table[2];
        desk_coat(desk, 0, 1);
        desk_handled_after(desk, 720);
        add_finishes(desk, &other, table);
        if (spoilt == 1)
            other.family = "varnish";
        if (spoilt == 2)
            other.colours = true;
        if (spoilt == 3)
            other.resists[RESISTS_WATER] = 0;
        if (spoilt == 4) {
            memset(other.by, 0, sizeof other.by);
            other.by[TOOL_HVLP] = true;
            other.usual_tool = TOOL_HVLP;
        }
        check_told(HERE, desk, spoilt ? "" : want);
    }
}

/* With a window of 10 to 14 h no end between 09:00 and 17:00 reaches opening hours. Coated by 18:00 the
 * window closes at 08:00, when the shop opens. */
static struct desk *desk_with_a_window(void)
{
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 1);
    desk_coat(desk, 0, 1);
    panel_set_window(&desk->panel, 600, 840);
    desk->panel.finish.refuses_late_recoat = true;
    desk->panel.job.deliver_min = march(2, 8, 0);
    return desk;
}

static void check_evening(struct desk *desk)
{
    struct advice_list list = desk_asked(desk);
    check_int(HERE, (intmax_t)list.count, 1);
    check_text(HERE, advice_words(desk->arena, &list.items[0], UNITS_METRIC), "an hour more every evening");
    check_int(HERE, list.items[0].gain_min, 0);
    check_int(HERE, list.items[0].late_min, 60);
    check_text(HERE, advice_effect(desk->arena, &list.items[0], desk->panel.job.zone, MOMENT_DAY_TIME),
               "ready Tue 2 Mar 09:00, 1 h late");
    arena_free(desk->arena);
}

static void what_makes_it_possible(void **state)
{
    (void)state;
    check_evening(desk_with_a_window());
}

/* The most effort that one search was given. */
static bool see_effort(void *with, const struct observer *observer)
{
    int64_t *most = with;
    *most = observer->effort > *most ? observer->effort : *most;
    return true;
}

/* Three pieces of six parts, of which the window allows no plan either. Of an effort of 12 million a first look takes a sixtieth,
 * 200,000; where there is no plan half of that is enough to know what makes one possible, and a unit, so that it is never none. */
static void what_makes_it_possible_is_known_soon(void **state)
{
    (void)state;
    struct desk *desk = desk_with_a_window();
    int64_t most = 0;
    struct observer observer = {.look = see_effort, .with = &most};
    for (size_t i = 0; i < PANEL_PIECES; i++) {
        if (i > 0) {
            panel_add_piece(&desk->panel);
            desk_coat(desk, i, 2);
        }
        desk->panel.parts[i].qty = 6;
        panel_set_hours(&desk->panel, i, (double)i + 1);
    }
    const struct timetable *now = panel_dated(desk->arena, &desk->panel);
    check_int(HERE, now->status, TIMETABLE_IMPOSSIBLE);
    (void)advice_make(desk->arena, now, (struct timetable_options){.effort = 12000000, .observer = &observer},
                      desk->now_min);
    check_true(HERE, most > 0 && most <= 200000 / 2 + 1, "no search is given more");
    arena_free(desk->arena);
}

/* Who has a name and the hours of the shop stays as long as it is open. */
static void possible_for_who_has_a_name(void **state)
{
    (void)state;
    struct desk *desk = desk_with_a_window();
    struct person ann = shop_person(&desk->panel.job.shop, 0);
    ann.name = "Ann";
    desk->panel.job.shop.crew = &ann;
    check_evening(desk);
}

/* At half the pace, with a coat to spare. */
static void the_largest_gains_first(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 2);
    panel_set_state(&desk->panel, STATE_HANDLE, 720);
    panel_set_window(&desk->panel, 600, SPAN_NEVER);
    desk->panel.spells[0].air.temperature_c = 13;
    struct advice_list list = desk_asked(desk);
    check_true(HERE, list.count >= 3, "fewer coats, warmer air");
    for (size_t i = 1; i < list.count; i++)
        check_true(HERE, list.items[i - 1].gain_min >= list.items[i].gain_min, "largest first");
    for (size_t i = 0; i < list.count; i++)
        check_true(HERE, list.items[i].gain_min > 0 && list.items[i].late_min > 0, "gains, and is told late");
    arena_free(desk->arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(in_time_there_is_nothing_to_say), CHECK_TEST(a_coat_less),
                     CHECK_TEST(an_earlier_state), CHECK_TEST(a_faster_finish),
                     CHECK_TEST(what_makes_it_possible), CHECK_TEST(what_makes_it_possible_is_known_soon),
                     CHECK_TEST(possible_for_who_has_a_name), CHECK_TEST(the_largest_gains_first));
}
