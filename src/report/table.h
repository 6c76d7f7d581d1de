/* What people read on a terminal of 40 to 120 columns: headings, paragraphs and tables of plain text, colours where asked. */
#ifndef REPORT_TABLE_H
#define REPORT_TABLE_H

#include "base/buf.h"
#include "base/measure.h"

#include <stdbool.h>
#include <stddef.h>

enum { SCREEN_USUAL = 80, SCREEN_NARROWEST = 40, SCREEN_WIDEST = 120 };

struct screen {
    struct buf *out;
    enum unit_system units;
    bool colour;
    size_t width; /* cells of a line */
};

/* How a piece of text stands out; without colour it does not. */
enum tint { TINT_NONE, TINT_HEAD, TINT_GOOD, TINT_BAD, TINT_QUIET };

void screen_tinted(struct screen *screen, enum tint tint, const char *text);
/* The same as lines of their own, wrapped to the width. */
void screen_line(struct screen *screen, enum tint tint, const char *text);
/* A volume in the screen's units, in its arena. */
const char *screen_volume(const struct screen *screen, double volume_l);
/* A heading behind an empty line (none at the very top). */
void screen_heading(struct screen *screen, const char *text);
/* Words wrapped to the width; every line begins with `indent` blanks, those after the first with `hang` more. */
void screen_paragraph(struct screen *screen, size_t indent, size_t hang, const char *text);

enum align { ALIGN_LEFT, ALIGN_RIGHT };

struct column {
    const char *title; /* NULL in every column: no row of titles */
    enum align align;
    bool
        gives; /* is made narrower, its texts wrapped, where the table is too wide; a table that stays so is a list */
};

enum { TABLE_COLUMNS = 8 };

/* Cells by row; texts are borrowed. A group is a line of its own over the rows that follow, a note stands below the row
 * before it: both have one text. */
enum row_kind { ROW_CELLS, ROW_GROUP, ROW_BETWEEN, ROW_NOTE };

struct table_row {
    enum row_kind kind;
    const char *cells[TABLE_COLUMNS];
};

struct table {
    struct arena *arena;
    const struct column *columns;
    size_t column_count;
    struct table_row *rows;
    size_t row_count, room;
};

void table_init(struct table *table, struct arena *arena, const struct column *columns, size_t column_count);
/* One text per column; NULL or "" leaves it empty. The array is copied, the texts are not. */
void table_row(struct table *table, const char *const *cells);
void table_group(struct table *table, const char *text);
/* A line like a group, of which there is nothing more to say. */
void table_between(struct table *table, const char *text);
/* Wrapped, indented as far as the second column. NULL adds nothing. */
void table_note(struct table *table, const char *text);
/* Every row indented by so many blanks. A table without rows prints nothing. */
void table_print(const struct table *table, struct screen *screen, size_t indent);

#endif
