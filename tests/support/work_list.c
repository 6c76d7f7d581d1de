#include "work_list.h"

#include "base/arena.h"
#include "check.h"

void work_begin(struct work_list *list)
{
    list->rows = 0;
    list->arena = arena_make(0);
    panel_init(&list->panel);
    list->panel.job.pieces = list->pieces;
    list->coat = (struct step){
        .kind = STEP_COAT, .finish = &list->panel.finish, .coats = 1, .by = TOOL_CLOTH, .wait_min = -1};
    list->operations = (struct operations){.job = &list->panel.job,
                                           .surfaces = &list->panel.surfaces,
                                           .items = list->items,
                                           .links = list->links,
                                           .lines = list->lines};
    work_row(list);
}

void work_end(struct work_list *list)
{
    arena_free(list->arena);
}

void work_row(struct work_list *list)
{
    list->pieces[list->rows++] = (struct piece){.name = "A", .ready_min = INT64_MIN, .rack_m2 = -1};
    list->panel.job.piece_count = (size_t)list->rows;
}

int work_add(struct work_list *list, enum doing doing, int units, int32_t seconds_each)
{
    int item = (int)list->operations.count++, row = list->rows - 1;
    for (int i = 0; i < units; i++)
        list->ends_s[item][i] = (i + 1) * seconds_each;
    struct operation *operation = &list->items[item];
    *operation = panel_operation(&list->panel, row, doing);
    operation->of = (struct coat){&list->coat, 1, 1};
    operation->minutes = units * seconds_each / 60;
    operation->units = (struct units){.ends_s = list->ends_s[item],
                                      .count = (size_t)units,
                                      .seconds = units * seconds_each,
                                      .longest_s = units > 0 ? seconds_each : 0,
                                      .possible = true};
    return item;
}

struct link *work_link(struct work_list *list, int from, int to, int32_t span_min)
{
    struct link *link = &list->links[list->operations.link_count++];
    *link = panel_link(from, to, span_min);
    return link;
}

void work_add_two(struct work_list *list, enum doing first, enum doing second, int32_t seconds, int32_t wait)
{
    int from = work_add(list, first, 1, seconds), to = work_add(list, second, 1, seconds);
    work_link(list, from, to, wait);
}

struct finish_line *work_line(struct work_list *list, int item, int32_t span_min)
{
    struct finish_line *line = &list->lines[list->operations.line_count++];
    *line = (struct finish_line){.operation = item, .span_min = span_min};
    return line;
}

void work_set_up(struct work_list *list, int work, int set_up_min, int clean_up_min)
{
    struct shop *shop = &list->panel.job.shop;
    shop->set_up_min[work] = set_up_min;
    shop->clean_up_min[work] = clean_up_min;
    if (work < TOOL_COUNT)
        shop->two_part_clean_up_min[work] = clean_up_min;
}

void work_mixed(struct work_list *list, int working_min, int pot_life_min)
{
    list->panel.finish.component_count = 2;
    for (size_t i = 0; i < list->operations.count; i++) {
        list->items[i].working_min = working_min;
        list->items[i].pot_life_min = pot_life_min;
    }
}

void work_hours(struct work_list *list, int from, int to, int again_from, int until)
{
    list->panel.stretches[0] = (struct stretch){from * 60, to * 60};
    list->panel.stretches[1] = (struct stretch){again_from * 60, until * 60};
    for (int day = 0; day < 7; day++)
        list->panel.job.shop.hours[day].count = 2;
}

struct site *work_site(struct work_list *list, int days)
{
    return site_make(list->arena, &list->operations, march(1, 0, 0), days * DAY_MINUTES);
}

static void keep_better(struct score *best, const struct score *score, enum timetable_aim aim)
{
    if (!best->whole || score_compare(score, best, aim) < 0)
        *best = *score;
}

struct work_best work_best(const struct site *site)
{
    struct variant *variant = variant_make(site->arena, site);
    struct work_best best = {0};
    int64_t orders = order_every(site);
    check_true(HERE, orders > 0, "too many orders to try");
    for (int64_t number = 0; number < orders; number++) {
        if (!order_numbered(site, number, &variant->order))
            continue;
        variant_place(variant, SCUFF_NEVER, INT64_MAX / 4);
        struct score score = score_of(variant);
        if (!score.whole)
            continue;
        keep_better(&best.work, &score, AIM_LEAST_WORK);
        keep_better(&best.soon, &score, AIM_SOONEST);
    }
    return best;
}
