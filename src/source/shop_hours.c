#include "source/shop_parts.h"

#include "base/arena.h"
#include "job/shop.h"

#include <stdio.h>

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
    return stretch->from_min >= earliest_min ||
           json_refuse(at, "working hours that begin after the ones before");
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

void shop_read_hours(struct field_in in)
{
    size_t before = reading_mistakes(in.at.doc->reading), stretches = 0;
    struct shop *to = in.record;
    if (!json_object(in.at, "the hours", day_names, DAYS))
        return;
    for (int day = 0; day < DAYS; day++) {
        struct json_at list = json_member(in.at, day_names[day]);
        to->hours[day] = (struct shop_day){NULL, 0};
        if (list.node)
            read_day(list, &to->hours[day]);
        stretches += to->hours[day].count;
    }
    to->hours_assumed = false;
    if (stretches == 0 && reading_mistakes(in.at.doc->reading) == before)
        json_refuse(in.at, "working hours on at least one day");
}

static bool same_day(const struct shop_day *a, const struct shop_day *b)
{
    for (size_t i = 0; i < a->count && a->count == b->count; i++)
        if (a->stretches[i].from_min != b->stretches[i].from_min ||
            a->stretches[i].to_min != b->stretches[i].to_min)
            return false;
    return a->count == b->count;
}

bool shop_same_hours(const void *a, const void *b)
{
    const struct shop *left = a, *right = b;
    for (int day = 0; day < DAYS; day++)
        if (!same_day(&left->hours[day], &right->hours[day]))
            return false;
    return true;
}

void shop_write_hours(struct field_out out)
{
    const struct shop *shop = out.record, *base = out.base;
    json_open_row(out.to, out.key, '{');
    for (int day = 0; day < DAYS; day++) {
        bool differs = base && !same_day(&shop->hours[day], &base->hours[day]);
        if (!differs && (shop->hours[day].count == 0 || (base && !base->hours_assumed)))
            continue;
        json_open_row(out.to, day_names[day], '[');
        for (size_t i = 0; i < shop->hours[day].count; i++) {
            const struct stretch *stretch = &shop->hours[day].stretches[i];
            char text[32];
            snprintf(text, sizeof text, "%.11s-%.11s", time_format(stretch->from_min).text,
                     time_format(stretch->to_min).text);
            json_put_text(out.to, NULL, text);
        }
        json_close(out.to);
    }
    json_close(out.to);
}

void shop_read_closed(struct field_in in)
{
    struct shop *to = in.record;
    if (!json_list(in.at, "a list of closed days"))
        return;
    struct day_range *ranges = ARENA_ARRAY(in.at.doc->reading->arena, json_size(in.at), struct day_range);
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item)) {
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

void shop_write_closed(struct field_out out)
{
    const struct shop *shop = out.record;
    json_open_row(out.to, out.key, '[');
    for (size_t i = 0; i < shop->closed_count; i++) {
        const struct day_range *range = &shop->closed[i];
        char text[32];
        snprintf(text, sizeof text, "%.10s%s%.10s", date_format(date_of(range->first_day)).text,
                 range->last_day > range->first_day ? ".." : "",
                 range->last_day > range->first_day ? date_format(date_of(range->last_day)).text : "");
        json_put_text(out.to, NULL, text);
    }
    json_close(out.to);
}

/* Spans from and until, of closed days or busy minutes. */
struct spans {
    const struct shop *shop;
    bool busy;
};

static size_t span_count(struct spans of)
{
    return of.busy ? of.shop->busy_count : of.shop->closed_count;
}

static struct busy span_at(struct spans of, size_t i)
{
    if (of.busy)
        return of.shop->busy[i];
    return (struct busy){of.shop->closed[i].first_day, of.shop->closed[i].last_day + 1};
}

/* What of a span lies in the time for which both shops were read. */
static struct busy common(struct spans a, struct spans b, struct busy span)
{
    if (!a.busy)
        return span;
    int64_t from =
        a.shop->busy_from_min > b.shop->busy_from_min ? a.shop->busy_from_min : b.shop->busy_from_min;
    int64_t to = a.shop->busy_to_min < b.shop->busy_to_min ? a.shop->busy_to_min : b.shop->busy_to_min;
    span.from_min = span.from_min > from ? span.from_min : from;
    span.to_min = span.to_min < to ? span.to_min : to;
    return span;
}

/* Whether every span of `a` lies within those of `b` together. */
static bool within(struct spans a, struct spans b)
{
    for (size_t i = 0; i < span_count(a); i++) {
        struct busy left = common(a, b, span_at(a, i));
        for (bool moved = true; moved && left.from_min < left.to_min;) {
            moved = false;
            for (size_t k = 0; k < span_count(b); k++) {
                struct busy over = span_at(b, k);
                if (over.from_min > left.from_min || over.to_min <= left.from_min)
                    continue;
                left.from_min = over.to_min;
                moved = true;
            }
        }
        if (left.from_min < left.to_min)
            return false;
    }
    return true;
}

bool shop_same_closed(const void *a, const void *b)
{
    struct spans left = {a, false}, right = {b, false};
    return within(left, right) && within(right, left);
}

bool shop_same_busy(const void *a, const void *b)
{
    struct spans left = {a, true}, right = {b, true};
    return within(left, right) && within(right, left);
}
