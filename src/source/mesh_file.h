/* The area of a mesh in a file: STL (text or binary) and OBJ, read in one pass through a small window.
 *
 * STL takes 1 MiB whatever the size of the file; OBJ keeps its corners besides, 24 bytes each. */
#ifndef SOURCE_MESH_FILE_H
#define SOURCE_MESH_FILE_H

#include <stdbool.h>
#include <stdint.h>

struct err_list;

struct mesh_report {
    double area; /* in file units squared, of the triangles that have one */
    uint64_t triangles;
    uint64_t degenerate; /* of them without area */
    uint64_t nonfinite;  /* of them with a corner that is no number or beyond reach */
};

/* By the file's ending, `.stl` or `.obj` in any case. False: it could not be read (ERR_FILE), or is broken: the mistake,
 * with line and column in a text, with the byte where a binary one ends, is in `errors`, told of `path`. */
bool mesh_measure(const char *path, struct mesh_report *report, struct err_list *errors);

/* The same of an open regular file, read from its beginning and left open; `path` names it only. */
bool mesh_measure_open(int file, const char *path, struct mesh_report *report, struct err_list *errors);

#endif
