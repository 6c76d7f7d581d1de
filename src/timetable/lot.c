#include "timetable/lot.h"

#include "base/arena.h"
#include "timetable/facts.h"

#include <math.h>

/* What a part asks of a hand, up to a rate: area x work / ease of all that is finished on it. */
static void weigh_rows(const struct job *job, const struct surfaces *surfaces, size_t piece, double *weight)
{
    for (size_t i = surfaces_first(surfaces, piece); i < surfaces->count; i = surfaces_next(surfaces, i)) {
        const struct surface *surface = &surfaces->items[i];
        const struct part *part = &job->parts[surface->part];
        if (part->piece != piece || surface->schedule < 0 || surface->patch)
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
    size_t parts = piece_parts(job, piece), *cuts;
    if (facts_cuts(arena, job, piece, parts, &cuts) + 1 == (size_t)lots && lots > 1)
        return (struct part_run){number == 1 ? 0 : cuts[number - 2],
                                 number == lots ? parts : cuts[number - 1]};
    double *weight = ARENA_ARRAY(arena, parts + 1, double);
    weigh_rows(job, surfaces, piece, weight);
    size_t from = number == 1 ? 0 : boundary(weight, parts, number - 1, lots);
    size_t to = number == lots ? parts : boundary(weight, parts, number, lots);
    return (struct part_run){from, to};
}

double lot_rack_m2(const struct job *job, const struct surfaces *surfaces, size_t piece, struct part_run run)
{
    return surfaces_footprint_m2(surfaces, job, piece, run.from, run.to > 0 ? run.to : SIZE_MAX);
}
