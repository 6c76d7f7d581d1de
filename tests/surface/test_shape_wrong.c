#include "check.h"
#include "shape_rows.h"

#include "base/arena.h"
#include "base/err.h"
#include "surface/takeoff.h"

static const struct point bow_tie[] = {{0, 0}, {1, 1}, {1, 0}, {0, 1}};
static const struct point twice[] = {{0, 0}, {1, 0}, {1, 0}, {0, 1}};
static const struct point spike[] = {{0, 0}, {2, 0}, {1, 0}, {0, 1}};
static const struct point two_corners[] = {{0, 0}, {1, 0}, {0, 0}};
static const struct point undercut[] = {{0, 0.05}, {0.1, 0.05}, {0.09, 0.03}};
static const struct point flat_profile[] = {{0.1, 0.05}, {0.1, 0.02}};
static const struct point thin_profile[] = {{0, 0}, {0.1, 0}};

struct wrong_row {
    struct row row;
    struct part part;
    const char *want;
};

static const struct wrong_row wrongs[] = {
    {ROW("triangle that cannot close"),
     {.shape = SHAPE_TRIANGLE, .size_m = {ABC(0.3, 0.4, 0.8, 0.01)}, .row = 3},
     "parts.csv: row 4, sides: expected three sides that close: each shorter than the others together, "
     "found 300 mm 400 mm 800 mm"},
    {ROW("triangle flat by rounding"),
     {.shape = SHAPE_TRIANGLE, .size_m = {ABC(0.3, 0.4, 0.7, 0.01)}},
     "parts.csv: row 1, sides: expected three sides that close: each shorter than the others together, "
     "found 300 mm 400 mm 700 mm"},
    {ROW("triangle with sides and base"),
     {.shape = SHAPE_TRIANGLE, .size_m = {ABC(0.3, 0.4, 0.5, 0.01), [DIM_BASE] = 0.3}},
     "parts.csv: row 1, base: expected either three sides, or base and height, found both"},
    {ROW("triangle without a height"),
     {.shape = SHAPE_TRIANGLE, .size_m = {[DIM_BASE] = 0.3, [DIM_THICKNESS] = 0.01}},
     "parts.csv: row 1, height: expected three sides, or base and height, found none"},
    {ROW("board without a width"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(1, 0, 0.02)}, .row = 7},
     "parts.csv: row 8, width: expected a length above 0, found none"},
    {ROW("board with a diameter"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(1, 1, 0.02), [DIM_DIAMETER] = 0.03}},
     "parts.csv: row 1, diameter: expected no diameter: the shape board has none, found 30 mm"},
    {ROW("board with corners"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(1, 1, 0.02)}, .corners = 4},
     "parts.csv: row 1, corners: expected no corners: only a polygon has them, found 4"},
    {ROW("chamfer deeper than the board"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(1, 1, 0.019), [DIM_CHAMFER] = 0.025}},
     "parts.csv: row 1, chamfer: expected at most 19 mm: the thickness, found 25 mm"},
    {ROW("chamfer wider than the face"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(1, 0.04, 0.04), [DIM_CHAMFER] = 0.03}},
     "parts.csv: row 1, chamfer: expected at most 20 mm: there the face is used up, found 30 mm"},
    {ROW("chamfer and roundover"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(1, 1, 0.02), [DIM_CHAMFER] = 0.01, [DIM_ROUNDOVER] = 0.01}},
     "parts.csv: row 1, roundover: expected either a chamfer or a roundover, found both"},
    {ROW("box without room"),
     {.shape = SHAPE_BOX, .size_m = {LWT(0.4, 0.3, 0.15), [DIM_HEIGHT] = 0.6}, .open = BOX_TOP},
     "parts.csv: row 1, thickness: expected walls that leave room inside, found 150 mm"},
    {ROW("box of air"),
     {.shape = SHAPE_BOX, .size_m = {LWT(0.4, 0.3, 0.01), [DIM_HEIGHT] = 0.6}, .open = 63},
     "parts.csv: row 1, open: expected at least one closed side, found six open ones"},
    {ROW("grooves without a face"),
     {.shape = SHAPE_BOX, .size_m = {LWT(0.4, 0.3, 0.01), [DIM_HEIGHT] = 0.6}, GROOVES(two_grooves)},
     "parts.csv: row 1, grooves: expected none: the shape has no face, found 2"},
    {ROW("outline that crosses itself"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 0.02}, POINTS(bow_tie), .row = 5},
     "parts.csv: row 6, points: expected an outline that neither crosses nor touches itself, "
     "found sides 1 and 3 that meet (each counted from the corner of its number)"},
    {ROW("outline with a corner twice"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 1}, POINTS(twice)},
     "parts.csv: row 1, points: expected corners in different places, found corner 2 twice"},
    {ROW("outline that turns back"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 1}, POINTS(spike)},
     "parts.csv: row 1, points: expected an outline that encloses a face, found one that turns back on "
     "itself at "
     "corner 2"},
    {ROW("outline of two corners"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 1}, POINTS(two_corners)},
     "parts.csv: row 1, points: expected at least three corners, found 2"},
    {ROW("polygon without anything"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 1}},
     "parts.csv: row 1, points: expected points, or corners and side, found none"},
    {ROW("polygon of two corners"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_SIDE] = 0.05, [DIM_THICKNESS] = 0.01}, .corners = 2},
     "parts.csv: row 1, corners: expected at least three corners, found 2"},
    {ROW("polygon without a side"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 0.01}, .corners = 5},
     "parts.csv: row 1, side: expected a length above 0, found none"},
    {ROW("polygon by points and a side"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 0.01, [DIM_SIDE] = 0.05}, POINTS(l_shape)},
     "parts.csv: row 1, side: expected either points, or corners and side, found both"},
    {ROW("polygon by points and corners"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 0.01}, .corners = 5, POINTS(l_shape)},
     "parts.csv: row 1, corners: expected either points, or corners and side, found both"},
    {ROW("hole as wide as the disc"),
     {.shape = SHAPE_DISC, .size_m = {[DIM_DIAMETER] = 0.2, [DIM_HOLE] = 0.2, [DIM_THICKNESS] = 0.02}},
     "parts.csv: row 1, hole: expected a hole smaller than the disc, found 200 mm"},
    {ROW("chamfers of a ring that meet"),
     {.shape = SHAPE_DISC,
      .size_m = {[DIM_DIAMETER] = 0.6, [DIM_HOLE] = 0.56, [DIM_THICKNESS] = 0.02, [DIM_CHAMFER] = 0.015}},
     "parts.csv: row 1, chamfer: expected at most 10 mm: there the face is used up, found 15 mm"},
    {ROW("member as wide as half the frame"),
     {.shape = SHAPE_FRAME, .size_m = {LWT(0.6, 0.4, 0.02), [DIM_MEMBER] = 0.2}},
     "parts.csv: row 1, member: expected a member narrower than half the frame, found 200 mm"},
    {ROW("profile that goes back"),
     {.shape = SHAPE_TURNING, POINTS(undercut)},
     "parts.csv: row 1, profile: expected points in order along the axis, found 90 mm after 100 mm"},
    {ROW("profile without a length"),
     {.shape = SHAPE_TURNING, POINTS(flat_profile)},
     "parts.csv: row 1, profile: expected a profile with a length, found all points at 100 mm"},
    {ROW("profile without a diameter"),
     {.shape = SHAPE_TURNING, POINTS(thin_profile)},
     "parts.csv: row 1, profile: expected a diameter above 0, found none"},
    {ROW("profile of one point"),
     {.shape = SHAPE_TURNING, .points = stepped, .point_count = 1},
     "parts.csv: row 1, profile: expected at least two points, found 1"},
    {ROW("area of nothing"),
     {.shape = SHAPE_AREA, .row = 2},
     "parts.csv: row 3, area: expected an area above 0, found none"},
};

static void wrong_is_told(void **state)
{
    const struct wrong_row *r = *state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    double got[REGION_COUNT];
    char line[ERR_LINE_SIZE];
    check_true(&r->row, !part_areas(arena, &list, &r->part, got, &errors), "refused");
    check_int(&r->row, (intmax_t)errors.count, 1);
    err_format(&errors.items[0], line, sizeof line);
    check_text(&r->row, line, r->want);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(wrongs, wrong_is_told));
}
