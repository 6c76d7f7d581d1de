#include "surface/takeoff.h"

#include "base/arena.h"
#include "base/err.h"
#include "base/measure.h"
#include "surface/polygon.h"
#include "surface/shape.h"
#include "surface/sum.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

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
    size_t *parts; /* per piece: so far */
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
        struct surface surface = {.part = index,
                                  .region = r,
                                  .schedule = m->part->schedule[r],
                                  .area_m2 = area[r] * m->part->qty,
                                  .first_part = t->parts[m->part->piece]};
        if (surface.area_m2 > 0)
            keep(t, m->arena, &surface);
    }
    t->parts[m->part->piece] += (size_t)m->part->qty;
}

static bool is_patched(const struct job *job, const struct patch *patch, const struct surface *surface)
{
    const struct part *part = &job->parts[surface->part];
    return job->pieces[part->piece].patch == patch && surface->region == patch->region &&
           surface->schedule >= 0 && (!patch->part || strcmp(patch->part, part->name) == 0);
}

static void refuse_patch(const struct job *job, size_t piece, const char *key, const char *expected,
                         const char *found, struct err_list *errors)
{
    char pointer[64];
    snprintf(pointer, sizeof pointer, "/pieces/%d/patch/%s", job->pieces[piece].entry, key);
    if (strcmp(key, "area") == 0)
        err_add(errors, ERR_INPUT, job->file, pointer, expected, found);
    else
        err_addf(errors, ERR_INPUT, job->file, pointer, expected, "\"%s\"", found);
}

/* m2 of the region that a patch is in; 0: it cannot be there, which is reported. */
static double patched_region(const struct takeoff *t, const struct job *job, size_t piece,
                             struct err_list *errors)
{
    const struct patch *patch = job->pieces[piece].patch;
    enum unit_system units = job->inches ? UNITS_US : UNITS_METRIC;
    struct sum region = {0};
    int schedule = SCHEDULE_NONE;
    for (size_t i = 0; i < t->count; i++) {
        if (!is_patched(job, patch, &t->items[i]))
            continue;
        if (schedule >= 0 && t->items[i].schedule != schedule) {
            refuse_patch(job, piece, "region", "a region that gets one schedule (\"part\" may name the part)",
                         region_name(patch->region), errors);
            return 0;
        }
        schedule = t->items[i].schedule;
        sum_add(&region, t->items[i].area_m2);
    }
    double area_m2 = sum_value(&region);
    if (schedule < 0) {
        refuse_patch(job, piece, patch->part ? "part" : "region",
                     "a region of the piece that gets a schedule",
                     patch->part ? patch->part : region_name(patch->region), errors);
    } else if (schedule == patch->schedule) {
        refuse_patch(job, piece, "schedule", "another schedule than that of the region",
                     job->schedules[schedule].name, errors);
    } else if (exceeds(patch->area_m2, area_m2)) {
        char expected[ERR_EXPECTED_SIZE];
        snprintf(expected, sizeof expected, "at most the %s of the %s", area_format(area_m2, units).text,
                 region_name(patch->region));
        refuse_patch(job, piece, "area", expected, area_format(patch->area_m2, units).text, errors);
    } else {
        return area_m2;
    }
    return 0;
}

/* Each patch behind the surfaces that it is on, spread as these are. */
static void take_patches(struct takeoff *t, struct arena *arena, const struct job *job,
                         struct err_list *errors)
{
    double *share = ARENA_ARRAY(arena, job->piece_count, double);
    bool any = false;
    for (size_t i = 0; i < job->piece_count; i++) {
        const struct patch *patch = job->pieces[i].patch;
        double region_m2 = patch ? patched_region(t, job, i, errors) : 0;
        if (patch && region_m2 > 0)
            share[i] = patch->area_m2 / region_m2;
        any |= share[i] > 0;
    }
    if (!any)
        return;
    struct surface *items = NULL;
    size_t count = 0, capacity = 0;
    for (size_t i = 0; i < t->count; i++) {
        size_t piece = job->parts[t->items[i].part].piece;
        const struct patch *patch = job->pieces[piece].patch;
        items = arena_grow(arena, items, count, &capacity, sizeof *items);
        items[count++] = t->items[i];
        if (!patch || share[piece] == 0 || !is_patched(job, patch, &t->items[i]))
            continue;
        struct surface surface = t->items[i];
        surface.schedule = patch->schedule;
        surface.area_m2 *= share[piece];
        surface.patch = true;
        sum_add(&t->by_schedule[patch->schedule], surface.area_m2);
        items = arena_grow(arena, items, count, &capacity, sizeof *items);
        items[count++] = surface;
    }
    t->items = items;
    t->count = count;
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
    struct takeoff t = {.by_schedule = ARENA_ARRAY(arena, job->schedule_count, struct sum),
                        .parts = ARENA_ARRAY(arena, job->piece_count, size_t)};
    size_t before = errors->count + errors->dropped;
    for (size_t i = 0; i < job->part_count; i++) {
        struct measuring m = measuring_of(arena, job, &job->parts[i], errors);
        take_part(&t, &m, i);
    }
    if (errors->count + errors->dropped == before)
        take_patches(&t, arena, job, errors);
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

static const double long_m = 6, small_m = 0.15, thin_m = 0.0025;

/* How wide a coordinate of the points spreads: y of an outline, x of either. */
static double extent(const struct part *part, bool across)
{
    double low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < part->point_count; i++) {
        double at = across ? part->points[i].y : part->points[i].x;
        low = fmin(low, at);
        high = fmax(high, at);
    }
    return part->point_count ? high - low : 0;
}

/* The largest size of a part and the column where it stands; 0 of a mesh and of an area. */
static double largest(const struct part *part, const char **column)
{
    double most = fmax(extent(part, false), part->shape == SHAPE_POLYGON ? extent(part, true) : 0);
    *column = part->shape == SHAPE_POLYGON ? "points" : "profile";
    for (enum dimension d = 0; d < DIM_COUNT; d++)
        if (part->size_m[d] > most) {
            most = part->size_m[d];
            *column = dimension_name(d);
        }
    return most;
}

/* The first part of a kind of doubt, and how many follow. */
struct doubted {
    const struct part *first;
    size_t more;
};

static void doubt(struct doubted *doubted, const struct part *part)
{
    if (doubted->first)
        doubted->more++;
    else
        doubted->first = part;
}

static void warn(const struct job *job, const struct doubted *doubted, const char *column,
                 const char *sentence, struct err_list *warnings)
{
    struct job_pointer pointer;
    const char *file = job_part_place(job, doubted->first, column, &pointer);
    char more[48] = "";
    if (doubted->more > 0)
        snprintf(more, sizeof more, " (and %zu more such parts)", doubted->more);
    err_addf(warnings, ERR_WARNING, file, pointer.text, NULL, "\"%s\" %s%s", doubted->first->name, sentence,
             more);
}

static enum unit_system units_of(const struct job *job)
{
    return job->inches ? UNITS_US : UNITS_METRIC;
}

static void doubt_length(const struct job *job, struct err_list *warnings)
{
    struct doubted doubted = {0};
    const char *column;
    char sentence[240];
    for (size_t i = 0; i < job->part_count; i++)
        if (largest(&job->parts[i], &column) > long_m)
            doubt(&doubted, &job->parts[i]);
    if (!doubted.first)
        return;
    double most = largest(doubted.first, &column);
    snprintf(sentence, sizeof sentence,
             "measures %s, over 6 m: was a decimal point lost, or another unit meant?",
             length_format(most, units_of(job)).text);
    warn(job, &doubted, column, sentence, warnings);
}

static void doubt_thickness(const struct job *job, struct err_list *warnings)
{
    struct doubted doubted = {0};
    char sentence[240];
    for (size_t i = 0; i < job->part_count; i++) {
        const double *size = job->parts[i].size_m;
        if (job->parts[i].shape == SHAPE_BOARD && size[DIM_THICKNESS] > size[DIM_WIDTH])
            doubt(&doubted, &job->parts[i]);
    }
    if (!doubted.first)
        return;
    const double *size = doubted.first->size_m;
    snprintf(sentence, sizeof sentence, "is thicker (%s) than wide (%s): were the two exchanged?",
             length_format(size[DIM_THICKNESS], units_of(job)).text,
             length_format(size[DIM_WIDTH], units_of(job)).text);
    warn(job, &doubted, "thickness", sentence, warnings);
}

static void doubt_chamfer(const struct job *job, struct err_list *warnings)
{
    struct doubted doubted = {0};
    for (size_t i = 0; i < job->part_count; i++) {
        const struct part *part = &job->parts[i];
        bool worked = part->size_m[DIM_CHAMFER] > 0 || part->size_m[DIM_ROUNDOVER] > 0;
        if (part->shape == SHAPE_POLYGON && worked && part->point_count > 2 &&
            !polygon_convex(part->points, part->point_count))
            doubt(&doubted, part);
    }
    if (doubted.first)
        warn(job, &doubted, doubted.first->size_m[DIM_CHAMFER] > 0 ? "chamfer" : "roundover",
             "has corners that point inwards: its worked edge is rounded there, and exact only while no "
             "narrow place of the face is used up",
             warnings);
}

struct look {
    size_t counted, small, large;
    bool thickness;           /* at least one part has one */
    const struct part *first; /* of those that are small, or large */
};

static struct look look_at(const struct job *job)
{
    struct look look = {0};
    for (size_t i = 0; i < job->part_count; i++) {
        const struct part *part = &job->parts[i];
        const char *column;
        double most = largest(part, &column), thick = part->size_m[DIM_THICKNESS];
        bool small = most < small_m && thick < thin_m;
        bool large = most > long_m;
        if (most == 0)
            continue;
        look.counted++;
        look.small += small;
        look.large += large;
        look.thickness = look.thickness || (small && thick > 0);
        if (!look.first && (job->inches ? large : small))
            look.first = part;
    }
    return look;
}

const char *units_meant(const struct job *job)
{
    struct look look = look_at(job);
    if (!job->inches && look.thickness && look.small * 4 >= look.counted * 3)
        return "in";
    return job->inches && look.large > 0 && look.large * 2 >= look.counted ? "mm" : NULL;
}

/* Whether the whole list seems to be in another unit; then single sizes need not be doubted too. */
static bool doubt_units(const struct job *job, struct err_list *warnings)
{
    const char *meant = units_meant(job), *column;
    struct doubted doubted = {look_at(job).first, 0};
    char sentence[240];
    if (!meant || !doubted.first)
        return false;
    bool inches = strcmp(meant, "in") == 0;
    double most = largest(doubted.first, &column);
    snprintf(
        sentence, sizeof sentence,
        "measures %s, and most of the list is as %s: if %s were meant, write \"units\": \"%s\" in the job",
        length_format(most, units_of(job)).text, inches ? "small" : "large",
        inches ? "inches" : "millimetres", meant);
    warn(job, &doubted, column, sentence, warnings);
    return true;
}

void takeoff_doubts(const struct job *job, struct err_list *warnings)
{
    if (!doubt_units(job, warnings)) {
        doubt_length(job, warnings);
        doubt_thickness(job, warnings);
    }
    doubt_chamfer(job, warnings);
}

const struct surfaces *surfaces_of(struct arena *arena, const struct job *job, struct err_list *errors)
{
    return job->surfaces ? job->surfaces : surfaces_make(arena, job, errors);
}

/* The sides of the box round a part; false: its shape does not state three. */
static bool extents_of(const struct part *part, double extent_m[3])
{
    const double *size = part->size_m;
    enum dimension last = part->shape == SHAPE_BOX                                  ? DIM_HEIGHT
                          : part->shape == SHAPE_ROUND || part->shape == SHAPE_CONE ? DIM_LENGTH
                                                                                    : DIM_THICKNESS;
    bool turned = part->shape == SHAPE_ROUND || part->shape == SHAPE_CONE || part->shape == SHAPE_DISC;
    extent_m[0] = turned ? fmax(size[DIM_DIAMETER], size[DIM_DIAMETER2]) : size[DIM_LENGTH];
    extent_m[1] = turned ? extent_m[0] : size[DIM_WIDTH];
    extent_m[2] = size[last];
    return extent_m[0] > 0 && extent_m[1] > 0 && extent_m[2] > 0;
}

double part_mass_kg(struct arena *arena, const struct job *job, const struct part *part,
                    struct err_list *errors)
{
    double area_m2[REGION_COUNT];
    const struct wood *wood = part->core ? part->core : part->wood;
    if (!part_areas(arena, job, part, area_m2, errors))
        return 0;
    return area_m2[REGION_FACE] * part->size_m[DIM_THICKNESS] *
           (wood ? wood->density_kg_per_m3 : WOOD_USUAL_KG_PER_M3);
}

static double part_footprint_m2(const struct part *part, enum laid laid, double largest_m2)
{
    double e[3];
    if (laid == LAID_HUNG)
        return 0;
    if (laid == LAID_FLAT || !extents_of(part, e))
        return largest_m2;
    return fmin(fmin(e[0] * e[1], e[1] * e[2]), e[0] * e[2]);
}

double surfaces_footprint_m2(const struct surfaces *surfaces, const struct job *job, size_t piece,
                             size_t from, size_t to)
{
    const struct piece *laid = &job->pieces[piece];
    if (laid->rack_m2 >= 0) {
        size_t parts = piece_parts(job, piece);
        to = to < parts ? to : parts;
        return parts > 0 ? laid->rack_m2 * (double)(to - from) / (double)parts : 0;
    }
    double total = 0;
    for (size_t i = surfaces_first(surfaces, piece); i < surfaces->count;) {
        const struct surface *surface = &surfaces->items[i];
        const struct part *row = &job->parts[surface->part];
        size_t first = surface->first_part, last = first + (size_t)row->qty;
        double largest = 0;
        for (; i < surfaces->count && surfaces->items[i].part == surface->part;
             i = surfaces_next(surfaces, i))
            largest = fmax(largest, surfaces->items[i].area_m2 / row->qty);
        first = first > from ? first : from;
        last = last < to ? last : to;
        if (row->piece == piece && first < last)
            total += (double)(last - first) * part_footprint_m2(row, laid->laid, largest);
    }
    return total;
}
