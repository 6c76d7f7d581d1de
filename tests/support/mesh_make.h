/* Meshes with known areas, and files of them. */
#ifndef TESTS_MESH_MAKE_H
#define TESTS_MESH_MAKE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct arena;

struct made {
    double at[9]; /* three corners */
};

struct making {
    struct arena *arena;
    struct made *triangles;
    size_t count, capacity;
};

void make_triangle(struct making *making, const double a[3], const double b[3], const double c[3]);
/* Both closed, by `steps` meridians and half as many parallels (a torus: as many). */
void make_ball(struct making *making, double radius, int steps);
void make_torus(struct making *making, double radius, double tube, int steps);

/* Where a test may write: below check_folder(). */
const char *make_path(struct arena *arena, const char *name);
const char *make_file(struct arena *arena, const char *name, const void *bytes, size_t length);
const char *make_binary_stl(const struct making *making, const char *name);
const char *make_text_stl(const struct making *making, const char *name);
/* Each triangle with corners of its own, all digits. */
const char *make_obj(const struct making *making, const char *name);

/* mesh_measure of a file by its name; one that cannot be opened is told as a job's reader does. */
struct mesh_report;
struct err_list;
bool make_measured(struct arena *arena, const char *path, struct mesh_report *report,
                   struct err_list *errors);

#endif
