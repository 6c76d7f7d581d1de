#include "timetable/timetable.h"

#include "base/arena.h"

#include <string.h>

enum { SIDES_MOST = 2 };

static bool same_coat(const struct operation *a, const struct operation *b)
{
    return b->doing == DO_APPLY && a->chain == b->chain && a->schedule == b->schedule && a->coat == b->coat;
}

/* Without batches: what stays in the tool once is shared by the sides of a coat. */
static const double *loss_shares(struct arena *arena, const struct operations *operations)
{
    double *shares = ARENA_ARRAY(arena, operations->count, double);
    const struct operation *items = operations->items;
    for (size_t i = 0; i < operations->count; i++) {
        const struct operation *sides[SIDES_MOST] = {&items[i]};
        size_t at[SIDES_MOST] = {i}, count = 1;
        if (items[i].doing != DO_APPLY || shares[i] > 0)
            continue;
        for (size_t k = i + 1; k < operations->count && items[k].chain == items[i].chain; k++)
            if (same_coat(&items[i], &items[k]) && count < SIDES_MOST) {
                at[count] = k;
                sides[count++] = &items[k];
            }
        double share[SIDES_MOST];
        operations_share_loss(sides, count, share);
        for (size_t k = 0; k < count; k++)
            shares[at[k]] = share[k];
    }
    return shares;
}

struct timetable *timetable_blank(struct arena *arena, const struct operations *operations)
{
    struct timetable *timetable = ARENA_NEW(arena, struct timetable);
    timetable->job = operations->job;
    timetable->operations = operations;
    timetable->start_min = operations->job->start_min;
    timetable->deliver_min = operations->job->deliver_min;
    timetable->ready_min = timetable->no_earlier_than_min = INT64_MAX;
    timetable->loss_share = loss_shares(arena, operations);
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
