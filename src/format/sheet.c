#include "format/sheet.h"

#include "base/arena.h"
#include "base/exact.h"
#include "base/number.h"
#include "base/text.h"
#include "format/csv.h"

#include <expat.h>
#include <math.h>
#include <string.h>
#include <zip.h>

bool sheet_is(const char *path)
{
    return path_ends(path, ".xlsx") || path_ends(path, ".ods");
}

const char *sheet_path(struct arena *arena, const char *named, const char **name)
{
    *name = NULL;
    for (const char *at = strchr(named, '#'); at; at = strchr(at + 1, '#')) {
        const char *path = arena_text_n(arena, named, (size_t)(at - named));
        if (sheet_is(path)) {
            *name = at + 1;
            return path;
        }
    }
    return named;
}

bool sheet_read(struct arena *arena, const struct file_text *file, const char *name, struct file_text *text,
                struct err *err)
{
    struct buf *out = ARENA_NEW(arena, struct buf);
    struct sheet_rows rows = {out, 0, 0, 0, 0};
    buf_init(out, arena);
    struct sheet_archive *archive = sheet_open(arena, file, err);
    if (!archive)
        return false;
    bool good = path_ends(file->name, ".ods") ? sheet_read_ods(archive, name, &rows, err)
                                              : sheet_read_xlsx(archive, name, &rows, err);
    sheet_close(archive);
    buf_add_char(out, '\n');
    *text = *file;
    text->text = out->text;
    text->length = out->length;
    return good;
}

struct sheet_archive {
    struct arena *arena;
    zip_t *zip;
};

static void release_zip(void *zip)
{
    zip_discard(zip);
}

struct sheet_archive *sheet_open(struct arena *arena, const struct file_text *file, struct err *err)
{
    struct sheet_archive *archive = ARENA_NEW(arena, struct sheet_archive);
    zip_error_t error;
    zip_error_init(&error);
    zip_source_t *source = zip_source_buffer_create(file->text, file->length, 0, &error);
    archive->arena = arena;
    archive->zip = zip_open_from_source(source, ZIP_RDONLY | ZIP_CHECKCONS, &error);
    zip_error_fini(&error);
    if (!archive->zip) {
        zip_source_free(source);
        (void)sheet_refuse(err, "a spreadsheet file (an archive that is whole)", "something else");
        return NULL;
    }
    arena_own(arena, archive->zip, release_zip);
    return archive;
}

void sheet_close(struct sheet_archive *archive)
{
    arena_disown(archive->arena, archive->zip);
    release_zip(archive->zip);
}

bool sheet_refuse(struct err *err, const char *expected, const char *found)
{
    err_fill(err, ERR_INPUT, expected, found);
    return false;
}

struct arena *sheet_arena(const struct sheet_archive *archive)
{
    return archive->arena;
}

static void release_file(void *file)
{
    (void)zip_fclose(file);
}

/* What the archive says of a part's size is only a promise. */
static bool unpack(zip_file_t *from, char *to, size_t size)
{
    size_t used = 0;
    while (used < size) {
        zip_int64_t got = zip_fread(from, to + used, size - used);
        if (got <= 0)
            return false;
        used += (size_t)got;
    }
    char more;
    return zip_fread(from, &more, 1) == 0;
}

const struct file_text *sheet_part(struct sheet_archive *archive, const char *name, struct err *err)
{
    zip_stat_t about;
    struct file_text *part = ARENA_NEW(archive->arena, struct file_text);
    err->code = ERR_NONE;
    if (zip_stat(archive->zip, name, 0, &about) != 0)
        return NULL;
    if (!(about.valid & ZIP_STAT_SIZE) || about.size > SHEET_PART_MOST) {
        (void)sheet_refuse(err, "a spreadsheet whose parts unpack to at most 64 MiB each", "a larger one");
        return NULL;
    }
    zip_file_t *from = zip_fopen(archive->zip, name, 0);
    char *text =
        from ? (arena_own(archive->arena, from, release_file), arena_alloc(archive->arena, about.size + 1, 1))
             : NULL;
    bool good = from && unpack(from, text, about.size);
    if (from) {
        arena_disown(archive->arena, from);
        release_file(from);
    }
    *part = (struct file_text){.name = name, .text = text, .length = about.size};
    if (!good)
        (void)sheet_refuse(err, "a spreadsheet whose parts can be unpacked", "a broken one");
    return good ? part : NULL;
}

const char *sheet_attribute(const char *const *attributes, const char *name)
{
    for (; *attributes; attributes += 2) {
        const char *local = strrchr(attributes[0], ' ');
        if (strcmp(local ? local + 1 : attributes[0], name) == 0)
            return attributes[1];
    }
    return NULL;
}

/* A walk under way. */
struct walk {
    XML_Parser parser;
    struct sheet_walker walker;
    bool stopped, declared;
};

static const char *local_name(const char *name)
{
    const char *blank = strrchr(name, ' ');
    return blank ? blank + 1 : name;
}

static void stop(struct walk *walk)
{
    walk->stopped = true;
    (void)XML_StopParser(walk->parser, XML_FALSE);
}

static void XMLCALL on_begin(void *data, const XML_Char *name, const XML_Char **attributes)
{
    struct walk *walk = data;
    if (!walk->stopped && !walk->walker.begin(walk->walker.to, local_name(name), attributes))
        stop(walk);
}

static void XMLCALL on_end(void *data, const XML_Char *name)
{
    struct walk *walk = data;
    if (!walk->stopped && !walk->walker.end(walk->walker.to, local_name(name)))
        stop(walk);
}

static void XMLCALL on_text(void *data, const XML_Char *text, int length)
{
    struct walk *walk = data;
    if (!walk->stopped)
        walk->walker.text(walk->walker.to, text, (size_t)length);
}

/* Entities begin with a declaration of the document's type, which neither kind of file has. */
static void XMLCALL on_doctype(void *data, const XML_Char *name, const XML_Char *system,
                               const XML_Char *public_id, int internal)
{
    struct walk *walk = data;
    (void)name;
    (void)system;
    (void)public_id;
    (void)internal;
    walk->declared = true;
    stop(walk);
}

static void release_parser(void *parser)
{
    XML_ParserFree(parser);
}

bool sheet_walk(struct arena *arena, const struct file_text *part, struct sheet_walker walker,
                struct err *err)
{
    struct walk walk = {XML_ParserCreateNS(NULL, ' '), walker, false, false};
    if (!walk.parser)
        return sheet_refuse(err, "enough memory", "too little");
    arena_own(arena, walk.parser, release_parser);
    XML_SetUserData(walk.parser, &walk);
    XML_SetElementHandler(walk.parser, on_begin, on_end);
    XML_SetCharacterDataHandler(walk.parser, on_text);
    XML_SetStartDoctypeDeclHandler(walk.parser, on_doctype);
    bool good = XML_Parse(walk.parser, part->text, (int)part->length, 1) == XML_STATUS_OK;
    arena_disown(arena, walk.parser);
    release_parser(walk.parser);
    if (walk.declared)
        return sheet_refuse(err, "a spreadsheet without declarations of a document type", "one");
    if (!good && !walk.stopped)
        return sheet_refuse(err, "a spreadsheet of well-formed XML", "something else");
    return good;
}

bool sheet_double(const char *text, double *number)
{
    bool minus = *text == '-';
    size_t length = strlen(text += minus);
    bool good = length > 0 && decimal_read(text, length, number) == length && isfinite(*number);
    if (good && minus)
        *number = -*number;
    return good;
}

const char *sheet_number(struct arena *arena, const char *text)
{
    double number;
    bool shown = sheet_double(text, &number) && fabs(number) < 1e15;
    return shown ? arena_text(arena, number_quiet(number).text) : "";
}

/* One cell on one line. A row that begins with # is a comment of the list, as it is in a text. */
static void put_text(struct sheet_rows *rows, const char *text)
{
    struct buf plain;
    buf_init(&plain, rows->out->arena);
    while (*text) {
        const char *from = text;
        if (text_is_control(text_next(&text)))
            buf_add_char(&plain, ' ');
        else
            buf_add_n(&plain, from, (size_t)(text - from));
    }
    if (plain.text[0] == '#')
        buf_add(rows->out, plain.text);
    else
        csv_put(rows->out, plain.text);
}

bool sheet_put(struct sheet_rows *rows, uint64_t row, uint64_t column, const char *text)
{
    if (!text[0])
        return true;
    if (row >= SHEET_ROWS_MOST || column >= SHEET_COLUMNS_MOST || ++rows->cells > SHEET_CELLS_MOST ||
        row < rows->row || (row == rows->row && column < rows->column))
        return false;
    if (row > rows->row) {
        buf_add_repeat(rows->out, '\n', (size_t)(row - rows->row));
        rows->row = row;
        rows->column = 0;
        rows->row_cells = 0;
    }
    buf_add_repeat(rows->out, '\t', (size_t)(column - rows->column));
    rows->column = column;
    rows->row_cells++;
    put_text(rows, text);
    return true;
}

bool sheet_repeat(struct sheet_rows *rows, uint64_t times)
{
    size_t from = rows->out->length;
    if (times > SHEET_ROWS_MOST - rows->row || rows->row_cells * times > SHEET_CELLS_MOST - rows->cells)
        return false;
    while (from > 0 && rows->out->text[from - 1] != '\n')
        from--;
    const char *row = arena_text(rows->out->arena, rows->out->text + from);
    for (uint64_t i = 1; i < times; i++) {
        buf_add_char(rows->out, '\n');
        buf_add(rows->out, row);
    }
    rows->row += times - 1;
    rows->cells += rows->row_cells * (times - 1);
    return true;
}
