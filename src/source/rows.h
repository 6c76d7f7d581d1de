/* A list of records under named columns: a CSV file, or a JSON array of objects with the same keys. The cells of the row
 * at hand are text either way; mistakes are told at the cell.
 *
 *     if (rows_open_csv(&rows, reading, &file, &columns))
 *         while (rows_next(&rows)) ... rows_cell(&rows, COLUMN_QTY) ...
 */
#ifndef SOURCE_ROWS_H
#define SOURCE_ROWS_H

#include "base/buf.h"
#include "format/csv.h"
#include "format/json.h"

struct rows_columns {
    const char *const *names;
    size_t count;
    const char *what, *row; /* "a part list", "a part" */
    uint64_t numbers;       /* columns that a JSON number may stand in, as bits */
};

struct rows {
    const struct reading *reading;
    const struct rows_columns *columns;
    size_t row;         /* of the row at hand, from 0 */
    const char **cells; /* by column; NULL: empty or not there. Until the next row. */
    struct buf text;    /* theirs, one after the other */
    size_t *begins;     /* by column: where in it, and one more; 0: not there */
    bool is_csv, begun;
    bool incomplete; /* a row was told and left out */

    struct file_text file; /* CSV */
    struct csv csv;
    size_t *cell_at;   /* by column: where its cell begins in the file */
    size_t *column_of; /* by cell: its column; columns->count where the first row has no name for it */
    size_t width;      /* cells in the first row, which begins at header_at */
    size_t header_at;
    struct buf cell;

    struct json_at list, item; /* JSON */
};

/* The text is checked and its first row read. False: mistakes were added. */
bool rows_open_csv(struct rows *rows, const struct reading *reading, const struct file_text *file,
                   const struct rows_columns *columns);
bool rows_open_json(struct rows *rows, struct json_at list, const struct rows_columns *columns);

/* Whether the list has such a column at all; always true of a JSON array. */
bool rows_has(const struct rows *rows, size_t column);

/* The next row that can be read; rows with too few or too many cells are told and left out. False: the end. */
bool rows_next(struct rows *rows);

static inline const char *rows_cell(const struct rows *rows, size_t column)
{
    return rows->cells[column];
}

/* A mistake about a cell of this row, found being its text or nothing; false. */
bool rows_refuse(struct rows *rows, size_t column, const char *expected);
bool rows_refuse_found(struct rows *rows, size_t column, const char *expected, const char *found);
/* A word that is none of these: with a did-you-mean. */
bool rows_refuse_name(struct rows *rows, size_t column, const char *expected, const char *const *names,
                      size_t count);
void rows_warn(struct rows *rows, size_t column, const char *sentence);
/* A mistake about the list as a whole. */
bool rows_refuse_list(struct rows *rows, const char *expected, const char *found);

#endif
