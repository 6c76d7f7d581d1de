#include "check.h"
#include "mesh_make.h"

#include "base/arena.h"
#include "base/err.h"
#include "source/part_list.h"
#include "format/mesh.h"

#include <fcntl.h>
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static struct mesh_report measured(const char *path)
{
    struct err_list errors = {0};
    struct mesh_report report;
    struct arena *arena = arena_make(0);
    if (!make_measured(arena, path, &report, &errors)) {
        char line[ERR_LINE_SIZE];
        err_format(&errors.items[0], line, sizeof line);
        fail_msg("%s", line);
    }
    arena_free(arena);
    return report;
}

struct text_row {
    struct row row;
    const char *name, *text;
    double want;
    uint64_t triangles, degenerate, nonfinite;
};

#define FACET(a, b, c)                                                                                       \
    "facet normal 0 0 1 outer loop vertex " a " vertex " b " vertex " c " endloop endfacet\n"
#define CUBE_CORNERS "v 0 0 0\nv 2 0 0\nv 2 2 0\nv 0 2 0\nv 0 0 2\nv 2 0 2\nv 2 2 2\nv 0 2 2\n"

static const struct text_row texts[] = {
    {ROW("stl, one triangle"), "a.stl", "solid a\n" FACET("0 0 0", "3 0 0", "0 4 0") "endsolid a\n", 6, 1, 0,
     0},
    {ROW("stl, capitals, CRLF, no last line end"), "a.STL",
     "SOLID\r\nFACET NORMAL 0 0 1\r\nOUTER LOOP\r\nVERTEX 0 0 0\r\nVERTEX 3E0 0 0\r\nVERTEX 0 +4.0e+00 0\r\n"
     "ENDLOOP\r\nENDFACET\r\nENDSOLID",
     6, 1, 0, 0},
    {ROW("stl, two solids, names of several words, blank lines"), "a.stl",
     "\n\nsolid left leg, of oak\n" FACET(
         "0 0 0", "3 0 0", "0 4 0") "endsolid left leg\n\n"
                                    "solid right\n" FACET("0 0 0", "6 0 0", "0 8 0") "endsolid\n\n",
     30, 2, 0, 0},
    {ROW("stl, no triangle"), "a.stl", "solid\nendsolid\n", 0, 0, 0, 0},
    {ROW("stl, no number and no area"), "a.stl",
     "solid\n" FACET("0 0 0", "nan 0 0", "0 4 0") FACET("0 0 0", "-1.#IND00 0 0", "0 4 0")
         FACET("0 0 0", "0 -inf 0", "0 4 0") FACET("0 0 0", "1 1 1", "2 2 2")
             FACET("0 0 0", "3 0 0", "0 4 0") "endsolid\n",
     6, 5, 1, 3},
    {ROW("stl, byte-order mark"), "a.stl",
     "\xEF\xBB\xBFsolid\n" FACET("0 0 0", "3 0 0", "0 4 0") "endsolid\n", 6, 1, 0, 0},
    {ROW("obj, cube of squares"), "a.obj",
     CUBE_CORNERS "f 1 2 3 4\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n", 24, 12, 0, 0},
    {ROW("obj, cube by negative indices, texture and normals"), "a.OBJ",
     "# cube\nmtllib x.mtl\no cube\n" CUBE_CORNERS
     "vt 0 0\nvn 0 0 1\ns off\nusemtl y\nf -8/1 -7/1 -6/1 -5/1\n"
     "f -4//1 -3//1 -2//1 -1//1\nf 1/1/1 2/1/1 6/1/1 5/1/1 # front\nf 2 3 7 6\nf 3 4 8 7\n\n   f 4 1 5 8",
     24, 12, 0, 0},
    {ROW("obj, negative indices count from where they stand"), "a.obj",
     "v 0 0 0\nv 3 0 0\nv 0 4 0\nf -3 -2 -1\nv 0 0 0\nv 6 0 0\nv 0 8 0\nf -3 -2 -1\n", 30, 2, 0, 0},
    {ROW("obj, joined lines, CRLF, colours, byte-order mark"), "a.obj",
     "\xEF\xBB\xBFv 0 0 0 0.5 0.5 0.5\r\nv 3 \\\r\n0 0\r\nv 0 4\\\r\n 0\r\nf 1 \\\r\n2 \\\r\n3\r\n", 6, 1, 0,
     0},
    {ROW("obj, re-entrant face"), "a.obj",
     "v 1 1 0\nv 1 2 0\nv 0 2 0\nv 0 0 0\nv 2 0 0\nv 2 1 0\nf 3 4 5 6 1 2\n", 3, 4, 0, 0},
    {ROW("obj, empty"), "a.obj", "", 0, 0, 0, 0},
    {ROW("obj, no number"), "a.obj", "v 0 0 0\nv nan 0 0\nv 0 4 0\nf 1 2 3\nf 1 1 3\n", 0, 2, 1, 1},
};

static void text_is(void **state)
{
    const struct text_row *r = *state;
    struct arena *arena = arena_make(0);
    struct mesh_report got = measured(make_file(arena, r->name, r->text, strlen(r->text)));
    check_double(&r->row, got.area, r->want, 1e-15);
    check_int(&r->row, (intmax_t)got.triangles, (intmax_t)r->triangles);
    check_int(&r->row, (intmax_t)got.degenerate, (intmax_t)r->degenerate);
    check_int(&r->row, (intmax_t)got.nonfinite, (intmax_t)r->nonfinite);
    arena_free(arena);
}

#define PHI 1.61803398874989484820
#define PHI_1 0.61803398874989484820 /* 1 / PHI */

struct solid_row {
    struct row row;
    double corners[20][3];
    int faces[20][5]; /* from 1; 0 ends a face */
    int corner_count, face_count;
    double want; /* of all faces */
};

/* The closed forms are those of the regular polygons. */
static const struct solid_row solids[] = {
    /* Edge 2 sqrt 2: sqrt 3 x edge2 */
    {ROW("tetrahedron"),
     {{1, 1, 1}, {1, -1, -1}, {-1, 1, -1}, {-1, -1, 1}},
     {{1, 2, 3}, {1, 4, 2}, {1, 3, 4}, {2, 4, 3}},
     4,
     4,
     13.8564064605510183},
    {ROW("cube"),
     {{1, 1, 1}, {-1, 1, 1}, {-1, -1, 1}, {1, -1, 1}, {1, 1, -1}, {-1, 1, -1}, {-1, -1, -1}, {1, -1, -1}},
     {{1, 2, 3, 4}, {8, 7, 6, 5}, {1, 5, 6, 2}, {2, 6, 7, 3}, {3, 7, 8, 4}, {4, 8, 5, 1}},
     8,
     6,
     24},
    /* Edge sqrt 2: 2 sqrt 3 x edge2 */
    {ROW("octahedron"),
     {{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}},
     {{1, 3, 5}, {3, 2, 5}, {2, 4, 5}, {4, 1, 5}, {3, 1, 6}, {2, 3, 6}, {4, 2, 6}, {1, 4, 6}},
     6,
     8,
     6.92820323027550917},
    /* Edge 2: 5 sqrt 3 x edge2 */
    {ROW("icosahedron"),
     {{0, 1, PHI},
      {0, -1, PHI},
      {0, 1, -PHI},
      {0, -1, -PHI},
      {1, PHI, 0},
      {-1, PHI, 0},
      {1, -PHI, 0},
      {-1, -PHI, 0},
      {PHI, 0, 1},
      {-PHI, 0, 1},
      {PHI, 0, -1},
      {-PHI, 0, -1}},
     {{1, 2, 9},  {1, 9, 5},  {1, 5, 6},  {1, 6, 10}, {1, 10, 2},  {2, 7, 9},   {9, 7, 11},
      {9, 11, 5}, {5, 11, 3}, {5, 3, 6},  {6, 3, 12}, {6, 12, 10}, {10, 12, 8}, {10, 8, 2},
      {2, 8, 7},  {4, 7, 8},  {4, 8, 12}, {4, 12, 3}, {4, 3, 11},  {4, 11, 7}},
     12,
     20,
     34.6410161513775459},
    /* Edge 2 / PHI: 3 sqrt(25 + 10 sqrt 5) x edge2 */
    {ROW("dodecahedron"),
     {{1, 1, 1},         {1, 1, -1},        {1, -1, 1},       {1, -1, -1},      {-1, 1, 1},
      {-1, 1, -1},       {-1, -1, 1},       {-1, -1, -1},     {0, PHI_1, PHI},  {0, PHI_1, -PHI},
      {0, -PHI_1, PHI},  {0, -PHI_1, -PHI}, {PHI_1, PHI, 0},  {PHI_1, -PHI, 0}, {-PHI_1, PHI, 0},
      {-PHI_1, -PHI, 0}, {PHI, 0, PHI_1},   {PHI, 0, -PHI_1}, {-PHI, 0, PHI_1}, {-PHI, 0, -PHI_1}},
     {{1, 9, 11, 3, 17},
      {1, 17, 18, 2, 13},
      {1, 13, 15, 5, 9},
      {5, 19, 7, 11, 9},
      {3, 11, 7, 16, 14},
      {17, 3, 14, 4, 18},
      {2, 18, 4, 12, 10},
      {2, 10, 6, 15, 13},
      {5, 15, 6, 20, 19},
      {7, 19, 20, 8, 16},
      {4, 14, 16, 8, 12},
      {6, 10, 12, 8, 20}},
     20,
     12,
     31.5438667271480164},
};

/* Faces as they are in OBJ; cut into triangles of floats in STL. */
static void solid_is(void **state)
{
    const struct solid_row *r = *state;
    struct arena *arena = arena_make(0);
    struct making making = {.arena = arena};
    const char *path = make_path(arena, "solid.obj");
    FILE *obj = fopen(path, "w");
    assert_non_null(obj);
    for (int i = 0; i < r->corner_count; i++)
        fprintf(obj, "v %.17g %.17g %.17g\n", r->corners[i][0], r->corners[i][1], r->corners[i][2]);
    for (int i = 0; i < r->face_count; i++) {
        const int *face = r->faces[i];
        fprintf(obj, "f");
        for (int k = 0; k < 5 && face[k]; k++) {
            fprintf(obj, " %d", face[k]);
            if (k >= 2)
                make_triangle(&making, r->corners[face[0] - 1], r->corners[face[k - 1] - 1],
                              r->corners[face[k] - 1]);
        }
        fprintf(obj, "\n");
    }
    fclose(obj);
    check_double(&r->row, measured(path).area / r->want, 1, 1e-15);
    check_double(&r->row, measured(make_binary_stl(&making, "solid.stl")).area / r->want, 1, 1e-7);
    check_double(&r->row, measured(make_text_stl(&making, "solid.stl")).area / r->want, 1, 1e-7);
    arena_free(arena);
}

/* The same torus three times, each file longer than the window. */
static void formats_agree(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct making making = {.arena = arena};
    make_torus(&making, 3, 1, 90);
    struct mesh_report binary = measured(make_binary_stl(&making, "torus.stl"));
    struct mesh_report text = measured(make_text_stl(&making, "torus.stl"));
    struct mesh_report obj = measured(make_obj(&making, "torus.obj"));
    check_int(HERE, (intmax_t)binary.triangles, 2 * 90 * 90);
    check_int(HERE, (intmax_t)text.triangles, 2 * 90 * 90);
    check_int(HERE, (intmax_t)obj.triangles, 2 * 90 * 90);
    check_double(HERE, text.area / binary.area, 1, 1e-13);
    check_double(HERE, obj.area / binary.area, 1, 1e-7);
    check_double(HERE, obj.area, 4 * 3.14159265358979323846 * 3.14159265358979323846 * 3, 2e-3);
    arena_free(arena);
}

/* Words may lie anywhere across the edge of the window. */
static void window_moves_anywhere(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    static const char facet[] = "solid\n" FACET("0 0 0", "3.0000 0 0", "0 4.0000 0") "endsolid\n";
    size_t length = MESH_WINDOW + 200;
    char *text = arena_alloc(arena, length, 1);
    for (size_t shift = 0; shift < 150; shift += 7) {
        memset(text, ' ', length);
        memcpy(text, "solid\nendsolid\n", 15);
        memcpy(text + MESH_WINDOW - shift, facet, sizeof facet - 1);
        struct mesh_report got = measured(make_file(arena, "edge.stl", text, length));
        check_double(HERE, got.area, 6, 0);
    }
    arena_free(arena);
}

/* What the C library reads from the same word: the same double up to 19 digits, next to it beyond. */
static void numbers_agree_with_the_c_library(void **state)
{
    (void)state;
    static const char *const forms[] = {"%.*g", "%.*e", "%.*f"};
    uint64_t seed = 77;
    for (int i = 0; i < 30000; i++) {
        char text[200];
        double unit = check_random_unit(&seed) - 0.5, got;
        double value = ldexp(unit, check_random_int(&seed, -60, 60));
        int digits = check_random_int(&seed, 1, 20);
        snprintf(text, sizeof text, forms[i % 3], digits, value);
        assert_true(mesh_number((struct mesh_word){text, strlen(text)}, &got));
        double want = strtod(text, NULL);
        if (fabs(got - want) > fabs(want) * 0x1p-52)
            fail_msg("seed 77, %d: %s: got %.17g, want %.17g", i, text, got, want);
        if (digits <= 15 && i % 3 == 0)
            check_double(HERE, got, want, 0);
    }
}

/* All the digits that a double may need, and two more: the same double, on every machine, whatever the host's idea of a
 * longer floating point number is. */
static void numbers_of_17_to_19_digits_are_exact(void **state)
{
    (void)state;
    uint64_t seed = 78;
    for (int i = 0; i < 60000; i++) {
        char text[64];
        double unit = check_random_unit(&seed) - 0.5, got;
        double value = ldexp(unit, check_random_int(&seed, -200, 200));
        snprintf(text, sizeof text, "%.*e", check_random_int(&seed, 16, 18), value);
        assert_true(mesh_number((struct mesh_word){text, strlen(text)}, &got));
        if (got != strtod(text, NULL))
            fail_msg("seed 78, %d: %s: got %.17g, want %.17g", i, text, got, strtod(text, NULL));
    }
}

struct number_row {
    struct row row;
    const char *text;
    bool good;
    double want;
};

static const struct number_row numbers[] = {
    {ROW("whole"), "12", true, 12},
    {ROW("signs"), "-0.5e-1", true, -0.05},
    {ROW("plus"), "+1.E+2", true, 100},
    {ROW("no digit before the point"), ".25", true, 0.25},
    {ROW("many zeros"), "0000000000000000000000000000001.5", true, 1.5},
    {ROW("many digits"), "0.1000000000000000055511151231257827021181583404541015625", true, 0.1},
    {ROW("large"), "123456789012345678901234567890", true, 123456789012345678901234567890.0},
    {ROW("too large"), "1e999", true, INFINITY},
    {ROW("far too large"), "1e99999999999", true, INFINITY},
    {ROW("too small"), "1e-999", true, 0},
    {ROW("zero of any size"), "0e999", true, 0},
    {ROW("two points"), "1.2.3", false, 0},
    {ROW("comma"), "1,5", false, 0},
    {ROW("no digit"), ".", false, 0},
    {ROW("no exponent"), "1e", false, 0},
    {ROW("sign only"), "-", false, 0},
    {ROW("nothing"), "", false, 0},
    {ROW("hexadecimal"), "0x10", false, 0},
    {ROW("word"), "vertex", false, 0},
};

static void number_is(void **state)
{
    const struct number_row *r = *state;
    double got = 0;
    check_int(&r->row, mesh_number((struct mesh_word){r->text, strlen(r->text)}, &got), r->good);
    check_double(&r->row, got, r->want, 0);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(texts, text_is), CHECK_ROWS(solids, solid_is), CHECK_ROWS(numbers, number_is),
                     CHECK_TEST(formats_agree), CHECK_TEST(window_moves_anywhere),
                     CHECK_TEST(numbers_agree_with_the_c_library),
                     CHECK_TEST(numbers_of_17_to_19_digits_are_exact));
}
