/* When a batch of sanding, or of coats, can be where all work is done in one room: no film is wet while dust is raised, or settles. */
#include "timetable/bounds_fit.h"

#include <string.h>

/* All that comes after an operation, or before it. */
static void mark_near(struct fitting *f, int item, bool behind)
{
    const struct task_row *row = &f->site->rows[item];
    for (size_t k = 0; k < (behind ? row->out_count : row->in_count); k++) {
        const struct link *link = &f->site->operations->links[behind ? row->out[k] : row->in[k]];
        int next = behind ? link->to : link->from;
        if (site_link_is_limit(link) || f->site->rows[next].optional || f->near[next])
            continue;
        f->near[next] = true;
        mark_near(f, next, behind);
    }
}

static void mark_all(struct fitting *f, bool behind)
{
    memset(f->near, 0, f->site->count * sizeof *f->near);
    for (size_t i = 0; i < f->count; i++)
        mark_near(f, f->item[i], behind);
}

/* Whether all of the kind raises dust, which settles no sooner than somebody who is about to have a break may stand idle. */
static bool raises_dust(const struct fitting *f)
{
    const struct site *site = f->site;
    const struct kind *kind = f->tally->kind;
    if (kind->clean_up > 0 || (int64_t)site->settle * MINUTE_S < f->tally->idle_s)
        return false;
    for (size_t i = 0; i < site->count; i++)
        if (&site->kinds[site->rows[i].kind] == kind &&
            (site->rows[i].optional || !site->rows[i].operation->dusty))
            return false;
    return true;
}

/* Whether all of the kind leaves films that are wet for longer than a batch may stand still between two of them. */
static bool leaves_films(const struct fitting *f)
{
    const struct tally *tally = f->tally;
    int64_t still = tally->idle_s + tally->flips_s + (tally->kind->mixed ? MIXING_MIN * MINUTE_S : 0);
    for (size_t i = 0; i < tally->count; i++)
        if (!f->site->rows[tally->items[i]].film ||
            (int64_t)site_fastest(f->site, tally->items[i], STATE_DUST_FREE) * MINUTE_S < still)
            return false;
    return true;
}

/* A coat that comes after something of a batch of sanding comes after all of it, settled: nobody lays a film while it goes on, nor in
 * its breaks, in which nobody works. */
static void settle_first(struct fitting *f, struct stay stay)
{
    const struct site *site = f->site;
    mark_all(f, true);
    for (size_t i = 0; i < site->count; i++) {
        if (!f->near[i] || !site->rows[i].film || f->start[i] >= stay.over + site->settle)
            continue;
        f->start[i] = stay.over + site->settle;
        f->moved = true;
    }
}

/* Sanding that comes before something of a batch of coats comes before all of it, whoever does it. */
static void sand_first(struct fitting *f)
{
    const struct site *site = f->site;
    int64_t seconds = 0, set_ups = 0;
    int32_t begin = SITE_NEVER, end = 0, by = SITE_NEVER;
    mark_all(f, false);
    memset(f->seen, 0, site->kind_count * sizeof *f->seen);
    for (size_t i = 0; i < site->count; i++) {
        const struct task_row *row = &site->rows[i];
        if (!f->near[i] || !row->operation->dusty || row->operation->units.seconds == 0)
            continue;
        seconds += row->operation->units.seconds;
        set_ups += f->seen[row->kind] ? 0 : site->kinds[row->kind].set_up;
        f->seen[row->kind] = true;
        begin = f->set_up[i] < begin ? f->set_up[i] : begin;
        bounds_raise(&end, f->end[i]);
    }
    if (seconds == 0)
        return;
    bounds_raise(&end, bounds_hands_done(site, site->crew->count, begin, seconds / MINUTE_S + set_ups));
    for (size_t i = 0; i < f->count; i++) {
        int32_t first = f->last[f->item[i]] - (int32_t)(fitting_units(f, f->item[i]) / MINUTE_S);
        by = first < by ? first : by;
        f->moved |= f->start[f->item[i]] < end + site->settle;
        bounds_raise(&f->start[f->item[i]], end + site->settle);
    }
    for (size_t i = 0; i < site->count; i++)
        if (f->near[i] && site->rows[i].operation->dusty && site->rows[i].operation->units.seconds > 0)
            fitting_lower(f, (int)i, by - site->settle);
}

void dust_keep_off(struct fitting *f, struct stay stay)
{
    if (f->dusts && raises_dust(f))
        settle_first(f, stay);
    else if (f->dusts && leaves_films(f))
        sand_first(f);
}
