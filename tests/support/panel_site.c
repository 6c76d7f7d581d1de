#include "panel_site.h"

#include "base/err.h"
#include "check.h"

#include <string.h>

enum { FOUR_WEEKS_MIN = 28 * DAY_MINUTES };

const struct operations *panel_operations(struct arena *arena, struct panel *panel)
{
    struct err_list errors = {0};
    const struct operations *operations = timetable_operations(arena, &panel->job, &panel->surfaces, &errors);
    check_int(HERE, (intmax_t)errors.count, 0);
    return operations;
}

struct site *panel_site(struct arena *arena, struct panel *panel)
{
    return site_make(arena, panel_operations(arena, panel), march(1, 0, 0), FOUR_WEEKS_MIN);
}

void panel_set_noon(struct panel *panel, int closes_min, int opens_min)
{
    panel->stretches[0] = (struct stretch){8 * 60, closes_min};
    panel->stretches[1] = (struct stretch){opens_min, 17 * 60};
    for (int day = 0; day < 7; day++)
        panel->job.shop.hours[day] = (struct shop_day){panel->stretches, 2};
}

int panel_item(const struct operations *operations, const char *id)
{
    for (size_t i = 0; i < operations->count; i++)
        if (strcmp(operations->items[i].id, id) == 0)
            return (int)i;
    check_true(HERE, false, id);
    return -1;
}

int32_t site_at(int day, int hour, int minute)
{
    return (day - 1) * DAY_MINUTES + hour * 60 + minute;
}
