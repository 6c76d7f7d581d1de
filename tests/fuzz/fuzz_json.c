/* What the scanner accepts the parser takes whole, prints, and reads back the same; every value is found again by its
 * pointer; every mistake has its place inside the text. */
#include "base/arena.h"
#include "format/json.h"
#include "format/json_scan.h"
#include "format/locate.h"

#include <assert.h>
#include <cjson/cJSON.h>
#include <stdlib.h>
#include <string.h>

enum { CHECKED_MOST = 4096 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_places(const struct reading *reading, const struct file_text *file)
{
    struct place last = place_of(file->text, file->length, file->length);
    for (size_t i = 0; i < reading->errors->count; i++) {
        const struct err *err = &reading->errors->items[i];
        assert(err->line >= 1 && err->column >= 1 && err->line <= last.line);
        assert(err->line < last.line || err->column <= last.column);
        assert(err->expected[0] && err->found[0]);
    }
}

/* What a value of this kind begins with. */
static bool begins_right(const struct cJSON *node, char c)
{
    switch (node->type & 0xFF) {
    case cJSON_Object:
        return c == '{';
    case cJSON_Array:
        return c == '[';
    case cJSON_String:
        return c == '"';
    case cJSON_Number:
        return c == '-' || (c >= '0' && c <= '9');
    default:
        return c == 't' || c == 'f' || c == 'n';
    }
}

static void check_nodes(struct json_at at)
{
    size_t offset = locate_json(at.doc->file.text, at.doc->file.length, json_pointer(at), false);
    assert(offset < at.doc->file.length && begins_right(at.node, at.doc->file.text[offset]));
    for (struct json_at child = json_first(at); child.node; child = json_next(child)) {
        check_nodes(child);
        size_t key = locate_json(at.doc->file.text, at.doc->file.length, json_pointer(child), true);
        assert(!json_is_object(at) || at.doc->file.text[key] == '"');
    }
}

static void check_print(const struct reading *reading, struct json_at root)
{
    char *printed = cJSON_PrintUnformatted(root.doc->root);
    assert(printed);
    struct file_text again = {"printed", printed, strlen(printed)};
    struct json_at copy;
    assert(json_parse(reading, &again, &copy));
    assert(cJSON_Compare(root.doc->root, copy.doc->root, 1));
    free(printed);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = arena_make(0);
    struct err_list errors = {0}, warnings = {0};
    assert(arena);
    struct reading reading = {arena, texts_make(arena), &errors, &warnings};
    char *text = arena_text_n(arena, (const char *)data, size);
    struct file_text file = {"fuzz", text, size};
    struct json_at root;
    if (json_parse(&reading, &file, &root)) {
        assert(errors.count == 0);
        check_print(&reading, root);
        if (size < CHECKED_MOST)
            check_nodes(root);
    } else {
        assert(errors.count > 0);
        check_places(&reading, &file);
    }
    arena_free(arena);
    return 0;
}
