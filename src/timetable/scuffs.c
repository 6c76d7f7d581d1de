/* Late scuffs that no plan can do without. */
#include "base/arena.h"
#include "timetable/site.h"

int32_t site_way(const struct site *site, int from, int to, int32_t *at)
{
    at[0] = 0;
    for (int i = from + 1; i <= to; i++) {
        at[i - from] = SITE_NONE;
        for (size_t k = 0; k < site->rows[i].in_count && !site->rows[i].optional; k++) {
            const struct link *link = &site->operations->links[site->rows[i].in[k]];
            bool within = link->from >= from && link->from < i && at[link->from - from] != SITE_NONE;
            if (!within || site_link_is_limit(link))
                continue;
            int32_t then = site_link_least(site, link);
            if (link->from != from)
                then += at[link->from - from] + site->rows[link->from].operation->units.seconds / 60;
            at[i - from] = then > at[i - from] ? then : at[i - from];
        }
    }
    return at[to - from];
}

/* How long the window of a coat is where it runs out slowest; SITE_NEVER: it may have no end. */
static int64_t window_most(const struct site *site, int coat)
{
    const struct task_row *row = &site->rows[coat];
    const struct drying_clock *clock = row->film->clock[DRYING_WINDOW];
    int32_t needed = operation_window_min(row->operation), slowest = INT32_MAX;
    for (size_t i = 0; i < clock->count; i++)
        slowest = clock->rate[i] < slowest ? clock->rate[i] : slowest;
    if (needed == SPAN_NEVER || slowest <= 0)
        return SITE_NEVER;
    return (int64_t)needed * DRYING_UNIT / slowest + GRID_MIN;
}

void site_find_optional(struct site *site)
{
    const struct operations *operations = site->operations;
    int32_t *at = ARENA_ARRAY(site->arena, site->count, int32_t);
    for (size_t i = 0; i < site->count; i++)
        site->rows[i].optional = site->rows[i].operation->late_scuff;
    for (size_t i = 0; i < operations->link_count; i++) {
        const struct link *link = &operations->links[i];
        if (link->kind == LINK_WINDOW && link->unless >= 0 && link->from < link->to &&
            site_way(site, link->from, link->to, at) > window_most(site, link->from))
            site->rows[link->unless].optional = false;
    }
}
