/* From a place in a text to its line and column, and from a JSON pointer to its place. Positions are not kept while
 * reading: the text is scanned again, on mistakes only. */
#ifndef FORMAT_LOCATE_H
#define FORMAT_LOCATE_H

#include <stdbool.h>
#include <stddef.h>

struct arena;

struct place {
    int line, column; /* from 1; columns count characters; a byte-order mark is none */
};

/* The place of a byte; at or behind the end, the place just behind the last character. A line ends with LF, CR LF or CR. */
struct place place_of(const char *text, size_t length, size_t offset);

/* The offset of what an RFC 6901 pointer names in a well-formed JSON text, or of its nearest ancestor that is there.
 * With `key` the place of the name rather than of its value. */
size_t locate_json(const char *text, size_t length, const char *pointer, bool key);

/* The same in a part list or stock list: "/3/thickness" is the cell of that column in data row 3, counted from 0 without
 * the header, blank rows and comments; "/3" the row. */
size_t locate_csv(struct arena *arena, const char *text, size_t length, const char *pointer);

#endif
