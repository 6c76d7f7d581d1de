/* Whatever the XML of a spreadsheet holds, reading it ends: with a text of whole cells that has at most the rows and columns
 * allowed, or with a mistake that says something. The bytes are the part that matters, put into an archive of either kind; a
 * first byte chooses, and an archive of any bytes is tried, too. */
#include "base/arena.h"
#include "format/csv.h"
#include "format/sheet.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <zip.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char book[] = "<workbook><sheets><sheet name=\"a\" id=\"1\"/></sheets></workbook>";
static const char relations[] = "<r><Relationship Id=\"1\" Target=\"s\"/></r>";

static void add(zip_t *zip, const char *name, const void *bytes, size_t size)
{
    assert(zip_file_add(zip, name, zip_source_buffer(zip, bytes, size, 0), 0) >= 0);
}

static void check_text(struct arena *arena, const struct file_text *text)
{
    struct csv csv;
    size_t rows = 0;
    csv_begin(&csv, arena, text->text, text->length, '\t');
    while (csv_next(&csv)) {
        assert(csv.count <= SHEET_COLUMNS_MOST);
        rows++;
    }
    assert(!csv.broken && rows <= SHEET_ROWS_MOST);
}

static void check_file(const char *name, const void *bytes, size_t size)
{
    struct arena *arena = arena_make(0);
    struct file_text file = {.name = name, .text = bytes, .length = size}, text;
    struct err err;
    assert(arena);
    if (sheet_read(arena, &file, NULL, &text, &err))
        check_text(arena, &text);
    else
        assert(err.expected[0] && err.found[0]);
    arena_free(arena);
}

/* The archive in memory, to be freed. */
static void *packed(bool ods, int which, const uint8_t *data, size_t size, size_t *length)
{
    zip_source_t *source = zip_source_buffer_create(NULL, 0, 0, NULL);
    zip_t *zip = zip_open_from_source(source, ZIP_TRUNCATE, NULL);
    assert(source && zip);
    zip_source_keep(source);
    if (ods) {
        add(zip, "content.xml", data, size);
    } else {
        static const char *const parts[] = {"xl/s", "xl/styles.xml", "xl/sharedStrings.xml",
                                            "xl/workbook.xml"};
        add(zip, parts[which], data, size);
        if (which != 3)
            add(zip, "xl/workbook.xml", book, sizeof book - 1);
        add(zip, "xl/_rels/workbook.xml.rels", relations, sizeof relations - 1);
    }
    assert(zip_close(zip) == 0);
    zip_stat_t about;
    assert(zip_source_stat(source, &about) == 0 && zip_source_open(source) == 0);
    void *bytes = malloc(about.size + 1);
    assert(bytes && zip_source_read(source, bytes, about.size) == (zip_int64_t)about.size);
    *length = about.size;
    zip_source_close(source);
    zip_source_free(source);
    return bytes;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    size_t length;
    if (size == 0)
        return 0;
    check_file("fuzz.xlsx", data, size);
    check_file("fuzz.ods", data, size);
    bool ods = data[0] % 5 == 4;
    void *bytes = packed(ods, data[0] % 4, data + 1, size - 1, &length);
    check_file(ods ? "fuzz.ods" : "fuzz.xlsx", bytes, length);
    free(bytes);
    return 0;
}
