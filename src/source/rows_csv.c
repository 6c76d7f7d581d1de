/* A list in a CSV file: its heading, and rows as people and spreadsheets write them. */
#include "source/rows.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/words.h"

#include <string.h>

enum { LEFT_OUT_TOLD = 5 };

static struct arena *arena_of(const struct rows *rows)
{
    return rows->reading->arena;
}

static bool tell_fault(struct rows *rows, const char *at_pointer)
{
    const struct csv *csv = &rows->csv;
    return !csv->broken || rows_wrong(rows, csv->broken_at, at_pointer, csv->err.expected, csv->err.found);
}

static bool refuse_column(struct rows *rows, const char *name, size_t at)
{
    const struct rows_columns *columns = rows->columns;
    const char *expected = arena_textf(arena_of(rows), "a column of %s", columns->what);
    return rows_wrong(rows, at, "", expected,
                      words_found(arena_of(rows), name, columns->names, columns->count));
}

/* Where the cells of a list stand, for mistakes that are reported later. */
struct list_map {
    struct rows_columns columns;
    struct heading heading;
    const size_t *row_at;
    size_t row_count;
};

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

static size_t locate(struct arena *arena, const void *kept, const struct file_text *file, const char *pointer)
{
    const struct list_map *map = kept;
    struct csv csv;
    size_t row, column = 0;
    if (!take_row(&pointer, &row) || row >= map->row_count)
        return map->heading.at;
    csv_begin(&csv, arena, file->text, file->length, map->heading.separator);
    csv.next = map->row_at[row];
    if (!csv_next(&csv))
        return map->heading.at;
    while (*pointer == '/' && column < map->columns.count &&
           !text_same(map->columns.names[column], pointer + 1))
        column++;
    const struct heading_cell *cell = heading_of(&map->heading, column);
    size_t i = cell ? (size_t)(cell - map->heading.cells) : 0;
    return csv.cells[i < csv.count ? i : 0].at;
}

/* `"Qty" as qty, "Material" as wood`, and the names that are none of ours. */
static bool note_heading(struct rows *rows)
{
    bool good = true;
    struct buf read, out;
    buf_init(&read, arena_of(rows));
    buf_init(&out, arena_of(rows));
    for (size_t i = 0; i < rows->heading.width; i++) {
        const struct heading_cell *cell = &rows->heading.cells[i];
        const char *name = words_quote(arena_of(rows), cell->text);
        if (cell->count == 0 && *cell->text && !rows->columns->words)
            good = refuse_column(rows, cell->text, rows->csv.cells[i].at);
        else if (cell->count == 0 && *cell->text)
            buf_addf(&out, "%s%s", out.length ? ", " : "",
                     words_found(arena_of(rows), cell->text, rows->columns->names, rows->columns->count));
        if (!cell->renamed && !cell->unit && cell->count < 2)
            continue;
        buf_addf(&read, "%s%s as ", read.length ? ", " : "", name);
        for (size_t k = 0; k < cell->count; k++)
            buf_addf(&read, "%s%s", k ? " x " : "", rows->columns->names[cell->columns[k]]);
        if (cell->any_order)
            buf_add(&read, ", the least as thickness");
        if (cell->unit)
            buf_addf(&read, " in %s", cell->unit);
    }
    if (rows->heading.above > 0)
        rows_note(rows, rows->heading.at,
                  arena_textf(arena_of(rows), "%zu row%s above the heading left out", rows->heading.above,
                              rows->heading.above > 1 ? "s" : ""));
    if (read.length > 0)
        rows_note(rows, rows->heading.at, arena_textf(arena_of(rows), "read %s", read.text));
    if (out.length > 0)
        rows_note(
            rows, rows->heading.at,
            arena_textf(arena_of(rows), "no column of %s, left out: %s", rows->columns->what, out.text));
    return good;
}

/* Each column once: of two names for one, that which is our own word, else the first. */
static bool settle_doubles(struct rows *rows)
{
    struct heading *heading = &rows->heading;
    bool good = true;
    for (size_t i = 0; i < heading->width; i++) {
        struct heading_cell *cell = &heading->cells[i];
        struct heading_cell *first = cell->count ? heading_of(heading, cell->columns[0]) : cell;
        if (first == cell)
            continue;
        if (!cell->renamed && !first->renamed)
            good = rows_wrong(rows, rows->csv.cells[i].at, "", "each column once",
                              words_quote(arena_of(rows), cell->text));
        (cell->renamed ? cell : first)->count = 0;
    }
    return good;
}

static bool no_heading(struct rows *rows)
{
    const struct heading *heading = &rows->heading;
    if (heading->width == 0)
        return rows_wrong(rows, 0, "", "a row of column names", "an empty file");
    return rows_wrong(rows, heading->at, "",
                      arena_textf(arena_of(rows), "a row with at least two columns of %s, such as %s and %s",
                                  rows->columns->what, rows->columns->names[0], rows->columns->names[2]),
                      words_quote(arena_of(rows), heading->cells[0].text));
}

static bool read_heading(struct rows *rows)
{
    if (!heading_find(arena_of(rows), rows->file.text, rows->file.length, rows->columns, &rows->heading))
        return no_heading(rows);
    csv_begin(&rows->csv, arena_of(rows), rows->file.text, rows->file.length, rows->heading.separator);
    rows->csv.next = rows->heading.at;
    rows->csv.hash_heads = true;
    (void)csv_next(&rows->csv);
    rows->csv.hash_heads = false;
    if (rows->columns->settle)
        rows->columns->settle(rows->columns, &rows->heading);
    return settle_doubles(rows) && note_heading(rows);
}

bool rows_open_csv(struct rows *rows, const struct reading *reading, const struct file_text *file,
                   const struct rows_columns *columns, bool strict)
{
    struct arena *arena = reading->arena;
    *rows = (struct rows){
        .reading = reading, .columns = columns, .file = *file, .is_csv = true, .strict = strict};
    const char *encoding = csv_decode(arena, &rows->file);
    if (!encoding)
        return text_check(reading->errors, file, "text in UTF-8, UTF-16 or Windows-1252");
    rows->cells = ARENA_ARRAY(arena, columns->count, const char *);
    rows->begins = ARENA_ARRAY(arena, columns->count, size_t);
    rows->cell_at = ARENA_ARRAY(arena, columns->count, size_t);
    rows->map = ARENA_NEW(arena, struct list_map);
    buf_init(&rows->text, arena);
    buf_init(&rows->cell, arena);
    buf_init(&rows->left_out, arena);
    buf_init(&rows->values, arena);
    if (!read_heading(rows))
        return false;
    if (strcmp(encoding, "UTF-8") != 0)
        rows_note(rows, rows->heading.at, arena_textf(arena, "read as %s", encoding));
    *rows->map = (struct list_map){*columns, rows->heading, NULL, 0};
    texts_add(reading->texts, &rows->file, locate, rows->map);
    return true;
}

/* Rows may end before the heading does, or go on with nothing. */
static bool right_width(struct rows *rows)
{
    const struct csv *csv = &rows->csv;
    size_t extra = csv->count, length;
    while (extra > rows->heading.width) {
        csv_text(&csv->cells[extra - 1], &rows->cell);
        (void)text_trim(rows->cell.text, &length);
        if (length > 0)
            break;
        extra--;
    }
    if (extra == rows->heading.width || (extra < rows->heading.width && rows->heading.separator == '\t'))
        return true;
    rows->incomplete = true;
    if (list_full(rows->reading->errors))
        return false;
    size_t at = extra > rows->heading.width ? csv->cells[rows->heading.width].at : csv->cells[0].at;
    return rows_wrong(rows, at, rows_pointer(rows, NULL),
                      arena_textf(arena_of(rows), "%zu cells, as in the heading", rows->heading.width),
                      arena_textf(arena_of(rows), "%zu", csv->count));
}

/* Something under no name, which no heading told. */
static void note_nameless(struct rows *rows, const struct heading_cell *head, size_t at)
{
    size_t length;
    (void)text_trim(rows->cell.text, &length);
    if (*head->text || length == 0 || rows->nameless_told)
        return;
    rows_note(rows, at,
              arena_textf(arena_of(rows), "what stands under no name is left out, as %s",
                          words_quote(arena_of(rows), rows->cell.text)));
    rows->nameless_told = true;
}

static void put_cell(struct rows *rows, size_t i)
{
    const struct csv_cell *cell = &rows->csv.cells[i];
    const struct heading_cell *head = &rows->heading.cells[i];
    size_t column = head->columns[0];
    csv_text(cell, &rows->cell);
    if (head->count == 0) {
        note_nameless(rows, head, cell->at);
        return;
    }
    for (size_t k = 0; k < head->count; k++)
        rows->cell_at[head->columns[k]] = cell->at;
    if (!rows_put(rows, column, rows->cell.text))
        rows_refuse_csv(rows, column, "text without control characters",
                        words_quote(arena_of(rows), rows->cell.text));
}

/* Cells of lengths and numbers as people and spreadsheets write them. */
static void tidy_cells(struct rows *rows)
{
    bool decimal_commas = rows->heading.separator != ',';
    for (size_t i = 0; i < rows->heading.width; i++) {
        const struct heading_cell *head = &rows->heading.cells[i];
        size_t column = head->columns[0];
        if (head->count == 0 || !rows->cells[column] || !(rows->columns->numbers >> column & 1))
            continue;
        struct cell_reading in = {.arena = arena_of(rows),
                                  .decimal_commas = decimal_commas,
                                  .cells = rows->columns->cells,
                                  .unit = head->unit ? head->unit : rows->columns->bare_unit,
                                  .is_length = rows->columns->lengths >> column & 1};
        const char *found = rows->cells[column];
        if (!cell_tidy(&in, &rows->cells[column])) {
            rows_refuse_found(rows, column, in.expected, words_quote(arena_of(rows), found));
            rows->cells[column] = NULL;
        } else if (head->count == 1) {
            cell_unit(&in, head->unit, &rows->cells[column]);
        } else if (!cell_split(&in, head, rows->cells)) {
            rows_refuse(rows, column,
                        arena_textf(arena_of(rows),
                                    "%zu lengths with an x between, such as \"600 x 400 x 18\"",
                                    head->count));
            rows->cells[column] = NULL;
        }
        if (in.had_comma && !rows->commas_told)
            rows_note(rows, rows->cell_at[column],
                      arena_textf(arena_of(rows), "decimal commas are read as points, as in %s",
                                  words_quote(arena_of(rows), found)));
        rows->commas_told |= in.had_comma;
    }
}

static void keep_row(struct rows *rows)
{
    rows->row_at =
        arena_grow(arena_of(rows), rows->row_at, rows->row, &rows->row_capacity, sizeof *rows->row_at);
    rows->row_at[rows->row] = rows->csv.cells[0].at;
    rows->map->row_at = rows->row_at;
    rows->map->row_count = rows->row + 1;
}

/* Rows that are none: totals, names of groups. Each kind is reported once, with its lines. */
static bool is_left_out(struct rows *rows)
{
    rows_show_cells(rows);
    const char *why = rows->columns->left_out ? rows->columns->left_out(rows->cells, &rows->heading) : NULL;
    if (!why)
        return false;
    int line = place_at(rows->file.text, rows->file.length, rows->csv.cells[0].at).line;
    if (rows->left_out_count == 0)
        rows->left_out_at = rows->csv.cells[0].at;
    if (rows->left_out_count++ < LEFT_OUT_TOLD)
        buf_addf(&rows->left_out, "%sline %d left out: %s", rows->left_out.length ? "; " : "", line, why);
    return true;
}

static void note_left_out(struct rows *rows)
{
    if (rows->left_out_count > LEFT_OUT_TOLD)
        buf_addf(&rows->left_out, "; and %zu more", rows->left_out_count - LEFT_OUT_TOLD);
    if (rows->left_out_count > 0)
        rows_note(rows, rows->left_out_at, rows->left_out.text);
}

bool rows_next_csv(struct rows *rows)
{
    while (csv_next(&rows->csv)) {
        rows->text.length = 0;
        memset(rows->begins, 0, rows->columns->count * sizeof *rows->begins);
        for (size_t i = 0; i < rows->columns->count; i++)
            rows->cell_at[i] = rows->csv.cells[0].at;
        for (size_t i = 0; i < rows->heading.width && i < rows->csv.count; i++)
            put_cell(rows, i);
        if (is_left_out(rows))
            continue;
        keep_row(rows);
        if (!right_width(rows)) {
            rows->row++;
            continue;
        }
        tidy_cells(rows);
        return true;
    }
    rows->incomplete |= rows->csv.broken;
    (void)tell_fault(rows, rows_pointer(rows, NULL));
    note_left_out(rows);
    if (rows->values.length > 0)
        rows_note(rows, rows->values_at, arena_textf(arena_of(rows), "read %s", rows->values.text));
    return false;
}
