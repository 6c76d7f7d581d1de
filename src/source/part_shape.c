/* The cells of a part list that say a part's shape: lengths, areas, points, grooves, what is covered, meshes. */
#include "source/part_list.h"

#include "base/arena.h"
#include "base/length.h"
#include "base/measure.h"
#include "base/number.h"
#include "base/text.h"
#include "format/words.h"

#include <inttypes.h>
#include <string.h>
#include <unistd.h>

enum { TEXT_MOST = 200, CORNERS_MOST = 100000 };

/* Takes the first length off and the rest by itself: the shortest first that lets the rest be read. Since a number may
 * hold a blank ("3 1/2"), only trying tells where one ends; with three at most that is quick. */
bool lengths_split(const char *text, enum length_unit bare, size_t count, double *lengths)
{
    char first[TEXT_MOST];
    size_t length = strlen(text);
    if (count == 1)
        return length_parse(text, bare, lengths, NULL);
    if (length >= sizeof first)
        return false;
    for (size_t at = 1; at + 1 < length; at++) {
        if (text[at] != ' ' || text[at - 1] == ' ')
            continue;
        memcpy(first, text, at);
        first[at] = '\0';
        if (length_parse(first, bare, lengths, NULL) &&
            lengths_split(text + at + 1, bare, count - 1, lengths + 1))
            return true;
    }
    return false;
}

static void refuse(struct part_reading *in, int column, const char *expected)
{
    rows_refuse(&in->rows, (size_t)column, expected);
}

/* Beyond what a workshop has, most likely in another unit than the job's: reported once, for then all of the list is. */
static void refuse_length(struct part_reading *in, int column)
{
    const char *cell = part_cell(in, column), *most = limits[LIMIT_LENGTH].expected;
    bool bare = cell[strlen(cell) - 1] >= '0' && cell[strlen(cell) - 1] <= '9';
    if (!bare || in->draft->units == LENGTH_MM) {
        refuse(in, column, most);
        return;
    }
    if (!in->units_doubted)
        refuse(in, column,
               arena_textf(in->draft->reading->arena,
                           "%s; numbers without a unit are %s in this job (if not, change its \"units\")",
                           most, length_unit_name(in->draft->units)));
    in->units_doubted = true;
}

/* Whether each of the lengths can be meant; if not, that is reported. */
static bool lengths_fit(struct part_reading *in, int column, const double *lengths_m, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (lengths_m[i] > limits[LIMIT_LENGTH].most) {
            refuse_length(in, column);
            return false;
        }
    return true;
}

static void read_length(struct part_reading *in, int column, double *length_m)
{
    struct err fault;
    double read;
    if (!part_cell(in, column))
        return;
    if (!length_parse(part_cell(in, column), in->draft->units, &read, &fault))
        refuse(in, column, fault.expected);
    else if (lengths_fit(in, column, &read, 1))
        *length_m = read;
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
    double *sides = &in->part->size_m[DIM_A];
    if (text && !lengths_split(text, in->draft->units, 3, sides))
        refuse(in, COLUMN_SIDES, "three lengths with blanks between: \"300 mm 400 mm 500 mm\"");
    else if (text)
        lengths_fit(in, COLUMN_SIDES, sides, 3);
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
    else if (in->part->area_m2 > limits[LIMIT_PART_AREA].most)
        refuse(in, COLUMN_AREA, limits[LIMIT_PART_AREA].expected);
    if (region && !region_find(region, &in->part->area_region))
        refuse(in, COLUMN_REGION, "a region: face, back, edges, ends, inside or outside");
    if (in->part->shape == SHAPE_AREA)
        return;
    if (text)
        refuse(in, COLUMN_AREA, "nothing: only the shape \"area\" has one");
    if (region)
        refuse(in, COLUMN_REGION, "nothing: only the shape \"area\" has one");
}

/* Items of a cell, separated by semicolons. */
struct items {
    struct arena *arena;
    const char *next;
};

/* The next that is not blank, in the arena; NULL at the end. */
static const char *next_item(struct items *items)
{
    while (items->next) {
        size_t length = strcspn(items->next, ";"), trimmed;
        const char *end = items->next[length] ? items->next + length + 1 : NULL;
        const char *item = text_trim(arena_text_n(items->arena, items->next, length), &trimmed);
        items->next = end;
        if (trimmed > 0)
            return arena_text_n(items->arena, item, trimmed);
    }
    return NULL;
}

static size_t most_items(const char *cell)
{
    size_t count = 1;
    for (; *cell; cell++)
        count += *cell == ';';
    return count;
}

static bool parse_coordinates(const char *item, enum length_unit bare, double xy[2])
{
    return lengths_split(item, bare, 2, xy);
}

static void read_points(struct part_reading *in, size_t column, const char *expected)
{
    const char *cell = rows_cell(&in->rows, column), *item;
    struct arena *arena = in->draft->reading->arena;
    struct items items = {arena, cell};
    if (!cell)
        return;
    struct point *points = ARENA_ARRAY(arena, most_items(cell), struct point);
    while ((item = next_item(&items))) {
        double xy[2];
        if (!parse_coordinates(item, in->draft->units, xy)) {
            rows_refuse(&in->rows, column, expected);
            return;
        }
        if (!lengths_fit(in, (int)column, xy, 2))
            return;
        points[in->part->point_count++] = (struct point){xy[0], xy[1]};
    }
    in->part->points = points;
}

static bool parse_groove(const char *item, enum length_unit bare, struct groove *groove)
{
    int64_t count = 1;
    double sizes[2];
    if (!counted_area_parse(item, bare, &count, sizes, NULL))
        return false;
    *groove = (struct groove){(int)count, sizes[0], sizes[1]};
    return true;
}

static void read_grooves(struct part_reading *in)
{
    const char *cell = rows_cell(&in->rows, COLUMN_GROOVES), *item;
    struct arena *arena = in->draft->reading->arena;
    struct items items = {arena, cell};
    if (!cell)
        return;
    struct groove *grooves = ARENA_ARRAY(arena, most_items(cell), struct groove);
    while ((item = next_item(&items))) {
        struct groove *groove = &grooves[in->part->groove_count++];
        if (!parse_groove(item, in->draft->units, groove)) {
            rows_refuse(&in->rows, COLUMN_GROOVES,
                        "grooves such as \"3 x 600 mm x 12 mm\": count, length, girth added");
            return;
        }
        if (!lengths_fit(in, COLUMN_GROOVES, (double[]){groove->length_m, groove->girth_m}, 2))
            return;
    }
    in->part->grooves = grooves;
}

/* `back 2 x 300 mm x 120 mm`. */
static bool parse_covered(const char *item, enum length_unit bare, struct covered *covered, struct err *fault)
{
    static const char form[] = "a region and a size, such as \"back 300 mm x 120 mm\"";
    char word[16];
    size_t length = strcspn(item, " ");
    int64_t count = 1;
    double sizes[2];
    if (length >= sizeof word || item[length] == '\0')
        return err_say(fault, form);
    memcpy(word, item, length);
    word[length] = '\0';
    if (!region_find(word, &covered->region))
        return err_say(fault, "a region first: face, back, edges, ends, inside or outside");
    if (!counted_area_parse(item + length + 1, bare, &count, sizes, fault))
        return false;
    covered->count = (double)count;
    covered->width_m = sizes[0];
    covered->length_m = sizes[1];
    return true;
}

static void read_covered(struct part_reading *in)
{
    const char *cell = rows_cell(&in->rows, COLUMN_COVERED), *item;
    struct arena *arena = in->draft->reading->arena;
    struct items items = {arena, cell};
    struct err fault;
    if (!cell)
        return;
    struct covered *covered = ARENA_ARRAY(arena, most_items(cell), struct covered);
    while ((item = next_item(&items))) {
        struct covered *one = &covered[in->part->covered_count++];
        if (!parse_covered(item, in->draft->units, one, &fault)) {
            rows_refuse(&in->rows, COLUMN_COVERED, fault.expected);
            return;
        }
        if (!lengths_fit(in, COLUMN_COVERED, (double[]){one->width_m, one->length_m}, 2))
            return;
    }
    in->part->covered = covered;
}

static void read_lists(struct part_reading *in)
{
    const struct part *part = in->part;
    bool outline = part->shape == SHAPE_POLYGON, profile = part->shape == SHAPE_TURNING;
    if (!outline && rows_cell(&in->rows, COLUMN_POINTS))
        rows_refuse(&in->rows, COLUMN_POINTS, "nothing: only a polygon has points");
    else
        read_points(in, COLUMN_POINTS, "corners such as \"0 0; 300 0; 150 200\"");
    if (!profile && rows_cell(&in->rows, COLUMN_PROFILE))
        rows_refuse(&in->rows, COLUMN_PROFILE, "nothing: only a turning has a profile");
    else
        read_points(in, COLUMN_PROFILE, "points such as \"0 40; 300 25\": length along, diameter");
    read_grooves(in);
    read_covered(in);
}

static void refuse_file(struct part_reading *in, const struct err *err)
{
    struct arena *arena = in->draft->reading->arena;
    rows_refuse_found(
        &in->rows, COLUMN_FILE, err->expected,
        arena_textf(arena, "%s (%s)", words_quote(arena, part_cell(in, COLUMN_FILE)), err->found));
}

/* The mesh, open; -1: the reason is reported. */
static int open_mesh(struct part_reading *in, const char **path)
{
    const struct reading *reading = in->draft->reading;
    const struct job *job = in->draft->job;
    struct path_rule rule = {job->parts_file ? job->parts_file : in->draft->rule.from,
                             in->draft->rule.trusted};
    struct err err;
    int file = -1;
    if (path_resolve(reading->arena, rule, part_cell(in, COLUMN_FILE), path, &err))
        file = reading_open(reading, rule, *path, &err);
    if (file < 0)
        refuse_file(in, &err);
    return file;
}

static void warn_left_out(struct part_reading *in, const struct mesh_report *report)
{
    uint64_t left_out = report->degenerate + report->nonfinite;
    if (left_out > 0)
        rows_warn(&in->rows, COLUMN_FILE,
                  arena_textf(in->draft->reading->arena,
                              "%" PRIu64 " of %" PRIu64 " triangles count for nothing: %" PRIu64
                              " without area, %" PRIu64 " without numbers",
                              left_out, report->triangles, report->degenerate, report->nonfinite));
}

static void measure_mesh(struct part_reading *in, double unit_m)
{
    struct mesh_report report;
    const char *path;
    int file = open_mesh(in, &path);
    if (file < 0)
        return;
    bool good = mesh_measure(in->draft->reading->arena, file, path, &report, in->draft->reading->errors);
    (void)close(file);
    if (!good)
        return;
    in->part->mesh_file = path;
    in->part->mesh_area_m2 = report.area * unit_m * unit_m;
    if (!(in->part->mesh_area_m2 <= limits[LIMIT_PART_AREA].most))
        refuse(in, COLUMN_FILE, limits[LIMIT_PART_AREA].expected);
    warn_left_out(in, &report);
}

static bool read_mesh_units(struct part_reading *in, double *unit_m)
{
    struct err fault;
    enum length_unit unit = LENGTH_NONE;
    const char *text = part_cell(in, COLUMN_FILE_UNITS);
    if (!length_unit_parse(text ? text : "", &unit, &fault))
        return rows_refuse(&in->rows, COLUMN_FILE_UNITS, fault.expected);
    return length_bare(1, unit, unit_m, &fault);
}

/* file and file-units: the mesh is measured here, since the take-off touches no files. */
static void read_mesh(struct part_reading *in)
{
    static const char only[] = "nothing: only a mesh has one";
    double unit_m = 0;
    if (in->part->shape == SHAPE_MESH) {
        if (!part_cell(in, COLUMN_FILE))
            rows_refuse(&in->rows, COLUMN_FILE, "the name of a mesh file, STL or OBJ");
        if (read_mesh_units(in, &unit_m) && part_cell(in, COLUMN_FILE))
            measure_mesh(in, unit_m);
        return;
    }
    if (part_cell(in, COLUMN_FILE))
        rows_refuse(&in->rows, COLUMN_FILE, only);
    if (part_cell(in, COLUMN_FILE_UNITS))
        rows_refuse(&in->rows, COLUMN_FILE_UNITS, only);
}

/* Of width x height x depth, which say how a part stands in the piece, the least is the thickness of a board. */
static void settle_box(struct part_reading *in)
{
    const struct heading_cell *head =
        in->rows.is_csv ? heading_of(&in->rows.heading, COLUMN_LENGTHS + DIM_THICKNESS) : NULL;
    double *size = in->part->size_m, thickness = size[DIM_THICKNESS];
    enum dimension least = size[DIM_WIDTH] < size[DIM_LENGTH] ? DIM_WIDTH : DIM_LENGTH;
    if (!head || !head->any_order || in->part->shape != SHAPE_BOARD || size[least] >= thickness)
        return;
    size[DIM_THICKNESS] = size[least];
    size[least] = thickness;
}

void part_read_sizes(struct part_reading *in)
{
    for (int d = 0; d <= DIM_SIDE; d++)
        read_length(in, COLUMN_LENGTHS + d, &in->part->size_m[d]);
    read_length(in, COLUMN_CHAMFER, &in->part->size_m[DIM_CHAMFER]);
    read_length(in, COLUMN_ROUNDOVER, &in->part->size_m[DIM_ROUNDOVER]);
    settle_box(in);
    read_lumber(in);
    read_sides(in);
    read_corners(in);
    read_open(in);
    read_area(in);
    read_mesh(in);
    read_lists(in);
}
