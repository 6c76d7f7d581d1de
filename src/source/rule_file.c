#include "source/rule_file.h"

#include "base/arena.h"
#include "base/err.h"

#include <unistd.h>

/* Where the file stands; NULL: nowhere, or (told) not to be read. */
static const char *path_of(const struct reading *reading, const struct finish_folders *folders, bool own,
                           const char *name)
{
    struct arena *arena = reading->arena;
    const char *folder = own ? folders->own : folders->shipped, *same;
    const char *path = folder ? arena_textf(arena, "%s/rules/%s", folder, name) : NULL;
    struct err fault;
    if (!path || access(path, F_OK) != 0)
        return NULL;
    struct path_rule rule = {arena_textf(arena, "%s/rules", folder), folders->rule.trusted};
    if (!own || path_resolve(arena, rule, arena_textf(arena, "rules/%s", name), &same, &fault))
        return path;
    err_add(reading->errors, ERR_INPUT, path, "", fault.expected, fault.found);
    return NULL;
}

bool rule_file_open(const struct reading *reading, const struct finish_folders *folders, bool own,
                    struct rule_file file, struct json_at *list)
{
    const char *keys[] = {"format", file.list}, *path = path_of(reading, folders, own, file.name);
    struct json_at root;
    int format;
    if (!path)
        return false;
    if (!json_load(reading, path, &root) || !json_object(root, "a file of rules", keys, 2))
        return false;
    json_choice(json_member(root, "format"), &file.format, 1, &format);
    *list = json_member(root, file.list);
    return json_list(*list, "a list of rules");
}
