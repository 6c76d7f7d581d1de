#include "format/sheet.h"

#include "base/arena.h"
#include "format/sheet_parts.h"

#include <string.h>

bool sheet_is(const char *path)
{
    return path_ends(path, ".xlsx") || path_ends(path, ".ods");
}

const char *sheet_path(struct arena *arena, const char *named, const char **name)
{
    *name = NULL;
    for (const char *at = strchr(named, '#'); at; at = strchr(at + 1, '#')) {
        const char *path = arena_text_n(arena, named, (size_t)(at - named));
        if (sheet_is(path)) {
            *name = at + 1;
            return path;
        }
    }
    return named;
}

bool sheet_read(struct arena *arena, const struct file_text *file, const char *name, struct file_text *text,
                struct err *err)
{
    struct buf *out = ARENA_NEW(arena, struct buf);
    struct sheet_rows rows = {out, 0, 0, 0};
    buf_init(out, arena);
    struct sheet_archive *archive = sheet_open(arena, file, err);
    if (!archive)
        return false;
    bool good = path_ends(file->name, ".ods") ? sheet_read_ods(archive, name, &rows, err)
                                              : sheet_read_xlsx(archive, name, &rows, err);
    sheet_close(archive);
    buf_add_char(out, '\n');
    *text = *file;
    text->text = out->text;
    text->length = out->length;
    return good;
}
