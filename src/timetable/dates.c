#include "timetable/dates.h"

#include "base/arena.h"
#include "timetable/hours.h"

#include <stdlib.h>
#include <string.h>

/* Where each operation stands among the steps, and the links by the operation that waits. */
struct dating {
    struct arena *arena;
    const struct site *site;
    struct draft *draft;
    size_t first; /* of the draft's operations: the timetable's first */
    struct timetable *timetable;
    size_t *step_of;           /* per operation; SIZE_MAX: left out */
    const struct link **links; /* sorted by `to` */
    size_t *first_link;        /* per operation, count + 1 */
};

/* The draft's number of one of the timetable's operations. */
static int drafted(const struct dating *dating, size_t operation)
{
    return (int)(dating->first + operation);
}

static bool present(const struct dating *dating, int operation)
{
    return dating->draft->start[drafted(dating, (size_t)operation)] != SITE_NONE;
}

static int64_t moment(const struct dating *dating, int32_t minute)
{
    return minute >= SITE_NEVER ? INT64_MAX : site_moment(dating->site, minute);
}

static int64_t state_at(const struct dating *dating, size_t operation, enum finish_state state)
{
    int at = drafted(dating, operation);
    return moment(dating, site_state(dating->site, at, dating->draft->end[at], state));
}

static int64_t link_at(const struct dating *dating, const struct link *link)
{
    int from = drafted(dating, (size_t)link->from);
    struct link shifted = *link;
    shifted.from = from;
    return moment(dating,
                  site_link(dating->site, &shifted, dating->draft->start[from], dating->draft->end[from]));
}

static int64_t dust_free(const struct dating *dating, size_t operation)
{
    if (dating->timetable->operations->items[operation].doing == DO_APPLY)
        return state_at(dating, operation, STATE_DUST_FREE);
    return moment(dating, dating->draft->end[drafted(dating, operation)]);
}

static int by_start_then_id(const void *a, const void *b)
{
    const struct timetable_step *left = a, *right = b;
    if (left->start_min != right->start_min)
        return left->start_min < right->start_min ? -1 : 1;
    return strcmp(left->operation->id, right->operation->id);
}

static void make_steps(struct dating *dating)
{
    struct timetable *timetable = dating->timetable;
    const struct operations *operations = timetable->operations;
    timetable->steps = ARENA_ARRAY(dating->arena, operations->count, struct timetable_step);
    for (size_t i = 0; i < operations->count; i++) {
        int at = drafted(dating, i);
        dating->step_of[i] = SIZE_MAX;
        if (!present(dating, (int)i))
            continue;
        const struct batch *batch = &dating->draft->placed[dating->draft->batch_of[at]].batch;
        timetable->steps[timetable->step_count++] =
            (struct timetable_step){.operation = &operations->items[i],
                                    .start_min = moment(dating, dating->draft->start[at]),
                                    .end_min = moment(dating, dating->draft->end[at]),
                                    .dust_free_min = dust_free(dating, i),
                                    .person = batch->person + 1,
                                    .float_min = -1};
    }
    qsort(timetable->steps, timetable->step_count, sizeof *timetable->steps, by_start_then_id);
    for (size_t i = 0; i < timetable->step_count; i++)
        dating->step_of[timetable->steps[i].operation - operations->items] = i;
}

static bool is_own(const struct dating *dating, int item)
{
    return (size_t)item >= dating->first &&
           (size_t)item - dating->first < dating->timetable->operations->count;
}

/* The steps of a batch that are the timetable's own, in the order of work. */
static void fill_steps(struct dating *dating, const struct placed *placed, struct timetable_batch *batch)
{
    size_t *steps = ARENA_ARRAY(dating->arena, placed->batch.count, size_t);
    for (size_t i = 0; i < placed->batch.count; i++) {
        if (is_own(dating, placed->batch.items[i]))
            steps[batch->step_count++] = dating->step_of[(size_t)placed->batch.items[i] - dating->first];
    }
    batch->steps = steps;
}

static void fill_mixes(struct dating *dating, const struct placed *placed, struct timetable_batch *batch)
{
    struct laying laid = {.mix_room = placed->laid.mixes};
    struct batch_mix *mixes = ARENA_ARRAY(dating->arena, (size_t)placed->laid.mixes, struct batch_mix);
    laid.mix = ARENA_ARRAY(dating->arena, (size_t)placed->laid.mixes, struct laid_mix);
    lay_batch(dating->site, &placed->batch, placed->laid.start, dating->draft->start, dating->draft->end,
              &laid);
    for (int i = 0; i < laid.mixes; i++)
        mixes[i] = (struct batch_mix){moment(dating, laid.mix[i].at), laid.mix[i].seconds};
    batch->mixes = mixes;
    batch->mix_count = (size_t)laid.mixes;
}

/* What stays in the tool is lost once a batch, and shared by all its coats, those of other jobs among them. */
static void share_loss(const struct dating *dating, const struct batch *batch, double *shares)
{
    const struct operation **coats = ARENA_ARRAY(dating->arena, batch->count, const struct operation *);
    double *share = ARENA_ARRAY(dating->arena, batch->count, double);
    size_t count = 0, at = 0;
    for (size_t i = 0; i < batch->count; i++)
        if (dating->site->rows[batch->items[i]].film)
            coats[count++] = dating->site->rows[batch->items[i]].operation;
    operations_share_loss(coats, count, share);
    for (size_t i = 0; i < batch->count; i++) {
        if (!dating->site->rows[batch->items[i]].film)
            continue;
        if (is_own(dating, batch->items[i]))
            shares[(size_t)batch->items[i] - dating->first] = share[at];
        at++;
    }
}

static void count_losses(struct dating *dating)
{
    double *shares = ARENA_ARRAY(dating->arena, dating->timetable->operations->count, double);
    for (size_t b = 0; b < dating->draft->count; b++)
        share_loss(dating, &dating->draft->placed[b].batch, shares);
    dating->timetable->loss_share = shares;
}

static const struct operation *main_operation(const struct dating *dating, const struct batch *batch)
{
    const struct operation *first = dating->site->rows[batch->items[0]].operation;
    for (size_t i = 0; i < batch->count; i++) {
        const struct operation *operation = dating->site->rows[batch->items[i]].operation;
        if (operation->doing != DO_FLIP || first->doing != DO_FLIP)
            first = first->doing == DO_FLIP ? operation : first;
        if (operation->doing == DO_SAND && first->doing == DO_SCUFF)
            first = operation;
    }
    return first;
}

static struct timetable_batch batch_of(struct dating *dating, const struct placed *placed, int64_t minutes)
{
    const struct laying *laid = &placed->laid;
    struct timetable_batch batch = {.first = main_operation(dating, &placed->batch),
                                    .person = placed->batch.person + 1,
                                    .helper = placed->batch.helper + 1,
                                    .start_min = moment(dating, laid->start),
                                    .end_min = moment(dating, laid->end),
                                    .work_from_min = moment(dating, laid->work_from),
                                    .work_until_min = moment(dating, laid->work_until),
                                    .set_up_min = lay_set_up(dating->site, &placed->batch),
                                    .clean_up_min = lay_clean_up(dating->site, &placed->batch),
                                    .hands_on_min =
                                        (int32_t)dates_share(dating->arena, dating->site, &placed->batch,
                                                             minutes, dating->site->rows[dating->first].job),
                                    .pause_min = laid->end - laid->start - laid->hands_on,
                                    .float_min = -1};
    fill_steps(dating, placed, &batch);
    fill_mixes(dating, placed, &batch);
    return batch;
}

static int by_start_then_person(const void *a, const void *b)
{
    const struct timetable_batch *left = a, *right = b;
    if (left->start_min != right->start_min)
        return left->start_min < right->start_min ? -1 : 1;
    return left->person - right->person;
}

/* The highest number of a batch of these that was done already, in whole or in part. */
static size_t done_before(const struct operations *operations, const char *stem, size_t length)
{
    size_t most = 0;
    for (size_t i = 0; i < operations->fact_count; i++) {
        const struct log_entry *entry = operations->facts[i].entry;
        if (!entry || !entry->batch || strncmp(entry->batch, stem, length) != 0 ||
            entry->batch[length] != '/')
            continue;
        size_t number = strtoul(entry->batch + length + 1, NULL, 10);
        most = number > most ? number : most;
    }
    return most;
}

static void name_batches(struct dating *dating)
{
    struct timetable *timetable = dating->timetable;
    for (size_t i = 0; i < timetable->batch_count; i++) {
        struct timetable_batch *batch = &timetable->batches[i];
        const struct operation *first = batch->first;
        const char *stem = arena_textf(dating->arena, "%s/%s/%d", doing_name(first->doing),
                                       operation_with(dating->arena, first), first->coat);
        size_t length = strlen(stem), number = 1 + done_before(timetable->operations, stem, length);
        for (size_t k = 0; k < i; k++)
            number += strncmp(timetable->batches[k].id, stem, length) == 0 &&
                      timetable->batches[k].id[length] == '/';
        batch->id = arena_textf(dating->arena, "%s/%zu", stem, number);
        for (size_t k = 0; k < batch->step_count; k++)
            timetable->steps[batch->steps[k]].batch = i;
    }
}

static void make_batches(struct dating *dating)
{
    struct timetable *timetable = dating->timetable;
    const struct draft *draft = dating->draft;
    timetable->batches = ARENA_ARRAY(dating->arena, draft->count, struct timetable_batch);
    const int64_t *minutes = dates_minutes(dating->arena, dating->draft);
    for (size_t i = 0; i < draft->count; i++) {
        bool own = false;
        for (size_t k = 0; k < draft->placed[i].batch.count && !own; k++)
            own = is_own(dating, draft->placed[i].batch.items[k]);
        if (!own)
            continue;
        struct timetable_batch batch = batch_of(dating, &draft->placed[i], minutes[i]);
        timetable->batches[timetable->batch_count++] = batch;
        timetable->hands_on_min += (int64_t)batch.hands_on_min * (batch.helper > 0 ? 2 : 1);
    }
    qsort(timetable->batches, timetable->batch_count, sizeof *timetable->batches, by_start_then_person);
    name_batches(dating);
}

static void sort_links(struct dating *dating)
{
    const struct operations *operations = dating->timetable->operations;
    struct arena *arena = dating->arena;
    dating->links = ARENA_ARRAY(arena, operations->link_count, const struct link *);
    dating->first_link = ARENA_ARRAY(arena, operations->count + 2, size_t);
    for (size_t i = 0; i < operations->link_count; i++)
        dating->first_link[operations->links[i].to + 2]++;
    for (size_t i = 2; i < operations->count + 2; i++)
        dating->first_link[i] += dating->first_link[i - 1];
    for (size_t i = 0; i < operations->link_count; i++)
        dating->links[dating->first_link[operations->links[i].to + 1]++] = &operations->links[i];
}

static bool holds(const struct dating *dating, const struct link *link)
{
    if (!present(dating, link->from) || !present(dating, link->to))
        return false;
    return link->kind != LINK_WINDOW || link->unless < 0 || !present(dating, link->unless);
}

static struct waited waited_of(const struct dating *dating, const struct link *link)
{
    struct waited waited = {dating->step_of[link->from], link, INT64_MIN, INT64_MAX};
    int64_t at = link_at(dating, link);
    if (site_link_is_limit(link))
        waited.max_until = at;
    else
        waited.min_until = at;
    return waited;
}

/* One entry for what is told of one earlier step: the later of two moments, a window joined to its wait. */
static void add_waited(struct timetable_step *step, struct waited *list, struct waited next)
{
    for (size_t i = 0; i < step->after_count; i++) {
        struct waited *old = &list[i];
        if (old->step != next.step)
            continue;
        if (next.min_until > old->min_until) {
            old->min_until = next.min_until;
            old->link = next.link;
        }
        if (next.max_until < old->max_until)
            old->max_until = next.max_until;
        return;
    }
    list[step->after_count++] = next;
}

static void tell_waits(struct dating *dating)
{
    const struct operations *operations = dating->timetable->operations;
    for (size_t i = 0; i < dating->timetable->step_count; i++) {
        struct timetable_step *step = &dating->timetable->steps[i];
        size_t operation = (size_t)(step->operation - operations->items);
        size_t from = dating->first_link[operation], to = dating->first_link[operation + 1];
        struct waited *list = ARENA_ARRAY(dating->arena, to - from, struct waited);
        for (size_t k = from; k < to; k++)
            if (holds(dating, dating->links[k]))
                add_waited(step, list, waited_of(dating, dating->links[k]));
        step->after = list;
    }
}

/* The state that a film dries to: the delivery's for a last coat, else the first that a step on it waits for (that it is
 * dust-free matters to others only). */
static enum finish_state next_state(const struct dating *dating, size_t operation, int64_t *window)
{
    const struct operations *operations = dating->timetable->operations;
    const struct task_row *row = &dating->site->rows[drafted(dating, operation)];
    enum finish_state state = STATE_COUNT;
    *window = INT64_MAX;
    for (size_t i = 0; i < row->out_count; i++) {
        struct link link = dating->site->operations->links[row->out[i]];
        link.from -= (int)dating->first;
        link.to -= (int)dating->first;
        link.unless -= link.unless >= 0 ? (int)dating->first : 0;
        if (!holds(dating, &link))
            continue;
        if (link.kind == LINK_WINDOW)
            *window = link_at(dating, &link);
        if (link.kind == LINK_STATE && link.state != STATE_DUST_FREE && link.state < state)
            state = link.state;
    }
    bool last = operations->items[operation].last_coat;
    return last || state == STATE_COUNT ? operations->items[operation].job->deliver_at : state;
}

static void make_waits(struct dating *dating)
{
    struct timetable *timetable = dating->timetable;
    struct hours zone_only = {.zone = dating->site->zone};
    struct films films;
    films_init(&films, dating->arena, dating->site->shop, &zone_only, 0);
    timetable->waits = ARENA_ARRAY(dating->arena, timetable->step_count, struct drying_wait);
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[i];
        if (step->operation->doing != DO_APPLY)
            continue;
        size_t operation = (size_t)(step->operation - timetable->operations->items);
        struct drying_wait wait = {.step = i, .from_min = step->end_min};
        wait.state = next_state(dating, operation, &wait.window_min);
        wait.until_min = state_at(dating, operation, wait.state);
        wait.outside = films_outside(&films, step->operation->of.step->finish, step->end_min, wait.until_min);
        timetable->waits[timetable->wait_count++] = wait;
    }
}

static void take_later(int64_t *at, int64_t other)
{
    *at = other > *at ? other : *at;
}

/* A piece is in a state when the last coats of all its lots, schedules and sides are. */
static void make_states(struct dating *dating)
{
    struct timetable *timetable = dating->timetable;
    const struct operations *operations = timetable->operations;
    size_t count = operations->job->piece_count * STATE_COUNT;
    int64_t *at = ARENA_ARRAY(dating->arena, count + 1, int64_t);
    timetable->states = ARENA_ARRAY(dating->arena, count + 1, struct piece_state);
    for (size_t i = 0; i < count; i++)
        at[i] = INT64_MIN;
    for (size_t i = 0; i < operations->fact_count; i++) {
        const struct fact *fact = &operations->facts[i];
        for (int state = 0; state < STATE_COUNT && fact->entry && fact->operation.last_coat; state++)
            take_later(&at[fact->operation.piece * STATE_COUNT + state], fact->state_min[state]);
    }
    for (size_t i = 0; i < operations->count; i++)
        for (int state = 0; state < STATE_COUNT && operations->items[i].last_coat; state++)
            take_later(&at[operations->items[i].piece * STATE_COUNT + state],
                       state_at(dating, i, (enum finish_state)state));
    for (size_t i = 0; i < count; i++)
        if (at[i] != INT64_MIN)
            timetable->states[timetable->state_count++] =
                (struct piece_state){i / STATE_COUNT, (enum finish_state)(i % STATE_COUNT), at[i]};
}

static void make_ready(struct dating *dating)
{
    struct timetable *timetable = dating->timetable;
    const struct operations *operations = timetable->operations;
    timetable->ready_min = timetable->start_min;
    for (size_t i = 0; i < operations->fact_count; i++)
        if (operations->facts[i].ready_min > timetable->ready_min)
            timetable->ready_min = operations->facts[i].ready_min;
    for (size_t i = 0; i < operations->line_count; i++) {
        struct finish_line line = operations->lines[i];
        line.operation = drafted(dating, (size_t)line.operation);
        int64_t at = moment(dating, site_line(dating->site, &line, dating->draft->end[line.operation]));
        timetable->ready_min = at > timetable->ready_min ? at : timetable->ready_min;
    }
    int64_t spare = timetable->deliver_min - timetable->ready_min;
    timetable->late_min = spare < 0 ? -spare : 0;
    timetable->spare_min = spare > 0 ? spare : 0;
}

void dates_fill(struct dated dated, struct timetable *timetable)
{
    struct dating dating = {.arena = dated.draft->site->arena,
                            .site = dated.draft->site,
                            .draft = dated.draft,
                            .first = dated.first,
                            .timetable = timetable};
    dating.step_of = ARENA_ARRAY(dating.arena, timetable->operations->count, size_t);
    make_steps(&dating);
    make_batches(&dating);
    count_losses(&dating);
    sort_links(&dating);
    tell_waits(&dating);
    make_waits(&dating);
    make_states(&dating);
    make_ready(&dating);
}
