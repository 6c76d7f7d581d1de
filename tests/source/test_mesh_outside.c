/* The same file measured by general-purpose tools of Debian: numpy-stl (package python3-stl) in single precision, the
 * GNU Triangulated Surface library (package libgts-bin) in double precision. Skipped where one is not installed. */
#include "check.h"
#include "mesh_make.h"

#include "base/arena.h"
#include "base/err.h"
#include "source/part_list.h"

#include <math.h>
#include <stdio.h>
#include <sys/wait.h>

static double by_tool(struct arena *arena, const char *tool, const char *path)
{
    const char *command =
        arena_textf(arena, "/usr/bin/python3 tests/source/mesh_outside.py %s %s", tool, path);
    FILE *answer = popen(command, "r"); /* NOLINT(cert-env33-c): a fixed command on a file made here */
    double area = NAN;
    assert_non_null(answer);
    int read = fscanf(answer, "%lf", &area);
    int status = pclose(answer);
    if (WIFEXITED(status) && (WEXITSTATUS(status) == 77 || WEXITSTATUS(status) == 127)) {
        print_message("not installed, skipped: %s\n", tool);
        skip();
    }
    assert_int_equal(read, 1);
    return area;
}

static double by_us(const char *path)
{
    struct err_list errors = {0};
    struct mesh_report report;
    struct arena *arena = arena_make(0);
    assert_true(make_measured(arena, path, &report, &errors));
    arena_free(arena);
    return report.area;
}

static void some_triangles(struct making *making)
{
    uint64_t seed = 2026;
    for (int i = 0; i < 2000; i++) {
        double corner[3][3];
        for (int k = 0; k < 9; k++)
            corner[k / 3][k % 3] = 1000 * check_random_unit(&seed);
        make_triangle(making, corner[0], corner[1], corner[2]);
    }
}

static void some_torus(struct making *making)
{
    make_torus(making, 3, 1, 60);
}

static void some_ball(struct making *making)
{
    make_ball(making, 0.04, 60);
}

struct outside_row {
    struct row row;
    void (*make)(struct making *making);
};

static const struct outside_row meshes[] = {
    {ROW("scattered triangles"), some_triangles},
    {ROW("torus"), some_torus},
    {ROW("ball"), some_ball},
};

static void single_precision_agrees(void **state)
{
    const struct outside_row *r = *state;
    struct arena *arena = arena_make(0);
    struct making making = {.arena = arena};
    r->make(&making);
    const char *binary = make_binary_stl(&making, "outside-binary.stl");
    check_double(&r->row, by_us(binary) / by_tool(arena, "stl", binary), 1, 1e-6);
    const char *text = make_text_stl(&making, "outside-text.stl");
    check_double(&r->row, by_us(text) / by_tool(arena, "stl", text), 1, 1e-6);
    arena_free(arena);
}

static void double_precision_agrees(void **state)
{
    const struct outside_row *r = *state;
    struct arena *arena = arena_make(0);
    struct making making = {.arena = arena};
    r->make(&making);
    const char *path = make_obj(&making, "outside.obj");
    check_double(&r->row, by_us(path) / by_tool(arena, "gts", path), 1, 1e-12);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(meshes, single_precision_agrees),
                     CHECK_ROWS(meshes, double_precision_agrees));
}
