#include "source/shop_parts.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/number.h"
#include "job/shop.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* An entry as written. */
struct entry {
    bool dated;
    int64_t day;
    struct air_spell spell;
    struct json_at at;
};

static void read_date(struct field_in in)
{
    struct entry *entry = in.record;
    struct err fault;
    struct date date;
    const char *text;
    entry->dated = true;
    if (!json_text(in.at, "a day such as \"2027-03-05\"", &text))
        return;
    if (date_parse(text, &date, &fault))
        entry->day = date_days(date);
    else
        json_refuse(in.at, fault.expected);
}

static void read_time(struct field_in in)
{
    struct entry *entry = in.record;
    struct err fault;
    const char *text;
    if (json_text(in.at, "a time of day such as \"07:00\"", &text) &&
        !time_parse(text, false, &entry->spell.from_min, &fault))
        json_refuse(in.at, fault.expected);
}

static const struct field entry_items[] = {
    {"on", FIELD_OWN, .read = read_date},
    {"from", FIELD_OWN, .needed = true, .read = read_time},
    {"temperature", FIELD_QUANTITY, AT(entry, spell.air.temperature_c), .needed = true,
     .quantity = &field_temperature, .limit = LIMIT_TEMPERATURE},
    {"humidity", FIELD_QUANTITY, AT(entry, spell.air.humidity), .needed = true, .quantity = &field_share,
     .limit = LIMIT_HUMIDITY},
};
static const struct fields entry_fields = FIELDS("an entry of the air", entry_items);

static bool read_entry(struct json_at at, struct entry *entry)
{
    size_t before = reading_mistakes(at.doc->reading);
    entry->at = at;
    return fields_read(at, &entry_fields, entry, NULL) && reading_mistakes(at.doc->reading) == before;
}

/* The daily round first, then by day and time. */
static int by_time(const void *a, const void *b)
{
    const struct entry *x = a, *y = b;
    if (x->dated != y->dated)
        return x->dated ? 1 : -1;
    if (x->day != y->day)
        return (x->day > y->day) - (x->day < y->day);
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

void shop_read_air(struct field_in in)
{
    struct arena *arena = in.at.doc->reading->arena;
    struct shop *to = in.record;
    size_t count = 0;
    if (!filled_list(in.at, "a list of the air over the day"))
        return;
    struct entry *entries = ARENA_ARRAY(arena, json_size(in.at), struct entry);
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item)) {
        entries[count] = (struct entry){0};
        count += read_entry(item, &entries[count]);
    }
    qsort(entries, count, sizeof *entries, by_time);
    take_days(arena, entries, count, &to->air);
}

/* In the scale in which it is a short number. */
static struct text_short temperature_text(double c)
{
    struct text_short celsius = temperature_write(c), fahrenheit;
    double back;
    snprintf(fahrenheit.text, sizeof fahrenheit.text, "%.20s F", number_round(c * 9 / 5 + 32, 1).text);
    bool same = temperature_parse(fahrenheit.text, &back, NULL) && back == c;
    return same && strlen(fahrenheit.text) < strlen(celsius.text) ? fahrenheit : celsius;
}

static void write_day(struct json_write *to, const struct air_day *day, bool dated)
{
    for (size_t i = 0; i < day->spell_count; i++) {
        const struct air_spell *spell = &day->spells[i];
        json_open_row(to, NULL, '{');
        if (dated)
            json_put_text(to, "on", date_format(date_of(day->day)).text);
        json_put_text(to, "from", time_format(spell->from_min).text);
        json_put_text(to, "temperature", temperature_text(spell->air.temperature_c).text);
        json_put_text(to, "humidity", share_write(spell->air.humidity).text);
        json_close(to);
    }
}

void shop_write_air(struct field_out out)
{
    const struct air_year *air = &((const struct shop *)out.record)->air;
    json_open(out.to, out.key, '[');
    write_day(out.to, &air->daily, false);
    for (size_t i = 0; i < air->dated_count; i++)
        write_day(out.to, &air->dated[i], true);
    json_close(out.to);
}

static bool same_spells(const struct air_day *a, const struct air_day *b)
{
    for (size_t i = 0; i < a->spell_count && a->spell_count == b->spell_count; i++) {
        const struct air_spell *left = &a->spells[i], *right = &b->spells[i];
        if (left->from_min != right->from_min ||
            fabs(left->air.temperature_c - right->air.temperature_c) > 1e-9 ||
            fabs(left->air.humidity - right->air.humidity) > 1e-9)
            return false;
    }
    return a->spell_count == b->spell_count;
}

bool shop_same_air(const void *a, const void *b)
{
    const struct air_year *left = &((const struct shop *)a)->air, *right = &((const struct shop *)b)->air;
    if (!same_spells(&left->daily, &right->daily) || left->dated_count != right->dated_count)
        return false;
    for (size_t i = 0; i < left->dated_count; i++)
        if (left->dated[i].day != right->dated[i].day || !same_spells(&left->dated[i], &right->dated[i]))
            return false;
    return true;
}
