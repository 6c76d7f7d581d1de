/* Rows separated by commas, semicolons or tabs (RFC 4180), read in one pass over the text without copying it.
 *
 * A byte-order mark is skipped; LF, CR LF and CR end a row. A cell that begins with a quote may hold separators and line
 * ends, a doubled quote in it is one quote; a quote anywhere else is just a quote, for makers type 12". Blank rows and rows
 * that begin with # are skipped.
 *
 *     struct csv csv;
 *     csv_init(&csv, arena, text, length);
 *     while (csv_next(&csv)) ... csv.cells[i] ...
 *     if (csv.broken) ... csv.err.expected ... csv.broken_at ...
 */
#ifndef FORMAT_CSV_H
#define FORMAT_CSV_H

#include "format/file.h"

#include <stdbool.h>
#include <stddef.h>

struct arena;
struct buf;

enum { CSV_CELLS_MOST = 1000 };

/* A slice of the text, without the quotes around it. */
struct csv_cell {
    const char *text;
    size_t length;
    size_t at;    /* offset in the text of its first byte, the opening quote included */
    bool doubled; /* has doubled quotes inside, which csv_text makes single */
};

struct csv {
    struct arena *arena;
    const char *text;
    size_t length, next; /* where the next row begins */
    char separator;      /* of the first row: whichever of , ; and tab is most frequent outside quotes */
    bool hash_heads;     /* a # that is a cell of its own heads a column of numbers, and begins no comment */
    struct csv_cell *cells;
    size_t count, capacity; /* cells of the current row; the array is used again for the next */
    size_t rows;            /* rows given so far, skipped ones not counted */
    bool broken;            /* reading stopped before the end: why, and where */
    struct err err;
    size_t broken_at;
};

/* Puts UTF-16 (with a byte-order mark, or known by its zeros) and what is no UTF-8 but can be Windows-1252 into UTF-8, in
 * the arena; a text that is UTF-8 stays as it is. The name of the encoding that it was, "UTF-8" ...; NULL: none of them, and
 * the text is as it was. Windows-1252 leaves five bytes without a character: a text with one of them, or with a NUL, is not
 * in it. */
const char *csv_decode(struct arena *arena, struct file_text *file);

/* The text must be UTF-8 and outlive the reader. */
void csv_init(struct csv *csv, struct arena *arena, const char *text, size_t length);
/* The same with a separator that is known. */
void csv_begin(struct csv *csv, struct arena *arena, const char *text, size_t length, char separator);

/* The next row that is neither blank nor a comment. False at the end, or where the text is broken. */
bool csv_next(struct csv *csv);

/* A cell's text, terminated, doubled quotes made single, blanks around it kept. */
void csv_text(const struct csv_cell *cell, struct buf *text);

/* Writes one cell so that it reads back: in quotes only where it has to be. */
void csv_put(struct buf *buf, const char *cell);

/* The same of a text that somebody will see in a spreadsheet: what a program there would take for a formula gets an
 * apostrophe in front, what a terminal would act on becomes a blank. */
void csv_put_shown(struct buf *buf, const char *cell);

#endif
