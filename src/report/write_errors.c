#include "report/write_errors.h"

static void write_place(struct json_write *w, const struct err *err)
{
    json_put_text(w, "file", err->file);
    json_put_whole(w, "line", err->line);
    json_put_whole(w, "column", err->column);
    json_put_text(w, "pointer", err->pointer);
}

void write_errors(struct json_write *w, const struct err_list *errors)
{
    json_open(w, NULL, '{');
    json_open(w, "errors", '[');
    for (size_t i = 0; i < errors->count; i++) {
        json_open_row(w, NULL, '{');
        write_place(w, &errors->items[i]);
        json_put_text(w, "found", errors->items[i].found);
        json_put_text(w, "expected", errors->items[i].expected);
        json_close(w);
    }
    json_close(w);
    json_close(w);
}

void write_check(struct json_write *w, const struct err_list *warnings)
{
    json_open(w, NULL, '{');
    json_open(w, "errors", '[');
    json_close(w);
    json_open(w, "warnings", '[');
    for (size_t i = 0; i < warnings->count; i++) {
        json_open_row(w, NULL, '{');
        write_place(w, &warnings->items[i]);
        json_put_text(w, "message", warnings->items[i].found);
        json_close(w);
    }
    json_close(w);
    json_close(w);
}
