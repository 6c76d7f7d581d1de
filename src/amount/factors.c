/* Factors of the method, section 2: common practice, from memory, but for the rough-sawn board, which takes twice as
 * much: USDA Wood Handbook FPL-GTR-190, ch. 16 (2010), half the coverage. */
#include "amount/factors.h"

static const double narrow_m = 0.06;

static const double grain_factor[GRAIN_COUNT] = {
    [GRAIN_CLOSED] = 1.0,    [GRAIN_HALF_OPEN] = 1.1, [GRAIN_OPEN] = 1.25,
    [GRAIN_SOFTWOOD] = 1.15, [GRAIN_PLYWOOD] = 1.1,   [GRAIN_MDF] = 1.2,
};

static const double veneer_factor = 0.9, rough_factor = 2.0;
static const double end_factor = 2.0, end_factor_of_oil = 2.5;
static const double plywood_edge_factor = 1.5, mdf_edge_factor = 2.5;
static const double second_coat_factor = 1.4;

enum handling surface_handling(const struct part *part, enum region region)
{
    switch (part->shape) {
    case SHAPE_ROUND:
    case SHAPE_CONE:
    case SHAPE_TURNING:
        return HANDLING_ROUND;
    case SHAPE_FRAME:
    case SHAPE_TAPER:
    case SHAPE_MOULDING:
        return HANDLING_STICK;
    default:
        break;
    }
    if (region == REGION_INSIDE)
        return HANDLING_INSIDE;
    if (region_is_rim(region) ||
        (part->shape == SHAPE_BOARD && part->size_m[DIM_WIDTH] < narrow_m * (1 - 1e-12)))
        return HANDLING_STICK;
    return part->shape == SHAPE_MESH ? HANDLING_MESH : HANDLING_FLAT;
}

double handling_ease(enum handling handling)
{
    switch (handling) {
    case HANDLING_STICK:
    case HANDLING_MESH:
        return 0.5;
    case HANDLING_ROUND:
        return 0.35;
    case HANDLING_INSIDE:
        return 0.4;
    default:
        return 1;
    }
}

/* A part with a core is veneered, whatever its wood is called. */
static double wood_factor(const struct wood *wood, bool veneered)
{
    if (!wood)
        return grain_factor[GRAIN_CLOSED];
    return grain_factor[wood->grain] * (veneered || wood->traits & WOOD_VENEER ? veneer_factor : 1);
}

static bool is_end_grain(const struct wood *wood, enum region region)
{
    bool sheet = wood && (wood->grain == GRAIN_PLYWOOD || wood->grain == GRAIN_MDF);
    return region == REGION_ENDS && !sheet;
}

static bool is_mdf_edge(const struct wood *wood, enum region region)
{
    return wood && wood->grain == GRAIN_MDF && region_is_rim(region);
}

static double region_factor(const struct wood *wood, enum region region, const struct finish *finish)
{
    if (is_end_grain(wood, region))
        return finish_is_oil(finish) ? end_factor_of_oil : end_factor;
    if (is_mdf_edge(wood, region))
        return mdf_edge_factor;
    if (wood && wood->grain == GRAIN_PLYWOOD && region_is_rim(region))
        return plywood_edge_factor;
    return wood && (wood->traits & WOOD_ROUGH) ? rough_factor : 1;
}

double surface_absorb(const struct part *part, enum region region, const struct finish *finish, int number)
{
    const struct wood *wood = part_wood_at(part, region);
    if (number == 1)
        return wood_factor(wood, part->core && !region_is_rim(region)) * region_factor(wood, region, finish);
    bool drinks_again = is_end_grain(wood, region) || is_mdf_edge(wood, region);
    return number == 2 && drinks_again ? second_coat_factor : 1;
}

double surface_transfer(const struct shop *shop, enum tool tool, enum handling handling)
{
    bool misses = handling == HANDLING_STICK || handling == HANDLING_ROUND;
    return shop->transfer[tool] * (tool_sprays(tool) && misses ? 0.5 : 1);
}
