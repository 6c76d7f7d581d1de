/* What must be done before a window ends: not long after another operation, which then is not done long before. */
#include "timetable/bounds_fit.h"

/* The first end, from one on and no later than another, that lets the later operation of a link start so late. */
static int32_t first_for(const struct site *site, const struct link *link, int32_t start, int32_t from,
                         int32_t to)
{
    while (from < to) {
        int32_t middle = from + (to - from) / 2;
        if (site_link(site, link, middle, middle) >= start)
            to = middle;
        else
            from = middle + 1;
    }
    return from;
}

static void raise(struct fitting *f, int32_t *moment, int32_t to)
{
    f->moved |= to > *moment;
    bounds_raise(moment, to);
}

/* A late scuff may lift a window. */
static bool binds(const struct site *site, const struct link *link)
{
    return site_link_is_limit(link) && link->unless < 0 && !site->rows[link->from].optional &&
           !site->rows[link->to].optional;
}

bool limits_hold(struct fitting *f)
{
    const struct site *site = f->site;
    for (size_t i = 0; i < site->operations->link_count; i++) {
        const struct link *link = &site->operations->links[i];
        int from = link->from, to = link->to;
        if (!binds(site, link) || f->last[from] >= SITE_NEVER)
            continue;
        int32_t by = site_link(site, link, f->last[from], f->last[from]);
        if (by < f->start[to])
            return false;
        fitting_lower(f, to, stay_item_done(site, to, by));
        int32_t end = first_for(site, link, f->start[to], f->end[from], f->last[from]);
        raise(f, &f->end[from], end);
        raise(f, &f->start[from], stay_item_begun(site, from, end));
    }
    return true;
}
