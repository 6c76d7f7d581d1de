/* One mistake, reported at its place: what stood there and what was expected.
 *
 * The struct is flat: no ownership, copy it freely. The formatter writes one line:
 *     examples/desk.json:14:22: /parts/3/thickness: expected a length such as "19 mm", found "3/4 foo"
 * lower case, no full stop, expected before found. A warning has the sentence in `found`. In a list that is no JSON the
 * pointer /3/thickness is reported as `row 4, thickness`.
 */
#ifndef BASE_ERR_H
#define BASE_ERR_H

#include <stdbool.h>
#include <stddef.h>

enum err_code {
    ERR_NONE,
    ERR_INPUT,   /* what the user wrote is wrong */
    ERR_FILE,    /* a file could not be read or written */
    ERR_MEMORY,  /* the arena's ceiling was reached */
    ERR_USAGE,   /* the command line is wrong */
    ERR_WARNING, /* not a mistake: worth a look; the sentence stands in `found` */
};

enum {
    ERR_FILE_SIZE = 256,
    ERR_POINTER_SIZE = 160,
    ERR_FOUND_SIZE = 320,
    ERR_EXPECTED_SIZE = 240,
    ERR_MOST = 20, /* messages kept for one job; the rest is counted */
    ERR_LINE_SIZE = 1100,
};

struct err {
    enum err_code code;
    int line;   /* from 1; 0: not known */
    int column; /* in characters, from 1; 0: not known */
    char file[ERR_FILE_SIZE];
    char pointer[ERR_POINTER_SIZE]; /* RFC 6901, "" for the whole document */
    char found[ERR_FOUND_SIZE];
    char expected[ERR_EXPECTED_SIZE];
};

struct err_list {
    size_t count;   /* in items, at most ERR_MOST */
    size_t dropped; /* further ones that were only counted */
    struct err items[ERR_MOST];
};

/* Adds a mistake with neither line nor column (format finds them from file and pointer). Any text may be NULL.
 * Over-long text is cut at a character boundary and ends in "...". Returns the stored item to be refined
 * (line, column), or NULL when the list is full. Cannot fail otherwise. */
struct err *err_add(struct err_list *list, enum err_code code, const char *file, const char *pointer,
                    const char *expected, const char *found);

/* A mistake that is not in a list yet: a reader that knows no place says what should have stood there, ready for err_add,
 * and everything else is empty. Too long text is cut; `err` may be NULL. */
void err_expect(struct err *err, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* The same, and false, so that a reader can `return err_say(...)`; a macro, so that whoever analyses the caller sees the
 * false. */
#define err_say(...) (err_expect(__VA_ARGS__), false)
/* The same with what was found. */
#define err_say_found(err, text, what) (err_fill((err), ERR_FILE, (text), (what)), false)
void err_fill(struct err *err, enum err_code code, const char *expected, const char *found);

/* The same as err_add with a formatted `found`. */
struct err *err_addf(struct err_list *list, enum err_code code, const char *file, const char *pointer,
                     const char *expected, const char *found_format, ...)
    __attribute__((format(printf, 6, 7)));

/* Writes the one-line form, always terminated, without a line end; returns its length. */
size_t err_format(const struct err *err, char *line, size_t size);

#endif
