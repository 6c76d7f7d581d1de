#include "check.h"
#include "markup.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/svg.h"

#include <math.h>
#include <string.h>

struct number_row {
    struct row row;
    double number;
    const char *want;
};

static const struct number_row numbers[] = {
    {ROW("whole"), 12, "12"},         {ROW("nothing"), 0, "0"},
    {ROW("one decimal"), 1.5, "1.5"}, {ROW("two decimals"), 1.25, "1.25"},
    {ROW("small"), 0.05, "0.05"},     {ROW("rounded"), 2.0 / 3, "0.67"},
    {ROW("negative"), -0.5, "-0.5"},  {ROW("rounded to nothing"), -0.001, "0"},
    {ROW("large"), 123456, "123456"},
};

static void number_is(void **state)
{
    const struct number_row *r = *state;
    struct arena *arena = arena_make(0);
    struct buf out;
    buf_init(&out, arena);
    svg_number(&out, r->number);
    check_text(&r->row, out.text, r->want);
    arena_free(arena);
}

struct escape_row {
    struct row row;
    const char *text, *want;
};

/* XML 1.0, 2.2 and 2.4: what must be escaped, and what cannot stand at all. */
static const struct escape_row escapes[] = {
    {ROW("plain"), "oak, 12 mm", "oak, 12 mm"},
    {ROW("signs of markup"), "a<b & \"c\">d", "a&lt;b &amp; &quot;c&quot;&gt;d"},
    {ROW("beyond ASCII"), "Tür 木", "Tür 木"},
    {ROW("a control character"), "a\x07z", "a\xEF\xBF\xBDz"},
    {ROW("no character"), "a\xEF\xBF\xBFz", "a\xEF\xBF\xBDz"},
    {ROW("not UTF-8"), "a\xC3z", "a\xEF\xBF\xBDz"},
};

static void escape_is(void **state)
{
    const struct escape_row *r = *state;
    struct arena *arena = arena_make(0);
    struct buf out;
    buf_init(&out, arena);
    svg_escape(&out, r->text);
    check_text(&r->row, out.text, r->want);
    arena_free(arena);
}

static void a_drawing_as_text(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct buf out;
    buf_init(&out, arena);
    svg_begin(&out, 100, 50, "R & D");
    svg_rect(&out, (struct svg_box){1, 2, 3.5, 4}, "stroke=\"#000\"", NULL);
    svg_line(&out, (struct svg_box){10, 20, -5, 0}, "stroke=\"#000\"");
    svg_path(&out, "M0 0h9", "", "here");
    svg_text(&out, 5, 6, "font-size=\"9\"", "<1>");
    svg_end(&out);
    check_text(
        HERE, out.text,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" font-family=\"sans-serif\" width=\"100\" "
        "height=\"50\" viewBox=\"0 0 100 50\">\n"
        "<title>R &amp; D</title>\n"
        "<rect fill=\"#ffffff\" x=\"0\" y=\"0\" width=\"100\" height=\"50\"/>\n"
        "<rect stroke=\"#000\" x=\"1\" y=\"2\" width=\"3.5\" height=\"4\"/>\n"
        "<line stroke=\"#000\" x1=\"10\" y1=\"20\" x2=\"5\" y2=\"20\"/>\n"
        "<path d=\"M0 0h9\"><title>here</title></path>\n"
        "<text font-size=\"9\" x=\"5\" y=\"6\">&lt;1&gt;</text>\n"
        "</svg>\n");
    check_true(HERE, markup_read(out.text, NULL, NULL) == NULL, "well-formed");
    arena_free(arena);
}

struct markup_row {
    struct row row;
    const char *text;
    bool sound;
};

/* The reader of these tests must see what is wrong. */
static const struct markup_row markups[] = {
    {ROW("an element"), "<a b=\"1\"/>\n", true},
    {ROW("nested"), "<a><b>x &amp; y</b></a>", true},
    {ROW("nothing"), "", false},
    {ROW("not closed"), "<a>", false},
    {ROW("crossed"), "<a><b></a></b>", false},
    {ROW("two roots"), "<a/><a/>", false},
    {ROW("text outside"), "<a/>x", false},
    {ROW("a bare ampersand"), "<a>x & y</a>", false},
    {ROW("an attribute twice"), "<a b=\"1\" b=\"2\"/>", false},
    {ROW("a value without quotes"), "<a b=1/>", false},
    {ROW("no blank between attributes"), "<a b=\"1\"c=\"2\"/>", false},
    {ROW("a control character"), "<a>\x01</a>", false},
};

static void markup_is(void **state)
{
    const struct markup_row *r = *state;
    check_int(&r->row, markup_read(r->text, NULL, NULL) == NULL, r->sound);
}

/* The longest beginning that fits; never wider than asked for. */
static void texts_are_fitted(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    check_double(HERE, svg_text_width("12345", 10), 30, 1e-9);
    check_text(HERE, svg_fitted(arena, "12345", 10, 30), "12345");
    check_text(HERE, svg_fitted(arena, "12345678", 10, 30), "12...");
    check_text(HERE, svg_fitted(arena, "Türen", 10, 29), "T...");
    check_text(HERE, svg_fitted(arena, "Türen und Klappen", 10, 36), "Tür...");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(numbers, number_is), CHECK_ROWS(escapes, escape_is),
                     CHECK_ROWS(markups, markup_is), CHECK_TEST(a_drawing_as_text),
                     CHECK_TEST(texts_are_fitted));
}
