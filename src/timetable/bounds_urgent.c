/* Items of one kind that a moment by which the work must end keeps out of one another's batches. */
#include "base/arena.h"
#include "timetable/bounds_kinds.h"

#include <stdlib.h>

struct urgent {
    int32_t last;
    int item;
};

static int rising(const void *a, const void *b)
{
    const struct urgent *left = a, *right = b;
    if (left->last != right->last)
        return left->last < right->last ? -1 : 1;
    return left->item - right->item;
}

static bool may_join(const struct counting *c, const struct tally *tally, int item, const int *row,
                     size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (kind_two_fit(c, tally, row[i], item))
            return true;
    return false;
}

/* The most urgent first, then the most urgent of those that fit with none before (of intervals this finds most of them). */
size_t kind_row_in_time(const struct counting *c, const struct tally *tally, int *row)
{
    struct urgent *urgent = ARENA_ARRAY(c->arena, tally->count, struct urgent);
    size_t count = 0, timed = 0;
    for (size_t i = 0; i < tally->count; i++) {
        int item = tally->items[i];
        if (c->site->rows[item].operation->units.seconds > 0)
            urgent[timed++] = (struct urgent){c->windows.last[item], item};
    }
    qsort(urgent, timed, sizeof *urgent, rising);
    for (size_t i = 0; i<timed && * c->left> 0; i++)
        if (!may_join(c, tally, urgent[i].item, row, count))
            row[count++] = urgent[i].item;
    return count;
}

/* One of the row is in each batch, and another item in the only one of these batches whose own it fits with. */
void kind_group(const struct counting *c, const struct tally *tally, const int *row, size_t count)
{
    for (size_t i = 0; i < tally->count; i++) {
        int item = tally->items[i], found = SITE_NONE;
        bool many = count == 0 || c->site->rows[item].operation->units.seconds == 0;
        for (size_t k = 0; k < count && !many; k++) {
            if (count > 1 && row[k] != item && !kind_two_fit(c, tally, row[k], item))
                continue;
            many = found != SITE_NONE;
            found = (int)k;
        }
        c->group[item] = many ? SITE_NONE : found;
    }
}
