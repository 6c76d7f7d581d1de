/* What the reader accepts it prints and reads back the same; every value is found again by its pointer; every mistake has its
 * place inside the text. */
#include "base/arena.h"
#include "format/json.h"
#include "format/json_write.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { CHECKED_MOST = 4096, PRINTED_DEEPEST = JSON_WRITE_DEEPEST };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_places(const struct reading *reading, const struct file_text *file)
{
    struct place last = place_at(file->text, file->length, file->length);
    for (size_t i = 0; i < reading->errors->count; i++) {
        const struct err *err = &reading->errors->items[i];
        assert(err->line >= 1 && err->column >= 1 && err->line <= last.line);
        assert(err->line < last.line || err->column <= last.column);
        assert(err->expected[0] && err->found[0]);
    }
}

/* What a value of this kind begins with. */
static bool begins_right(const struct json_value *node, char c)
{
    switch (node->kind) {
    case JSON_OBJECT:
        return c == '{';
    case JSON_LIST:
        return c == '[';
    case JSON_TEXT:
        return c == '"';
    case JSON_NUMBER:
        return c == '-' || (c >= '0' && c <= '9');
    default:
        return c == 't' || c == 'f' || c == 'n';
    }
}

static void check_nodes(struct json_at at, const struct json_value *root)
{
    const char *text = at.doc->file.text;
    assert(at.node->at < at.doc->file.length && begins_right(at.node, text[at.node->at]));
    assert(json_tree_find(root, json_pointer(at)) == at.node);
    for (struct json_at child = json_first(at); child.node; child = json_next(child)) {
        check_nodes(child, root);
        assert(!json_is_object(at) || text[child.node->name_at] == '"');
    }
}

static int depth_of(const struct json_value *node)
{
    int deepest = 0;
    for (const struct json_value *child = json_child(node); child; child = child->next) {
        int depth = depth_of(child);
        deepest = depth > deepest ? depth : deepest;
    }
    return deepest + 1;
}

static void print(struct json_write *w, const struct json_value *node)
{
    switch (node->kind) {
    case JSON_OBJECT:
    case JSON_LIST:
        json_open(w, node->name, node->kind == JSON_OBJECT ? '{' : '[');
        for (const struct json_value *child = node->child; child; child = child->next)
            print(w, child);
        json_close(w);
        break;
    case JSON_TEXT:
        json_put_text(w, node->name, node->text);
        break;
    case JSON_NUMBER:
        json_put_whole(w, node->name, (int64_t)node->number);
        break;
    case JSON_NULL:
        json_put_null(w, node->name);
        break;
    default:
        json_put_flag(w, node->name, node->kind == JSON_TRUE);
    }
}

static bool whole_numbers(const struct json_value *node)
{
    if (node->kind == JSON_NUMBER)
        return fabs(node->number) < 1e15 && node->number == floor(node->number);
    for (const struct json_value *child = json_child(node); child; child = child->next)
        if (!whole_numbers(child))
            return false;
    return true;
}

static void check_same(const struct json_value *a, const struct json_value *b)
{
    assert(a->kind == b->kind && !a->name == !b->name && (!a->name || strcmp(a->name, b->name) == 0));
    assert(a->kind != JSON_NUMBER || a->number == b->number);
    assert(a->kind != JSON_TEXT || strcmp(a->text, b->text) == 0);
    const struct json_value *x = json_child(a), *y = json_child(b);
    for (; x && y; x = x->next, y = y->next)
        check_same(x, y);
    assert(!x && !y);
}

/* The writer keeps 15 digits, so that whole numbers alone are compared. */
static void check_print(const struct reading *reading, const struct json_value *root)
{
    struct json_write w;
    struct buf out;
    struct json_at copy;
    if (depth_of(root) > PRINTED_DEEPEST || !whole_numbers(root))
        return;
    buf_init(&out, reading->arena);
    json_write_init(&w, &out);
    print(&w, root);
    struct file_text again = {.name = "printed", .text = out.text, .length = out.length};
    assert(json_parse(reading, &again, &copy));
    check_same(root, copy.node);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = arena_make(0);
    struct err_list errors = {0}, warnings = {0};
    assert(arena);
    struct reading reading = {arena, texts_make(arena), &errors, &warnings, NULL};
    char *text = arena_text_n(arena, (const char *)data, size);
    struct file_text file = {.name = "fuzz", .text = text, .length = size};
    struct json_at root;
    if (json_parse(&reading, &file, &root)) {
        assert(errors.count == 0);
        check_print(&reading, root.node);
        if (size < CHECKED_MOST)
            check_nodes(root, root.node);
    } else {
        assert(errors.count > 0);
        check_places(&reading, &file);
    }
    arena_free(arena);
    return 0;
}
