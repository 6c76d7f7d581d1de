/* Whether work fits the stretches of the shop, added up by hand: sanding takes 20 min of set-up and 10 of
 * clean-up, a coat 20 and 10, and 5 more where it is mixed; the longest stretch is 2 h. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"
#include "base/err.h"
#include "timetable/work.h"

#include <string.h>

enum { NO_BREAK = INT32_MAX };

struct fit_row {
    struct row row;
    enum doing doing;
    int32_t units[3]; /* minutes of each, in operations of their own; 0: no more */
    int32_t break_min, off_min;
    int want; /* mistakes told */
};

/* The first unit is behind the set-up, the last before the clean-up; where there are two, the longer is one
 * of these. */
static const struct fit_row fits[] = {
    {ROW("just fits"), DO_SAND, {90}, 60, 60, 0},
    {ROW("a minute too long"), DO_SAND, {91}, 60, 60, 1},
    {ROW("two may pause between"), DO_SAND, {91, 91}, 60, 60, 0},
    {ROW("nobody has a break"), DO_SAND, {91, 91}, NO_BREAK, 60, 2},
    {ROW("two: the longer goes before the clean-up"), DO_SAND, {110, 10}, 60, 60, 0},
    {ROW("two: the longer does not"), DO_SAND, {111, 10}, 60, 60, 1},
    {ROW("two: the shorter goes behind the set-up"), DO_SAND, {100, 100}, 60, 60, 0},
    {ROW("two: the shorter does not"), DO_SAND, {101, 101}, 60, 60, 2},
    {ROW("three: the longest is between"), DO_SAND, {120, 10, 10}, 60, 60, 0},
    {ROW("three: it is too long anyhow"), DO_SAND, {121, 10, 10}, 60, 60, 1},
    {ROW("three: the shortest is last"), DO_SAND, {110, 100, 110}, 60, 60, 0},
    {ROW("three: the shortest is too long"), DO_SAND, {110, 101, 110}, 60, 60, 3},
    {ROW("a cloth may lie so long"), DO_APPLY, {91, 91}, NO_BREAK, 30, 0},
    {ROW("a cloth may not"), DO_APPLY, {91, 91}, 60, 31, 2},
};

static void fit_is(void **state)
{
    const struct fit_row *r = *state;
    struct hand_work work;
    hand_work(&work);
    struct shop *shop = &work.panel.job.shop;
    shop->set_up_min[WORK_SAND] = shop->set_up_min[TOOL_CLOTH] = 20;
    shop->clean_up_min[WORK_SAND] = shop->clean_up_min[TOOL_CLOTH] = 10;
    shop->rest_min[TOOL_CLOTH] = 30;
    for (int i = 0; i < 3 && r->units[i] > 0; i++)
        hand_add(&work, 0, r->doing, r->units[i]);
    struct err_list errors = {0};
    const struct shop_limits limits = {.longest_min = 120, .break_min = r->break_min, .off_min = r->off_min};
    check_int(&r->row, operations_fit(&work.operations, limits, &errors), r->want == 0);
    check_int(&r->row, (intmax_t)errors.count, r->want);
}

/* The set-up is the shorter of the two: 10 and 20 min. */
static void a_longer_clean_up(void **state)
{
    (void)state;
    static const struct {
        int32_t longer, shorter;
        bool want;
    } rows[] = {{110, 100, true}, {111, 100, false}, {110, 101, false}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct hand_work work;
        hand_work(&work);
        work.panel.job.shop.set_up_min[WORK_SAND] = 10;
        work.panel.job.shop.clean_up_min[WORK_SAND] = 20;
        hand_add(&work, 0, DO_SAND, rows[i].longer);
        hand_add(&work, 0, DO_SAND, rows[i].shorter);
        struct err_list errors = {0};
        const struct shop_limits limits = {.longest_min = 120, .break_min = 30, .off_min = 30};
        check_int(HERE, operations_fit(&work.operations, limits, &errors), rows[i].want);
    }
}

/* Units of one operation, told by where they end: 110 and 100 min. 90 min and a second do not fit beside 30.
 */
static void units_of_one_operation(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    work.panel.job.shop.set_up_min[WORK_SAND] = 20;
    work.panel.job.shop.clean_up_min[WORK_SAND] = 10;
    struct operation *sand = hand_add(&work, 0, DO_SAND, 90);
    const struct shop_limits limits = {.longest_min = 120, .break_min = 30, .off_min = 30};
    struct err_list errors = {0};
    sand->units.longest_s = 90 * 60 + 1;
    check_true(HERE, !operations_fit(&work.operations, limits, &errors), "a second too long");
    static const int32_t fits_s[] = {110 * 60, 210 * 60, 220 * 60}, too_long_s[] = {110 * 60, 210 * 60 + 1};
    sand->units.ends_s = fits_s;
    sand->units.longest_s = 110 * 60;
    sand->units.count = 2;
    check_true(HERE, operations_fit(&work.operations, limits, &errors), "110 last, 100 behind the set-up");
    sand->units.ends_s = too_long_s;
    check_true(HERE, !operations_fit(&work.operations, limits, &errors), "neither may come first");
    sand->units.ends_s = fits_s;
    sand->units.longest_s = 120 * 60;
    check_true(HERE, !operations_fit(&work.operations, limits, &errors), "one of two has the clean-up");
    sand->units.count = 3;
    check_true(HERE, operations_fit(&work.operations, limits, &errors), "the longest is between the others");
}

/* The only two units take a second more than 100 min: told in whole minutes neither fits behind 20 of set-up.
 */
static void a_second_counts_as_a_minute(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    work.panel.job.shop.set_up_min[WORK_SAND] = 20;
    work.panel.job.shop.clean_up_min[WORK_SAND] = 10;
    const struct shop_limits limits = {.longest_min = 120, .break_min = 30, .off_min = 30};
    struct err_list errors = {0};
    for (int i = 0; i < 2; i++) {
        struct operation *sand = hand_add(&work, 0, DO_SAND, 100);
        work.ends_s[i]++;
        sand->units.longest_s = 100 * 60 + 1;
    }
    check_true(HERE, !operations_fit(&work.operations, limits, &errors), "101 and 20");
    work.ends_s[1]--;
    check_true(HERE, operations_fit(&work.operations, limits, &errors), "one of them fits");
}

/* What is mixed takes five minutes and its induction more; a two-part finish its own clean-up. */
static void a_mix_is_stirred_first(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    struct panel *panel = &work.panel;
    panel->job.shop.set_up_min[TOOL_CLOTH] = 20;
    panel->job.shop.clean_up_min[TOOL_CLOTH] = 10;
    panel->job.shop.two_part_clean_up_min[TOOL_CLOTH] = 15;
    panel->finish.component_count = 2;
    panel->finish.induction_min = 7;
    const struct shop_limits limits = {.longest_min = 120, .break_min = NO_BREAK, .off_min = NO_BREAK};
    static const int32_t minutes[] = {73, 74, 78, 79, 90, 91};
    static const bool two_part[] = {true, true, false, false, false, false};
    static const double thin[] = {0, 0, 0.1, 0.1, 0, 0};
    for (int i = 0; i < 6; i++) {
        struct err_list errors = {0};
        panel->finish.component_count = two_part[i] ? 2 : 1;
        panel->steps[0][0].thin = thin[i];
        work.operations.count = 0;
        hand_add(&work, 0, DO_APPLY, minutes[i]);
        check_int(HERE, operations_fit(&work.operations, limits, &errors), i % 2 == 0);
    }
}

/* Parts that are turned over within a batch of coats part it, too: 91 min and a flip of one. Sanding has
 * nothing of it. */
static void turning_over_counts(void **state)
{
    (void)state;
    for (int sands = 0; sands < 2; sands++) {
        struct hand_work work;
        hand_work(&work);
        struct shop *shop = &work.panel.job.shop;
        shop->set_up_min[WORK_SAND] = shop->set_up_min[TOOL_CLOTH] = 20;
        shop->clean_up_min[WORK_SAND] = shop->clean_up_min[TOOL_CLOTH] = 10;
        shop->rest_min[TOOL_CLOTH] = 30;
        hand_add(&work, 0, sands ? DO_SAND : DO_APPLY, 91);
        hand_add(&work, 0, DO_FLIP, 1);
        struct err_list errors = {0};
        const struct shop_limits limits = {.longest_min = 120, .break_min = 30, .off_min = 30};
        check_int(HERE, operations_fit(&work.operations, limits, &errors), !sands);
    }
}

/* Tasks are cut, a late scuff may be left out, what takes no time fits, and a shop that never opens is told
 * otherwise. */
static void what_need_not_fit(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    hand_add(&work, -1, DO_TASK, 200);
    hand_add(&work, 0, DO_SCUFF, 200)->late_scuff = true;
    struct operation *nothing = hand_add(&work, 0, DO_SAND, 0);
    struct err_list errors = {0};
    struct shop_limits limits = {.longest_min = 120, .break_min = NO_BREAK, .off_min = NO_BREAK};
    work.panel.job.shop.set_up_min[WORK_SAND] = 200;
    check_true(HERE, operations_fit(&work.operations, limits, &errors), "all of it");
    nothing->units.seconds = 1;
    check_true(HERE, !operations_fit(&work.operations, limits, &errors), "not beside its set-up");
    limits.longest_min = 0;
    check_true(HERE, operations_fit(&work.operations, limits, &errors), "nobody ever works");
    limits.longest_min = 1;
    check_true(HERE, !operations_fit(&work.operations, limits, &errors), "a minute is a stretch");
}

static void the_mistake_names_the_step(void **state)
{
    (void)state;
    struct hand_work work;
    hand_work(&work);
    hand_add(&work, 0, DO_SAND, 150)->id = "a/oil/0/sand-180";
    struct err_list errors = {0};
    const struct shop_limits limits = {.longest_min = 120, .break_min = NO_BREAK, .off_min = NO_BREAK};
    check_true(HERE, !operations_fit(&work.operations, limits, &errors), "too long");
    check_text(HERE, errors.items[0].pointer, "/pieces");
    check_true(HERE, strstr(errors.items[0].found, "a/oil/0/sand-180: one part takes 2 h 30 min") != NULL,
               errors.items[0].found);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(fits, fit_is), CHECK_TEST(a_longer_clean_up),
                     CHECK_TEST(units_of_one_operation), CHECK_TEST(a_second_counts_as_a_minute),
                     CHECK_TEST(a_mix_is_stirred_first), CHECK_TEST(turning_over_counts),
                     CHECK_TEST(what_need_not_fit), CHECK_TEST(the_mistake_names_the_step));
}
