#include "source/heading.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/length.h"
#include "base/text.h"

#include <stdio.h>
#include <string.h>

enum { ROWS_LOOKED_AT = 60, WORD_SIZE = 64 };

/* A name in small letters, without the unit, dots, colons and stars behind it; "L x W x T" is cut by its reader. */
struct word {
    char text[WORD_SIZE];
};

/* ASCII and the letters of Latin-1 in small letters. */
static void fold(char *text)
{
    for (unsigned char *c = (unsigned char *)text; *c; c++) {
        if (*c >= 'A' && *c <= 'Z')
            *c = (unsigned char)(*c + 32);
        else if (*c == 0xC3 && c[1] >= 0x80 && c[1] <= 0x9E && c[1] != 0x97)
            c[1] = (unsigned char)(c[1] + 0x20);
        else if (*c == '_')
            *c = ' ';
    }
}

static void trim_end(char *text)
{
    size_t length = strlen(text);
    while (length > 0 && strchr(" .:*,", text[length - 1]))
        text[--length] = '\0';
}

static const char *unit_called(const char *name)
{
    static const struct {
        const char *name, *unit;
    } called[] = {
        {"mm", "mm"},     {"cm", "cm"},   {"m", "m"},     {"in", "in"},          {"inch", "in"},
        {"inches", "in"}, {"\"", "in"},   {"zoll", "in"}, {"pouces", "in"},      {"po", "in"},
        {"ft", "ft"},     {"feet", "ft"}, {"'", "ft"},    {"millimetres", "mm"}, {"millimeters", "mm"},
        {"metres", "m"},  {"meter", "m"},
    };
    for (size_t i = 0; i < sizeof called / sizeof called[0]; i++)
        if (strcmp(name, called[i].name) == 0)
            return called[i].unit;
    return NULL;
}

/* "length (mm)", "length [mm]", "length in mm", "length, mm", "length mm": takes the unit off. Words in brackets that are
 * no unit explain something, and go as well. */
static const char *take_unit(char *text)
{
    size_t length = strlen(text);
    char *open = length > 1 && text[length - 1] == ')'   ? strrchr(text, '(')
                 : length > 1 && text[length - 1] == ']' ? strrchr(text, '[')
                                                         : NULL;
    if (open && open > text) {
        text[length - 1] = '\0';
        const char *unit = unit_called(open + 1);
        *open = '\0';
        trim_end(text);
        return unit;
    }
    char *space = strrchr(text, ' ');
    const char *unit = space ? unit_called(space + 1) : NULL;
    if (!unit)
        return NULL;
    *space = '\0';
    trim_end(text);
    length = strlen(text);
    if (length > 3 && strcmp(text + length - 3, " in") == 0)
        text[length - 3] = '\0';
    return unit;
}

/* Our own names, then what else they are called; columns->count: none. */
static size_t column_called(const struct rows_columns *columns, const char *word)
{
    for (size_t i = 0; i < columns->count; i++)
        if (text_same(columns->names[i], word))
            return i;
    for (size_t i = 0; i < columns->word_count && *word; i++)
        if (text_listed(columns->words[i].words, word))
            return columns->words[i].column;
    return columns->count;
}

static bool is_length(const struct rows_columns *columns, size_t column)
{
    return column < columns->count && columns->lengths >> column & 1;
}

/* Past a cross between two factors, x, * or the multiplication sign; NULL: none stands here. */
static char *past_cross(char *at)
{
    if (strncmp(at, "\xC3\x97", 2) == 0)
        return at + 2;
    return *at == '*' || (*at == 'x' && (at[1] == ' ' || at[1] == '\0' || at[-1] == ' ')) ? at + 1 : NULL;
}

/* "l x w x t": each factor a length; 0 where it is something else. */
static size_t factors(const struct rows_columns *columns, char *text, size_t found[FACTORS_MOST])
{
    size_t count = 0;
    for (char *from = text, *at = text;; at++) {
        char *next = *at && at > text ? past_cross(at) : NULL;
        if (*at && !next)
            continue;
        *at = '\0';
        while (*from == ' ')
            from++;
        trim_end(from);
        size_t column = column_called(columns, from);
        if (count == FACTORS_MOST || !is_length(columns, column))
            return 0;
        found[count++] = column;
        if (!next)
            return count;
        from = at = next;
        at--;
    }
}

/* "L x W x T", and the same in brackets behind a word: "Dimensions (W x H x D)", "L x W x T (mm)". */
static size_t factors_in(const struct rows_columns *columns, const char *name, size_t found[FACTORS_MOST])
{
    struct word word;
    snprintf(word.text, sizeof word.text, "%s", name);
    fold(word.text);
    trim_end(word.text);
    size_t length = strlen(word.text), count = 0;
    char *open = strchr(word.text, '(');
    if (open && word.text[length - 1] == ')') {
        word.text[length - 1] = '\0';
        count = factors(columns, open + 1, found);
        *open = '\0';
    }
    if (count < 2)
        count = factors(columns, word.text, found);
    return count > 1 ? count : 0;
}

static void read_cell(const struct rows_columns *columns, struct heading_cell *cell)
{
    static const char sizes[] =
        "dimensions|dimension|dims|dim|sizes|cut size|finished size|measurements|abmessungen|"
        "abmessung|ma\xC3\x9F"
        "e|ma\xC3\x9F|masse|cotes";
    struct word word;
    size_t column = column_called(columns, cell->text);
    cell->columns[0] = column;
    cell->count = column < columns->count;
    if (cell->count && text_same(cell->text, columns->names[column]))
        return;
    snprintf(word.text, sizeof word.text, "%s", cell->text);
    fold(word.text);
    trim_end(word.text);
    cell->unit = take_unit(word.text);
    cell->columns[0] = column_called(columns, word.text);
    cell->count = cell->columns[0] < columns->count;
    cell->renamed = cell->count && strcmp(columns->names[cell->columns[0]], word.text) != 0;
    if (!cell->count && columns->lengths)
        cell->count = factors_in(columns, cell->text, cell->columns);
    if (!cell->count && columns->sizes[0] && text_listed(sizes, word.text)) {
        memcpy(cell->columns, columns->sizes, sizeof cell->columns);
        cell->count = FACTORS_MOST;
    }
    if (!cell->count || !is_length(columns, cell->columns[0]))
        cell->unit = NULL;
}

struct heading_cell *heading_of(const struct heading *heading, size_t column)
{
    for (size_t i = 0; i < heading->width; i++)
        for (size_t k = 0; k < heading->cells[i].count; k++)
            if (heading->cells[i].columns[k] == column)
                return &heading->cells[i];
    return NULL;
}

static bool all_known(const struct heading *heading)
{
    for (size_t i = 0; i < heading->width; i++)
        if (heading->cells[i].count == 0 && *heading->cells[i].text)
            return false;
    return heading->known > 0;
}

static void read_row(struct arena *arena, const struct csv *csv, const struct rows_columns *columns,
                     struct heading *heading)
{
    struct buf text;
    buf_init(&text, arena);
    *heading = (struct heading){.cells = ARENA_ARRAY(arena, csv->count, struct heading_cell),
                                .width = csv->count,
                                .at = csv->cells[0].at,
                                .next = csv->next,
                                .above = csv->rows - 1,
                                .separator = csv->separator};
    for (size_t i = 0; i < csv->count; i++) {
        if (csv->cells[i].length < WORD_SIZE)
            csv_text(&csv->cells[i], &text);
        else
            text.text[text.length = 0] = '\0'; /* no name is that long */
        heading->cells[i].text = text_trimmed(arena, text.text);
        read_cell(columns, &heading->cells[i]);
        heading->known += heading->cells[i].count > 0;
    }
}

bool heading_find(struct arena *arena, const char *text, size_t length, const struct rows_columns *columns,
                  struct heading *heading)
{
    static const char separators[] = {',', ';', '\t'};
    bool found = false;
    *heading = (struct heading){.separator = ','};
    for (size_t s = 0; s < sizeof separators; s++) {
        struct csv csv;
        struct heading row;
        csv_begin(&csv, arena, text, length, separators[s]);
        csv.hash_heads = true;
        for (int n = 0; n < ROWS_LOOKED_AT && csv_next(&csv); n++) {
            read_row(arena, &csv, columns, &row);
            bool is_heading = row.known >= 2 || (n == 0 && all_known(&row));
            if (is_heading ? !found || row.known > heading->known
                           : !found && n == 0 && row.width > heading->width)
                *heading = row;
            found = found || is_heading;
            if (is_heading)
                break;
        }
    }
    return found;
}
