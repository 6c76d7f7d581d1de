#include "source/read_shop_parts.h"

#include "base/arena.h"
#include "base/measure.h"

#include <stdlib.h>

/* An entry as written. */
enum { COLDEST_C = -40, HOTTEST_C = 60 };

struct entry {
    bool dated;
    int64_t day;
    struct air_spell spell;
    struct json_at at;
};

static bool read_date(struct json_at at, int64_t *day)
{
    struct err fault;
    struct date date;
    const char *text;
    if (!json_text(at, "a day such as \"2027-03-05\"", &text))
        return false;
    if (!date_parse(text, &date, &fault))
        return json_refuse(at, fault.expected);
    *day = date_days(date);
    return true;
}

static bool read_time(struct json_at at, int *minute)
{
    struct err fault;
    const char *text;
    if (!json_text(at, "a time of day such as \"07:00\"", &text))
        return false;
    return time_parse(text, false, minute, &fault) || json_refuse(at, fault.expected);
}

/* Far beyond what a finish bears either way: what is outside is a slip of the pen. */
static bool read_temperature(struct json_at at, double *celsius)
{
    if (!json_quantity(at, temperature_parse, celsius))
        return false;
    return (*celsius >= COLDEST_C && *celsius <= HOTTEST_C) ||
           json_refuse(at, "the temperature of a workshop, -40 C to 60 C");
}

static bool read_humidity(struct json_at at, double *humidity)
{
    if (!json_quantity(at, share_parse, humidity))
        return false;
    return *humidity <= 1 || json_refuse(at, "a humidity of at most 100 %");
}

static bool read_entry(struct json_at at, struct entry *entry)
{
    static const char *const keys[] = {"on", "from", "temperature", "humidity"};
    if (!json_object(at, "an entry of the air", keys, 4))
        return false;
    entry->at = at;
    entry->dated = json_has(at, "on");
    bool good = !entry->dated || read_date(json_member(at, "on"), &entry->day);
    good &= read_time(json_member(at, "from"), &entry->spell.from_min);
    good &= read_temperature(json_member(at, "temperature"), &entry->spell.air.temperature_c);
    good &= read_humidity(json_member(at, "humidity"), &entry->spell.air.humidity);
    return good;
}

/* The daily round first, then by day and time. */
static int by_time(const void *a, const void *b)
{
    const struct entry *x = a, *y = b;
    if (x->dated != y->dated)
        return x->dated ? 1 : -1;
    if (x->day != y->day)
        return x->day < y->day ? -1 : 1;
    return (x->spell.from_min > y->spell.from_min) - (x->spell.from_min < y->spell.from_min);
}

static bool same_day(const struct entry *a, const struct entry *b)
{
    return a->dated == b->dated && a->day == b->day;
}

/* One day's spells from the front of the entries; gives how many those were. */
static size_t take_day(struct arena *arena, const struct entry *entries, size_t count, struct air_day *day)
{
    size_t n = 1;
    while (n < count && same_day(&entries[0], &entries[n]))
        n++;
    struct air_spell *spells = ARENA_ARRAY(arena, n, struct air_spell);
    for (size_t i = 0; i < n; i++) {
        spells[i] = entries[i].spell;
        if (i > 0 && spells[i].from_min == spells[i - 1].from_min)
            json_refuse(json_member(entries[i].at, "from"), "each time of a day once");
    }
    *day = (struct air_day){entries[0].day, spells, n};
    return n;
}

static void take_days(struct arena *arena, const struct entry *entries, size_t count, struct air_year *air)
{
    struct air_day *dated = ARENA_ARRAY(arena, count, struct air_day);
    size_t at = 0;
    if (count > 0 && !entries[0].dated) {
        at = take_day(arena, entries, count, &air->daily);
        air->assumed = false;
    }
    while (at < count)
        at += take_day(arena, entries + at, count - at, &dated[air->dated_count++]);
    air->dated = dated;
}

void shop_read_air(struct json_at list, struct air_year *air)
{
    struct arena *arena = list.doc->reading->arena;
    size_t count = 0;
    if (!json_is_list(list) || json_size(list) == 0) {
        json_refuse(list, "a list of the air over the day");
        return;
    }
    struct entry *entries = ARENA_ARRAY(arena, json_size(list), struct entry);
    for (struct json_at item = json_first(list); item.node; item = json_next(item))
        count += read_entry(item, &entries[count]);
    qsort(entries, count, sizeof *entries, by_time);
    take_days(arena, entries, count, air);
}
