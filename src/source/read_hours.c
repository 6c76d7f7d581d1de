#include "source/read_shop_parts.h"

#include "base/arena.h"

enum { DAYS = 7 };

static const char *const day_names[DAYS] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};

static bool read_stretch(struct json_at at, int earliest_min, struct stretch *stretch)
{
    struct err fault;
    const char *text;
    if (!json_text(at, "working hours such as \"08:00-12:30\"", &text))
        return false;
    if (!time_range_parse(text, &stretch->from_min, &stretch->to_min, &fault))
        return json_refuse(at, fault.expected);
    if (stretch->from_min < earliest_min)
        return json_refuse(at, "working hours that begin after the ones before");
    return true;
}

static void read_day(struct json_at list, struct shop_day *day)
{
    if (!json_list(list, "a list of working hours such as [\"08:00-12:30\"]"))
        return;
    struct stretch *stretches = ARENA_ARRAY(list.doc->reading->arena, json_size(list), struct stretch);
    int last = 0;
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        struct stretch *stretch = &stretches[day->count];
        if (!read_stretch(item, last, stretch))
            continue;
        last = stretch->to_min;
        day->count++;
    }
    day->stretches = stretches;
}

static void read_week(struct json_at at, struct shop *to)
{
    size_t before = reading_mistakes(at.doc->reading), stretches = 0;
    if (!json_object(at, "the hours", day_names, DAYS))
        return;
    for (int day = 0; day < DAYS; day++) {
        struct json_at list = json_member(at, day_names[day]);
        to->hours[day] = (struct shop_day){NULL, 0};
        if (list.node)
            read_day(list, &to->hours[day]);
        stretches += to->hours[day].count;
    }
    to->hours_assumed = false;
    if (stretches == 0 && reading_mistakes(at.doc->reading) == before)
        json_refuse(at, "working hours on at least one day");
}

static void read_closed(struct json_at list, struct shop *to)
{
    if (!json_list(list, "a list of closed days"))
        return;
    struct day_range *ranges = ARENA_ARRAY(list.doc->reading->arena, json_size(list), struct day_range);
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        struct err fault;
        struct date first, last;
        const char *text;
        if (!json_text(item, "a day such as \"2027-03-08\"", &text))
            continue;
        if (!date_range_parse(text, &first, &last, &fault))
            json_refuse(item, fault.expected);
        else
            ranges[to->closed_count++] = (struct day_range){date_days(first), date_days(last)};
    }
    to->closed = ranges;
}

void shop_read_hours(struct json_at shop, struct shop *to)
{
    if (json_has(shop, "hours"))
        read_week(json_member(shop, "hours"), to);
    if (json_has(shop, "closed"))
        read_closed(json_member(shop, "closed"), to);
}
