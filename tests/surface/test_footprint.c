/* What pieces cover of the rack, worked out by hand from the rule: flat the largest region, standing the two smallest of the
 * three extents, hung nothing (common practice). */
#include "check.h"

#include "base/arena.h"
#include "surface/takeoff.h"

struct footprint_row {
    struct row row;
    enum shape shape;
    double length_m, width_m, thickness_m, height_m, diameter_m;
    enum laid laid;
    double rack_m2, want_m2; /* of three of them */
};

static const struct footprint_row footprints[] = {
    {ROW("a door lying flat"), SHAPE_BOARD, 0.7, 0.4, 0.02, 0, 0, LAID_FLAT, -1, 3 * 0.28},
    {ROW("a door standing on its short end"), SHAPE_BOARD, 0.7, 0.4, 0.02, 0, 0, LAID_STANDING, -1,
     3 * 0.008},
    {ROW("a door hung"), SHAPE_BOARD, 0.7, 0.4, 0.02, 0, 0, LAID_HUNG, -1, 0},
    {ROW("a drawer standing on its end, not on its wall"), SHAPE_BOX, 0.5, 0.4, 0.015, 0.15, 0, LAID_STANDING,
     -1, 3 * 0.06},
    {ROW("a leg on end"), SHAPE_ROUND, 0.7, 0, 0, 0, 0.05, LAID_STANDING, -1, 3 * 0.0025},
    {ROW("given for the piece"), SHAPE_BOARD, 0.7, 0.4, 0.02, 0, 0, LAID_FLAT, 0.5, 0.5},
};

static void footprint_is(void **state)
{
    const struct footprint_row *r = *state;
    struct arena *arena = arena_make(0);
    static struct err_list errors;
    struct part part = {.name = "part", .qty = 3, .shape = r->shape, .work = 1};
    part.size_m[DIM_LENGTH] = r->length_m;
    part.size_m[DIM_WIDTH] = r->width_m;
    part.size_m[DIM_THICKNESS] = r->thickness_m;
    part.size_m[DIM_HEIGHT] = r->height_m;
    part.size_m[DIM_DIAMETER] = r->diameter_m;
    part.open = BOX_TOP;
    for (int region = 0; region < REGION_COUNT; region++)
        part.schedule[region] = SCHEDULE_BARE;
    struct piece piece = {.name = "piece", .laid = r->laid, .rack_m2 = r->rack_m2};
    struct job job = {.name = "rack", .parts = &part, .part_count = 1, .pieces = &piece, .piece_count = 1};
    const struct surfaces *surfaces = surfaces_make(arena, &job, &errors);
    check_true(&r->row, surfaces != NULL, "measured");
    if (surfaces)
        check_double(&r->row, surfaces_footprint_m2(surfaces, &job, 0, 0, 3), r->want_m2, 1e-12);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(footprints, footprint_is));
}
