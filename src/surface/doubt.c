#include "surface/doubt.h"

#include "base/err.h"
#include "base/measure.h"
#include "surface/polygon.h"

#include <math.h>
#include <stdio.h>

static const double long_m = 6, small_m = 0.15, thin_m = 0.0025;

/* How wide a coordinate of the points spreads: y of an outline, x of either. */
static double spread(const struct part *part, bool across)
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
    double most = fmax(spread(part, false), part->shape == SHAPE_POLYGON ? spread(part, true) : 0);
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
        bool small = most < small_m && thick<thin_m, large = most> long_m;
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

/* Whether the whole list seems to be in another unit; then single sizes need not be doubted too. */
static bool doubt_units(const struct job *job, struct err_list *warnings)
{
    struct look look = look_at(job);
    struct doubted doubted = {look.first, 0};
    char sentence[240];
    const char *column;
    bool inches = !job->inches && look.thickness && look.small * 4 >= look.counted * 3;
    bool millimetres = job->inches && look.large > 0 && look.large * 2 >= look.counted;
    if (!inches && !millimetres)
        return false;
    double most = largest(look.first, &column);
    snprintf(
        sentence, sizeof sentence,
        "measures %s, and most of the list is as %s: if %s were meant, write \"units\": \"%s\" in the job",
        length_format(most, units_of(job)).text, inches ? "small" : "large",
        inches ? "inches" : "millimetres", inches ? "in" : "mm");
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
