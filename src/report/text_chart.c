#include "report/text.h"

#include "base/arena.h"
#include "base/moment.h"
#include "base/text.h"
#include "report/lanes.h"

#include <string.h>

enum {
    LEAST_A_DAY = 3, /* morning, midday, afternoon; also room for "Mon" */
    MOST_A_DAY = 12,
};

/* A bar parts two days, or what is worked from what is not. */
struct chart_column {
    bool bar;
    bool first;  /* of its day */
    bool closed; /* no working hours on that day, and no work */
    int64_t from_min, to_min;
    const struct shown_day *day;
};

struct chart_block {
    size_t from, to;          /* columns, a bar at either end */
    int64_t from_min, to_min; /* midnights */
};

struct chart_columns {
    struct chart_column *items;
    size_t count;
    struct chart_block *blocks;
    size_t block_count;
    size_t a_day; /* columns of a worked day */
};

enum { CHART_DRIES = '-', CHART_CLOSED = ':', CHART_BAR = '|' };

/* What stands before the rows: the piece, with its schedule where it has several; a run of pieces that are done alike as
 * "door 1..4". */
struct chart_labels {
    const char **items; /* by lane */
    size_t width;       /* cells of the widest */
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

/* Blocks are at most `room` columns wide. */
static struct chart_columns make_columns(struct arena *arena, const struct shown_days *days, size_t room)
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

static int64_t middle(const struct chart_column *column)
{
    return column->from_min + (column->to_min - column->from_min) / 2;
}

/* The column of a block in which a moment lies; SIZE_MAX: none. A moment of closed hours belongs to the columns of its
 * own day: before opening to the first, after closing to the last. */
static size_t column_at(const struct chart_columns *columns, const struct chart_block *block, int64_t minute)
{
    size_t found = SIZE_MAX;
    for (size_t i = block->from; i < block->to; i++) {
        const struct chart_column *column = &columns->items[i];
        if (column->bar || minute < column->day->from_min || minute >= column->day->to_min)
            continue;
        if (column->first || column->from_min <= minute)
            found = i;
    }
    return found;
}

static void fill_idle(const struct chart_columns *columns, const struct chart_block *block, char *line)
{
    for (size_t i = block->from; i < block->to; i++) {
        const struct chart_column *column = &columns->items[i];
        line[i - block->from] = column->bar ? CHART_BAR : column->closed ? CHART_CLOSED : ' ';
    }
    line[block->to - block->from] = '\0';
}

/* Puts a mark wherever the middle of a column lies between two moments. */
static bool fill_between(const struct chart_columns *columns, const struct chart_block *block,
                         const int64_t between[2], char mark, char *line)
{
    bool any = false;
    for (size_t i = block->from; i < block->to; i++) {
        const struct chart_column *column = &columns->items[i];
        if (column->bar || middle(column) < between[0] || middle(column) >= between[1])
            continue;
        line[i - block->from] = mark;
        any = true;
    }
    return any;
}

/* Where several steps share a column, the last coat stands there, or else the last step. */
static bool outranks(char mark, char other)
{
    bool coat = mark == '+' || (mark >= '0' && mark <= '9');
    return coat || !(other == '+' || (other >= '0' && other <= '9'));
}

static bool fill_step(const struct chart_columns *columns, const struct chart_block *block,
                      const struct timetable_step *step, char *line)
{
    size_t at = column_at(columns, block, step->start_min);
    char mark = step_mark(step->operation);
    if (at == SIZE_MAX)
        return false;
    char *cell = &line[at - block->from];
    if (!outranks(mark, *cell))
        return true;
    fill_between(columns, block, (const int64_t[]){step->start_min, step->end_min}, mark, line);
    *cell = mark;
    return true;
}

/* Fills line[0 .. block->to - block->from). False: nothing happens to the lane in this block. */
static bool fill_row(const struct chart_columns *columns, const struct chart_block *block,
                     const struct timetable *timetable, const struct lanes *lanes, size_t lane, char *line)
{
    bool any = false;
    fill_idle(columns, block, line);
    for (size_t i = 0; i < timetable->wait_count; i++) {
        const struct drying_wait *wait = &timetable->waits[i];
        if (lanes->of_step[wait->step] == lane)
            any |= fill_between(columns, block, (const int64_t[]){wait->from_min, wait->until_min},
                                CHART_DRIES, line);
    }
    for (size_t i = 0; i < timetable->step_count; i++)
        if (lanes->of_step[i] == lane)
            any |= fill_step(columns, block, &timetable->steps[i], line);
    return any;
}

enum { LABEL_MOST = 26, LABEL_LEAST = 8 };

/* The text, or what fits into so many cells with ".." behind. */
static const char *cut_label(struct arena *arena, const char *text, size_t width)
{
    const char *end = text, *next = text;
    if (text_width(text) <= width)
        return text;
    while (*next) {
        text_next(&next);
        if (text_width(arena_text_n(arena, text, (size_t)(next - text))) + 2 > width)
            break;
        end = next;
    }
    return arena_textf(arena, "%.*s..", (int)(end - text), text);
}

static const char *run_text(struct arena *arena, const char *first, const char *last)
{
    size_t common = text_common_words(first, last);
    return common ? arena_textf(arena, "%s..%s", first, last + common) : NULL;
}

static size_t wider(size_t width, const char *label, size_t most)
{
    size_t own = label ? text_width(label) : 0;
    own = own < most ? own : most;
    return own > width ? own : width;
}

static struct chart_labels make_labels(struct arena *arena, const struct lanes *lanes, size_t screen)
{
    size_t most = screen / 3 < LABEL_MOST ? screen / 3 : LABEL_MOST;
    struct chart_labels labels = {ARENA_ARRAY(arena, lanes->count, const char *), LABEL_LEAST};
    for (size_t i = 0; i < lanes->count; i++) {
        const struct lane *lane = &lanes->items[i];
        const char *label =
            lane->alone ? lane->name : arena_textf(arena, "%s, %s", lane->name, lane->schedule);
        labels.items[i] = cut_label(arena, label, most);
        labels.width = wider(labels.width, labels.items[i], most);
        if (i > 0)
            labels.width = wider(labels.width, run_text(arena, labels.items[i - 1], labels.items[i]), most);
    }
    return labels;
}

/* Of the lanes first..last together; NULL: their names have nothing in common, or not enough room. */
static const char *run_label(struct arena *arena, const struct chart_labels *labels, size_t first,
                             size_t last)
{
    if (first == last)
        return labels->items[first];
    const char *label = run_text(arena, labels->items[first], labels->items[last]);
    return label && text_width(label) <= labels->width ? label : NULL;
}

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
    size_t column = minute == INT64_MAX ? SIZE_MAX : column_at(&chart->columns, block, minute - 1);
    if (column == SIZE_MAX)
        return;
    struct text_short when = moment_format(chart->timetable->job->zone, minute, MOMENT_DAY_TIME);
    size_t at = column - block->from, length = strlen(words) + strlen(when.text) + 2;
    size_t room = chart->screen->width - INDENT - chart->labels.width - 1;
    bool left = at >= length + 1 && at + 2 + length > room;
    if (!left && at + length > room)
        return; /* a narrow screen: the moment stands above the chart as well */
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
        bool any = fill_row(&chart->columns, block, chart->timetable, &chart->lanes, first, line);
        const char *label = chart->labels.items[first];
        for (end = first + 1; any && end < chart->lanes.count; end++) {
            const char *run = run_label(chart->arena, &chart->labels, first, end);
            fill_row(&chart->columns, block, chart->timetable, &chart->lanes, end, next);
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
    bool fits = *used > 0 && *used + 3 + width <= screen->width;
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

void show_chart(struct screen *screen, const struct timetable *timetable)
{
    struct arena *arena = screen->out->arena;
    if (timetable->status != TIMETABLE_PLANNED || timetable->step_count == 0)
        return;
    struct shown_days days = shown_days_make(arena, timetable);
    struct chart chart = {screen, arena, timetable, .lanes = lanes_make(arena, timetable)};
    chart.labels = make_labels(arena, &chart.lanes, screen->width);
    chart.columns = make_columns(arena, &days, screen->width - INDENT - chart.labels.width - 1);
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
