/* OpenDocument: content.xml holds tables of rows of cells, runs of equal ones as a count. */
#include "format/sheet.h"

#include "base/arena.h"

#include <stdlib.h>
#include <string.h>

enum { NOTES_DEEPEST = 1000 };

struct ods {
    struct arena *arena;
    const char *wanted; /* the sheet's name; NULL: the first */
    struct sheet_rows *rows;
    struct buf text;   /* of the cell at hand */
    const char *value; /* of it, where it is not its text */
    uint64_t row, column, row_count, cell_count;
    int depth, notes;                       /* tables inside tables, annotations */
    bool inside, found;                     /* the wanted table is open; it was there */
    bool in_cell, in_paragraph, paragraphs; /* the last: the cell has had one */
    bool large;
};

static uint64_t count_of(const char *const *attributes, const char *name)
{
    const char *text = sheet_attribute(attributes, name);
    unsigned long count = text ? strtoul(text, NULL, 10) : 1;
    return count < 1 ? 1 : count;
}

/* What stands in the cell besides its text: a number without the locale of the maker, a date. */
static const char *value_of(struct arena *arena, const char *const *attributes)
{
    const char *type = sheet_attribute(attributes, "value-type");
    const char *value = sheet_attribute(attributes, "value"),
               *date = sheet_attribute(attributes, "date-value");
    if (type && strcmp(type, "float") == 0 && value)
        return sheet_number(arena, value);
    if (type && strcmp(type, "date") == 0 && date)
        return arena_text_n(arena, date, strcspn(date, "T"));
    return NULL;
}

static void begin_cell(struct ods *ods, const char *const *attributes)
{
    ods->in_cell = true;
    ods->paragraphs = false;
    ods->text.length = 0;
    ods->text.text[0] = '\0';
    ods->value = value_of(ods->arena, attributes);
    ods->cell_count = count_of(attributes, "number-columns-repeated");
}

static bool on_begin(void *to, const char *name, const char *const *attributes)
{
    struct ods *ods = to;
    if (strcmp(name, "table") == 0 && ods->depth++ == 0) {
        const char *own = sheet_attribute(attributes, "name");
        ods->inside = !ods->found && (!ods->wanted || (own && strcmp(own, ods->wanted) == 0));
        ods->found |= ods->inside;
    }
    if (!ods->inside || ods->depth != 1)
        return true;
    if (strcmp(name, "annotation") == 0 || ods->notes > 0)
        return ++ods->notes < NOTES_DEEPEST;
    if (strcmp(name, "table-row") == 0) {
        ods->column = 0;
        ods->row_count = count_of(attributes, "number-rows-repeated");
    } else if (strcmp(name, "table-cell") == 0 || strcmp(name, "covered-table-cell") == 0) {
        begin_cell(ods, attributes);
    } else if (ods->in_cell && strcmp(name, "p") == 0) {
        if (ods->paragraphs)
            buf_add_char(&ods->text, ' ');
        ods->in_paragraph = ods->paragraphs = true;
    } else if (ods->in_cell &&
               (strcmp(name, "s") == 0 || strcmp(name, "tab") == 0 || strcmp(name, "line-break") == 0)) {
        buf_add_char(&ods->text, ' ');
    }
    return true;
}

/* A run of equal rows; one of empty ones only moves on. */
static bool end_row(struct ods *ods)
{
    bool filled = ods->rows->row == ods->row && ods->rows->row_cells > 0;
    if (filled && ods->row_count > 1 && !sheet_repeat(ods->rows, ods->row_count)) {
        ods->large = true;
        return false;
    }
    ods->row += ods->row_count < SHEET_ROWS_MOST ? ods->row_count : SHEET_ROWS_MOST;
    return true;
}

/* A run of equal cells; one of empty ones only moves on. */
static bool end_cell(struct ods *ods)
{
    const char *text = ods->value && ods->value[0] ? ods->value : ods->text.text;
    ods->in_cell = false;
    for (uint64_t i = 0; text[0] && i < ods->cell_count; i++)
        if (!sheet_put(ods->rows, ods->row, ods->column + i, text)) {
            ods->large = true;
            return false;
        }
    ods->column += ods->cell_count < SHEET_COLUMNS_MOST ? ods->cell_count : SHEET_COLUMNS_MOST;
    return true;
}

static bool on_end(void *to, const char *name)
{
    struct ods *ods = to;
    if (ods->notes > 0) {
        ods->notes--;
        return true;
    }
    if (strcmp(name, "table") == 0 && --ods->depth == 0)
        ods->inside = false;
    if (!ods->inside || ods->depth != 1)
        return true;
    if (strcmp(name, "p") == 0)
        ods->in_paragraph = false;
    if (strcmp(name, "table-cell") == 0 || strcmp(name, "covered-table-cell") == 0)
        return end_cell(ods);
    if (strcmp(name, "table-row") == 0)
        return end_row(ods);
    return true;
}

static void on_text(void *to, const char *text, size_t length)
{
    struct ods *ods = to;
    if (ods->in_paragraph && ods->notes == 0)
        buf_add_n(&ods->text, text, length);
}

bool sheet_read_ods(struct sheet_archive *archive, const char *name, struct sheet_rows *rows, struct err *err)
{
    struct ods ods = {.arena = sheet_arena(archive), .wanted = name, .rows = rows};
    struct sheet_walker walker = {&ods, on_begin, on_end, on_text};
    const struct file_text *content = sheet_part(archive, "content.xml", err);
    if (!content)
        return err->code != ERR_NONE ? false
                                     : sheet_refuse(err, "an OpenDocument spreadsheet", "another archive");
    buf_init(&ods.text, ods.arena);
    bool good = sheet_walk(ods.arena, content, walker, err);
    if (ods.large)
        return sheet_refuse(err, "a sheet of at most 100000 rows and 1000 columns", "a larger one");
    if (good && !ods.found)
        return sheet_refuse(err, name ? arena_textf(ods.arena, "a sheet called %s", name) : "a sheet",
                            "none");
    return good;
}
