#include "format/given.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/path.h"

#include <stdlib.h>
#include <string.h>

/* "./a.csv" is "a.csv". */
static const char *plain(const char *path)
{
    while (path[0] == '.' && path[1] == '/')
        path += 2;
    return path;
}

static struct file_text *find(const struct given_files *given, const char *path)
{
    for (size_t i = 0; given && i < given->count; i++)
        if (strcmp(plain(given->items[i].name), plain(path)) == 0)
            return &given->items[i];
    return NULL;
}

void given_add(struct given_files *given, struct arena *arena, const char *name, const char *text,
               size_t length)
{
    struct file_text *file = find(given, name);
    if (!file) {
        given->items = arena_grow(arena, given->items, given->count, &given->capacity, sizeof *given->items);
        file = &given->items[given->count++];
        file->name = arena_text(arena, name);
    }
    file->text = arena_text_n(arena, text, length);
    file->length = length;
}

const struct file_text *given_find(const struct given_files *given, const char *path)
{
    return find(given, path);
}

static bool lies_in(const char *path, const char *folder, const char *ending)
{
    size_t length = strlen(folder);
    return strncmp(path, folder, length) == 0 && path[length] == '/' && path[length + 1] != '.' &&
           !strchr(path + length + 1, '/') && path_ends(path, ending);
}

void given_list(const struct given_files *given, struct arena *arena, const char *folder, const char *ending,
                struct file_list *list)
{
    size_t capacity = 0;
    *list = (struct file_list){NULL, 0};
    for (size_t i = 0; given && i < given->count; i++) {
        const char *name = plain(given->items[i].name);
        if (!lies_in(name, plain(folder), ending))
            continue;
        list->paths = arena_grow(arena, list->paths, list->count, &capacity, sizeof *list->paths);
        list->paths[list->count++] = name;
    }
    if (list->count > 1)
        qsort(list->paths, list->count, sizeof *list->paths, text_order);
}
