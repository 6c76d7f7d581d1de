/* The triangles of a mesh file: STL (text or binary) and OBJ, read in one pass through a small window.
 *
 * STL takes 1 MiB whatever the size of the file; OBJ keeps its corners besides, 24 bytes each. */
#ifndef FORMAT_MESH_H
#define FORMAT_MESH_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct arena;
struct err_list;

/* Who takes the triangles, in the order of the file. Coordinates are as they stand there, NaN for what is no number. */
struct mesh_sink {
    void *to; /* the first argument of each */
    /* Three corners, one after the other. */
    void (*triangle)(void *to, const double corners[9]);
    /* Many triangles: nine machine floats each, the next `stride` bytes on, at any address. */
    void (*floats)(void *to, const unsigned char *corners, size_t stride, size_t count);
    /* The corners of a polygon, numbered from 0; after the last of them, the third at the earliest, `polygon`. */
    void (*corner)(void *to, const double corner[3], size_t number);
    void (*polygon)(void *to);
};

/* From an open regular file, read from its beginning and left open; `path` names it only and says by its ending, `.stl`
 * or `.obj` in any case, how it is read. False: it could not be read (ERR_FILE), or is broken: the mistake, with line and
 * column in a text, with the byte where a binary one ends, is in `errors`. */
bool mesh_read(struct arena *owner, int file, const char *path, struct mesh_sink sink,
               struct err_list *errors);

/* Below: a file seen through a window that moves on, and the words and numbers of its text, for the readers of this room. */

enum {
    MESH_WINDOW = 256 * 1024,
    MESH_WORD_MOST = 255, /* no number and no keyword is longer */
};

struct mesh_source {
    int file;
    const char *path;
    uint64_t size; /* of the file when it was opened */
    struct arena *arena;
    struct err_list *errors;
    struct mesh_sink sink;

    unsigned char *window;
    size_t at, end;  /* what of the window is not read yet */
    uint64_t passed; /* bytes of the file before the window */
    bool ended;      /* nothing follows the window */
    bool failed;     /* the system could not read; reported already */

    int line;            /* of a text, from 1 */
    uint64_t line_start; /* its offset in the file */
    uint64_t word_start; /* offset of the last word */
    bool obj;            /* # begins a comment, a backslash before a line end joins the lines */
};

/* Passes the byte-order mark that some editors put before a text. */
void mesh_begin_text(struct mesh_source *source);

/* Moves the rest of the window to its front and fills it up; false when nothing was added. */
bool mesh_fill(struct mesh_source *source);

/* Offset in the file of the next byte. */
uint64_t mesh_offset(const struct mesh_source *source);

/* Adds a mistake; returns false. The text form tells line and column of the last word. */
bool mesh_refuse(struct mesh_source *source, const char *expected, const char *found_format, ...)
    __attribute__((format(printf, 3, 4)));
bool mesh_refuse_text(struct mesh_source *source, const char *expected, const char *found_format, ...)
    __attribute__((format(printf, 3, 4)));

/* A slice of the window, good until the next word. */
struct mesh_word {
    const char *text;
    size_t length;
};
/* Quotes what stood there instead; of a word without length says whether the line or the file ended. */
bool mesh_refuse_word(struct mesh_source *source, const char *expected, struct mesh_word found);

/* The next word of this line; length 0 at its end (and that of the file). False: a word that is too long. */
bool mesh_word(struct mesh_source *source, struct mesh_word *word);
/* Leaves the rest of the line; false at the end of the file. */
bool mesh_next_line(struct mesh_source *source);

bool mesh_word_is(struct mesh_word word, const char *keyword); /* in any case */

/* A number as C writes it, `nan` and `inf` included, rounded as decimal_read does. */
bool mesh_number(struct mesh_word word, double *value);

/* The formats. */
bool mesh_read_stl(struct mesh_source *source);
bool mesh_read_obj(struct mesh_source *source);

#endif
