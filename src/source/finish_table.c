#include "source/finish_table.h"

#include "base/arena.h"

#include <stdlib.h>
#include <string.h>

struct filling {
    const struct reading *reading;
    struct finish_table *table;
    size_t capacity, failed_capacity;
};

/* Where an id stands, or belongs. */
static size_t position(const struct finish_table *table, const char *id, bool *found)
{
    size_t low = 0, high = table->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(table->items[middle]->id, id) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    *found = low < table->count && strcmp(table->items[low]->id, id) == 0;
    return low;
}

static void insert(struct filling *filling, size_t at, const struct finish *finish)
{
    struct finish_table *table = filling->table;
    table->items =
        arena_grow(filling->reading->arena, table->items, table->count, &filling->capacity, sizeof(void *));
    memmove(table->items + at + 1, table->items + at, (table->count - at) * sizeof(void *));
    table->items[at] = finish;
    table->count++;
}

static void tell_twice(const struct filling *filling, const struct finish *finish, const char *first)
{
    err_addf(filling->reading->errors, ERR_INPUT, finish->file, "/finish",
             "an id that no other finish here has", "\"%s\", as in %s", finish->id, first);
    texts_locate(filling->reading->texts, filling->reading->errors);
}

static void add(struct filling *filling, const struct finish *finish)
{
    bool found;
    size_t at = position(filling->table, finish->id, &found);
    const struct finish *other = found ? filling->table->items[at] : NULL;
    if (!other)
        insert(filling, at, finish);
    else if (other->shipped == finish->shipped)
        tell_twice(filling, finish, other->file);
    else
        filling->table->items[at] = finish;
}

static void fail(struct filling *filling, const char *id)
{
    struct finish_table *table = filling->table;
    table->failed = arena_grow(filling->reading->arena, table->failed, table->failed_count,
                               &filling->failed_capacity, sizeof *table->failed);
    table->failed[table->failed_count++] = id;
}

static void read_one(struct filling *filling, struct finish_source_file from)
{
    const char *id;
    const struct finish *finish = finish_read(filling->reading, from, &id);
    if (finish)
        add(filling, finish);
    else
        fail(filling, id);
}

/* The files of the shop's own folder may be links, as far as those do not lead out of it. */
static void read_folder(struct filling *filling, const struct finish_folders *folders, const char *folder)
{
    struct file_list list;
    struct err err;
    bool shipped = folder == folders->shipped;
    struct path_rule any = {folder, true};
    if (!(shipped ? file_list(filling->reading->arena, any, folder, ".json", &list, &err)
                  : reading_list(filling->reading, any, folder, ".json", &list, &err))) {
        err_add(filling->reading->errors, ERR_FILE, folder, "", err.expected, err.found);
        return;
    }
    for (size_t i = 0; i < list.count; i++) {
        struct path_rule rule = {list.paths[i], folders->rule.trusted};
        read_one(filling, (struct finish_source_file){list.paths[i], shipped ? NULL : &rule, shipped,
                                                      folders->currency_digits});
    }
}

struct finish_table *finish_table_load(const struct reading *reading, const struct finish_folders *folders)
{
    struct filling filling = {reading, ARENA_NEW(reading->arena, struct finish_table), 0, 0};
    if (folders->shipped)
        read_folder(&filling, folders, folders->shipped);
    if (folders->own)
        read_folder(&filling, folders, folders->own);
    return filling.table;
}

const struct finish *finish_table_find(const struct finish_table *table, const char *id)
{
    bool found;
    size_t at = position(table, id, &found);
    return found ? table->items[at] : NULL;
}

bool finish_table_failed(const struct finish_table *table, const char *id)
{
    for (size_t i = 0; i < table->failed_count; i++)
        if (strcmp(table->failed[i], id) == 0)
            return true;
    return false;
}

const char **finish_table_ids(struct arena *arena, const struct finish_table *table)
{
    const char **ids = ARENA_ARRAY(arena, table->count, const char *);
    for (size_t i = 0; i < table->count; i++)
        ids[i] = table->items[i]->id;
    return ids;
}
