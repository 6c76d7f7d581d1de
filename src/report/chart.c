#include "report/chart.h"

#include "base/arena.h"
#include "base/moment.h"
#include "base/text.h"
#include "report/chart_label.h"
#include "report/chart_row.h"

#include <string.h>

enum { INDENT = 2 };

struct chart {
    struct screen *screen;
    struct arena *arena;
    const struct timetable *timetable;
    struct lanes lanes;
    struct chart_labels labels;
    struct chart_columns columns;
    struct buf marks; /* every character of the rows, for the key below */
};

/* The label padded to its column, then the line without the blanks at its end. */
static void add_line(struct chart *chart, const char *label, const char *line)
{
    struct buf *out = chart->screen->out;
    size_t length = strlen(line);
    while (length && line[length - 1] == ' ')
        length--;
    buf_add_repeat(out, ' ', INDENT);
    buf_add(out, label);
    if (length)
        buf_add_repeat(out, ' ', chart->labels.width - text_width(label) + 1);
    buf_add_n(out, line, length);
    buf_add_char(out, '\n');
}

static char *blank_line(struct chart *chart, const struct chart_block *block)
{
    size_t width = block->to - block->from;
    char *line = ARENA_ARRAY(chart->arena, width + 1, char);
    memset(line, ' ', width);
    return line;
}

/* Whether a word of so many columns fits from here to the next bar. */
static bool has_room(const struct chart *chart, const struct chart_block *block, size_t from, size_t length)
{
    for (size_t i = from; i < from + length; i++)
        if (i >= block->to || chart->columns.items[i].bar)
            return false;
    return true;
}

static void put(const struct chart *chart, const struct chart_block *block, char *line, size_t column,
                const char *word)
{
    if (!has_room(chart, block, column, strlen(word)))
        return;
    for (size_t i = 0; word[i]; i++)
        line[column - block->from + i] = word[i];
}

/* "Mon" over "1" for each day that is worked on and for Mondays of the others, the month in front. */
static void print_days(struct chart *chart, const struct chart_block *block)
{
    char *names = blank_line(chart, block), *numbers = blank_line(chart, block);
    for (size_t i = block->from; i < block->to; i++) {
        const struct chart_column *column = &chart->columns.items[i];
        if (!column->first || (!column->day->worked && weekday_of(column->day->day) != MONDAY))
            continue;
        put(chart, block, names, i, weekday_name(weekday_of(column->day->day)));
        put(chart, block, numbers, i, arena_textf(chart->arena, "%d", date_of(column->day->day).day));
    }
    struct date first = date_of(zone_day(chart->timetable->job->zone, block->from_min, NULL));
    add_line(chart, "", names);
    add_line(chart, arena_textf(chart->arena, "%s %d", month_name(first.month), first.year), numbers);
}

/* "^ ready Fri 5 Mar 08:00" below the column, or to the left of it where there is more room. */
static void print_moment(struct chart *chart, const struct chart_block *block, int64_t minute,
                         const char *words)
{
    size_t column = minute == INT64_MAX ? SIZE_MAX : chart_column_at(&chart->columns, block, minute - 1);
    if (column == SIZE_MAX)
        return;
    struct text_short when = moment_format(chart->timetable->job->zone, minute, MOMENT_DAY_TIME);
    size_t at = column - block->from, length = strlen(words) + strlen(when.text) + 2;
    bool left = at >= length + 1 && at + 2 + length > SCREEN_WIDTH - INDENT - chart->labels.width - 1;
    const char *line =
        left ? arena_textf(chart->arena, "%*s%s %s ^", (int)(at + 1 - length - 1), "", words, when.text)
             : arena_textf(chart->arena, "%*s^ %s %s", (int)at, "", words, when.text);
    add_line(chart, "", line);
}

/* Rows that look the same and whose pieces are called alike are one row. */
static void print_rows(struct chart *chart, const struct chart_block *block)
{
    size_t width = block->to - block->from;
    char *line = ARENA_ARRAY(chart->arena, width + 1, char),
         *next = ARENA_ARRAY(chart->arena, width + 1, char);
    for (size_t first = 0, end; first < chart->lanes.count; first = end) {
        bool any = chart_row_fill(&chart->columns, block, chart->timetable, &chart->lanes, first, line);
        const char *label = chart->labels.items[first];
        for (end = first + 1; any && end < chart->lanes.count; end++) {
            const char *run = chart_label_run(chart->arena, &chart->labels, first, end);
            chart_row_fill(&chart->columns, block, chart->timetable, &chart->lanes, end, next);
            if (!run || strcmp(line, next) != 0)
                break;
            label = run;
        }
        if (any) {
            add_line(chart, label, line);
            buf_add(&chart->marks, line);
        }
    }
}

/* Entries stay whole: a line ends before the one that would pass the width. */
static void key_word(struct screen *screen, size_t *used, const char *mark, const char *words)
{
    size_t width = strlen(mark) + 1 + strlen(words);
    bool fits = *used > 0 && *used + 3 + width <= SCREEN_WIDTH;
    buf_addf(screen->out, "%s%*s%s %s", *used && !fits ? "\n" : "", fits ? 3 : INDENT, "", mark, words);
    *used = (fits ? *used + 3 : INDENT) + width;
}

/* What the characters say, only those that were used. */
static void print_key(struct chart *chart)
{
    struct screen *screen = chart->screen;
    size_t used = 0;
    buf_add_char(screen->out, '\n');
    if (strpbrk(chart->marks.text, "123456789+"))
        key_word(screen, &used, "1 2 ..", "coats");
    for (const struct mark_words *mark = step_marks(); mark->mark; mark++)
        if (strchr(chart->marks.text, mark->mark))
            key_word(screen, &used, (const char[]){mark->mark, '\0'}, mark->words);
    if (strchr(chart->marks.text, CHART_DRIES))
        key_word(screen, &used, (const char[]){CHART_DRIES, '\0'}, "drying");
    if (strchr(chart->marks.text, CHART_CLOSED))
        key_word(screen, &used, (const char[]){CHART_CLOSED, '\0'}, "closed");
    key_word(screen, &used, "| |", "a day of work, opening to closing");
    buf_add_char(screen->out, '\n');
}

void chart_print(struct screen *screen, const struct timetable *timetable)
{
    struct arena *arena = screen->out->arena;
    if (timetable->status != TIMETABLE_PLANNED || timetable->step_count == 0)
        return;
    struct shown_days days = shown_days_make(arena, timetable);
    struct chart chart = {screen, arena, timetable, .lanes = lanes_make(arena, timetable)};
    chart.labels = chart_labels_make(arena, &chart.lanes);
    chart.columns = chart_columns_make(arena, &days, SCREEN_WIDTH - INDENT - chart.labels.width - 1);
    buf_init(&chart.marks, arena);
    for (size_t i = 0; i < chart.columns.block_count; i++) {
        const struct chart_block *block = &chart.columns.blocks[i];
        if (i > 0)
            buf_add_char(screen->out, '\n');
        print_days(&chart, block);
        print_rows(&chart, block);
        print_moment(&chart, block, timetable->ready_min, "ready");
        print_moment(&chart, block, timetable->deliver_min, "delivery");
    }
    print_key(&chart);
}
