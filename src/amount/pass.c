#include "amount/pass.h"

#include "amount/factors.h"
#include "surface/sum.h"

static bool on_side(enum side side, enum region region)
{
    return side == SIDE_ALL || (side == SIDE_BACK) == (region == REGION_BACK);
}

const struct surface *pass_next(const struct pass *pass, size_t *i)
{
    if (*i == 0)
        *i = surfaces_first(pass->surfaces, pass->piece);
    while (*i < pass->surfaces->count) {
        const struct surface *surface = &pass->surfaces->items[*i];
        *i = surfaces_next(pass->surfaces, *i);
        if (surface->schedule == (int)pass->schedule &&
            pass->job->parts[surface->part].piece == pass->piece && on_side(pass->side, surface->region))
            return surface;
    }
    return NULL;
}

double pass_area_m2(const struct pass *pass)
{
    struct sum area = {0};
    size_t i = 0;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i))
        sum_add(&area, s->area_m2);
    return sum_value(&area);
}

int pass_parts(const struct pass *pass)
{
    int parts = 0;
    size_t i = 0, last = SIZE_MAX;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i)) {
        if (s->part != last)
            parts += pass->job->parts[s->part].qty;
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
    double ease = handling_ease(surface_handling(part, surface->region));
    return 60 * surface->area_m2 * part->work / (job->shop.rate_m2_per_h[work] * ease);
}

double pass_minutes(const struct pass *pass, int work)
{
    struct sum minutes = {0};
    size_t i = 0;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i))
        sum_add(&minutes, surface_minutes(pass->job, s, work));
    return sum_value(&minutes);
}
