#include "check.h"
#include "shape_rows.h"

#include "base/err.h"
#include "surface/takeoff.h"

struct doubt_row {
    struct row row;
    struct part parts[5];
    size_t count;
    bool inches;
    const char *want; /* NULL: nothing looks wrong */
};

#define BOARD(title, l, w, t)                                                                                \
    {                                                                                                        \
        .name = (title), .shape = SHAPE_BOARD, .size_m = { LWT(l, w, t) }                                    \
    }
#define IN 0.0254

static const struct point dart[] = {{0, 0}, {0.2, 0}, {0.05, 0.05}, {0, 0.2}};
static const struct point far_apart[] = {{0, 0}, {0.2, 0}, {0.2, 7}};
static const struct point long_profile[] = {{1, 0.04}, {8, 0.04}};

static const struct doubt_row doubts[] = {
    {ROW("a desk"),
     {BOARD("top", 1.4, 0.7, 0.025),
      BOARD("leg", 0.7, 0.06, 0.06),
      {.name = "knob", .shape = SHAPE_ROUND, .size_m = {[DIM_DIAMETER] = 0.03, [DIM_LENGTH] = 0.02}}},
     3,
     false,
     NULL},
    {ROW("a bookcase in inches"),
     {BOARD("side", 72 * IN, 12 * IN, 0.75 * IN), BOARD("shelf", 30 * IN, 12 * IN, 0.75 * IN)},
     2,
     true,
     NULL},
    {ROW("small boxes in millimetres"),
     {BOARD("lid", 0.12, 0.08, 0.006), BOARD("side", 0.12, 0.05, 0.006)},
     2,
     false,
     NULL},
    {ROW("only knobs"),
     {{.name = "knob", .shape = SHAPE_ROUND, .size_m = {[DIM_DIAMETER] = 0.03, [DIM_LENGTH] = 0.02}}},
     1,
     false,
     NULL},
    {ROW("6 m is long, and may be"), {BOARD("rail", 6, 0.1, 0.02)}, 1, false, NULL},
    {ROW("no sizes at all"), {{.name = "given", .shape = SHAPE_AREA, .area_m2 = 100}}, 1, false, NULL},
    {ROW("a lost decimal point"),
     {BOARD("shelf", 0.8, 0.3, 0.02), BOARD("top", 14, 0.7, 0.025)},
     2,
     false,
     "parts.csv: row 2, length: warning: \"top\" measures 14 m, over 6 m: was a decimal point lost, or "
     "another "
     "unit meant?"},
    {ROW("three of them"),
     {BOARD("a", 1, 8, 0.02),
      BOARD("b", 0.8, 0.3, 0.02),
      BOARD("c", 9, 0.3, 0.02),
      BOARD("d", 0.8, 0.3, 0.02),
      {.name = "e", .shape = SHAPE_TURNING, POINTS(long_profile)}},
     5,
     false,
     "parts.csv: row 1, width: warning: \"a\" measures 8000 mm, over 6 m: was a decimal point lost, or "
     "another "
     "unit meant? "
     "(and 2 more such parts)"},
    {ROW("an outline too long"),
     {{.name = "panel", .shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 0.02}, POINTS(far_apart)}},
     1,
     false,
     "parts.csv: row 1, points: warning: \"panel\" measures 7000 mm, over 6 m: was a decimal point lost, or "
     "another unit meant?"},
    {ROW("columns exchanged"),
     {BOARD("rail", 0.8, 0.02, 0.09)},
     1,
     false,
     "parts.csv: row 1, thickness: warning: \"rail\" is thicker (90 mm) than wide (20 mm): were the two "
     "exchanged?"},
    {ROW("inches read as millimetres"),
     {BOARD("side", 0.072, 0.012, 0.00075),
      BOARD("shelf", 0.030, 0.012, 0.00075),
      {.name = "foot", .shape = SHAPE_ROUND, .size_m = {[DIM_DIAMETER] = 0.0015, [DIM_LENGTH] = 0.004}}},
     3,
     false,
     "parts.csv: row 1, length: warning: \"side\" measures 72 mm, and most of the list is as small: if "
     "inches "
     "were meant, "
     "write \"units\": \"in\" in the job"},
    {ROW("one row says its unit, three do not"),
     {BOARD("top", 1.4, 0.7, 0.025), BOARD("side", 0.072, 0.012, 0.00075),
      BOARD("shelf", 0.030, 0.012, 0.00075), BOARD("back", 0.072, 0.03, 0.00025)},
     4,
     false,
     "parts.csv: row 2, length: warning: \"side\" measures 72 mm, and most of the list is as small: if "
     "inches "
     "were meant, "
     "write \"units\": \"in\" in the job"},
    {ROW("half of the list is small"),
     {BOARD("top", 1.4, 0.7, 0.025), BOARD("side", 0.072, 0.012, 0.00075), BOARD("leg", 0.7, 0.06, 0.06),
      BOARD("inlay", 0.03, 0.012, 0.0006)},
     4,
     false,
     NULL},
    {ROW("millimetres read as inches"),
     {BOARD("top", 1400 * IN, 700 * IN, 25 * IN), BOARD("leg", 700 * IN, 60 * IN, 60 * IN)},
     2,
     true,
     "parts.csv: row 1, length: warning: \"top\" measures 116 ft 8 in, and most of the list is as large: if "
     "millimetres were "
     "meant, write \"units\": \"mm\" in the job"},
    {ROW("a single part, in millimetres read as inches"),
     {BOARD("top", 1400 * IN, 700 * IN, 25 * IN)},
     1,
     true,
     "parts.csv: row 1, length: warning: \"top\" measures 116 ft 8 in, and most of the list is as large: if "
     "millimetres were "
     "meant, write \"units\": \"mm\" in the job"},
    {ROW("a chamfer around a corner that re-enters"),
     {{.name = "dart",
       .shape = SHAPE_POLYGON,
       .size_m = {[DIM_THICKNESS] = 0.02, [DIM_CHAMFER] = 0.003},
       POINTS(dart)}},
     1,
     false,
     "parts.csv: row 1, chamfer: warning: \"dart\" has corners that point inwards: its worked edge is "
     "rounded "
     "there, and "
     "exact only while no narrow place of the face is used up"},
    {ROW("the same without a chamfer"),
     {{.name = "dart", .shape = SHAPE_POLYGON, .size_m = {[DIM_THICKNESS] = 0.02}, POINTS(dart)}},
     1,
     false,
     NULL},
    {ROW("a roundover of a convex outline"),
     {{.name = "kite",
       .shape = SHAPE_POLYGON,
       .size_m = {[DIM_THICKNESS] = 0.02, [DIM_ROUNDOVER] = 0.003},
       POINTS(kite)}},
     1,
     false,
     NULL},
};

static void doubt_is(void **state)
{
    const struct doubt_row *r = *state;
    struct part parts[5];
    struct err_list warnings = {0};
    char line[ERR_LINE_SIZE] = "";
    for (size_t i = 0; i < r->count; i++) {
        parts[i] = r->parts[i];
        parts[i].row = i;
    }
    struct job job = {.file = "job.json",
                      .parts_file = "parts.csv",
                      .parts = parts,
                      .part_count = r->count,
                      .inches = r->inches};
    takeoff_doubts(&job, &warnings);
    if (warnings.count > 0)
        err_format(&warnings.items[0], line, sizeof line);
    check_text(&r->row, line, r->want ? r->want : "");
    check_int(&r->row, (intmax_t)warnings.count, r->want != NULL);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(doubts, doubt_is));
}
