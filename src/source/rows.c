#include "source/rows.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/json_tree.h"
#include "format/words.h"

#include <string.h>

bool rows_has(const struct rows *rows, size_t column)
{
    for (size_t i = 0; i < rows->width; i++)
        if (rows->column_of[i] == column)
            return true;
    return !rows->is_csv;
}

/* Index of a column by its name; columns->count: none. Names of a CSV file may be in any case. */
static size_t column_find(const struct rows *rows, const char *name)
{
    size_t i = 0;
    const struct rows_columns *columns = rows->columns;
    while (i < columns->count &&
           !(rows->is_csv ? text_same(name, columns->names[i]) : strcmp(name, columns->names[i]) == 0))
        i++;
    return i;
}

/* Whether a C1 control character begins here, as UTF-8. */
static bool is_c1(const char *at)
{
    return (unsigned char)at[0] == 0xC2 && (unsigned char)at[1] >= 0x80 && (unsigned char)at[1] < 0xA0;
}

/* Keeps a cell's text without the blanks around it, line ends and tabs inside made blanks. False: another control
 * character stands in it, which the caller tells. */
static bool put(struct rows *rows, size_t column, const char *text)
{
    size_t length;
    bool good = true;
    const char *at = text_trim(text, &length), *end = at + length;
    if (length == 0)
        return true;
    rows->begins[column] = rows->text.length + 1;
    for (; at < end; at++) {
        bool blank = *at == '\n' || *at == '\r' || *at == '\t';
        good &= blank || !((unsigned char)*at < 0x20 || *at == 0x7F || is_c1(at));
        buf_add_char(&rows->text, blank ? ' ' : *at);
    }
    buf_add_char(&rows->text, '\0');
    return good;
}

static struct arena *arena_of(const struct rows *rows)
{
    return rows->reading->arena;
}

static bool wrong(struct rows *rows, size_t at, const char *pointer, const char *expected, const char *found)
{
    (void)text_wrong(rows->reading->errors, &rows->file, at, pointer, expected, found);
    return false;
}

/* "/3", or "/3/thickness". */
static const char *pointer(const struct rows *rows, const char *column)
{
    struct buf buf;
    buf_init(&buf, arena_of(rows));
    json_pointer_add_index(&buf, rows->row);
    if (column)
        json_pointer_add(&buf, column);
    return buf.text;
}

static bool refuse_csv(struct rows *rows, size_t column, const char *expected, const char *found)
{
    return wrong(rows, rows->cell_at[column], pointer(rows, rows->columns->names[column]), expected, found);
}

static void warn_csv(struct rows *rows, size_t column, const char *sentence)
{
    text_warn(rows->reading->warnings, &rows->file, rows->cell_at[column],
              pointer(rows, rows->columns->names[column]), sentence);
}

static bool tell_fault(struct rows *rows, const char *at_pointer)
{
    const struct csv_fault *fault = &rows->csv.fault;
    return !fault->expected || wrong(rows, fault->at, at_pointer, fault->expected, fault->found);
}

static bool refuse_column(struct rows *rows, const char *name, size_t at)
{
    const struct rows_columns *columns = rows->columns;
    const char *expected = arena_textf(arena_of(rows), "a column of %s", columns->what);
    return wrong(rows, at, "", expected, words_found(arena_of(rows), name, columns->names, columns->count));
}

/* The first row: each cell's column. */
static bool read_header(struct rows *rows)
{
    bool good = true;
    size_t unnamed = rows->columns->count;
    rows->width = rows->csv.count;
    rows->header_at = rows->csv.cells[0].at;
    rows->column_of = ARENA_ARRAY(arena_of(rows), rows->width, size_t);
    for (size_t i = 0; i < rows->width; i++)
        rows->column_of[i] = unnamed;
    for (size_t i = 0; i < rows->width; i++) {
        const struct csv_cell *cell = &rows->csv.cells[i];
        csv_text(cell, &rows->cell);
        const char *name = text_trimmed(arena_of(rows), rows->cell.text);
        size_t column = column_find(rows, name);
        if (!*name)
            continue;
        if (column == unnamed)
            good = refuse_column(rows, name, cell->at);
        else if (rows_has(rows, column))
            good = wrong(rows, cell->at, "", "each column once", words_quote(arena_of(rows), name));
        rows->column_of[i] = column;
    }
    return good;
}

static size_t locate(struct arena *arena, const void *kept, const struct file_text *file, const char *pointer)
{
    (void)kept;
    return csv_locate(arena, file->text, file->length, pointer);
}

bool rows_open_csv(struct rows *rows, const struct reading *reading, const struct file_text *file,
                   const struct rows_columns *columns)
{
    *rows = (struct rows){.reading = reading, .columns = columns, .file = *file, .is_csv = true};
    if (!text_check(reading->errors, file, "UTF-8 text (save the list as UTF-8)"))
        return false;
    rows->cells = ARENA_ARRAY(reading->arena, columns->count, const char *);
    rows->begins = ARENA_ARRAY(reading->arena, columns->count, size_t);
    rows->cell_at = ARENA_ARRAY(reading->arena, columns->count, size_t);
    buf_init(&rows->text, reading->arena);
    buf_init(&rows->cell, reading->arena);
    csv_init(&rows->csv, reading->arena, file->text, file->length);
    if (!csv_next(&rows->csv)) {
        if (!rows->csv.fault.expected)
            return wrong(rows, 0, "", "a row of column names", "an empty file");
        return tell_fault(rows, "");
    }
    texts_add(reading->texts, file, locate, NULL);
    return read_header(rows);
}

static bool right_width(struct rows *rows)
{
    const struct csv *csv = &rows->csv;
    if (csv->count == rows->width)
        return true;
    rows->incomplete = true;
    if (list_full(rows->reading->errors))
        return false;
    size_t at = csv->count > rows->width ? csv->cells[rows->width].at : csv->cells[0].at;
    return wrong(rows, at, pointer(rows, NULL),
                 arena_textf(arena_of(rows), "%zu cells, as in the first row", rows->width),
                 arena_textf(arena_of(rows), "%zu", csv->count));
}

static void put_cell(struct rows *rows, size_t i)
{
    const struct csv_cell *cell = &rows->csv.cells[i];
    size_t column = rows->column_of[i];
    csv_text(cell, &rows->cell);
    if (column == rows->columns->count) {
        size_t length;
        (void)text_trim(rows->cell.text, &length);
        if (length > 0)
            wrong(rows, cell->at, pointer(rows, NULL), "nothing under a column without a name",
                  words_quote(arena_of(rows), rows->cell.text));
        return;
    }
    rows->cell_at[column] = cell->at;
    if (!put(rows, column, rows->cell.text))
        refuse_csv(rows, column, "text without control characters",
                   words_quote(arena_of(rows), rows->cell.text));
}

static bool next_csv(struct rows *rows)
{
    for (; csv_next(&rows->csv); rows->row++) {
        if (!right_width(rows))
            continue;
        for (size_t i = 0; i < rows->columns->count; i++)
            rows->cell_at[i] = rows->csv.cells[0].at;
        for (size_t i = 0; i < rows->width; i++)
            put_cell(rows, i);
        return true;
    }
    rows->incomplete |= rows->csv.fault.expected != NULL;
    (void)tell_fault(rows, pointer(rows, NULL));
    return false;
}

bool rows_open_json(struct rows *rows, struct json_at list, const struct rows_columns *columns)
{
    struct arena *arena = list.doc->reading->arena;
    *rows = (struct rows){.reading = list.doc->reading, .columns = columns, .list = list};
    if (!json_list(list, arena_textf(arena, "%s as a list", columns->what)))
        return false;
    rows->cells = ARENA_ARRAY(arena, columns->count, const char *);
    rows->begins = ARENA_ARRAY(arena, columns->count, size_t);
    buf_init(&rows->text, arena);
    return true;
}

static bool put_member(struct rows *rows, struct json_at member)
{
    struct text_short number;
    const char *text;
    size_t column = column_find(rows, json_name(member));
    if (column == rows->columns->count)
        return true;
    bool numeric = (rows->columns->numbers >> column) & 1;
    if (!json_cell(member, &text, &number) || (!numeric && !json_is_text(member)))
        return json_refuse(member, numeric ? "text, or a number" : "text");
    return put(rows, column, text) || json_refuse(member, "text without control characters");
}

static bool next_json(struct rows *rows)
{
    const struct rows_columns *columns = rows->columns;
    for (;; rows->row++) {
        rows->item = rows->row == 0 ? json_first(rows->list) : json_next(rows->item);
        if (!rows->item.node)
            return false;
        if (!json_object(rows->item, columns->row, columns->names, columns->count)) {
            rows->incomplete = true;
            continue;
        }
        for (struct json_at member = json_first(rows->item); member.node; member = json_next(member))
            put_member(rows, member);
        return true;
    }
}

bool rows_next(struct rows *rows)
{
    const size_t count = rows->columns->count;
    rows->row += rows->begun;
    rows->begun = true;
    rows->text.length = 0;
    memset(rows->begins, 0, count * sizeof *rows->begins);
    if (!(rows->is_csv ? next_csv(rows) : next_json(rows)))
        return false;
    for (size_t i = 0; i < count; i++)
        rows->cells[i] = rows->begins[i] ? rows->text.text + rows->begins[i] - 1 : NULL;
    return true;
}

static struct json_at member(const struct rows *rows, size_t column)
{
    return json_member(rows->item, rows->columns->names[column]);
}

bool rows_refuse_found(struct rows *rows, size_t column, const char *expected, const char *found)
{
    if (rows->is_csv && list_full(rows->reading->errors))
        return false;
    return rows->is_csv ? refuse_csv(rows, column, expected, found)
                        : json_refuse_found(member(rows, column), expected, found);
}

bool rows_refuse(struct rows *rows, size_t column, const char *expected)
{
    const char *cell = rows->cells[column];
    if (!rows->is_csv)
        return json_refuse(member(rows, column), expected);
    if (list_full(rows->reading->errors))
        return false;
    return refuse_csv(rows, column, expected, cell ? words_quote(rows->reading->arena, cell) : "nothing");
}

bool rows_refuse_name(struct rows *rows, size_t column, const char *expected, const char *const *names,
                      size_t count)
{
    if (rows->reading->errors->count == ERR_MOST)
        return rows_refuse_found(rows, column, expected, "");
    const char *found = words_found(rows->reading->arena, rows->cells[column], names, count);
    return rows_refuse_found(rows, column, expected, found);
}

void rows_warn(struct rows *rows, size_t column, const char *sentence)
{
    if (rows->is_csv && list_full(rows->reading->warnings))
        return;
    if (rows->is_csv)
        warn_csv(rows, column, sentence);
    else
        json_warn(member(rows, column), "%s", sentence);
}

bool rows_refuse_list(struct rows *rows, const char *expected, const char *found)
{
    if (!rows->is_csv)
        return json_refuse_found(rows->list, expected, found);
    (void)text_wrong(rows->reading->errors, &rows->file, rows->header_at, "", expected, found);
    return false;
}
