#include "timetable/lot.h"

#include "base/arena.h"

#include <math.h>

/* What a part asks of a hand, up to a rate: area x work / ease of all that is finished on it. */
static void weigh_rows(const struct job *job, const struct surfaces *surfaces, size_t piece, double *weight)
{
    for (size_t i = surfaces_first(surfaces, piece); i < surfaces->count; i = surfaces_next(surfaces, i)) {
        const struct surface *surface = &surfaces->items[i];
        const struct part *part = &job->parts[surface->part];
        if (part->piece != piece || surface->schedule < 0)
            continue;
        double ease = form_ease(surface_form(part, surface->region));
        for (size_t k = 0; k < (size_t)part->qty; k++)
            weight[surface->first_part + k] += surface->area_m2 / part->qty * part->work / ease;
    }
}

/* The number of parts after which the sum comes closest to the share of so many lots; each lot has a part. */
static size_t boundary(const double *weight, size_t parts, int number, int lots)
{
    double total = 0, sum = 0;
    for (size_t i = 0; i < parts; i++)
        total += weight[i];
    double share = total * number / lots;
    size_t at = 0;
    while (at < parts && sum + weight[at] / 2 <= share * (1 + 1e-12))
        sum += weight[at++];
    size_t least = (size_t)number, most = parts - (size_t)(lots - number);
    return at < least ? least : at > most ? most : at;
}

struct part_run lot_run(struct arena *arena, const struct job *job, const struct surfaces *surfaces,
                        size_t piece, int number, int lots)
{
    size_t parts = piece_parts(job, piece);
    double *weight = ARENA_ARRAY(arena, parts + 1, double);
    weigh_rows(job, surfaces, piece, weight);
    size_t from = number == 1 ? 0 : boundary(weight, parts, number - 1, lots);
    size_t to = number == lots ? parts : boundary(weight, parts, number, lots);
    return (struct part_run){from, to};
}

/* Length, width and thickness of what stands, from a shape's own measures; false: it has no three of them. */
static bool extents_of(const struct part *part, double extent[3])
{
    static const enum dimension measured[] = {DIM_LENGTH, DIM_WIDTH, DIM_THICKNESS, DIM_HEIGHT};
    int count = 0;
    double diameter = part->size_m[DIM_DIAMETER];
    for (int i = 0; i < 2 && diameter > 0; i++)
        extent[count++] = diameter;
    for (size_t i = 0; i < sizeof measured / sizeof measured[0] && count < 3; i++)
        if (part->size_m[measured[i]] > 0)
            extent[count++] = part->size_m[measured[i]];
    return count == 3;
}

static double standing_m2(const struct part *part, double largest_m2)
{
    double e[3];
    if (!extents_of(part, e))
        return largest_m2;
    return fmin(fmin(e[0] * e[1], e[1] * e[2]), e[0] * e[2]);
}

static double row_rack_m2(const struct piece *piece, const struct part *part, double largest_m2)
{
    if (piece->laid == LAID_HUNG)
        return 0;
    return piece->laid == LAID_STANDING ? standing_m2(part, largest_m2) : largest_m2;
}

double lot_rack_m2(const struct job *job, const struct surfaces *surfaces, size_t piece, struct part_run run)
{
    struct pass pass = {job, surfaces, piece, 0, SIDE_ALL, run};
    const struct piece *laid = &job->pieces[piece];
    size_t parts = piece_parts(job, piece), taken = run.to > 0 ? run.to - run.from : parts;
    if (laid->rack_m2 >= 0)
        return parts > 0 ? laid->rack_m2 * (double)taken / (double)parts : 0;
    double total = 0, largest = 0;
    size_t last = SIZE_MAX;
    int within = 0;
    for (size_t i = surfaces_first(surfaces, piece); i < surfaces->count; i = surfaces_next(surfaces, i)) {
        const struct surface *surface = &surfaces->items[i];
        if (job->parts[surface->part].piece != piece)
            continue;
        if (surface->part != last && last != SIZE_MAX)
            total += within * row_rack_m2(laid, &job->parts[last], largest);
        largest = surface->part == last ? largest : 0;
        last = surface->part;
        within = pass_row_parts(&pass, surface);
        largest = fmax(largest, surface->area_m2 / job->parts[last].qty);
    }
    return last == SIZE_MAX ? 0 : total + within * row_rack_m2(laid, &job->parts[last], largest);
}
