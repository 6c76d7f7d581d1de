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

#endif
