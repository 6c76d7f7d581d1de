#include "check.h"
#include "shape_rows.h"

#include "base/arena.h"
#include "base/err.h"
#include "surface/takeoff.h"

#include <math.h>

/* The turned face of a profile, and the ends by the way. */
static double turned(const struct point *points, size_t count, double *ends_m2)
{
    struct part part = {.shape = SHAPE_TURNING, .points = points, .point_count = count};
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    double area[REGION_COUNT];
    assert_true(part_areas(arena, &list, &part, area, &errors));
    arena_free(arena);
    *ends_m2 = area[REGION_ENDS];
    return area[REGION_FACE];
}

/* A ball's profile with `count` chords of equal angle. */
static double ball(double radius, int count)
{
    struct point points[1025];
    double ends;
    assert_true(count < 1025);
    for (int i = 0; i <= count; i++) {
        double angle = PI * i / count;
        points[i] = (struct point){radius * (1 - cos(angle)), 2 * radius * sin(angle)};
    }
    points[count].y = 0;
    double face = turned(points, (size_t)count + 1, &ends);
    check_double(HERE, ends, 0, 0);
    return face;
}

/* 4 pi r2; the error of chords falls with the square of their number. */
static void ball_converges(void **state)
{
    (void)state;
    double want = 4 * PI * 0.04 * 0.04, before = 0;
    for (int count = 8; count <= 1024; count *= 2) {
        double error = want - ball(0.04, count);
        check_true(HERE, error > 0, "chords lie inside");
        if (count > 8)
            check_double(HERE, before / error, 4, 0.02);
        before = error;
    }
    check_true(HERE, before < 2e-6 * want, "1,024 chords are within 2 millionths");
}

/* Pappus: what a line sweeps is its length times the way of its centroid; here of many short pieces. */
static double pappus(const struct point *points, size_t count)
{
    enum { PIECES = 1000 };
    double area = 0;
    for (size_t i = 1; i < count; i++) {
        double dx = points[i].x - points[i - 1].x, dr = (points[i].y - points[i - 1].y) / 2;
        double piece = sqrt(dx * dx + dr * dr) / PIECES;
        for (int k = 0; k < PIECES; k++)
            area += 2 * PI * (points[i - 1].y / 2 + dr * (k + 0.5) / PIECES) * piece;
    }
    return area;
}

static void turnings_agree_with_pappus(void **state)
{
    (void)state;
    uint64_t seed = 41;
    for (int round = 0; round < 100; round++) {
        struct point points[12];
        double along = 0, ends;
        for (int i = 0; i < 12; i++) {
            /* Every third step is a shoulder. */
            along += i % 3 == 2 ? 0 : 0.05 * check_random_unit(&seed) + 0.001;
            points[i] = (struct point){along, 0.08 * check_random_unit(&seed)};
        }
        double face = turned(points, 12, &ends), want = pappus(points, 12);
        check_double(HERE, face / want, 1, 1e-12);
        check_double(HERE, ends, PI * (pow(points[0].y / 2, 2) + pow(points[11].y / 2, 2)), 1e-15);
    }
}

/* Turned end for end, or measured from elsewhere, it is the same leg. */
static void direction_does_not_matter(void **state)
{
    (void)state;
    size_t count = sizeof stepped / sizeof stepped[0];
    struct point back[sizeof stepped / sizeof stepped[0]];
    double ends, ends_back;
    for (size_t i = 0; i < count; i++)
        back[i] = (struct point){0.5 - stepped[count - 1 - i].x, stepped[count - 1 - i].y};
    double face = turned(stepped, count, &ends), face_back = turned(back, count, &ends_back);
    check_double(HERE, face_back, face, 1e-15);
    check_double(HERE, ends_back, ends, 1e-15);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(ball_converges), CHECK_TEST(turnings_agree_with_pappus),
                     CHECK_TEST(direction_does_not_matter));
}
