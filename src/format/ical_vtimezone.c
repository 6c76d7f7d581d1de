#include "format/ical_vtimezone.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/number.h"
#include "format/ical_rule.h"

#include <stdlib.h>
#include <string.h>

enum { ONSETS_MOST = 2000, ZONE_STEPS = 400000 };

/* A moment from which an offset holds. */
struct onset {
    int64_t minute;
    int before, after;
};

/* The observances of a zone while they are followed. */
struct onsets {
    struct arena *arena;
    struct onset *items;
    size_t count, capacity;
    int before, after; /* of the observance at hand */
    int64_t until_min; /* of its rule */
};

static bool add_onset(struct onsets *onsets, struct ical_time wall)
{
    int64_t minute = wall.day * DAY_MINUTES + wall.minute - onsets->before;
    if (minute > onsets->until_min || onsets->count == ONSETS_MOST)
        return false;
    onsets->items =
        arena_grow(onsets->arena, onsets->items, onsets->count, &onsets->capacity, sizeof *onsets->items);
    onsets->items[onsets->count++] = (struct onset){minute, onsets->before, onsets->after};
    return true;
}

static bool take_onset(void *to, struct ical_time start)
{
    return add_onset(to, start);
}

/* UNTIL is in UTC here, or on the clock before the change. */
static int64_t until_of(const struct onsets *onsets, const struct ical_rule *rule)
{
    if (!rule->ends)
        return INT64_MAX;
    return rule->until.day * DAY_MINUTES + (rule->until.date ? DAY_MINUTES - 1 : rule->until.minute) -
           (rule->until.utc ? 0 : onsets->before);
}

static bool follow_rules(struct onsets *onsets, const struct ical_component *observance,
                         struct ical_time begin, int64_t last_day, int64_t *steps)
{
    const struct ical_property *property = ical_property_find(observance->properties, "RRULE");
    for (; property; property = ical_property_find(property->next, "RRULE")) {
        struct ical_rule rule;
        const char *expected;
        if (!ical_rule_read(property->value, &rule, &expected) || rule.frequency != ICAL_YEARLY)
            return false;
        onsets->until_min = until_of(onsets, &rule);
        if (!ical_rule_walk(&rule, begin, begin.day, last_day, (struct ical_taker){onsets, take_onset},
                            steps))
            return false;
    }
    onsets->until_min = INT64_MAX;
    return true;
}

static bool add_dates(struct onsets *onsets, const struct ical_component *observance)
{
    const struct ical_property *property = ical_property_find(observance->properties, "RDATE");
    for (; property; property = ical_property_find(property->next, "RDATE")) {
        const char *at = property->value;
        for (bool more = true; more; at++) {
            struct ical_time time;
            if (!ical_time_read(at, &time, &at) || !add_onset(onsets, time))
                return false;
            more = *at == ',';
        }
    }
    return true;
}

static const char *value_of(const struct ical_component *component, const char *name)
{
    const struct ical_property *property = ical_property_find(component->properties, name);
    return property ? property->value : "";
}

static bool read_observance(struct onsets *onsets, const struct ical_component *observance, int64_t last_day,
                            int64_t *steps)
{
    struct ical_time begin;
    const char *next;
    if (!ical_time_read(value_of(observance, "DTSTART"), &begin, &next) ||
        !ical_offset_read(value_of(observance, "TZOFFSETFROM"), &onsets->before) ||
        !ical_offset_read(value_of(observance, "TZOFFSETTO"), &onsets->after))
        return false;
    onsets->until_min = INT64_MAX;
    return add_onset(onsets, begin) && add_dates(onsets, observance) &&
           follow_rules(onsets, observance, begin, last_day, steps) && onsets->count < ONSETS_MOST;
}

static int by_minute(const void *a, const void *b)
{
    const struct onset *x = a, *y = b;
    return (x->minute > y->minute) - (x->minute < y->minute);
}

const struct zone *ical_zone_read(struct arena *arena, const struct ical_component *component,
                                  struct zone_years years, int64_t *steps)
{
    struct onsets onsets = {.arena = arena};
    int64_t own = *steps < ZONE_STEPS ? *steps : ZONE_STEPS, left = own;
    int64_t last_day = date_days((struct date){years.last + 1, 1, 1});
    bool good = true;
    for (const struct ical_component *c = component->children; c && good; c = c->next)
        good = read_observance(&onsets, c, last_day, &left);
    *steps -= own - left;
    if (!good || onsets.count == 0)
        return NULL;
    qsort(onsets.items, onsets.count, sizeof *onsets.items, by_minute);
    struct zone_table table;
    zone_begin(&table, arena, value_of(component, "TZID"), onsets.items[0].before);
    for (size_t i = 0; i < onsets.count; i++)
        zone_add(&table, onsets.items[i].minute, onsets.items[i].after);
    return table.zone;
}

bool ical_zone_is_utc(const struct zone *zone)
{
    static const char *const names[] = {"UTC",      "Etc/UTC", "Etc/UCT",   "Etc/Universal",
                                        "Etc/Zulu", "UCT",     "Universal", "Zulu"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strcmp(zone->name, names[i]) == 0)
            return true;
    return zone->count == 0;
}

/* A change as the wall before it shows it. */
struct turn {
    int64_t minute;
    int before, after; /* minutes to UTC */
    struct date date;
    int of_day; /* minute */
    enum weekday weekday;
    bool last, written; /* its weekday is the month's last */
};

static struct turn turn_of(const struct zone *zone, size_t i)
{
    const struct zone_change *change = &zone->changes[i];
    struct turn turn = {change->from_min,
                        zone->changes[i - 1].offset_min,
                        change->offset_min,
                        {0, 0, 0},
                        0,
                        MONDAY,
                        false,
                        false};
    int64_t wall = change->from_min + turn.before, day = number_floor_div(wall, DAY_MINUTES);
    turn.date = date_of(day);
    turn.of_day = (int)(wall - day * DAY_MINUTES);
    turn.weekday = weekday_of(day);
    turn.last = turn.date.day + 7 > month_days(turn.date.year, turn.date.month);
    return turn;
}

static int ordinal(const struct turn *turn)
{
    return (turn->date.day - 1) / 7 + 1;
}

/* Whether it is the same change a number of years later, its place in the month apart. */
static bool comes_back(const struct turn *first, const struct turn *other, int years)
{
    return other->date.year == first->date.year + years && other->date.month == first->date.month &&
           other->weekday == first->weekday && other->of_day == first->of_day &&
           other->before == first->before && other->after == first->after;
}

/* The changes that a yearly rule gives from one on: how many, and the place of its weekday in the month; 1: no rule. */
static size_t row_of(struct turn *turns, size_t count, size_t first, int *place)
{
    int years = 1;
    bool last = turns[first].last, same = true;
    size_t found = 1;
    for (size_t i = first + 1; i < count; i++) {
        bool still_last = last && turns[i].last,
             still_same = same && ordinal(&turns[i]) == ordinal(&turns[first]);
        if (turns[i].written || !comes_back(&turns[first], &turns[i], years))
            continue;
        if (!still_last && !still_same)
            break;
        last = still_last;
        same = still_same;
        turns[i].written = true;
        years++;
        found++;
    }
    *place = same ? ordinal(&turns[first]) : -1;
    return found;
}

static void add_offset(struct buf *out, const char *name, int minutes)
{
    int size = minutes < 0 ? -minutes : minutes;
    buf_addf(out, "%s:%c%02d%02d\r\n", name, minutes < 0 ? '-' : '+', size / 60, size % 60);
}

static void add_wall(struct buf *out, struct date date, int minute)
{
    buf_addf(out, "%04d%02d%02dT%02d%02d00", date.year, date.month, date.day, minute / 60, minute % 60);
}

/* One observance; `rule` NULL: it begins once. */
static void add_observance(struct buf *out, const struct turn *turn, bool summer, const char *rule)
{
    const char *kind = summer ? "DAYLIGHT" : "STANDARD";
    buf_addf(out, "BEGIN:%s\r\nDTSTART:", kind);
    add_wall(out, turn->date, turn->of_day);
    buf_add(out, "\r\n");
    add_offset(out, "TZOFFSETFROM", turn->before);
    add_offset(out, "TZOFFSETTO", turn->after);
    if (rule)
        buf_addf(out, "RRULE:%s\r\n", rule);
    buf_addf(out, "END:%s\r\n", kind);
}

/* A rule for all changes of a row; it ends only where the row ends before the last of all. */
static const char *rule_of(struct arena *arena, const struct turn *first, int place, const struct turn *end)
{
    static const char *const days[] = {"MO", "TU", "WE", "TH", "FR", "SA", "SU"};
    struct buf rule;
    buf_init(&rule, arena);
    buf_addf(&rule, "FREQ=YEARLY;BYMONTH=%d;BYDAY=%d%s", first->date.month, place, days[first->weekday]);
    if (end) {
        int64_t day = number_floor_div(end->minute, DAY_MINUTES);
        buf_add(&rule, ";UNTIL=");
        add_wall(&rule, date_of(day), (int)(end->minute - day * DAY_MINUTES));
        buf_add_char(&rule, 'Z');
    }
    return rule.text;
}

static void add_turns(struct buf *out, struct turn *turns, size_t count)
{
    int least = INT32_MAX;
    for (size_t i = 0; i < count; i++) {
        least = turns[i].before < least ? turns[i].before : least;
        least = turns[i].after < least ? turns[i].after : least;
    }
    for (size_t i = 0; i < count; i++) {
        int place;
        if (turns[i].written)
            continue;
        size_t row = row_of(turns, count, i, &place);
        const struct turn *end = &turns[i];
        bool open = true;
        for (size_t k = i + 1; k < count; k++) {
            int years = turns[k].date.year - turns[i].date.year;
            if (comes_back(&turns[i], &turns[k], years) && years < (int)row)
                end = &turns[k];
            else if (turns[k].before == turns[i].before && turns[k].after == turns[i].after)
                open = false;
        }
        add_observance(out, &turns[i], turns[i].after > least,
                       row > 1 ? rule_of(out->arena, &turns[i], place, open ? NULL : end) : NULL);
    }
}

void ical_zone_write(struct buf *out, const struct zone *zone, int64_t from_min, int64_t to_min)
{
    struct turn *turns = ARENA_ARRAY(out->arena, zone->count, struct turn);
    size_t count = 0, first = 1;
    if (ical_zone_is_utc(zone))
        return;
    while (first + 1 < zone->count && zone->changes[first + 1].from_min <= from_min)
        first++;
    for (size_t i = first; i < zone->count && zone->changes[i].from_min <= to_min; i++)
        turns[count++] = turn_of(zone, i);
    buf_addf(out, "BEGIN:VTIMEZONE\r\nTZID:%s\r\n", zone->name);
    if (count == 0) {
        int offset = zone->changes[0].offset_min;
        struct turn always = {0, offset, offset, {1970, 1, 1}, 0, THURSDAY, false, false};
        add_observance(out, &always, false, NULL);
    }
    add_turns(out, turns, count);
    buf_add(out, "END:VTIMEZONE\r\n");
}
