/* Comma- or semicolon-separated rows (RFC 4180), read in one pass over the text without copying it.
 *
 * A byte-order mark is skipped; LF, CR LF and CR end a row. A cell that begins with a quote may hold separators and line
 * ends, a doubled quote in it is one quote; a quote anywhere else is just a quote, for makers type 12". Blank rows and rows
 * that begin with # are skipped.
 *
 *     struct csv csv;
 *     csv_init(&csv, arena, text, length);
 *     while (csv_next(&csv)) ... csv.cells[i] ...
 *     if (csv.fault.expected) ... csv.fault.at ...
 */
#ifndef FORMAT_CSV_H
#define FORMAT_CSV_H

#include <stdbool.h>
#include <stddef.h>

struct arena;
struct buf;

/* A slice of the text, without the quotes around it. */
struct csv_cell {
    const char *text;
    size_t length;
    size_t at;    /* offset in the text of its first byte, the opening quote included */
    bool doubled; /* has doubled quotes inside, which csv_text makes single */
};

/* Why reading stopped; expected NULL: it has not. Static text. */
struct csv_fault {
    const char *expected, *found;
    size_t at;
};

struct csv {
    struct arena *arena;
    const char *text;
    size_t length, next; /* where the next row begins */
    char separator;      /* of the first row: whichever of , and ; is more frequent outside quotes */
    struct csv_cell *cells;
    size_t count, capacity; /* cells of the current row; the array is used again for the next */
    size_t rows;            /* rows given so far, skipped ones not counted */
    struct csv_fault fault;
};

/* The text must be UTF-8 and outlive the reader. */
void csv_init(struct csv *csv, struct arena *arena, const char *text, size_t length);

/* The next row that is neither blank nor a comment. False at the end, or with csv->fault. */
bool csv_next(struct csv *csv);

/* A cell's text, terminated, doubled quotes made single, blanks around it kept. */
void csv_text(const struct csv_cell *cell, struct buf *text);

/* The offset of what a pointer names in a table with a header: "/3/thickness" is the cell of that column in data row 3,
 * counted from 0 without the header, blank rows and comments; "/3" the row. */
size_t csv_locate(struct arena *arena, const char *text, size_t length, const char *pointer);

/* Writes one cell so that it reads back: in quotes only where it has to be. */
void csv_put(struct buf *buf, const char *cell);

#endif
