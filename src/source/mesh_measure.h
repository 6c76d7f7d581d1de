/* The area of a mesh in a file. */
#ifndef SOURCE_MESH_MEASURE_H
#define SOURCE_MESH_MEASURE_H

#include <stdbool.h>
#include <stdint.h>

struct arena;
struct err_list;

struct mesh_report {
    double area; /* in file units squared, of the triangles that have one */
    uint64_t triangles;
    uint64_t degenerate; /* of them without area */
    uint64_t nonfinite;  /* of them with a corner that is no number or beyond reach */
};

/* As mesh_read does; what was read before a mistake is in the report. */
bool mesh_measure(struct arena *owner, int file, const char *path, struct mesh_report *report,
                  struct err_list *errors);

#endif
