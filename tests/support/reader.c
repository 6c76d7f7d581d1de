#include "reader.h"

#include "base/buf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct reader *reader_make(void)
{
    struct arena *arena = arena_make(0);
    assert_non_null(arena);
    struct reader *reader = ARENA_NEW(arena, struct reader);
    reader->arena = arena;
    reader->reading = (struct reading){arena, texts_make(arena), &reader->errors, &reader->warnings, NULL};
    return reader;
}

void reader_free(struct reader *reader)
{
    arena_free(reader->arena);
}

const char *reader_lines(struct reader *reader, const struct err_list *list)
{
    struct buf buf;
    buf_init(&buf, reader->arena);
    for (size_t i = 0; i < list->count; i++) {
        char line[ERR_LINE_SIZE];
        err_format(&list->items[i], line, sizeof line);
        buf_addf(&buf, "%s%s", i ? "\n" : "", line);
    }
    return buf.text;
}

struct file_text reader_file(const char *name, const char *text)
{
    return (struct file_text){.name = name, .text = text, .length = strlen(text)};
}

const char *reader_swap(struct reader *reader, const char *text, const char *find, const char *put)
{
    const char *at = strstr(text, find);
    assert_non_null(at);
    assert_null(strstr(at + 1, find));
    return arena_textf(reader->arena, "%.*s%s%s", (int)(at - text), text, put, at + strlen(find));
}

void reader_check_only(struct reader *reader, const struct row *row, const char *text, const char *at,
                       const char *want)
{
    struct err err = reader->errors.items[0];
    const char *place = strstr(text, at), *begin = place;
    int line = 1;
    if (reader->errors.count != 1)
        check_text(row, reader_lines(reader, &reader->errors), want);
    check_true(row, place && !strstr(place + 1, at), "the place stands once in the text");
    for (const char *c = text; c < place; c++)
        line += *c == '\n';
    while (begin > text && begin[-1] != '\n')
        begin--;
    check_int(row, err.line, line);
    check_int(row, err.column, (intmax_t)(place - begin) + 1);
    err.file[0] = '\0';
    err.line = 0;
    char got[ERR_LINE_SIZE];
    err_format(&err, got, sizeof got);
    check_text(row, got, want);
}

const char *reader_path(struct reader *reader, const char *name, const char *text)
{
    const char *path = arena_textf(reader->arena, "%s/%s", check_folder(), name);
    if (!text)
        return path;
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, strlen(text), file), strlen(text));
    assert_int_equal(fclose(file), 0);
    return path;
}
