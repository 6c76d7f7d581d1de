/* `busy`: calendars of the shop and of its people, read once start and delivery are known. */
#include "source/job_draft.h"

#include "base/arena.h"
#include "format/ical_busy.h"
#include "format/ical_times.h"

/* Calendars are read from before the start, which may be tried as much earlier as plan/alternative_start.c does, until long
 * after the delivery: a plan may be late. */
enum { DAYS_BEFORE = 64, DAYS_AFTER = 3 * 366 };

/* The calendars while they are read. */
struct calendars {
    struct job_draft *draft;
    struct busy_window window;
    struct busy_file *told;
};

/* One calendar on top of those before it. */
static void add_busy(const struct calendars *calendars, const struct file_text *file, struct busy_list *all,
                     struct busy_file *told)
{
    const struct job *job = calendars->draft->job;
    struct busy_list own = {.steps = all->steps};
    struct arena *arena = calendars->draft->reading->arena;
    (void)busy_read(calendars->draft->reading, file, &calendars->window, &own);
    all->steps = own.steps;
    for (size_t i = 0; i < own.count; i++) {
        all->items = arena_grow(arena, all->items, all->count, &all->capacity, sizeof *all->items);
        all->items[all->count++] = own.items[i];
    }
    busy_join(all);
    told->file = file->name;
    told->events = own.events;
    told->busy_min = busy_minutes(&own, job->start_min, job->deliver_min);
}

/* What was fetched may be of another time than the job's. */
static void check_stamp(const struct calendars *calendars, struct json_at at, const struct file_text *file,
                        struct busy_file *told)
{
    const struct job *job = calendars->draft->job;
    struct ical_stamp stamp;
    if (!ical_stamp_read(calendars->draft->reading->arena, file, &stamp))
        return;
    told->fetched_min = stamp.at_min;
    if (stamp.from_min > job->start_min || stamp.to_min < job->deliver_min)
        json_warn(
            at, "%s was fetched for %s to %s, not for all of the time of this job: coatwright fetch-busy %s",
            file->name, moment_format(job->zone, stamp.from_min, MOMENT_DATE).text,
            moment_format(job->zone, stamp.to_min, MOMENT_DATE).text, job->file);
}

static bool load_fetched(const struct calendars *calendars, struct json_at at, const char *path,
                         struct file_text *file)
{
    const struct job_draft *draft = calendars->draft;
    struct arena *arena = draft->reading->arena;
    struct err fault;
    *file = (struct file_text){.name = path};
    if (reading_missing(draft->reading, path))
        return json_refuse_found(
            at, arena_textf(arena, "a calendar that was fetched: coatwright fetch-busy %s", draft->job->file),
            arena_textf(arena, "no %s", path));
    return reading_load(draft->reading, &draft->busy_rule, path, file, &fault) ||
           json_refuse_file(at, &fault);
}

/* A calendar on a server, by what was fetched of it last. */
static void read_fetched(struct calendars *calendars, struct json_at at, struct busy_list *list)
{
    struct busy_file *told = &calendars->told[calendars->draft->job->shop.busy_file_count];
    struct file_text file;
    const char *path;
    if (!busy_path(at, calendars->draft->busy_rule, &path))
        return;
    *told = (struct busy_file){.file = path, .address = at.node->text, .fetched_min = INT64_MIN};
    if (!calendars->draft->fetching) {
        if (!load_fetched(calendars, at, path, &file))
            return;
        add_busy(calendars, &file, list, told);
        check_stamp(calendars, at, &file, told);
    }
    calendars->draft->job->shop.busy_file_count++;
}

static void read_calendars(struct calendars *calendars, struct json_at names, struct busy_list *list)
{
    struct job_draft *draft = calendars->draft;
    if (!names.node || !json_list(names, "a list of calendars: files, or addresses"))
        return;
    for (struct json_at item = json_first(names); item.node; item = json_next(item)) {
        struct file_text file;
        if (busy_is_address(item))
            read_fetched(calendars, item, list);
        else if (named_load(item, draft->busy_rule, &file))
            add_busy(calendars, &file, list, &calendars->told[draft->job->shop.busy_file_count++]);
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
static void read_own_calendars(struct calendars *calendars, const struct busy_list *shared)
{
    const struct job_draft *draft = calendars->draft;
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
        read_calendars(calendars, json_member(item, "busy"), &own);
        crew[i].busy = busy_times(arena, &own);
        crew[i].busy_count = own.count;
    }
    shop->crew = crew;
}

static size_t calendar_count(const struct job_draft *draft)
{
    size_t count = draft->busy.node ? json_size(draft->busy) : 0;
    struct json_at people = draft->job->shop.crew ? draft->people : (struct json_at){0};
    for (struct json_at item = json_first(people); item.node; item = json_next(item))
        count += json_has(item, "busy") ? json_size(json_member(item, "busy")) : 0;
    return count;
}

void job_read_calendars(struct job_draft *draft)
{
    struct job *job = draft->job;
    struct shop *shop = &job->shop;
    struct arena *arena = draft->reading->arena;
    int64_t last = job->deliver_min > job->start_min ? job->deliver_min : job->start_min;
    struct busy_list list = {.items = NULL};
    shop->busy_from_min = job->start_min - (int64_t)DAYS_BEFORE * DAY_MINUTES;
    shop->busy_to_min = last + (int64_t)DAYS_AFTER * DAY_MINUTES;
    struct calendars calendars = {draft,
                                  {job->zone, shop->busy_from_min, shop->busy_to_min},
                                  ARENA_ARRAY(arena, calendar_count(draft) + 1, struct busy_file)};
    read_calendars(&calendars, draft->busy, &list);
    shop->busy = busy_times(arena, &list);
    shop->busy_count = list.count;
    read_own_calendars(&calendars, &list);
    shop->busy_files = calendars.told;
}
