/* Cells as people write them and spreadsheets export them: what is a date, a decimal comma, a thousand, several lengths. */
#include "check.h"

#include "base/arena.h"
#include "source/heading.h"

#include <string.h>

#define EIGHTY "01234567890123456789012345678901234567890123456789012345678901234567890123456789"

struct cell_row {
    struct row row;
    const char *text, *want; /* NULL: not so many */
};

static const char *tidied(struct cell_reading in, struct arena *arena, const char *text)
{
    in.arena = arena;
    if (cell_tidy(&in, &text))
        return text;
    return strstr(in.expected, "not a date") ? "a date" : "doubtful";
}

/* A length in millimetres of a list that may have decimal commas. */
static const struct cell_row lengths[] = {
    {ROW("a fraction that became a day"), "7-Aug", "a date"},
    {ROW("one that became a month of a year"), "Aug-07", "a date"},
    {ROW("of a whole year"), "Aug-2007", "a date"},
    {ROW("German"), "7. M\xC3\xA4rz 2026", "a date"},
    {ROW("French"), "7 ao\xC3\xBBt 26", "a date"},
    {ROW("with strokes"), "08/07/2026", "a date"},
    {ROW("the year first"), "2026-08-07", "a date"},
    {ROW("with a time"), "2026-08-07 00:00:00", "a date"},
    {ROW("a short year"), "31.12.99", "a date"},
    {ROW("single figures before the year"), "8/7/2026", "a date"},
    {ROW("a year of three figures"), "08-07-126", "08-07-126"},
    {ROW("the last day"), "31-Dec", "a date"},
    {ROW("no such day"), "32-Dec", "32-Dec"},
    {ROW("day 0"), "0-Dec", "0-Dec"},
    {ROW("a hundred"), "100-Dec", "100-Dec"},
    {ROW("a month and a figure"), "Aug-7", "Aug-7"},
    {ROW("a word and a year"), "Bay-07", "Bay-07"},
    {ROW("marks of two kinds"), "08/07-2026", "08/07-2026"},
    {ROW("blanks alone"), "08 07 26", "08 07 26"},
    {ROW("a year of one figure"), "8.7.6", "8.7.6"},
    {ROW("no day of a year"), "2026-08-32", "2026-08-32"},
    {ROW("no day in the middle"), "8-40-2026", "8-40-2026"},
    {ROW("four numbers"), "1-2-2026-4", "1-2-2026-4"},
    {ROW("five numbers"), "1-2-3-4-5", "1-2-3-4-5"},
    {ROW("a time alone"), "12:30", "12:30"},
    {ROW("in brackets"), "(7-Aug)", "(7-Aug)"},
    {ROW("a fraction"), "7/8", "7/8"},
    {ROW("a mixed one"), "3-3/4", "3-3/4"},
    {ROW("a decimal comma"), "0,75", "0.75"},
    {ROW("two of them"), "1,5 x 2,5", "1.5 x 2.5"},
    {ROW("a comma that is none"), "a,b", "a,b"},
    {ROW("a thousand behind a blank"), "1 200,5", "1200.5"},
    {ROW("millions"), "1 200 300", "1200300"},
    {ROW("a hard blank"),
     "1\xC2\xA0"
     "200",
     "1200"},
    {ROW("a narrow blank"),
     "1\xE2\x80\xAF"
     "200",
     "1200"},
    {ROW("an apostrophe"), "1'200", "1200"},
    {ROW("a Swiss one"),
     "1\xE2\x80\x99"
     "200",
     "1200"},
    {ROW("a blank before a fraction"), "12 100/3", "12 100/3"},
    {ROW("a blank before two figures"), "12 34", "12 34"},
    {ROW("a blank behind four"), "1234 567", "1234 567"},
    {ROW("points between thousands"), "1.200.300,5", "1200300.5"},
    {ROW("a point that may be either"), "1.200", "doubtful"},
    {ROW("a comma that may be either"), "1,200", "doubtful"},
    {ROW("a comma before two figures"), "1,20", "1.20"},
    {ROW("longer than a length is"), "1,5" EIGHTY EIGHTY, "1,5" EIGHTY EIGHTY},
};

static void length_is(void **state)
{
    const struct cell_row *r = *state;
    struct arena *arena = arena_make(0);
    struct cell_reading in = {.decimal_commas = true, .is_length = true, .unit = "mm"};
    check_text(&r->row, tidied(in, arena, r->text), r->want);
    arena_free(arena);
}

/* Three figures behind a mark are doubtful in mm and cm, where nobody measures thousandths; elsewhere they are decimals. */
static void doubtful_units(void **state)
{
    (void)state;
    static const struct {
        const char *unit, *want;
    } units[] = {{"mm", "doubtful"}, {"cm", "doubtful"}, {"m", "1.125"},
                 {"in", "1.125"},    {"ft", "1.125"},    {NULL, "1.125"}};
    struct arena *arena = arena_make(0);
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        struct cell_reading in = {.decimal_commas = true, .is_length = true, .unit = units[i].unit};
        check_text(HERE, tidied(in, arena, "1,125"), units[i].want);
        check_text(HERE, tidied(in, arena, "1.125"), units[i].want);
        in.cells = true;
        check_text(HERE, tidied(in, arena, "1.125"), "1.125");
        in.decimal_commas = false;
        check_text(HERE, tidied(in, arena, "1,125"), "1,125");
    }
    arena_free(arena);
}

static const struct cell_row counts[] = {
    {ROW("whole"), "4", "4"},
    {ROW("as a sheet shows it"), "4.00", "4"},
    {ROW("with a comma"), "4,0", "4"},
    {ROW("not whole"), "4.50", "4.50"},
    {ROW("zeros and more"), "4.001", "4.001"},
    {ROW("no figure before"), ".0", ".0"},
    {ROW("no figure behind"), "4.", "4."},
};

static void count_is(void **state)
{
    const struct cell_row *r = *state;
    struct arena *arena = arena_make(0);
    check_text(&r->row, tidied((struct cell_reading){.decimal_commas = true}, arena, r->text), r->want);
    arena_free(arena);
}

static const struct cell_row units[] = {
    {ROW("bare"), "450", "450 mm"},
    {ROW("a fraction"), "3/4", "3/4 mm"},
    {ROW("with its unit"), "45 cm", "45 cm"},
    {ROW("in inches"), "18\"", "18\""},
    {ROW("in feet"), "5'", "5'"},
    {ROW("in feet, set well"), "5\xE2\x80\xB2", "5\xE2\x80\xB2"},
    {ROW("in inches, set well"), "18\xE2\x80\xB3", "18\xE2\x80\xB3"},
    {ROW("empty"), "", ""},
};

static void unit_is(void **state)
{
    const struct cell_row *r = *state;
    struct arena *arena = arena_make(0);
    const char *text = r->text;
    struct cell_reading in = {.arena = arena};
    cell_unit(&in, "mm", &text);
    check_text(&r->row, text, r->want);
    text = r->text;
    cell_unit(&in, NULL, &text);
    check_text(&r->row, text, r->text);
    arena_free(arena);
}

/* Length, width and thickness in one cell, in centimetres where nothing is said. */
static const struct cell_row sizes[] = {
    {ROW("of three"), "60 x 40 x 1.8", "60 cm|40 cm|1.8 cm"},
    {ROW("a unit behind the last"), "600x400x18 mm", "600 mm|400 mm|18 mm"},
    {ROW("a unit behind each"), "60 cm x 400 mm x 3/4 in", "60 cm|400 mm|3/4 in"},
    {ROW("crosses"),
     "60\xC3\x97"
     "40 X 2",
     "60 cm|40 cm|2 cm"},
    {ROW("of one figure each"), "6x4x2", "6 cm|4 cm|2 cm"},
    {ROW("stars"), "60*40*2", "60 cm|40 cm|2 cm"},
    {ROW("of two"), "60 x 40", NULL},
    {ROW("of four"), "60 x 40 x 2 x 1", NULL},
    {ROW("one is missing"), "60 x x 2", NULL},
    {ROW("the last is missing"), "60 x 40 x", NULL},
    {ROW("none"), "", NULL},
};

static void size_is(void **state)
{
    const struct cell_row *r = *state;
    struct arena *arena = arena_make(0);
    const struct heading_cell head = {.columns = {2, 0, 1}, .count = 3, .unit = "cm"};
    const char *cells[3] = {"", "", r->text};
    struct cell_reading in = {.arena = arena};
    bool cut = cell_split(&in, &head, cells);
    check_int(&r->row, cut, r->want != NULL);
    if (r->want)
        check_text(&r->row, arena_textf(arena, "%s|%s|%s", cells[2], cells[0], cells[1]), r->want);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(lengths, length_is), CHECK_TEST(doubtful_units), CHECK_ROWS(counts, count_is),
                     CHECK_ROWS(units, unit_is), CHECK_ROWS(sizes, size_is));
}
