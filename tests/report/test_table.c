#include "check.h"

#include "base/arena.h"
#include "base/text.h"
#include "report/table.h"

#include <string.h>

struct paragraph_row {
    struct row row;
    size_t indent, hang;
    const char *text, *want;
};

static const struct paragraph_row paragraphs[] = {
    {ROW("one line"), 2, 2, "short", "  short\n"},
    {ROW("nothing"), 2, 2, "", "  \n"},
    {ROW("fits to the last cell"), 0, 0,
     "12345678 12345678 12345678 12345678 12345678 12345678 12345678 12345678 12345678",
     "12345678 12345678 12345678 12345678 12345678 12345678 12345678 12345678 12345678\n"},
    {ROW("one cell too many"), 1, 2,
     "12345678 12345678 12345678 12345678 12345678 12345678 12345678 12345678 12345678",
     " 12345678 12345678 12345678 12345678 12345678 12345678 12345678 12345678\n   12345678\n"},
    {ROW("a word longer than the line"), 70, 0, "abcdefghijklmno pq",
     "                                                                      abcdefghij\n"
     "                                                                      klmno pq\n"},
};

static void paragraph_is(void **state)
{
    const struct paragraph_row *r = *state;
    struct arena *arena = arena_make(0);
    struct buf out;
    buf_init(&out, arena);
    struct screen screen = {&out, UNITS_METRIC, false, SCREEN_USUAL};
    screen_paragraph(&screen, r->indent, r->hang, r->text);
    check_text(&r->row, out.text, r->want);
    arena_free(arena);
}

static void table_lines_up(void **state)
{
    (void)state;
    static const struct column columns[] = {
        {"part", ALIGN_LEFT, true}, {"area", ALIGN_RIGHT, false}, {NULL, ALIGN_LEFT, false}};
    struct arena *arena = arena_make(0);
    struct buf out;
    struct table table;
    buf_init(&out, arena);
    struct screen screen = {&out, UNITS_METRIC, false, SCREEN_USUAL};
    table_init(&table, arena, columns, 3);
    table_row(&table, (const char *[]){"Tür", "0.5 m2", NULL});
    table_row(&table, (const char *[]){"木", "12.25 m2", "x"});
    table_print(&table, &screen, 2);
    check_text(HERE, out.text,
               "  part      area\n"
               "  Tür     0.5 m2\n"
               "  木    12.25 m2  x\n");
    arena_free(arena);
}

static void wide_table_wraps_what_gives(void **state)
{
    (void)state;
    static const struct column columns[] = {{NULL, ALIGN_LEFT, false}, {NULL, ALIGN_LEFT, true}};
    struct arena *arena = arena_make(0);
    struct buf out;
    struct table table;
    buf_init(&out, arena);
    struct screen screen = {&out, UNITS_METRIC, false, SCREEN_USUAL};
    table_init(&table, arena, columns, 2);
    table_row(&table, (const char *[]){"0123456789012345678901234567890123456789012345678901234567890",
                                       "base door one, base door two"});
    table_print(&table, &screen, 0);
    check_text(HERE, out.text,
               "0123456789012345678901234567890123456789012345678901234567890  base door one,\n"
               "                                                               base door two\n");
    arena_free(arena);
}

/* No line over 80 cells, whatever the texts, and none of their words lost. */
static void tables_stay_within_the_width(void **state)
{
    (void)state;
    static const struct column columns[] = {
        {"when", ALIGN_LEFT, false}, {"what", ALIGN_LEFT, true}, {"piece", ALIGN_LEFT, true}};
    uint64_t seed = 80;
    for (int round = 0; round < 200; round++) {
        struct arena *arena = arena_make(0);
        struct buf out, cells[2];
        struct table table;
        buf_init(&out, arena);
        struct screen screen = {&out, UNITS_METRIC, false, SCREEN_USUAL};
        table_init(&table, arena, columns, 3);
        for (int k = 0; k < 2; k++) {
            buf_init(&cells[k], arena);
            for (int word = check_random_int(&seed, 1, 12); word > 0; word--)
                buf_addf(&cells[k], "%s%d", word % 3 ? "wörter " : "x ", word);
        }
        table_row(&table, (const char *[]){"08:00", cells[0].text, cells[1].text});
        table_print(&table, &screen, 2);
        for (char *line = out.text, *end; (end = strchr(line, '\n')); line = end + 1) {
            *end = '\0';
            check_true(HERE, text_width(line) <= SCREEN_USUAL, line);
            check_true(HERE, end == line || end[-1] != ' ', "no blanks at the end of a line");
        }
        arena_free(arena);
    }
}

static void colour_only_where_asked(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct buf out;
    buf_init(&out, arena);
    struct screen screen = {&out, UNITS_METRIC, true, SCREEN_USUAL};
    screen_heading(&screen, "To buy");
    check_text(HERE, out.text, "\033[1mTo buy\033[0m\n");
    screen.colour = false;
    screen_heading(&screen, "To do");
    check_text(HERE, out.text, "\033[1mTo buy\033[0m\n\nTo do\n");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(paragraphs, paragraph_is), CHECK_TEST(table_lines_up),
                     CHECK_TEST(wide_table_wraps_what_gives), CHECK_TEST(tables_stay_within_the_width),
                     CHECK_TEST(colour_only_where_asked));
}
