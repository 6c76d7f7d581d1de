/* Board, triangle, polygon and disc: outline, faces, worked edges. */
#include "report/explain_shape.h"

#include "base/arena.h"
#include "surface/outline.h"
#include "surface/polygon.h"

#include <math.h>

enum { CORNERS_SHOWN = 40 };

/* "chamfer", "roundover", or NULL. */
static const char *work_of(const struct part *part)
{
    enum dimension d = part->size_m[DIM_CHAMFER] > 0 ? DIM_CHAMFER : DIM_ROUNDOVER;
    return part->size_m[d] > 0 ? dimension_name(d) : NULL;
}

static void explain_strip(const struct explaining *e, const struct outline *outline, const char *work)
{
    const double *size = e->m->part->size_m;
    struct outline used = *outline;
    bool chamfer = size[DIM_CHAMFER] > 0;
    double depth = size[chamfer ? DIM_CHAMFER : DIM_ROUNDOVER];
    struct strip strip = outline_work(&used, chamfer ? EDGE_CHAMFER : EDGE_ROUNDOVER, depth);
    if (chamfer)
        formula_line(e->formula, "strip", "sqrt(2) x ({back} - {face})", strip.strip_m2, 2);
    else if (depth <= outline->end_m)
        formula_line(
            e->formula, "strip",
            arena_textf(e->m->arena, "{perimeter} x {%s} x pi / 2 - {turns} x {%s}^2 x (pi - 2)", work, work),
            strip.strip_m2, 2);
    else
        formula_line(e->formula, "strip", "the perimeter at each depth, along the quarter round",
                     strip.strip_m2, 2);
}

/* With {area}, {perimeter} and, for worked edges, {turns} set. */
static void explain_outline(const struct explaining *e, const struct outline *outline)
{
    const char *work = work_of(e->m->part);
    struct arena *arena = e->m->arena;
    if (!work) {
        explain_region(e, REGION_FACE, "{area}");
        explain_region(e, REGION_BACK, "{area}");
        explain_region(e, REGION_EDGES, "{perimeter} x {thickness}");
        return;
    }
    explain_region(e, REGION_BACK, "{area}");
    if (e->m->part->size_m[DIM_CHAMFER] + e->m->part->size_m[DIM_ROUNDOVER] <= outline->end_m)
        explain_region(e, REGION_FACE,
                       arena_textf(arena, "{area} - {perimeter} x {%s} + {turns} x {%s}^2", work, work));
    else
        explain_region(e, REGION_FACE, "the outline inset on all sides");
    explain_strip(e, outline, work);
    explain_region(e, REGION_EDGES, arena_textf(arena, "{perimeter} x ({thickness} - {%s}) + {strip}", work));
}

void explain_board(const struct explaining *e)
{
    const double *size = e->m->part->size_m;
    const char *work = work_of(e->m->part);
    struct arena *arena = e->m->arena;
    struct outline outline = outline_rectangle(size[DIM_LENGTH], size[DIM_WIDTH]);
    if (!work) {
        explain_region(e, REGION_FACE, "{length} x {width}");
        explain_region(e, REGION_BACK, "{length} x {width}");
        explain_region(e, REGION_EDGES, "2 x {length} x {thickness}");
        explain_region(e, REGION_ENDS, "2 x {width} x {thickness}");
        return;
    }
    formula_set(e->formula, "turns", outline.bend, 0);
    explain_region(e, REGION_FACE,
                   arena_textf(arena, "({length} - 2 x {%s}) x ({width} - 2 x {%s})", work, work));
    explain_region(e, REGION_BACK, "{length} x {width}");
    formula_line(e->formula, "perimeter", "2 x ({length} + {width})", outline.perimeter_m, 1);
    explain_strip(e, &outline, work);
    explain_region(e, REGION_EDGES,
                   arena_textf(arena, "2 x {length} x ({thickness} - {%s}) + {strip}", work));
    explain_region(e, REGION_ENDS, arena_textf(arena, "2 x {width} x ({thickness} - {%s})", work));
}

void explain_triangle(const struct explaining *e)
{
    const double *size = e->m->part->size_m;
    double area = e->area_m2[REGION_BACK], half = (size[DIM_A] + size[DIM_B] + size[DIM_C]) / 2;
    double perimeter = half > 0 ? 2 * half : size[DIM_BASE] + 2 * hypot(size[DIM_BASE] / 2, size[DIM_HEIGHT]);
    struct outline outline = outline_triangle(area, perimeter);
    if (half > 0) {
        formula_line(e->formula, "s", "({a} + {b} + {c}) / 2", half, 1);
        formula_line(e->formula, "area", "sqrt({s} x ({s} - {a}) x ({s} - {b}) x ({s} - {c}))", area, 2);
        formula_line(e->formula, "perimeter", "2 x {s}", perimeter, 1);
    } else {
        formula_line(e->formula, "area", "{base} x {height} / 2", area, 2);
        formula_line(e->formula, "perimeter", "{base} + 2 x sqrt(({base} / 2)^2 + {height}^2)", perimeter, 1);
    }
    if (work_of(e->m->part))
        formula_line(e->formula, "turns", "{perimeter}^2 / (4 x {area})", outline.bend, 0);
    explain_outline(e, &outline);
}

static void explain_corners(const struct explaining *e)
{
    double corners = e->m->part->corners;
    struct outline outline = outline_regular(e->m->part->corners, e->m->part->size_m[DIM_SIDE]);
    formula_set(e->formula, "corners", corners, 0);
    formula_line(e->formula, "area", "{corners} x {side}^2 / (4 x tan(pi / {corners}))", outline.area_m2, 2);
    formula_line(e->formula, "perimeter", "{corners} x {side}", outline.perimeter_m, 1);
    if (work_of(e->m->part))
        formula_line(e->formula, "turns", "{corners} x tan(pi / {corners})", outline.bend, 0);
    explain_outline(e, &outline);
}

/* Each corner's share of the shoelace; of long outlines only that there is one. */
static void explain_shoelace(const struct explaining *e, const struct point *p, size_t count)
{
    const struct formula *f = e->formula;
    if (count > CORNERS_SHOWN)
        return;
    formula_words(e->formula, "corner", "x, y: x times the next y less the next x times y");
    for (size_t i = 0; i < count; i++) {
        struct point q = p[(i + 1) % count];
        struct text_short x = formula_number(f, p[i].x, 1), y = formula_number(f, p[i].y, 1);
        struct text_short next_x = formula_number(f, q.x, 1), next_y = formula_number(f, q.y, 1);
        formula_words(e->formula, arena_textf(e->m->arena, "%zu", i + 1),
                      arena_textf(e->m->arena, "%s, %s: %s x %s - %s x %s = %s", x.text, y.text, x.text,
                                  next_y.text, next_x.text, y.text,
                                  formula_number(f, p[i].x * q.y - q.x * p[i].y, 2).text));
    }
}

void explain_polygon(const struct explaining *e)
{
    const struct part *part = e->m->part;
    if (part->point_count == 0) {
        explain_corners(e);
        return;
    }
    struct outline outline = polygon_outline(e->m->arena, part->points, part->point_count);
    size_t count = polygon_corners(part->points, part->point_count);
    explain_shoelace(e, part->points, count);
    formula_line(e->formula, "area",
                 count > CORNERS_SHOWN ? "the shoelace of all corners" : "half of their sum", outline.area_m2,
                 2);
    formula_line(e->formula, "perimeter", "all sides together", outline.perimeter_m, 1);
    if (work_of(part))
        formula_line(e->formula, "turns",
                     outline.convex ? "tan(turn / 2) of all corners together"
                                    : "tan(turn / 2) of all corners, -turn / 2 of re-entrant ones",
                     outline.bend, 0);
    explain_outline(e, &outline);
}

void explain_disc(const struct explaining *e)
{
    const double *size = e->m->part->size_m;
    struct outline outline = outline_circle(size[DIM_DIAMETER], size[DIM_HOLE]);
    bool hole = size[DIM_HOLE] > 0;
    formula_line(e->formula, "area", hole ? "pi / 4 x ({diameter}^2 - {hole}^2)" : "pi / 4 x {diameter}^2",
                 outline.area_m2, 2);
    formula_line(e->formula, "perimeter", hole ? "pi x ({diameter} + {hole})" : "pi x {diameter}",
                 outline.perimeter_m, 1);
    formula_set(e->formula, "turns", outline.bend, 0);
    explain_outline(e, &outline);
}
