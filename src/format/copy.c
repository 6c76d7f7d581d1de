/* A new folder of files, whole or not at all. */
#include "format/save.h"

#include "base/arena.h"
#include "format/path.h"

#include <errno.h>
#include <ftw.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum { FOLDERS_OPEN = 16 };

static int drop(const char *path, const struct stat *about, int kind, struct FTW *at)
{
    (void)about;
    (void)kind;
    (void)at;
    (void)remove(path);
    return 0;
}

/* No link is followed. */
static void drop_all(const char *folder)
{
    (void)nftw(folder, drop, FOLDERS_OPEN, FTW_DEPTH | FTW_PHYS);
}

static bool refuse(struct err *err, const char *folder, int error)
{
    struct text_short fault = path_fault("writing", error);
    const char *found = error == ENOTEMPTY || error == EEXIST ? "one that holds something"
                        : error == ENOTDIR                    ? "a file"
                        : error == ENOENT                     ? "no such folder"
                        : error == EACCES || error == EPERM   ? "no permission to write there"
                        : error == ENOSPC || error == EDQUOT  ? "no space left on the disk"
                                                              : fault.text;
    err_fill(err, ERR_FILE, "a folder that is new or empty, in one that can be written", found);
    snprintf(err->file, sizeof err->file, "%s", folder);
    return false;
}

/* Every folder that a name leads through. */
static bool make_between(struct arena *arena, const char *folder, const char *name)
{
    for (const char *slash = strchr(name, '/'); slash; slash = strchr(slash + 1, '/')) {
        const char *between = arena_textf(arena, "%s/%.*s", folder, (int)(slash - name), name);
        if (mkdir(between, 0777) != 0 && errno != EEXIST)
            return false;
    }
    return true;
}

static bool put(struct arena *arena, const char *folder, const struct copy_file *file, struct err *err)
{
    if (!make_between(arena, folder, file->name))
        return refuse(err, folder, errno);
    const char *path = arena_textf(arena, "%s/%s", folder, file->name);
    struct saving *saving = saving_begin(arena, path_folder(arena, path), false, err);
    if (!saving)
        return false;
    saving_add(saving, path_last(path), file->text, file->length);
    bool good = saving_commit(saving, err);
    saving_end(saving);
    return good;
}

static const char *without_slashes(struct arena *arena, const char *folder)
{
    size_t length = strlen(folder);
    while (length > 1 && folder[length - 1] == '/')
        length--;
    return arena_text_n(arena, folder, length);
}

bool copy_make(struct arena *arena, const char *folder, const struct copy_file *files, size_t count,
               struct err *err)
{
    const char *place = without_slashes(arena, folder);
    const char *fresh = arena_textf(arena, "%s/.%s.new", path_folder(arena, place), path_last(place));
    drop_all(fresh);
    bool good = mkdir(fresh, 0777) == 0 || refuse(err, folder, errno);
    for (size_t i = 0; i < count && good; i++) {
        good = put(arena, fresh, &files[i], err);
        if (!good)
            snprintf(err->file, sizeof err->file, "%s/%s", place, files[i].name);
    }
    if (good && rename(fresh, place) != 0)
        good = refuse(err, folder, errno);
    if (!good)
        drop_all(fresh);
    return good;
}
