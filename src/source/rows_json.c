#include "source/rows.h"

#include "base/arena.h"

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

static bool put_member(struct rows *rows, struct json_at member)
{
    struct text_short number;
    const char *text;
    size_t column = rows_column(rows, json_name(member));
    if (column == rows->columns->count)
        return true;
    bool numeric = (rows->columns->numbers >> column) & 1;
    if (!json_cell(member, &text, &number) || (!numeric && !json_is_text(member)))
        return json_refuse(member, numeric ? "text, or a number" : "text");
    return rows_put(rows, column, text) || json_refuse(member, "text without control characters");
}

bool rows_next_json(struct rows *rows)
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
