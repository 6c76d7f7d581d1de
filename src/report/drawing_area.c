#include "report/drawing.h"

#include "base/arena.h"
#include "base/length.h"
#include "base/number.h"
#include "format/path.h"
#include "format/svg.h"
#include "report/drawing_parts.h"
#include "report/sentences.h"

#include <math.h>

#define INK "#22302f"
#define QUIET "#5f6b68"

enum {
    TINT_COUNT = 12,
    EDGE = 38, /* 10 mm */
    GUTTER = 26,
    COLUMNS = 2,
    SKETCH_HEIGHT = 150,
    LINE = 16,
    SIZE = 12,
    SMALL = 12,
    HEAD = 52,  /* a card's name, its piece and its sizes */
    BAR = 22,   /* its scale */
    BELOW = 20, /* between cards */
    TITLE = 34,
    FOOT = 18,
};

static const struct svg_pattern tints[TINT_COUNT] = {
    {"tint-a", SVG_HATCH_RISING, "#f5e4b4", "#7d5f10", 9, 1.2},
    {"tint-b", SVG_HATCH_FALLING, "#cfe2ec", "#1d5270", 9, 1.2},
    {"tint-c", SVG_HATCH_DOTS, "#f1d2c4", "#8f3717", 8, 1.5},
    {"tint-d", SVG_HATCH_LEVEL, "#dde4cf", "#3c4b26", 7, 1},
    {"tint-e", SVG_HATCH_UPRIGHT, "#e5d6e8", "#572c66", 7, 1},
    {"tint-f", SVG_HATCH_DOTS, "#dadada", "#262626", 4, 0.9},
    {"tint-g", SVG_HATCH_RISING, "#d3ebe4", "#14584a", 4, 1},
    {"tint-h", SVG_HATCH_FALLING, "#f7dfe6", "#8a1f49", 4, 1},
    {"tint-i", SVG_HATCH_LEVEL, "#fbe3c8", "#8a4b00", 3, 0.9},
    {"tint-j", SVG_HATCH_UPRIGHT, "#d6dcf2", "#2b3a80", 3, 0.9},
    {"tint-k", SVG_HATCH_RISING, "#f0f0d8", "#55550c", 14, 4},
    {"tint-l", SVG_HATCH_FALLING, "#e3ddd3", "#4a3b28", 14, 4},
};

/* Attributes of a figure that gets a schedule; of one that stays bare, for any negative one. Any two differ in their
 * hatching, not in colour alone; the ink of each stands out from its ground. A thirteenth schedule looks like the first:
 * its name tells them apart. */
static const char *tint_look(struct arena *arena, int schedule)
{
    if (schedule < 0)
        return "fill=\"#ffffff\" stroke=\"#8a8f8c\" stroke-width=\"0.8\" stroke-dasharray=\"3 2\"";
    const struct svg_pattern *tint = &tints[schedule % TINT_COUNT];
    return arena_textf(arena, "fill=\"url(#%s)\" stroke=\"%s\" stroke-width=\"1\"", tint->id, tint->ink);
}

/* The pages lie below one another; a card never crosses from one to the next. */
struct drawing {
    struct buf *out;
    struct arena *arena;
    const struct job *job;
    const struct surfaces *surfaces;
    enum unit_system units;
    struct drawing_page page;
    size_t pages; /* begun */
    size_t column;
    double x, y, top; /* of the column; y is where the next card begins */
};

static double column_width(struct drawing_page page)
{
    return (page.width - 2 * EDGE - (COLUMNS - 1) * GUTTER) / COLUMNS;
}

static void words(const struct drawing *d, double x, double y, const char *text)
{
    svg_text(d->out, x, y, "font-size=\"12\" fill=\"" INK "\"", text);
}

static void quiet(const struct drawing *d, double x, double y, const char *text)
{
    svg_text(d->out, x, y, "font-size=\"12\" fill=\"" QUIET "\"", text);
}

static const char *area_words(const struct drawing *d, double area_m2)
{
    return arena_text(d->arena, area_format(area_m2, d->units).text);
}

/* An outline as a path; its hole is cut out of it by fill-rule. */
static void add_ring(struct buf *path, struct sketch_ring ring, struct point at, double scale)
{
    for (size_t i = 0; i < ring.count; i++) {
        buf_add_char(path, i ? 'L' : 'M');
        svg_number(path, at.x + scale * ring.points[i].x);
        buf_add_char(path, ' ');
        svg_number(path, at.y + scale * ring.points[i].y);
    }
    buf_add(path, ring.count ? "Z" : "");
}

static const char *region_words(const struct drawing *d, const struct card *card, enum region region)
{
    if (!card->regions[region].there)
        return arena_textf(d->arena, "%s: covered", region_name(region));
    return arena_textf(d->arena, "%s %s", region_name(region), area_words(d, card->regions[region].area_m2));
}

static int schedule_of(const struct card *card, enum region region)
{
    return card->regions[region].there ? card->regions[region].schedule : SCHEDULE_NONE;
}

/* In the middle of a figure, where there is room. */
static void draw_label(const struct drawing *d, const struct sketch_figure *figure, struct point at,
                       double scale, const char *text)
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
    double x = at.x + scale * (low.x + high.x) / 2, y = at.y + scale * (low.y + 2 * high.y) / 3;
    svg_rect(d->out, (struct svg_box){x - width / 2, y - 12, width, LINE}, "fill=\"#ffffff\" rx=\"3\"", NULL);
    svg_text(d->out, x, y, "font-size=\"12\" text-anchor=\"middle\" fill=\"" INK "\"", text);
}

static void draw_figure(const struct drawing *d, const struct card *card, const struct sketch_figure *f,
                        struct point at)
{
    int schedule = schedule_of(card, f->region);
    struct buf path;
    buf_init(&path, d->arena);
    add_ring(&path, f->outline, at, card->unit_per_m);
    add_ring(&path, f->hole, at, card->unit_per_m);
    const char *look = arena_textf(d->arena, "fill-rule=\"evenodd\" %s", tint_look(d->arena, schedule));
    const char *text = region_words(d, card, f->region);
    svg_path(d->out, path.text, look,
             arena_textf(d->arena, "%s, %s: %s", card->part->name, text, schedule_words(d->job, schedule)));
    draw_label(d, f, at, card->unit_per_m, text);
}

/* A round length that fills about a quarter of the drawing: 1, 2 or 5 times a power of ten of the unit. */
static double bar_length(double most_m, double unit_m)
{
    double power = pow(10, floor(log10(most_m / unit_m))), steps = most_m / unit_m / power;
    return unit_m * power * (steps >= 5 ? 5 : steps >= 2 ? 2 : 1);
}

static void draw_bar(const struct drawing *d, const struct card *card, double y)
{
    double scale = card->unit_per_m;
    double length = bar_length(column_width(d->page) / 4 / scale, d->units == UNITS_US ? 0.0254 : 0.001);
    struct buf path;
    buf_init(&path, d->arena);
    add_ring(&path, (struct sketch_ring){(struct point[]){{0, 0}, {length, 0}}, 2}, (struct point){d->x, y},
             scale);
    svg_path(d->out, path.text, "stroke=\"" INK "\" stroke-width=\"2\"", NULL);
    quiet(d, d->x + scale * length + 6, y + 4,
          arena_textf(d->arena, "%s, scale 1:%s", length_format(length, d->units).text,
                      number_round(card->ratio, 1).text));
}

/* "1400 mm x 700 mm x 25 mm", "length 705 mm, diameter 45 mm", "6 corners, side 50 mm", "from leg.stl". */
static const char *sizes(const struct drawing *d, const struct part *part)
{
    bool board = part->size_m[DIM_LENGTH] > 0 && part->size_m[DIM_WIDTH] > 0;
    struct buf text;
    buf_init(&text, d->arena);
    if (part->corners > 0)
        buf_addf(&text, "%d corners", part->corners);
    if (part->point_count > 0)
        buf_addf(&text, "%s of %zu points", part->shape == SHAPE_POLYGON ? "outline" : "profile",
                 part->point_count);
    if (part->mesh_file)
        buf_addf(&text, "from %s", path_last(part->mesh_file));
    for (enum dimension i = 0; i < DIM_COUNT; i++) {
        bool bare =
            i == DIM_B || i == DIM_C || (board && (i == DIM_LENGTH || i == DIM_WIDTH || i == DIM_THICKNESS));
        const char *between = !text.length                                      ? ""
                              : board && (i == DIM_WIDTH || i == DIM_THICKNESS) ? " x "
                                                                                : ", ";
        if (part->size_m[i] > 0)
            buf_addf(&text, "%s%s%s%s", between, bare ? "" : dimension_name(i), bare ? "" : " ",
                     length_format(part->size_m[i], d->units).text);
    }
    return text.text;
}

static void draw_head(const struct drawing *d, const struct card *card)
{
    double room = column_width(d->page);
    const struct part *part = card->part;
    const char *qty = card->qty > 1 ? arena_textf(d->arena, ", %d of it (areas of all)", card->qty) : "";
    svg_text(d->out, d->x, d->y + 13, "font-size=\"13\" font-weight=\"bold\" fill=\"" INK "\"",
             svg_fitted(d->arena, arena_textf(d->arena, "%s%s", part->name, qty), 13, room));
    quiet(d, d->x, d->y + 28,
          svg_fitted(d->arena,
                     arena_textf(d->arena, "piece: %s; %s%s%s", card->piece, shape_name(part->shape),
                                 part->wood ? ", " : "", part->wood ? part->wood->name : ""),
                     SMALL, room));
    if (part->shape != SHAPE_AREA)
        quiet(d, d->x, d->y + 42, svg_fitted(d->arena, sizes(d, part), SMALL, room));
}

static bool region_said(const struct card *card, enum region region)
{
    return card->regions[region].there ||
           ((shape_regions(card->part->shape) & (1u << region)) && card->part->covered_count > 0);
}

/* A line of words for each region. */
static void draw_regions(const struct drawing *d, const struct card *card, double y)
{
    for (enum region r = 0; r < REGION_COUNT; r++) {
        if (!region_said(card, r))
            continue;
        int schedule = schedule_of(card, r);
        const char *text = region_words(d, card, r);
        if (card->regions[r].there)
            text = arena_textf(d->arena, "%s: %s", text, schedule_words(d->job, schedule));
        svg_rect(d->out, (struct svg_box){d->x, y, 20, 12}, tint_look(d->arena, schedule), NULL);
        words(d, d->x + 28, y + 11, svg_fitted(d->arena, text, SIZE, column_width(d->page) - 28));
        y += LINE;
    }
}

static double card_height(const struct card *card)
{
    double height = HEAD + card->unit_per_m * card->sketch.height_m + BAR;
    for (enum region r = 0; r < REGION_COUNT; r++)
        height += region_said(card, r) ? LINE : 0;
    return height;
}

static void draw_card(const struct drawing *d, const struct card *card)
{
    struct point at = {d->x, d->y + HEAD};
    double low = at.y + card->unit_per_m * card->sketch.height_m;
    draw_head(d, card);
    for (size_t i = 0; i < card->sketch.count; i++)
        draw_figure(d, card, &card->sketch.figures[i], at);
    if (card->sketch.stands_for)
        quiet(d, d->x, low + BAR - 8, "a square of this area");
    else
        draw_bar(d, card, low + BAR - 12);
    draw_regions(d, card, low + BAR);
}

/* What each look stands for, in as many columns as the page has. */
static void draw_key(struct drawing *d)
{
    size_t count = d->job->schedule_count + 1, rows = (count + COLUMNS - 1) / COLUMNS;
    for (size_t i = 0; i < count; i++) {
        bool bare = i + 1 == count;
        size_t column = i / rows, row = i % rows;
        double x = EDGE + (double)column * (column_width(d->page) + GUTTER);
        double y = d->y + (double)row * LINE;
        const char *name = bare ? "bare" : d->job->schedules[i].name;
        double area_m2 = bare ? d->surfaces->bare_m2 : d->surfaces->by_schedule_m2[i];
        svg_rect(d->out, (struct svg_box){x, y, 20, 12}, tint_look(d->arena, bare ? SCHEDULE_BARE : (int)i),
                 NULL);
        words(d, x + 28, y + 11,
              svg_fitted(d->arena, arena_textf(d->arena, "%s: %s", name, area_words(d, area_m2)), SIZE,
                         column_width(d->page) - 28));
    }
    d->y += (double)rows * LINE + BELOW;
}

static void begin_column(struct drawing *d, size_t column)
{
    d->column = column;
    d->x = EDGE + (double)column * (column_width(d->page) + GUTTER);
    d->y = d->top;
}

static double page_top(const struct drawing *d, size_t page)
{
    return (double)page * d->page.height;
}

static void begin_page(struct drawing *d)
{
    double y = page_top(d, d->pages++);
    if (d->pages > 1)
        svg_line(d->out, (struct svg_box){0, y, d->page.width, 0},
                 "stroke=\"#c9c5ba\" stroke-width=\"1\" stroke-dasharray=\"6 4\"");
    svg_text(d->out, EDGE, y + EDGE + 14, "font-size=\"18\" font-weight=\"bold\" fill=\"" INK "\"",
             svg_fitted(d->arena, d->job->name, 18, d->page.width - 2 * EDGE));
    d->y = y + EDGE + TITLE;
    if (d->pages == 1)
        draw_key(d);
    d->top = d->y;
    begin_column(d, 0);
}

/* Room for a card: below the last one, in the next column, on the next page. */
static void find_room(struct drawing *d, double height)
{
    if (d->y + height <= page_top(d, d->pages) - EDGE - FOOT)
        return;
    if (d->column + 1 < COLUMNS)
        begin_column(d, d->column + 1);
    else
        begin_page(d);
}

static void number_pages(const struct drawing *d)
{
    for (size_t page = 0; page < d->pages; page++)
        svg_text(d->out, d->page.width - EDGE, page_top(d, page + 1) - EDGE,
                 "text-anchor=\"end\" font-size=\"12\" fill=\"" QUIET "\"",
                 arena_textf(d->arena, "areas, page %zu of %zu", page + 1, d->pages));
}

struct drawing_page drawing_page(enum drawing_paper paper)
{
    return paper == PAPER_LETTER ? (struct drawing_page){816, 1056} : (struct drawing_page){793.7, 1122.5};
}

void area_svg(struct buf *out, const struct job *job, const struct surfaces *surfaces, enum unit_system units,
              enum drawing_paper paper)
{
    struct buf body;
    buf_init(&body, out->arena);
    struct drawing d = {&body, out->arena, job, surfaces, units, drawing_page(paper), .pages = 0};
    struct cards cards = cards_make(out->arena, job, surfaces, column_width(d.page), SKETCH_HEIGHT);
    for (size_t i = 0; i < job->schedule_count && i < TINT_COUNT; i++)
        svg_pattern(&body, tints[i]);
    begin_page(&d);
    for (size_t i = 0; i < cards.count; i++) {
        double height = card_height(&cards.items[i]);
        find_room(&d, height);
        draw_card(&d, &cards.items[i]);
        d.y += height + BELOW;
    }
    if (cards.left_out) {
        find_room(&d, LINE);
        quiet(&d, d.x, d.y, arena_textf(d.arena, "and %zu more parts", cards.left_out));
    }
    number_pages(&d);
    svg_begin(out, d.page.width, page_top(&d, d.pages), job->name);
    buf_add(out, body.text);
    svg_end(out);
}

void area_cards_svg(struct buf *out, const struct job *job, const struct surfaces *surfaces,
                    enum unit_system units, enum drawing_paper paper)
{
    struct drawing d = {out, out->arena, job, surfaces, units, drawing_page(paper), .pages = 0};
    double width = column_width(d.page);
    struct cards cards = cards_make(out->arena, job, surfaces, width, SKETCH_HEIGHT);
    for (size_t i = 0; i < cards.count; i++) {
        svg_begin(out, width, card_height(&cards.items[i]) + 2, cards.items[i].part->name);
        draw_card(&d, &cards.items[i]);
        svg_end(out);
    }
    if (cards.left_out) {
        svg_begin(out, width, LINE, "more parts");
        quiet(&d, 0, LINE - 4, arena_textf(d.arena, "and %zu more parts", cards.left_out));
        svg_end(out);
    }
}

void drawing_patterns(struct buf *out)
{
    buf_add(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" aria-hidden=\"true\" class=\"patterns\" "
                 "width=\"0\" height=\"0\">\n");
    for (size_t i = 0; i < TINT_COUNT; i++)
        svg_pattern(out, tints[i]);
    picture_patterns(out);
    svg_end(out);
}
