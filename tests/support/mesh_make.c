#include "mesh_make.h"

#include "base/arena.h"
#include "format/file.h"
#include "source/part_list.h"
#include "check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define PI 3.14159265358979323846

void make_triangle(struct making *m, const double a[3], const double b[3], const double c[3])
{
    m->triangles = arena_grow(m->arena, m->triangles, m->count, &m->capacity, sizeof *m->triangles);
    struct made *made = &m->triangles[m->count++];
    memcpy(made->at, a, 3 * sizeof *a);
    memcpy(made->at + 3, b, 3 * sizeof *b);
    memcpy(made->at + 6, c, 3 * sizeof *c);
}

struct turned {
    double middle, tube; /* a circle around (middle, 0), swept around the axis */
};

static void on_turned(struct turned t, double around, double along, double at[3])
{
    double out = t.middle + t.tube * cos(along);
    at[0] = out * cos(around);
    at[1] = out * sin(around);
    at[2] = t.tube * sin(along);
}

static void make_turned(struct making *m, struct turned t, int steps, double from, double to)
{
    int rows = t.middle > 0 ? steps : steps / 2;
    for (int i = 0; i < steps; i++)
        for (int k = 0; k < rows; k++) {
            double a[3], b[3], c[3], d[3], u = 2 * PI * i / steps, v = 2 * PI * (i + 1) / steps;
            double low = from + (to - from) * k / rows, high = from + (to - from) * (k + 1) / rows;
            on_turned(t, u, low, a);
            on_turned(t, v, low, b);
            on_turned(t, v, high, c);
            on_turned(t, u, high, d);
            make_triangle(m, a, b, c);
            make_triangle(m, a, c, d);
        }
}

void make_ball(struct making *m, double radius, int steps)
{
    make_turned(m, (struct turned){0, radius}, steps, -PI / 2, PI / 2);
}

void make_torus(struct making *m, double radius, double tube, int steps)
{
    make_turned(m, (struct turned){radius, tube}, steps, -PI, PI);
}

const char *make_path(struct arena *arena, const char *name)
{
    return arena_textf(arena, "%s/%s", check_folder(), name);
}

static FILE *begin(const char *path)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    return file;
}

const char *make_file(struct arena *arena, const char *name, const void *bytes, size_t length)
{
    const char *path = make_path(arena, name);
    FILE *file = begin(path);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    fclose(file);
    return path;
}

static void little(unsigned char *bytes, uint32_t value)
{
    for (int i = 0; i < 4; i++)
        bytes[i] = (unsigned char)(value >> 8 * i);
}

const char *make_binary_stl(const struct making *m, const char *name)
{
    const char *path = make_path(m->arena, name);
    FILE *file = begin(path);
    /* Many programs begin binary files so, too. */
    unsigned char header[84] = "solid of nothing but bytes";
    little(header + 80, (uint32_t)m->count);
    fwrite(header, 1, sizeof header, file);
    for (size_t i = 0; i < m->count; i++) {
        unsigned char facet[50] = {0};
        for (size_t k = 0; k < 9; k++) {
            float narrow = (float)m->triangles[i].at[k];
            uint32_t bits;
            memcpy(&bits, &narrow, sizeof bits);
            little(facet + 12 + 4 * k, bits);
        }
        fwrite(facet, 1, sizeof facet, file);
    }
    fclose(file);
    return path;
}

const char *make_text_stl(const struct making *m, const char *name)
{
    const char *path = make_path(m->arena, name);
    FILE *file = begin(path);
    fprintf(file, "solid made here\n");
    for (size_t i = 0; i < m->count; i++) {
        const double *at = m->triangles[i].at;
        fprintf(file, "  facet normal 0 0 0\n    outer loop\n");
        for (int k = 0; k < 9; k += 3)
            fprintf(file, "      vertex %.17g %.17g %.17g\n", (float)at[k], (float)at[k + 1],
                    (float)at[k + 2]);
        fprintf(file, "    endloop\n  endfacet\n");
    }
    fprintf(file, "endsolid made here\n");
    fclose(file);
    return path;
}

const char *make_obj(const struct making *m, const char *name)
{
    const char *path = make_path(m->arena, name);
    FILE *file = begin(path);
    for (size_t i = 0; i < m->count; i++) {
        const double *at = m->triangles[i].at;
        for (int k = 0; k < 9; k += 3)
            fprintf(file, "v %.17g %.17g %.17g\n", at[k], at[k + 1], at[k + 2]);
        fprintf(file, "f -3 -2 -1\n");
    }
    fclose(file);
    return path;
}

bool make_measured(struct arena *arena, const char *path, struct mesh_report *report, struct err_list *errors)
{
    struct path_rule trusted = {path, true};
    struct file_id id;
    struct err err;
    int file = file_open_named(arena, trusted, path, &id, &err);
    if (file < 0) {
        err_add(errors, ERR_FILE, path, NULL, err.expected, err.found);
        *report = (struct mesh_report){0};
        return false;
    }
    bool good = mesh_measure(arena, file, path, report, errors);
    close(file);
    return good;
}
