#include "job/log.h"

#include "base/arena.h"

/* The entry of a number before another; SIZE_MAX: none. Numbers rise, but for a log that somebody has edited. */
static size_t find_before(const struct log *log, size_t before, int64_t number)
{
    for (size_t i = before; i-- > 0;)
        if (log->entries[i].number == number)
            return i;
    return SIZE_MAX;
}

bool *log_holding(struct arena *arena, const struct log *log)
{
    bool *holding = ARENA_ARRAY(arena, log->count + 1, bool);
    for (size_t i = 0; i < log->count; i++)
        holding[i] = true;
    for (size_t i = log->count; i-- > 0;) {
        if (log->entries[i].kind != LOG_UNDO)
            continue;
        size_t taken_back = holding[i] ? find_before(log, i, log->entries[i].undone) : SIZE_MAX;
        if (taken_back != SIZE_MAX)
            holding[taken_back] = false;
        holding[i] = false;
    }
    return holding;
}
