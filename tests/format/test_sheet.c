/* Spreadsheets made here, part by part, and what their first sheet reads as. */
#include "check.h"
#include "reader.h"

#include "base/buf.h"
#include "format/sheet.h"

#include <stdio.h>
#include <string.h>
#include <zip.h>

struct part {
    const char *name, *text;
};

static struct file_text archive_of(struct reader *reader, const char *name, const struct part *parts,
                                   size_t count)
{
    const char *path = reader_path(reader, name, NULL);
    struct file_text file;
    struct err err;
    zip_t *zip = zip_open(path, ZIP_CREATE | ZIP_TRUNCATE, NULL);
    assert_non_null(zip);
    for (size_t i = 0; i < count; i++)
        assert_true(zip_file_add(zip, parts[i].name,
                                 zip_source_buffer(zip, parts[i].text, strlen(parts[i].text), 0), 0) >= 0);
    assert_int_equal(zip_close(zip), 0);
    assert_true(file_load(reader->arena, path, &file, &err));
    return file;
}

static char *place_of(char *bytes, size_t length, const char *word)
{
    for (size_t at = 0; at + strlen(word) <= length; at++)
        if (memcmp(bytes + at, word, strlen(word)) == 0)
            return bytes + at;
    return NULL;
}

/* The text, or what was told. */
static const char *sheet(struct reader *reader, struct file_text file, const char *name)
{
    struct file_text text;
    struct err err;
    if (sheet_read(reader->arena, &file, name, &text, &err))
        return text.text;
    return arena_textf(reader->arena, "expected %s, found %s", err.expected, err.found);
}

#define OOX "http://schemas.openxmlformats.org/"
#define BOOK(more)                                                                                           \
    "<?xml version=\"1.0\"?><workbook xmlns=\"" OOX "spreadsheetml/2006/main\" xmlns:r=\"" OOX               \
    "officeDocument/2006/relationships\">" more                                                              \
    "<sheets><sheet name=\"Doors\" sheetId=\"1\" r:id=\"rId1\"/><sheet name=\"Frames\" sheetId=\"2\" "       \
    "r:id=\"rId2\"/></sheets>"                                                                               \
    "</workbook>"
#define RELATIONS                                                                                            \
    "<Relationships xmlns=\"" OOX                                                                            \
    "package/2006/relationships\"><Relationship Id=\"rId1\" Target=\"worksheets/one.xml\"/>"                 \
    "<Relationship Id=\"rId2\" Target=\"/xl/worksheets/two.xml\"/></Relationships>"
#define SHEET(rows)                                                                                          \
    "<worksheet xmlns=\"" OOX "spreadsheetml/2006/main\"><sheetData>" rows "</sheetData></worksheet>"
#define STRINGS                                                                                              \
    "<sst xmlns=\"" OOX                                                                                      \
    "spreadsheetml/2006/main\"><si><t>part</t></si><si><r><t>len</t></r><r><t>gth</t></r></si>"              \
    "<si><t>top</t><rPh sb=\"0\" eb=\"1\"><t>x</t></rPh></si></sst>"
#define STYLES                                                                                               \
    "<styleSheet xmlns=\"" OOX                                                                               \
    "spreadsheetml/2006/main\"><numFmts><numFmt numFmtId=\"164\" formatCode=\"d\\-mmm\"/>"                   \
    "<numFmt numFmtId=\"165\" formatCode=\"0.0&quot; day&quot;\"/>"                                          \
    "<numFmt numFmtId=\"166\" formatCode=\"[Yellow]0.0\"/><numFmt numFmtId=\"167\" formatCode=\"0\\d\"/>"    \
    "<numFmt numFmtId=\"168\" formatCode=\"[$-407]yyyy\"/><numFmt numFmtId=\"169\" "                         \
    "formatCode=\"0&quot;d\"/>"                                                                              \
    "<numFmt numFmtId=\"171\"/><numFmt numFmtId=\"20\" formatCode=\"yyyy\"/>"                                \
    "<numFmt numFmtId=\"9999\" formatCode=\"yyyy\"/></numFmts><cellStyleXfs><xf "                            \
    "numFmtId=\"14\"/></cellStyleXfs>"                                                                       \
    "<cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"164\"/><xf "                           \
    "numFmtId=\"165\"/><xf numFmtId=\"166\"/><xf numFmtId=\"167\"/><xf numFmtId=\"168\"/><xf "               \
    "numFmtId=\"169\"/><xf numFmtId=\"22\"/><xf numFmtId=\"20\"/><xf numFmtId=\"30\"/><xf "                  \
    "numFmtId=\"55\"/><xf numFmtId=\"170\"/><xf numFmtId=\"9999\"/><xf/></cellXfs></styleSheet>"
#define IN_STYLE(style, number) "<c s=\"" style "\"><v>" number "</v></c>"

struct xlsx_row {
    struct row row;
    const char *book, *sheet, *name, *want;
};

static const struct xlsx_row workbooks[] = {
    {ROW("texts and numbers"), BOOK(""),
     SHEET("<row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"B1\" t=\"s\"><v>1</v></c></row>"
           "<row r=\"2\"><c r=\"A2\" t=\"s\"><v>2</v></c><c r=\"B2\"><v>19.050000000000001</v></c></row>"),
     NULL, "part\tlength\ntop\t19.05\n"},
    {ROW("gaps keep their places"), BOOK(""),
     SHEET("<row r=\"3\"><c r=\"C3\"><v>1</v></c></row><row r=\"5\"><c r=\"A5\"><v>2</v></c></row>"), NULL,
     "\n\n\t\t1\n\n2\n"},
    {ROW("no places told"), BOOK(""),
     SHEET("<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c></row>"), NULL, "1\t2\n3\n"},
    {ROW("inline, formula, flag, error"), BOOK(""),
     SHEET("<row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>a b</t></is></c><c r=\"B1\" "
           "t=\"str\"><f>A1</f><v>x</v></c>"
           "<c r=\"C1\"><f>1+1</f><v>2</v></c><c r=\"D1\" t=\"b\"><v>1</v></c><c r=\"E1\" "
           "t=\"e\"><v>#REF!</v></c></row>"),
     NULL, "a b\tx\t2\tTRUE\t#REF!\n"},
    {ROW("dates by their style"), BOOK(""),
     SHEET("<row r=\"1\"><c r=\"A1\" s=\"1\"><v>46241</v></c><c r=\"B1\" s=\"2\"><v>46241.5</v></c><c "
           "r=\"C1\" s=\"3\"><v>2.5</v></c>"
           "<c r=\"D1\" s=\"0\"><v>46241</v></c></row>"),
     NULL, "2026-08-07\t2026-08-07\t2.5\t46241\n"},
    {ROW("dates since 1904"), BOOK("<workbookPr date1904=\"1\"/>"),
     SHEET("<row r=\"1\"><c r=\"A1\" s=\"1\"><v>44779</v></c></row>"), NULL, "2026-08-07\n"},
    {ROW("dates since 1904, by another word"), BOOK("<workbookPr date1904=\"true\"/>"),
     SHEET("<row>" IN_STYLE("1", "44779") "</row>"), NULL, "2026-08-07\n"},
    {ROW("dates since 1900, as is said"), BOOK("<workbookPr date1904=\"0\"/>"),
     SHEET("<row>" IN_STYLE("1", "46241") "</row>"), NULL, "2026-08-07\n"},
    /* 18.8.31: letters in quotes, in brackets and behind a backslash are no days or years */
    {ROW("colours, letters and words in a format"), BOOK(""),
     SHEET("<row>" IN_STYLE("4", "2.5") IN_STYLE("5", "3") IN_STYLE("7", "4") "</row>"), NULL, "2.5\t3\t4\n"},
    {ROW("a format of a language"), BOOK(""), SHEET("<row>" IN_STYLE("6", "46241") "</row>"), NULL,
     "2026-08-07\n"},
    /* 18.8.30: 22 has a date and a time, 20 a time; 30 and 55 are dates in the East */
    {ROW("formats by their number"), BOOK(""),
     SHEET("<row>" IN_STYLE("8", "46241.25") IN_STYLE("9", "0.25") IN_STYLE("10", "46241")
               IN_STYLE("11", "46241") "</row>"),
     NULL, "2026-08-07\t0.25\t2026-08-07\t2026-08-07\n"},
    {ROW("formats and styles that nobody made"), BOOK(""),
     SHEET("<row>" IN_STYLE("12", "5") IN_STYLE("13", "6") IN_STYLE("14", "7") IN_STYLE("99", "8") "</row>"),
     NULL, "5\t6\t7\t8\n"},
    {ROW("no day of the calendar"), BOOK(""),
     SHEET("<row>" IN_STYLE("1", "60") IN_STYLE("1", "2958466") IN_STYLE("1", "soon") IN_STYLE("1", "")
               IN_STYLE("1", "61") "</row>"),
     NULL, "60\t2958466\tsoon\t\t1900-03-01\n"},
    {ROW("below zero"), BOOK(""), SHEET("<row><c><v>-19.05</v></c></row>"), NULL, "-19.05\n"},
    {ROW("what is no number stays to be refused"), BOOK(""),
     SHEET("<row><c><v>1E+20</v></c><c><v>-</v></c><c><v>1E+999</v></c></row>"), NULL, "1E+20\t-\t1E+999\n"},
    {ROW("flags, and cells without a value"), BOOK(""),
     SHEET("<row><c t=\"b\"><v>0</v></c><c t=\"b\"/><c t=\"s\"/><c t=\"s\"><v>99</v></c><c "
           "t=\"b\"><v>1</v></c></row>"),
     NULL, "FALSE\t\t\t\tTRUE\n"},
    {ROW("how an inline text is read aloud"), BOOK(""),
     SHEET("<row><c t=\"inlineStr\"><is><t>top</t><rPh sb=\"0\" eb=\"1\"><t>x</t></rPh></is></c></row>"),
     NULL, "top\n"},
    {ROW("a row without a number behind one"), BOOK(""),
     SHEET("<row r=\"2\"><c r=\"A2\"><v>1</v></c></row><row r=\"0\"><c><v>2</v></c></row>"), NULL,
     "\n1\n2\n"},
    {ROW("backwards in a row"), BOOK(""),
     SHEET("<row><c r=\"B1\"><v>1</v></c><c r=\"A1\"><v>2</v></c></row>"), NULL,
     "expected a sheet of at most 100000 rows and 1000 columns, in order, found another"},
    {ROW("no sheets"), "<workbook/>", SHEET(""), NULL, "expected a sheet, found none"},
    {ROW("the other sheet"), BOOK(""), SHEET("<row><c><v>1</v></c></row>"), "Frames", "2\n"},
    {ROW("no such sheet"), BOOK(""), SHEET(""), "Drawers", "expected a sheet called Drawers, found none"},
    {ROW("line ends and tabs in a cell"), BOOK(""),
     SHEET("<row><c t=\"inlineStr\"><is><t>a\nb&#9;c</t></is></c><c "
           "t=\"inlineStr\"><is><t>3/4\"</t></is></c></row>"),
     NULL, "a b c\t3/4\"\n"},
    {ROW("a comment stays one"), BOOK(""), SHEET("<row><c t=\"inlineStr\"><is><t># note</t></is></c></row>"),
     NULL, "# note\n"},
    {ROW("too far to the right"), BOOK(""), SHEET("<row r=\"1\"><c r=\"XFD1\"><v>1</v></c></row>"), NULL,
     "expected a sheet of at most 100000 rows and 1000 columns, in order, found another"},
    {ROW("too far down"), BOOK(""), SHEET("<row r=\"1048576\"><c r=\"A1048576\"><v>1</v></c></row>"), NULL,
     "expected a sheet of at most 100000 rows and 1000 columns, in order, found another"},
    {ROW("backwards"), BOOK(""),
     SHEET("<row r=\"2\"><c r=\"A2\"><v>1</v></c></row><row r=\"1\"><c r=\"A1\"><v>1</v></c></row>"), NULL,
     "expected a sheet of at most 100000 rows and 1000 columns, in order, found another"},
    {ROW("a place that is none"), BOOK(""),
     SHEET("<row r=\"1\"><c r=\"A0\"><v>1</v></c><c r=\"99\"><v>2</v></c></row>"), NULL, "1\t2\n"},
    {ROW("no XML"), BOOK(""), "hello", NULL,
     "expected a spreadsheet of well-formed XML, found something else"},
    {ROW("entities"), BOOK(""),
     "<!DOCTYPE a [<!ENTITY b \"c\"><!ENTITY d \"&b;&b;\">]><worksheet>&d;</worksheet>", NULL,
     "expected a spreadsheet without declarations of a document type, found one"},
};

static void workbook_is(void **state)
{
    const struct xlsx_row *r = *state;
    struct reader *reader = reader_make();
    const struct part parts[] = {
        {"xl/workbook.xml", r->book},        {"xl/_rels/workbook.xml.rels", RELATIONS},
        {"xl/sharedStrings.xml", STRINGS},   {"xl/styles.xml", STYLES},
        {"xl/worksheets/one.xml", r->sheet}, {"xl/worksheets/two.xml", SHEET("<row><c><v>2</v></c></row>")}};
    struct file_text file = archive_of(reader, "list.xlsx", parts, sizeof parts / sizeof parts[0]);
    check_text(&r->row, sheet(reader, file, r->name), r->want);
    reader_free(reader);
}

#define ODS(tables)                                                                                          \
    "<o:document-content xmlns:o=\"urn:oasis:names:tc:opendocument:xmlns:office:1.0\" "                      \
    "xmlns:t=\"urn:oasis:names:tc:opendocument:xmlns:table:1.0\" "                                           \
    "xmlns:x=\"urn:oasis:names:tc:opendocument:xmlns:text:1.0\">"                                            \
    "<o:body><o:spreadsheet>" tables "</o:spreadsheet></o:body></o:document-content>"
#define TABLE(name, rows) "<t:table t:name=\"" name "\">" rows "</t:table>"

struct ods_row {
    struct row row;
    const char *content, *name, *want;
};

static const struct ods_row documents[] = {
    {ROW("texts and numbers"),
     ODS(TABLE("Doors", "<t:table-row><t:table-cell><x:p>part</x:p></t:table-cell><t:table-cell><x:p>length</"
                        "x:p></t:table-cell></t:table-row>"
                        "<t:table-row><t:table-cell><x:p>top</x:p></t:table-cell><t:table-cell "
                        "o:value-type=\"float\" o:value=\"1200.5\">"
                        "<x:p>1.200,50</x:p></t:table-cell></t:table-row>")),
     NULL, "part\tlength\ntop\t1200.5\n"},
    {ROW("a date"),
     ODS(TABLE("a", "<t:table-row><t:table-cell o:value-type=\"date\" "
                    "o:date-value=\"2026-08-07T00:00:00\"><x:p>7. Aug</x:p></t:table-cell></t:table-row>")),
     NULL, "2026-08-07\n"},
    {ROW("repeated and covered"),
     ODS(TABLE("a", "<t:table-row t:number-rows-repeated=\"2\"><t:table-cell "
                    "t:number-columns-repeated=\"3\"/></t:table-row>"
                    "<t:table-row><t:table-cell "
                    "t:number-columns-repeated=\"2\"><x:p>x</x:p></t:table-cell><t:covered-table-cell/>"
                    "<t:table-cell><x:p>y</x:p></t:table-cell><t:table-cell "
                    "t:number-columns-repeated=\"16000\"/></t:table-row>"
                    "<t:table-row t:number-rows-repeated=\"1048000\"><t:table-cell "
                    "t:number-columns-repeated=\"16384\"/></t:table-row>")),
     NULL, "\n\nx\tx\t\ty\n"},
    {ROW("paragraphs, blanks, notes"),
     ODS(TABLE("a", "<t:table-row><t:table-cell><o:annotation><x:p>not this</x:p></o:annotation><x:p>a<x:s "
                    "x:c=\"2\"/>b</x:p><x:p>c</x:p></t:table-cell></t:table-row>")),
     NULL, "a b c\n"},
    {ROW("tabs and line breaks, tables inside cells, blanks between"),
     ODS(TABLE(
         "a", "<t:table-row><t:table-cell> <x:p>a<x:tab/>b<x:line-break/>c</x:p> "
              "</t:table-cell><t:table-cell><x:p>d</x:p>"
              "<t:table><t:table-row><t:table-cell><x:p>not this</x:p></t:table-cell></t:table-row></t:table>"
              "</t:table-cell></t:table-row>")),
     NULL, "a b c\td\n"},
    {ROW("values without their text, and kinds that are shown as text"),
     ODS(TABLE("a", "<t:table-row><t:table-cell o:value-type=\"float\"><x:p>1,5</x:p></t:table-cell>"
                    "<t:table-cell o:value-type=\"date\"><x:p>today</x:p></t:table-cell>"
                    "<t:table-cell o:value-type=\"percentage\" o:value=\"0.5\"><x:p>50 %</x:p></t:table-cell>"
                    "<t:table-cell o:value-type=\"float\" "
                    "o:value=\"much\"><x:p>much</x:p></t:table-cell></t:table-row>")),
     NULL, "\"1,5\"\ttoday\t50 %\tmuch\n"},
    /* LibreOffice writes rows that are alike once */
    {ROW("two rows alike, and one behind them"),
     ODS(TABLE("a", "<t:table-row "
                    "t:number-rows-repeated=\"2\"><t:table-cell><x:p>shelf</x:p></t:table-cell><t:table-cell "
                    "o:value-type=\"float\" o:value=\"300\"/></t:table-row>"
                    "<t:table-row><t:table-cell><x:p>top</x:p></t:table-cell></t:table-row>")),
     NULL, "shelf\t300\nshelf\t300\ntop\n"},
    {ROW("two rows alike below an empty one, and empty ones behind"),
     ODS(TABLE(
         "a",
         "<t:table-row/><t:table-row t:number-rows-repeated=\"2\"><t:table-cell/><t:table-cell><x:p>x</x:p>"
         "</t:table-cell></t:table-row><t:table-row t:number-rows-repeated=\"2\"/>"
         "<t:table-row><t:table-cell><x:p>y</x:p></t:table-cell></t:table-row>")),
     NULL, "\n\tx\n\tx\n\n\ny\n"},
    {ROW("a run of rows without end"),
     ODS(TABLE("a",
               "<t:table-row "
               "t:number-rows-repeated=\"100001\"><t:table-cell><x:p>x</x:p></t:table-cell></t:table-row>")),
     NULL, "expected a sheet of at most 100000 rows and 1000 columns, found a larger one"},
    {ROW("as many rows of as many cells as fit nowhere"),
     ODS(TABLE("a", "<t:table-row t:number-rows-repeated=\"1001\"><t:table-cell "
                    "t:number-columns-repeated=\"1000\"><x:p>x</x:p>"
                    "</t:table-cell></t:table-row>")),
     NULL, "expected a sheet of at most 100000 rows and 1000 columns, found a larger one"},
    {ROW("no sheet"), ODS(""), NULL, "expected a sheet, found none"},
    {ROW("the other sheet"),
     ODS(TABLE("a", "<t:table-row><t:table-cell><x:p>1</x:p></t:table-cell></t:table-row>")
             TABLE("b", "<t:table-row><t:table-cell><x:p>2</x:p></t:table-cell></t:table-row>")),
     "b", "2\n"},
    {ROW("no such sheet"), ODS(TABLE("a", "")), "c", "expected a sheet called c, found none"},
    {ROW("a run of cells without end"),
     ODS(TABLE("a", "<t:table-row><t:table-cell "
                    "t:number-columns-repeated=\"4000000000\"><x:p>x</x:p></t:table-cell></t:table-row>")),
     NULL, "expected a sheet of at most 100000 rows and 1000 columns, found a larger one"},
};

static void document_is(void **state)
{
    const struct ods_row *r = *state;
    struct reader *reader = reader_make();
    const struct part parts[] = {{"content.xml", r->content}};
    check_text(&r->row, sheet(reader, archive_of(reader, "list.ods", parts, 1), r->name), r->want);
    reader_free(reader);
}

/* A part that unpacks to more than 64 MiB, and archives that are none. */
static void archives_are_bounded(void **state)
{
    (void)state;
    enum { LARGE = (64 << 20) + 1 };
    struct reader *reader = reader_make();
    char *zeros = arena_alloc(reader->arena, LARGE + 1, 1);
    memset(zeros, ' ', LARGE);
    const struct part parts[] = {{"content.xml", zeros}};
    struct file_text file = archive_of(reader, "bomb.ods", parts, 1);
    check_true(HERE, file.length < 1 << 20, "a small file");
    check_text(HERE, sheet(reader, file, NULL),
               "expected a spreadsheet whose parts unpack to at most 64 MiB each, found a larger one");
    file = reader_file("list.xlsx", "hello");
    check_text(HERE, sheet(reader, file, NULL),
               "expected a spreadsheet file (an archive that is whole), found something else");
    const struct part other[] = {{"mimetype", "x"}};
    check_text(HERE, sheet(reader, archive_of(reader, "other.xlsx", other, 1), NULL),
               "expected an .xlsx workbook, found another archive");
    check_text(HERE, sheet(reader, archive_of(reader, "other.ods", other, 1), NULL),
               "expected an OpenDocument spreadsheet, found another archive");
    check_true(HERE, sheet_is("a.XLSX") && sheet_is("b/c.ods") && !sheet_is("a.csv"), "by the name");
    reader_free(reader);
}

/* A byte of a part that is kept as it is was changed on the way. */
static void broken_parts(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const struct part parts[] = {{"content.xml", ODS(TABLE("a", ""))}};
    struct file_text file = archive_of(reader, "list.ods", parts, 1);
    zip_t *zip = zip_open(file.name, 0, NULL);
    assert_true(zip && zip_set_file_compression(zip, 0, ZIP_CM_STORE, 0) == 0 && zip_close(zip) == 0);
    struct err err;
    assert_true(file_load(reader->arena, file.name, &file, &err));
    char *bytes = arena_alloc(reader->arena, file.length + 1, 1), *at;
    memcpy(bytes, file.text, file.length);
    at = place_of(bytes, file.length, "spreadsheet>");
    assert_non_null(at);
    *at = 'S';
    file.text = bytes;
    check_text(HERE, sheet(reader, file, NULL),
               "expected a spreadsheet whose parts can be unpacked, found a broken one");
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(workbooks, workbook_is), CHECK_ROWS(documents, document_is),
                     CHECK_TEST(archives_are_bounded), CHECK_TEST(broken_parts));
}
