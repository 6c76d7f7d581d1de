/* When one batch whose items are known can be: from what these can be by themselves. */
#include "timetable/bounds_fit.h"
#include "timetable/lay.h"

/* The second by which somebody has worked so long since another, in a batch that pauses where it may; INT64_MAX: no batch goes on so
 * long. */
static int64_t worked_by(const struct worker *worker, const struct kind *kind, size_t duty, int64_t from,
                         int64_t seconds)
{
    for (size_t d = duty; d < worker->duty_count; d++) {
        const struct duty *own = &worker->duties[d];
        if (d > duty && !lay_may_go_on(kind, own))
            return INT64_MAX;
        int64_t at = (int64_t)own->from * MINUTE_S, to = (int64_t)own->to * MINUTE_S;
        at = from > at ? from : at;
        if (at + seconds <= to)
            return at + seconds;
        seconds -= to > at ? to - at : 0;
    }
    return INT64_MAX;
}

/* No batch that still does something at a second begins before, if it works no longer than that until then. */
static int64_t begun_by(const struct worker *worker, const struct kind *kind, int64_t idle_s, int32_t told,
                        int64_t seconds)
{
    size_t d = crew_duty_at(worker, told - 1);
    if (d == worker->duty_count)
        return 0;
    int64_t at = fitting_second(told);
    for (;; d--) {
        int64_t from = (int64_t)worker->duties[d].from * MINUTE_S, room = at > from ? at - from : 0;
        if (at < from)
            at = from;
        if (seconds <= room)
            return at - seconds;
        if (d == 0 || !lay_may_go_on(kind, &worker->duties[d]))
            return from;
        seconds += idle_s - room;
        at = (int64_t)worker->duties[d - 1].to * MINUTE_S;
    }
}

/* The second at which all items that start no sooner than one of them are done, if the batch begins then; INT64_MAX: never, or one of
 * them would be done after its last moment. */
static int64_t done_from(const struct fitting *f, const struct worker *worker, size_t duty, int64_t from,
                         size_t first)
{
    int32_t head = f->start[f->item[first]];
    int64_t at = fitting_second(head), seconds = 0, done = 0;
    at = at > from ? at : from;
    for (size_t i = 0; i < f->count; i++) {
        int item = f->by_last[i];
        if (f->start[item] < head)
            continue;
        seconds += fitting_units(f, item);
        done = worked_by(worker, f->tally->kind, duty, at, seconds);
        if (done == INT64_MAX || (done + MINUTE_S - 1) / MINUTE_S > f->last[item])
            return INT64_MAX;
    }
    return done;
}

/* When the batch is over that begins within a stretch; INT64_MAX: it does not end in time. */
static int64_t over_at(const struct fitting *f, const struct worker *worker, size_t duty, int32_t begin)
{
    const struct kind *kind = f->tally->kind;
    int64_t from = (int64_t)begin * MINUTE_S + (int64_t)bounds_before_units(kind) * MINUTE_S,
            mixing = bounds_mixing(kind, f->units_s);
    int64_t clean_up = (int64_t)kind->clean_up * MINUTE_S;
    if (from > (int64_t)worker->duties[duty].to * MINUTE_S)
        return INT64_MAX;
    int64_t over = worked_by(worker, kind, duty, from, f->units_s + f->turns_s + mixing + clean_up);
    for (size_t i = 0; i < f->count && over < INT64_MAX; i++) {
        if (i > 0 && f->start[f->item[i]] == f->start[f->item[i - 1]])
            continue;
        int64_t done = done_from(f, worker, duty, from, i);
        over = done == INT64_MAX ? done : done + clean_up > over ? done + clean_up : over;
    }
    return over;
}

/* Seconds from the start of the batch to the end of its last unit, at the most, pauses apart. */
static int64_t work_most(const struct fitting *f)
{
    return f->mixing_s + f->fill_s + f->tally->flips_s + (int64_t)f->tally->kind->set_up * MINUTE_S;
}

/* The first time for one person; begin SITE_NEVER: none. */
static struct spell first_stay(const struct fitting *f, const struct worker *worker, int32_t begin)
{
    int64_t all = work_most(f);
    for (size_t i = 0; i < f->count && !f->tally->kind->unlike; i++) {
        int64_t then = begun_by(worker, f->tally->kind, f->tally->idle_s, f->start[f->item[i]],
                                all - fitting_units(f, f->item[i]));
        bounds_raise(&begin, site_up((int32_t)((then + MINUTE_S - 1) / MINUTE_S)));
    }
    for (size_t d = crew_duty_at(worker, begin); d < worker->duty_count; d++) {
        int32_t at = begin > worker->duties[d].from ? begin : worker->duties[d].from;
        int64_t over = over_at(f, worker, d, at);
        if (over < INT64_MAX)
            return (struct spell){at, (int32_t)((over + MINUTE_S - 1) / MINUTE_S)};
        if (worker->duties[d].from > f->last[f->by_last[f->count - 1]])
            break;
    }
    return (struct spell){SITE_NEVER, SITE_NEVER};
}

/* The latest minute at which somebody can begin it. */
static int32_t begin_by(const struct fitting *f, const struct worker *worker)
{
    const struct kind *kind = f->tally->kind;
    int64_t seconds = (int64_t)bounds_before_units(kind) * MINUTE_S, units = 0;
    int32_t by = SITE_NEVER;
    for (size_t i = 0; i < f->count; i++) {
        int32_t last = f->last[f->by_last[i]];
        units += fitting_units(f, f->by_last[i]);
        int32_t own = bounds_batch_by(worker, kind, last, seconds + units + bounds_mixing(kind, units));
        by = own < by ? own : by;
    }
    return by;
}

/* By when so many seconds of a batch's work are done that begin by a minute. */
static int32_t done_by(const struct worker *worker, const struct kind *kind, int64_t idle_s, int32_t begin,
                       int64_t seconds)
{
    int64_t at = (int64_t)begin * MINUTE_S;
    size_t d = crew_duty_at(worker, begin);
    if (begin >= SITE_NEVER || d == worker->duty_count)
        return SITE_NEVER;
    for (;; d++) {
        int64_t from = (int64_t)worker->duties[d].from * MINUTE_S,
                to = (int64_t)worker->duties[d].to * MINUTE_S;
        at = from > at ? from : at;
        if (at + seconds <= to)
            return (int32_t)((at + seconds + MINUTE_S - 1) / MINUTE_S);
        if (d + 1 == worker->duty_count || !lay_may_go_on(kind, &worker->duties[d + 1]))
            return worker->duties[d].to;
        seconds += idle_s - (to - at);
    }
}

/* Seconds of mixes that an item may have within: one before each unit and further ones in a unit that outlasts a mix. */
static int64_t mixing_in(const struct kind *kind, const struct units *units)
{
    int64_t mixes = (int64_t)units->count;
    if (!kind->mixed)
        return 0;
    if (kind->working != INT32_MAX)
        mixes += units->seconds / ((int64_t)kind->working * MINUTE_S);
    return mixes * (MIXING_MIN + kind->induction) * MINUTE_S;
}

/* Before a break there may be no room for a unit and its mixes. */
static int64_t item_idle(const struct kind *kind, const struct units *units)
{
    return units->longest_s + mixing_in(kind, units);
}

/* What is turned over goes with the coat that it is for. */
static bool stays_by_itself(const struct site *site, int item)
{
    return site->rows[item].operation->units.seconds > 0 && site_turned_for(site, item) == SITE_NONE;
}

int32_t stay_item_done(const struct site *site, int item, int32_t start_by)
{
    const struct kind *kind = &site->kinds[site->rows[item].kind];
    const struct units *units = &site->rows[item].operation->units;
    int32_t done = SITE_NONE;
    if (!stays_by_itself(site, item))
        return SITE_NEVER;
    for (int p = 0; p < site->crew->count; p++)
        if (worker_can(&site->crew->workers[p], kind->needs))
            bounds_raise(&done, done_by(&site->crew->workers[p], kind, item_idle(kind, units), start_by,
                                        units->seconds + mixing_in(kind, units)));
    return done;
}

int32_t stay_item_begun(const struct site *site, int item, int32_t end)
{
    const struct kind *kind = &site->kinds[site->rows[item].kind];
    const struct units *units = &site->rows[item].operation->units;
    int64_t begun = INT64_MAX;
    for (int p = 0; p < site->crew->count && stays_by_itself(site, item); p++) {
        if (!worker_can(&site->crew->workers[p], kind->needs))
            continue;
        int64_t own = begun_by(&site->crew->workers[p], kind, item_idle(kind, units), end,
                               units->seconds + mixing_in(kind, units));
        begun = own < begun ? own : begun;
    }
    return begun == INT64_MAX ? 0 : (int32_t)((begun + MINUTE_S - 1) / MINUTE_S);
}

bool stay_within(const struct fitting *f, int32_t begin, struct stay *stay)
{
    *stay = (struct stay){SITE_NEVER, SITE_NEVER, SITE_NONE, SITE_NONE, SITE_NEVER};
    for (int p = 0; p < f->site->crew->count; p++) {
        const struct worker *worker = &f->site->crew->workers[p];
        if (!worker_can(worker, f->tally->kind->needs) || (p > 0 && worker->alike == 0))
            continue;
        struct spell first = first_stay(f, worker, begin);
        int32_t by = begin_by(f, worker);
        if (first.from >= SITE_NEVER || first.from > by)
            continue;
        stay->begin = first.from < stay->begin ? first.from : stay->begin;
        stay->over = first.to < stay->over ? first.to : stay->over;
        stay->end = site_up(stay->over);
        bounds_raise(&stay->begin_by, by);
        bounds_raise(&stay->done_by, f->tally->kind->unlike ? SITE_NEVER
                                                            : done_by(worker, f->tally->kind,
                                                                      f->tally->idle_s, by, work_most(f)));
    }
    return stay->begin < SITE_NEVER;
}
