#include "timetable/draft.h"

#include "base/arena.h"

#include <stdlib.h>
#include <string.h>

enum { THRIFT_MIN = 600 };

struct draft *draft_make(struct arena *arena, const struct site *site)
{
    struct draft *draft = ARENA_NEW(arena, struct draft);
    draft->site = site;
    draft->start = ARENA_ARRAY(arena, site->count, int32_t);
    draft->end = ARENA_ARRAY(arena, site->count, int32_t);
    draft->handle = ARENA_ARRAY(arena, site->count, int32_t);
    draft->clear = ARENA_ARRAY(arena, site->count, int32_t);
    draft->batch_of = ARENA_ARRAY(arena, site->count, int);
    draft->placed = ARENA_ARRAY(arena, site->count, struct placed);
    draft->left_out = ARENA_ARRAY(arena, site->count, bool);
    draft->hold = ARENA_ARRAY(arena, site->count, int32_t);
    struct draft_scratch *scratch = draft->scratch = ARENA_NEW(arena, struct draft_scratch);
    scratch->floor = ARENA_ARRAY(arena, site->count, int32_t);
    scratch->latest = ARENA_ARRAY(arena, site->count, int32_t);
    scratch->limit = ARENA_ARRAY(arena, site->count, int);
    scratch->floor_why = ARENA_ARRAY(arena, site->count, struct cause_of_start);
    draft->apart = ARENA_ARRAY(arena, site->count, int);
    scratch->lies = ARENA_ARRAY(arena, site->count + site->lying_count, struct lies);
    scratch->lies_until = ARENA_ARRAY(arena, (size_t)site->lot_count, int32_t);
    for (size_t i = 0; i < site->count; i++)
        draft->left_out[i] = site->rows[i].optional;
    draft->effort_limit = INT64_MAX;
    draft_clear(draft);
    return draft;
}

void draft_clear(struct draft *draft)
{
    for (size_t i = 0; i < draft->site->count; i++) {
        draft->start[i] = SITE_NONE;
        draft->batch_of[i] = SITE_NONE;
    }
    draft->count = 0;
}

void draft_copy(struct draft *to, const struct draft *from)
{
    size_t count = from->site->count;
    memcpy(to->start, from->start, count * sizeof *to->start);
    memcpy(to->end, from->end, count * sizeof *to->end);
    memcpy(to->handle, from->handle, count * sizeof *to->handle);
    memcpy(to->clear, from->clear, count * sizeof *to->clear);
    memcpy(to->batch_of, from->batch_of, count * sizeof *to->batch_of);
    memcpy(to->placed, from->placed, from->count * sizeof *to->placed);
    memcpy(to->left_out, from->left_out, count * sizeof *to->left_out);
    memcpy(to->hold, from->hold, count * sizeof *to->hold);
    to->count = from->count;
}

bool draft_is_open(const struct draft *draft, int operation)
{
    const struct task_row *row = &draft->site->rows[operation];
    for (size_t i = 0; i < row->in_count; i++) {
        int from = draft->site->operations->links[row->in[i]].from;
        if (draft->start[from] == SITE_NONE && !draft->left_out[from])
            return false;
    }
    return true;
}

bool draft_waits(const struct draft *draft, const struct link *link)
{
    if (draft->left_out[link->from] || draft->left_out[link->to])
        return false;
    return link->kind != LINK_WINDOW || link->unless < 0 || draft->left_out[link->unless];
}

static int batch_of(const struct draft *draft, int operation)
{
    return draft->batch_of[operation];
}

/* What an operation's links to what is placed allow: its first start, and the last. */
struct bound {
    int32_t floor, latest;
    struct cause_of_start why; /* of the floor */
    int limit;                 /* the link of `latest`, SITE_NONE */
};

static struct bound bound_of(const struct draft *draft, int item)
{
    const struct site *site = draft->site;
    const struct task_row *row = &site->rows[item];
    bool held = draft->hold[item] > row->release;
    bool lifted = row->operation->latest_unless >= 0 && !draft->left_out[row->operation->latest_unless];
    struct bound bound = {.floor = held ? draft->hold[item] : row->release,
                          .latest = lifted ? SITE_NEVER : row->latest,
                          .limit = SITE_NONE};
    bound.why = (struct cause_of_start){held ? HINDERED_BY_FLOOR : HINDERED_BY_RELEASE, item, SITE_NONE,
                                        SITE_NONE, bound.floor};
    for (size_t k = 0; k < row->in_count; k++) {
        const struct link *link = &site->operations->links[row->in[k]];
        if (!is_placed(draft, link->from) || !draft_waits(draft, link))
            continue;
        int32_t at = site_link(site, link, draft->start[link->from], draft->end[link->from]);
        if (site_link_is_limit(link)) {
            bound.limit = at < bound.latest ? row->in[k] : bound.limit;
            bound.latest = at < bound.latest ? at : bound.latest;
        } else if (at > bound.floor) {
            bound.floor = at;
            bound.why =
                (struct cause_of_start){HINDERED_BY_LINK, item, batch_of(draft, link->from), row->in[k], at};
        }
    }
    return bound;
}

int32_t draft_free_from(const struct draft *draft, int operation)
{
    return bound_of(draft, operation).floor;
}

static void bound_item(struct placing *p, size_t i)
{
    struct bound bound = bound_of(p->draft, p->batch.items[i]);
    p->floor[i] = bound.floor;
    p->floor_why[i] = bound.why;
    p->latest[i] = bound.latest;
    p->limit[i] = bound.limit;
    ++p->draft->effort;
}

static bool starts_in_time(struct placing *p, size_t i)
{
    int item = p->batch.items[i];
    int32_t start = p->draft->start[item];
    if (start < p->floor[i])
        return placing_refuse_item(p, item, p->floor_why[i], p->floor[i] - start);
    if (start > p->latest[i])
        return placing_refuse(
            p, (struct cause_of_start){HINDERED_BY_LIMIT, item, SITE_NONE, p->limit[i], start - p->latest[i]},
            SITE_NEVER);
    return true;
}

static size_t index_in(const struct batch *batch, int item)
{
    size_t i = 0;
    while (i < batch->count && batch->items[i] != item)
        i++;
    return i;
}

/* Links to what follows: within the batch, and to what is placed behind it. */
static bool leaves_room(struct placing *p, int item)
{
    const struct draft *draft = p->draft;
    const struct task_row *row = &p->site->rows[item];
    for (size_t k = 0; k < row->out_count; k++) {
        const struct link *link = &p->site->operations->links[row->out[k]];
        if (!is_placed(draft, link->to) || !draft_waits(draft, link))
            continue;
        int32_t at = site_link(p->site, link, draft->start[item], draft->end[item]);
        int32_t to = draft->start[link->to];
        bool limit = site_link_is_limit(link);
        if (limit ? to <= at : to >= at)
            continue;
        struct cause_of_start cause = {limit ? HINDERED_BY_LIMIT : HINDERED_BY_LINK, link->to,
                                       draft->batch_of[link->to], row->out[k], at};
        bool own = draft->batch_of[link->to] == SITE_NONE;
        if (own && !limit && at - to > p->slack)
            p->placed->laid.broke_at = index_in(&p->batch, link->to);
        if (limit || !own || at - to > p->slack)
            return placing_refuse(p, cause, limit ? 0 : SITE_NEVER);
        return placing_refuse_gap(p, cause, at - to);
    }
    return true;
}

static bool all_hold(struct placing *p)
{
    for (size_t i = 0; i < p->batch.count; i++)
        if (!starts_in_time(p, i))
            return false;
    if (!rule_person(p) || !rule_spray(p))
        return false;
    for (size_t i = 0; i < p->batch.count; i++) {
        int item = p->batch.items[i];
        if (!rule_air(p, item) || !rule_dry_by(p, item) || !leaves_room(p, item) || !rule_lot(p, item))
            return false;
    }
    return rule_dust(p) && rule_rack(p);
}

static void unplace(struct placing *p)
{
    for (size_t i = 0; i < p->batch.count; i++)
        p->draft->start[p->batch.items[i]] = SITE_NONE;
}

/* Times are written where the checks look for them, and taken back. */
static bool try_at(struct placing *p, int32_t start)
{
    struct draft *draft = p->draft;
    struct laying *laid = &p->placed->laid;
    bool good = lay_batch(p->site, &p->batch, start, draft->start, draft->end, laid);
    draft->effort += laid->effort + (int64_t)p->batch.count;
    if (good) {
        laid->broke_at = p->batch.count;
        good = all_hold(p);
    } else {
        placing_refuse(p,
                       (struct cause_of_start){HINDERED_BY_HOURS, p->batch.items[0], SITE_NONE, SITE_NONE,
                                               laid->again_from},
                       laid->again_from);
    }
    return good;
}

static int32_t longest_unit(const struct site *site, const struct batch *batch)
{
    int32_t longest_s = 0;
    for (size_t i = 0; i < batch->count; i++) {
        int32_t own_s = site->rows[batch->items[i]].operation->units.longest_s;
        longest_s = own_s > longest_s ? own_s : longest_s;
    }
    return (longest_s + 59) / 60;
}

/* Minutes of mixing behind the first mix, at the most: of two neighbouring mixes one serves half its working time. */
static int32_t more_mixes(const struct site *site, const struct batch *batch)
{
    const struct kind *kind = &site->kinds[batch->kind];
    int64_t units_s = 0;
    if (!kind->mixed || kind->working == INT32_MAX)
        return 0;
    for (size_t i = 0; i < batch->count; i++)
        units_s += site->rows[batch->items[i]].operation->units.seconds;
    return (int32_t)((2 * units_s / 60 / kind->working + 2) * MIXING_MIN);
}

/* Left before a break at the most, where the next unit has no room, and more mixes than without one. */
static int32_t idle_of(const struct site *site, const struct batch *batch)
{
    return longest_unit(site, batch) + 2 * MIXING_MIN + site->kinds[batch->kind].induction +
           lay_set_up(site, batch) + lay_clean_up(site, batch) + more_mixes(site, batch);
}

/* How much longer than its work a batch may take: breaks, and what is left before them. */
static int32_t slack_of(const struct site *site, const struct batch *batch, int32_t idle)
{
    const struct kind *kind = &site->kinds[batch->kind];
    const struct worker *worker = &site->crew->workers[batch->person];
    int32_t mixing = more_mixes(site, batch);
    if (kind->rest < worker->gap_least)
        return mixing + (kind->rest < worker->night_least ? 0 : 3 * (kind->rest + kind->induction));
    int32_t day = mixing + worker->gaps_most + worker->breaks_most * (idle - mixing);
    if (kind->rest != INT32_MAX && kind->rest >= worker->night_least)
        day += 3 * (kind->rest + kind->induction);
    return day;
}

static struct placing placing_of(struct draft *draft, struct batch batch, struct placed *placed)
{
    struct placing p = {.draft = draft,
                        .site = draft->site,
                        .batch = batch,
                        .least = lay_least(draft->site, &batch),
                        .idle = idle_of(draft->site, &batch),
                        .floor = draft->scratch->floor,
                        .latest = draft->scratch->latest,
                        .limit = draft->scratch->limit,
                        .floor_why = draft->scratch->floor_why,
                        .placed = placed};
    p.slack = slack_of(draft->site, &batch, p.idle);
    *placed = (struct placed){.batch = batch};
    placed->cause = placed->hours =
        (struct cause_of_start){HINDERED_BY_NOTHING, SITE_NONE, SITE_NONE, SITE_NONE, 0};
    for (size_t i = 0; i < batch.count; i++)
        bound_item(&p, i);
    return p;
}

/* Nobody sets up for a job before it begins. */
static int32_t begin_of(const struct site *site, const struct batch *batch)
{
    int32_t from = SITE_NEVER;
    for (size_t i = 0; i < batch->count; i++) {
        int32_t own = site->jobs[site->rows[batch->items[i]].job].from;
        from = own < from ? own : from;
    }
    return from;
}

/* The first start that could bring every item to its floor, were there no break. */
static int32_t first_start(const struct placing *p, int32_t from, struct cause_of_start *why)
{
    const struct kind *kind = &p->site->kinds[p->batch.kind];
    int32_t before = lay_set_up(p->site, &p->batch) + (kind->mixed ? MIXING_MIN + kind->induction : 0);
    int32_t begin = begin_of(p->site, &p->batch), start = from > begin ? from : begin;
    int64_t units_s = 0;
    for (size_t i = 0; i < p->batch.count; i++) {
        int32_t behind = before + (i > 0 ? (int32_t)(units_s / 60 + 1) + p->slack : 0);
        int32_t at = p->floor[i] >= SITE_NEVER ? SITE_NEVER : p->floor[i] - behind;
        if (at > start || i == 0)
            *why = p->floor_why[i];
        start = at > start ? at : start;
        units_s += p->site->rows[p->batch.items[i]].operation->units.seconds;
    }
    return site_up(start > 0 ? start : 0);
}

/* Whether a later start may take fewer mixes, or none that stands while nothing else is done but the first. */
static bool may_save(const struct site *site, const struct batch *batch, const struct laying *laid)
{
    const struct kind *kind = &site->kinds[batch->kind];
    int64_t seconds = 0;
    if (!batch->thrifty || kind->working == INT32_MAX)
        return false;
    for (size_t i = 0; i < batch->count; i++)
        seconds += site->rows[batch->items[i]].operation->units.seconds;
    int64_t mixes = (seconds - 1) / ((int64_t)kind->working * 60) + 1;
    int64_t around =
        lay_set_up(site, batch) + lay_clean_up(site, batch) + kind->induction + laid->mixes * MIXING_MIN;
    return laid->mixes > mixes || laid->hands_on_s > seconds + around * MINUTE_S;
}

/* Whether the first start from which fewer mixes do lies behind what a window allows; then that is the cause, and what opened the
 * window may wait for it. */
static bool saves_too_late(struct placing *p, int32_t from)
{
    struct draft *draft = p->draft;
    struct laying laid = {0};
    int32_t at = from;
    bool good = false;
    while (!good && at < from + THRIFT_MIN) {
        good = lay_batch(p->site, &p->batch, at, draft->start, draft->end, &laid) &&
               !may_save(p->site, &p->batch, &laid);
        draft->effort += laid.effort;
        at = laid.again_from > at ? laid.again_from : at + GRID_MIN;
    }
    for (size_t i = 0; i < p->batch.count && good; i++)
        if (draft->start[p->batch.items[i]] > p->latest[i] && p->limit[i] != SITE_NONE) {
            int item = p->batch.items[i];
            p->placed->cause = (struct cause_of_start){HINDERED_BY_LIMIT, item, SITE_NONE, p->limit[i],
                                                       draft->start[item] - p->latest[i]};
            unplace(p);
            return true;
        }
    unplace(p);
    return false;
}

bool draft_place(struct draft *draft, struct batch batch, int32_t from, int32_t before, struct placed *placed)
{
    struct placing p = placing_of(draft, batch, placed);
    struct cause_of_start why = placed->cause, hours = placed->cause;
    struct placed best;
    bool found = false;
    for (int32_t start = first_start(&p, from, &why); start < before && draft->effort < draft->effort_limit;
         start = p.again) {
        bool good = try_at(&p, start);
        unplace(&p);
        if (good) {
            placed->cause = why;
            placed->hours = hours;
            if (!may_save(draft->site, &batch, &placed->laid))
                return true;
            if (!found || placed->laid.hands_on_s < best.laid.hands_on_s)
                best = *placed;
            before = !found && before > start + THRIFT_MIN ? start + THRIFT_MIN : before;
            found = true;
            p.again = start + GRID_MIN;
            continue;
        }
        bool calendar = placed->cause.kind == HINDERED_BY_HOURS || placed->cause.kind == HINDERED_BY_AIR ||
                        placed->cause.kind == HINDERED_BY_DRY_BY;
        hours = calendar ? placed->cause : (struct cause_of_start){0};
        why = calendar ? why : placed->cause;
    }
    bool limited = found && from == 0 && placed->cause.kind == HINDERED_BY_LIMIT;
    if (limited && may_save(draft->site, &batch, &best.laid) && saves_too_late(&p, best.laid.start))
        return false;
    if (found) {
        *placed = best;
        return true;
    }
    if (why.kind != HINDERED_BY_NOTHING && why.kind != HINDERED_BY_RELEASE)
        placed->cause = why;
    return false;
}

bool draft_fits(struct draft *draft, struct batch batch, int32_t start, struct placed *placed)
{
    struct placing p = placing_of(draft, batch, placed);
    bool good = start >= begin_of(draft->site, &batch) && try_at(&p, start);
    unplace(&p);
    return good;
}

void draft_add(struct draft *draft, const struct placed *placed)
{
    int index = (int)draft->count;
    struct placed *own = &draft->placed[draft->count++];
    *own = *placed;
    lay_batch(draft->site, &own->batch, own->laid.start, draft->start, draft->end, &own->laid);
    draft->effort += own->laid.effort;
    for (size_t i = 0; i < own->batch.count; i++) {
        int item = own->batch.items[i];
        draft->batch_of[item] = index;
        if (!draft->site->rows[item].film)
            continue;
        draft->handle[item] = site_state(draft->site, item, draft->end[item], STATE_HANDLE);
        draft->clear[item] = site_state(draft->site, item, draft->end[item], STATE_DUST_FREE);
    }
    own->lies = placing_lies(draft, &own->batch);
}

void draft_take_over(struct draft *draft, const struct draft *from, const int *items)
{
    int index = (int)draft->count++;
    struct batch *batch = &draft->placed[index].batch;
    draft->placed[index] = from->placed[index];
    batch->items = items;
    for (size_t i = 0; i < batch->count; i++) {
        int item = items[i];
        draft->start[item] = from->start[item];
        draft->end[item] = from->end[item];
        draft->handle[item] = from->handle[item];
        draft->clear[item] = from->clear[item];
        draft->batch_of[item] = index;
    }
}

void draft_keep(struct draft *draft, size_t count)
{
    while (draft->count > count)
        draft_take_out(draft, draft->count - 1);
}

void draft_take_out(struct draft *draft, size_t index)
{
    const struct batch *batch = &draft->placed[index].batch;
    for (size_t i = 0; i < batch->count; i++) {
        draft->start[batch->items[i]] = SITE_NONE;
        draft->batch_of[batch->items[i]] = SITE_NONE;
    }
    draft->count--;
    for (size_t k = index; k < draft->count; k++) {
        draft->placed[k] = draft->placed[k + 1];
        for (size_t i = 0; i < draft->placed[k].batch.count; i++)
            draft->batch_of[draft->placed[k].batch.items[i]] = (int)k;
    }
}

int32_t draft_ready(const struct draft *draft, int job)
{
    const struct site *site = draft->site;
    int32_t ready = site->jobs[job].floor;
    for (size_t i = 0; i < site->count; i++) {
        const struct task_row *row = &site->rows[i];
        if (row->job != job || draft->start[i] == SITE_NONE)
            continue;
        for (int line = row->line; line != SITE_NONE; line = site->next_line[line]) {
            int32_t at = site_line(site, &site->operations->lines[line], draft->end[i]);
            ready = at > ready ? at : ready;
        }
    }
    return ready;
}
