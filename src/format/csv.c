#include "format/csv.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"

#include <string.h>

static bool ends_line(char c)
{
    return c == '\n' || c == '\r';
}

/* Past one line end, if there is one. */
static size_t past_line_end(const struct csv *csv, size_t at)
{
    if (at < csv->length && csv->text[at] == '\r')
        at++;
    else if (at < csv->length && csv->text[at] == '\n')
        return at + 1;
    else
        return at;
    return at < csv->length && csv->text[at] == '\n' ? at + 1 : at;
}

static size_t line_end(const struct csv *csv, size_t at)
{
    while (at < csv->length && !ends_line(csv->text[at]))
        at++;
    return at;
}

static bool blank_bytes(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (text[i] == '\0' || !strchr(" \t\r\n", text[i]))
            return false;
    return true;
}

/* Past blank lines, separators alone, and comments, which are lines of the file, not rows: quotes in a comment mean
 * nothing. */
static size_t skip_lines(const struct csv *csv, size_t at)
{
    for (;;) {
        size_t first = at;
        while (first < csv->length && csv->text[first] && strchr(" \t,;", csv->text[first]))
            first++;
        if (first == csv->length)
            return first;
        /* A cell of its own, "#" heads a column of numbers. */
        bool cell = csv->hash_heads && first + 1 < csv->length && csv->text[first + 1] == csv->separator;
        bool comment = csv->text[first] == '#' && !cell && blank_bytes(csv->text + at, first - at);
        if (!comment && !ends_line(csv->text[first]))
            return at;
        at = past_line_end(csv, line_end(csv, first));
    }
}

/* Where the quotes that open at `at` close, or the end. */
static size_t closing_quote(const struct csv *csv, size_t at, bool *doubled)
{
    for (at++; at < csv->length; at++) {
        if (csv->text[at] != '"')
            continue;
        if (at + 1 == csv->length || csv->text[at + 1] != '"')
            break;
        *doubled = true;
        at++;
    }
    return at;
}

struct separators {
    size_t commas, semicolons, tabs;
    bool content; /* something else than these and blanks */
};

/* Counts those outside quotes in the row at `at`; gives the row's end. */
static size_t count_separators(const struct csv *csv, size_t at, struct separators *seen)
{
    bool begins = true, doubled;
    for (; at < csv->length && !ends_line(csv->text[at]); at++) {
        char c = csv->text[at];
        if (begins && c == '"') {
            size_t open = at;
            at = closing_quote(csv, at, &doubled);
            seen->content |= !blank_bytes(csv->text + open + 1, at - open - 1);
            continue;
        }
        seen->commas += c == ',';
        seen->semicolons += c == ';';
        seen->tabs += c == '\t';
        begins = c == ',' || c == ';' || c == '\t';
        seen->content |= !begins && c != ' ' && c != '\t';
    }
    return at;
}

static char choose_separator(const struct csv *csv)
{
    struct separators seen;
    size_t at = csv->next;
    do {
        seen = (struct separators){0};
        at = past_line_end(csv, count_separators(csv, skip_lines(csv, at), &seen));
    } while (at < csv->length && !seen.content);
    if (seen.tabs > seen.commas && seen.tabs > seen.semicolons)
        return '\t';
    return seen.semicolons > seen.commas ? ';' : ',';
}

void csv_begin(struct csv *csv, struct arena *arena, const char *text, size_t length, char separator)
{
    *csv = (struct csv){.arena = arena, .text = text, .length = length, .separator = separator};
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0)
        csv->next = 3;
}

void csv_init(struct csv *csv, struct arena *arena, const char *text, size_t length)
{
    csv_begin(csv, arena, text, length, '\0');
    csv->separator = choose_separator(csv);
}

static bool stop(struct csv *csv, const char *expected, const char *found, size_t at)
{
    csv->broken = true;
    csv->broken_at = at;
    return err_say_found(&csv->err, expected, found);
}

/* A cell in quotes; *at is its opening quote, afterwards the separator or the line end behind it. */
static bool quoted_cell(struct csv *csv, struct csv_cell *cell, size_t *at)
{
    size_t open = *at, i = closing_quote(csv, open, &cell->doubled);
    if (i >= csv->length)
        return stop(csv, "a closing quote for this one", "the end of the file", open);
    cell->text = csv->text + open + 1;
    cell->length = i - open - 1;
    *at = i + 1;
    if (*at < csv->length && csv->text[*at] != csv->separator && !ends_line(csv->text[*at]))
        return stop(csv, "a separator after the closing quote (a quote inside quotes is doubled)",
                    "more text", *at);
    return true;
}

static void plain_cell(const struct csv *csv, struct csv_cell *cell, size_t *at)
{
    size_t i = *at;
    while (i < csv->length && csv->text[i] != csv->separator && !ends_line(csv->text[i]))
        i++;
    cell->text = csv->text + *at;
    cell->length = i - *at;
    *at = i;
}

static bool read_row(struct csv *csv)
{
    size_t at = csv->next;
    for (csv->count = 0;;) {
        if (csv->count == CSV_CELLS_MOST)
            return stop(csv, "at most 1000 cells in a row", "more", at - 1);
        csv->cells = arena_grow(csv->arena, csv->cells, csv->count, &csv->capacity, sizeof *csv->cells);
        struct csv_cell *cell = &csv->cells[csv->count++];
        *cell = (struct csv_cell){.at = at};
        if (at < csv->length && csv->text[at] == '"') {
            if (!quoted_cell(csv, cell, &at))
                return false;
        } else {
            plain_cell(csv, cell, &at);
        }
        if (at >= csv->length || csv->text[at] != csv->separator)
            break;
        at++;
    }
    csv->next = past_line_end(csv, at);
    return true;
}

/* Some programs put the empty cells of an empty row in quotes. */
static bool row_blank(const struct csv *csv)
{
    for (size_t i = 0; i < csv->count; i++)
        if (!blank_bytes(csv->cells[i].text, csv->cells[i].length))
            return false;
    return true;
}

bool csv_next(struct csv *csv)
{
    do {
        csv->next = skip_lines(csv, csv->next);
        if (csv->broken || csv->next >= csv->length || !read_row(csv))
            return false;
    } while (row_blank(csv));
    csv->rows++;
    return true;
}

void csv_text(const struct csv_cell *cell, struct buf *text)
{
    text->length = 0;
    text->text[0] = '\0';
    if (!cell->doubled) {
        buf_add_n(text, cell->text, cell->length);
        return;
    }
    for (size_t i = 0; i < cell->length; i++) {
        buf_add_char(text, cell->text[i]);
        i += cell->text[i] == '"';
    }
}

/* Blanks, a comment's sign and a byte-order mark mean something at the edge of a cell that is not in quotes. */
static bool needs_quotes(const char *cell)
{
    size_t length = strlen(cell);
    if (length == 0)
        return false;
    return strchr(" \t#\"\xEF", cell[0]) || strchr(" \t", cell[length - 1]) || strpbrk(cell, ",;\t\r\n");
}

void csv_put(struct buf *buf, const char *cell)
{
    if (!needs_quotes(cell)) {
        buf_add(buf, cell);
        return;
    }
    buf_add_char(buf, '"');
    for (; *cell; cell++)
        buf_add_n(buf, *cell == '"' ? "\"\"" : cell, *cell == '"' ? 2 : 1);
    buf_add_char(buf, '"');
}

static void add_character(struct buf *buf, uint32_t c)
{
    if (c < 0x80) {
        buf_add_char(buf, (char)c);
        return;
    }
    int rest = c < 0x800 ? 1 : c < 0x10000 ? 2 : 3;
    static const unsigned lead[] = {0, 0xC0, 0xE0, 0xF0};
    buf_add_char(buf, (char)(lead[rest] | c >> (6 * rest)));
    while (rest-- > 0)
        buf_add_char(buf, (char)(0x80 | (c >> (6 * rest) & 0x3F)));
}

static void keep(struct file_text *file, const struct buf *buf)
{
    file->text = buf->text;
    file->length = buf->length;
}

/* Two bytes from `at`, the greater first or last. */
static uint32_t unit_at(const struct file_text *file, size_t at, bool big)
{
    uint32_t one = (unsigned char)file->text[at], other = (unsigned char)file->text[at + 1];
    return big ? one << 8 | other : other << 8 | one;
}

static bool from_utf16(struct arena *arena, struct file_text *file, bool big, size_t at)
{
    struct buf buf;
    buf_init(&buf, arena);
    if (file->length % 2)
        return false;
    for (; at < file->length; at += 2) {
        uint32_t c = unit_at(file, at, big);
        if (c >= 0xD800 && c < 0xDC00 && at + 2 < file->length) {
            uint32_t low = unit_at(file, at + 2, big);
            if (low < 0xDC00 || low > 0xDFFF)
                return false;
            c = 0x10000 + ((c - 0xD800) << 10) + (low - 0xDC00);
            at += 2;
        }
        if (c == 0 || (c >= 0xD800 && c <= 0xDFFF))
            return false;
        add_character(&buf, c);
    }
    keep(file, &buf);
    return true;
}

/* 0x80 to 0x9F; 0: no character. Unicode, Inc.: "cp1252 to Unicode table", version 2.01 (1998). */
static const uint16_t windows[32] = {
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178,
};

static bool from_windows(struct arena *arena, struct file_text *file)
{
    struct buf buf;
    buf_init(&buf, arena);
    for (size_t i = 0; i < file->length; i++) {
        unsigned char byte = (unsigned char)file->text[i];
        uint32_t c = byte >= 0x80 && byte < 0xA0 ? windows[byte - 0x80] : byte;
        if (c == 0)
            return false;
        add_character(&buf, c);
    }
    keep(file, &buf);
    return true;
}

/* Whether every second byte of the beginning is zero, those at even places or those at odd ones. */
static bool has_zeros(const struct file_text *file, size_t first)
{
    if (file->length < 4)
        return false;
    for (size_t i = 0; i < 4; i += 2)
        if (file->text[i + first] != '\0' || file->text[i + 1 - first] == '\0')
            return false;
    return true;
}

const char *csv_decode(struct arena *arena, struct file_text *file)
{
    size_t bad;
    bool big = file->length >= 2 && memcmp(file->text, "\xFE\xFF", 2) == 0;
    bool little = file->length >= 2 && memcmp(file->text, "\xFF\xFE", 2) == 0;
    if (big || little || has_zeros(file, 0) || has_zeros(file, 1)) {
        bool greater_first = big || (!little && has_zeros(file, 0));
        return from_utf16(arena, file, greater_first, big || little ? 2 : 0) ? "UTF-16" : NULL;
    }
    if (memchr(file->text, '\0', file->length))
        return NULL;
    if (text_valid(file->text, file->length, &bad))
        return "UTF-8";
    return from_windows(arena, file) ? "Windows-1252" : NULL;
}

void csv_put_shown(struct buf *buf, const char *cell)
{
    struct buf plain;
    buf_init(&plain, buf->arena);
    if (cell[0] && strchr("=+-@\t\r", cell[0]))
        buf_add_char(&plain, '\'');
    while (*cell) {
        const char *from = cell;
        if (text_is_control(text_next(&cell)))
            buf_add_char(&plain, ' ');
        else
            buf_add_n(&plain, from, (size_t)(cell - from));
    }
    csv_put(buf, plain.text);
}
