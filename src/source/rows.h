/* A list of records under named columns: a CSV file, or a JSON array of objects with the same keys. The cells of the row
 * at hand are text either way; mistakes are reported at the cell.
 *
 *     if (rows_open_csv(&rows, reading, &file, &columns))
 *         while (rows_next(&rows)) ... rows_cell(&rows, COLUMN_QTY) ...
 */
#ifndef SOURCE_ROWS_H
#define SOURCE_ROWS_H

#include "base/buf.h"
#include "format/json.h"
#include "source/heading.h"

struct list_map;

struct rows {
    const struct reading *reading;
    const struct rows_columns *columns;
    size_t row;         /* of the row at hand, from 0 */
    const char **cells; /* by column; NULL: empty or not there. Until the next row. */
    struct buf text;    /* theirs, one after the other */
    size_t *begins;     /* by column: where in it, and one more; 0: not there */
    bool is_csv, begun;
    bool incomplete; /* a row was reported and left out */
    bool strict;     /* what is read otherwise than it stands there is a mistake */

    struct file_text file; /* CSV, as UTF-8 */
    struct csv csv;
    struct heading heading;
    struct list_map *map;
    size_t *cell_at; /* by column: where its cell begins in the file */
    size_t *row_at;  /* by row, the same */
    size_t row_capacity;
    struct buf cell;
    struct buf values; /* `"birch ply" as birch plywood` */
    size_t values_at;
    struct buf left_out; /* sentences about rows that are none */
    size_t left_out_count, left_out_at;
    bool commas_told, nameless_told;

    struct json_at list, item; /* JSON */
};

/* The text is made UTF-8 and its heading found; what of it is read otherwise than it stands there is reported. False: mistakes
 * were added. */
bool rows_open_csv(struct rows *rows, const struct reading *reading, const struct file_text *file,
                   const struct rows_columns *columns, bool strict);
bool rows_open_json(struct rows *rows, struct json_at list, const struct rows_columns *columns);

/* Whether the list has such a column at all; always true of a JSON array. */
bool rows_has(const struct rows *rows, size_t column);

/* The next row that can be read; rows with too few or too many cells are reported and left out. False: the end. */
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
/* A cell was understood as another word of ours: reported once for each such word, together at the list's end. */
void rows_note_value(struct rows *rows, size_t column, const char *means);
/* A mistake about the list as a whole. */
bool rows_refuse_list(struct rows *rows, const char *expected, const char *found);

/* What the forms of a list share; inside rows*.c. */

/* Keeps a cell's text without the blanks around it, line ends and tabs inside made blanks. False: another control
 * character stands in it, which the caller tells. */
bool rows_put(struct rows *rows, size_t column, const char *text);
/* Makes what was put the cells of the row at hand. */
void rows_show_cells(struct rows *rows);

/* A mistake at a byte of a CSV file; false. */
bool rows_wrong(struct rows *rows, size_t at, const char *pointer, const char *expected, const char *found);
bool rows_refuse_csv(struct rows *rows, size_t column, const char *expected, const char *found);
/* "/3", or "/3/thickness" of the row at hand. */
const char *rows_pointer(const struct rows *rows, const char *column);
/* What was read otherwise than it stands there: a warning, or a mistake where the job is strict. */
void rows_note(struct rows *rows, size_t at, const char *sentence);

/* Reads the next row of a CSV file. False: the end. */
bool rows_next_csv(struct rows *rows);

#endif
