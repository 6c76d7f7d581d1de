#include "timetable/work.h"

#include "base/arena.h"
#include "base/err.h"
#include "base/text.h"
#include "timetable/emit.h"

#include <stdlib.h>
#include <string.h>

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
                                  .minutes = emit_up_to_slot(task->takes_min)};
    const char *id = arena_textf(builder->arena, "task/%s", text_slug(builder->arena, task->name));
    operation.id = id;
    operation.parts = emit_parts(builder, &operation);
    operation.minutes = emit_up_to_slot((operation.minutes + operation.parts - 1) / operation.parts);
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
    if (!coated && piece->to > piece->from)
        emit_link(builder,
                  (struct link){.from = (int)piece->to - 1, .to = to, .kind = LINK_END, .unless = -1});
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

struct operations *operations_make(struct arena *arena, const struct job *job,
                                   const struct surfaces *surfaces, struct shop_limits limits,
                                   struct err_list *errors)
{
    struct operations *out = ARENA_NEW(arena, struct operations);
    out->job = job;
    out->surfaces = surfaces;
    struct builder builder = {arena, job, out, limits, errors};
    struct spans spans = {ARENA_ARRAY(arena, job->piece_count, struct span),
                          ARENA_ARRAY(arena, job->task_count, struct span)};
    size_t before = errors->count;
    check_names(&builder);
    for (size_t i = 0; i < job->piece_count; i++) {
        struct span *span = &spans.pieces[i];
        span->from = out->count;
        span->firsts = ARENA_ARRAY(arena, job->schedule_count + 1, int);
        chain_emit_piece(&builder, i, span->firsts, &span->first_count);
        span->to = out->count;
    }
    for (size_t i = 0; i < job->task_count; i++)
        emit_task(&builder, i, &spans.tasks[i]);
    link_pieces_and_tasks(&builder, spans);
    return errors->count == before ? out : NULL;
}
