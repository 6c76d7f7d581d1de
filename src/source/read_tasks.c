#include "source/read_job_parts.h"

#include "base/arena.h"

#include <string.h>

static void read_task_name(struct job_draft *draft, struct json_at at)
{
    const char *name = "";
    size_t piece;
    bool added;
    if (!json_is_object(at) || !json_text(json_member(at, "task"), "words for the task", &name))
        name = arena_textf(draft->reading->arena, "\n%zu", draft->tasks.count); /* no word can name it */
    if (names_find(&draft->pieces, name, &piece))
        json_refuse(json_member(at, "task"), "a name that no piece has");
    names_add(&draft->tasks, name, &added);
    if (!added) {
        json_refuse(json_member(at, "task"), "a name that no other task has");
        names_add(&draft->tasks, arena_textf(draft->reading->arena, "\n%zu", draft->tasks.count), &added);
    }
}

void job_read_task_names(struct job_draft *draft)
{
    struct json_at list = json_member(draft->root, "tasks");
    if (list.node && json_list(list, "a list of tasks"))
        for (struct json_at item = json_first(list); item.node; item = json_next(item))
            read_task_name(draft, item);
}

/* A copy of an array with one more item at its end. */
static void *longer(struct arena *arena, const void *items, size_t count, size_t size, const void *item)
{
    char *copy = arena_alloc(arena, count + 1, size);
    if (count)
        memcpy(copy, items, count * size);
    memcpy(copy + count * size, item, size);
    return copy;
}

/* What waits for a task: a piece in the task's own list, a task by that task's `after`. */
static void add_before(const struct job_draft *draft, struct task *tasks, size_t task, struct after waits)
{
    struct arena *arena = draft->reading->arena;
    struct task *now = &tasks[task], *later = &tasks[waits.index];
    struct after after = {.is_task = true, .index = task, .state = STATE_HANDLE};
    if (waits.is_task)
        later->after = longer(arena, later->after, later->after_count++, sizeof after, &after);
    else
        now->before = longer(arena, now->before, now->before_count++, sizeof waits.index, &waits.index);
}

static void read_before(const struct job_draft *draft, struct json_at list, struct task *tasks, size_t task)
{
    if (!json_list(list, "a list of pieces and tasks"))
        return;
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        struct after waits;
        const char *text;
        if (!json_text(item, "a piece or a task of this job", &text))
            continue;
        if (job_name_find(draft, text, &waits))
            add_before(draft, tasks, task, waits);
        else if (draft->parts_known)
            job_refuse_name(draft, item);
    }
}

static void read_task(const struct job_draft *draft, struct json_at at, struct task *tasks, size_t i)
{
    static const char *const keys[] = {"task", "takes", "after", "before"};
    if (!json_object(at, "a task", keys, sizeof keys / sizeof keys[0]))
        return;
    json_span(json_member(at, "takes"), &tasks[i].takes_min);
    if (json_has(at, "after")) {
        const struct after *after = NULL;
        size_t count = job_read_after(draft, json_member(at, "after"), &after);
        for (size_t k = 0; k < count; k++)
            tasks[i].after = longer(draft->reading->arena, tasks[i].after, tasks[i].after_count++,
                                    sizeof *after, &after[k]);
    }
    if (json_has(at, "before"))
        read_before(draft, json_member(at, "before"), tasks, i);
}

void job_read_tasks(struct job_draft *draft)
{
    struct json_at list = json_member(draft->root, "tasks");
    size_t i = 0;
    struct task *tasks = ARENA_ARRAY(draft->reading->arena, draft->tasks.count, struct task);
    for (; i < draft->tasks.count; i++)
        tasks[i].name = draft->tasks.items[i];
    draft->job->tasks = tasks;
    draft->job->task_count = draft->tasks.count;
    i = 0;
    for (struct json_at item = json_first(list); item.node && i < draft->tasks.count; item = json_next(item))
        read_task(draft, item, tasks, i++);
}
