/* A list of records while it is read, and what its two forms share. rows.h is the door. */
#ifndef SOURCE_ROWS_FORMS_H
#define SOURCE_ROWS_FORMS_H

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

/* Keeps a cell's text without the blanks around it, line ends and tabs inside made blanks. False: another control
 * character stands in it, which the caller tells. */
bool rows_put(struct rows *rows, size_t column, const char *text);

/* Index of a column by its name; columns->count: none. Names of a CSV file may be in any case. */
size_t rows_column(const struct rows *rows, const char *name);

/* Reads the next row's cells by rows_put. False: the end. */
bool rows_next_csv(struct rows *rows);
bool rows_next_json(struct rows *rows);

bool rows_refuse_csv(struct rows *rows, size_t column, const char *expected, const char *found);
void rows_warn_csv(struct rows *rows, size_t column, const char *sentence);

#endif
