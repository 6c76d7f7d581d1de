#include "format/path.h"

#include "base/arena.h"
#include "base/text.h"

#include <stdlib.h>
#include <string.h>

const char *path_last(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

char *path_folder(struct arena *arena, const char *path)
{
    const char *last = path_last(path);
    if (last == path)
        return arena_text(arena, ".");
    size_t length = (size_t)(last - path);
    while (length > 1 && path[length - 1] == '/')
        length--;
    return arena_text_n(arena, path, length);
}

bool path_ends(const char *path, const char *ending)
{
    size_t length = strlen(path), tail = strlen(ending);
    return length > tail && text_same(path + length - tail, ending);
}

/* Whether some step of a relative path stands above its beginning. */
static bool climbs(const char *path)
{
    int depth = 0;
    while (*path) {
        size_t length = strcspn(path, "/");
        if (length == 2 && memcmp(path, "..", 2) == 0)
            depth--;
        else if (length > 0 && !(length == 1 && path[0] == '.'))
            depth++;
        if (depth < 0)
            return true;
        path += length + (path[length] == '/');
    }
    return false;
}

/* Whether both are there and links lead from the folder out of it. Nothing is taken from an arena in here, since the
 * system's names have to be freed. */
static bool leaves_by_link(const char *folder, const char *path)
{
    char *inside = realpath(folder, NULL), *real = realpath(path, NULL);
    bool leaves = false;
    if (inside && real) {
        size_t length = strlen(inside);
        while (length > 0 && inside[length - 1] == '/')
            length--;
        leaves = strncmp(inside, real, length) != 0 || (real[length] != '/' && real[length] != '\0');
    }
    free(inside);
    free(real);
    return leaves;
}

static bool outside(struct err *fault, const char *found)
{
    return err_say_found(fault, "a path inside the folder of this file (or --trust-paths)", found);
}

bool path_resolve(struct arena *arena, struct path_rule rule, const char *named, const char **path,
                  struct err *fault)
{
    if (!named[0])
        return err_say_found(fault, "the name of a file", "an empty one");
    if (!rule.trusted && named[0] == '/')
        return outside(fault, "an absolute one");
    if (!rule.trusted && climbs(named))
        return outside(fault, "one that leaves it by \"..\"");
    char *folder = path_folder(arena, strcmp(rule.from, "-") == 0 ? "" : rule.from);
    bool bare = named[0] == '/' || strcmp(folder, ".") == 0;
    *path = bare ? arena_text(arena, named)
                 : arena_textf(arena, "%s%s%s", folder, strcmp(folder, "/") == 0 ? "" : "/", named);
    if (!rule.trusted && leaves_by_link(folder, *path))
        return outside(fault, "one that leaves it by a link");
    return true;
}
