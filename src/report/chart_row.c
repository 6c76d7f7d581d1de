#include "report/chart_row.h"

#include <string.h>

static int64_t middle(const struct chart_column *column)
{
    return column->from_min + (column->to_min - column->from_min) / 2;
}

size_t chart_column_at(const struct chart_columns *columns, const struct chart_block *block, int64_t minute)
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
    size_t at = chart_column_at(columns, block, step->start_min);
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

bool chart_row_fill(const struct chart_columns *columns, const struct chart_block *block,
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
