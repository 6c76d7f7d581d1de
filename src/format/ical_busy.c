#include "format/ical_busy.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/ical_event.h"

#include <stdlib.h>
#include <string.h>

enum { BUSY_MOST = 200000, RANGES_MOST = 50 };

struct told {
    const struct ical_event *event;
};

/* A calendar file while it is read. */
struct busy_reading {
    struct ical_reading in;
    const struct busy_window *window;
    struct busy_list *list;
    struct told *changes; /* of single occurrences, in the order of those */
    size_t change_count, change_capacity;
    struct told ranges[RANGES_MOST]; /* of all later ones, too; in the same order */
    size_t range_count;
    int64_t earlier, later;         /* how far these may move an occurrence, and how long it may last then */
    const struct ical_event *event; /* the one whose times are taken */
    bool full;
};

static bool add_busy(struct busy_reading *b, int64_t from, int64_t to)
{
    struct busy_list *list = b->list;
    if (to <= b->window->from_min || from >= b->window->to_min || to <= from)
        return true;
    if (list->count == BUSY_MOST) {
        busy_join(list);
        b->full = list->count > BUSY_MOST / 2;
    }
    if (b->full)
        return false;
    list->items =
        arena_grow(b->in.reading->arena, list->items, list->count, &list->capacity, sizeof *list->items);
    list->items[list->count++] = (struct busy_time){from, to};
    return true;
}

static int by_replaced(const void *a, const void *b)
{
    const struct ical_event *x = ((const struct told *)a)->event, *y = ((const struct told *)b)->event;
    return (x->replaces_min > y->replaces_min) - (x->replaces_min < y->replaces_min);
}

/* The first change at a moment or later. */
static size_t change_at(const struct busy_reading *b, int64_t minute)
{
    size_t low = 0, high = b->change_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (b->changes[middle].event->replaces_min < minute)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Whether another event of the same UID stands for the occurrence at a moment. */
static bool is_replaced(const struct busy_reading *b, int64_t minute)
{
    for (size_t i = change_at(b, minute); i < b->change_count && b->changes[i].event->replaces_min == minute;
         i++)
        if (strcmp(b->changes[i].event->uid, b->event->uid) == 0)
            return true;
    return false;
}

/* The last change of this and all later occurrences that reaches to a moment; NULL: none. */
static const struct ical_event *moved_by(const struct busy_reading *b, int64_t minute)
{
    for (size_t i = b->range_count; i > 0; i--)
        if (b->ranges[i - 1].event->replaces_min <= minute &&
            strcmp(b->ranges[i - 1].event->uid, b->event->uid) == 0)
            return b->ranges[i - 1].event;
    return NULL;
}

/* One occurrence of the event at hand, by its wall; its end where it has one of its own. */
static bool take(void *to, struct ical_occurrence occurrence)
{
    struct busy_reading *b = to;
    const struct ical_event *event = b->event;
    const struct ical_event *moved = event->change ? NULL : moved_by(b, occurrence.from_min);
    if (!event->change && (is_replaced(b, occurrence.from_min) || (moved && !moved->blocks)))
        return true;
    if (moved)
        occurrence = ical_moved(moved, occurrence);
    return add_busy(b, occurrence.from_min, ical_end_of(moved ? moved : event, &occurrence));
}

static bool read_event(struct busy_reading *b, const struct ical_event *event)
{
    int64_t longest = ical_longest(event) + DAY_MINUTES;
    struct ical_window window = {b->window->from_min - longest - b->later, b->window->to_min + b->earlier};
    b->event = event;
    b->list->events += event->blocks && !event->change;
    if (!event->blocks)
        return true;
    bool good = ical_occurrences(&b->in, event, window, (struct ical_sink){b, take});
    if (b->full)
        return ical_refuse(&b->in, event->component->at, "at most 100000 busy times");
    return good;
}

static bool note_change(struct busy_reading *b, const struct ical_event *event)
{
    if (!event->change)
        return true;
    b->changes = arena_grow(b->in.reading->arena, b->changes, b->change_count, &b->change_capacity,
                            sizeof *b->changes);
    b->changes[b->change_count++].event = event;
    return true;
}

static void note_ranges(struct busy_reading *b)
{
    for (size_t i = 0; i < b->change_count; i++) {
        const struct ical_event *change = b->changes[i].event;
        int64_t shift = change->start_min - change->replaces_min;
        int64_t later = (shift > 0 ? shift : 0) + ical_longest(change) + DAY_MINUTES;
        if (!change->future)
            continue;
        if (b->range_count == RANGES_MOST) {
            (void)ical_refuse(&b->in, change->component->at, "at most 50 changes of all later occurrences");
            return;
        }
        b->ranges[b->range_count++].event = change;
        b->later = later > b->later ? later : b->later;
        b->earlier = -shift > b->earlier ? -shift + DAY_MINUTES : b->earlier;
    }
}

/* `20270303T090000Z/PT3H,...` of FREEBUSY: everything but what is said to be free. */
static bool read_free_busy(struct busy_reading *b, const struct ical_component *component)
{
    struct arena *arena = b->in.reading->arena;
    const struct ical_property *p = ical_property_find(component->properties, "FREEBUSY");
    b->list->events += p != NULL;
    for (; p; p = ical_property_find(p->next, "FREEBUSY")) {
        const char *at = p->value;
        bool busy = !ical_parameter_is(arena, p, "FBTYPE", "FREE");
        for (bool more = true; more; at++) {
            struct ical_occurrence time;
            if (!ical_period_read(&b->in, p, b->in.shop_zone, &at, &time) || time.to_min == INT64_MIN)
                return ical_refuse(&b->in, p->at, "a value that FREEBUSY can have");
            if (busy && !add_busy(b, time.from_min, time.to_min))
                return ical_refuse(&b->in, p->at, "at most 100000 busy times");
            more = *at == ',';
        }
    }
    return true;
}

/* Every event of a calendar; reading goes on after a mistake. */
static struct told *read_calendar(struct busy_reading *b, const struct ical_component *calendar,
                                  size_t *count)
{
    size_t room = 0;
    *count = 0;
    for (const struct ical_component *c = calendar->children; c; c = c->next)
        room += strcmp(c->name, "VEVENT") == 0;
    struct told *events = ARENA_ARRAY(b->in.reading->arena, room, struct told);
    ical_begin_calendar(&b->in, calendar);
    for (const struct ical_component *c = calendar->children; c; c = c->next) {
        if (strcmp(c->name, "VFREEBUSY") == 0 && !b->in.cancelling)
            (void)read_free_busy(b, c);
        if (strcmp(c->name, "VEVENT") != 0)
            continue;
        struct ical_event *event = ical_event_read(&b->in, c);
        if (event && note_change(b, event))
            events[(*count)++].event = event;
    }
    return events;
}

bool busy_read(const struct reading *reading, const struct file_text *file, const struct busy_window *window,
               struct busy_list *list)
{
    size_t before = reading_mistakes(reading), count = 0, total = 0, capacity = 0;
    struct told *all = NULL;
    struct busy_reading b = {
        .in = {.reading = reading, .file = file, .shop_zone = window->zone, .steps = &list->steps},
        .window = window,
        .list = list};
    b.in.years = (struct zone_years){zone_wall(window->zone, window->from_min).year - 1,
                                     zone_wall(window->zone, window->to_min).year + 1};
    const struct ical_component *calendar = ical_text_read(reading, file);
    if (!calendar)
        return false;
    for (; calendar; calendar = calendar->next) {
        struct told *events = read_calendar(&b, calendar, &count);
        for (size_t i = 0; i < count; i++) {
            all = arena_grow(reading->arena, all, total, &capacity, sizeof *all);
            all[total++] = events[i];
        }
    }
    if (b.change_count > 1)
        qsort(b.changes, b.change_count, sizeof *b.changes, by_replaced);
    note_ranges(&b);
    for (size_t i = 0; i < total && reading_mistakes(reading) == before; i++)
        (void)read_event(&b, all[i].event);
    busy_join(list);
    return reading_mistakes(reading) == before;
}

static int by_begin(const void *a, const void *b)
{
    const struct busy_time *x = a, *y = b;
    if (x->from_min != y->from_min)
        return x->from_min < y->from_min ? -1 : 1;
    return (x->to_min > y->to_min) - (x->to_min < y->to_min);
}

void busy_join(struct busy_list *list)
{
    size_t kept = 0;
    if (list->count > 1)
        qsort(list->items, list->count, sizeof *list->items, by_begin);
    for (size_t i = 0; i < list->count; i++) {
        struct busy_time *last = kept ? &list->items[kept - 1] : NULL;
        if (last && list->items[i].from_min <= last->to_min)
            last->to_min = list->items[i].to_min > last->to_min ? list->items[i].to_min : last->to_min;
        else
            list->items[kept++] = list->items[i];
    }
    list->count = kept;
}

int64_t busy_minutes(const struct busy_list *list, int64_t from_min, int64_t to_min)
{
    int64_t minutes = 0;
    for (size_t i = 0; i < list->count; i++) {
        int64_t from = list->items[i].from_min > from_min ? list->items[i].from_min : from_min;
        int64_t to = list->items[i].to_min < to_min ? list->items[i].to_min : to_min;
        minutes += to > from ? to - from : 0;
    }
    return minutes;
}
