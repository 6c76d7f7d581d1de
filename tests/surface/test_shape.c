#include "check.h"
#include "shape_rows.h"

#include "base/arena.h"
#include "base/err.h"
#include "surface/takeoff.h"

static void areas_are(void **state)
{
    const struct area_row *r = *state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    double got[REGION_COUNT];
    check_true(&r->row, part_areas(arena, &list, &r->part, got, &errors), "measured");
    for (int i = 0; i < REGION_COUNT; i++)
        check_double(&r->row, got[i], r->want_m2[i], 1e-15);
    check_int(&r->row, (intmax_t)errors.count, 0);
    arena_free(arena);
}

static struct part scaled(struct arena *arena, const struct part *part, double k)
{
    struct part big = *part;
    struct point *points = ARENA_ARRAY(arena, part->point_count, struct point);
    struct groove *grooves = ARENA_ARRAY(arena, part->groove_count, struct groove);
    for (int d = 0; d < DIM_COUNT; d++)
        big.size_m[d] *= k;
    for (size_t i = 0; i < part->point_count; i++)
        points[i] = (struct point){part->points[i].x * k, part->points[i].y * k};
    for (size_t i = 0; i < part->groove_count; i++)
        grooves[i] = (struct groove){part->grooves[i].count, part->grooves[i].length_m * k,
                                     part->grooves[i].girth_m * k};
    big.points = points;
    big.grooves = grooves;
    big.area_m2 *= k * k;
    big.mesh_area_m2 *= k * k;
    return big;
}

/* Twice or a third the size: four times or a ninth of the area, in every region. */
static void area_scales_with_the_square(void **state)
{
    const struct area_row *r = *state;
    static const double factors[] = {2, 1.0 / 3, 25.4, 1e-3};
    for (size_t f = 0; f < sizeof factors / sizeof factors[0]; f++) {
        double k = factors[f], got[REGION_COUNT];
        struct arena *arena = arena_make(0);
        struct err_list errors = {0};
        struct part part = scaled(arena, &r->part, k);
        check_true(&r->row, part_areas(arena, &list, &part, got, &errors), "measured");
        for (int i = 0; i < REGION_COUNT; i++)
            check_double(&r->row, got[i] / (k * k), r->want_m2[i], 1e-13);
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(AREA_ROWS(areas_are), AREA_ROWS(area_scales_with_the_square));
}
