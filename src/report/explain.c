/* Turning and box: a sum of pieces each. */
#include "report/text.h"

#include "base/arena.h"
#include "base/err.h"
#include "report/explain_shape.h"
#include "surface/sum.h"

#include <math.h>

enum { PIECES_SHOWN = 40 };

static void explain_frustum(const struct explaining *e, struct point a, struct point b)
{
    const struct formula *f = e->formula;
    struct text_short d1 = formula_number(f, a.y, 1), d2 = formula_number(f, b.y, 1);
    const char *label =
        arena_textf(e->m->arena, "%s-%s", formula_number(f, a.x, 1).text, formula_number(f, b.x, 1).text);
    const char *words = arena_textf(e->m->arena, "pi / 2 x (%s + %s) x sqrt(%s^2 + ((%s - %s) / 2)^2) = %s",
                                    d1.text, d2.text, formula_number(f, b.x - a.x, 1).text, d1.text, d2.text,
                                    formula_number(f, frustum_area(a.y, b.y, b.x - a.x), 2).text);
    formula_words(e->formula, label, words);
}

void explain_turning(const struct explaining *e)
{
    const struct point *p = e->m->part->points;
    size_t count = e->m->part->point_count;
    struct formula *f = e->formula;
    if (count <= PIECES_SHOWN)
        formula_words(f, "from-to", "pi / 2 x (d1 + d2) x sqrt(length^2 + ((d1 - d2) / 2)^2)");
    for (size_t i = 1; count <= PIECES_SHOWN && i < count; i++)
        explain_frustum(e, p[i - 1], p[i]);
    explain_region(e, REGION_FACE,
                   count <= PIECES_SHOWN ? "their sum" : "the frusta of the profile, added up");
    formula_set(f, "first d", p[0].y, 1);
    formula_set(f, "last d", p[count - 1].y, 1);
    explain_region(e, REGION_ENDS, "pi / 4 x ({first d}^2 + {last d}^2)");
}

/* The pairs of sides that share a rectangle. */
static const struct {
    unsigned one, other;
    const char *outer, *inner;
} pairs[] = {
    {BOX_FRONT, BOX_BACK, "{length} x {height}", "{l} x {h}"},
    {BOX_LEFT, BOX_RIGHT, "{width} x {height}", "{w} x {h}"},
    {BOX_TOP, BOX_BOTTOM, "{length} x {width}", "{l} x {w}"},
};

static int count_sides(size_t pair, unsigned sides)
{
    return !!(sides & pairs[pair].one) + !!(sides & pairs[pair].other);
}

enum seen { SEEN_OUTSIDE, SEEN_INSIDE, SEEN_RIM };

/* "2 x {length} x {height} + {width} x {height}", of the sides given; a rim is outer less inner. */
static const char *sum_of(const struct explaining *e, unsigned sides, enum seen seen)
{
    struct buf text;
    buf_init(&text, e->m->arena);
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        int count = count_sides(i, sides);
        if (count == 0)
            continue;
        buf_add(&text, text.length ? " + " : "");
        buf_add(&text, count == 2 ? "2 x " : "");
        if (seen == SEEN_RIM)
            buf_addf(&text, "(%s - %s)", pairs[i].outer, pairs[i].inner);
        else
            buf_add(&text, seen == SEEN_OUTSIDE ? pairs[i].outer : pairs[i].inner);
    }
    return text.text;
}

/* l, w and h: length, width and height inside. */
static void explain_inner(const struct explaining *e, const char *label, const char *outer, double outer_m,
                          int walls)
{
    static const char *const less[] = {"", " - {thickness}", " - 2 x {thickness}"};
    double inner = outer_m - walls * e->m->part->size_m[DIM_THICKNESS];
    formula_line(e->formula, label, arena_textf(e->m->arena, "{%s}%s", outer, less[walls]), inner, 1);
}

void explain_box(const struct explaining *e)
{
    const double *size = e->m->part->size_m;
    unsigned open = e->m->part->open, closed = 63 & ~open;
    explain_inner(e, "l", "length", size[DIM_LENGTH], count_sides(1, closed));
    explain_inner(e, "w", "width", size[DIM_WIDTH], count_sides(0, closed));
    explain_inner(e, "h", "height", size[DIM_HEIGHT], count_sides(2, closed));
    explain_region(e, REGION_OUTSIDE, sum_of(e, closed, SEEN_OUTSIDE));
    explain_region(e, REGION_INSIDE, sum_of(e, closed, SEEN_INSIDE));
    if (open)
        explain_region(e, REGION_EDGES, sum_of(e, open, SEEN_RIM));
}

void explain_region(const struct explaining *e, enum region region, const char *pattern)
{
    formula_line(e->formula, region_name(region), pattern, e->area_m2[region], 2);
}

static void explain_round(const struct explaining *e)
{
    explain_region(e, REGION_FACE, "pi x {diameter} x {length}");
    explain_region(e, REGION_ENDS, "pi / 2 x {diameter}^2");
}

static void explain_slope(const struct explaining *e, const char *pattern, double one_m, double other_m)
{
    double slope = hypot(e->m->part->size_m[DIM_LENGTH], (one_m - other_m) / 2);
    formula_line(e->formula, "slope", pattern, slope, 1);
}

static void explain_taper(const struct explaining *e)
{
    const double *size = e->m->part->size_m;
    explain_slope(e, "sqrt({length}^2 + (({width} - {width2}) / 2)^2)", size[DIM_WIDTH], size[DIM_WIDTH2]);
    explain_region(e, REGION_FACE, "2 x ({width} + {width2}) x {slope}");
    explain_region(e, REGION_ENDS, "{width}^2 + {width2}^2");
}

static void explain_cone(const struct explaining *e)
{
    const double *size = e->m->part->size_m;
    explain_slope(e, "sqrt({length}^2 + (({diameter} - {diameter2}) / 2)^2)", size[DIM_DIAMETER],
                  size[DIM_DIAMETER2]);
    explain_region(e, REGION_FACE, "pi / 2 x ({diameter} + {diameter2}) x {slope}");
    explain_region(e, REGION_ENDS, "pi / 4 x ({diameter}^2 + {diameter2}^2)");
}

static void explain_moulding(const struct explaining *e)
{
    explain_region(e, REGION_FACE, "{girth} x {length}");
}

static void explain_frame(const struct explaining *e)
{
    explain_region(e, REGION_FACE, "2 x {member} x ({length} + {width} - 2 x {member})");
    explain_region(e, REGION_BACK, "2 x {member} x ({length} + {width} - 2 x {member})");
    explain_region(e, REGION_EDGES, "4 x ({length} + {width} - 2 x {member}) x {thickness}");
}

static void explain_mesh(const struct explaining *e)
{
    formula_line(e->formula, "face", "the triangles of the mesh", e->area_m2[REGION_FACE], 2);
}

static void explain_area(const struct explaining *e)
{
    enum region region = e->m->part->area_region;
    formula_line(e->formula, region_name(region), "as given", e->area_m2[region], 2);
}

static void (*const explainers[SHAPE_COUNT])(const struct explaining *e) = {
    [SHAPE_BOARD] = explain_board, [SHAPE_TRIANGLE] = explain_triangle, [SHAPE_POLYGON] = explain_polygon,
    [SHAPE_DISC] = explain_disc,   [SHAPE_ROUND] = explain_round,       [SHAPE_TAPER] = explain_taper,
    [SHAPE_CONE] = explain_cone,   [SHAPE_TURNING] = explain_turning,   [SHAPE_MOULDING] = explain_moulding,
    [SHAPE_FRAME] = explain_frame, [SHAPE_BOX] = explain_box,           [SHAPE_MESH] = explain_mesh,
    [SHAPE_AREA] = explain_area,
};

static void name_sizes(struct formula *formula, const struct part *part)
{
    static const char *const sides[] = {"a", "b", "c"};
    for (enum dimension d = 0; d < DIM_COUNT; d++)
        formula_set(formula, d >= DIM_A && d <= DIM_C ? sides[d - DIM_A] : dimension_name(d), part->size_m[d],
                    1);
}

/* "2 x 300 x 120 + 2 x 40 x 600": counts and two lengths each. */
static void add_product(const struct formula *formula, struct buf *text, double count, double one_m,
                        double other_m)
{
    buf_add(text, text->length ? " + " : "");
    if (count != 1)
        buf_addf(text, "%s x ", formula_number(formula, count, 0).text);
    buf_addf(text, "%s x %s", formula_number(formula, one_m, 1).text,
             formula_number(formula, other_m, 1).text);
}

static double explain_grooves(struct formula *formula, const struct part *part)
{
    struct sum total = {0};
    struct buf products;
    buf_init(&products, formula->text->arena);
    for (size_t i = 0; i < part->groove_count; i++) {
        const struct groove *g = &part->grooves[i];
        add_product(formula, &products, g->count, g->length_m, g->girth_m);
        sum_add(&total, g->count * g->length_m * g->girth_m);
    }
    if (part->groove_count > 0)
        formula_line(formula, "grooves", products.text, sum_value(&total), 2);
    return sum_value(&total);
}

static double explain_covered(struct formula *formula, const struct part *part, enum region region)
{
    struct sum total = {0};
    struct buf products;
    buf_init(&products, formula->text->arena);
    for (size_t i = 0; i < part->covered_count; i++) {
        const struct covered *c = &part->covered[i];
        if (c->region != region)
            continue;
        add_product(formula, &products, c->count, c->width_m, c->length_m);
        sum_add(&total, c->count * c->width_m * c->length_m);
    }
    if (products.length > 0)
        formula_line(formula, "covered", products.text, sum_value(&total), 2);
    return sum_value(&total);
}

static const char *schedule_words(const struct job *job, int schedule)
{
    return schedule >= 0 ? job->schedules[schedule].name : schedule == SCHEDULE_BARE ? "left bare" : "bare";
}

/* What all qty of a region come to, and the schedule that they get. */
static void explain_total(const struct explaining *e, enum region region, double grooves_m2)
{
    const struct part *part = e->m->part;
    struct arena *arena = e->formula->text->arena;
    const char *name = region_name(region);
    double area = e->area_m2[region], covered = explain_covered(e->formula, part, region);
    bool grooved = region == REGION_FACE && grooves_m2 > 0;
    double total = (area + (grooved ? grooves_m2 : 0) - covered) * part->qty;
    bool changed = grooved || covered > 0;
    const char *sum = !changed && part->qty == 1
                          ? ""
                          : arena_textf(arena, "{%s}%s%s", name, grooved ? " + {grooves}" : "",
                                        covered > 0 ? " - {covered}" : "");
    if (part->qty > 1)
        sum = arena_textf(arena, changed ? "%d x (%s)" : "%d x %s", part->qty, sum);
    formula_total(e->formula, name, sum, fmax(total, 0),
                  arena_textf(arena, ": %s", schedule_words(e->m->job, part->schedule[region])));
}

bool show_part(struct screen *screen, const struct job *job, const struct part *part, struct err_list *errors)
{
    struct buf *text = screen->out;
    struct measuring m = measuring_of(text->arena, job, part, errors);
    struct formula formula = {.text = text, .units = screen->units, .width = screen->width};
    struct part smooth = *part; /* grooves stand in a line of their own */
    double area[REGION_COUNT];
    smooth.groove_count = 0;
    if (!shape_measure(&m, area))
        return false;
    m.part = &smooth;
    if (!shape_measure(&m, area))
        return false;
    struct explaining e = {&m, area, &formula};
    name_sizes(&formula, part);
    buf_addf(text, "%s: %s, in %s\n", part->name, shape_name(part->shape),
             screen->units == UNITS_US ? "inches" : "millimetres");
    explainers[part->shape](&e);
    double grooves = explain_grooves(&formula, part);
    buf_addf(text, "  %d of it:\n", part->qty);
    for (enum region r = 0; r < REGION_COUNT; r++)
        if (area[r] > 0 || (r == REGION_FACE && grooves > 0))
            explain_total(&e, r, grooves);
    return true;
}
