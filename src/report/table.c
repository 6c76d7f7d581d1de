#include "report/table.h"

#include "base/arena.h"
#include "base/text.h"

#include <assert.h>
#include <string.h>

enum { GAP = 2, NARROWEST = 8, NARROW_SCREEN = 60, NARROWEST_THERE = 14 };

void screen_tinted(struct screen *screen, enum tint tint, const char *text)
{
    static const char *const codes[] = {"", "\033[1m", "\033[1;36m", "\033[1;35m", "\033[2m"};
    bool plain = !screen->colour || tint == TINT_NONE || !*text;
    buf_addf(screen->out, "%s%s%s", plain ? "" : codes[tint], text, plain ? "" : "\033[0m");
}

/* A number and what it counts stay together where they can: "5.77 m²", "1 Mar". */
static bool joins(const char *text, const char *blank)
{
    return blank > text && blank[-1] >= '0' && blank[-1] <= '9' && !(blank[1] >= '0' && blank[1] <= '9') &&
           blank[1] != '(' && blank[1] != '+' && blank[1] != '\0';
}

/* Bytes of the first line of a text that may be `width` cells wide: up to a blank where there is one, but at least one
 * character. *next is where the following line begins. */
static size_t line_of(const char *text, size_t width, const char **next)
{
    const char *at = text, *blank = NULL, *joint = NULL;
    size_t used = 0;
    while (*at && *at != '\n') {
        const char *after = at;
        char one[8] = "";
        text_next(&after);
        memcpy(one, at, (size_t)(after - at));
        used += text_width(one);
        if (*at == ' ' && joins(text, at))
            joint = at;
        else if (*at == ' ')
            blank = at;
        if (used > width && at > text) {
            at = blank ? blank : joint ? joint : at;
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

static void tinted_lines(struct screen *screen, enum tint tint, size_t indent, const char *text)
{
    do {
        const char *next;
        size_t length = line_of(text, screen->width - indent, &next);
        buf_add_repeat(screen->out, ' ', indent);
        screen_tinted(screen, tint, arena_text_n(screen->out->arena, text, length));
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
    tinted_lines(screen, TINT_HEAD, 0, text);
}

void screen_line(struct screen *screen, enum tint tint, const char *text)
{
    tinted_lines(screen, tint, 0, text);
}

void screen_paragraph(struct screen *screen, size_t indent, size_t hang, const char *text)
{
    size_t before = indent;
    do {
        const char *next;
        size_t length = line_of(text, screen->width - before, &next);
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

void table_between(struct table *table, const char *text)
{
    add_row(table, ROW_BETWEEN)->cells[0] = text;
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

/* What a column is made narrower to at the most: on a narrow screen less than that reads worse than a list. */
static size_t narrowest(const struct screen *screen)
{
    return screen->width < NARROW_SCREEN ? NARROWEST_THERE : NARROWEST;
}

static size_t wanted_width(const struct table *table, size_t column)
{
    size_t widest = table->columns[column].title ? text_width(table->columns[column].title) : 0;
    for (size_t row = 0; row < table->row_count; row++) {
        if (table->rows[row].kind != ROW_CELLS)
            continue;
        size_t width = text_width(table->rows[row].cells[column]);
        widest = width > widest ? width : widest;
    }
    return widest;
}

/* The width of each column: what gives way is made narrower until the whole fits. False: it cannot. */
static bool fit(const struct table *table, const struct screen *screen, size_t indent, size_t *widths)
{
    size_t total = indent + GAP * (table->column_count - 1);
    for (size_t i = 0; i < table->column_count; i++)
        total += widths[i] = wanted_width(table, i);
    while (total > screen->width) {
        size_t widest = table->column_count;
        for (size_t i = 0; i < table->column_count; i++)
            if (table->columns[i].gives && widths[i] > narrowest(screen) &&
                (widest == table->column_count || widths[i] > widths[widest]))
                widest = i;
        if (widest == table->column_count)
            return false;
        widths[widest]--;
        total--;
    }
    return true;
}

/* Where the columns have no room: the cells of a row one behind the other, each with its title. */
static void print_listed(const struct table *table, struct screen *screen, size_t indent,
                         const char *const *cells)
{
    struct buf line;
    buf_init(&line, table->arena);
    for (size_t i = 0; i < table->column_count; i++) {
        const char *title = i ? table->columns[i].title : NULL;
        if (*cells[i])
            buf_addf(&line, "%s%s%s%s", line.length ? ", " : "", title ? title : "", title ? " " : "",
                     cells[i]);
    }
    screen_paragraph(screen, indent, GAP, line.text);
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
    bool fits = fit(table, screen, indent, widths);
    if (fits && has_titles(table))
        print_titles(table, screen, indent, widths);
    for (size_t i = 0; i < table->row_count; i++) {
        const struct table_row *row = &table->rows[i];
        if (row->kind == ROW_CELLS && !fits)
            print_listed(table, screen, indent, row->cells);
        else if (row->kind == ROW_CELLS)
            print_row(table, screen->out, indent, row->cells, widths);
        else if (row->kind == ROW_BETWEEN)
            screen_paragraph(screen, indent > GAP ? indent - GAP : 0, GAP, row->cells[0]);
        else if (row->kind == ROW_NOTE)
            screen_paragraph(screen, fits ? indent + widths[0] + GAP : indent + GAP, 2, row->cells[0]);
        else
            tinted_lines(screen, TINT_HEAD, indent > GAP ? indent - GAP : 0, row->cells[0]);
    }
}
