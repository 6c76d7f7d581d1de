#include "source/named.h"

#include "base/arena.h"

bool named_path(struct json_at at, struct path_rule rule, const char **path)
{
    struct arena *arena = at.doc->reading->arena;
    struct err fault;
    const char *named;
    if (!json_text(at, "the name of a file", &named))
        return false;
    if (path_resolve(arena, rule, named, path, &fault))
        return true;
    return json_refuse_found(at, fault.expected, arena_textf(arena, "%s (%s)", json_found(at), fault.found));
}

bool named_load(struct json_at at, struct path_rule rule, struct file_text *file)
{
    struct err fault;
    const char *path;
    if (!named_path(at, rule, &path))
        return false;
    return file_load(at.doc->reading->arena, path, file, &fault) || json_refuse_file(at, &fault);
}
