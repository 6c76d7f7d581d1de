#include "source/rows.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/words.h"

#include <string.h>

bool rows_has(const struct rows *rows, size_t column)
{
    for (size_t i = 0; i < rows->width; i++)
        if (rows->column_of[i] == column)
            return true;
    return !rows->is_csv;
}

size_t rows_column(const struct rows *rows, const char *name)
{
    size_t i = 0;
    const struct rows_columns *columns = rows->columns;
    while (i < columns->count &&
           !(rows->is_csv ? text_same(name, columns->names[i]) : strcmp(name, columns->names[i]) == 0))
        i++;
    return i;
}

/* Whether a C1 control character begins here, as UTF-8. */
static bool is_c1(const char *at)
{
    return (unsigned char)at[0] == 0xC2 && (unsigned char)at[1] >= 0x80 && (unsigned char)at[1] < 0xA0;
}

bool rows_put(struct rows *rows, size_t column, const char *text)
{
    size_t length;
    bool good = true;
    const char *at = text_trim(text, &length), *end = at + length;
    if (length == 0)
        return true;
    rows->begins[column] = rows->text.length + 1;
    for (; at < end; at++) {
        bool blank = *at == '\n' || *at == '\r' || *at == '\t';
        good &= blank || !((unsigned char)*at < 0x20 || *at == 0x7F || is_c1(at));
        buf_add_char(&rows->text, blank ? ' ' : *at);
    }
    buf_add_char(&rows->text, '\0');
    return good;
}

bool rows_next(struct rows *rows)
{
    const size_t count = rows->columns->count;
    rows->row += rows->begun;
    rows->begun = true;
    rows->text.length = 0;
    memset(rows->begins, 0, count * sizeof *rows->begins);
    if (!(rows->is_csv ? rows_next_csv(rows) : rows_next_json(rows)))
        return false;
    for (size_t i = 0; i < count; i++)
        rows->cells[i] = rows->begins[i] ? rows->text.text + rows->begins[i] - 1 : NULL;
    return true;
}

static struct json_at member(const struct rows *rows, size_t column)
{
    return json_member(rows->item, rows->columns->names[column]);
}

bool rows_refuse_found(struct rows *rows, size_t column, const char *expected, const char *found)
{
    if (rows->is_csv && list_full(rows->reading->errors))
        return false;
    return rows->is_csv ? rows_refuse_csv(rows, column, expected, found)
                        : json_refuse_found(member(rows, column), expected, found);
}

bool rows_refuse(struct rows *rows, size_t column, const char *expected)
{
    const char *cell = rows->cells[column];
    if (!rows->is_csv)
        return json_refuse(member(rows, column), expected);
    if (list_full(rows->reading->errors))
        return false;
    return rows_refuse_csv(rows, column, expected,
                           cell ? words_quote(rows->reading->arena, cell) : "nothing");
}

bool rows_refuse_name(struct rows *rows, size_t column, const char *expected, const char *const *names,
                      size_t count)
{
    if (rows->reading->errors->count == ERR_MOST)
        return rows_refuse_found(rows, column, expected, "");
    const char *found = words_found(rows->reading->arena, rows->cells[column], names, count);
    return rows_refuse_found(rows, column, expected, found);
}

void rows_warn(struct rows *rows, size_t column, const char *sentence)
{
    if (rows->is_csv && list_full(rows->reading->warnings))
        return;
    if (rows->is_csv)
        rows_warn_csv(rows, column, sentence);
    else
        json_warn(member(rows, column), "%s", sentence);
}

bool rows_refuse_list(struct rows *rows, const char *expected, const char *found)
{
    if (!rows->is_csv)
        return json_refuse_found(rows->list, expected, found);
    (void)text_wrong(rows->reading->errors, &rows->file, rows->header_at, "", expected, found);
    return false;
}
