/* The chain of steps that fixes the ready moment, told forwards: from what makes the job ready back through what kept each
 * batch from an earlier start. */
#include "timetable/why.h"

#include "base/arena.h"

#include <string.h>

enum { ROW_LEAST = 3 }; /* batches that follow one another at once are one row from so many on */

/* One batch of the chain: the item that waited, and the item for which what comes later waits. */
struct ring {
    const struct placed *placed;
    int waited, leads;
};

struct reasoning {
    struct arena *arena;
    const struct site *site;
    const struct draft *draft;
    size_t first;
    struct timetable *timetable;
    struct ring *rings; /* last first */
    size_t ring_count;
    struct reason *items;
    size_t count, room;
};

static void add_reason(struct reasoning *r, struct reason reason)
{
    r->items = arena_grow(r->arena, r->items, r->count, &r->room, sizeof *r->items);
    r->items[r->count++] = reason;
}

static int64_t moment(const struct reasoning *r, int32_t minute)
{
    return minute >= SITE_NEVER ? INT64_MAX : site_moment(r->site, minute);
}

static const struct operation *operation_of(const struct reasoning *r, int item)
{
    return r->site->rows[item].operation;
}

/* The line of the finish that makes the job ready when it is; NULL: none does. */
static const struct finish_line *last_line(const struct reasoning *r, int *item)
{
    const struct operations *operations = r->timetable->operations;
    for (size_t i = 0; i < operations->line_count; i++) {
        struct finish_line line = operations->lines[i];
        line.operation += (int)r->first;
        if (moment(r, site_line(r->site, &line, r->draft->end[line.operation])) != r->timetable->ready_min)
            continue;
        *item = line.operation;
        return &operations->lines[i];
    }
    return NULL;
}

static int last_item(const struct placed *placed)
{
    return placed->batch.items[placed->batch.count - 1];
}

static int waited_of(const struct placed *placed)
{
    return placed->cause.item == SITE_NONE ? placed->batch.items[0] : placed->cause.item;
}

/* The batch that kept another from an earlier start, and its item; NULL: nothing placed did. It may begin after the set-up of
 * the one that waits. */
static const struct placed *before(const struct reasoning *r, const struct placed *placed, int *item)
{
    const struct cause_of_start *cause = &placed->cause;
    if (cause->kind == HINDERED_BY_LINK && cause->link != SITE_NONE)
        *item = r->site->operations->links[cause->link].from;
    else if (cause->other != SITE_NONE)
        *item = last_item(&r->draft->placed[cause->other]);
    else
        return NULL;
    if (r->draft->start[*item] >= r->draft->start[waited_of(placed)])
        return NULL;
    return &r->draft->placed[r->draft->batch_of[*item]];
}

/* The window, opened by a batch that is held back for it, that would be the first to be missed; NULL: none. */
static const struct link *held_for(const struct reasoning *r, const struct placed *placed)
{
    const struct link *links = r->site->operations->links, *first = NULL;
    const struct draft *draft = r->draft;
    int32_t least = INT32_MAX;
    for (size_t i = 0; i < placed->batch.count; i++) {
        int item = placed->batch.items[i];
        const struct task_row *row = &r->site->rows[item];
        for (size_t k = 0; k < row->out_count; k++) {
            const struct link *link = &links[row->out[k]];
            if (!site_link_is_limit(link) || !is_placed(draft, link->to) || !draft_waits(draft, link))
                continue;
            int32_t spare =
                site_link(r->site, link, draft->start[item], draft->end[item]) - draft->start[link->to];
            first = spare < least ? link : first;
            least = spare < least ? spare : least;
        }
    }
    return first;
}

static bool is_told(const struct reasoning *r, const struct placed *placed)
{
    for (size_t i = 0; i < r->ring_count; i++)
        if (r->rings[i].placed == placed)
            return true;
    return false;
}

/* Batches whose items take turns may keep each other from an earlier start: each is told once. */
static void find_rings(struct reasoning *r, int item)
{
    const struct placed *placed = &r->draft->placed[r->draft->batch_of[item]];
    r->rings = ARENA_ARRAY(r->arena, r->draft->count, struct ring);
    while (placed && !is_told(r, placed)) {
        r->rings[r->ring_count++] = (struct ring){placed, waited_of(placed), item};
        placed = before(r, placed, &item);
    }
}

static enum wait_kind wait_of(const struct reasoning *r, const struct placed *placed)
{
    const struct operation *operation = operation_of(r, placed->batch.items[0]);
    const struct job *job = operation->job;
    bool piece_comes = operation->piece >= 0 && job->pieces[operation->piece].ready_min > job->start_min;
    switch (placed->cause.kind) {
    case HINDERED_BY_LINK:
        return WAIT_LINK;
    case HINDERED_BY_LIMIT:
    case HINDERED_BY_FLOOR:
        return WAIT_WINDOW;
    case HINDERED_BY_PERSON:
        return WAIT_PERSON;
    case HINDERED_BY_RACK:
        return WAIT_RACK;
    case HINDERED_BY_SPRAY:
        return WAIT_SPRAY;
    case HINDERED_BY_DUST:
        return WAIT_DUST;
    case HINDERED_BY_LOT:
        return WAIT_ITS_TURN;
    default:
        return piece_comes ? WAIT_PIECE : WAIT_JOB;
    }
}

/* The person is off when the wait is over, or goes off before the batch is through. */
static void add_closed(const struct reasoning *r, const struct placed *placed, struct cause *cause)
{
    const struct worker *worker = &r->site->crew->workers[placed->batch.person];
    size_t i = crew_duty_at(worker, placed->cause.until);
    bool on = i < worker->duty_count && worker->duties[i].from <= placed->cause.until;
    cause->closed = on ? CLOSED_SOON : CLOSED_SHOP;
    if (on)
        cause->closes_min = moment(r, worker->duties[i].to);
}

/* What was waited for; nothing where that is neither a batch nor the piece nor the job. */
static void name_earlier(const struct reasoning *r, const struct placed *placed, struct cause *cause)
{
    int item;
    if (cause->wait == WAIT_WINDOW) {
        cause->link = held_for(r, placed);
        cause->earlier = cause->link ? operation_of(r, cause->link->to) : NULL;
    } else if (before(r, placed, &item)) {
        cause->earlier = operation_of(r, item);
    }
    if (!cause->earlier && cause->wait != WAIT_PIECE && cause->wait != WAIT_JOB)
        cause->wait = WAIT_NOTHING;
}

static struct cause cause_of(const struct reasoning *r, const struct ring *ring)
{
    const struct placed *placed = ring->placed;
    struct cause cause = {.wait = wait_of(r, placed), .until_min = moment(r, placed->cause.until)};
    name_earlier(r, placed, &cause);
    if (cause.wait == WAIT_LINK)
        cause.link = &r->site->operations->links[placed->cause.link];
    if (placed->hours.kind == HINDERED_BY_AIR || placed->hours.kind == HINDERED_BY_DRY_BY)
        cause.closed = CLOSED_AIR;
    else if (placed->hours.kind == HINDERED_BY_HOURS)
        add_closed(r, placed, &cause);
    if (cause.wait == WAIT_NOTHING && cause.closed == CLOSED_NOT)
        cause.wait = WAIT_JOB;
    if (cause.wait == WAIT_JOB)
        cause.until_min = operation_of(r, ring->waited)->job->start_min;
    return cause;
}

static bool follows(const struct ring *later, const struct ring *earlier)
{
    return later->placed->cause.kind == HINDERED_BY_PERSON &&
           earlier->placed->laid.end == later->placed->laid.start;
}

static void add_step(struct reasoning *r, const struct ring *ring)
{
    add_reason(r, (struct reason){.kind = REASON_STEP,
                                  .first = operation_of(r, ring->waited),
                                  .from_min = moment(r, r->draft->start[ring->waited]),
                                  .cause = cause_of(r, ring)});
}

static void add_row(struct reasoning *r, size_t from, size_t to)
{
    const struct placed *first = r->rings[from].placed, *last = r->rings[to].placed;
    size_t steps = 0;
    for (size_t i = to; i <= from; i++)
        steps += r->rings[i].placed->batch.count;
    add_reason(r, (struct reason){.kind = REASON_ROW,
                                  .first = operation_of(r, first->batch.items[0]),
                                  .last = operation_of(r, last_item(last)),
                                  .from_min = moment(r, first->laid.start),
                                  .until_min = moment(r, last->laid.end),
                                  .count = steps});
}

/* Forwards in time: rings are kept last first. */
static void add_steps(struct reasoning *r)
{
    for (size_t left = r->ring_count; left > 0;) {
        size_t to = left - 1;
        while (to > 0 && follows(&r->rings[to - 1], &r->rings[to]))
            to--;
        add_step(r, &r->rings[left - 1]);
        left--;
        if (left - to < ROW_LEAST)
            continue;
        add_row(r, left - 1, to);
        left = to;
    }
}

/* When the last step would have to end for a delivery that is missed; INT64_MIN where even the start of the job is too
 * late. Readiness never moves back with the end: the last end that serves is found by halving. */
static int64_t end_for_delivery(const struct reasoning *r, const struct finish_line *line, int item)
{
    if (r->timetable->late_min == 0)
        return INT64_MIN;
    struct finish_line own = *line;
    own.operation = item;
    int32_t due = site_minute(r->site, r->timetable->deliver_min), low = -1, high = r->draft->end[item];
    while (high - low > 1) {
        int32_t middle = low + (high - low) / 2;
        if (site_line(r->site, &own, middle) <= due)
            low = middle;
        else
            high = middle;
    }
    return low < operation_of(r, item)->minutes ? INT64_MIN : moment(r, low);
}

static void add_ready(struct reasoning *r, const struct finish_line *line, int item)
{
    add_reason(r, (struct reason){.kind = REASON_READY,
                                  .first = operation_of(r, item),
                                  .line = line,
                                  .until_min = r->timetable->ready_min,
                                  .end_by_min = end_for_delivery(r, line, item)});
}

static size_t step_of(const struct reasoning *r, int item)
{
    if ((size_t)item < r->first || (size_t)item - r->first >= r->timetable->operations->count)
        return SIZE_MAX;
    return timetable_step_of(r->timetable, &r->timetable->operations->items[(size_t)item - r->first]);
}

static void keep_chain(struct reasoning *r)
{
    size_t *chain = ARENA_ARRAY(r->arena, 2 * r->ring_count, size_t), count = 0;
    for (size_t i = r->ring_count; i > 0; i--) {
        size_t waited = step_of(r, r->rings[i - 1].waited), leads = step_of(r, r->rings[i - 1].leads);
        if (waited != SIZE_MAX && waited != leads &&
            r->draft->start[r->rings[i - 1].waited] < r->draft->start[r->rings[i - 1].leads])
            chain[count++] = waited;
        if (leads != SIZE_MAX)
            chain[count++] = leads;
    }
    r->timetable->chain = chain;
    r->timetable->chain_count = count;
}

void why_chain(struct dated dated, struct timetable *timetable)
{
    struct reasoning r = {.arena = dated.draft->site->arena,
                          .site = dated.draft->site,
                          .draft = dated.draft,
                          .first = dated.first,
                          .timetable = timetable};
    int item;
    const struct finish_line *line = last_line(&r, &item);
    if (!line)
        return;
    find_rings(&r, item);
    keep_chain(&r);
    add_steps(&r);
    add_ready(&r, line, item);
    timetable->why = r.items;
    timetable->why_count = r.count;
}
