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
    "<numFmt numFmtId=\"165\" formatCode=\"0.0&quot; day&quot;\"/></numFmts><cellStyleXfs><xf "              \
    "numFmtId=\"14\"/></cellStyleXfs>"                                                                       \
    "<cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"164\"/><xf "                           \
    "numFmtId=\"165\"/></cellXfs></styleSheet>"

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

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(workbooks, workbook_is), CHECK_ROWS(documents, document_is),
                     CHECK_TEST(archives_are_bounded));
}
