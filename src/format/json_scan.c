#include "format/json_scan.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"
#include "format/json_text.h"
#include "format/json_token.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FEW_KEYS = 16 };

/* Where scanning stands inside one object or list. */
struct frame {
    bool object, named;
    struct json_raw key;
    size_t index;
};

struct scan {
    struct arena *arena;
    const struct file_text *file;
    struct err_list *errors;
    struct json_cursor cursor;
    struct frame frames[JSON_DEEPEST];
    size_t depth;
    struct json_raw *keys; /* of all open objects, the innermost last */
    size_t key_count, key_capacity;
    bool duplicates;
    struct json_fault fault;
};

static const char *pointer(const struct scan *scan)
{
    struct buf buf;
    buf_init(&buf, scan->arena);
    for (size_t i = 0; i < scan->depth; i++) {
        const struct frame *frame = &scan->frames[i];
        if (!frame->object)
            json_pointer_add_index(&buf, frame->index);
        else if (frame->named)
            json_pointer_add_raw(&buf, frame->key);
    }
    return buf.text;
}

static bool wrong_at(struct scan *scan, size_t at, const char *expected)
{
    return json_fault_say(&scan->cursor, &scan->fault, at, expected);
}

static bool wrong(struct scan *scan, const char *expected)
{
    return wrong_at(scan, scan->cursor.at, expected);
}

static void tell_duplicate(struct scan *scan, struct json_raw key)
{
    scan->frames[scan->depth - 1].key = key;
    scan->duplicates = true;
    text_wrong(scan->errors, scan->file, (size_t)(key.text - 1 - scan->file->text), pointer(scan),
               "each key once", "a second one of this name");
}

/* By name; of equal names, the one that stands first. */
static int by_name(const void *a, const void *b)
{
    const struct json_raw *x = a, *y = b;
    int order = json_raw_compare(*x, *y);
    return order ? order : x->text < y->text ? -1 : 1;
}

/* Few keys are compared one by one, many are sorted first, so that a hostile object costs no more than its length. */
static void check_keys(struct scan *scan, size_t first)
{
    struct json_raw *keys = scan->keys + first;
    size_t count = scan->key_count - first;
    if (count > FEW_KEYS)
        qsort(keys, count, sizeof *keys, by_name);
    for (size_t i = 1; i < count; i++) {
        size_t k = count > FEW_KEYS ? i - 1 : 0;
        while (k < i && json_raw_compare(keys[k], keys[i]) != 0)
            k++;
        if (k < i)
            tell_duplicate(scan, keys[i]);
    }
}

static bool scan_key(struct scan *scan, struct frame *frame)
{
    size_t at = scan->cursor.at;
    if (json_peek(&scan->cursor) != '"')
        return wrong(scan, "a key in double quotes");
    if (!json_token_string(&scan->cursor, &scan->fault))
        return false;
    struct json_raw key = {scan->cursor.text + at + 1, scan->cursor.at - at - 2};
    frame->named = !json_raw_has_control(key);
    if (!frame->named)
        return wrong_at(scan, at, "a key without control characters");
    frame->key = key;
    scan->keys =
        arena_grow(scan->arena, scan->keys, scan->key_count, &scan->key_capacity, sizeof *scan->keys);
    scan->keys[scan->key_count++] = frame->key;
    json_skip_blank(&scan->cursor);
    if (json_peek(&scan->cursor) != ':')
        return wrong(scan, "\":\" after the key");
    scan->cursor.at++;
    return true;
}

/* `1,5` where a key follows: the comma was meant as a decimal point. */
static bool decimal_comma(const struct scan *scan, size_t value)
{
    const struct json_cursor *cursor = &scan->cursor;
    char first = scan->file->text[value];
    return ((first >= '0' && first <= '9') || first == '-') && json_peek(cursor) == ',' &&
           cursor->at + 1 < cursor->length && cursor->text[cursor->at + 1] >= '0' &&
           cursor->text[cursor->at + 1] <= '9';
}

static bool scan_value(struct scan *scan);

/* One item of the innermost object or list, up to the comma or bracket behind it. */
static bool scan_item(struct scan *scan, struct frame *frame, char close)
{
    if (frame->object && !scan_key(scan, frame))
        return false;
    json_skip_blank(&scan->cursor);
    size_t value = scan->cursor.at;
    if (!scan_value(scan))
        return false;
    if (frame->object && decimal_comma(scan, value))
        return wrong_at(scan, value, "a decimal point: write 1.5, not 1,5");
    json_skip_blank(&scan->cursor);
    char c = json_peek(&scan->cursor);
    if (c != ',' && c != close)
        return wrong(scan, frame->object ? "\",\" or \"}\"" : "\",\" or \"]\"");
    return true;
}

static bool scan_items(struct scan *scan, char close)
{
    struct frame *frame = &scan->frames[scan->depth - 1];
    scan->cursor.at++;
    json_skip_blank(&scan->cursor);
    if (json_peek(&scan->cursor) == close) {
        scan->cursor.at++;
        return true;
    }
    for (;;) {
        if (!scan_item(scan, frame, close))
            return false;
        scan->cursor.at++;
        if (scan->cursor.text[scan->cursor.at - 1] == close)
            return true;
        frame->index++;
        json_skip_blank(&scan->cursor);
        if (!frame->object && json_peek(&scan->cursor) == close)
            return wrong(scan, "a value after the comma");
    }
}

static bool scan_container(struct scan *scan, bool object)
{
    if (scan->depth == JSON_DEEPEST)
        return wrong(scan, "at most 64 levels of nesting");
    size_t first = scan->key_count;
    scan->frames[scan->depth++] = (struct frame){.object = object};
    if (!scan_items(scan, object ? '}' : ']'))
        return false;
    check_keys(scan, first);
    scan->key_count = first;
    scan->depth--;
    return true;
}

/* Recursion ends at JSON_DEEPEST. */
static bool scan_value(struct scan *scan)
{
    struct json_cursor *cursor = &scan->cursor;
    char c = json_peek(cursor);
    if (c == '{' || c == '[')
        return scan_container(scan, c == '{');
    if (c == '"')
        return json_token_string(cursor, &scan->fault);
    if (c == '-' || (c >= '0' && c <= '9'))
        return json_token_number(cursor, &scan->fault);
    if (json_token_word(cursor, "true") || json_token_word(cursor, "false") ||
        json_token_word(cursor, "null"))
        return true;
    return wrong(scan, c == '\'' ? "double quotes around text" : "a value");
}

static bool scan_text(struct scan *scan)
{
    size_t bad;
    if (!text_valid(scan->file->text, scan->file->length, &bad)) {
        wrong_at(scan, bad, "UTF-8 text");
        snprintf(scan->fault.found, sizeof scan->fault.found, "byte 0x%02x",
                 (unsigned)(unsigned char)scan->file->text[bad]);
        return false;
    }
    if (scan->file->length >= 3 && memcmp(scan->file->text, "\xEF\xBB\xBF", 3) == 0)
        scan->cursor.at = 3;
    json_skip_blank(&scan->cursor);
    if (scan->cursor.at == scan->cursor.length) {
        wrong(scan, "JSON text");
        snprintf(scan->fault.found, sizeof scan->fault.found, "an empty file");
        return false;
    }
    if (!scan_value(scan))
        return false;
    json_skip_blank(&scan->cursor);
    return scan->cursor.at == scan->cursor.length || wrong(scan, "nothing after the value");
}

bool json_scan(struct arena *arena, const struct file_text *file, struct err_list *errors)
{
    struct scan *scan = ARENA_NEW(arena, struct scan);
    scan->arena = arena;
    scan->file = file;
    scan->errors = errors;
    scan->cursor = (struct json_cursor){file->text, file->length, 0};
    scan->key_capacity = FEW_KEYS;
    scan->keys = ARENA_ARRAY(arena, FEW_KEYS, struct json_raw);
    if (!scan_text(scan)) {
        text_wrong(errors, file, scan->fault.at, pointer(scan), scan->fault.expected, scan->fault.found);
        return false;
    }
    return !scan->duplicates;
}
