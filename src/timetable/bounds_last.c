/* How late each operation can end by itself, and the batch that holds it begin: its waits, from the end. */
#include "timetable/bounds.h"
#include "timetable/lay.h"

/* The last minute up to which a rising function says no more than `limit`; SITE_NONE: none. */
struct rising {
    const struct site *site;
    const struct link *link; /* or NULL and */
    const struct finish_line *line;
};

static int32_t says(const struct rising *rising, int32_t end)
{
    return rising->link ? site_link(rising->site, rising->link, end, end)
                        : site_line(rising->site, rising->line, end);
}

static int32_t last_within(const struct rising *rising, int32_t limit)
{
    int32_t low = SITE_NONE, high = limit;
    while (low < high) {
        int32_t middle = low + (high - low + 1) / 2;
        if (says(rising, middle) <= limit)
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}

/* The last minute, no later, at which somebody who can is at work or has just ended it. */
static int32_t on_duty_by(const struct site *site, unsigned needs, int32_t at)
{
    int32_t last = SITE_NONE;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        size_t duty = crew_duty_at(worker, at);
        if (!worker_can(worker, needs))
            continue;
        bool within = duty < worker->duty_count && worker->duties[duty].from <= at;
        int32_t then = within ? at : duty > 0 ? worker->duties[duty - 1].to : SITE_NONE;
        last = then > last ? then : last;
    }
    return last;
}

int32_t bounds_batch_by(const struct worker *worker, const struct kind *kind, int32_t by, int64_t seconds)
{
    size_t d = crew_duty_at(worker, by - 1);
    int64_t at = (int64_t)by * MINUTE_S, left = seconds;
    if (by >= SITE_NEVER)
        return SITE_NEVER;
    if (d == worker->duty_count || worker->duties[d].from >= by) {
        if (d == 0)
            return SITE_NONE;
        d--;
        at = (int64_t)worker->duties[d].to * MINUTE_S;
    }
    for (;; d--) {
        int64_t room = at - (int64_t)worker->duties[d].from * MINUTE_S;
        if (left <= room)
            return (int32_t)((at - left) / MINUTE_S / GRID_MIN * GRID_MIN);
        if (d == 0)
            return SITE_NONE;
        left = lay_may_go_on(kind, &worker->duties[d]) ? left - room : seconds;
        at = (int64_t)worker->duties[d - 1].to * MINUTE_S;
    }
}

int32_t bounds_begin_by(const struct site *site, int item, int32_t last)
{
    const struct task_row *row = &site->rows[item];
    const struct kind *kind = &site->kinds[row->kind];
    int64_t seconds = row->operation->units.seconds;
    int32_t by = SITE_NONE;
    if (last >= SITE_NEVER || seconds == 0)
        return last;
    if (site_turned_for(site, item) != SITE_NONE)
        return (int32_t)(((int64_t)last * MINUTE_S - seconds) / MINUTE_S);
    seconds += (int64_t)bounds_before_units(kind) * MINUTE_S;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        if (worker_can(worker, kind->needs))
            bounds_raise(&by, bounds_batch_by(worker, kind, last, seconds));
    }
    return by;
}

int32_t bounds_last_for(const struct site *site, const struct link *link, int32_t last, int32_t limit)
{
    const struct task_row *from = &site->rows[link->from], *to = &site->rows[link->to];
    if (site_link_is_limit(link) || link->kind == LINK_DAY || to->optional || last >= SITE_NEVER)
        return limit;
    struct rising rising = {site, link, NULL};
    int32_t start =
        on_duty_by(site, site->kinds[to->kind].needs, last - to->operation->units.seconds / MINUTE_S);
    int32_t at = last_within(&rising, start);
    if (bounds_is_over_before(site, link->from, link->to)) {
        int32_t begun = bounds_begin_by(site, link->to, last) - site->kinds[from->kind].clean_up;
        at = begun < at ? begun : at;
    }
    return at < limit ? on_duty_by(site, site->kinds[from->kind].needs, at) : limit;
}

static int32_t last_end(const struct site *site, int item, const int32_t *last, int32_t limit)
{
    const struct task_row *row = &site->rows[item];
    int32_t end = limit;
    for (int line = row->line; line != SITE_NONE; line = site->next_line[line]) {
        struct rising rising = {site, NULL, &site->operations->lines[line]};
        int32_t at = last_within(&rising, limit);
        end = at < end ? at : end;
    }
    for (size_t k = 0; k < row->out_count; k++) {
        const struct link *link = &site->operations->links[row->out[k]];
        end = bounds_last_for(site, link, last[link->to], end);
    }
    return on_duty_by(site, site->kinds[row->kind].needs, end);
}

/* Against the order of the list, in which links mostly point forward. */
void bounds_last(const struct site *site, const int32_t *ready_by, int32_t *last)
{
    for (size_t i = 0; i < site->count; i++)
        last[i] = SITE_NEVER;
    for (size_t i = site->count; i > 0; i--) {
        int32_t limit = ready_by[site->rows[i - 1].job];
        if (limit < SITE_NEVER && !site->rows[i - 1].optional)
            last[i - 1] = last_end(site, (int)i - 1, last, limit);
    }
}
