/* What the two kinds of spreadsheet files share: the archive, the walk through XML, the rows that are written. */
#ifndef FORMAT_SHEET_PARTS_H
#define FORMAT_SHEET_PARTS_H

#include "base/buf.h"
#include "format/file.h"

#include <stdint.h>

struct arena;

enum {
    SHEET_ROWS_MOST = 100000,
    SHEET_COLUMNS_MOST = 1000,
    SHEET_CELLS_MOST = 1000000,
    SHEET_PART_MOST = 64 << 20, /* bytes of one unpacked part */
};

struct sheet_archive; /* an open archive in memory */

/* NULL: it is none; *err. It lasts until sheet_close, or as long as the arena. */
struct sheet_archive *sheet_open(struct arena *arena, const struct file_text *file, struct err *err);
void sheet_close(struct sheet_archive *archive);

/* Rows and cells on their way into a text. Cells come from left to right, rows from top to bottom. */
struct sheet_rows {
    struct buf *out;
    uint64_t row, column; /* where the text ends, from 0 */
    uint64_t cells;
};

/* A cell at its place, counted from 0; an empty text is no cell. False: the sheet is too large, or the place lies before one
 * that was written. */
bool sheet_put(struct sheet_rows *rows, uint64_t row, uint64_t column, const char *text);
/* A number as XML has it; false: it is none. */
bool sheet_double(const char *text, double *number);
/* A number as a cell shows it: without exponent and noise; "" where it is none. */
const char *sheet_number(struct arena *arena, const char *text);

/* A part of the archive, unpacked; NULL: *err, or (err->code ERR_NONE) it is not there. */
const struct file_text *sheet_part(struct sheet_archive *archive, const char *name, struct err *err);
struct arena *sheet_arena(const struct sheet_archive *archive);

/* Who is told of elements and text, names without their namespace's prefix. False: enough, or a mistake. */
struct sheet_walker {
    void *to;
    bool (*begin)(void *to, const char *name, const char *const *attributes);
    bool (*end)(void *to, const char *name);
    bool (*text)(void *to, const char *text, size_t length);
};

/* The value of an attribute; NULL: it is not there. */
const char *sheet_attribute(const char *const *attributes, const char *name);

/* Walks through a part. False: it is no XML without declarations (*err), or a function wanted no more (*err untouched). */
bool sheet_walk(struct arena *arena, const struct file_text *part, struct sheet_walker walker,
                struct err *err);

/* The two kinds. */
bool sheet_read_xlsx(struct sheet_archive *archive, const char *name, struct sheet_rows *rows,
                     struct err *err);
bool sheet_read_ods(struct sheet_archive *archive, const char *name, struct sheet_rows *rows,
                    struct err *err);

/* Says what was expected in the file and is false. */
bool sheet_refuse(struct err *err, const char *expected, const char *found);

#endif
