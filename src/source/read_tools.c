#include "source/read_shop_parts.h"

#include "base/measure.h"

typedef bool (*parser)(const char *text, double *value, struct err *fault);

static void work_names(const char *names[WORK_COUNT])
{
    for (int i = 0; i < WORK_COUNT; i++)
        names[i] = work_name(i);
}

/* An object keyed by the first `count` of the tools and works. */
static void read_each(struct json_at at, const char *what, int count, parser parse, double *values)
{
    const char *names[WORK_COUNT];
    work_names(names);
    if (!json_object(at, what, names, (size_t)count))
        return;
    if (json_size(at) == 0)
        json_refuse(at, "at least one tool or work");
    for (int i = 0; i < count; i++)
        if (json_has(at, names[i]))
            json_quantity(json_member(at, names[i]), parse, &values[i]);
}

/* One span for the first `all`, or an object keyed by every tool and work. */
static void read_spans(struct json_at at, const char *what, int all, double *minutes)
{
    double span;
    if (json_is_object(at))
        read_each(at, what, WORK_COUNT, span_parse_fraction, minutes);
    else if (json_quantity(at, span_parse_fraction, &span))
        for (int i = 0; i < all; i++)
            minutes[i] = span;
}

/* What is said for a tool holds for finishes of several components as well. */
static void read_clean_up(struct json_at at, struct shop *to)
{
    read_spans(at, "the clean-up", TOOL_COUNT, to->clean_up_min);
    for (int i = 0; i < TOOL_COUNT; i++)
        if (!json_is_object(at) || json_has(at, work_name(i)))
            to->two_part_clean_up_min[i] = to->clean_up_min[i];
}

static void check_transfer(struct json_at at, const struct shop *to)
{
    for (int i = 0; i < TOOL_COUNT; i++)
        if (json_has(at, work_name(i)) && !(to->transfer[i] > 0 && to->transfer[i] <= 1))
            json_refuse(json_member(at, work_name(i)), "a share above 0 % and at most 100 %");
}

void shop_read_tools(struct json_at shop, struct shop *to)
{
    if (json_has(shop, "set-up"))
        read_spans(json_member(shop, "set-up"), "the set-up", WORK_COUNT, to->set_up_min);
    if (json_has(shop, "clean-up"))
        read_clean_up(json_member(shop, "clean-up"), to);
    if (json_has(shop, "handling"))
        read_spans(json_member(shop, "handling"), "the handling", WORK_COUNT, to->handling_min);
    if (json_has(shop, "rates"))
        read_each(json_member(shop, "rates"), "the rates", WORK_COUNT, rate_parse, to->rate_m2_per_h);
    if (json_has(shop, "losses"))
        read_each(json_member(shop, "losses"), "the losses", TOOL_COUNT, volume_parse, to->loss_l);
    if (json_has(shop, "transfer")) {
        read_each(json_member(shop, "transfer"), "the transfer", TOOL_COUNT, share_parse, to->transfer);
        check_transfer(json_member(shop, "transfer"), to);
    }
}
