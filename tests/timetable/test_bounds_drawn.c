/* Bounds of small drawn jobs against the best of all their plans: none says more than that, and most say
 * as much. */
#include "check.h"
#include "work_list.h"

#include "base/arena.h"
#include "timetable/bounds.h"

#include <stdio.h>

static bool draw_one_in(uint64_t *seed, int many)
{
    return check_random_int(seed, 1, many) == 1;
}

/* Of each up to so many times five minutes. */
static void draw_set_up(struct work_list *list, int work, int set_ups, int clean_ups, uint64_t *seed)
{
    int clean_up = check_random_int(seed, 0, clean_ups) * 5, set_up = check_random_int(seed, 0, set_ups) * 5;
    work_set_up(list, work, set_up, clean_up);
}

/* People with the same skills, or one who sands and one who does all. */
static void draw_shop(struct work_list *list, struct person *crew, uint64_t *seed)
{
    struct shop *shop = &list->panel.job.shop;
    static const int rests[] = {0, 30, 60, 120, 960};
    if (draw_one_in(seed, 2)) {
        int closes = check_random_int(seed, 15, 18), noon = check_random_int(seed, 10, 12);
        work_hours(list, 8, noon, 13, closes);
    }
    shop->people = draw_one_in(seed, 3) ? 2 : 1;
    if (shop->people == 2 && draw_one_in(seed, 3)) {
        for (int p = 0; p < 2; p++) {
            crew[p] = (struct person){.name = "P", .does = p > 0 ? 1u << WORK_SAND : SKILLS_ALL};
            for (int day = 0; day < 7; day++)
                crew[p].hours[day] = shop->hours[day];
        }
        shop->crew = crew;
    }
    draw_set_up(list, WORK_SAND, 3, 2, seed);
    draw_set_up(list, WORK_SCUFF, 1, 1, seed);
    draw_set_up(list, TOOL_CLOTH, 4, 2, seed);
    shop->rest_min[TOOL_CLOTH] = rests[check_random_int(seed, 0, 4)];
    panel_set_state(&list->panel, STATE_HANDLE, check_random_int(seed, 0, 3) * 60);
    panel_set_state(&list->panel, STATE_RECOAT, check_random_int(seed, 0, 5) * 45);
    shop->settle_min = draw_one_in(seed, 2) ? 0 : check_random_int(seed, 1, 3) * 15;
    if (shop->settle_min > 0)
        panel_set_state(&list->panel, STATE_DUST_FREE, check_random_int(seed, 0, 4) * 20);
}

/* What follows in a row, coats alone in some jobs: a part may be turned before it is coated. */
static int draw_step(struct work_list *list, int last, bool coats, uint64_t *seed)
{
    static const enum doing doings[] = {DO_SAND, DO_SAND, DO_SCUFF, DO_APPLY, DO_APPLY, DO_APPLY, DO_TASK};
    static const int waits[] = {0, 0, 1, 30, 60, 90, 240, 900};
    enum doing doing = coats ? DO_APPLY : doings[check_random_int(seed, 0, 6)];
    if (doing == DO_APPLY && draw_one_in(seed, 4)) {
        int turn = work_add(list, DO_FLIP, 1, check_random_int(seed, 1, 10) * 60);
        list->items[turn].people = draw_one_in(seed, 5) ? 2 : 1;
        if (last != SITE_NONE)
            work_link(list, last, turn, draw_one_in(seed, 2) ? 60 : 0);
        last = turn;
    }
    int units = check_random_int(seed, 1, 3);
    int each_s = check_random_int(seed, 15, 150) * 60 / units, odd_s = draw_one_in(seed, 3);
    int item = work_add(list, doing, units, each_s + odd_s);
    list->items[item].grit = draw_one_in(seed, 2) ? 120 : 180;
    list->items[item].dusty = list->panel.job.shop.settle_min > 0 && (doing == DO_SAND || doing == DO_SCUFF);
    if (last == SITE_NONE)
        return item;
    int32_t wait = list->items[last].doing == DO_FLIP ? 0 : waits[check_random_int(seed, 0, 7)];
    struct link *link = work_link(list, last, item, wait);
    if (list->items[last].doing == DO_APPLY && draw_one_in(seed, 2)) {
        link->kind = draw_one_in(seed, 4) ? LINK_DAY : LINK_STATE;
        link->state = STATE_RECOAT;
    }
    return item;
}

/* Two to five operations in rows. */
static struct site *draw(struct work_list *list, struct person *crew, uint64_t *seed)
{
    work_begin(list);
    draw_shop(list, crew, seed);
    bool coats = draw_one_in(seed, 3);
    int most = list->panel.job.shop.people == 1 && draw_one_in(seed, 4) ? 5 : 4;
    int count = check_random_int(seed, 2, most), last = SITE_NONE;
    while ((int)list->operations.count < count) {
        if (last != SITE_NONE && draw_one_in(seed, 3)) {
            work_line(list, last, check_random_int(seed, 0, 2) * 120);
            work_row(list);
            last = SITE_NONE;
            if (draw_one_in(seed, 4)) {
                int hour = check_random_int(seed, 8, 15), day = 1 + check_random_int(seed, 0, 1);
                list->pieces[list->rows - 1].ready_min = march(day, hour, 0);
            }
        }
        last = draw_step(list, last, coats, seed);
    }
    work_line(list, last, 0);
    if (draw_one_in(seed, 2)) {
        int working = check_random_int(seed, 1, 8) * 15;
        list->panel.finish.induction_min = check_random_int(seed, 0, 1) * 10;
        work_mixed(list, working,
                   working + list->panel.finish.induction_min + check_random_int(seed, 0, 2) * 30);
    }
    struct site *site = work_site(list, 14);
    site->rack = draw_one_in(seed, 3) ? 2 : -1;
    for (size_t i = 0; i < site->count; i++)
        site->rows[i].rack = site->rows[i].film ? 1 : 0;
    return site;
}

enum { DRAWN = 3500 };

/* How many there were with a plan, and by how much all bounds together fall short of the best plans. */
struct told {
    int plans;
    int64_t work_s, ready_min, soonest_s;
};

static void judge(const struct row *row, const struct site *site, void *with)
{
    struct told *told = with;
    struct work_best best = work_best(site);
    if (!best.work.whole)
        return;
    struct least least = bounds_of(site);
    int64_t by_then = bounds_work(site, &best.soon.ready);
    check_true(row, least.work <= best.work.work, "no plan takes less work");
    check_true(row, least.ready <= best.soon.ready, "no plan is ready sooner");
    check_true(row, by_then <= best.soon.work, "no plan that is ready as soon takes less work");
    check_true(row, by_then >= least.work, "whoever must be ready by then does no less");
    told->plans++;
    told->work_s += best.work.work - least.work;
    told->ready_min += best.soon.ready - least.ready;
    told->soonest_s += best.soon.work - by_then;
}

/* Does something with every drawn job of which all orders can be tried. */
static void with_each(void (*work)(const struct row *row, const struct site *site, void *with), void *with)
{
    for (int i = 0; i < DRAWN; i++) {
        uint64_t seed = (uint64_t)i;
        char name[32];
        snprintf(name, sizeof name, "seed %d", i);
        struct work_list list;
        struct person crew[2];
        const struct site *site = draw(&list, crew, &seed);
        if (order_every(site) > 0)
            work(&(struct row){name, __FILE__, __LINE__}, site, with);
        work_end(&list);
    }
}

/* By how much they fall short is the program's own figure: what a change takes away of the bounds is seen. */
static void no_bound_says_more_than_the_best_plan(void **state)
{
    (void)state;
    struct told told = {0};
    with_each(judge, &told);
    check_int(HERE, told.plans, 3337);
    check_true(HERE, told.work_s <= 904920, "the bounds of work fall short by no more");
    check_true(HERE, told.ready_min <= 185557, "nor do those of ready moments");
    check_true(HERE, told.soonest_s <= 884220, "nor those of the work of the soonest");
}

/* Few orders are all tried: what is found is no worse than the best that begins each batch as soon as may be (a mix less, where it begins
 * later, is tried too), and in it everything is done while its batch is. */
static void find(const struct row *row, const struct site *site, void *with)
{
    int *found = with;
    struct score best = work_best(site).work;
    struct batching batching = {.site = site, .effort = 6000000};
    batching_start(&batching);
    check_true(row, best.whole || !batching.score.whole, "none is found where there is none");
    if (!batching.score.whole)
        return;
    batching_improve(&batching);
    const struct draft *draft = batching.best->draft;
    check_true(row, batching.score.work <= best.work, "no plan takes less work");
    if (batching.score.work == best.work)
        check_true(row, batching.score.ready <= best.ready, "nor is one that takes no more ready sooner");
    for (size_t i = 0; i < draft->count; i++)
        for (size_t k = 0; k < draft->placed[i].batch.count; k++) {
            int item = draft->placed[i].batch.items[k];
            check_true(row, draft->start[item] >= draft->placed[i].laid.start, "not before its batch");
            check_true(row, draft->end[item] <= draft->placed[i].laid.end, "nor behind it");
        }
    ++*found;
}

static void what_is_found_is_the_best_plan(void **state)
{
    (void)state;
    int found = 0;
    with_each(find, &found);
    check_true(HERE, found > DRAWN / 2, "most have a plan");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(no_bound_says_more_than_the_best_plan),
                     CHECK_TEST(what_is_found_is_the_best_plan));
}
