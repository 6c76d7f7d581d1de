#include "source/rows.h"

#include "base/arena.h"
#include "format/json_tree.h"
#include "format/words.h"

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

bool rows_refuse_csv(struct rows *rows, size_t column, const char *expected, const char *found)
{
    return wrong(rows, rows->cell_at[column], pointer(rows, rows->columns->names[column]), expected, found);
}

void rows_warn_csv(struct rows *rows, size_t column, const char *sentence)
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
        size_t column = rows_column(rows, name);
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
    if (!rows_put(rows, column, rows->cell.text))
        rows_refuse_csv(rows, column, "text without control characters",
                        words_quote(arena_of(rows), rows->cell.text));
}

bool rows_next_csv(struct rows *rows)
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
