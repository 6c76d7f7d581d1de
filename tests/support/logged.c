#include "logged.h"

#include "timetable/facts.h"

struct logged *logged_make(void)
{
    struct arena *arena = arena_make(0);
    struct logged *logged = ARENA_NEW(arena, struct logged);
    logged->arena = arena;
    hand_work(&logged->work);
    panel_add_piece(&logged->work.panel);
    logged->work.panel.job.now_min = march(3, 12, 0);
    logged->work.panel.job.log = (struct log){.file = "test.log", .entries = logged->entries};
    return logged;
}

void logged_free(struct logged *logged)
{
    arena_free(logged->arena);
}

int logged_add(struct logged *logged, const char *id, int piece, enum doing doing, int32_t minutes)
{
    hand_add(&logged->work, piece, doing, minutes)->id = id;
    return (int)logged->work.operations.count - 1;
}

struct log_entry *logged_done(struct logged *logged, const char *step, int64_t began_min, int64_t done_min)
{
    struct log_entry *entry = &logged->entries[logged->work.panel.job.log.count++];
    *entry = (struct log_entry){.number = entry - logged->entries + 1,
                                .step = step,
                                .began_min = began_min,
                                .done_min = done_min,
                                .used_l = -1};
    return entry;
}

const struct operations *logged_settle(struct logged *logged)
{
    return facts_settle(logged->arena, &logged->work.operations);
}

struct logged *logged_rows(void)
{
    struct logged *logged = logged_make();
    logged_add(logged, "a/oil/0/sand-180", 0, DO_SAND, 30);
    logged_add(logged, "a/oil/1/apply", 0, DO_APPLY, 60);
    logged_add(logged, "a/oil/1/sand-180", 0, DO_SAND, 30);
    logged_add(logged, "a/oil/2/apply", 0, DO_APPLY, 60);
    logged_add(logged, "a/oil/2/polish", 0, DO_POLISH, 10);
    logged_add(logged, "b/oil-b/1/apply", 1, DO_APPLY, 60);
    return logged;
}
