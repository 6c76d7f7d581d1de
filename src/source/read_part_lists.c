#include "source/read_parts.h"

#include "base/arena.h"
#include "base/number.h"
#include "base/text.h"

#include <string.h>

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
    while ((item = next_item(&items)))
        if (!parse_groove(item, in->draft->units, &grooves[in->part->groove_count++])) {
            rows_refuse(&in->rows, COLUMN_GROOVES,
                        "grooves such as \"3 x 600 mm x 12 mm\": count, length, girth added");
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
    while ((item = next_item(&items)))
        if (!parse_covered(item, in->draft->units, &covered[in->part->covered_count++], &fault)) {
            rows_refuse(&in->rows, COLUMN_COVERED, fault.expected);
            return;
        }
    in->part->covered = covered;
}

void part_read_lists(struct part_reading *in)
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
