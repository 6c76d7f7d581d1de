/* One sheet of a spreadsheet file, .xlsx (ISO/IEC 29500) or .ods (OpenDocument 1.3), as rows of text.
 *
 * Such a file is a ZIP archive of XML and comes from elsewhere: what unpacks to more than it may, documents with a type
 * declaration or entities, and sheets beyond the limits of sheet_parts.h are mistakes. */
#ifndef FORMAT_SHEET_H
#define FORMAT_SHEET_H

#include "base/buf.h"
#include "format/file.h"

#include <stdint.h>

struct arena;

/* Whether a file is one, by its name. */
bool sheet_is(const char *path);

/* The file's part of "list.xlsx#Doors", and the name of the sheet behind it; NULL: none is named. */
const char *sheet_path(struct arena *arena, const char *named, const char **name);

/* The sheet of that name (NULL: the first) as tab-separated text with the file's name: row n of the sheet is line n. Numbers
 * have a decimal point and no noise in the last digits, dates are `2027-08-07`, of a formula the value that was kept with
 * it; line ends and tabs in a cell become blanks. False: *err. */
bool sheet_read(struct arena *arena, const struct file_text *file, const char *name, struct file_text *text,
                struct err *err);

/* Below: what the two kinds of files share, for their readers in this room: the archive, the walk through XML, the rows that are
 * written. */

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
    uint64_t row, column;      /* where the text ends, from 0 */
    uint64_t cells, row_cells; /* in all, and in the last row */
};

/* A cell at its place, counted from 0; an empty text is no cell. False: the sheet is too large, or the place lies before one
 * that was written. */
bool sheet_put(struct sheet_rows *rows, uint64_t row, uint64_t column, const char *text);
/* The last row, which ends here, so many times in all. False: the sheet is too large. */
bool sheet_repeat(struct sheet_rows *rows, uint64_t times);
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
    void (*text)(void *to, const char *text, size_t length);
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
