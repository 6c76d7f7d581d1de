#include "surface/outline.h"

#include <math.h>

#define PI 3.14159265358979323846
/* Sides closer than this to parallel have nothing between them: the face has shrunk to a line. */
#define FLAT_TURN (PI - 1e-9)

struct outline outline_rectangle(double length_m, double width_m)
{
    return (struct outline){
        .area_m2 = length_m * width_m,
        .perimeter_m = 2 * (length_m + width_m),
        .bend = 4,
        .end_m = fmin(length_m, width_m) / 2,
        .convex = true,
    };
}

/* The three sides meet in the centre of the inscribed circle. */
struct outline outline_triangle(double area_m2, double perimeter_m)
{
    return (struct outline){
        .area_m2 = area_m2,
        .perimeter_m = perimeter_m,
        .bend = perimeter_m / area_m2 * perimeter_m / 4,
        .end_m = 2 * area_m2 / perimeter_m,
        .convex = true,
    };
}

struct outline outline_regular(int corners, double side_m)
{
    double tangent = tan(PI / corners), inradius = side_m / (2 * tangent);
    return (struct outline){
        .area_m2 = corners * side_m * inradius / 2,
        .perimeter_m = corners * side_m,
        .bend = corners * tangent,
        .end_m = inradius,
        .convex = true,
    };
}

struct outline outline_circle(double diameter_m, double hole_m)
{
    double width = (diameter_m - hole_m) / 2;
    return (struct outline){
        .area_m2 = PI / 4 * (diameter_m - hole_m) * (diameter_m + hole_m),
        .perimeter_m = PI * (diameter_m + hole_m),
        .bend = hole_m > 0 ? 0 : PI,
        .end_m = hole_m > 0 ? width / 2 : width,
        .convex = true,
    };
}

struct outline outline_other(double area_m2, size_t count, const double *side_m, const double *turn)
{
    struct outline outline = {.area_m2 = area_m2};
    for (size_t i = 0; i < count; i++) {
        outline.perimeter_m += side_m[i];
        outline.bend += turn[i] < 0 ? turn[i] / 2 : tan(turn[i] / 2);
    }
    double p = outline.perimeter_m, square = p * p - 4 * outline.bend * area_m2;
    outline.end_m = square >= 0 ? 2 * area_m2 / (p + sqrt(square)) : p / (2 * outline.bend);
    return outline;
}

/* How fast a side shortens while the outline shrinks. */
static double shortening(const struct outline *outline, size_t side)
{
    size_t next = (side + 1) % outline->count;
    return tan(outline->turn[side] / 2) + tan(outline->turn[next] / 2);
}

/* Perimeter, bend and the depth of the next used-up side, from the sides that are left. */
static void measure(struct outline *outline)
{
    outline->perimeter_m = outline->bend = 0;
    outline->end_m = INFINITY;
    for (size_t i = 0; i < outline->count; i++) {
        outline->perimeter_m += outline->side_m[i];
        outline->bend += tan(outline->turn[i] / 2);
        double rate = shortening(outline, i);
        if (rate > 0)
            outline->end_m = fmin(outline->end_m, outline->side_m[i] / rate);
    }
}

struct outline outline_convex(double area_m2, size_t count, double *side_m, double *turn)
{
    struct outline outline = {.area_m2 = area_m2, .convex = true, .count = count};
    outline.side_m = side_m;
    outline.turn = turn;
    measure(&outline);
    return outline;
}

/* Takes away the sides that the step used up; false when no face is left. */
static bool drop_sides(struct outline *outline, double step_m)
{
    size_t kept = 0, count = outline->count;
    double carried = 0, longest = outline->perimeter_m;
    for (size_t i = 0; i < count; i++)
        outline->side_m[i] -= step_m * shortening(outline, i);
    for (size_t i = 0; i < count; i++) {
        double turn = outline->turn[i] + carried;
        if (outline->side_m[i] <= 1e-14 * longest) {
            carried = turn;
            continue;
        }
        outline->side_m[kept] = outline->side_m[i];
        outline->turn[kept++] = turn;
        carried = 0;
    }
    outline->count = kept;
    if (kept < 3)
        return false;
    outline->turn[0] += carried;
    for (size_t i = 0; i < kept; i++)
        if (outline->turn[i] > FLAT_TURN)
            return false;
    return true;
}

/* The strip between two depths of one stage, whose perimeter and bend hold from the first depth on. */
static double strip_part(const struct outline *outline, enum edge_work work, double whole_m, double from_m,
                         double to_m)
{
    double step = to_m - from_m;
    if (work == EDGE_CHAMFER)
        return sqrt(2) * (outline->perimeter_m - outline->bend * step) * step;
    /* Depth d lies at the angle t of the arc: d = whole (1 - cos t). */
    double t0 = 2 * asin(sqrt(from_m / (2 * whole_m))), t1 = 2 * asin(sqrt(to_m / (2 * whole_m)));
    double constant = outline->perimeter_m + 2 * outline->bend * (from_m - whole_m);
    return whole_m * (constant * (t1 - t0) + 2 * outline->bend * whole_m * (sin(t1) - sin(t0)));
}

struct strip outline_work(struct outline *outline, enum edge_work work, double depth_m)
{
    struct strip strip = {.face_m2 = outline->area_m2};
    bool left = true;
    while (left && strip.depth_m < depth_m) {
        double from = strip.depth_m, step = fmin(outline->end_m, depth_m - from);
        bool stage_ends = step >= outline->end_m;
        strip.depth_m = stage_ends ? from + step : depth_m;
        strip.strip_m2 += strip_part(outline, work, depth_m, from, strip.depth_m);
        strip.face_m2 -= (outline->perimeter_m - outline->bend * step) * step;
        if (!stage_ends)
            break;
        left = outline->count > 0 && drop_sides(outline, step);
        if (left)
            measure(outline);
    }
    if (!left || strip.face_m2 < 0)
        strip.face_m2 = 0;
    return strip;
}
