/* Office Open XML: the workbook names its sheets, texts stand in a table of their own, and whether a number is a date is said by
 * its style. */
#include "format/sheet.h"

#include "base/arena.h"
#include "base/day.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { DAY_1900 = -25569, DAY_1904 = -24107, SERIAL_MOST = 2958465, BUILTIN_FORMATS = 164 };

struct texts {
    const char **items;
    size_t count, capacity;
};

/* What is collected from the smaller parts, and where the sheet stands. */
struct xlsx {
    struct arena *arena;
    const char *wanted, *relation, *target; /* the sheet's name, its relation in the workbook, its part */
    struct texts strings;
    bool *dates; /* by style: a number of it is a date */
    size_t style_count, style_capacity;
    struct texts formats; /* codes of one's own, by id - BUILTIN_FORMATS */
    bool from_1904;

    struct sheet_rows *rows;
    struct buf text;
    bool collecting, phonetic, in_styles, large;
    uint64_t row, column;
    char type; /* of the cell: s, b, e, i (inline), t (a formula's text), n */
    size_t style;
};

static void begin_text(struct xlsx *x)
{
    x->text.length = 0;
    x->text.text[0] = '\0';
}

static void on_text(void *to, const char *text, size_t length)
{
    struct xlsx *x = to;
    if (x->collecting && !x->phonetic)
        buf_add_n(&x->text, text, length);
}

static bool no_end(void *to, const char *name)
{
    (void)to;
    (void)name;
    return true;
}

static bool workbook_begin(void *to, const char *name, const char *const *attributes)
{
    struct xlsx *x = to;
    const char *own = sheet_attribute(attributes, "name"), *id = sheet_attribute(attributes, "id");
    const char *from_1904 = sheet_attribute(attributes, "date1904");
    if (strcmp(name, "workbookPr") == 0 && from_1904)
        x->from_1904 = from_1904[0] == '1' || from_1904[0] == 't';
    if (strcmp(name, "sheet") == 0 && !x->relation && id &&
        (!x->wanted || (own && strcmp(own, x->wanted) == 0)))
        x->relation = arena_text(x->arena, id);
    return true;
}

/* A target is relative to the workbook's folder, or begins at the archive's root. */
static bool relations_begin(void *to, const char *name, const char *const *attributes)
{
    struct xlsx *x = to;
    const char *id = sheet_attribute(attributes, "Id"), *target = sheet_attribute(attributes, "Target");
    if (strcmp(name, "Relationship") == 0 && id && target && strcmp(id, x->relation) == 0)
        x->target =
            target[0] == '/' ? arena_text(x->arena, target + 1) : arena_textf(x->arena, "xl/%s", target);
    return true;
}

static bool strings_begin(void *to, const char *name, const char *const *attributes)
{
    struct xlsx *x = to;
    (void)attributes;
    if (strcmp(name, "si") == 0)
        begin_text(x);
    x->phonetic |= strcmp(name, "rPh") == 0;
    x->collecting = strcmp(name, "t") == 0;
    return true;
}

static bool strings_end(void *to, const char *name)
{
    struct xlsx *x = to;
    x->collecting = false;
    if (strcmp(name, "rPh") == 0)
        x->phonetic = false;
    if (strcmp(name, "si") != 0)
        return true;
    x->strings.items = arena_grow(x->arena, x->strings.items, x->strings.count, &x->strings.capacity,
                                  sizeof *x->strings.items);
    x->strings.items[x->strings.count++] = arena_text(x->arena, x->text.text);
    return x->strings.count < SHEET_CELLS_MOST;
}

/* Days and years outside quotes and brackets, ISO/IEC 29500-1, 18.8.31. */
static bool is_date_code(const char *code)
{
    for (; *code; code++) {
        if (*code == '"' || *code == '[') {
            code = strchr(code + 1, *code == '"' ? '"' : ']');
            if (!code)
                return false;
        } else if (*code == '\\' && code[1]) {
            code++;
        } else if (strchr("dyDY", *code)) {
            return true;
        }
    }
    return false;
}

static bool is_date_format(const struct xlsx *x, unsigned long id)
{
    if (id >= BUILTIN_FORMATS)
        return id - BUILTIN_FORMATS < x->formats.count && x->formats.items[id - BUILTIN_FORMATS] &&
               is_date_code(x->formats.items[id - BUILTIN_FORMATS]);
    return (id >= 14 && id <= 17) || id == 22 || (id >= 27 && id <= 36) || (id >= 50 && id <= 58);
}

static void add_format(struct xlsx *x, const char *id, const char *code)
{
    unsigned long number = strtoul(id, NULL, 10), at = number - BUILTIN_FORMATS;
    if (number < BUILTIN_FORMATS || at > SHEET_COLUMNS_MOST)
        return;
    while (x->formats.count <= at) {
        x->formats.items = arena_grow(x->arena, x->formats.items, x->formats.count, &x->formats.capacity,
                                      sizeof *x->formats.items);
        x->formats.items[x->formats.count++] = NULL;
    }
    x->formats.items[at] = arena_text(x->arena, code);
}

static bool styles_begin(void *to, const char *name, const char *const *attributes)
{
    struct xlsx *x = to;
    const char *id = sheet_attribute(attributes, "numFmtId"),
               *code = sheet_attribute(attributes, "formatCode");
    if (strcmp(name, "cellXfs") == 0)
        x->in_styles = true;
    if (strcmp(name, "numFmt") == 0 && id && code)
        add_format(x, id, code);
    if (x->in_styles && strcmp(name, "xf") == 0) {
        x->dates = arena_grow(x->arena, x->dates, x->style_count, &x->style_capacity, sizeof *x->dates);
        x->dates[x->style_count++] = is_date_format(x, id ? strtoul(id, NULL, 10) : 0);
    }
    return x->style_count < SHEET_CELLS_MOST;
}

static bool styles_end(void *to, const char *name)
{
    struct xlsx *x = to;
    if (strcmp(name, "cellXfs") == 0)
        x->in_styles = false;
    return true;
}

/* "AB12": column 27, row 11, both from 0. */
static bool read_place(const char *text, uint64_t *row, uint64_t *column)
{
    char *end;
    *column = 0;
    for (; *text >= 'A' && *text <= 'Z' && *column < SHEET_ROWS_MOST; text++)
        *column = *column * 26 + (uint64_t)(*text - 'A') + 1;
    unsigned long number = strtoul(text, &end, 10);
    *row = number - 1;
    return *column > 0 && number > 0 && !*end && (--*column, true);
}

static void begin_cell(struct xlsx *x, const char *const *attributes)
{
    const char *place = sheet_attribute(attributes, "r"), *type = sheet_attribute(attributes, "t");
    const char *style = sheet_attribute(attributes, "s");
    uint64_t row, column;
    if (place && read_place(place, &row, &column)) {
        x->row = row;
        x->column = column;
    }
    x->style = style ? strtoul(style, NULL, 10) : 0;
    x->type = 'n';
    if (type)
        x->type = strcmp(type, "str") == 0 ? 't' : type[0];
    begin_text(x);
}

static bool sheet_begin(void *to, const char *name, const char *const *attributes)
{
    struct xlsx *x = to;
    const char *place = sheet_attribute(attributes, "r");
    if (strcmp(name, "row") == 0 && place && strtoul(place, NULL, 10) > 0) {
        x->row = strtoul(place, NULL, 10) - 1;
        x->column = 0;
    }
    if (strcmp(name, "c") == 0)
        begin_cell(x, attributes);
    x->phonetic |= strcmp(name, "rPh") == 0;
    x->collecting = strcmp(name, "v") == 0 || strcmp(name, "t") == 0;
    return true;
}

/* A number that is shown as a date: days since the end of 1899, with a 29 February 1900 that never was, or since 1904. */
static const char *date_text(const struct xlsx *x, const char *text)
{
    double serial;
    if (!sheet_double(text, &serial) || serial < 61 || serial > SERIAL_MOST)
        return text;
    int64_t day = (int64_t)floor(serial) + (x->from_1904 ? DAY_1904 : DAY_1900);
    return arena_text(x->arena, date_format(date_of(day)).text);
}

static const char *cell_text(struct xlsx *x)
{
    const char *text = x->text.text, *number;
    unsigned long index = strtoul(text, NULL, 10);
    switch (x->type) {
    case 's':
        return text[0] && index < x->strings.count ? x->strings.items[index] : "";
    case 'b':
        return !text[0] ? "" : text[0] == '1' ? "TRUE" : "FALSE";
    case 'n':
        if (x->style < x->style_count && x->dates[x->style])
            return text[0] ? date_text(x, text) : "";
        number = sheet_number(x->arena, text);
        return number[0] ? number : text;
    default:
        return text;
    }
}

static bool sheet_end(void *to, const char *name)
{
    struct xlsx *x = to;
    x->collecting = false;
    if (strcmp(name, "rPh") == 0)
        x->phonetic = false;
    if (strcmp(name, "row") == 0) {
        x->row++;
        x->column = 0;
    }
    if (strcmp(name, "c") != 0)
        return true;
    x->large = !sheet_put(x->rows, x->row, x->column, cell_text(x));
    x->column++;
    return !x->large;
}

/* Walks through a part; one that may be missing is passed over. */
static bool walk(struct xlsx *x, struct sheet_archive *archive, const char *name, bool needed,
                 struct sheet_walker walker, struct err *err)
{
    const struct file_text *part = sheet_part(archive, name, err);
    if (!part && err->code == ERR_NONE)
        return !needed || sheet_refuse(err, "an .xlsx workbook", "another archive");
    walker.to = x;
    if (!part || sheet_walk(x->arena, part, walker, err))
        return part != NULL;
    return err->code != ERR_NONE || x->large
               ? false
               : sheet_refuse(err, "a workbook of at most 1000000 texts and styles", "a larger one");
}

bool sheet_read_xlsx(struct sheet_archive *archive, const char *name, struct sheet_rows *rows,
                     struct err *err)
{
    static const struct sheet_walker workbook = {NULL, workbook_begin, no_end, on_text},
                                     relations = {NULL, relations_begin, no_end, on_text},
                                     strings = {NULL, strings_begin, strings_end, on_text},
                                     styles = {NULL, styles_begin, styles_end, on_text},
                                     sheet = {NULL, sheet_begin, sheet_end, on_text};
    struct xlsx *x = ARENA_NEW(sheet_arena(archive), struct xlsx);
    x->arena = sheet_arena(archive);
    x->wanted = name;
    x->rows = rows;
    buf_init(&x->text, x->arena);
    if (!walk(x, archive, "xl/workbook.xml", true, workbook, err))
        return false;
    if (!x->relation)
        return sheet_refuse(err, name ? arena_textf(x->arena, "a sheet called %s", name) : "a sheet", "none");
    if (!walk(x, archive, "xl/_rels/workbook.xml.rels", true, relations, err) ||
        !walk(x, archive, "xl/sharedStrings.xml", false, strings, err) ||
        !walk(x, archive, "xl/styles.xml", false, styles, err))
        return false;
    if (!x->target)
        return sheet_refuse(err, "a sheet", "none");
    if (walk(x, archive, x->target, true, sheet, err))
        return true;
    return x->large
               ? sheet_refuse(err, "a sheet of at most 100000 rows and 1000 columns, in order", "another")
               : false;
}
