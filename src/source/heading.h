/* The heading of a list as people have it: the row of names, which need be neither the first nor in our words. */
#ifndef SOURCE_HEADING_H
#define SOURCE_HEADING_H

#include "format/csv.h"

#include <stdbool.h>
#include <stdint.h>

struct buf;

/* Other names of a column, in small letters, with | between: "qty|quantity|anzahl". */
struct column_words {
    size_t column;
    const char *words;
};

struct heading;

/* The columns of a kind of list. */
struct rows_columns {
    const char *const *names;
    size_t count;
    const char *what, *row; /* "a part list", "a part" */
    uint64_t numbers;       /* as bits: columns of numbers, which JSON may write as such */
    uint64_t
        lengths; /* as bits: columns of one length, whose heading may name a unit, or several with an x */
    bool cells;  /* numbers are those of a sheet: 1.125 is no thousand */
    const char *bare_unit; /* of lengths without one, "mm"; NULL: not known */
    const struct column_words *words;
    size_t word_count;
    size_t sizes[3]; /* the columns of a heading such as "dimensions"; all 0: none */
    /* Sees to it that the heading makes sense; NULL: as it was read. */
    void (*settle)(const struct rows_columns *columns, struct heading *heading);
    /* Why a row is none of the list; NULL: it is one. */
    const char *(*left_out)(const char *const *cells, const struct heading *heading);
};

enum { FACTORS_MOST = 3 };

/* What stands under one name. */
struct heading_cell {
    const char *text;             /* as it was written, trimmed */
    size_t columns[FACTORS_MOST]; /* one, or several lengths with an x between */
    size_t count;                 /* 0: it is left out */
    const char *unit;             /* of its lengths, "mm"; NULL: not said */
    bool renamed;
    bool any_order; /* a part as it stands in space: its least size is the thickness */
};

struct heading {
    struct heading_cell *cells;
    size_t width;
    size_t at, next; /* offsets of the row and of what follows it */
    size_t above;    /* rows above it */
    char separator;
    size_t known; /* names that are columns */
};

/* The first row in which at least two names are known (or all of them), by the separator that shows the most of them. False:
 * there is none; *heading is then the first row, as far as there is any. */
bool heading_find(struct arena *arena, const char *text, size_t length, const struct rows_columns *columns,
                  struct heading *heading);

/* The cell under which a column stands; NULL: none. */
struct heading_cell *heading_of(const struct heading *heading, size_t column);

/* Numbers and lengths as people write them and spreadsheets export them; in cell.c. */
struct cell_reading {
    struct arena *arena;
    bool decimal_commas; /* "12,5" may be meant: the list separates by something else */
    bool is_length;
    bool cells;       /* a point is a decimal point */
    const char *unit; /* of lengths without one; NULL: not known */
    bool had_comma;   /* after cell_tidy: a comma was read as a point */
    char expected[160];
};

/* Makes decimal commas points, and takes out blanks between thousands and ".00" behind a count. False: it cannot be meant, and `expected` says what should stand there: a date that was a
 * fraction once, or three digits that may be thousands. */
bool cell_tidy(struct cell_reading *in, const char **text);

/* Writes a unit (NULL: none) behind a length without one. */
void cell_unit(const struct cell_reading *in, const char *unit, const char **text);

/* Cuts "600 x 400 x 18 mm", which stands under the first column of its heading, into all of them: a unit behind the last is
 * that of all. False: not as many lengths. */
bool cell_split(const struct cell_reading *in, const struct heading_cell *head, const char **cells);

#endif
