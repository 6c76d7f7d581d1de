/* Turning and box: a sum of pieces each. */
#include "surface/explain_shape.h"

#include "base/arena.h"

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
