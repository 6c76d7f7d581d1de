#include "format/svg.h"

#include "base/arena.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

/* Two decimals are a hundredth of a pixel; whole numbers keep their short form. */
void svg_number(struct buf *out, double number)
{
    long long hundredths = llround(number * 100);
    long long whole = (hundredths < 0 ? -hundredths : hundredths) / 100;
    long long rest = (hundredths < 0 ? -hundredths : hundredths) % 100;
    buf_addf(out, "%s%lld", hundredths < 0 ? "-" : "", whole);
    if (rest % 10)
        buf_addf(out, ".%02lld", rest);
    else if (rest)
        buf_addf(out, ".%lld", rest / 10);
}

/* What XML 1.0 cannot hold at all (section 2.2, Char), and what would turn a line around, becomes the sign for an unknown
 * character. */
static bool holds(uint32_t c)
{
    return c == '\t' || c == '\n' || c == '\r' || (!text_is_control(c) && c != 0xFFFE && c != 0xFFFF);
}

static const char *entity(uint32_t c)
{
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    default:
        return NULL;
    }
}

void svg_escape(struct buf *out, const char *text)
{
    while (*text) {
        const char *from = text;
        uint32_t c = text_next(&text);
        const char *name = entity(c);
        if (name)
            buf_add(out, name);
        else if (!holds(c) || c == 0xFFFD)
            buf_add(out, "\xEF\xBF\xBD");
        else
            buf_add_n(out, from, (size_t)(text - from));
    }
}

static void attribute(struct buf *out, const char *name, double number)
{
    buf_addf(out, " %s=\"", name);
    svg_number(out, number);
    buf_add_char(out, '"');
}

static void element(struct buf *out, const char *name, const char *look)
{
    buf_addf(out, "<%s%s%s", name, *look ? " " : "", look);
}

static void add_title(struct buf *out, const char *text)
{
    buf_add(out, "<title>");
    svg_escape(out, text);
    buf_add(out, "</title>");
}

/* Ends an element that holds nothing but its tip. */
static void close_with(struct buf *out, const char *name, const char *tip)
{
    if (!tip) {
        buf_add(out, "/>\n");
        return;
    }
    buf_add_char(out, '>');
    add_title(out, tip);
    buf_addf(out, "</%s>\n", name);
}

void svg_begin(struct buf *out, double width, double height, const char *title)
{
    buf_add(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" font-family=\"sans-serif\"");
    attribute(out, "width", width);
    attribute(out, "height", height);
    buf_add(out, " viewBox=\"0 0 ");
    svg_number(out, width);
    buf_add_char(out, ' ');
    svg_number(out, height);
    buf_add(out, "\">\n");
    add_title(out, title);
    buf_add_char(out, '\n');
    svg_rect(out, (struct svg_box){0, 0, width, height}, "fill=\"#ffffff\"", NULL);
}

void svg_end(struct buf *out)
{
    buf_add(out, "</svg>\n");
}

static void pattern_ink(struct buf *out, const struct svg_pattern *pattern)
{
    double middle = pattern->step / 2;
    if (pattern->hatch == SVG_HATCH_DOTS) {
        buf_add(out, "<circle");
        attribute(out, "cx", middle);
        attribute(out, "cy", middle);
        attribute(out, "r", pattern->weight);
        buf_addf(out, " fill=\"%s\"/>", pattern->ink);
        return;
    }
    buf_add(out, "<line y1=\"0\"");
    attribute(out, "x1", middle);
    attribute(out, "x2", middle);
    attribute(out, "y2", pattern->step);
    attribute(out, "stroke-width", pattern->weight);
    buf_addf(out, " stroke=\"%s\"/>", pattern->ink);
}

/* Upright lines, turned as a whole: so they meet at the edges of the tiles. */
void svg_pattern(struct buf *out, struct svg_pattern pattern)
{
    static const char *const turns[] = {
        [SVG_HATCH_RISING] = " patternTransform=\"rotate(45)\"",
        [SVG_HATCH_FALLING] = " patternTransform=\"rotate(-45)\"",
        [SVG_HATCH_DOTS] = "",
        [SVG_HATCH_LEVEL] = " patternTransform=\"rotate(90)\"",
        [SVG_HATCH_UPRIGHT] = "",
    };
    buf_addf(out, "<pattern id=\"%s\" patternUnits=\"userSpaceOnUse\"%s", pattern.id, turns[pattern.hatch]);
    attribute(out, "width", pattern.step);
    attribute(out, "height", pattern.step);
    buf_add(out, "><rect");
    attribute(out, "width", pattern.step);
    attribute(out, "height", pattern.step);
    buf_addf(out, " fill=\"%s\"/>", pattern.ground);
    pattern_ink(out, &pattern);
    buf_add(out, "</pattern>\n");
}

void svg_rect(struct buf *out, struct svg_box box, const char *look, const char *tip)
{
    element(out, "rect", look);
    attribute(out, "x", box.x);
    attribute(out, "y", box.y);
    attribute(out, "width", box.width);
    attribute(out, "height", box.height);
    close_with(out, "rect", tip);
}

void svg_line(struct buf *out, struct svg_box box, const char *look)
{
    element(out, "line", look);
    attribute(out, "x1", box.x);
    attribute(out, "y1", box.y);
    attribute(out, "x2", box.x + box.width);
    attribute(out, "y2", box.y + box.height);
    close_with(out, "line", NULL);
}

void svg_path(struct buf *out, const char *data, const char *look, const char *tip)
{
    element(out, "path", look);
    buf_addf(out, " d=\"%s\"", data);
    close_with(out, "path", tip);
}

void svg_text(struct buf *out, double x, double y, const char *look, const char *text)
{
    element(out, "text", look);
    attribute(out, "x", x);
    attribute(out, "y", y);
    buf_add_char(out, '>');
    svg_escape(out, text);
    buf_add(out, "</text>\n");
}

/* 0.6 of the size a cell: wide faces such as DejaVu Sans take that much on the average. */
double svg_text_width(const char *text, double size)
{
    return 0.6 * size * (double)text_width(text);
}

const char *svg_fitted(struct arena *arena, const char *text, double size, double width)
{
    if (svg_text_width(text, size) <= width)
        return text;
    const char *end = text, *next = text;
    while (*next) {
        text_next(&next);
        const char *shorter = arena_text_n(arena, text, (size_t)(next - text));
        if (svg_text_width(shorter, size) + svg_text_width("...", size) > width)
            break;
        end = next;
    }
    return arena_textf(arena, "%.*s...", (int)(end - text), text);
}
