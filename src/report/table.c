#include "report/table.h"

#include "base/arena.h"
#include "base/text.h"

#include <assert.h>
#include <string.h>

enum { GAP = 2, NARROWEST = 8 };

void screen_tinted(struct screen *screen, enum tint tint, const char *text)
{
    static const char *const codes[] = {"", "\033[1m", "\033[1;36m", "\033[1;35m", "\033[2m"};
    bool plain = !screen->colour || tint == TINT_NONE || !*text;
    buf_addf(screen->out, "%s%s%s", plain ? "" : codes[tint], text, plain ? "" : "\033[0m");
}

/* Bytes of the first line of a text that may be `width` cells wide: up to a blank where there is one, but at least one
 * character. *next is where the following line begins. */
static size_t line_of(const char *text, size_t width, const char **next)
{
    const char *at = text, *blank = NULL;
    size_t used = 0;
    while (*at && *at != '\n') {
        const char *after = at;
        char one[8] = "";
        text_next(&after);
        memcpy(one, at, (size_t)(after - at));
        used += text_width(one);
        if (*at == ' ')
            blank = at;
        if (used > width && at > text) {
            at = blank ? blank : at;
            break;
        }
        at = after;
    }
    *next = at;
    while (**next == ' ' || **next == '\n')
        ++*next;
    while (at > text && at[-1] == ' ')
        at--;
    return (size_t)(at - text);
}

static void tinted_lines(struct screen *screen, size_t indent, const char *text)
{
    do {
        const char *next;
        size_t length = line_of(text, SCREEN_WIDTH - indent, &next);
        buf_add_repeat(screen->out, ' ', indent);
        screen_tinted(screen, TINT_HEAD, arena_text_n(screen->out->arena, text, length));
        buf_add_char(screen->out, '\n');
        text = next;
    } while (*text);
}

const char *screen_volume(const struct screen *screen, double volume_l)
{
    return arena_text(screen->out->arena, volume_format(volume_l, screen->units).text);
}

void screen_heading(struct screen *screen, const char *text)
{
    if (screen->out->length)
        buf_add_char(screen->out, '\n');
    tinted_lines(screen, 0, text);
}

void screen_paragraph(struct screen *screen, size_t indent, size_t hang, const char *text)
{
    size_t before = indent;
    do {
        const char *next;
        size_t length = line_of(text, SCREEN_WIDTH - before, &next);
        buf_add_repeat(screen->out, ' ', before);
        buf_add_n(screen->out, text, length);
        buf_add_char(screen->out, '\n');
        text = next;
        before = indent + hang;
    } while (*text);
}

void table_init(struct table *table, struct arena *arena, const struct column *columns, size_t column_count)
{
    assert(column_count <= TABLE_COLUMNS);
    *table = (struct table){.arena = arena, .columns = columns, .column_count = column_count};
}

static struct table_row *add_row(struct table *table, enum row_kind kind)
{
    table->rows = arena_grow(table->arena, table->rows, table->row_count, &table->room, sizeof *table->rows);
    struct table_row *row = &table->rows[table->row_count++];
    *row = (struct table_row){.kind = kind};
    return row;
}

void table_row(struct table *table, const char *const *cells)
{
    struct table_row *row = add_row(table, ROW_CELLS);
    for (size_t i = 0; i < table->column_count; i++)
        row->cells[i] = cells[i] ? cells[i] : "";
}

void table_group(struct table *table, const char *text)
{
    add_row(table, ROW_GROUP)->cells[0] = text;
}

void table_note(struct table *table, const char *text)
{
    if (text)
        add_row(table, ROW_NOTE)->cells[0] = text;
}

static bool has_titles(const struct table *table)
{
    for (size_t i = 0; i < table->column_count; i++)
        if (table->columns[i].title)
            return true;
    return false;
}

/* The width of each column, and of the whole: what gives way is made narrower until all fits. */
static void fit(const struct table *table, size_t indent, size_t *widths)
{
    size_t total = indent + GAP * (table->column_count - 1);
    for (size_t i = 0; i < table->column_count; i++) {
        widths[i] = table->columns[i].title ? text_width(table->columns[i].title) : 0;
        for (size_t row = 0; row < table->row_count; row++) {
            if (table->rows[row].kind != ROW_CELLS)
                continue;
            size_t width = text_width(table->rows[row].cells[i]);
            widths[i] = width > widths[i] ? width : widths[i];
        }
        total += widths[i];
    }
    while (total > SCREEN_WIDTH) {
        size_t widest = table->column_count;
        for (size_t i = 0; i < table->column_count; i++)
            if (table->columns[i].gives && widths[i] > NARROWEST &&
                (widest == table->column_count || widths[i] > widths[widest]))
                widest = i;
        if (widest == table->column_count)
            return;
        widths[widest]--;
        total--;
    }
}

static void pad(struct buf *out, const char *cell, size_t length, size_t width, enum align align)
{
    size_t cells = 0;
    const char *at = cell;
    while (at < cell + length) {
        const char *after = at;
        char one[8] = "";
        text_next(&after);
        memcpy(one, at, (size_t)(after - at));
        cells += text_width(one);
        at = after;
    }
    size_t blanks = cells < width ? width - cells : 0;
    buf_add_repeat(out, ' ', align == ALIGN_RIGHT ? blanks : 0);
    buf_add_n(out, cell, length);
    buf_add_repeat(out, ' ', align == ALIGN_LEFT ? blanks : 0);
}

static void trim_line(struct buf *out)
{
    while (out->length && out->text[out->length - 1] == ' ')
        out->text[--out->length] = '\0';
    buf_add_char(out, '\n');
}

/* One row, on as many lines as its longest cell needs. */
static void print_row(const struct table *table, struct buf *out, size_t indent, const char *const *cells,
                      const size_t *widths)
{
    const char *rest[TABLE_COLUMNS];
    bool more = true;
    memcpy(rest, cells, table->column_count * sizeof *rest);
    while (more) {
        more = false;
        buf_add_repeat(out, ' ', indent);
        for (size_t i = 0; i < table->column_count; i++) {
            const char *cell = rest[i];
            size_t length = line_of(cell, widths[i], &rest[i]);
            pad(out, cell, length, widths[i], table->columns[i].align);
            buf_add_repeat(out, ' ', i + 1 < table->column_count ? GAP : 0);
            more = more || *rest[i];
        }
        trim_line(out);
    }
}

static void print_titles(const struct table *table, struct screen *screen, size_t indent,
                         const size_t *widths)
{
    const char *titles[TABLE_COLUMNS];
    struct buf line;
    buf_init(&line, table->arena);
    for (size_t i = 0; i < table->column_count; i++)
        titles[i] = table->columns[i].title ? table->columns[i].title : "";
    print_row(table, &line, indent, titles, widths);
    line.text[--line.length] = '\0';
    screen_tinted(screen, TINT_QUIET, line.text);
    buf_add_char(screen->out, '\n');
}

void table_print(const struct table *table, struct screen *screen, size_t indent)
{
    size_t widths[TABLE_COLUMNS] = {0};
    if (table->row_count == 0)
        return;
    fit(table, indent, widths);
    if (has_titles(table))
        print_titles(table, screen, indent, widths);
    for (size_t i = 0; i < table->row_count; i++) {
        const struct table_row *row = &table->rows[i];
        if (row->kind == ROW_CELLS)
            print_row(table, screen->out, indent, row->cells, widths);
        else if (row->kind == ROW_NOTE)
            screen_paragraph(screen, indent + widths[0] + GAP, 2, row->cells[0]);
        else
            tinted_lines(screen, indent > GAP ? indent - GAP : 0, row->cells[0]);
    }
}
