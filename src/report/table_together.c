#include "report/table_together.h"

#include "base/arena.h"
#include "base/moment.h"

static const char *moment_text(struct arena *arena, const struct timetable *timetable, int64_t minute)
{
    return minute == INT64_MAX
               ? "never"
               : arena_text(arena, moment_format(timetable->job->zone, minute, MOMENT_DAY_TIME).text);
}

/* The next in the order of delivery, those told already left out; equals in the order of the command line. */
static size_t next_due(const struct plan *const *plans, size_t count, const bool *told)
{
    size_t next = count;
    for (size_t i = 0; i < count; i++)
        if (!told[i] &&
            (next == count || plans[i]->timetable->deliver_min < plans[next]->timetable->deliver_min))
            next = i;
    return next;
}

void table_together(struct screen *screen, const struct plan *const *plans, size_t count)
{
    static const struct column columns[] = {{"job", ALIGN_LEFT, true},
                                            {"delivery", ALIGN_LEFT, false},
                                            {"ready", ALIGN_LEFT, false},
                                            {"in hand", ALIGN_RIGHT, false},
                                            {"late", ALIGN_RIGHT, false}};
    struct arena *arena = screen->out->arena;
    struct table table;
    if (plans[0]->timetable->status != TIMETABLE_PLANNED)
        return;
    bool *told = ARENA_ARRAY(arena, count, bool);
    table_init(&table, arena, columns, sizeof columns / sizeof columns[0]);
    for (size_t i = 0; i < count; i++) {
        size_t next = next_due(plans, count, told);
        const struct timetable *timetable = plans[next]->timetable;
        bool late = timetable->late_min > 0;
        const char *by =
            arena_text(arena, span_format(late ? timetable->late_min : timetable->spare_min).text);
        table_row(&table, (const char *[]){plans[next]->job->name,
                                           moment_text(arena, timetable, timetable->deliver_min),
                                           moment_text(arena, timetable, timetable->ready_min),
                                           late ? NULL : by, late ? by : NULL});
        told[next] = true;
    }
    screen_heading(screen, "Jobs by delivery");
    table_print(&table, screen, 2);
}
