#include "surface/takeoff.h"

#include "base/arena.h"
#include "base/err.h"
#include "surface/shape.h"
#include "surface/sum.h"

#include <stdio.h>

bool part_areas(struct arena *arena, const struct job *job, const struct part *part,
                double area_m2[REGION_COUNT], struct err_list *errors)
{
    struct measuring m = measuring_of(arena, job, part, errors);
    return shape_measure(&m, area_m2);
}

/* More than a rounding error above what is there. */
static bool exceeds(double covered_m2, double area_m2)
{
    return covered_m2 > area_m2 * (1 + 1e-9);
}

static bool take_covered(const struct measuring *m, double area_m2[REGION_COUNT])
{
    struct sum covered[REGION_COUNT] = {{0}};
    bool good = true;
    for (size_t i = 0; i < m->part->covered_count; i++) {
        const struct covered *c = &m->part->covered[i];
        sum_add(&covered[c->region], c->count * c->width_m * c->length_m);
    }
    for (enum region r = 0; r < REGION_COUNT; r++) {
        char expected[ERR_EXPECTED_SIZE];
        double hidden = sum_value(&covered[r]);
        if (!exceeds(hidden, area_m2[r])) {
            area_m2[r] = area_m2[r] > hidden ? area_m2[r] - hidden : 0;
            continue;
        }
        snprintf(expected, sizeof expected, "at most the %s of %s", region_name(r),
                 area_format(area_m2[r], m->units).text);
        good = measuring_refuse(m, "covered", expected, "%s", area_format(hidden, m->units).text);
    }
    return good;
}

struct takeoff {
    struct surface *items;
    size_t count, capacity;
    struct sum *by_schedule;
    struct sum finished, bare;
};

static void keep(struct takeoff *t, struct arena *arena, const struct surface *surface)
{
    t->items = arena_grow(arena, t->items, t->count, &t->capacity, sizeof *t->items);
    t->items[t->count++] = *surface;
    if (surface->schedule < 0) {
        sum_add(&t->bare, surface->area_m2);
        return;
    }
    sum_add(&t->by_schedule[surface->schedule], surface->area_m2);
    sum_add(&t->finished, surface->area_m2);
}

/* What of a region is finished or bare; a region all covered is neither, and is left out. */
static void take_part(struct takeoff *t, const struct measuring *m, size_t index)
{
    double area[REGION_COUNT];
    if (!shape_measure(m, area) || !take_covered(m, area))
        return;
    for (enum region r = 0; r < REGION_COUNT; r++) {
        struct surface surface = {index, r, m->part->schedule[r], area[r] * m->part->qty};
        if (surface.area_m2 > 0)
            keep(t, m->arena, &surface);
    }
}

/* From the last to the first, so that each finds the one behind it. */
static void thread_pieces(struct arena *arena, const struct job *job, struct surfaces *surfaces)
{
    surfaces->first = ARENA_ARRAY(arena, job->piece_count, size_t);
    surfaces->next = ARENA_ARRAY(arena, surfaces->count, size_t);
    for (size_t i = 0; i < job->piece_count; i++)
        surfaces->first[i] = surfaces->count;
    for (size_t i = surfaces->count; i > 0; i--) {
        size_t *first = &surfaces->first[job->parts[surfaces->items[i - 1].part].piece];
        surfaces->next[i - 1] = *first;
        *first = i - 1;
    }
}

size_t surfaces_first(const struct surfaces *surfaces, size_t piece)
{
    return surfaces->first ? surfaces->first[piece] : 0;
}

size_t surfaces_next(const struct surfaces *surfaces, size_t i)
{
    return surfaces->next ? surfaces->next[i] : i + 1;
}

struct surfaces *surfaces_make(struct arena *arena, const struct job *job, struct err_list *errors)
{
    struct takeoff t = {.by_schedule = ARENA_ARRAY(arena, job->schedule_count, struct sum)};
    size_t before = errors->count + errors->dropped;
    for (size_t i = 0; i < job->part_count; i++) {
        struct measuring m = measuring_of(arena, job, &job->parts[i], errors);
        take_part(&t, &m, i);
    }
    if (errors->count + errors->dropped != before)
        return NULL;
    struct surfaces *surfaces = ARENA_NEW(arena, struct surfaces);
    surfaces->items = t.items;
    surfaces->count = t.count;
    surfaces->by_schedule_m2 = ARENA_ARRAY(arena, job->schedule_count, double);
    for (size_t i = 0; i < job->schedule_count; i++)
        surfaces->by_schedule_m2[i] = sum_value(&t.by_schedule[i]);
    surfaces->finished_m2 = sum_value(&t.finished);
    surfaces->bare_m2 = sum_value(&t.bare);
    thread_pieces(arena, job, surfaces);
    return surfaces;
}
