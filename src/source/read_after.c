#include "source/read_job_parts.h"

#include "base/arena.h"

#include <string.h>

bool job_name_find(const struct job_draft *draft, const char *name, struct after *after)
{
    after->is_task = false;
    if (names_find(&draft->pieces, name, &after->index))
        return true;
    after->is_task = true;
    return names_find(&draft->tasks, name, &after->index);
}

/* `case handle`: the last word is a state if it is one; a name that ends in such a word is still found whole. */
static bool find_after(const struct job_draft *draft, const char *text, struct after *after)
{
    const char *space = strrchr(text, ' ');
    after->state = STATE_HANDLE;
    if (space && finish_state_find(space + 1, &after->state)) {
        size_t length = (size_t)(space - text);
        const char *name =
            text_trimmed(draft->reading->arena, arena_text_n(draft->reading->arena, text, length));
        if (job_name_find(draft, name, after))
            return true;
        after->state = STATE_HANDLE;
    }
    return job_name_find(draft, text, after);
}

/* Every name that may be meant, pieces first. */
static const char **all_names(const struct job_draft *draft, size_t *count)
{
    *count = draft->pieces.count + draft->tasks.count;
    const char **names = ARENA_ARRAY(draft->reading->arena, *count, const char *);
    for (size_t i = 0; i < *count; i++)
        names[i] =
            i < draft->pieces.count ? draft->pieces.items[i] : draft->tasks.items[i - draft->pieces.count];
    return names;
}

void job_refuse_name(const struct job_draft *draft, struct json_at at)
{
    size_t count;
    if (list_full(draft->reading->errors))
        return;
    const char **names = all_names(draft, &count);
    json_refuse_name(at, "a piece or a task of this job", names, count);
}

size_t job_read_after(const struct job_draft *draft, struct json_at list, const struct after **to)
{
    size_t count = 0;
    if (!json_list(list, "a list of pieces and tasks"))
        return 0;
    struct after *after = ARENA_ARRAY(draft->reading->arena, json_size(list), struct after);
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        const char *text;
        if (!json_text(item, "a piece or a task of this job", &text))
            continue;
        if (find_after(draft, text, &after[count]))
            count++;
        else if (draft->parts_known)
            job_refuse_name(draft, item);
    }
    *to = after;
    return count;
}
