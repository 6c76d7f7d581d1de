/* Factors: common practice, from memory, but for the rough-sawn board, which takes twice as
 * much at every coat: USDA Wood Handbook FPL-GTR-190, ch. 16 (2010), half the coverage. */
#include "amount/pass.h"

#include "surface/sum.h"

#include <math.h>

static const double narrow_m = 0.06;
/* A spindle: round, at most so thick, and so many times as long. */
static const double spindle_m = 0.045, spindle_slender = 12;

static const double grain_factor[GRAIN_COUNT] = {
    [GRAIN_CLOSED] = 1.0,    [GRAIN_HALF_OPEN] = 1.1, [GRAIN_OPEN] = 1.25,
    [GRAIN_SOFTWOOD] = 1.15, [GRAIN_PLYWOOD] = 1.1,   [GRAIN_MDF] = 1.2,
};

static const double veneer_factor = 0.9, rough_factor = 2.0;
static const double end_factor = 2.0, end_factor_of_oil = 2.5;
static const double plywood_edge_factor = 1.5, mdf_edge_factor = 2.5;
static const double second_coat_factor = 1.4;

static double thickest_m(const struct part *part)
{
    double most = fmax(part->size_m[DIM_DIAMETER], part->size_m[DIM_DIAMETER2]);
    for (size_t i = 0; part->shape == SHAPE_TURNING && i < part->point_count; i++)
        most = fmax(most, part->points[i].y);
    return most;
}

static double long_m(const struct part *part)
{
    if (part->shape != SHAPE_TURNING)
        return part->size_m[DIM_LENGTH];
    return part->points[part->point_count - 1].x - part->points[0].x;
}

static bool is_spindle(const struct part *part)
{
    double thick = thickest_m(part);
    return thick > 0 && thick <= spindle_m * (1 + 1e-12) &&
           long_m(part) >= thick * spindle_slender * (1 - 1e-12);
}

/* A frame is a door or a carcase front: its face is flat to the hand and to the fan, whatever its members measure. */
enum form surface_form(const struct part *part, enum region region)
{
    switch (part->shape) {
    case SHAPE_ROUND:
    case SHAPE_CONE:
    case SHAPE_TURNING:
        return is_spindle(part) ? FORM_SPINDLE : FORM_ROUND;
    case SHAPE_TAPER:
    case SHAPE_MOULDING:
        return FORM_STICK;
    default:
        break;
    }
    if (region == REGION_INSIDE)
        return FORM_INSIDE;
    if (region_is_rim(region) ||
        (part->shape == SHAPE_BOARD && part->size_m[DIM_WIDTH] < narrow_m * (1 - 1e-12)))
        return FORM_STICK;
    return part->shape == SHAPE_MESH ? FORM_MESH : FORM_FLAT;
}

double form_ease(enum form form)
{
    switch (form) {
    case FORM_STICK:
    case FORM_MESH:
        return 0.5;
    case FORM_ROUND:
        return 0.35;
    case FORM_SPINDLE:
        return 0.2;
    case FORM_INSIDE:
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
    bool rough = wood && (wood->traits & WOOD_ROUGH) && !is_end_grain(wood, region);
    if (number == 1)
        return wood_factor(wood, part->core && !region_is_rim(region)) * region_factor(wood, region, finish);
    bool absorbs_again = is_end_grain(wood, region) || is_mdf_edge(wood, region);
    return (number == 2 && absorbs_again ? second_coat_factor : 1) * (rough ? rough_factor : 1);
}

double surface_transfer(const struct shop *shop, enum tool tool, enum form form)
{
    bool misses = form == FORM_STICK || form == FORM_ROUND || form == FORM_SPINDLE;
    return shop->transfer[tool] * (tool_sprays(tool) && misses ? 0.5 : 1);
}

static bool on_side(enum side side, enum region region)
{
    return side == SIDE_ALL || (side == SIDE_BACK) == (region == REGION_BACK);
}

/* Parts of the row that lie within the lot. */
static size_t in_lot(const struct pass *pass, const struct surface *surface)
{
    size_t qty = (size_t)pass->job->parts[surface->part].qty;
    size_t from = surface->first_part, to = from + qty;
    if (pass->lot.to == 0)
        return qty;
    from = from > pass->lot.from ? from : pass->lot.from;
    to = to < pass->lot.to ? to : pass->lot.to;
    return to > from ? to - from : 0;
}

const struct surface *pass_next(const struct pass *pass, size_t *i)
{
    if (*i == 0)
        *i = surfaces_first(pass->surfaces, pass->piece);
    while (*i < pass->surfaces->count) {
        const struct surface *surface = &pass->surfaces->items[*i];
        *i = surfaces_next(pass->surfaces, *i);
        if (surface->schedule == (int)pass->schedule && surface->patch == pass->patch &&
            pass->job->parts[surface->part].piece == pass->piece && on_side(pass->side, surface->region) &&
            in_lot(pass, surface) > 0)
            return surface;
    }
    return NULL;
}

int pass_row_parts(const struct pass *pass, const struct surface *surface)
{
    return (int)in_lot(pass, surface);
}

double pass_surface_m2(const struct pass *pass, const struct surface *surface)
{
    int qty = pass->job->parts[surface->part].qty, within = pass_row_parts(pass, surface);
    return within == qty ? surface->area_m2 : surface->area_m2 / qty * within;
}

double pass_area_m2(const struct pass *pass)
{
    struct sum area = {0};
    size_t i = 0;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i))
        sum_add(&area, pass_surface_m2(pass, s));
    return sum_value(&area);
}

int pass_parts(const struct pass *pass)
{
    int parts = 0;
    size_t i = 0, last = SIZE_MAX;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i)) {
        if (s->part != last)
            parts += pass_row_parts(pass, s);
        last = s->part;
    }
    return parts;
}

bool piece_has_two_sides(const struct job *job, const struct surfaces *surfaces, size_t piece)
{
    bool back = false, face = false;
    if (job->pieces[piece].laid != LAID_FLAT)
        return false;
    for (size_t i = surfaces_first(surfaces, piece); i < surfaces->count; i = surfaces_next(surfaces, i)) {
        const struct surface *surface = &surfaces->items[i];
        if (surface->schedule < 0 || job->parts[surface->part].piece != piece)
            continue;
        back |= surface->region == REGION_BACK;
        face |= surface->region == REGION_FACE;
    }
    return back && face;
}

double surface_minutes(const struct job *job, const struct surface *surface, int work)
{
    const struct part *part = &job->parts[surface->part];
    double ease = form_ease(surface_form(part, surface->region));
    return 60 * (surface->area_m2 / part->qty) * part->work / (job->shop.rate_m2_per_h[work] * ease);
}

double pass_minutes(const struct pass *pass, int work)
{
    struct sum minutes = {0};
    size_t i = 0;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i))
        sum_add(&minutes, surface_minutes(pass->job, s, work) * pass_row_parts(pass, s));
    return sum_value(&minutes);
}
