#include "report/chart_columns.h"

#include "base/arena.h"

enum {
    LEAST_A_DAY = 3, /* morning, midday, afternoon; also room for "Mon" */
    MOST_A_DAY = 12,
};

/* Days first..end - 1 as columns, the bars between them and at the end counted. */
static size_t width_of(const struct shown_days *days, size_t first, size_t end, size_t a_day)
{
    size_t width = 0;
    for (size_t i = first; i < end; i++) {
        bool worked = days->items[i].worked;
        bool joined = i + 1 < end && !worked && !days->items[i + 1].worked;
        width += (worked ? a_day : 1) + (joined ? 0 : 1);
    }
    return width;
}

static size_t next_monday(const struct shown_days *days, size_t from)
{
    size_t i = from + 1;
    while (i < days->count && weekday_of(days->items[i].day) != MONDAY)
        i++;
    return i;
}

/* The end of the block that begins at `first`: as many whole weeks as fit, one at least. */
static size_t block_end(const struct shown_days *days, size_t first, size_t a_day, size_t room)
{
    size_t end = next_monday(days, first);
    while (end < days->count) {
        size_t next = next_monday(days, end);
        if (1 + width_of(days, first, next, a_day) > room)
            break;
        end = next;
    }
    return end;
}

static bool all_fit(const struct shown_days *days, const size_t *ends, size_t count, size_t a_day,
                    size_t room)
{
    for (size_t i = 0, first = 0; i < count; first = ends[i++])
        if (1 + width_of(days, first, ends[i], a_day) > room)
            return false;
    return true;
}

static void add_column(struct chart_columns *columns, struct chart_column column)
{
    columns->items[columns->count++] = column;
}

static void add_day(struct chart_columns *columns, const struct shown_day *day)
{
    bool closed = day->open_min == day->close_min;
    int64_t from = day->worked && !closed ? day->open_min : day->from_min;
    int64_t to = day->worked && !closed ? day->close_min : day->to_min;
    int64_t parts = day->worked ? (int64_t)columns->a_day : 1;
    for (int64_t k = 0; k < parts; k++)
        add_column(columns, (struct chart_column){.first = k == 0,
                                                  .closed = closed && !day->worked,
                                                  .from_min = from + (to - from) * k / parts,
                                                  .to_min = from + (to - from) * (k + 1) / parts,
                                                  .day = day});
}

static void add_block(struct chart_columns *columns, const struct shown_days *days, size_t first, size_t end)
{
    struct chart_block *block = &columns->blocks[columns->block_count++];
    block->from = columns->count;
    block->from_min = days->items[first].from_min;
    block->to_min = days->items[end - 1].to_min;
    add_column(columns, (struct chart_column){.bar = true});
    for (size_t i = first; i < end; i++) {
        add_day(columns, &days->items[i]);
        if (i + 1 == end || days->items[i].worked || days->items[i + 1].worked)
            add_column(columns, (struct chart_column){.bar = true});
    }
    block->to = columns->count;
}

struct chart_columns chart_columns_make(struct arena *arena, const struct shown_days *days, size_t room)
{
    struct chart_columns columns = {.a_day = LEAST_A_DAY};
    size_t *ends = ARENA_ARRAY(arena, days->count, size_t), count = 0;
    for (size_t first = 0; first < days->count; first = ends[count++])
        ends[count] = block_end(days, first, LEAST_A_DAY, room);
    while (columns.a_day < MOST_A_DAY && all_fit(days, ends, count, columns.a_day + 1, room))
        columns.a_day++;
    columns.items = ARENA_ARRAY(arena, days->count * (columns.a_day + 2) + 1, struct chart_column);
    columns.blocks = ARENA_ARRAY(arena, count, struct chart_block);
    for (size_t i = 0, first = 0; i < count; first = ends[i++])
        add_block(&columns, days, first, ends[i]);
    return columns;
}
