#include "format/place.h"

#include "base/arena.h"
#include "format/given.h"
#include "base/text.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct entry {
    struct file_text file;
    text_locate *locate;
    const void *kept;
};

struct texts {
    struct arena *arena;
    struct entry *entries;
    size_t count, capacity;
    struct file_text *read; /* every file that was opened; text NULL: a mesh */
    size_t read_count, read_capacity;
};

struct place place_at(const char *text, size_t length, size_t offset)
{
    size_t end = offset < length ? offset : length, at = 0, begin = 0;
    struct place place = {1, 1};
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0)
        begin = at = 3;
    for (; at < end; at++) {
        bool ends = text[at] == '\n' || (text[at] == '\r' && !(at + 1 < length && text[at + 1] == '\n'));
        if (!ends)
            continue;
        begin = at + 1;
        place.line += place.line < INT_MAX;
    }
    size_t before = begin < end ? text_characters(text + begin, end - begin) : 0;
    place.column += before < INT_MAX - 1 ? (int)before : INT_MAX - 1;
    return place;
}

struct texts *texts_make(struct arena *arena)
{
    struct texts *texts = ARENA_NEW(arena, struct texts);
    texts->arena = arena;
    return texts;
}

static void remember(struct texts *texts, const char *path, struct file_text file)
{
    texts->read =
        arena_grow(texts->arena, texts->read, texts->read_count, &texts->read_capacity, sizeof *texts->read);
    file.name = arena_text(texts->arena, path);
    texts->read[texts->read_count++] = file;
}

/* Whether what a job names may only be what was given. */
static bool given_only(const struct reading *reading)
{
    return reading->given && reading->given->only;
}

bool reading_load(const struct reading *reading, const struct path_rule *rule, const char *path,
                  struct file_text *file, struct err *err)
{
    const struct file_text *given = given_find(reading->given, path);
    if (given) {
        *file = *given;
        file->name = path;
        return true;
    }
    if (rule && given_only(reading))
        return err_say_found(err, "a file that was given", "no such file");
    bool loaded = rule ? file_load_named(reading->arena, *rule, path, file, err)
                       : file_load(reading->arena, path, file, err);
    if (loaded)
        remember(reading->texts, path, *file);
    return loaded;
}

int reading_open(const struct reading *reading, struct path_rule rule, const char *path, struct err *err)
{
    struct file_id id;
    if (given_only(reading)) {
        err_fill(err, ERR_FILE, "no mesh, which only a file can hold", "one");
        return -1;
    }
    int fd = file_open_named(reading->arena, rule, path, &id, err);
    if (fd >= 0)
        remember(reading->texts, path, (struct file_text){.id = id});
    return fd;
}

static bool listed(const struct file_list *list, const char *path)
{
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->paths[i], path) == 0)
            return true;
    return false;
}

/* Those of both, by name. */
static void join(struct arena *arena, struct file_list *list, const struct file_list *more)
{
    const char **paths = ARENA_ARRAY(arena, list->count + more->count, const char *);
    size_t count = list->count;
    if (count)
        memcpy(paths, list->paths, count * sizeof *paths);
    for (size_t i = 0; i < more->count; i++)
        if (!listed(list, more->paths[i]))
            paths[count++] = more->paths[i];
    if (count > 1)
        qsort(paths, count, sizeof *paths, text_order);
    *list = (struct file_list){paths, count};
}

bool reading_list(const struct reading *reading, struct path_rule rule, const char *folder,
                  const char *ending, struct file_list *list, struct err *err)
{
    struct file_list there = {NULL, 0};
    given_list(reading->given, reading->arena, folder, ending, list);
    if (given_only(reading))
        return list->count > 0 || err_say_found(err, "a folder of which files were given", "no such folder");
    bool good = file_list(reading->arena, rule, folder, ending, &there, err);
    if (list->count == 0)
        *list = there;
    else if (good)
        join(reading->arena, list, &there);
    return good || list->count > 0;
}

bool reading_missing(const struct reading *reading, const char *path)
{
    return !given_find(reading->given, path) && (given_only(reading) || file_missing(path));
}

const struct file_text *texts_read(const struct texts *texts, size_t index)
{
    return index < texts->read_count ? &texts->read[index] : NULL;
}

bool texts_has_read(const struct texts *texts, const char *path)
{
    struct file_id id;
    if (!file_identify(path, &id))
        return false;
    for (size_t i = 0; i < texts->read_count; i++)
        if (texts->read[i].id.device == id.device && texts->read[i].id.inode == id.inode)
            return true;
    return false;
}

size_t reading_mistakes(const struct reading *reading)
{
    return reading->errors->count + reading->errors->dropped;
}

/* Newest first: a name read again is the later text. */
static const struct entry *find(const struct texts *texts, const char *name)
{
    for (size_t i = texts->count; i > 0; i--)
        if (strcmp(texts->entries[i - 1].file.name, name) == 0)
            return &texts->entries[i - 1];
    return NULL;
}

void texts_add(struct texts *texts, const struct file_text *file, text_locate *locate, const void *kept)
{
    texts->entries =
        arena_grow(texts->arena, texts->entries, texts->count, &texts->capacity, sizeof *texts->entries);
    texts->entries[texts->count++] = (struct entry){*file, locate, kept};
}

static void set_place(struct err *err, const struct file_text *file, size_t at)
{
    struct place place = place_at(file->text, file->length, at);
    err->line = place.line;
    err->column = place.column;
}

void texts_locate(const struct texts *texts, struct err_list *list)
{
    for (size_t i = 0; i < list->count; i++) {
        struct err *err = &list->items[i];
        const struct entry *entry = err->line ? NULL : find(texts, err->file);
        if (entry)
            set_place(err, &entry->file,
                      entry->locate(texts->arena, entry->kept, &entry->file, err->pointer));
    }
}

bool list_full(struct err_list *list)
{
    if (list->count < ERR_MOST)
        return false;
    list->dropped++;
    return true;
}

static size_t first_of_file(const struct err_list *list, const char *file)
{
    size_t i = 0;
    while (strcmp(list->items[i].file, file) != 0)
        i++;
    return i;
}

static bool stands_before(const struct err *a, const struct err *b)
{
    return a->line != b->line ? a->line < b->line : a->column < b->column;
}

/* By insertion: there are ERR_MOST at most, and equals keep their order. An entry moves only inside its file's group,
 * so that the files' own order stays what it was when the entry came. */
void texts_order(struct err_list *list)
{
    for (size_t i = 1; i < list->count; i++) {
        struct err err = list->items[i];
        size_t first = first_of_file(list, err.file), k = i;
        while (k > first &&
               (strcmp(list->items[k - 1].file, err.file) != 0 || stands_before(&err, &list->items[k - 1]))) {
            list->items[k] = list->items[k - 1];
            k--;
        }
        list->items[k] = err;
    }
}

struct err *text_wrong(struct err_list *list, const struct file_text *file, size_t at, const char *pointer,
                       const char *expected, const char *found)
{
    struct err *err = err_add(list, ERR_INPUT, file->name, pointer, expected, found);
    if (err)
        set_place(err, file, at);
    return err;
}

bool text_check(struct err_list *list, const struct file_text *file, const char *expected)
{
    size_t bad;
    char found[32];
    const char *nul = memchr(file->text, '\0', file->length);
    if (nul)
        bad = (size_t)(nul - file->text);
    else if (text_valid(file->text, file->length, &bad))
        return true;
    snprintf(found, sizeof found, "byte 0x%02x", (unsigned)(unsigned char)file->text[bad]);
    (void)text_wrong(list, file, bad, "", expected, found);
    return false;
}

void text_warn(struct err_list *list, const struct file_text *file, size_t at, const char *pointer,
               const char *sentence)
{
    struct err *err = err_add(list, ERR_WARNING, file->name, pointer, NULL, sentence);
    if (err)
        set_place(err, file, at);
}
