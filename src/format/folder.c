#include "format/folder.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/path.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

static void close_folder(void *folder)
{
    (void)closedir(folder);
}

static void list(struct arena *arena, DIR *open, const char *folder, const char *ending,
                 struct folder_names *names)
{
    size_t capacity = 0;
    for (const struct dirent *entry; (entry = readdir(open));) {
        if (entry->d_name[0] == '.' || !path_ends(entry->d_name, ending))
            continue;
        names->paths = arena_grow(arena, names->paths, names->count, &capacity, sizeof *names->paths);
        names->paths[names->count++] = arena_textf(arena, "%s/%s", folder, entry->d_name);
    }
    if (names->count > 1)
        qsort(names->paths, names->count, sizeof *names->paths, text_order);
}

bool folder_list(struct arena *arena, const char *folder, const char *ending, struct folder_names *names,
                 struct err *fault)
{
    *names = (struct folder_names){NULL, 0};
    DIR *open = opendir(folder);
    if (!open)
        return err_say_found(fault, "a readable folder",
                             errno == ENOTDIR  ? "a file"
                             : errno == EACCES ? "no permission to read it"
                                               : "no such folder");
    arena_own(arena, open, close_folder);
    list(arena, open, folder, ending, names);
    arena_disown(arena, open);
    close_folder(open);
    return true;
}
