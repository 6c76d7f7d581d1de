#include "source/rows.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/json_tree.h"
#include "format/words.h"

#include <string.h>

bool rows_has(const struct rows *rows, size_t column)
{
    return !rows->is_csv || heading_of(&rows->heading, column);
}

/* Index of a column by its name in a JSON list; columns->count: none. */
static size_t column_find(const struct rows *rows, const char *name)
{
    size_t i = 0;
    while (i < rows->columns->count && strcmp(name, rows->columns->names[i]) != 0)
        i++;
    return i;
}

/* Keeps a cell's text without the blanks around it, line ends and tabs inside made blanks. False: another control
 * character stands in it, which the caller tells. */
bool rows_put(struct rows *rows, size_t column, const char *text)
{
    size_t length;
    bool good = true;
    const char *at = text_trim(text, &length), *end = at + length;
    if (length == 0)
        return true;
    rows->begins[column] = rows->text.length + 1;
    while (at < end) {
        const char *from = at;
        uint32_t c = text_next(&at);
        bool blank = c == '\n' || c == '\r' || c == '\t';
        good &= blank || !text_is_control(c);
        buf_add_n(&rows->text, blank ? " " : from, blank ? 1 : (size_t)(at - from));
    }
    buf_add_char(&rows->text, '\0');
    return good;
}

static struct arena *arena_of(const struct rows *rows)
{
    return rows->reading->arena;
}

bool rows_wrong(struct rows *rows, size_t at, const char *pointer, const char *expected, const char *found)
{
    (void)text_wrong(rows->reading->errors, &rows->file, at, pointer, expected, found);
    return false;
}

/* "/3", or "/3/thickness". */
const char *rows_pointer(const struct rows *rows, const char *column)
{
    struct buf buf;
    buf_init(&buf, arena_of(rows));
    json_pointer_add_index(&buf, rows->row);
    if (column)
        json_pointer_add(&buf, column);
    return buf.text;
}

bool rows_refuse_csv(struct rows *rows, size_t column, const char *expected, const char *found)
{
    return rows_wrong(rows, rows->cell_at[column], rows_pointer(rows, rows->columns->names[column]), expected,
                      found);
}

static void warn_csv(struct rows *rows, size_t column, const char *sentence)
{
    text_warn(rows->reading->warnings, &rows->file, rows->cell_at[column],
              rows_pointer(rows, rows->columns->names[column]), sentence);
}

void rows_show_cells(struct rows *rows)
{
    for (size_t i = 0; i < rows->columns->count; i++)
        rows->cells[i] = rows->begins[i] ? rows->text.text + rows->begins[i] - 1 : NULL;
}

/* What was read otherwise than it stands there: a warning, or a mistake where the job is strict. */
void rows_note(struct rows *rows, size_t at, const char *sentence)
{
    if (rows->strict)
        rows_wrong(rows, at, "", "a list that is read as it stands, for the job is \"strict\"", sentence);
    else
        text_warn(rows->reading->warnings, &rows->file, at, "", sentence);
}

bool rows_open_json(struct rows *rows, struct json_at list, const struct rows_columns *columns)
{
    struct arena *arena = list.doc->reading->arena;
    *rows = (struct rows){.reading = list.doc->reading, .columns = columns, .list = list};
    if (!json_list(list, arena_textf(arena, "%s as a list", columns->what)))
        return false;
    rows->cells = ARENA_ARRAY(arena, columns->count, const char *);
    rows->begins = ARENA_ARRAY(arena, columns->count, size_t);
    buf_init(&rows->text, arena);
    return true;
}

static const char *cell_wanted(struct json_at member, bool numeric)
{
    if (json_is_list(member))
        return "text in quotes, as in a cell of a list, with spaces between what belongs together";
    return numeric ? "text in quotes, or a number below 1e15" : "text in quotes";
}

static bool put_member(struct rows *rows, struct json_at member)
{
    struct text_short number;
    const char *text;
    size_t column = column_find(rows, json_name(member));
    if (column == rows->columns->count)
        return true;
    bool numeric = (rows->columns->numbers >> column) & 1;
    if (!json_cell(member, &text, &number) || (!numeric && !json_is_text(member)))
        return json_refuse(member, cell_wanted(member, numeric));
    return rows_put(rows, column, text) || json_refuse(member, "text without control characters");
}

static bool next_json(struct rows *rows)
{
    const struct rows_columns *columns = rows->columns;
    for (;; rows->row++) {
        rows->item = rows->row == 0 ? json_first(rows->list) : json_next(rows->item);
        if (!rows->item.node)
            return false;
        if (!json_object(rows->item, columns->row, columns->names, columns->count)) {
            rows->incomplete = true;
            continue;
        }
        for (struct json_at member = json_first(rows->item); member.node; member = json_next(member))
            put_member(rows, member);
        return true;
    }
}

bool rows_next(struct rows *rows)
{
    rows->row += rows->begun;
    rows->begun = true;
    if (rows->is_csv)
        return rows_next_csv(rows);
    rows->text.length = 0;
    memset(rows->begins, 0, rows->columns->count * sizeof *rows->begins);
    if (!next_json(rows))
        return false;
    rows_show_cells(rows);
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
        warn_csv(rows, column, sentence);
    else
        json_warn(member(rows, column), "%s", sentence);
}

void rows_note_value(struct rows *rows, size_t column, const char *means)
{
    struct arena *arena = rows->reading->arena;
    const char *told = arena_textf(arena, "%s as %s", words_quote(arena, rows->cells[column]), means);
    if (!rows->is_csv) {
        json_warn(member(rows, column), "read %s", told);
        return;
    }
    if (strstr(rows->values.text, told))
        return;
    if (rows->values.length == 0)
        rows->values_at = rows->cell_at[column];
    buf_addf(&rows->values, "%s%s", rows->values.length ? ", " : "", told);
}

bool rows_refuse_list(struct rows *rows, const char *expected, const char *found)
{
    if (!rows->is_csv)
        return json_refuse_found(rows->list, expected, found);
    (void)text_wrong(rows->reading->errors, &rows->file, rows->heading.at, "", expected, found);
    return false;
}
