#include "timetable/timetable.h"

#include "base/arena.h"

#include <string.h>

/* Without batches: once for each coat of a row, its first pass; on a piece of two sides the back's. */
static const bool *tool_losses(struct arena *arena, const struct operations *operations)
{
    bool *losses = ARENA_ARRAY(arena, operations->count, bool);
    for (size_t i = 0; i < operations->count; i++) {
        const struct operation *operation = &operations->items[i];
        losses[i] = operation->doing == DO_APPLY;
        for (size_t k = i; k > 0 && losses[i]; k--) {
            const struct operation *earlier = &operations->items[k - 1];
            if (earlier->chain != operation->chain)
                break;
            losses[i] = earlier->doing != DO_APPLY || earlier->schedule != operation->schedule ||
                        earlier->coat != operation->coat;
        }
    }
    return losses;
}

struct timetable *timetable_blank(struct arena *arena, const struct operations *operations)
{
    struct timetable *timetable = ARENA_NEW(arena, struct timetable);
    timetable->job = operations->job;
    timetable->operations = operations;
    timetable->start_min = operations->job->start_min;
    timetable->deliver_min = operations->job->deliver_min;
    timetable->ready_min = timetable->no_earlier_than_min = INT64_MAX;
    timetable->tool_loss = tool_losses(arena, operations);
    return timetable;
}

size_t timetable_step_of(const struct timetable *timetable, const struct operation *operation)
{
    for (size_t i = 0; i < timetable->step_count; i++)
        if (timetable->steps[i].operation == operation)
            return i;
    return SIZE_MAX;
}

const struct timetable_step *timetable_find(const struct timetable *timetable, const char *id)
{
    for (size_t i = 0; i < timetable->step_count; i++)
        if (strcmp(timetable->steps[i].operation->id, id) == 0)
            return &timetable->steps[i];
    return NULL;
}
