#include "format/locate.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"
#include "format/csv.h"

#include <string.h>

/* Index of the column of that name; csv->count where there is none. */
static size_t column_find(const struct csv *csv, struct buf *scratch, const char *name)
{
    for (size_t i = 0; i < csv->count; i++) {
        csv_text(&csv->cells[i], scratch);
        size_t length;
        const char *trimmed = text_trim(scratch->text, &length);
        if (text_same_n(trimmed, length, name))
            return i;
    }
    return csv->count;
}

/* The number in front of the next slash; false where it is none. */
static bool take_row(const char **pointer, size_t *row)
{
    if (**pointer != '/' || (*pointer)[1] < '0' || (*pointer)[1] > '9')
        return false;
    *row = 0;
    for (++*pointer; **pointer >= '0' && **pointer <= '9' && *row < SIZE_MAX / 20; ++*pointer)
        *row = *row * 10 + (size_t)(**pointer - '0');
    return **pointer == '/' || **pointer == '\0';
}

size_t locate_csv(struct arena *arena, const char *text, size_t length, const char *pointer)
{
    struct csv csv;
    struct buf scratch;
    size_t row;
    csv_init(&csv, arena, text, length);
    buf_init(&scratch, arena);
    if (!csv_next(&csv))
        return csv.next;
    size_t header = csv.cells[0].at;
    if (!take_row(&pointer, &row))
        return header;
    size_t column = *pointer == '/' ? column_find(&csv, &scratch, pointer + 1) : 0;
    for (size_t i = 0; i <= row; i++)
        if (!csv_next(&csv))
            return header;
    return csv.cells[column < csv.count ? column : 0].at;
}
