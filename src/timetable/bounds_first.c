/* How soon each operation can start and end: its waits, the hours of those who can do it, and the set-up of its batch. */
#include "base/arena.h"
#include "timetable/bounds.h"
#include "timetable/lay.h"

#include <string.h>

enum { ROUNDS_MOST = 50 };

/* Moments so far, per operation. */
struct firsts {
    const struct site *site;
    int32_t *start, *end;
    int32_t *turned;       /* of a turn: its end within the batch of the coat that it is for */
    const int32_t *set_up; /* nobody sets up for it before */
};

/* What is done at once, and what must stand before it where its batch begins. */
struct doing_it {
    const struct operation *operation;
    const struct film *film; /* NULL: no coat */
    const struct kind *kind;
    int32_t set_up, before; /* minutes: set-up; that and the first mix */
};

static struct doing_it doing_item(const struct site *site, int item)
{
    const struct task_row *row = &site->rows[item];
    const struct kind *kind = &site->kinds[row->kind];
    return (struct doing_it){row->operation, row->film, kind, kind->set_up, bounds_before_units(kind)};
}

/* When the units can be done that begin then in a stretch: unit after unit, over the breaks that a batch
 * may pause in. Mixes behind the first are made while somebody is there: all of them in the time of work,
 * before the last unit, and what serves the units behind the last break, but for one mix from before it,
 * behind that. SITE_NEVER: not all of them can. */
static int32_t units_end(const struct worker *worker, const struct doing_it *doing, size_t duty, int64_t at)
{
    const struct units *units = &doing->operation->units;
    int64_t behind = 0, all = at + units->seconds;
    for (size_t k = 0; k < units->count; k++) {
        int64_t unit = units->ends_s[k] - (k > 0 ? units->ends_s[k - 1] : 0);
        for (; at + unit > (int64_t)worker->duties[duty].to * MINUTE_S; duty++) {
            if (k == 0 || duty + 1 == worker->duty_count ||
                !lay_may_go_on(doing->kind, &worker->duties[duty + 1]))
                return SITE_NEVER;
            at = (int64_t)worker->duties[duty + 1].from * MINUTE_S;
            behind = 0;
        }
        at += unit;
        behind += unit;
    }
    if (doing->film) {
        at += bounds_mixing(doing->kind, behind);
        all += bounds_mixing(doing->kind, units->seconds);
    }
    return (int32_t)(((at > all ? at : all) + MINUTE_S - 1) / MINUTE_S);
}

/* The first minute, no sooner, in whose air a coat may be laid. */
static int32_t in_air(const struct doing_it *doing, int32_t at)
{
    const struct spell *bad = doing->film ? site_spell(&doing->film->wet, at, at + 1) : NULL;
    return bad ? bad->to : at;
}

/* The first time for one person. Moments are told rounded up: the work may begin up to a minute before. */
static struct spell person_first(const struct worker *worker, const struct doing_it *doing, int32_t at)
{
    for (size_t d = crew_duty_at(worker, at - 1); d < worker->duty_count; d++) {
        const struct duty *duty = &worker->duties[d];
        bool fresh = d == 0 || !lay_may_go_on(doing->kind, duty);
        int32_t sure = duty->from + (fresh ? doing->before : 0);
        int32_t start = in_air(doing, at > sure ? at : sure);
        if (start > duty->to)
            continue;
        int64_t exact = ((int64_t)start - 1) * MINUTE_S + 1;
        if (exact < (int64_t)sure * MINUTE_S)
            exact = (int64_t)sure * MINUTE_S;
        int32_t end = units_end(worker, doing, d, exact);
        if (end < SITE_NEVER)
            return (struct spell){start, end};
    }
    return (struct spell){SITE_NEVER, SITE_NEVER};
}

/* Start and end each as soon as anybody reaches it. */
static struct spell first_time(const struct site *site, const struct doing_it *doing, int32_t at)
{
    struct spell first = {SITE_NEVER, SITE_NEVER};
    if (at >= SITE_NEVER)
        return first;
    if (doing->operation->units.seconds == 0)
        return (struct spell){at, at};
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        if (!worker_can(worker, doing->kind->needs) || (p > 0 && worker->alike == 0))
            continue;
        struct spell own = person_first(worker, doing, at);
        first.from = own.from < first.from ? own.from : first.from;
        first.to = own.to < first.to ? own.to : first.to;
    }
    return first;
}

/* The first moment at which somebody has set up, from a minute on, and has made what must stand before the work. */
static int32_t set_up_from(const struct site *site, const struct doing_it *doing, int32_t from)
{
    int32_t first = SITE_NEVER;
    for (int p = 0; p < site->crew->count && from < SITE_NEVER; p++) {
        const struct worker *worker = &site->crew->workers[p];
        for (size_t d = crew_duty_at(worker, from);
             d < worker->duty_count && worker_can(worker, doing->kind->needs); d++) {
            int32_t at = worker->duties[d].from > from ? worker->duties[d].from : site_up(from);
            if (at + doing->set_up > worker->duties[d].to)
                continue;
            first = at + doing->before < first ? at + doing->before : first;
            break;
        }
    }
    return first;
}

/* What is turned over may be done in the batch of the coat that it is for. */
static int batch_kind(const struct site *site, int item)
{
    int coat = site_turned_for(site, item);
    return site->rows[coat == SITE_NONE ? item : coat].kind;
}

bool bounds_is_over_before(const struct site *site, int from, int to)
{
    const struct task_row *rows = site->rows;
    bool turns = rows[from].operation->doing == DO_FLIP && rows[to].operation->doing == DO_FLIP;
    return !turns && batch_kind(site, from) != batch_kind(site, to) &&
           !site_may_be_at_once(site, rows[from].kind, rows[to].kind);
}

/* Not before the coat's part is turned over: by itself, and the batch is set up behind it, or within the batch. */
static int32_t behind_turn(const struct firsts *f, const struct doing_it *coat, int turn)
{
    const struct site *site = f->site;
    bool waits = !site_may_be_at_once(site, site->rows[turn].kind, (int)(coat->kind - site->kinds));
    int32_t alone = waits ? set_up_from(site, coat, f->end[turn]) : f->end[turn];
    return alone < f->turned[turn] ? alone : f->turned[turn];
}

static struct spell earliest(struct firsts *f, int item)
{
    const struct site *site = f->site;
    const struct task_row *row = &site->rows[item];
    struct doing_it doing = doing_item(site, item);
    int32_t at = row->release, begin = f->set_up[item];
    bounds_raise(&at, f->start[item]);
    for (size_t k = 0; k < row->in_count; k++) {
        const struct link *link = &site->operations->links[row->in[k]];
        int from = link->from;
        if (site_link_is_limit(link) || site->rows[from].optional || f->end[from] < 0)
            continue;
        bounds_raise(&at, site_link(site, link, f->start[from], f->end[from]));
        if (site_turned_for(site, from) == item)
            bounds_raise(&at, behind_turn(f, &doing, from));
        else if (bounds_is_over_before(site, from, item) && f->end[from] < SITE_NEVER)
            bounds_raise(&begin, site_up(f->end[from] + site->kinds[site->rows[from].kind].clean_up));
    }
    int coat = site_turned_for(site, item);
    if (coat != SITE_NONE) {
        struct doing_it within = doing_item(site, coat);
        within.operation = row->operation;
        within.film = NULL;
        within.before = within.set_up;
        int32_t then = set_up_from(site, &within, begin);
        f->turned[item] = first_time(site, &within, then > at ? then : at).to;
    }
    bounds_raise(&at, set_up_from(site, &doing, begin));
    return first_time(site, &doing, at);
}

void bounds_first_from(const struct site *site, const int32_t *set_up, int32_t *turned, int32_t *start,
                       int32_t *end)
{
    struct firsts f = {.site = site, .start = start, .end = end, .set_up = set_up, .turned = turned};
    memset(turned, 0, site->count * sizeof *turned);
    bool moved = true;
    for (int round = 0; round < ROUNDS_MOST && moved; round++) {
        moved = false;
        for (size_t i = 0; i < site->count; i++) {
            if (site->rows[i].optional)
                continue;
            struct spell at = earliest(&f, (int)i);
            moved |= at.from > start[i] || at.to > end[i];
            bounds_raise(&start[i], at.from);
            bounds_raise(&end[i], at.to);
        }
    }
}

void bounds_first(const struct site *site, int32_t *start, int32_t *end)
{
    int32_t *set_up = ARENA_ARRAY(site->arena, site->count, int32_t), begin = bounds_begin(site);
    for (size_t i = 0; i < site->count; i++) {
        end[i] = start[i] = SITE_NONE;
        set_up[i] = begin;
    }
    bounds_first_from(site, set_up, ARENA_ARRAY(site->arena, site->count, int32_t), start, end);
}
