#include "shape_rows.h"

#define IN 0.0254
#define IN2 (IN * IN)

#define AREAS(...) .want_m2 = {__VA_ARGS__}
#define FACE(x) [REGION_FACE] = (x)
#define BACK(x) [REGION_BACK] = (x)
#define EDGES(x) [REGION_EDGES] = (x)
#define ENDS(x) [REGION_ENDS] = (x)
#define INSIDE(x) [REGION_INSIDE] = (x)
#define OUTSIDE(x) [REGION_OUTSIDE] = (x)

/* Worked by hand with the rules of the shapes, unless a source stands beside the row. */
const struct area_row area_rows[] = {
    /* 3/4 x 3 1/2 x 96 in: 2 x 336 + 2 x 72 + 2 x 2.625 = 821.25 in2 */
    {ROW("1x4 of 96 in, six sides"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(96 * IN, 3.5 * IN, 0.75 * IN)}},
     AREAS(FACE(336 * IN2), BACK(336 * IN2), EDGES(144 * IN2), ENDS(5.25 * IN2))},
    {ROW("board in millimetres"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(1.4, 0.7, 0.025)}},
     AREAS(FACE(0.98), BACK(0.98), EDGES(0.07), ENDS(0.035))},
    /* 100 x 60, chamfer 10: face 80 x 40; the strip over the rest of the face times sqrt 2 */
    {ROW("board, chamfer"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(0.1, 0.06, 0.02), [DIM_CHAMFER] = 0.01}},
     AREAS(FACE(0.0032), BACK(0.006), EDGES(0.002 + 0.0028 * ROOT2), ENDS(0.0012))},
    {ROW("board, full bevel"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(0.1, 0.06, 0.02), [DIM_CHAMFER] = 0.02}},
     AREAS(FACE(0.0012), BACK(0.006), EDGES(0.0048 * ROOT2))},
    /* A hip roof over 100 x 60: no face is left. */
    {ROW("board, chamfer to the ridge"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(0.1, 0.06, 0.03), [DIM_CHAMFER] = 0.03}},
     AREAS(BACK(0.006), EDGES(0.006 * ROOT2))},
    /* Quarter round r along the perimeter p, mitred at four corners: p r pi/2 - 8 r2 (pi/2 - 1) */
    {ROW("board, roundover"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(0.1, 0.06, 0.02), [DIM_ROUNDOVER] = 0.01}},
     AREAS(FACE(0.0032), BACK(0.006), EDGES(0.002 + 0.0032 * PI / 2 - 0.0008 * (PI / 2 - 1)), ENDS(0.0012))},
    {ROW("board, grooves"),
     {.shape = SHAPE_BOARD, .size_m = {LWT(1, 0.5, 0.02)}, GROOVES(two_grooves)},
     AREAS(FACE(0.517), BACK(0.5), EDGES(0.04), ENDS(0.02))},
    /* 3, 4, 5: area 6 */
    {ROW("triangle by sides"),
     {.shape = SHAPE_TRIANGLE, .size_m = {ABC(0.5, 0.3, 0.4, 0.01)}},
     AREAS(FACE(0.06), BACK(0.06), EDGES(0.012))},
    /* 13, 14, 15: area 84 */
    {ROW("triangle 13 14 15 in"),
     {.shape = SHAPE_TRIANGLE, .size_m = {ABC(13 * IN, 14 * IN, 15 * IN, IN)}},
     AREAS(FACE(84 * IN2), BACK(84 * IN2), EDGES(42 * IN2))},
    /* Half of an 80 x 30 rectangle; legs of 50 */
    {ROW("triangle by base and height"),
     {.shape = SHAPE_TRIANGLE, .size_m = {[DIM_BASE] = 0.08, [DIM_HEIGHT] = 0.03, [DIM_THICKNESS] = 0.01}},
     AREAS(FACE(0.0012), BACK(0.0012), EDGES(0.0018))},
    /* 3, 4, 5 has the inscribed radius 1: chamfered by a half, a quarter of the face stays. */
    {ROW("triangle, chamfer"),
     {.shape = SHAPE_TRIANGLE, .size_m = {ABC(3, 4, 5, 1), [DIM_CHAMFER] = 0.5}},
     AREAS(FACE(1.5), BACK(6), EDGES(12 * 0.5 + 4.5 * ROOT2))},
    {ROW("triangle, full bevel to the point"),
     {.shape = SHAPE_TRIANGLE, .size_m = {ABC(3, 4, 5, 1), [DIM_CHAMFER] = 1}},
     AREAS(BACK(6), EDGES(6 * ROOT2))},
    {ROW("round"),
     {.shape = SHAPE_ROUND, .size_m = {[DIM_DIAMETER] = 0.04, [DIM_LENGTH] = 0.7}},
     AREAS(FACE(PI * 0.028), ENDS(PI * 0.0008))},
    /* Drawer: 400 x 500 x 120 outside, 12 thick, open above; inside 376 x 476 x 108 */
    {ROW("box open above"),
     {.shape = SHAPE_BOX, .size_m = {LWT(0.4, 0.5, 0.012), [DIM_HEIGHT] = 0.12}, .open = BOX_TOP},
     AREAS(OUTSIDE(2 * 0.048 + 2 * 0.06 + 0.2), INSIDE(2 * 0.376 * 0.108 + 2 * 0.476 * 0.108 + 0.376 * 0.476),
           EDGES(0.2 - 0.376 * 0.476))},
    /* Case open in front and above: inside 368 x 284 x 584; rims: three boards of 16 in each plane */
    {ROW("box open in front and above"),
     {.shape = SHAPE_BOX, .size_m = {LWT(0.4, 0.3, 0.016), [DIM_HEIGHT] = 0.6}, .open = BOX_FRONT | BOX_TOP},
     AREAS(OUTSIDE(0.24 + 2 * 0.18 + 0.12), INSIDE(0.368 * 0.584 + 2 * 0.284 * 0.584 + 0.368 * 0.284),
           EDGES(2 * 0.016 * 0.6 + 0.016 * 0.368 + 2 * 0.016 * 0.3 + 0.016 * 0.368))},
    {ROW("closed box"),
     {.shape = SHAPE_BOX, .size_m = {LWT(0.4, 0.3, 0.1), [DIM_HEIGHT] = 0.6}},
     AREAS(OUTSIDE(1.08), INSIDE(2 * (0.2 * 0.1 + 0.1 * 0.4 + 0.2 * 0.4)))},
    /* All but the bottom open: one panel, its upper face inside, its four edges rims. */
    {ROW("box of one side"),
     {.shape = SHAPE_BOX, .size_m = {LWT(0.4, 0.3, 0.02), [DIM_HEIGHT] = 0.6}, .open = 63 - BOX_BOTTOM},
     AREAS(OUTSIDE(0.12), INSIDE(0.12), EDGES(2 * 0.4 * 0.02 + 2 * 0.3 * 0.02))},
    {ROW("polygon by points"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 0.02}, POINTS(l_shape)},
     AREAS(FACE(0.0064), BACK(0.0064), EDGES(0.008))},
    /* A kite of diagonals 160 and 120, sides 100, 100, 100, 100: edges 400 x 20 */
    {ROW("polygon by points, convex"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 0.02}, POINTS(kite)},
     AREAS(FACE(0.0096), BACK(0.0096), EDGES(0.008))},
    /* Its inscribed radius is 48: a chamfer of 12 leaves (3/4)^2 of the face. */
    {ROW("polygon by points, convex, chamfer"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 0.02, [DIM_CHAMFER] = 0.012}, POINTS(kite)},
     AREAS(FACE(0.0054), BACK(0.0096), EDGES(0.0032 + 0.0042 * ROOT2))},
    /* Seen from above: 0.4 c - (5 - pi / 4) c2, a quarter circle at the corner that re-enters */
    {ROW("polygon with a re-entrant corner, chamfer"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 0.02, [DIM_CHAMFER] = 0.01}, POINTS(l_shape)},
     AREAS(FACE(0.0064 - 0.004 + (5 - PI / 4) * 1e-4), BACK(0.0064),
           EDGES(0.004 + ROOT2 * (0.004 - (5 - PI / 4) * 1e-4)))},
    /* Six triangles of side 50: 6 x sqrt 3 / 4 x 0.0025 */
    {ROW("hexagon by corners and side"),
     {.shape = SHAPE_POLYGON, .size_m = {[DIM_SIDE] = 0.05, [DIM_THICKNESS] = 0.01}, .corners = 6},
     AREAS(FACE(0.00375 * ROOT3), BACK(0.00375 * ROOT3), EDGES(0.003))},
    {ROW("square by corners and side, chamfer"),
     {.shape = SHAPE_POLYGON,
      .size_m = {[DIM_SIDE] = 0.05, [DIM_THICKNESS] = 0.01, [DIM_CHAMFER] = 0.005},
      .corners = 4},
     AREAS(FACE(0.0016), BACK(0.0025), EDGES(0.001 + 0.0009 * ROOT2))},
    {ROW("disc"),
     {.shape = SHAPE_DISC, .size_m = {[DIM_DIAMETER] = 0.6, [DIM_THICKNESS] = 0.02}},
     AREAS(FACE(0.09 * PI), BACK(0.09 * PI), EDGES(0.012 * PI))},
    {ROW("disc with a hole"),
     {.shape = SHAPE_DISC, .size_m = {[DIM_DIAMETER] = 0.6, [DIM_HOLE] = 0.2, [DIM_THICKNESS] = 0.02}},
     AREAS(FACE(0.08 * PI), BACK(0.08 * PI), EDGES(0.016 * PI))},
    /* Frusta of height 10 between radius 300 and 290, and 100 and 110 */
    {ROW("disc with a hole, chamfer"),
     {.shape = SHAPE_DISC,
      .size_m = {[DIM_DIAMETER] = 0.6, [DIM_HOLE] = 0.2, [DIM_THICKNESS] = 0.02, [DIM_CHAMFER] = 0.01}},
     AREAS(FACE(PI *(0.0841 - 0.0121)), BACK(0.08 * PI), EDGES(0.008 * PI + PI * 0.008 * ROOT2))},
    /* A quarter of a torus tube outside: 2 pi r ((R - r) pi / 2 + r) */
    {ROW("disc, roundover"),
     {.shape = SHAPE_DISC, .size_m = {[DIM_DIAMETER] = 0.6, [DIM_THICKNESS] = 0.02, [DIM_ROUNDOVER] = 0.01}},
     AREAS(FACE(PI * 0.0841), BACK(0.09 * PI), EDGES(0.006 * PI + 0.02 * PI * (0.29 * PI / 2 + 0.01)))},
    /* A ball's upper half: 2 pi R2 */
    {ROW("disc rounded to a dome"),
     {.shape = SHAPE_DISC, .size_m = {[DIM_DIAMETER] = 0.6, [DIM_THICKNESS] = 0.3, [DIM_ROUNDOVER] = 0.3}},
     AREAS(BACK(0.09 * PI), EDGES(0.18 * PI))},
    /* Slant of 60 in 80 is 100: four trapezoids of 180 and 60 wide */
    {ROW("taper"),
     {.shape = SHAPE_TAPER, .size_m = {[DIM_WIDTH] = 0.18, [DIM_WIDTH2] = 0.06, [DIM_LENGTH] = 0.08}},
     AREAS(FACE(4 * 0.12 * 0.1), ENDS(0.036))},
    {ROW("pyramid"),
     {.shape = SHAPE_TAPER, .size_m = {[DIM_WIDTH] = 0.06, [DIM_LENGTH] = 0.04}},
     AREAS(FACE(4 * 0.03 * 0.05), ENDS(0.0036))},
    /* Frustum r 5, r 2, h 4: lateral 35 pi; cone r 3, h 4: 15 pi (identities) */
    {ROW("frustum"),
     {.shape = SHAPE_CONE, .size_m = {[DIM_DIAMETER] = 10, [DIM_DIAMETER2] = 4, [DIM_LENGTH] = 4}},
     AREAS(FACE(35 * PI), ENDS(29 * PI))},
    {ROW("cone to a point"),
     {.shape = SHAPE_CONE, .size_m = {[DIM_DIAMETER] = 6, [DIM_LENGTH] = 4}},
     AREAS(FACE(15 * PI), ENDS(9 * PI))},
    {ROW("turning: cylinder, shoulder, cone"),
     {.shape = SHAPE_TURNING, POINTS(stepped)},
     AREAS(FACE(PI *(0.05 * 0.1 + (0.000625 - 0.000225) + 0.015 * 0.025)), ENDS(PI / 4 * 0.0025))},
    {ROW("moulding"),
     {.shape = SHAPE_MOULDING, .size_m = {[DIM_GIRTH] = 0.085, [DIM_LENGTH] = 2.4}},
     AREAS(FACE(0.204))},
    /* 600 x 400, members 60: opening 480 x 280 */
    {ROW("frame"),
     {.shape = SHAPE_FRAME, .size_m = {LWT(0.6, 0.4, 0.02), [DIM_MEMBER] = 0.06}},
     AREAS(FACE(0.24 - 0.1344), BACK(0.24 - 0.1344), EDGES(2 * 0.02 + 2 * 0.76 * 0.02))},
    {ROW("area of a region"),
     {.shape = SHAPE_AREA, .area_m2 = 1.25, .area_region = REGION_INSIDE},
     AREAS(INSIDE(1.25))},
    {ROW("mesh measured before"), {.shape = SHAPE_MESH, .mesh_area_m2 = 0.75}, AREAS(FACE(0.75))},
};

const size_t area_row_count = sizeof area_rows / sizeof area_rows[0];
