#include "timetable/placing.h"

#include <stdlib.h>

enum { SCANNED_AT_ONCE = 8, DAY_EFFORT = 8 }; /* placed batches that are looked at for one unit of effort */

bool placing_refuse(struct placing *p, struct cause_of_start cause, int32_t again)
{
    p->placed->cause = cause;
    int32_t next = p->placed->laid.start + GRID_MIN;
    p->again = again > next ? again : next;
    return false;
}

/* By how much the batch must begin later, at the least, for an item of it to begin so much later or to come behind one more break. Up
 * to its end it is moved as the batch is, but for what is left before each break in which the batch pauses. */
static int32_t sure_within(const struct placing *p, int item, int32_t later)
{
    const struct worker *worker = &p->site->crew->workers[p->batch.person];
    size_t first = crew_duty_at(worker, p->placed->laid.start);
    size_t last = crew_duty_at(worker, p->draft->start[item] - 1); /* told rounded up */
    int32_t room = worker->duties[last].to - p->draft->end[item];
    return (later <= room ? later : room + 1) - (int32_t)(last - first) * p->idle;
}

/* Of the batch that is being placed; SITE_NONE: of what lies there from before. */
static bool is_own(const struct placing *p, int item)
{
    return item != SITE_NONE && p->draft->batch_of[item] == SITE_NONE;
}

/* By how much the batch must begin later for an item to do so: breaks that come before it may give the rest. The first item starts as
 * long after the batch as ever. */
static int32_t sure_shift(const struct placing *p, int item, int32_t later)
{
    int32_t least = later - p->slack, within = is_own(p, item) ? sure_within(p, item, later) : 0;
    if (item == p->batch.items[0])
        return later;
    return within > least ? within : least;
}

bool placing_refuse_item(struct placing *p, int item, struct cause_of_start cause, int32_t later)
{
    int32_t sure = later >= SITE_NEVER ? SITE_NEVER : sure_shift(p, item, later);
    return placing_refuse(
        p, cause, sure >= SITE_NEVER / 2 ? SITE_NEVER : p->placed->laid.start + site_up(sure > 0 ? sure : 0));
}

bool placing_refuse_gap(struct placing *p, struct cause_of_start cause, int32_t missing)
{
    int32_t sure = sure_within(p, cause.item, missing);
    return placing_refuse(p, cause, sure > 0 ? p->placed->laid.start + site_up(sure) : 0);
}

bool rule_air(struct placing *p, int item)
{
    struct draft *draft = p->draft;
    const struct task_row *row = &p->site->rows[item];
    if (!row->film)
        return true;
    int32_t start = draft->start[item], end = draft->end[item];
    draft->handle[item] = site_state(p->site, item, end, STATE_HANDLE);
    draft->clear[item] = site_state(p->site, item, end, STATE_DUST_FREE);
    const struct spell *bad = site_spell(&row->film->wet, start, end > start ? end : start + 1);
    if (!bad && row->film->until_handle)
        bad = site_spell(&row->film->dry, end, draft->handle[item]);
    if (!bad)
        return true;
    struct cause_of_start cause = {HINDERED_BY_AIR, item, SITE_NONE, SITE_NONE, bad->to};
    return placing_refuse_item(p, item, cause, bad->to - start);
}

bool rule_dry_by(struct placing *p, int item)
{
    const struct task_row *row = &p->site->rows[item];
    if (!row->film || row->operation->dry_by_min <= 0)
        return true;
    p->draft->effort += DAY_EFFORT;
    int64_t day = zone_day(p->site->zone, site_moment(p->site, p->draft->start[item]), NULL);
    int32_t by = site_minute(p->site, zone_moment_on(p->site->zone, day, row->operation->dry_by_min));
    if (p->draft->handle[item] <= by)
        return true;
    int32_t tomorrow = site_minute(p->site, zone_moment_on(p->site->zone, day + 1, 0));
    struct cause_of_start cause = {HINDERED_BY_DRY_BY, item, SITE_NONE, SITE_NONE, by};
    return placing_refuse_item(p, item, cause, tomorrow - p->draft->start[item]);
}

static bool meets(struct spell a, struct spell b)
{
    return a.from < b.to && b.from < a.to;
}

static struct spell span_of(const struct draft *draft, int item)
{
    return (struct spell){draft->start[item], draft->end[item]};
}

/* Two people do not work on one lot at a time, and where dust has a room of its own it harms the films of its lot. */
bool rule_lot(struct placing *p, int item)
{
    struct draft *draft = p->draft;
    const struct task_row *rows = p->site->rows, *row = &rows[item];
    draft->effort += (int64_t)(row->lot_to - row->lot_from) / SCANNED_AT_ONCE;
    for (size_t k = row->lot_from; k < row->lot_to; k++) {
        if ((int)k == item || !is_placed(draft, (int)k) || rows[k].operation->chain == row->operation->chain)
            continue;
        struct spell mine = span_of(draft, item), its = span_of(draft, (int)k);
        bool dusts = row->operation->dusty && rows[k].film, wets = row->film && rows[k].operation->dusty;
        its.to = dusts && draft->clear[k] > its.to ? draft->clear[k] : its.to;
        mine.to = wets && draft->clear[item] > mine.to ? draft->clear[item] : mine.to;
        if (!meets(mine, its))
            continue;
        struct cause_of_start cause = {dusts || wets ? HINDERED_BY_DUST : HINDERED_BY_LOT, item,
                                       draft->batch_of[k], SITE_NONE, its.to};
        return placing_refuse_item(p, item, cause, its.to - mine.from);
    }
    return true;
}

static void measure(struct placing *p)
{
    const struct draft *draft = p->draft;
    struct placed *placed = p->placed;
    placed->dust = placed->wet = (struct spell){INT32_MAX, 0};
    for (size_t i = 0; i < p->batch.count; i++) {
        int item = p->batch.items[i];
        struct spell *spell = p->site->rows[item].operation->dusty ? &placed->dust
                              : p->site->rows[item].film           ? &placed->wet
                                                                   : NULL;
        if (!spell)
            continue;
        int32_t until = spell == &placed->dust ? draft->end[item] + p->site->settle : draft->clear[item];
        spell->from = draft->start[item] < spell->from ? draft->start[item] : spell->from;
        spell->to = until > spell->to ? until : spell->to;
    }
}

/* Whether an item of a batch is at it (or its film wet) within a spell; the end of that. */
static bool item_meets(const struct placing *p, const struct batch *batch, bool wet, struct spell spell,
                       struct spell *found)
{
    const struct draft *draft = p->draft;
    for (size_t i = 0; i < batch->count; i++) {
        int item = batch->items[i];
        struct spell own = {draft->start[item],
                            wet ? draft->clear[item] : draft->end[item] + p->site->settle};
        if (!meets(own, spell))
            continue;
        *found = own;
        return true;
    }
    p->draft->effort += (int64_t)batch->count / SCANNED_AT_ONCE;
    return false;
}

/* Item by item where the two batches come near each other: the item that meets the other batch, SITE_NONE. */
static int dust_meets(const struct placing *p, const struct placed *other, bool wet, struct spell *mine,
                      struct spell *its)
{
    for (size_t i = 0; i < p->batch.count; i++) {
        int item = p->batch.items[i];
        *mine = (struct spell){p->draft->start[item],
                               wet ? p->draft->clear[item] : p->draft->end[item] + p->site->settle};
        if (item_meets(p, &other->batch, !wet, *mine, its))
            return item;
    }
    return SITE_NONE;
}

/* No dust while a film that was laid before is wet. */
static bool spares_what_lies(struct placing *p, struct spell dust)
{
    for (size_t i = 0; i < p->site->lying_count; i++) {
        int32_t clear = p->site->lying[i].clear;
        if (dust.from >= clear)
            continue;
        struct cause_of_start cause = {HINDERED_BY_DUST, p->batch.items[0], SITE_NONE, SITE_NONE, clear};
        return placing_refuse_item(p, SITE_NONE, cause, clear - dust.from);
    }
    return true;
}

bool rule_dust(struct placing *p)
{
    measure(p);
    bool wet = p->placed->wet.to > 0;
    struct spell own = wet ? p->placed->wet : p->placed->dust, mine, its;
    if (p->site->shop->dust_separate || own.to == 0)
        return true;
    if (!wet && !spares_what_lies(p, own))
        return false;
    p->draft->effort += (int64_t)p->draft->count / SCANNED_AT_ONCE;
    for (size_t k = 0; k < p->draft->count; k++) {
        const struct placed *other = &p->draft->placed[k];
        struct spell spell = wet ? other->dust : other->wet;
        int item = spell.to > 0 && meets(own, spell) ? dust_meets(p, other, wet, &mine, &its) : SITE_NONE;
        if (item == SITE_NONE)
            continue;
        struct cause_of_start cause = {HINDERED_BY_DUST, p->batch.items[0], (int)k, SITE_NONE, its.to};
        return placing_refuse_item(p, item, cause, its.to - mine.from);
    }
    return true;
}

/* Whether who helps is there whenever the person works; *again: the first start that is worth trying else. */
static bool helper_is_there(const struct placing *p, int32_t *again)
{
    const struct laying *laid = &p->placed->laid;
    const struct worker *worker = &p->site->crew->workers[p->batch.person];
    const struct worker *helper = &p->site->crew->workers[p->batch.helper];
    for (size_t i = crew_duty_at(worker, laid->start);
         i < worker->duty_count && worker->duties[i].from < laid->end; i++) {
        const struct duty *duty = &worker->duties[i];
        int32_t from = duty->from > laid->start ? duty->from : laid->start;
        int32_t to = duty->to < laid->end ? duty->to : laid->end;
        size_t k = crew_duty_at(helper, from);
        *again = k == helper->duty_count ? SITE_NEVER : from == laid->start ? helper->duties[k].from : 0;
        if (k == helper->duty_count || helper->duties[k].from > from || helper->duties[k].to < to)
            return false;
    }
    return true;
}

static bool shares_person(const struct batch *a, const struct batch *b)
{
    return a->person == b->person || a->helper == b->person ||
           (b->helper != SITE_NONE && (a->person == b->helper || a->helper == b->helper));
}

/* The last batch placed that keeps a person from one of so many minutes at the start, or from the work alone at the end of
 * another that does; SITE_NONE: none. *start becomes the first that is free of all that was met. */
static int keeps_person(const struct placing *p, int32_t minutes, int32_t *start)
{
    int last = SITE_NONE;
    p->draft->effort += (int64_t)p->draft->count / SCANNED_AT_ONCE;
    for (size_t k = 0; k < p->draft->count; k++) {
        const struct placed *other = &p->draft->placed[k];
        if (other->laid.start >= *start + minutes || other->laid.end <= *start ||
            !shares_person(&other->batch, &p->batch))
            continue;
        *start = other->laid.end;
        minutes = p->least;
        last = (int)k;
    }
    return last;
}

/* The person, and the one who helps, are there and free from start to end; where not, all starts are left out at which the work alone
 * would meet what is placed. */
bool rule_person(struct placing *p)
{
    int32_t again = 0;
    if (p->batch.helper != SITE_NONE && !helper_is_there(p, &again))
        return placing_refuse(
            p, (struct cause_of_start){HINDERED_BY_HOURS, p->batch.items[0], SITE_NONE, SITE_NONE, again},
            again);
    const struct laying *laid = &p->placed->laid;
    int32_t start = laid->start;
    int found = keeps_person(p, laid->end - laid->start, &start), last = found;
    for (int32_t at = start; found != SITE_NONE; found = keeps_person(p, p->least, &at)) {
        last = found;
        start = at;
        at = lay_on_duty(p->site, &p->batch, at);
    }
    if (last == SITE_NONE)
        return true;
    return placing_refuse(
        p, (struct cause_of_start){HINDERED_BY_PERSON, p->batch.items[0], last, SITE_NONE, start}, start);
}

bool rule_spray(struct placing *p)
{
    int taken = 0, last = SITE_NONE;
    int32_t first_end = SITE_NEVER;
    if (!p->site->kinds[p->batch.kind].sprays)
        return true;
    const struct laying *laid = &p->placed->laid;
    p->draft->effort += (int64_t)p->draft->count / SCANNED_AT_ONCE;
    for (size_t k = 0; k < p->draft->count; k++) {
        const struct placed *other = &p->draft->placed[k];
        if (!p->site->kinds[other->batch.kind].sprays || other->laid.start >= laid->end ||
            other->laid.end <= laid->start)
            continue;
        taken++;
        last = other->laid.end < first_end ? (int)k : last;
        first_end = other->laid.end < first_end ? other->laid.end : first_end;
    }
    if (taken < p->site->shop->spray_places)
        return true;
    return placing_refuse(
        p, (struct cause_of_start){HINDERED_BY_SPRAY, p->batch.items[0], last, SITE_NONE, first_end},
        taken > 0 ? first_end : SITE_NEVER);
}

static int by_from(const void *a, const void *b)
{
    const struct lies *left = a, *right = b;
    if (left->from != right->from)
        return left->from < right->from ? -1 : 1;
    return left->item < right->item ? -1 : left->item > right->item;
}

struct spell placing_lies(const struct draft *draft, const struct batch *batch)
{
    struct spell lies = {INT32_MAX, 0};
    for (size_t i = 0; i < batch->count && draft->site->rack >= 0; i++) {
        int item = batch->items[i];
        if (draft->site->rows[item].rack == 0)
            continue;
        lies.from = draft->start[item] < lies.from ? draft->start[item] : lies.from;
        lies.to = draft->handle[item] > lies.to ? draft->handle[item] : lies.to;
    }
    return lies;
}

static void add_lies(const struct draft *draft, const struct batch *batch, struct spell within,
                     struct lies *lies, size_t *count)
{
    for (size_t i = 0; i < batch->count; i++) {
        int item = batch->items[i];
        const struct task_row *row = &draft->site->rows[item];
        if (row->rack > 0 && draft->start[item] < within.to && draft->handle[item] > within.from)
            lies[(*count)++] =
                (struct lies){row->lot, item, draft->start[item], draft->handle[item], row->rack, 0};
    }
}

/* All that lies there while one of the batch does; a lot counts once. */
static size_t collect_lies(const struct placing *p, struct spell within, struct lies *lies)
{
    const struct draft *draft = p->draft;
    size_t count = 0;
    for (size_t i = 0; i < p->site->lying_count; i++) {
        const struct lying *lying = &p->site->lying[i];
        if (lying->rack > 0 && lying->handle > within.from)
            lies[count++] = (struct lies){lying->lot, SITE_NONE, 0, lying->handle, lying->rack, 0};
    }
    add_lies(draft, &p->batch, within, lies, &count);
    for (size_t k = 0; k < draft->count; k++)
        if (meets(draft->placed[k].lies, within))
            add_lies(draft, &draft->placed[k].batch, within, lies, &count);
    qsort(lies, count, sizeof *lies, by_from);
    p->draft->effort += (int64_t)(count + draft->count / SCANNED_AT_ONCE);
    return count;
}

/* A lot lies there once, however many of its items do. */
static void count_lots_once(const struct placing *p, struct lies *lies, size_t count)
{
    int32_t *until = p->draft->scratch->lies_until;
    for (size_t i = 0; i < count; i++)
        until[lies[i].lot] = 0;
    for (size_t i = 0; i < count; i++) {
        int32_t *own = &until[lies[i].lot];
        lies[i].again_until = *own;
        *own = lies[i].to > *own ? lies[i].to : *own;
    }
}

/* What lies there at a moment, each lot once; *first: who goes first, of other batches. */
static int64_t load_at(const struct placing *p, const struct lies *lies, size_t count, int32_t at,
                       const struct lies **first)
{
    int64_t load = 0;
    *first = NULL;
    for (size_t i = 0; i < count && lies[i].from <= at; i++) {
        if (lies[i].to <= at)
            continue;
        load += lies[i].again_until > at ? 0 : lies[i].amount;
        if (!is_own(p, lies[i].item) && (!*first || lies[i].to < (*first)->to))
            *first = &lies[i];
    }
    return load;
}

/* Until the first leaves that is of the same batch: a break between the two may be as long. */
static int32_t wait_for_own(const struct placing *p, const struct lies *lies, size_t at)
{
    int32_t until = SITE_NEVER;
    if (!is_own(p, lies[at].item))
        return SITE_NEVER;
    for (size_t i = 0; i < at; i++)
        if (is_own(p, lies[i].item) && lies[i].to > lies[at].from && lies[i].to < until)
            until = lies[i].to;
    return until >= SITE_NEVER ? SITE_NEVER : until - lies[at].from;
}

bool rule_rack(struct placing *p)
{
    struct spell within = placing_lies(p->draft, &p->batch);
    if (within.to == 0)
        return true;
    struct lies *lies = p->draft->scratch->lies;
    size_t count = collect_lies(p, within, lies);
    count_lots_once(p, lies, count);
    const struct lies *first = NULL;
    bool good = true;
    for (size_t i = 0; i < count && good; i++) {
        p->draft->effort += (int64_t)i / SCANNED_AT_ONCE;
        if (load_at(p, lies, count, lies[i].from, &first) <= p->site->rack)
            continue;
        struct cause_of_start cause = {HINDERED_BY_RACK, lies[i].item,
                                       first && first->item != SITE_NONE ? p->draft->batch_of[first->item]
                                                                         : SITE_NONE,
                                       SITE_NONE, first ? first->to : SITE_NEVER};
        int32_t wait = first ? first->to - lies[i].from : SITE_NEVER, own = wait_for_own(p, lies, i);
        good = own < wait && own <= p->slack ? placing_refuse_gap(p, cause, own)
                                             : placing_refuse_item(p, lies[i].item, cause, wait);
        for (size_t k = 0; k < p->batch.count && !first; k++)
            if (p->batch.items[k] == lies[i].item)
                p->placed->laid.broke_at = k;
    }
    return good;
}
