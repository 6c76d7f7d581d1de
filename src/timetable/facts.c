#include "timetable/facts.h"

#include "base/arena.h"
#include "base/text.h"
#include "finish/drying.h"
#include "timetable/hours.h"

#include <stdlib.h>
#include <string.h>

enum { CLOCKS = DRYING_WINDOW + 1, MEASURED_MOST_MIN = 14 * DAY_MINUTES };

struct named {
    const char *base;
    size_t index;
};

static int by_base(const void *a, const void *b)
{
    const struct named *left = a, *right = b;
    int order = strcmp(left->base, right->base);
    return order ? order : left->index < right->index ? -1 : left->index > right->index;
}

/* A finish that was laid, in the air of the shop since. */
struct clocks {
    const struct finish *finish;
    struct drying_clock *clock[CLOCKS];
};

struct settling {
    struct arena *arena;
    const struct operations *all;
    struct operations *left;
    struct named *named;
    const struct log_entry **entry; /* per operation: the fact; NULL: none */
    bool *gone;                     /* done, or passed over */
    int *number;                    /* per operation: its number among those that are left, or among facts */
    struct clocks *clocks;
    size_t clock_count;
    int64_t origin_min;
};

/* Whether what an entry says of a piece, or of one of its lots, goes for an operation of the piece. */
static bool covers(const struct log_entry *entry, int lot, const struct operation *operation)
{
    if (operation->piece < 0 || operation->lots <= 1)
        return true;
    if (entry->parts == 0)
        return lot == 0 || lot == operation->lot;
    const struct part_run *run = &operation->pass.lot;
    size_t from = entry->first > 0 ? (size_t)entry->first - 1 : 0;
    return run->from >= from && run->to <= from + (size_t)entry->parts;
}

/* Where the piece ends in an id, and the number of the lot behind it, 0 for none. */
static size_t piece_length(const char *id, int *lot)
{
    size_t piece = strcspn(id, "/"), stem = strcspn(id, ".");
    *lot = stem < piece ? (int)strtol(id + stem + 1, NULL, 10) : 0;
    return *lot > 0 ? stem : piece;
}

/* An id without the number of its lot: "doors.2/clear/1b/apply" -> "doors/clear/1b/apply". *lot: the number; 0: none. */
static const char *base_id(struct arena *arena, const char *id, int *lot)
{
    size_t length = piece_length(id, lot);
    return *lot > 0 ? arena_textf(arena, "%.*s%s", (int)length, id, id + strcspn(id, "/")) : id;
}

bool log_names(const struct log_entry *entry, const struct operation *operation)
{
    int lot, own;
    size_t length = piece_length(entry->step, &lot);
    return length == piece_length(operation->id, &own) && strncmp(entry->step, operation->id, length) == 0 &&
           strcmp(entry->step + strcspn(entry->step, "/"), operation->id + strcspn(operation->id, "/")) ==
               0 &&
           covers(entry, lot, operation);
}

size_t facts_asked(struct arena *arena, const struct log *log, const struct log_entry ***asked)
{
    const bool *holding = log_holding(arena, log);
    size_t count = 0;
    *asked = ARENA_ARRAY(arena, log->count + 1, const struct log_entry *);
    for (size_t i = 0; i < log->count; i++)
        if (holding[i] && (log->entries[i].kind == LOG_SKIP || log->entries[i].kind == LOG_AGAIN))
            (*asked)[count++] = &log->entries[i];
    return count;
}

/* The first entry that says so counts. False: it names no work of the job. */
static bool take_entry(struct settling *s, const struct log_entry *entry)
{
    int lot;
    struct named key = {base_id(s->arena, entry->step, &lot), 0};
    size_t low = 0, high = s->all->count;
    bool found = false;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (by_base(&s->named[middle], &key) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    for (; low < s->all->count && strcmp(s->named[low].base, key.base) == 0; low++) {
        size_t i = s->named[low].index;
        if (!s->entry[i] && covers(entry, lot, &s->all->items[i]))
            s->entry[i] = entry;
        found = true;
    }
    return found;
}

static void find_facts(struct settling *s)
{
    const struct log *log = &s->all->job->log;
    const bool *holding = log_holding(s->arena, log);
    int lot;
    for (size_t i = 0; i < s->all->count; i++)
        s->named[i] = (struct named){base_id(s->arena, s->all->items[i].id, &lot), i};
    qsort(s->named, s->all->count, sizeof *s->named, by_base);
    s->left->strays = ARENA_ARRAY(s->arena, log->count + 1, const struct log_entry *);
    for (size_t i = 0; i < s->all->stray_count; i++)
        s->left->strays[s->left->stray_count++] = s->all->strays[i];
    for (size_t i = 0; i < log->count; i++) {
        const struct log_entry *entry = &log->entries[i];
        if (!holding[i] || entry->kind != LOG_DONE)
            continue;
        if (entry->done_min > s->all->job->now_min || !take_entry(s, entry))
            s->left->strays[s->left->stray_count++] = entry;
    }
}

/* Operations of a row follow one another. */
static void find_gone(struct settling *s)
{
    bool later = false;
    for (size_t i = s->all->count; i-- > 0;) {
        if (i + 1 < s->all->count && s->all->items[i].chain != s->all->items[i + 1].chain)
            later = false;
        later |= s->entry[i] != NULL;
        s->gone[i] = later;
    }
    for (size_t i = 0, next[2] = {0, 0}; i < s->all->count; i++)
        s->number[i] = (int)next[s->gone[i]]++;
}

static const struct clocks *clocks_of(struct settling *s, const struct finish *finish)
{
    for (size_t i = 0; i < s->clock_count; i++)
        if (s->clocks[i].finish == finish)
            return &s->clocks[i];
    const struct job *job = s->all->job;
    struct clocks *clocks = &s->clocks[s->clock_count++];
    struct drying_span span = {s->origin_min, job->now_min + DRYING_BEYOND_MIN};
    clocks->finish = finish;
    for (int kind = 0; kind < CLOCKS; kind++)
        clocks->clock[kind] =
            drying_clock_make(s->arena, finish, (enum drying_kind)kind, &job->shop.air, job->zone, span);
    return clocks;
}

static int64_t state_at(struct settling *s, size_t apply, enum finish_state state)
{
    const struct operation *operation = &s->all->items[apply];
    const struct finish *finish = operation->of.step->finish;
    return drying_reach(clocks_of(s, finish)->clock[drying_kind(finish, state)], s->origin_min,
                        s->entry[apply]->done_min, operation_state_min(operation, state));
}

static int64_t window_at(struct settling *s, size_t apply)
{
    const struct operation *operation = &s->all->items[apply];
    int32_t needed = operation_window_min(operation);
    if (needed == SPAN_NEVER)
        return INT64_MAX;
    return drying_last(clocks_of(s, operation->of.step->finish)->clock[DRYING_WINDOW], s->origin_min,
                       s->entry[apply]->done_min, needed);
}

static int64_t began_of(const struct settling *s, size_t operation)
{
    const struct log_entry *entry = s->entry[operation];
    return entry->began_min != INT64_MIN ? entry->began_min
                                         : entry->done_min - s->all->items[operation].minutes;
}

static void limit(struct operation *to, int64_t latest_min, int unless)
{
    if (latest_min >= to->latest_min)
        return;
    to->latest_min = latest_min;
    to->latest_unless = unless;
}

/* Its number among those that are left; -1: it is not, or there is none. */
static int left_number(const struct settling *s, int operation)
{
    return operation >= 0 && !s->gone[operation] ? s->number[operation] : -1;
}

/* What a fact asks of a step that is left. */
static void bind(struct settling *s, const struct link *link)
{
    struct operation *to = &s->left->items[s->number[link->to]];
    size_t from = (size_t)link->from;
    const struct zone *zone = s->all->job->zone;
    int64_t release_min = INT64_MIN, latest_min, done_min = s->entry[from]->done_min;
    bool lifted = link->unless >= 0 && s->entry[link->unless];
    switch (link->kind) {
    case LINK_END:
        release_min = done_min + link->span_min;
        break;
    case LINK_STATE:
        release_min = state_at(s, from, link->state);
        break;
    case LINK_DAY:
        release_min = zone_moment_on(zone, zone_day(zone, began_of(s, from), NULL) + 1, 0);
        break;
    case LINK_WINDOW:
        if (lifted)
            break;
        s->left->facts[s->number[from]].window_min = latest_min = window_at(s, from);
        limit(to, latest_min, left_number(s, link->unless));
        break;
    case LINK_POLISH:
        limit(to, done_min + link->span_min, -1);
        break;
    }
    to->release_min = release_min > to->release_min ? release_min : to->release_min;
    if (release_min != INT64_MIN)
        s->left->waits[s->left->wait_count++] =
            (struct fact_wait){(size_t)s->number[from], s->number[link->to], *link, release_min};
}

static void add_break(struct fact *fact, struct fact_break broke)
{
    if (fact->break_count < BREAKS_MOST)
        fact->breaks[fact->break_count++] = broke;
}

/* What one fact asked of another that did not wait for it. */
static void find_break(struct settling *s, const struct link *link)
{
    size_t from = (size_t)link->from;
    struct fact *fact = &s->left->facts[s->number[link->to]];
    int64_t began = fact->began_min, at;
    bool lifted = link->unless >= 0 && s->entry[link->unless];
    switch (link->kind) {
    case LINK_END:
        if (began < s->entry[from]->done_min)
            add_break(fact, (struct fact_break){.kind = BROKE_ORDER, .before = s->all->items[from].id});
        break;
    case LINK_STATE:
        at = state_at(s, from, link->state);
        if (began + SLOT_MIN <= at)
            add_break(fact, (struct fact_break){.kind = BROKE_WAIT, .at_min = at, .state = link->state});
        break;
    case LINK_WINDOW:
        at = window_at(s, from);
        if (began > at && !lifted)
            add_break(fact, (struct fact_break){.kind = BROKE_WINDOW, .at_min = at});
        break;
    case LINK_POLISH:
        at = s->entry[from]->done_min + link->span_min;
        if (began > at)
            add_break(fact, (struct fact_break){.kind = BROKE_WINDOW, .at_min = at});
        break;
    case LINK_DAY:
        break;
    }
}

/* A coat laid in air that its finish does not bear. */
static void find_bad_air(struct settling *s, struct fact *fact)
{
    const struct job *job = s->all->job;
    if (fact->operation.doing != DO_APPLY)
        return;
    struct air air = air_at(&job->shop.air, job->zone, fact->began_min, NULL);
    if (!drying_bears(fact->operation.of.step->finish, air))
        add_break(fact, (struct fact_break){.kind = BROKE_AIR, .air = air});
}

static void settle_links(struct settling *s)
{
    struct operations *left = s->left;
    left->links = ARENA_ARRAY(s->arena, s->all->link_count + 1, struct link);
    left->waits = ARENA_ARRAY(s->arena, s->all->link_count + 1, struct fact_wait);
    for (size_t i = 0; i < s->all->link_count; i++) {
        struct link link = s->all->links[i];
        if (s->gone[link.to]) {
            if (s->entry[link.to] && s->entry[link.from])
                find_break(s, &link);
            continue;
        }
        if (s->gone[link.from]) {
            if (s->entry[link.from])
                bind(s, &link);
            continue;
        }
        link.from = s->number[link.from];
        link.to = s->number[link.to];
        link.unless = left_number(s, link.unless);
        left->links[left->link_count++] = link;
    }
}

static void settle_lines(struct settling *s)
{
    struct operations *left = s->left;
    left->lines = ARENA_ARRAY(s->arena, s->all->line_count + 1, struct finish_line);
    for (size_t i = 0; i < s->all->line_count; i++) {
        struct finish_line line = s->all->lines[i];
        size_t from = (size_t)line.operation;
        line.operation = s->number[from];
        if (!s->gone[from]) {
            left->lines[left->line_count++] = line;
        } else if (s->entry[from]) {
            struct fact *fact = &left->facts[line.operation];
            int64_t at = line.is_state ? fact->state_min[line.state] : fact->done_min + line.span_min;
            fact->ready_min = at > fact->ready_min ? at : fact->ready_min;
        }
    }
}

static void settle_items(struct settling *s)
{
    struct operations *left = s->left;
    left->items = ARENA_ARRAY(s->arena, s->all->count + 1, struct operation);
    left->facts = ARENA_ARRAY(s->arena, s->all->count + 1, struct fact);
    for (size_t i = 0; i < s->all->count; i++) {
        if (!s->gone[i]) {
            left->items[left->count++] = s->all->items[i];
            continue;
        }
        struct fact *fact = &left->facts[left->fact_count++];
        *fact = (struct fact){.operation = s->all->items[i], .entry = s->entry[i], .ready_min = INT64_MIN};
        if (!fact->entry)
            continue;
        fact->began_min = began_of(s, i);
        fact->done_min = fact->entry->done_min;
        for (int state = 0; state < STATE_COUNT && fact->operation.doing == DO_APPLY; state++)
            fact->state_min[state] = state_at(s, i, (enum finish_state)state);
        fact->window_min = INT64_MAX;
        find_bad_air(s, fact);
    }
}

/* What stayed in the tool is lost once a batch, and shared by its coats. */
static void settle_losses(struct settling *s)
{
    struct operations *left = s->left;
    size_t *group = ARENA_ARRAY(s->arena, left->fact_count + 1, size_t);
    double *shares = ARENA_ARRAY(s->arena, left->fact_count + 1, double);
    const struct operation **coats = ARENA_ARRAY(s->arena, left->fact_count + 1, const struct operation *);
    for (size_t i = 0; i < left->fact_count; i++) {
        size_t count = 0;
        if (!left->facts[i].entry || left->facts[i].operation.doing != DO_APPLY ||
            left->facts[i].loss_share > 0)
            continue;
        for (size_t k = i; k < left->fact_count; k++)
            if (facts_are_one_batch(&left->facts[i], &left->facts[k])) {
                group[count] = k;
                coats[count++] = &left->facts[k].operation;
            }
        operations_share_loss(coats, count, shares);
        for (size_t k = 0; k < count; k++)
            left->facts[group[k]].loss_share = shares[k];
    }
}

const struct operations *facts_settle(struct arena *arena, const struct operations *all)
{
    size_t count = all->count;
    if (all->job->log.count == 0)
        return all;
    struct settling s = {.arena = arena,
                         .all = all,
                         .left = ARENA_NEW(arena, struct operations),
                         .named = ARENA_ARRAY(arena, count + 1, struct named),
                         .entry = ARENA_ARRAY(arena, count + 1, const struct log_entry *),
                         .gone = ARENA_ARRAY(arena, count + 1, bool),
                         .number = ARENA_ARRAY(arena, count + 1, int),
                         .clocks = ARENA_ARRAY(arena, all->job->finish_count + 1, struct clocks)};
    *s.left = (struct operations){.job = all->job, .surfaces = all->surfaces};
    find_facts(&s);
    find_gone(&s);
    s.origin_min = all->job->start_min / SLOT_MIN * SLOT_MIN;
    for (size_t i = 0; i < count; i++)
        if (s.entry[i] && s.entry[i]->done_min < s.origin_min)
            s.origin_min = s.entry[i]->done_min / SLOT_MIN * SLOT_MIN;
    settle_items(&s);
    settle_links(&s);
    settle_lines(&s);
    settle_losses(&s);
    return s.left;
}

/* When the dust of all that was done has settled; INT64_MIN: none was raised where coats are laid. */
static int64_t dust_settled_min(const struct operations *left)
{
    int64_t last_min = INT64_MIN;
    for (size_t i = 0; i < left->fact_count; i++) {
        const struct fact *fact = &left->facts[i];
        const struct shop *shop = &fact->operation.job->shop;
        if (fact->entry && fact->operation.dusty && !shop->dust_separate &&
            fact->done_min + shop->settle_min > last_min)
            last_min = fact->done_min + shop->settle_min;
    }
    return last_min;
}

void facts_settle_dust(struct operations *left)
{
    int64_t settled_min = dust_settled_min(left);
    for (size_t i = 0; i < left->count; i++)
        if (left->items[i].doing == DO_APPLY && left->items[i].release_min < settled_min)
            left->items[i].release_min = settled_min;
}

bool facts_are_one_batch(const struct fact *a, const struct fact *b)
{
    return a == b || (a->entry && b->entry && a->entry->batch && b->entry->batch &&
                      strcmp(a->entry->batch, b->entry->batch) == 0 &&
                      operation_same_kind(&a->operation, &b->operation));
}

int64_t fact_measured_min(struct arena *arena, const struct fact *fact)
{
    const struct log_entry *entry = fact->entry;
    const struct job *job = fact->operation.job;
    if (!entry || entry->as_planned || entry->began_min == INT64_MIN)
        return 0;
    int64_t minutes = entry->done_min - entry->began_min, origin;
    if (minutes > MEASURED_MOST_MIN)
        return 0;
    origin = entry->began_min / SLOT_MIN * SLOT_MIN - DAY_MINUTES;
    const struct hours *hours = hours_make(arena, &job->shop, job->zone, origin,
                                           (int32_t)((entry->done_min - origin + DAY_MINUTES) / SLOT_MIN));
    for (size_t i = 0; i + 1 < hours->count; i++) {
        int64_t from = hours_moment(hours, hours->stretches[i].to);
        int64_t to = hours_moment(hours, hours->stretches[i + 1].from);
        if (from >= entry->began_min && to <= entry->done_min)
            minutes -= to - from;
    }
    return minutes;
}

static int by_size(const void *a, const void *b)
{
    size_t left = *(const size_t *)a, right = *(const size_t *)b;
    return left < right ? -1 : left > right;
}

size_t facts_cuts(struct arena *arena, const struct job *job, size_t piece, size_t parts, size_t **cuts)
{
    const struct log *log = &job->log;
    if (!log->partial)
        return 0;
    const bool *holding = log_holding(arena, log);
    const char *slug = text_slug(arena, job->pieces[piece].name);
    size_t length = strlen(slug), count = 0;
    size_t *found = ARENA_ARRAY(arena, 2 * log->count + 1, size_t);
    for (size_t i = 0; i < log->count; i++) {
        const struct log_entry *entry = &log->entries[i];
        if (!holding[i] || entry->kind != LOG_DONE || entry->parts == 0 ||
            strncmp(entry->step, slug, length) != 0 || !strchr("/.", entry->step[length]))
            continue;
        size_t from = entry->first > 0 ? (size_t)entry->first - 1 : 0, to = from + (size_t)entry->parts;
        if (from > 0 && from < parts)
            found[count++] = from;
        if (to > 0 && to < parts)
            found[count++] = to;
    }
    size_t kept = 0;
    if (count > 0)
        qsort(found, count, sizeof *found, by_size);
    for (size_t i = 0; i < count; i++)
        if (kept == 0 || found[kept - 1] != found[i])
            found[kept++] = found[i];
    *cuts = found;
    return kept;
}
