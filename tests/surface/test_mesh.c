#include "check.h"
#include "mesh_make.h"

#include "base/arena.h"
#include "surface/mesh.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846

struct polygon_row {
    struct row row;
    double at[8][3];
    size_t corners;
    double want;
    uint64_t triangles, degenerate, nonfinite;
};

static const struct polygon_row polygons[] = {
    {ROW("triangle"), {{0, 0, 0}, {3, 0, 0}, {0, 4, 0}}, 3, 6, 1, 0, 0},
    {ROW("square in space"), {{0, 0, 0}, {3, 0, 4}, {3, 5, 4}, {0, 5, 0}}, 4, 25, 2, 0, 0},
    /* An L of 3, tilted: its fan from the first corner folds back. */
    {ROW("re-entrant, flat"),
     {{0, 2, 0}, {0, 0, 0}, {2, 0, 2}, {2, 1, 2}, {1, 1, 1}, {1, 2, 1}},
     6,
     3 * 1.41421356237309504880,
     4,
     0,
     0},
    /* The same upright, its normal along y: 3 again, where its fan without regard to folds would be 4 */
    {ROW("re-entrant, flat and upright"),
     {{0, 0, 2}, {0, 0, 0}, {2, 0, 0}, {2, 0, 1}, {1, 0, 1}, {1, 0, 2}},
     6,
     3,
     4,
     0,
     0},
    /* Two triangles at a right angle along a diagonal: the fan, not the flat sum */
    {ROW("skew square"),
     {{0, 0, 0}, {2, 0, 0}, {2, 2, 2}, {0, 2, 0}},
     4,
     4 * 1.41421356237309504880,
     2,
     0,
     0},
    /* An L of 3 with one corner lifted by 3 is not flat: its fan, triangle by triangle */
    {ROW("re-entrant, skew"),
     {{0, 2, 0}, {0, 0, 3}, {2, 0, 0}, {2, 1, 0}, {1, 1, 0}, {1, 2, 0}},
     6,
     /* (0,-2,3)x(2,-2,0) = (6,6,4), then 2, 1 and 1 along z, halved */
     4.69041575982342955457 + 1 + 0.5 + 0.5,
     4,
     0,
     0},
    /* Lifted by so little that it counts as flat, but nothing folds: still the fan, sqrt(1 + 1e-8) */
    {ROW("square, all but flat"),
     {{0, 0, 0}, {1, 0, 0}, {1, 1, 1e-4}, {0, 1, 0}},
     4,
     1.0000000049999999875,
     2,
     0,
     0},
    {ROW("all corners on a line"), {{0, 0, 0}, {1, 2, 3}, {2, 4, 6}, {4, 8, 12}}, 4, 0, 2, 2, 0},
    {ROW("a corner twice"), {{1, 1, 0}, {1, 1, 0}, {5, 1, 0}}, 3, 0, 1, 1, 0},
    {ROW("a corner that is no number"), {{0, 0, 0}, {NAN, 0, 0}, {1, 1, 0}}, 3, 0, 1, 0, 1},
    {ROW("a corner at infinity"), {{0, 0, 0}, {INFINITY, 0, 0}, {1, 1, 0}}, 3, 0, 1, 0, 1},
    {ROW("a corner beyond reach"), {{0, 0, 0}, {1e200, 0, 0}, {0, 1e200, 0}}, 3, 0, 1, 0, 1},
    {ROW("two corners"), {{0, 0, 0}, {1, 0, 0}}, 2, 0, 0, 0, 0},
};

static void polygon_is(void **state)
{
    const struct polygon_row *r = *state;
    struct mesh_polygon polygon = {0};
    struct mesh_total total = {0};
    for (size_t i = 0; i < r->corners; i++)
        mesh_polygon_corner(&polygon, r->at[i]);
    mesh_add_polygon(&total, &polygon);
    check_double(&r->row, mesh_area(&total), r->want, 1e-15);
    check_int(&r->row, (intmax_t)total.triangles, (intmax_t)r->triangles);
    check_int(&r->row, (intmax_t)total.degenerate, (intmax_t)r->degenerate);
    check_int(&r->row, (intmax_t)total.nonfinite, (intmax_t)r->nonfinite);
}

static void triangle_is(void **state)
{
    const struct polygon_row *r = *state;
    struct mesh_total total = {0}, floats = {0};
    double corners[9];
    float narrow[9];
    if (r->corners != 3)
        return;
    for (int k = 0; k < 9; k++) {
        corners[k] = r->at[k / 3][k % 3];
        narrow[k] = (float)corners[k];
    }
    mesh_add(&total, corners);
    mesh_add_floats(&floats, (const unsigned char *)narrow, sizeof narrow, 1);
    check_double(&r->row, mesh_area(&total), r->want, 1e-15);
    check_double(&r->row, mesh_area(&floats), r->want, 1e-15);
    check_int(&r->row, (intmax_t)total.degenerate, (intmax_t)r->degenerate);
    check_int(&r->row, (intmax_t)total.nonfinite, (intmax_t)r->nonfinite);
    check_int(&r->row, (intmax_t)floats.degenerate, (intmax_t)r->degenerate);
    check_int(&r->row, (intmax_t)floats.nonfinite, (intmax_t)r->nonfinite);
}

static double area_of(const struct making *making)
{
    struct mesh_total total = {0};
    for (size_t i = 0; i < making->count; i++)
        mesh_add(&total, making->triangles[i].at);
    return mesh_area(&total);
}

struct solid_row {
    struct row row;
    void (*make)(struct making *making, int steps);
    double want;
};

static void ball_of_5(struct making *making, int steps)
{
    make_ball(making, 5, steps);
}

static void torus_of_3_and_1(struct making *making, int steps)
{
    make_torus(making, 3, 1, steps);
}

static const struct solid_row solids[] = {
    {ROW("ball"), ball_of_5, 4 * PI * 25},
    /* Torus R 3, r 1: 4 pi2 R r (identities) */
    {ROW("torus"), torus_of_3_and_1, 4 * PI *PI * 3},
};

/* Twice the steps, a quarter of the error. */
static void solid_converges(void **state)
{
    const struct solid_row *r = *state;
    double before = 0;
    for (int steps = 16; steps <= 256; steps *= 2) {
        struct arena *arena = arena_make(0);
        struct making making = {.arena = arena};
        r->make(&making, steps);
        double error = r->want - area_of(&making);
        if (before != 0)
            check_double(&r->row, before / error, 4, 0.02);
        before = error;
        arena_free(arena);
    }
    check_true(&r->row, fabs(before) < 3e-4 * r->want, "256 steps are within 3 in 10,000");
}

/* Needles: two long sides all but parallel, against exact integers: with corners of whole numbers the square of twice
 * the area is whole, and below 2^106 the long product is exact. */
static void needles_in_space(void **state)
{
    (void)state;
    __extension__ typedef __int128 wide;
    uint64_t seed = 5;
    for (int i = 0; i < 1000; i++) {
        int64_t u[3], v[3];
        double corners[9] = {0};
        for (int k = 0; k < 3; k++) {
            u[k] = check_random_int(&seed, -(1 << 20), 1 << 20);
            v[k] = u[k] + check_random_int(&seed, -1, 1);
            corners[3 + k] = (double)u[k];
            corners[6 + k] = (double)v[k];
        }
        wide x = (wide)u[1] * v[2] - (wide)u[2] * v[1], y = (wide)u[2] * v[0] - (wide)u[0] * v[2];
        wide z = (wide)u[0] * v[1] - (wide)u[1] * v[0];
        double want = (double)(sqrtl((long double)(x * x + y * y + z * z)) / 2);
        struct mesh_total total = {0};
        mesh_add(&total, corners);
        check_double(HERE, mesh_area(&total), want, 1e-15);
        check_int(HERE, (intmax_t)total.degenerate, want == 0);
    }
}

/* A million equal triangles: blocks lose nothing. */
static void many_add_up(void **state)
{
    (void)state;
    enum { MANY = 1000000, STRIDE = 36 };
    static unsigned char corners[MANY * STRIDE];
    const float triangle[9] = {0, 0, 0, 0.1F, 0, 0, 0, 0.3F, 0};
    for (size_t i = 0; i < MANY; i++)
        memcpy(corners + i * STRIDE, triangle, sizeof triangle);
    struct mesh_total total = {0};
    mesh_add_floats(&total, corners, STRIDE, MANY);
    check_double(HERE, mesh_area(&total) / ((double)0.1F * (double)0.3F / 2 * MANY), 1, 1e-14);
    check_int(HERE, (intmax_t)total.triangles, MANY);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(polygons, polygon_is), CHECK_ROWS(polygons, triangle_is),
                     CHECK_ROWS(solids, solid_converges), CHECK_TEST(needles_in_space),
                     CHECK_TEST(many_add_up));
}
