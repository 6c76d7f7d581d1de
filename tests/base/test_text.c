#include "check.h"

#include "base/arena.h"
#include "base/text.h"

#include <string.h>

struct valid_row {
    struct row row;
    const char *bytes;
    intmax_t bad_at; /* -1: valid */
};

/* The well-formed and ill-formed sequences of RFC 3629 section 4 and the Unicode Standard, table 3-7. */
static const struct valid_row valids[] = {
    {ROW("empty"), "", -1},
    {ROW("ASCII"), "oak", -1},
    {ROW("two bytes"),
     "fa\xC3\xA7"
     "ade",
     -1},
    {ROW("three bytes"), "\xE2\x82\xAC", -1},
    {ROW("four bytes"), "\xF0\x9F\xAA\xB5", -1},
    {ROW("last code point"), "\xF4\x8F\xBF\xBF", -1},
    {ROW("beyond the last"), "a\xF4\x90\x80\x80", 1},
    {ROW("lone continuation"), "ab\x80", 2},
    {ROW("cut"), "abc\xE2\x82", 3},
    {ROW("overlong two"), "\xC0\xAF", 0},
    {ROW("overlong three"), "\xE0\x80\xAF", 0},
    {ROW("overlong four"), "\xF0\x80\x80\xAF", 0},
    {ROW("surrogate"), "\xED\xA0\x80", 0},
    {ROW("before the surrogates"), "\xED\x9F\xBF", -1},
    {ROW("Latin 1"),
     "fa\xE7"
     "ade",
     2},
    {ROW("no lead byte"), "\xFF", 0},
};

static void valid_is(void **state)
{
    const struct valid_row *r = *state;
    size_t bad_at = 99;
    bool valid = text_valid(r->bytes, strlen(r->bytes), &bad_at);
    check_int(&r->row, valid, r->bad_at < 0);
    check_int(&r->row, (intmax_t)bad_at, r->bad_at < 0 ? 99 : r->bad_at);
}

static void walks_code_points(void **state)
{
    (void)state;
    const char *at = "a\xC3\xA7\xE2\x82\xAC\xF0\x9F\xAA\xB5\x80z";
    static const uint32_t want[] = {'a', 0xE7, 0x20AC, 0x1FAB5, 0xFFFD, 'z', 0, 0};
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++)
        check_int(HERE, text_next(&at), want[i]);
    check_int(HERE, *at, 0);
}

struct width_row {
    struct row row;
    const char *text;
    intmax_t characters, width;
};

static const struct width_row widths[] = {
    {ROW("ASCII"), "oak", 3, 3},
    {ROW("accent"), "ch\xC3\xAAne", 5, 5},
    {ROW("combining accent"), "che\xCC\x82ne", 6, 5},
    {ROW("wide"), "\xE6\x9C\xA8", 1, 2},
    {ROW("pictograph"), "\xF0\x9F\x94\xA8!", 2, 3},
    {ROW("full width"), "\xEF\xBC\xA1", 1, 2},
    {ROW("degree sign"),
     "20 \xC2\xB0"
     "C",
     5, 5},
    {ROW("zero width joiner"),
     "a\xE2\x80\x8D"
     "b",
     3, 2},
    {ROW("broken byte"),
     "a\xFF"
     "b",
     3, 3},
    {ROW("nothing"), "", 0, 0},
};

static void width_is(void **state)
{
    const struct width_row *r = *state;
    check_int(&r->row, (intmax_t)text_characters(r->text, strlen(r->text)), r->characters);
    check_int(&r->row, (intmax_t)text_width(r->text), r->width);
}

static void characters_of_a_part(void **state)
{
    (void)state;
    check_int(HERE, (intmax_t)text_characters("\xE2\x82\xAC\xE2\x82\xAC", 3), 1);
    /* A sequence cut by the end counts its bytes. */
    check_int(HERE, (intmax_t)text_characters("\xE2\x82\xAC\xE2\x82\xAC", 5), 3);
}

struct pair_row {
    struct row row;
    const char *text, *want;
};

static const struct pair_row trims[] = {
    {ROW("nothing to do"), "oak", "oak"},
    {ROW("blanks"), " \t oak top \r\n", "oak top"},
    {ROW("no-break spaces"), "\xC2\xA0 oak \xC2\xA0", "oak"},
    {ROW("blank"), " \xC2\xA0 ", ""},
    {ROW("empty"), "", ""},
    {ROW("a letter that ends like one"), "voil\xC3\xA0", "voil\xC3\xA0"},
};

static void trims_to(void **state)
{
    const struct pair_row *r = *state;
    struct arena *arena = arena_make(0);
    check_text(&r->row, text_trimmed(arena, r->text), r->want);
    arena_free(arena);
}

static const struct pair_row slugs[] = {
    {ROW("words"), "fit hinges", "fit-hinges"},
    {ROW("marks and capitals"), "  Fit   Hinges! (top) ", "fit-hinges-top"},
    {ROW("slash"), "left/right", "left-right"},
    {ROW("digits"), "Door 12", "door-12"},
    {ROW("other scripts"), "t\xC3\xBCr 3", "t\xC3\xBCr-3"},
    {ROW("nothing left"), " -- ", ""},
    {ROW("already one"), "case-handle", "case-handle"},
};

static void slug_is(void **state)
{
    const struct pair_row *r = *state;
    struct arena *arena = arena_make(0);
    check_text(&r->row, text_slug(arena, r->text), r->want);
    check_text(&r->row, text_slug(arena, r->want), r->want);
    arena_free(arena);
}

static const char *const keys[] = {"thickness", "width", "length", "piece", "part",
                                   "parts",     "wood",  "qty",    "by"};

static const struct pair_row nears[] = {
    {ROW("letter missing"), "thicknes", "thickness"},
    {ROW("letters swapped"), "lenght", "length"},
    {ROW("letter wrong"), "widtj", "width"},
    {ROW("letter too many"), "piecce", "piece"},
    {ROW("case"), "PIECE", "piece"},
    {ROW("two mistakes in a long word"), "thiknes", "thickness"},
    {ROW("the first of equals"), "partz", "part"},
    {ROW("exactly one of them"), "part", "part"},
    {ROW("short word, one mistake"), "wod", "wood"},
    {ROW("short word, two mistakes"), "wd", "(none)"},
    {ROW("nothing near"), "colour", "(none)"},
    {ROW("one letter"), "x", "(none)"},
    {ROW("empty"), "", "(none)"},
    {ROW("very long"), "thicknessthicknessthicknessthicknessthicknessthickness", "(none)"},
};

static void nearest_is(void **state)
{
    const struct pair_row *r = *state;
    const char *near = text_nearest(r->text, keys, sizeof keys / sizeof keys[0]);
    check_text(&r->row, near ? near : "(none)", r->want);
}

static void same_but_for_case(void **state)
{
    (void)state;
    check_true(HERE, text_same("Oak", "oAK"), "case");
    check_true(HERE, !text_same("oak", "oaks") && !text_same("oaks", "oak"), "length");
    check_true(HERE, text_same("", ""), "empty");
    check_true(HERE, text_same_n("oak top", 3, "OAK"), "a part");
    check_true(HERE, !text_same("\xC3\xA9", "\xC3\x89"), "beyond ASCII nothing is folded");
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(valids, valid_is), CHECK_ROWS(widths, width_is), CHECK_ROWS(trims, trims_to),
                     CHECK_ROWS(slugs, slug_is), CHECK_ROWS(nears, nearest_is), CHECK_TEST(walks_code_points),
                     CHECK_TEST(characters_of_a_part), CHECK_TEST(same_but_for_case));
}
