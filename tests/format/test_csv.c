#include "check.h"
#include "reader.h"

#include "base/buf.h"
#include "format/csv.h"
#include "format/place.h"

#include <stdio.h>
#include <string.h>

/* Rows as [cell|cell], and the fault behind them as line:column expected / found. */
static const char *show(struct reader *reader, const char *text, size_t length)
{
    struct csv csv;
    struct buf out, cell;
    buf_init(&out, reader->arena);
    buf_init(&cell, reader->arena);
    csv_init(&csv, reader->arena, text, length);
    while (csv_next(&csv)) {
        for (size_t i = 0; i < csv.count; i++) {
            csv_text(&csv.cells[i], &cell);
            buf_addf(&out, "%c%s", i ? '|' : '[', cell.text);
        }
        buf_add_char(&out, ']');
    }
    if (csv.broken) {
        struct place place = place_at(text, length, csv.broken_at);
        buf_addf(&out, "%d:%d %s / %s", place.line, place.column, csv.err.expected, csv.err.found);
    }
    return out.text;
}

struct csv_row {
    struct row row;
    const char *text, *want;
};

static const struct csv_row rows[] = {
    {ROW("nothing"), "", ""},
    {ROW("one cell"), "a", "[a]"},
    {ROW("two rows"), "a,b\nc,d\n", "[a|b][c|d]"},
    {ROW("no line end at the end"), "a,b\nc,d", "[a|b][c|d]"},
    {ROW("CR LF"), "a,b\r\nc,d\r\n", "[a|b][c|d]"},
    {ROW("CR"), "a,b\rc,d\r", "[a|b][c|d]"},
    {ROW("a byte-order mark"),
     "\xEF\xBB\xBF"
     "a,b\n",
     "[a|b]"},
    {ROW("semicolons"), "a;b;1,5\nc;d;e,f\n", "[a|b|1,5][c|d|e,f]"},
    {ROW("semicolons in quotes do not count"), "a,\"x;y;z\"\n1;2,3\n", "[a|x;y;z][1;2|3]"},
    {ROW("an empty row does not decide"), ";;\n\"x;y\",b\n", "[x;y|b]"},
    {ROW("empty cells"), "a,,\n,b,\n", "[a||][|b|]"},
    /* RFC 4180, section 2, rules 5 to 7. */
    {ROW("quoted"), "\"aaa\",\"bbb\",\"ccc\"\nzzz,yyy,xxx", "[aaa|bbb|ccc][zzz|yyy|xxx]"},
    {ROW("a line end in quotes"), "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx",
     "[aaa|b\r\nbb|ccc][zzz|yyy|xxx]"},
    {ROW("doubled quotes"), "\"aaa\",\"b\"\"bb\",\"ccc\"", "[aaa|b\"bb|ccc]"},
    {ROW("only a doubled quote"), "\"\"\"\",a", "[\"|a]"},
    {ROW("an empty quoted cell"), "\"\",a", "[|a]"},
    {ROW("a separator in quotes"), "\"a,b\",c", "[a,b|c]"},
    {ROW("inches"), "top,12\",3/4\"\nleg,5' 2 3/8\",x\n", "[top|12\"|3/4\"][leg|5' 2 3/8\"|x]"},
    {ROW("a quote behind a blank is just a quote"), "a, \"b\"\n", "[a| \"b\"]"},
    {ROW("blank rows"), "\n \t\na,b\n\n,\n \" , \"\n\" \",\nc,d\n\n", "[a|b][ \" | \"][c|d]"},
    {ROW("comments"), "# \"one\n  # two, three\na,b\n#,\nc,d#\n\"#e\",f", "[a|b][c|d#][#e|f]"},
    {ROW("ragged rows are given as they are"), "a,b\nc\nd,e,f\n", "[a|b][c][d|e|f]"},
    {ROW("unclosed quote"), "a,b\nc,\"d\ne,f\n",
     "[a|b]2:3 a closing quote for this one / the end of the file"},
    {ROW("unclosed doubled"), "a,\"b\"\"", "1:3 a closing quote for this one / the end of the file"},
    {ROW("text behind quotes"), "a,\"3/4\" x\n",
     "1:8 a separator after the closing quote (a quote inside quotes is doubled) / more text"},
};

static void reads_as(void **state)
{
    const struct csv_row *r = *state;
    struct reader *reader = reader_make();
    check_text(&r->row, show(reader, r->text, strlen(r->text)), r->want);
    reader_free(reader);
}

static void nothing_follows_a_fault(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct csv csv;
    csv_init(&csv, reader->arena, "\"a\nb\n", 5);
    check_true(HERE, !csv_next(&csv) && !csv_next(&csv), "no row");
    check_int(HERE, (intmax_t)csv.rows, 0);
    reader_free(reader);
}

/* The place of what is too much lies in the text, even where the text ends with it. */
static void a_row_too_long(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    char cells[CSV_CELLS_MOST + 2] = "x";
    memset(cells + 1, ',', CSV_CELLS_MOST);
    check_text(HERE, show(reader, cells, strlen(cells)), "1:1001 at most 1000 cells in a row / more");
    reader_free(reader);
}

/* Cells of awkward characters come back as they were written. */
static void written_rows_read_back(void **state)
{
    (void)state;
    static const char letters[] = "ab,;\"\r\n# \t'";
    uint64_t seed = 20261125;
    for (int run = 0; run < 2000; run++) {
        struct reader *reader = reader_make();
        struct buf text, want;
        buf_init(&text, reader->arena);
        buf_init(&want, reader->arena);
        char separator = ",;\t"[check_random_int(&seed, 0, 2)];
        for (int i = 0, cells = check_random_int(&seed, 1, 5); i < cells; i++) {
            char cell[9] = "";
            for (int k = 0, length = check_random_int(&seed, 0, 8); k < length; k++)
                cell[k] = letters[check_random_int(&seed, 0, (int)sizeof letters - 2)];
            buf_addf(&want, "%c%s", i ? '|' : '[', i ? cell : "x");
            if (i)
                buf_add_char(&text, separator);
            csv_put(&text, i ? cell : "x");
        }
        buf_add_char(&want, ']');
        check_text(HERE, show(reader, text.text, text.length), want.text);
        reader_free(reader);
    }
}

/* A large list is read in one pass, and what it costs beside the text is the row at hand. */
static void hundred_thousand_rows(void **state)
{
    (void)state;
    enum { ROWS = 100000 };
    struct reader *reader = reader_make();
    struct csv csv;
    struct buf text;
    size_t cells = 0;
    buf_init(&text, reader->arena);
    for (int i = 0; i < ROWS; i++)
        buf_addf(&text, "part %d,%d,board,oak,600 mm,\"400\"\" mm\",19 mm,oil\r\n", i, i % 7);
    size_t before = arena_used(reader->arena);
    csv_init(&csv, reader->arena, text.text, text.length);
    while (csv_next(&csv))
        cells += csv.count;
    check_int(HERE, (intmax_t)csv.rows, ROWS);
    check_int(HERE, (intmax_t)cells, ROWS * 8);
    check_true(HERE, arena_used(reader->arena) - before < 128 * 1024, "no memory per row");
    reader_free(reader);
}

/* What a spreadsheet would take for a formula, and what a terminal would act on. */
static const struct shown_row {
    struct row row;
    const char *cell, *want;
} shown[] = {
    {ROW("plain"), "oak", "oak"},
    {ROW("empty"), "", ""},
    {ROW("a formula"), "=1+1", "'=1+1"},
    {ROW("plus"), "+cmd|' /C calc'!A0", "'+cmd|' /C calc'!A0"},
    {ROW("minus"), "-2", "'-2"},
    {ROW("at"), "@SUM(1)", "'@SUM(1)"},
    {ROW("a tab"), "\t=1", "' =1"},
    {ROW("an escape sequence"), "a\x1b[2Jb", "a [2Jb"},
    {ROW("an 8-bit one"),
     "a\xC2\x9B"
     "2Jb",
     "a 2Jb"},
    {ROW("turned around"),
     "a\xE2\x80\xAE"
     "b",
     "a b"},
    {ROW("quoted, too"), "=HYPERLINK(\"x\",\"y\")", "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\""},
};

static void is_shown(void **state)
{
    const struct shown_row *r = *state;
    struct arena *arena = arena_make(0);
    struct buf out;
    buf_init(&out, arena);
    csv_put_shown(&out, r->cell);
    check_text(&r->row, out.text, r->want);
    arena_free(arena);
}

/* The Unicode Standard, 3.9 and 23.8: UTF-16 with its mark, in either order, or without one; U+1F6AA is D83D DEAA and F0 9F 9A AA. */
static const struct bytes_row {
    struct row row;
    const char *bytes;
    size_t length;
    const char *encoding, *want;
} encodings[] = {
#define BYTES(text) text, sizeof(text) - 1
    {ROW("UTF-8"), BYTES("T\xC3\xBCr"), "UTF-8", "T\xC3\xBCr"},
    {ROW("Windows"), BYTES("T\xFCr 5 \x80"), "Windows-1252", "T\xC3\xBCr 5 \xE2\x82\xAC"},
    {ROW("a byte that Windows has not"), BYTES("T\xFCr \x81"), NULL, NULL},
    {ROW("UTF-16, the low byte first"), BYTES("\xFF\xFET\0\xFC\0r\0"), "UTF-16", "T\xC3\xBCr"},
    {ROW("UTF-16, the high byte first"), BYTES("\xFE\xFF\0T\0\xFC\0r"), "UTF-16", "T\xC3\xBCr"},
    {ROW("UTF-16 without a mark, the low byte first"), BYTES("T\0\xFC\0r\0"), "UTF-16", "T\xC3\xBCr"},
    {ROW("UTF-16 without a mark, the high byte first"), BYTES("\0T\0\xFC\0r"), "UTF-16", "T\xC3\xBCr"},
    {ROW("a character of two units"), BYTES("\xFF\xFE\x3D\xD8\xAA\xDE"), "UTF-16", "\xF0\x9F\x9A\xAA"},
    {ROW("the euro sign, of three bytes"), BYTES("\xFE\xFF\x20\xAC"), "UTF-16", "\xE2\x82\xAC"},
    {ROW("the first unit of two alone"), BYTES("\xFF\xFE\x3D\xD8"), NULL, NULL},
    {ROW("the first unit of two before another character"), BYTES("\xFF\xFE\x3D\xD8T\0"), NULL, NULL},
    {ROW("the second unit of two alone"), BYTES("\xFF\xFE\xAA\xDET\0"), NULL, NULL},
    {ROW("two first units"), BYTES("\xFF\xFE\x3D\xD8\x00\xE0"), NULL, NULL},
    {ROW("half a unit"), BYTES("\xFF\xFET\0r"), NULL, NULL},
    {ROW("the character 0"), BYTES("\xFF\xFET\0\0\0"), NULL, NULL},
    {ROW("zeros in a text"), BYTES("Tuer\0x"), NULL, NULL},
    {ROW("a zero in a short text"), BYTES("T\0"), NULL, NULL},
};

static void is_decoded(void **state)
{
    const struct bytes_row *r = *state;
    struct arena *arena = arena_make(0);
    struct file_text file = {.name = "list.csv", .text = r->bytes, .length = r->length};
    const char *encoding = csv_decode(arena, &file);
    check_text(&r->row, encoding ? encoding : "none", r->encoding ? r->encoding : "none");
    if (r->want)
        check_text(&r->row, arena_text_n(arena, file.text, file.length), r->want);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(encodings, is_decoded), CHECK_ROWS(shown, is_shown),
                     CHECK_ROWS(rows, reads_as), CHECK_TEST(nothing_follows_a_fault),
                     CHECK_TEST(a_row_too_long), CHECK_TEST(written_rows_read_back),
                     CHECK_TEST(hundred_thousand_rows));
}
