#include "format/path.h"

#include "base/arena.h"
#include "base/text.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { DEEPEST = 40, LINKS_MOST = 20 };

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

static bool outside(struct err *err, const char *found)
{
    return err_say_found(err, "a path inside the folder of this file (or --trust-paths)", found);
}

static const char *folder_of(struct arena *arena, struct path_rule rule)
{
    return path_folder(arena, strcmp(rule.from, "-") == 0 ? "" : rule.from);
}

bool path_resolve(struct arena *arena, struct path_rule rule, const char *named, const char **path,
                  struct err *err)
{
    if (!named[0])
        return err_say_found(err, "the name of a file", "an empty one");
    if (!rule.trusted && named[0] == '/')
        return outside(err, "an absolute one");
    if (!rule.trusted && climbs(named))
        return outside(err, "one that leaves it by \"..\"");
    const char *folder = folder_of(arena, rule);
    bool bare = named[0] == '/' || strcmp(folder, ".") == 0;
    *path = bare ? arena_text(arena, named)
                 : arena_textf(arena, "%s%s%s", folder, strcmp(folder, "/") == 0 ? "" : "/", named);
    return true;
}

struct text_short path_fault(const char *while_doing, int error)
{
    struct text_short fault;
    char words[sizeof fault.text];
    if (strerror_r(error, words, sizeof words) != 0)
        snprintf(words, sizeof words, "error %d", error);
    snprintf(fault.text, sizeof fault.text, "an error while %s (%.30s)", while_doing, words);
    return fault;
}

bool path_unreadable(struct err *err, bool folder, int error)
{
    struct text_short fault = path_fault("reading", error);
    const char *found = error == ENOENT || (error == ENOTDIR && !folder)
                            ? folder ? "no such folder" : "no such file"
                        : error == ENOTDIR ? "a file"
                        : error == EACCES  ? "no permission to read it"
                        : error == EISDIR  ? "a directory"
                        : error == ELOOP   ? "a link that leads to itself"
                        : error == ENXIO   ? "a pipe or a device"
                                           : fault.text;
    if (error == EXDEV)
        return outside(err, "one that leaves it by a link");
    return err_say_found(err, folder ? "a readable folder" : PATH_READABLE_FILE, found);
}

/* Folders opened one below the other, and what is left to walk: a link's target is put before the rest. */
struct walk {
    int folders[DEEPEST], depth, links;
    char rest[2 * PATH_MAX];
};

/* The next name of the way, "" at its end. */
static bool take_name(struct walk *walk, char name[NAME_MAX + 1])
{
    const char *at = walk->rest + strspn(walk->rest, "/");
    while (at[0] == '.' && (at[1] == '/' || at[1] == '\0'))
        at += 1 + strspn(at + 1, "/");
    size_t length = strcspn(at, "/");
    if (length > NAME_MAX) {
        errno = ENAMETOOLONG;
        return false;
    }
    memcpy(name, at, length);
    name[length] = '\0';
    at += length + strspn(at + length, "/");
    memmove(walk->rest, at, strlen(at) + 1);
    return true;
}

/* EXDEV is the sign of a way that leaves the first folder. */
static bool follow(struct walk *walk, const char *name)
{
    char target[2 * PATH_MAX];
    ssize_t length = readlinkat(walk->folders[walk->depth], name, target, PATH_MAX - 1);
    size_t rest = strlen(walk->rest) + 1;
    if (length < 0)
        return false;
    if (++walk->links > LINKS_MOST || target[0] == '/' || (size_t)length + 1 + rest > sizeof target) {
        errno = target[0] == '/' ? EXDEV : ELOOP;
        return false;
    }
    target[length] = '/';
    memcpy(target + length + 1, walk->rest, rest);
    memcpy(walk->rest, target, (size_t)length + 1 + rest);
    return true;
}

static bool leave(struct walk *walk)
{
    if (walk->depth == 0) {
        errno = EXDEV;
        return false;
    }
    (void)close(walk->folders[walk->depth--]);
    return true;
}

static bool enter(struct walk *walk, int folder)
{
    if (walk->depth + 1 == DEEPEST) {
        (void)close(folder);
        errno = ENAMETOOLONG;
        return false;
    }
    walk->folders[++walk->depth] = folder;
    return true;
}

/* To the end of the way; -1 with errno. Nothing is waited for: a pipe opens at once. */
static int walk_on(struct walk *walk)
{
    char name[NAME_MAX + 1];
    for (;;) {
        if (!take_name(walk, name))
            return -1;
        if (strcmp(name, "..") == 0) {
            if (!leave(walk))
                return -1;
            continue;
        }
        int fd = openat(walk->folders[walk->depth], name[0] ? name : ".",
                        O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
        if (fd < 0 && (errno != ELOOP || !follow(walk, name)))
            return -1;
        if (fd >= 0 && !walk->rest[0])
            return fd;
        if (fd >= 0 && !enter(walk, fd))
            return -1;
    }
}

static int open_beneath(const char *folder, const char *path)
{
    struct walk walk = {.depth = 0};
    size_t length = strlen(path);
    int found = -1;
    if (length >= sizeof walk.rest) {
        errno = ENAMETOOLONG;
        return -1;
    }
    memcpy(walk.rest, path, length + 1);
    walk.folders[0] = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (walk.folders[0] < 0)
        return -1;
    found = walk_on(&walk);
    int error = errno;
    while (walk.depth >= 0)
        (void)close(walk.folders[walk.depth--]);
    errno = error;
    return found;
}

/* The part of a path below a folder; NULL: it does not begin there. */
static const char *below(const char *folder, const char *path)
{
    size_t length = strlen(folder);
    if (strcmp(folder, ".") == 0)
        return path[0] == '/' ? NULL : path;
    if (strncmp(path, folder, length) != 0)
        return NULL;
    return path[length] == '/' ? path + length + 1 : folder[length - 1] == '/' ? path + length : NULL;
}

int path_open(struct arena *arena, struct path_rule rule, const char *path, bool folder, struct err *err)
{
    const char *home = folder_of(arena, rule), *rest = below(home, path);
    if (!rest) {
        home = path_folder(arena, path);
        rest = path_last(path);
    }
    int fd =
        rule.trusted ? open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC) : open_beneath(home, rest);
    if (fd < 0)
        (void)path_unreadable(err, folder, errno);
    return fd;
}
