#include "reader.h"

#include "base/buf.h"
#include "check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct reader *reader_make(void)
{
    struct arena *arena = arena_make(0);
    assert_non_null(arena);
    struct reader *reader = ARENA_NEW(arena, struct reader);
    reader->arena = arena;
    reader->reading = (struct reading){arena, texts_make(arena), &reader->errors, &reader->warnings};
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
    return (struct file_text){name, text, strlen(text)};
}

const char *reader_path(struct reader *reader, const char *name, const char *text)
{
    const char *folder = getenv("TEST_TMP");
    const char *path = arena_textf(reader->arena, "%s/%s", folder ? folder : ".", name);
    if (!text)
        return path;
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, strlen(text), file), strlen(text));
    assert_int_equal(fclose(file), 0);
    return path;
}
