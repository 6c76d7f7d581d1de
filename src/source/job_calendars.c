/* `busy`: calendars of the shop and of its people, read once start and delivery are known. */
#include "source/job_draft.h"

#include "base/arena.h"
#include "format/ical_busy.h"

/* Calendars are read from before the start, which may be tried as much earlier as plan/alternative_start.c does, until long
 * after the delivery: a plan may be late. */
enum { DAYS_BEFORE = 64, DAYS_AFTER = 3 * 366 };

/* One calendar on top of those before it. */
static void add_busy(struct job_draft *draft, const struct file_text *file, const struct busy_window *window,
                     struct busy_list *all, struct busy_file *told)
{
    const struct job *job = draft->job;
    struct busy_list own = {.steps = all->steps};
    struct arena *arena = draft->reading->arena;
    (void)busy_read(draft->reading, file, window, &own);
    all->steps = own.steps;
    for (size_t i = 0; i < own.count; i++) {
        all->items = arena_grow(arena, all->items, all->count, &all->capacity, sizeof *all->items);
        all->items[all->count++] = own.items[i];
    }
    busy_join(all);
    *told = (struct busy_file){file->name, own.events, busy_minutes(&own, job->start_min, job->deliver_min)};
}

static void read_calendars(struct job_draft *draft, struct json_at calendars,
                           const struct busy_window *window, struct busy_list *list, struct busy_file *told)
{
    if (!calendars.node || !json_list(calendars, "a list of calendar files"))
        return;
    for (struct json_at item = json_first(calendars); item.node; item = json_next(item)) {
        struct file_text file;
        if (named_load(item, draft->busy_rule, &file))
            add_busy(draft, &file, window, list, &told[draft->job->shop.busy_file_count++]);
    }
}

static const struct busy *busy_times(struct arena *arena, const struct busy_list *list)
{
    struct busy *busy = ARENA_ARRAY(arena, list->count, struct busy);
    for (size_t i = 0; i < list->count; i++)
        busy[i] = (struct busy){list->items[i].from_min, list->items[i].to_min};
    return busy;
}

/* Each person's own calendars, on top of the shop's. */
static void read_own_calendars(struct job_draft *draft, const struct busy_window *window,
                               const struct busy_list *shared, struct busy_file *told)
{
    struct shop *shop = &draft->job->shop;
    struct arena *arena = draft->reading->arena;
    struct json_at item = json_first(draft->people);
    if (!shop->crew)
        return;
    struct person *crew = ARENA_ARRAY(arena, (size_t)shop->people, struct person);
    for (int i = 0; i < shop->people; i++, item = json_next(item)) {
        struct busy_list own = {.steps = shared->steps};
        for (size_t k = 0; k < shared->count; k++) {
            own.items = arena_grow(arena, own.items, own.count, &own.capacity, sizeof *own.items);
            own.items[own.count++] = shared->items[k];
        }
        crew[i] = shop->crew[i];
        read_calendars(draft, json_member(item, "busy"), window, &own, told);
        crew[i].busy = busy_times(arena, &own);
        crew[i].busy_count = own.count;
    }
    shop->crew = crew;
}

void job_read_calendars(struct job_draft *draft)
{
    struct job *job = draft->job;
    struct arena *arena = draft->reading->arena;
    int64_t last = job->deliver_min > job->start_min ? job->deliver_min : job->start_min;
    struct busy_window window = {job->zone, job->start_min - (int64_t)DAYS_BEFORE * DAY_MINUTES,
                                 last + (int64_t)DAYS_AFTER * DAY_MINUTES};
    struct busy_list list = {.items = NULL};
    size_t files = draft->busy.node ? json_size(draft->busy) : 0;
    struct json_at people = draft->job->shop.crew ? draft->people : (struct json_at){0};
    for (struct json_at item = json_first(people); item.node; item = json_next(item))
        files += json_has(item, "busy") ? json_size(json_member(item, "busy")) : 0;
    struct busy_file *told = ARENA_ARRAY(arena, files + 1, struct busy_file);
    read_calendars(draft, draft->busy, &window, &list, told);
    job->shop.busy = busy_times(arena, &list);
    job->shop.busy_count = list.count;
    read_own_calendars(draft, &window, &list, told);
    job->shop.busy_files = told;
}
