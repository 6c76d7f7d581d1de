#include "check.h"
#include "shape_rows.h"
#include "sums.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"
#include "base/err.h"
#include "report/text.h"
#include "surface/takeoff.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct schedule schedules[] = {{.name = "oil"}, {.name = "paint"}};

static const char *explained(struct arena *arena, const struct part *part, bool inches)
{
    struct job job = {.parts_file = "parts.csv", .schedules = schedules, .schedule_count = 2};
    struct err_list errors = {0};
    struct buf text;
    buf_init(&text, arena);
    struct screen screen = {&text, inches ? UNITS_US : UNITS_METRIC, false, SCREEN_USUAL};
    assert_true(show_part(&screen, &job, part, &errors));
    return text.text;
}

struct text_row {
    struct row row;
    struct part part;
    bool inches;
    const char *want;
};

static const struct covered covered[] = {{REGION_BACK, 2, 0.3, 0.12}, {REGION_BACK, 1, 0.02, 0.5}};

static const struct text_row texts[] = {
    {ROW("board, grooves, covered, three of it"),
     {.name = "top",
      .qty = 3,
      .shape = SHAPE_BOARD,
      .size_m = {LWT(1.4, 0.7, 0.025)},
      GROOVES(two_grooves),
      .covered = covered,
      .covered_count = 2,
      .schedule = {0, SCHEDULE_BARE, 1, SCHEDULE_NONE, 0, 0}},
     false,
     "top: board, in millimetres\n"
     "  face      length x width = 1400 x 700 = 980000 mm² = 0.98 m²\n"
     "  back      length x width = 1400 x 700 = 980000 mm² = 0.98 m²\n"
     "  edges     2 x length x thickness = 2 x 1400 x 25 = 70000 mm² = 0.07 m²\n"
     "  ends      2 x width x thickness = 2 x 700 x 25 = 35000 mm² = 0.035 m²\n"
     "  grooves   2 x 500 x 12 + 250 x 20 = 17000 mm² = 0.017 m²\n"
     "  3 of it:\n"
     "  face      3 x (face + grooves) = 3 x (980000 + 17000)\n"
     "            = 2991000 mm² = 2.991 m²: oil\n"
     "  covered   2 x 300 x 120 + 20 x 500 = 82000 mm² = 0.082 m²\n"
     "  back      3 x (back - covered) = 3 x (980000 - 82000)\n"
     "            = 2694000 mm² = 2.694 m²: left bare\n"
     "  edges     3 x edges = 3 x 70000 = 210000 mm² = 0.21 m²: paint\n"
     "  ends      3 x ends = 3 x 35000 = 105000 mm² = 0.105 m²: bare\n"},
    {ROW("lumber in inches"),
     {.name = "rail",
      .qty = 1,
      .shape = SHAPE_BOARD,
      .size_m = {LWT(96 * 0.0254, 3.5 * 0.0254, 0.75 * 0.0254)}},
     true,
     "rail: board, in inches\n"
     "  face      length x width = 96 x 3.5 = 336 in² = 2.333 ft²\n"
     "  back      length x width = 96 x 3.5 = 336 in² = 2.333 ft²\n"
     "  edges     2 x length x thickness = 2 x 96 x 0.75 = 144 in² = 1 ft²\n"
     "  ends      2 x width x thickness = 2 x 3.5 x 0.75 = 5.25 in² = 0.036 ft²\n"
     "  1 of it:\n"
     "  face      336 in² = 2.333 ft²: oil\n"
     "  back      336 in² = 2.333 ft²: oil\n"
     "  edges     144 in² = 1 ft²: oil\n"
     "  ends      5.25 in² = 0.036 ft²: oil\n"},
    {ROW("box open above"),
     {.name = "drawer",
      .qty = 1,
      .shape = SHAPE_BOX,
      .size_m = {LWT(0.4, 0.5, 0.012), [DIM_HEIGHT] = 0.12},
      .open = BOX_TOP},
     false,
     "drawer: box, in millimetres\n"
     "  l         length - 2 x thickness = 400 - 2 x 12 = 376 mm\n"
     "  w         width - 2 x thickness = 500 - 2 x 12 = 476 mm\n"
     "  h         height - thickness = 120 - 12 = 108 mm\n"
     "  outside   2 x length x height + 2 x width x height + length x width\n"
     "            = 2 x 400 x 120 + 2 x 500 x 120 + 400 x 500 = 416000 mm² = 0.416 m²\n"
     "  inside    2 x l x h + 2 x w x h + l x w\n"
     "            = 2 x 376 x 108 + 2 x 476 x 108 + 376 x 476 = 363008 mm² = 0.363 m²\n"
     "  edges     (length x width - l x w) = (400 x 500 - 376 x 476)\n"
     "            = 21024 mm² = 0.021 m²\n"
     "  1 of it:\n"
     "  edges     21024 mm² = 0.021 m²: oil\n"
     "  inside    363008 mm² = 0.363 m²: oil\n"
     "  outside   416000 mm² = 0.416 m²: oil\n"},
    {ROW("outline by points"),
     {.name = "bracket",
      .qty = 1,
      .shape = SHAPE_POLYGON,
      .size_m = {[DIM_THICKNESS] = 0.02},
      POINTS(l_shape)},
     false,
     "bracket: polygon, in millimetres\n"
     "  corner    x, y: x times the next y less the next x times y\n"
     "  1         0, 0: 0 x 0 - 100 x 0 = 0\n"
     "  2         100, 0: 100 x 40 - 100 x 0 = 4000\n"
     "  3         100, 40: 100 x 40 - 40 x 40 = 2400\n"
     "  4         40, 40: 40 x 100 - 40 x 40 = 2400\n"
     "  5         40, 100: 40 x 100 - 0 x 100 = 4000\n"
     "  6         0, 100: 0 x 0 - 0 x 100 = 0\n"
     "  area      half of their sum = 6400 mm² = 0.0064 m²\n"
     "  perimeter all sides together = 400 mm\n"
     "  face      area = 6400 mm² = 0.0064 m²\n"
     "  back      area = 6400 mm² = 0.0064 m²\n"
     "  edges     perimeter x thickness = 400 x 20 = 8000 mm² = 0.008 m²\n"
     "  1 of it:\n"
     "  face      6400 mm² = 0.0064 m²: oil\n"
     "  back      6400 mm² = 0.0064 m²: oil\n"
     "  edges     8000 mm² = 0.008 m²: oil\n"},
};

static void text_is(void **state)
{
    const struct text_row *r = *state;
    struct arena *arena = arena_make(0);
    check_text(&r->row, explained(arena, &r->part, r->inches), r->want);
    arena_free(arena);
}

/* What a step says, and the larger unit that it says it in: m² in mm², ft² in in²; 0 where it is no number. */
static double read_step(const char *step, double *value)
{
    const char *unit;
    if (!sums_read(step, value, &unit))
        return 0;
    if (strcmp(unit, " m²") == 0)
        return 1e6;
    if (strcmp(unit, " ft²") == 0)
        return 144;
    return *unit == '\0' || strcmp(unit, " mm") == 0 || strcmp(unit, " in") == 0 ||
           strcmp(unit, " mm²") == 0 || strcmp(unit, " in²") == 0;
}

/* Every sum on a line comes to the number behind it: up to the rounding of what stands in it, and of m² and ft2. */
static int check_line(const struct row *row, char *line, bool inches)
{
    double before = 0;
    int compared = 0;
    bool any = false;
    for (char *step = line, *next; step; step = next) {
        double value, unit;
        next = strstr(step, " = ");
        if (next) {
            *next = '\0';
            next += 3;
        }
        if ((unit = read_step(step, &value)) == 0)
            continue;
        double rounding = unit > 1 ? unit * 0.00051 : inches ? 0.003 : 0.3;
        if (any && fabs(value * unit - before) > rounding + 2e-3 * fabs(before))
            fail_msg("%s:%d: %s: %s: got %g, want %g", row->file, row->line, row->name, step, before,
                     value * unit);
        compared += any;
        before = value * unit;
        any = true;
    }
    return compared;
}

/* Puts lines together that were broken, takes off labels and remarks, and checks each. */
static int check_lines(const struct row *row, struct arena *arena, const char *text)
{
    int compared = 0;
    bool inches = strstr(text, ", in inches");
    while (*text) {
        struct buf line;
        buf_init(&line, arena);
        do {
            size_t length = strcspn(text, "\n"), label = length < 12 ? length : 12;
            check_true(row, text_characters(text, length) <= 80, "80 columns");
            buf_add(&line, line.length ? " " : "");
            buf_add_n(&line, text + label, length - label);
            text += length + 1;
        } while (strncmp(text, "            ", 12) == 0);
        char *colon = strstr(line.text, ": ");
        if (colon && strstr(colon, " = "))
            compared += check_line(row, colon + 2, inches);
        else {
            if (colon)
                *colon = '\0';
            compared += check_line(row, line.text, inches);
        }
    }
    return compared;
}

/* The last lines say what the take-off says. */
static void check_totals(const struct area_row *r, struct arena *arena, const char *text)
{
    text = strstr(text, " of it:\n");
    assert_non_null(text);
    for (enum region region = 0; region < REGION_COUNT; region++) {
        const char *line = strstr(text, arena_textf(arena, "\n  %s ", region_name(region)));
        check_int(&r->row, line != NULL, r->want_m2[region] > 0);
        if (line)
            check_double(&r->row, strtod(line + 13, NULL), r->want_m2[region] * 1e6, 0.06);
    }
}

static void numbers_come_out(void **state)
{
    const struct area_row *r = *state;
    struct arena *arena = arena_make(0);
    struct part part = r->part;
    part.name = "part";
    part.qty = 1;
    const char *metric = explained(arena, &part, false);
    int compared = check_lines(&r->row, arena, metric);
    check_true(&r->row, compared >= (part.shape == SHAPE_MESH || part.shape == SHAPE_AREA ? 1 : 3),
               "was compared");
    if (part.groove_count == 0)
        check_totals(r, arena, metric);
    check_true(&r->row, check_lines(&r->row, arena, explained(arena, &part, true)) > 0, "was compared");
    arena_free(arena);
}

static void impossible_sizes_are_not_explained(void **state)
{
    (void)state;
    struct part part = {.name = "flat", .qty = 1, .shape = SHAPE_TRIANGLE, .size_m = {ABC(1, 2, 4, 0.01)}};
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct buf text;
    buf_init(&text, arena);
    struct screen screen = {&text, UNITS_METRIC, false, SCREEN_USUAL};
    assert_false(show_part(&screen, &list, &part, &errors));
    check_int(HERE, (intmax_t)errors.count, 1);
    check_text(HERE, text.text, "");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(texts, text_is), AREA_ROWS(numbers_come_out),
                     CHECK_TEST(impossible_sizes_are_not_explained));
}
