#include "check.h"
#include "shape_rows.h"

#include "base/arena.h"
#include "surface/polygon.h"
#include "surface/sketch.h"

#include <math.h>

static double ring_area(struct sketch_ring ring)
{
    return ring.count ? fabs(polygon_signed_area(ring.points, ring.count)) : 0;
}

static void check_inside(const struct row *row, const struct sketch *sketch, struct sketch_ring ring)
{
    for (size_t i = 0; i < ring.count; i++) {
        struct point p = ring.points[i];
        check_true(row, p.x >= -1e-12 && p.x <= sketch->width_m + 1e-12, "within the width");
        check_true(row, p.y >= -1e-12 && p.y <= sketch->height_m + 1e-12, "within the height");
    }
}

static bool is_worked(const struct part *part)
{
    return part->size_m[DIM_CHAMFER] > 0 || part->size_m[DIM_ROUNDOVER] > 0;
}

/* A side view, or a strip seen from above, is smaller than its surface. */
static bool is_shortened(const struct part *part, enum region region)
{
    if (region == REGION_FACE)
        return part->shape == SHAPE_ROUND || part->shape == SHAPE_CONE || part->shape == SHAPE_TURNING;
    return region == REGION_EDGES && is_worked(part);
}

/* A worked face that re-enters is drawn without its strip. */
static bool is_left_whole(const struct part *part, enum region region)
{
    return region == REGION_FACE && is_worked(part) && part->point_count > 0 &&
           !polygon_convex(part->points, part->point_count);
}

/* Every region is there, with the area that it stands for (circles are drawn with 72 corners: 0.13 % less). */
static void areas_are_drawn(void **state)
{
    const struct area_row *r = *state;
    struct arena *arena = arena_make(0);
    struct sketch sketch = sketch_make(arena, &list, &r->part);
    double drawn[REGION_COUNT] = {0}, grooves = 0;
    for (size_t i = 0; i < sketch.count; i++) {
        const struct sketch_figure *f = &sketch.figures[i];
        check_inside(&r->row, &sketch, f->outline);
        check_inside(&r->row, &sketch, f->hole);
        drawn[f->region] += ring_area(f->outline) - ring_area(f->hole);
    }
    for (size_t i = 0; i < r->part.groove_count; i++)
        grooves += r->part.grooves[i].count * r->part.grooves[i].length_m * r->part.grooves[i].girth_m;
    for (enum region region = 0; region < REGION_COUNT; region++) {
        double want = r->want_m2[region] - (region == REGION_FACE ? grooves : 0);
        if (is_shortened(&r->part, region))
            check_true(&r->row, drawn[region] > 0 && drawn[region] < want, "drawn, and shortened");
        else if (!is_left_whole(&r->part, region))
            check_double(&r->row, want > 0 ? drawn[region] / want : drawn[region] + 1, 1, 2e-3);
    }
    check_int(&r->row, sketch.stands_for, r->part.shape == SHAPE_MESH || r->part.shape == SHAPE_AREA);
    arena_free(arena);
}

struct extent {
    double left, right, top, bottom;
};

static struct extent extent_of(struct sketch_ring ring)
{
    struct extent e = {INFINITY, -INFINITY, INFINITY, -INFINITY};
    for (size_t i = 0; i < ring.count; i++) {
        e.left = fmin(e.left, ring.points[i].x);
        e.right = fmax(e.right, ring.points[i].x);
        e.top = fmin(e.top, ring.points[i].y);
        e.bottom = fmax(e.bottom, ring.points[i].y);
    }
    return e;
}

static bool apart(struct sketch_ring one, struct sketch_ring other)
{
    struct extent a = extent_of(one), b = extent_of(other);
    return a.right < b.left || b.right < a.left || a.bottom < b.top || b.bottom < a.top;
}

/* Figures stand apart, but for what is left of a face inside its strip. */
static void figures_stand_apart(void **state)
{
    const struct area_row *r = *state;
    struct arena *arena = arena_make(0);
    struct sketch sketch = sketch_make(arena, &list, &r->part);
    size_t nested = !is_worked(&r->part) ? 0 : 3;
    for (size_t i = 0; i < sketch.count; i++)
        for (size_t k = i + 1; k < sketch.count; k++)
            if (k >= nested)
                check_true(&r->row, apart(sketch.figures[i].outline, sketch.figures[k].outline), "apart");
    arena_free(arena);
}

/* A row begins a gap below the one before; a row without figures takes no place. */
static void rows_follow(void **state)
{
    (void)state;
    struct pen pen = {.arena = arena_make(0), .gap_m = 0.01};
    pen_next_row(&pen);
    check_double(HERE, pen.y_m, 0, 0);
    pen_rectangle(&pen, REGION_FACE, 0.3, 0.2);
    pen_next_row(&pen);
    pen_next_row(&pen);
    check_double(HERE, pen.y_m, 0.21, 1e-15);
    arena_free(pen.arena);
}

/* The opening of a rim lies off the walls that are there: here left, right and back, none in front. */
static void rims_lie_where_the_walls_are(void **state)
{
    (void)state;
    struct part part = {.shape = SHAPE_BOX,
                        .size_m = {LWT(0.4, 0.3, 0.016), [DIM_HEIGHT] = 0.6},
                        .open = BOX_FRONT | BOX_TOP};
    struct arena *arena = arena_make(0);
    struct sketch sketch = sketch_make(arena, &list, &part);
    const struct sketch_figure *top = &sketch.figures[sketch.count - 1];
    struct extent outer = extent_of(top->outline), hole = extent_of(top->hole);
    check_int(HERE, top->region, REGION_EDGES);
    check_double(HERE, hole.left - outer.left, 0.016, 1e-15);
    check_double(HERE, outer.right - hole.right, 0.016, 1e-15);
    check_double(HERE, hole.top - outer.top, 0.016, 1e-15);
    check_double(HERE, outer.bottom - hole.bottom, 0, 1e-15);
    arena_free(arena);
}

/* A board of 400 x 300 x 20 mm: its back stands a twentieth of 400 mm beside its face, and its edges as far below. */
static void a_twentieth_of_the_part_keeps_figures_apart(void **state)
{
    (void)state;
    struct part part = {.shape = SHAPE_BOARD, .size_m = {LWT(0.4, 0.3, 0.02)}};
    struct arena *arena = arena_make(0);
    struct sketch sketch = sketch_make(arena, &list, &part);
    struct extent face = extent_of(sketch.figures[0].outline), back = extent_of(sketch.figures[1].outline),
                  edge = extent_of(sketch.figures[2].outline);
    check_int(HERE, sketch.figures[1].region, REGION_BACK);
    check_int(HERE, sketch.figures[2].region, REGION_EDGES);
    check_double(HERE, back.left - face.right, 0.02, 1e-12);
    check_double(HERE, edge.top - face.bottom, 0.02, 1e-12);
    arena_free(arena);
}

/* 100,000 corners are drawn as 360, and as large. */
static void many_corners_are_drawn_fast(void **state)
{
    (void)state;
    struct part part = {.shape = SHAPE_POLYGON,
                        .size_m = {[DIM_SIDE] = 1e-5, [DIM_THICKNESS] = 0.02, [DIM_CHAMFER] = 0.01},
                        .corners = 100000};
    struct arena *arena = arena_make(0);
    struct sketch sketch = sketch_make(arena, &list, &part);
    check_true(HERE, sketch.figures[0].outline.count == 360, "360 corners");
    check_double(HERE, ring_area(sketch.figures[0].outline), 1 / (4 * PI), 1e-4);
    arena_free(arena);
}

/* Edges are drawn in as many strips as it takes for none to be wider than the part: 1200 mm around a triangle that is drawn 500 mm
 * wide, on its longest side, are three of 400 mm. */
static void strips_are_no_wider_than_the_part(void **state)
{
    (void)state;
    struct part part = {.shape = SHAPE_TRIANGLE, .size_m = {ABC(0.3, 0.4, 0.5, 0.02)}};
    struct arena *arena = arena_make(0);
    struct sketch sketch = sketch_make(arena, &list, &part);
    size_t strips = 0;
    for (size_t i = 0; i < sketch.count; i++) {
        struct extent figure = extent_of(sketch.figures[i].outline);
        strips += sketch.figures[i].region == REGION_EDGES;
        if (sketch.figures[i].region == REGION_EDGES)
            check_double(HERE, figure.right - figure.left, 0.4, 1e-12);
    }
    check_int(HERE, (intmax_t)strips, 3);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(AREA_ROWS(areas_are_drawn), AREA_ROWS(figures_stand_apart), CHECK_TEST(rows_follow),
                     CHECK_TEST(rims_lie_where_the_walls_are),
                     CHECK_TEST(a_twentieth_of_the_part_keeps_figures_apart),
                     CHECK_TEST(many_corners_are_drawn_fast), CHECK_TEST(strips_are_no_wider_than_the_part));
}
