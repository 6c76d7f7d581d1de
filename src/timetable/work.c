#include "timetable/work.h"

#include "base/arena.h"
#include "base/err.h"
#include "base/text.h"
#include "timetable/emit.h"
#include "timetable/facts.h"
#include "timetable/hours.h"

#include <stdlib.h>
#include <string.h>

enum {
    WEEK_MIN = 7 * DAY_MINUTES,
    HORIZON_MARGIN_MIN = 3 * WEEK_MIN,
    SET_UP_MIN = 60,
    COLD_FACTOR = 2, /* films take twice their time ten degrees below reference: for the guess only */
};

/* Operations of a piece, or of a task: items[from..to), with those that begin its rows. */
struct span {
    size_t from, to;
    int *firsts;
    size_t first_count;
};

static void emit_task(struct builder *builder, size_t index, struct span *span)
{
    const struct task *task = &builder->job->tasks[index];
    struct operation operation = {.job = builder->job,
                                  .doing = DO_TASK,
                                  .piece = -1,
                                  .schedule = -1,
                                  .task = (int)index,
                                  .chain = (int)builder->out->count,
                                  .words = task->name,
                                  .lot = 1,
                                  .lots = 1,
                                  .work = -1,
                                  .release_min = INT64_MIN,
                                  .latest_min = INT64_MAX,
                                  .latest_unless = -1,
                                  .people = 1,
                                  .units = units_of_span(builder->arena, task->takes_min, 0, 1)};
    const char *id = arena_textf(builder->arena, "task/%s", text_slug(builder->arena, task->name));
    operation.id = id;
    emit_split(builder, &operation);
    span->from = builder->out->count;
    span->firsts = ARENA_NEW(builder->arena, int);
    span->first_count = 1;
    for (operation.part = 1; operation.part <= operation.parts; operation.part++) {
        if (operation.part > 1)
            operation.id = arena_textf(builder->arena, "%s#%d", id, operation.part);
        int at = emit_operation(builder, operation);
        if (operation.part == 1)
            span->firsts[0] = at;
        else
            emit_link(builder, (struct link){.from = at - 1, .to = at, .kind = LINK_END, .unless = -1});
    }
    span->to = builder->out->count;
    emit_line(builder, (struct finish_line){(int)span->to - 1, false, STATE_COUNT, 0});
}

/* `to` waits for a piece's last coats to reach a state; a piece without coats is done when its last step is. */
static void wait_for_piece(struct builder *builder, const struct span *piece, enum finish_state state, int to)
{
    bool coated = false;
    for (size_t i = piece->from; i < piece->to; i++)
        if (builder->out->items[i].last_coat) {
            emit_state_link(builder, (int)i, to, state);
            coated = true;
        }
    for (size_t i = piece->from; i < piece->to && !coated; i++)
        if (i + 1 == piece->to || builder->out->items[i + 1].chain != builder->out->items[i].chain)
            emit_link(builder, (struct link){.from = (int)i, .to = to, .kind = LINK_END, .unless = -1});
}

static void wait_for_task(struct builder *builder, const struct span *task, int to)
{
    emit_link(builder, (struct link){.from = (int)task->to - 1, .to = to, .kind = LINK_END, .unless = -1});
}

struct spans {
    struct span *pieces, *tasks;
};

static void wait_for_all(struct builder *builder, struct spans spans, const struct after *after, size_t count,
                         const struct span *waiting)
{
    for (size_t k = 0; k < waiting->first_count; k++)
        for (size_t i = 0; i < count; i++)
            if (after[i].is_task)
                wait_for_task(builder, &spans.tasks[after[i].index], waiting->firsts[k]);
            else
                wait_for_piece(builder, &spans.pieces[after[i].index], after[i].state, waiting->firsts[k]);
}

static void link_pieces_and_tasks(struct builder *builder, struct spans spans)
{
    const struct job *job = builder->job;
    for (size_t i = 0; i < job->piece_count; i++)
        wait_for_all(builder, spans, job->pieces[i].after, job->pieces[i].after_count, &spans.pieces[i]);
    for (size_t i = 0; i < job->task_count; i++) {
        const struct task *task = &job->tasks[i];
        wait_for_all(builder, spans, task->after, task->after_count, &spans.tasks[i]);
        for (size_t k = 0; k < task->before_count; k++) {
            const struct span *piece = &spans.pieces[task->before[k]];
            for (size_t f = 0; f < piece->first_count; f++)
                wait_for_task(builder, &spans.tasks[i], piece->firsts[f]);
        }
    }
}

/* Ids are made of slugs: names that differ only by case or signs would share their ids. */
static void refuse_same_slugs(struct builder *builder, const char **slugs, size_t count, const char *pointer)
{
    qsort(slugs, count, sizeof *slugs, text_order);
    for (size_t i = 1; i < count; i++)
        if (strcmp(slugs[i - 1], slugs[i]) == 0)
            err_addf(builder->errors, ERR_INPUT, builder->job->file, pointer,
                     "names that differ by more than case, blanks and signs", "two that are both \"%s\"",
                     slugs[i]);
}

static void check_names(struct builder *builder)
{
    const struct job *job = builder->job;
    const char **slugs = ARENA_ARRAY(
        builder->arena, job->piece_count + job->schedule_count + job->task_count + 1, const char *);
    for (size_t i = 0; i < job->piece_count; i++)
        slugs[i] = text_slug(builder->arena, job->pieces[i].name);
    refuse_same_slugs(builder, slugs, job->piece_count, "/pieces");
    for (size_t i = 0; i < job->schedule_count; i++)
        slugs[i] = text_slug(builder->arena, job->schedules[i].name);
    refuse_same_slugs(builder, slugs, job->schedule_count, "/schedules");
    for (size_t i = 0; i < job->task_count; i++)
        slugs[i] = text_slug(builder->arena, job->tasks[i].name);
    refuse_same_slugs(builder, slugs, job->task_count, "/tasks");
}

/* What the log asks of work that the job does not have. */
static void tell_unheard(struct builder *builder)
{
    struct operations *out = builder->out;
    out->strays = ARENA_ARRAY(builder->arena, builder->asked_count + 1, const struct log_entry *);
    for (size_t i = 0; i < builder->asked_count; i++)
        if (!builder->heard[i])
            out->strays[out->stray_count++] = builder->asked[i];
}

struct operations *operations_make(struct arena *arena, const struct job *job,
                                   const struct surfaces *surfaces, struct shop_limits limits,
                                   const int *lots, struct err_list *errors)
{
    struct operations *out = ARENA_NEW(arena, struct operations);
    out->job = job;
    out->surfaces = surfaces;
    struct builder builder = {
        .arena = arena, .job = job, .out = out, .limits = limits, .lots = lots, .errors = errors};
    builder.asked_count = facts_asked(arena, &job->log, &builder.asked);
    builder.heard = ARENA_ARRAY(arena, builder.asked_count + 1, bool);
    struct spans spans = {ARENA_ARRAY(arena, job->piece_count, struct span),
                          ARENA_ARRAY(arena, job->task_count, struct span)};
    size_t before = errors->count;
    check_names(&builder);
    for (size_t i = 0; i < job->piece_count; i++) {
        struct span *span = &spans.pieces[i];
        span->from = out->count;
        span->firsts = ARENA_ARRAY(arena, (job->schedule_count + 1) * (size_t)lots[i], int);
        for (int lot = 1; lot <= lots[i]; lot++)
            chain_emit_lot(&builder, i, lot, span->firsts, &span->first_count);
        span->to = out->count;
    }
    for (size_t i = 0; i < job->task_count; i++)
        emit_task(&builder, i, &spans.tasks[i]);
    link_pieces_and_tasks(&builder, spans);
    tell_unheard(&builder);
    return errors->count == before ? out : NULL;
}

static void add_job(struct operations *all, const struct operations *job)
{
    int offset = (int)all->count;
    for (size_t i = 0; i < job->count; i++) {
        struct operation *copy = &all->items[all->count++];
        *copy = job->items[i];
        copy->chain += offset;
        copy->latest_unless += copy->latest_unless >= 0 ? offset : 0;
    }
    for (size_t i = 0; i < job->fact_count; i++)
        all->facts[all->fact_count++] = job->facts[i];
    for (size_t i = 0; i < job->link_count; i++) {
        struct link *copy = &all->links[all->link_count++];
        *copy = job->links[i];
        copy->from += offset;
        copy->to += offset;
        copy->unless += copy->unless >= 0 ? offset : 0;
    }
    for (size_t i = 0; i < job->line_count; i++) {
        all->lines[all->line_count] = job->lines[i];
        all->lines[all->line_count++].operation += offset;
    }
}

void operations_join(struct arena *arena, const struct operations *const *jobs, size_t count,
                     struct joined *joined)
{
    size_t operations = 0, links = 0, lines = 0, facts = 0;
    joined->shop_job = ARENA_NEW(arena, struct job);
    *joined->shop_job = *jobs[0]->job;
    joined->first = ARENA_ARRAY(arena, count + 1, size_t);
    for (size_t j = 0; j < count; j++) {
        const struct operations *job = jobs[j];
        joined->first[j] = operations;
        operations += job->count;
        links += job->link_count;
        lines += job->line_count;
        facts += job->fact_count;
        if (j > 0)
            shop_join_busy(arena, &joined->shop_job->shop, &job->job->shop);
        if (job->job->start_min < joined->shop_job->start_min)
            joined->shop_job->start_min = job->job->start_min;
        if (job->job->deliver_min > joined->shop_job->deliver_min)
            joined->shop_job->deliver_min = job->job->deliver_min;
    }
    joined->first[count] = operations;
    joined->all = (struct operations){.job = joined->shop_job,
                                      .surfaces = jobs[0]->surfaces,
                                      .items = ARENA_ARRAY(arena, operations, struct operation),
                                      .links = ARENA_ARRAY(arena, links, struct link),
                                      .lines = ARENA_ARRAY(arena, lines, struct finish_line),
                                      .facts = ARENA_ARRAY(arena, facts, struct fact)};
    for (size_t j = 0; j < count; j++)
        add_job(&joined->all, jobs[j]);
}

/* Open minutes in a plain week. */
static int32_t week_open_min(const struct shop *shop)
{
    int32_t open = 0;
    for (int day = 0; day < 7; day++)
        for (size_t i = 0; i < shop->hours[day].count; i++)
            open += shop->hours[day].stretches[i].to_min - shop->hours[day].stretches[i].from_min;
    return open;
}

static int64_t link_guess_min(const struct operations *operations, const struct link *link)
{
    const struct operation *from = &operations->items[link->from];
    switch (link->kind) {
    case LINK_END:
        return from->minutes + link->span_min;
    case LINK_STATE:
        return from->minutes + (int64_t)COLD_FACTOR * operation_state_min(from, link->state);
    case LINK_DAY:
        return DAY_MINUTES;
    default:
        return 0;
    }
}

/* The longest path of waits, each guessed; links mostly point forward, so a few rounds settle it. */
static int64_t path_guess_min(struct arena *arena, const struct operations *operations)
{
    int64_t *at = ARENA_ARRAY(arena, operations->count, int64_t), longest = 0;
    bool moved = true;
    for (int round = 0; round < 50 && moved; round++) {
        moved = false;
        for (size_t i = 0; i < operations->link_count; i++) {
            const struct link *link = &operations->links[i];
            int64_t then = at[link->from] + link_guess_min(operations, link);
            if (then > at[link->to]) {
                at[link->to] = then;
                moved = true;
            }
        }
    }
    for (size_t i = 0; i < operations->count; i++)
        longest = at[i] > longest ? at[i] : longest;
    return longest;
}

/* Enough slots for any sensible plan; tried again with more where none is found. */
int32_t operations_horizon(struct arena *arena, const struct operations *operations, bool late)
{
    const struct job *job = operations->job;
    int64_t hands_on = 0, closed = 0, open = week_open_min(&job->shop);
    for (size_t i = 0; i < operations->count; i++)
        hands_on += operations->items[i].minutes + SET_UP_MIN;
    for (size_t i = 0; i < job->shop.closed_count; i++)
        if (job->shop.closed[i].last_day >= zone_day(job->zone, job->start_min, NULL))
            closed += (job->shop.closed[i].last_day - job->shop.closed[i].first_day + 1) * DAY_MINUTES;
    int64_t guess = HORIZON_MARGIN_MIN + path_guess_min(arena, operations) + closed;
    guess += open > 0 ? hands_on * WEEK_MIN / open : 0;
    if (late && job->deliver_min - job->start_min + WEEK_MIN > guess)
        guess = job->deliver_min - job->start_min + WEEK_MIN;
    return (int32_t)((guess < HORIZON_MOST_MIN ? guess : HORIZON_MOST_MIN) / SLOT_MIN);
}
