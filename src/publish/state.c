#include "publish/publish.h"

#include "base/arena.h"
#include "format/place.h"
#include "format/json.h"
#include "format/json_write.h"

#include <string.h>

static const char *const keys[] = {"format", "collection", "resources"};
static const char *const row_keys[] = {"uid", "href", "etag", "hash", "faces"};
static const char format_name[] = "coatwright-published/1";

/* Text that may be empty. */
static void read_text(struct json_at at, const char **value)
{
    *value = "";
    if (strcmp(json_found(at), "\"\"") != 0)
        json_text(at, "text", value);
}

static void read_mark(const struct reading *reading, struct json_at row, struct publish_state *state)
{
    struct publish_mark mark;
    if (!json_object(row, "a resource", row_keys, sizeof row_keys / sizeof row_keys[0]))
        return;
    read_text(json_member(row, "uid"), &mark.uid);
    read_text(json_member(row, "href"), &mark.href);
    read_text(json_member(row, "etag"), &mark.etag);
    read_text(json_member(row, "hash"), &mark.hash);
    mark.faces = "";
    if (json_has(row, "faces"))
        read_text(json_member(row, "faces"), &mark.faces);
    state->marks =
        arena_grow(reading->arena, state->marks, state->count, &state->capacity, sizeof *state->marks);
    state->marks[state->count++] = mark;
}

bool publish_state_load(const struct reading *reading, const char *path, struct publish_state *state)
{
    struct json_at root;
    const char *format = "";
    size_t before = reading_mistakes(reading);
    *state = (struct publish_state){.collection = ""};
    if (file_missing(path))
        return true;
    if (!json_load(reading, NULL, path, &root) || !json_object(root, "what was published", keys, 3))
        return false;
    if (json_text(json_member(root, "format"), "\"coatwright-published/1\"", &format) &&
        strcmp(format, format_name) != 0)
        json_refuse(json_member(root, "format"), "\"coatwright-published/1\"");
    read_text(json_member(root, "collection"), &state->collection);
    struct json_at list = json_member(root, "resources");
    if (json_list(list, "a list of resources"))
        for (struct json_at row = json_first(list); row.node; row = json_next(row))
            read_mark(reading, row, state);
    return reading_mistakes(reading) == before;
}

void publish_state_write(const struct publish_state *state, struct buf *out)
{
    struct json_write w;
    json_write_init(&w, out);
    json_open(&w, NULL, '{');
    json_put_text(&w, "format", format_name);
    json_put_text(&w, "collection", state->collection);
    json_open(&w, "resources", '[');
    for (size_t i = 0; i < state->count; i++) {
        json_open_row(&w, NULL, '{');
        json_put_text(&w, "uid", state->marks[i].uid);
        json_put_text(&w, "href", state->marks[i].href);
        json_put_text(&w, "etag", state->marks[i].etag);
        json_put_text(&w, "hash", state->marks[i].hash);
        json_put_text(&w, "faces", state->marks[i].faces);
        json_close(&w);
    }
    json_close(&w);
    json_close(&w);
}
