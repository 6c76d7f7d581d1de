#include "late_desk.h"

#include "base/arena.h"
#include "report/sentences.h"
#include "check.h"

struct desk *desk_make(void)
{
    struct arena *arena = arena_make(0);
    struct desk *desk = ARENA_NEW(arena, struct desk);
    desk->arena = arena;
    desk->now_min = march(1, 8, 0);
    panel_init(&desk->panel);
    desk->panel.job.deliver_min = march(1, 8, 30);
    desk->panel.job.shop.hours_assumed = false;
    return desk;
}

void desk_coat(struct desk *desk, size_t piece, int coats)
{
    panel_add_step(&desk->panel, piece, STEP_COAT)->coats = coats;
}

void desk_handled_after(struct desk *desk, int32_t minutes)
{
    panel_set_state(&desk->panel, STATE_HANDLE, minutes);
    panel_set_state(&desk->panel, STATE_WRAP, minutes);
    panel_set_state(&desk->panel, STATE_LIGHT_USE, minutes);
    desk->panel.finish.air.highest_c = desk->panel.spells[0].air.temperature_c + 1;
}

struct advice_list desk_asked(struct desk *desk)
{
    return advice_make(desk->arena, panel_dated(desk->arena, &desk->panel), (struct timetable_options){0},
                       desk->now_min);
}

/* All sentences, one a line; the storage is freed with the desk. */
static const char *told(struct desk *desk)
{
    struct advice_list list = desk_asked(desk);
    const char *text = "";
    for (size_t i = 0; i < list.count; i++)
        text = arena_textf(desk->arena, "%s%s\n", text,
                           advice_sentence(desk->arena, &list.items[i], desk->panel.job.zone, UNITS_METRIC));
    return text;
}

void check_told(const struct row *row, struct desk *desk, const char *want)
{
    check_text(row, told(desk), want);
    arena_free(desk->arena);
}
