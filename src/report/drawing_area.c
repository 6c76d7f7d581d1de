#include "report/drawing.h"

#include "base/arena.h"
#include "format/path.h"
#include "surface/sketch.h"
#include "format/svg.h"
#include "report/sentences.h"

#include <math.h>

enum { TINT_COUNT = 6 };

static const struct svg_pattern tints[TINT_COUNT] = {
    {"tint-a", SVG_HATCH_RISING, "#f5e4b4", "#7d5f10", 9, 1.2},
    {"tint-b", SVG_HATCH_FALLING, "#cfe2ec", "#1d5270", 9, 1.2},
    {"tint-c", SVG_HATCH_DOTS, "#f1d2c4", "#8f3717", 8, 1.5},
    {"tint-d", SVG_HATCH_RISING, "#dde4cf", "#3c4b26", 4, 1},
    {"tint-e", SVG_HATCH_FALLING, "#e5d6e8", "#572c66", 4, 1},
    {"tint-f", SVG_HATCH_DOTS, "#dadada", "#262626", 4, 0.9},
};

/* Any two differ in their hatching, not in colour alone; the ink of each stands out from its ground. A seventh schedule
 * looks like the first: its name tells them apart. */
static const struct svg_pattern *tint_of(size_t schedule)
{
    return &tints[schedule % TINT_COUNT];
}

/* Attributes of a figure that gets a schedule; of one that stays bare, for any negative one. */
static const char *tint_look(struct arena *arena, int schedule)
{
    if (schedule < 0)
        return "fill=\"#ffffff\" stroke=\"#8a8f8c\" stroke-width=\"0.8\" stroke-dasharray=\"3 2\"";
    const struct svg_pattern *tint = tint_of((size_t)schedule);
    return arena_textf(arena, "fill=\"url(#%s)\" stroke=\"%s\" stroke-width=\"1\"", tint->id, tint->ink);
}

#define INK "#22302f"
#define QUIET "#5f6b68"

enum {
    WIDTH = 800,
    MARGIN = 20,
    DRAWN_WIDTH = 430, /* of a part's figures; its words stand to their right */
    DRAWN_HEIGHT = 210,
    WORDS_X = 480,
    WORDS_WIDTH = WIDTH - MARGIN - WORDS_X,
    LINE = 17,
    SIZE = 12,
    HEAD = 40, /* a part's name and sizes */
    BAR = 24,  /* its scale */
};

struct drawing {
    struct buf *out;
    struct arena *arena;
    const struct job *job;
    const struct surfaces *surfaces;
    enum unit_system units;
    double y;
};

/* A part and its surfaces. */
struct shown {
    const struct part *part;
    const struct surface *surfaces;
    size_t count;
};

static void words(const struct drawing *d, double x, double y, const char *text)
{
    svg_text(d->out, x, y, "font-size=\"12\" fill=\"" INK "\"", text);
}

static void quiet(const struct drawing *d, double x, double y, const char *text)
{
    svg_text(d->out, x, y, "font-size=\"11\" fill=\"" QUIET "\"", text);
}

static const char *area_words(const struct drawing *d, double area_m2)
{
    return arena_text(d->arena, area_format(area_m2, d->units).text);
}

/* An outline as a path; its hole is cut out of it by fill-rule. */
static void add_ring(struct buf *path, struct sketch_ring ring, double x, double y, double scale)
{
    for (size_t i = 0; i < ring.count; i++) {
        buf_add_char(path, i ? 'L' : 'M');
        svg_number(path, x + scale * ring.points[i].x);
        buf_add_char(path, ' ');
        svg_number(path, y + scale * ring.points[i].y);
    }
    buf_add(path, ring.count ? "Z" : "");
}

/* The surface of a region; NULL: all of it is covered. */
static const struct surface *surface_of(const struct shown *shown, enum region region)
{
    for (size_t i = 0; i < shown->count; i++)
        if (shown->surfaces[i].region == region)
            return &shown->surfaces[i];
    return NULL;
}

static const char *region_words(const struct drawing *d, const struct surface *surface, enum region region)
{
    if (!surface)
        return arena_textf(d->arena, "%s: covered", region_name(region));
    return arena_textf(d->arena, "%s %s", region_name(region), area_words(d, surface->area_m2));
}

/* In the middle of a figure, where there is room. */
static void draw_label(const struct drawing *d, const struct sketch_figure *figure, double scale,
                       const char *text)
{
    struct point low = {INFINITY, INFINITY}, high = {-INFINITY, -INFINITY};
    double width = svg_text_width(text, SIZE);
    for (size_t i = 0; i < figure->outline.count; i++) {
        struct point p = figure->outline.points[i];
        low = (struct point){fmin(low.x, p.x), fmin(low.y, p.y)};
        high = (struct point){fmax(high.x, p.x), fmax(high.y, p.y)};
    }
    /* Half of the extent also lies inside a triangle or a circle, at its middle. */
    if (figure->hole.count > 0 || width > 0.7 * scale * (high.x - low.x) ||
        2 * LINE > scale * (high.y - low.y))
        return;
    double x = MARGIN + scale * (low.x + high.x) / 2, y = d->y + HEAD + scale * (low.y + 2 * high.y) / 3;
    svg_rect(d->out, (struct svg_box){x - width / 2, y - 12, width, LINE}, "fill=\"#ffffff\" rx=\"3\"", NULL);
    svg_text(d->out, x, y, "font-size=\"12\" text-anchor=\"middle\" fill=\"" INK "\"", text);
}

static void draw_figure(const struct drawing *d, const struct shown *shown, const struct sketch_figure *f,
                        double scale)
{
    const struct surface *surface = surface_of(shown, f->region);
    int schedule = surface ? surface->schedule : SCHEDULE_NONE;
    struct buf path;
    buf_init(&path, d->arena);
    add_ring(&path, f->outline, MARGIN, d->y + HEAD, scale);
    add_ring(&path, f->hole, MARGIN, d->y + HEAD, scale);
    const char *look = arena_textf(d->arena, "fill-rule=\"evenodd\" %s", tint_look(d->arena, schedule));
    const char *text = region_words(d, surface, f->region);
    svg_path(d->out, path.text, look,
             arena_textf(d->arena, "%s, %s: %s", shown->part->name, text, schedule_words(d->job, schedule)));
    draw_label(d, f, scale, text);
}

/* A round length that fills about a quarter of the drawing: 1, 2 or 5 times a power of ten of the unit. */
static double bar_length(double most_m, double unit_m)
{
    double power = pow(10, floor(log10(most_m / unit_m))), steps = most_m / unit_m / power;
    return unit_m * power * (steps >= 5 ? 5 : steps >= 2 ? 2 : 1);
}

static void draw_bar(const struct drawing *d, double scale, double y)
{
    double length = bar_length(DRAWN_WIDTH / 3.0 / scale, d->units == UNITS_US ? 0.0254 : 0.001);
    struct buf path;
    buf_init(&path, d->arena);
    add_ring(&path, (struct sketch_ring){(struct point[]){{0, 0}, {length, 0}}, 2}, MARGIN, y, scale);
    svg_path(d->out, path.text, "stroke=\"" INK "\" stroke-width=\"2\"", NULL);
    quiet(d, MARGIN + scale * length + 6, y + 4, length_format(length, d->units).text);
}

/* "length 1400 mm, width 700 mm, thickness 25 mm", "6 corners, side 50 mm", "profile of 5 points", "from leg.stl" */
static const char *sizes(const struct drawing *d, const struct part *part)
{
    struct buf text;
    buf_init(&text, d->arena);
    if (part->corners > 0)
        buf_addf(&text, "%d corners", part->corners);
    if (part->point_count > 0)
        buf_addf(&text, "%s of %zu points", part->shape == SHAPE_POLYGON ? "outline" : "profile",
                 part->point_count);
    if (part->mesh_file)
        buf_addf(&text, "from %s", path_last(part->mesh_file));
    for (enum dimension i = 0; i < DIM_COUNT; i++)
        if (part->size_m[i] > 0)
            buf_addf(&text, "%s%s%s", text.length ? ", " : "",
                     i == DIM_B || i == DIM_C ? "" : arena_textf(d->arena, "%s ", dimension_name(i)),
                     length_format(part->size_m[i], d->units).text);
    return text.text;
}

static void draw_head(const struct drawing *d, const struct part *part)
{
    const char *head = arena_textf(d->arena, "%s: %s, %d of it%s", part->name, shape_name(part->shape),
                                   part->qty, part->qty > 1 ? " (areas of all together)" : "");
    svg_text(d->out, MARGIN, d->y + 14, "font-size=\"14\" font-weight=\"bold\" fill=\"" INK "\"",
             svg_fitted(d->arena, head, 14, WIDTH - 2 * MARGIN));
    if (part->shape != SHAPE_AREA)
        quiet(d, MARGIN, d->y + 30, svg_fitted(d->arena, sizes(d, part), 11, WIDTH - 2 * MARGIN));
}

/* A line of words for each region; returns where they end. */
static double draw_regions(const struct drawing *d, const struct shown *shown, double y)
{
    unsigned regions = shape_regions(shown->part->shape);
    for (enum region r = 0; r < REGION_COUNT; r++) {
        const struct surface *surface = surface_of(shown, r);
        if (!surface && (!(regions & (1u << r)) || shown->part->covered_count == 0))
            continue;
        int schedule = surface ? surface->schedule : SCHEDULE_NONE;
        const char *text = region_words(d, surface, r);
        if (surface)
            text = arena_textf(d->arena, "%s: %s", text, schedule_words(d->job, schedule));
        svg_rect(d->out, (struct svg_box){WORDS_X, y, 20, 12}, tint_look(d->arena, schedule), NULL);
        words(d, WORDS_X + 28, y + 11, svg_fitted(d->arena, text, SIZE, WORDS_WIDTH - 28));
        y += LINE;
    }
    return y;
}

static void draw_part(struct drawing *d, const struct shown *shown)
{
    struct sketch sketch = sketch_make(d->arena, d->job, shown->part);
    double scale = fmin(DRAWN_WIDTH / sketch.width_m, DRAWN_HEIGHT / sketch.height_m);
    double top = d->y + HEAD, low = top + scale * sketch.height_m;
    draw_head(d, shown->part);
    for (size_t i = 0; i < sketch.count; i++)
        draw_figure(d, shown, &sketch.figures[i], scale);
    if (sketch.stands_for)
        quiet(d, MARGIN, low + BAR - 6, "a square of this area");
    else
        draw_bar(d, scale, low + BAR - 10);
    d->y = fmax(low + BAR, draw_regions(d, shown, top)) + MARGIN;
}

static void draw_key(struct drawing *d)
{
    const struct surfaces *s = d->surfaces;
    for (size_t i = 0; i < d->job->schedule_count; i++, d->y += LINE) {
        const char *text =
            arena_textf(d->arena, "%s: %s", d->job->schedules[i].name, area_words(d, s->by_schedule_m2[i]));
        svg_rect(d->out, (struct svg_box){MARGIN, d->y, 20, 12}, tint_look(d->arena, (int)i), NULL);
        words(d, MARGIN + 28, d->y + 11, text);
    }
    svg_rect(d->out, (struct svg_box){MARGIN, d->y, 20, 12}, tint_look(d->arena, SCHEDULE_BARE), NULL);
    words(d, MARGIN + 28, d->y + 11, arena_textf(d->arena, "bare: %s", area_words(d, s->bare_m2)));
    d->y += LINE + MARGIN;
}

void area_svg(struct buf *out, const struct job *job, const struct surfaces *surfaces, enum unit_system units)
{
    struct buf body;
    buf_init(&body, out->arena);
    struct drawing d = {&body, out->arena, job, surfaces, units, MARGIN};
    size_t surface = 0, most = job->part_count < AREA_SVG_MOST ? job->part_count : AREA_SVG_MOST;
    for (size_t i = 0; i < job->schedule_count && i < TINT_COUNT; i++)
        svg_pattern(&body, *tint_of(i));
    svg_text(&body, MARGIN, d.y + 16, "font-size=\"18\" font-weight=\"bold\" fill=\"" INK "\"",
             svg_fitted(d.arena, job->name, 18, WIDTH - 2 * MARGIN));
    d.y += 34;
    draw_key(&d);
    for (size_t i = 0; i < most; i++) {
        struct shown shown = {&job->parts[i], surfaces->items + surface, 0};
        while (surface < surfaces->count && surfaces->items[surface].part == i)
            surface++;
        shown.count = (size_t)(surfaces->items + surface - shown.surfaces);
        draw_part(&d, &shown);
    }
    if (most < job->part_count) {
        quiet(&d, MARGIN, d.y, arena_textf(d.arena, "and %zu more parts", job->part_count - most));
        d.y += LINE;
    }
    svg_begin(out, WIDTH, d.y, job->name);
    buf_add(out, body.text);
    svg_end(out);
}
