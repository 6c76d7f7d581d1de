#include "source/read_parts.h"

#include "base/arena.h"
#include "base/length.h"
#include "base/number.h"

#include <string.h>

enum { CORNERS_MOST = 100000, GROOVES_MOST = 1000000 };

static void refuse(struct part_reading *in, int column, const char *expected)
{
    rows_refuse(&in->rows, (size_t)column, expected);
}

static void read_length(struct part_reading *in, int column, double *length_m)
{
    struct err fault;
    if (part_cell(in, column) && !length_parse(part_cell(in, column), in->draft->units, length_m, &fault))
        refuse(in, column, fault.expected);
}

static bool has_width(enum shape shape)
{
    return shape == SHAPE_BOARD || shape == SHAPE_FRAME;
}

static bool has_thickness(enum shape shape)
{
    return has_width(shape) || shape == SHAPE_TRIANGLE || shape == SHAPE_POLYGON || shape == SHAPE_DISC;
}

/* Lumber by its trade size fills in what the row leaves out. */
static void read_lumber(struct part_reading *in)
{
    struct err fault;
    struct lumber lumber;
    double *size = in->part->size_m;
    if (!part_cell(in, COLUMN_SIZE))
        return;
    if (!lumber_parse(part_cell(in, COLUMN_SIZE), &lumber, &fault)) {
        refuse(in, COLUMN_SIZE, fault.expected);
        return;
    }
    if (!has_thickness(in->part->shape))
        refuse(in, COLUMN_SIZE,
               arena_textf(in->draft->reading->arena, "nothing: lumber has no size as a %s",
                           shape_name(in->part->shape)));
    if (size[DIM_THICKNESS] == 0)
        size[DIM_THICKNESS] = lumber.thickness_m;
    if (size[DIM_WIDTH] == 0 && has_width(in->part->shape))
        size[DIM_WIDTH] = lumber.width_m;
}

static void read_sides(struct part_reading *in)
{
    const char *text = part_cell(in, COLUMN_SIDES);
    if (text && !lengths_split(text, in->draft->units, 3, &in->part->size_m[DIM_A]))
        refuse(in, COLUMN_SIDES, "three lengths with blanks between: \"300 mm 400 mm 500 mm\"");
}

static void read_corners(struct part_reading *in)
{
    struct err fault;
    int64_t corners;
    const char *text = part_cell(in, COLUMN_CORNERS);
    if (!text)
        return;
    if (count_parse(text, CORNERS_MOST, &corners, &fault))
        in->part->corners = (int)corners;
    else
        refuse(in, COLUMN_CORNERS, fault.expected);
}

static void read_open(struct part_reading *in)
{
    static const char *const sides[] = {"front", "back", "left", "right", "top", "bottom"};
    const char *text = part_cell(in, COLUMN_OPEN);
    while (text && *text) {
        size_t length = strcspn(text, " ,;"), i = 0;
        while (i < sizeof sides / sizeof sides[0] && !text_same_n(text, length, sides[i]))
            i++;
        if (length > 0 && i == sizeof sides / sizeof sides[0]) {
            refuse(in, COLUMN_OPEN, "any of front, back, left, right, top, bottom");
            return;
        }
        if (length > 0)
            in->part->open |= 1u << i;
        text += length;
        text += strspn(text, " ,;");
    }
    if (part_cell(in, COLUMN_OPEN) && in->part->shape != SHAPE_BOX)
        refuse(in, COLUMN_OPEN, "nothing: only a box has open sides");
}

static void read_area(struct part_reading *in)
{
    struct err fault;
    const char *text = part_cell(in, COLUMN_AREA), *region = part_cell(in, COLUMN_REGION);
    if (text && !area_parse(text, in->draft->units, &in->part->area_m2, &fault))
        refuse(in, COLUMN_AREA, fault.expected);
    if (region && !region_find(region, &in->part->area_region))
        refuse(in, COLUMN_REGION, "a region: face, back, edges, ends, inside or outside");
    if (in->part->shape == SHAPE_AREA)
        return;
    if (text)
        refuse(in, COLUMN_AREA, "nothing: only the shape \"area\" has one");
    if (region)
        refuse(in, COLUMN_REGION, "nothing: only the shape \"area\" has one");
}

void part_read_sizes(struct part_reading *in)
{
    for (int d = 0; d <= DIM_SIDE; d++)
        read_length(in, COLUMN_LENGTHS + d, &in->part->size_m[d]);
    read_length(in, COLUMN_CHAMFER, &in->part->size_m[DIM_CHAMFER]);
    read_length(in, COLUMN_ROUNDOVER, &in->part->size_m[DIM_ROUNDOVER]);
    read_lumber(in);
    read_sides(in);
    read_corners(in);
    read_open(in);
    read_area(in);
    part_read_mesh(in);
    part_read_lists(in);
}
