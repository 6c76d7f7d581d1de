#include "format/csv.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"

#include <string.h>

static bool ends_line(char c)
{
    return c == '\n' || c == '\r';
}

/* Past one line end, if there is one. */
static size_t past_line_end(const struct csv *csv, size_t at)
{
    if (at < csv->length && csv->text[at] == '\r')
        at++;
    else if (at < csv->length && csv->text[at] == '\n')
        return at + 1;
    else
        return at;
    return at < csv->length && csv->text[at] == '\n' ? at + 1 : at;
}

static size_t line_end(const struct csv *csv, size_t at)
{
    while (at < csv->length && !ends_line(csv->text[at]))
        at++;
    return at;
}

static bool blank_bytes(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (text[i] == '\0' || !strchr(" \t\r\n", text[i]))
            return false;
    return true;
}

/* Past blank lines, separators alone, and comments, which are lines of the file, not rows: quotes in a comment mean
 * nothing. */
static size_t skip_lines(const struct csv *csv, size_t at)
{
    for (;;) {
        size_t first = at;
        while (first < csv->length && csv->text[first] && strchr(" \t,;", csv->text[first]))
            first++;
        if (first == csv->length)
            return first;
        bool comment = csv->text[first] == '#' && blank_bytes(csv->text + at, first - at);
        if (!comment && !ends_line(csv->text[first]))
            return at;
        at = past_line_end(csv, line_end(csv, first));
    }
}

/* Where the quotes that open at `at` close, or the end. */
static size_t closing_quote(const struct csv *csv, size_t at, bool *doubled)
{
    for (at++; at < csv->length; at++) {
        if (csv->text[at] != '"')
            continue;
        if (at + 1 == csv->length || csv->text[at + 1] != '"')
            break;
        *doubled = true;
        at++;
    }
    return at;
}

struct separators {
    size_t commas, semicolons;
    bool content; /* something else than these and blanks */
};

/* Counts those outside quotes in the row at `at`; gives the row's end. */
static size_t count_separators(const struct csv *csv, size_t at, struct separators *seen)
{
    bool begins = true, doubled;
    for (; at < csv->length && !ends_line(csv->text[at]); at++) {
        char c = csv->text[at];
        if (begins && c == '"') {
            size_t open = at;
            at = closing_quote(csv, at, &doubled);
            seen->content |= !blank_bytes(csv->text + open + 1, at - open - 1);
            continue;
        }
        seen->commas += c == ',';
        seen->semicolons += c == ';';
        begins = c == ',' || c == ';';
        seen->content |= !begins && c != ' ' && c != '\t';
    }
    return at;
}

static char choose_separator(const struct csv *csv)
{
    struct separators seen;
    size_t at = csv->next;
    do {
        seen = (struct separators){0};
        at = past_line_end(csv, count_separators(csv, skip_lines(csv, at), &seen));
    } while (at < csv->length && !seen.content);
    return seen.semicolons > seen.commas ? ';' : ',';
}

void csv_init(struct csv *csv, struct arena *arena, const char *text, size_t length)
{
    *csv = (struct csv){.arena = arena, .text = text, .length = length};
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0)
        csv->next = 3;
    csv->separator = choose_separator(csv);
}

static bool stop(struct csv *csv, const char *expected, const char *found, size_t at)
{
    csv->fault = (struct csv_fault){expected, found, at};
    return false;
}

/* A cell in quotes; *at is its opening quote, afterwards the separator or the line end behind it. */
static bool quoted_cell(struct csv *csv, struct csv_cell *cell, size_t *at)
{
    size_t open = *at, i = closing_quote(csv, open, &cell->doubled);
    if (i >= csv->length)
        return stop(csv, "a closing quote for this one", "the end of the file", open);
    cell->text = csv->text + open + 1;
    cell->length = i - open - 1;
    *at = i + 1;
    if (*at < csv->length && csv->text[*at] != csv->separator && !ends_line(csv->text[*at]))
        return stop(csv, "a separator after the closing quote (a quote inside quotes is doubled)",
                    "more text", *at);
    return true;
}

static void plain_cell(const struct csv *csv, struct csv_cell *cell, size_t *at)
{
    size_t i = *at;
    while (i < csv->length && csv->text[i] != csv->separator && !ends_line(csv->text[i]))
        i++;
    cell->text = csv->text + *at;
    cell->length = i - *at;
    *at = i;
}

static bool read_row(struct csv *csv)
{
    size_t at = csv->next;
    for (csv->count = 0;;) {
        csv->cells = arena_grow(csv->arena, csv->cells, csv->count, &csv->capacity, sizeof *csv->cells);
        struct csv_cell *cell = &csv->cells[csv->count++];
        *cell = (struct csv_cell){.at = at};
        if (at < csv->length && csv->text[at] == '"') {
            if (!quoted_cell(csv, cell, &at))
                return false;
        } else {
            plain_cell(csv, cell, &at);
        }
        if (at >= csv->length || csv->text[at] != csv->separator)
            break;
        at++;
    }
    csv->next = past_line_end(csv, at);
    return true;
}

/* Some programs put the empty cells of an empty row in quotes. */
static bool row_blank(const struct csv *csv)
{
    for (size_t i = 0; i < csv->count; i++)
        if (!blank_bytes(csv->cells[i].text, csv->cells[i].length))
            return false;
    return true;
}

bool csv_next(struct csv *csv)
{
    do {
        csv->next = skip_lines(csv, csv->next);
        if (csv->fault.expected || csv->next >= csv->length || !read_row(csv))
            return false;
    } while (row_blank(csv));
    csv->rows++;
    return true;
}

void csv_text(const struct csv_cell *cell, struct buf *text)
{
    text->length = 0;
    text->text[0] = '\0';
    if (!cell->doubled) {
        buf_add_n(text, cell->text, cell->length);
        return;
    }
    for (size_t i = 0; i < cell->length; i++) {
        buf_add_char(text, cell->text[i]);
        i += cell->text[i] == '"';
    }
}

/* Blanks, a comment's sign and a byte-order mark mean something at the edge of a cell that is not in quotes. */
static bool needs_quotes(const char *cell)
{
    size_t length = strlen(cell);
    if (length == 0)
        return false;
    return strchr(" \t#\"\xEF", cell[0]) || strchr(" \t", cell[length - 1]) || strpbrk(cell, ",;\r\n");
}

void csv_put(struct buf *buf, const char *cell)
{
    if (!needs_quotes(cell)) {
        buf_add(buf, cell);
        return;
    }
    buf_add_char(buf, '"');
    for (; *cell; cell++)
        buf_add_n(buf, *cell == '"' ? "\"\"" : cell, *cell == '"' ? 2 : 1);
    buf_add_char(buf, '"');
}

/* Index of the column of that name; csv->count where there is none. */
static size_t column_find(const struct csv *csv, struct buf *scratch, const char *name)
{
    for (size_t i = 0; i < csv->count; i++) {
        csv_text(&csv->cells[i], scratch);
        size_t length;
        const char *trimmed = text_trim(scratch->text, &length);
        if (text_same_n(trimmed, length, name))
            return i;
    }
    return csv->count;
}

/* The number in front of the next slash; false where it is none. */
static bool take_row(const char **pointer, size_t *row)
{
    if (**pointer != '/' || (*pointer)[1] < '0' || (*pointer)[1] > '9')
        return false;
    *row = 0;
    for (++*pointer; **pointer >= '0' && **pointer <= '9' && *row < SIZE_MAX / 20; ++*pointer)
        *row = *row * 10 + (size_t)(**pointer - '0');
    return **pointer == '/' || **pointer == '\0';
}

size_t csv_locate(struct arena *arena, const char *text, size_t length, const char *pointer)
{
    struct csv csv;
    struct buf scratch;
    size_t row;
    csv_init(&csv, arena, text, length);
    buf_init(&scratch, arena);
    if (!csv_next(&csv))
        return csv.next;
    size_t header = csv.cells[0].at;
    if (!take_row(&pointer, &row))
        return header;
    size_t column = *pointer == '/' ? column_find(&csv, &scratch, pointer + 1) : 0;
    for (size_t i = 0; i <= row; i++)
        if (!csv_next(&csv))
            return header;
    return csv.cells[column < csv.count ? column : 0].at;
}
