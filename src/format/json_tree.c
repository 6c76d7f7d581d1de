#include "format/json_tree.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"
#include "format/json_token.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const struct json_value *json_child(const struct json_value *value)
{
    return value && (value->kind == JSON_OBJECT || value->kind == JSON_LIST) ? value->child : NULL;
}

void json_pointer_add(struct buf *pointer, const char *name)
{
    buf_add_char(pointer, '/');
    for (; *name; name++)
        if (*name == '/' || *name == '~')
            buf_add(pointer, *name == '/' ? "~1" : "~0");
        else
            buf_add_char(pointer, *name);
}

void json_pointer_add_index(struct buf *pointer, size_t index)
{
    buf_addf(pointer, "/%zu", index);
}

/* A text nests only as deep as its scanner allows. */
void json_tree_pointer(struct buf *pointer, const struct json_value *value)
{
    size_t index = 0;
    if (!value->parent)
        return;
    json_tree_pointer(pointer, value->parent);
    if (value->name) {
        json_pointer_add(pointer, value->name);
        return;
    }
    for (const struct json_value *item = value->parent->child; item != value; item = item->next)
        index++;
    json_pointer_add_index(pointer, index);
}

static bool is_token(const char *name, const char *token, size_t length)
{
    const char *end = token + length;
    for (; *name && token < end; name++, token++) {
        char want = *token;
        if (want == '~' && token + 1 < end)
            want = *++token == '1' ? '/' : '~';
        if (want != *name)
            return false;
    }
    return !*name && token == end;
}

static const struct json_value *item_of(const struct json_value *list, const char *token, size_t length)
{
    size_t wanted = 0;
    for (size_t i = 0; i < length; i++) {
        if (token[i] < '0' || token[i] > '9' || wanted > SIZE_MAX / 10 - 1)
            return NULL;
        wanted = wanted * 10 + (size_t)(token[i] - '0');
    }
    const struct json_value *item = list->child;
    for (; item && wanted > 0; wanted--)
        item = item->next;
    return item;
}

static const struct json_value *member_of(const struct json_value *object, const char *token, size_t length)
{
    const struct json_value *member = object->child;
    while (member && !is_token(member->name, token, length))
        member = member->next;
    return member;
}

const struct json_value *json_tree_find(const struct json_value *root, const char *pointer)
{
    while (*pointer == '/') {
        size_t token = strcspn(++pointer, "/");
        const struct json_value *inner = root->kind == JSON_OBJECT ? member_of(root, pointer, token)
                                         : root->kind == JSON_LIST ? item_of(root, pointer, token)
                                                                   : NULL;
        if (!inner)
            break;
        root = inner;
        pointer += token;
    }
    return root;
}

enum { FEW_KEYS = 16 };

struct scan {
    struct json_cursor cursor;
    const struct file_text *file;
    struct err_list *errors;
    const struct json_value *here; /* the value at hand, whose mistakes are reported */
    size_t depth, count;
    bool duplicates;
};

static const char *pointer(const struct scan *scan, const struct json_value *value)
{
    struct buf buf;
    buf_init(&buf, scan->cursor.arena);
    if (value)
        json_tree_pointer(&buf, value);
    return buf.text;
}

static bool wrong(struct scan *scan, const char *expected)
{
    return json_wrong(&scan->cursor, scan->cursor.at, expected);
}

static void tell_duplicate(struct scan *scan, const struct json_value *member)
{
    scan->duplicates = true;
    (void)text_wrong(scan->errors, scan->file, member->name_at, pointer(scan, member), "each key once",
                     "a second one of this name");
}

struct member {
    const struct json_value *value;
};

/* By name; of equal names, the one that stands first. */
static int by_name(const void *a, const void *b)
{
    const struct member *x = a, *y = b;
    int order = strcmp(x->value->name, y->value->name);
    return order ? order : x->value->at < y->value->at ? -1 : 1;
}

static void check_many(struct scan *scan, const struct json_value *object, size_t count)
{
    struct member *members = ARENA_ARRAY(scan->cursor.arena, count, struct member);
    size_t n = 0;
    for (const struct json_value *member = object->child; member; member = member->next)
        members[n++].value = member;
    qsort(members, n, sizeof *members, by_name);
    for (size_t i = 1; i < n; i++)
        if (strcmp(members[i - 1].value->name, members[i].value->name) == 0)
            tell_duplicate(scan, members[i].value);
}

/* Few keys are compared one by one, many are sorted first, so that a hostile object costs no more than its length. */
static void check_keys(struct scan *scan, const struct json_value *object)
{
    size_t count = 0;
    for (const struct json_value *member = object->child; member; member = member->next)
        count++;
    if (count > FEW_KEYS) {
        check_many(scan, object, count);
        return;
    }
    for (const struct json_value *member = object->child; member; member = member->next) {
        const struct json_value *other = object->child;
        while (other != member &&
               (other->name[0] != member->name[0] || strcmp(other->name, member->name) != 0))
            other = other->next;
        if (other != member)
            tell_duplicate(scan, member);
    }
}

static bool scan_key(struct scan *scan, struct json_value *member)
{
    size_t at = scan->cursor.at;
    bool plain;
    if (json_peek(&scan->cursor) != '"')
        return wrong(scan, "a key in double quotes");
    if (!json_token_string(&scan->cursor, &member->name, &plain))
        return false;
    if (!plain && json_has_control(member->name))
        return json_wrong(&scan->cursor, at, "a key without control characters");
    member->name_at = (unsigned)at;
    scan->here = member;
    json_skip_blank(&scan->cursor);
    if (json_peek(&scan->cursor) != ':')
        return wrong(scan, "\":\" after the key");
    scan->cursor.at++;
    json_skip_blank(&scan->cursor);
    return true;
}

/* `1,5` where a key follows: the comma was meant as a decimal point. */
static bool decimal_comma(const struct json_cursor *cursor, const struct json_value *value)
{
    return value->name && value->kind == JSON_NUMBER && json_peek(cursor) == ',' &&
           cursor->at + 1 < cursor->length && cursor->text[cursor->at + 1] >= '0' &&
           cursor->text[cursor->at + 1] <= '9';
}

static bool scan_value(struct scan *scan, struct json_value *value);

static struct json_value *new_value(struct scan *scan, const struct json_value *parent)
{
    struct json_value *value = ARENA_NEW(scan->cursor.arena, struct json_value);
    value->parent = parent;
    return value;
}

/* One item of a list or an object, up to the comma or bracket behind it. */
static bool scan_item(struct scan *scan, struct json_value *item, char close)
{
    struct json_cursor *cursor = &scan->cursor;
    if (close == '}' && !scan_key(scan, item))
        return false;
    scan->here = item;
    if (!scan_value(scan, item))
        return false;
    scan->here = item;
    if (decimal_comma(cursor, item))
        return json_wrong(cursor, item->at, "a decimal point: write 1.5, not 1,5");
    json_skip_blank(cursor);
    if (json_peek(cursor) != ',' && json_peek(cursor) != close)
        return wrong(scan, close == '}' ? "\",\" or \"}\"" : "\",\" or \"]\"");
    return true;
}

static bool scan_items(struct scan *scan, struct json_value *container, char close)
{
    struct json_cursor *cursor = &scan->cursor;
    const struct json_value **link = &container->child;
    cursor->at++;
    json_skip_blank(cursor);
    if (json_peek(cursor) == close) {
        cursor->at++;
        return true;
    }
    for (;;) {
        struct json_value *item = new_value(scan, container);
        *link = item;
        link = &item->next;
        if (!scan_item(scan, item, close))
            return false;
        size_t comma = cursor->at++;
        if (cursor->text[comma] == close)
            return true;
        json_skip_blank(cursor);
        if (json_peek(cursor) == close)
            return json_wrong(cursor, comma,
                              close == '}' ? "no comma before \"}\"" : "no comma before \"]\"");
        scan->here = container;
    }
}

static bool scan_container(struct scan *scan, struct json_value *container)
{
    if (scan->depth == JSON_DEEPEST)
        return wrong(scan, "at most 64 levels of nesting");
    scan->depth++;
    if (!scan_items(scan, container, container->kind == JSON_OBJECT ? '}' : ']'))
        return false;
    if (container->kind == JSON_OBJECT)
        check_keys(scan, container);
    scan->depth--;
    return true;
}

static bool scan_word(struct scan *scan, struct json_value *value)
{
    static const char *const words[] = {[JSON_NULL] = "null", [JSON_FALSE] = "false", [JSON_TRUE] = "true"};
    for (int i = JSON_NULL; i <= JSON_TRUE; i++)
        if (json_token_word(&scan->cursor, words[i])) {
            value->kind = (enum json_kind)i;
            return true;
        }
    return wrong(scan, json_peek(&scan->cursor) == '\'' ? "double quotes around text" : "a value");
}

/* Recursion ends at JSON_DEEPEST. */
static bool scan_value(struct scan *scan, struct json_value *value)
{
    struct json_cursor *cursor = &scan->cursor;
    char c = json_peek(cursor);
    value->at = (unsigned)cursor->at;
    if (!value->name)
        value->name_at = value->at;
    if (++scan->count > JSON_MOST)
        return wrong(scan, "at most 2000000 values");
    value->kind = c == '{'                             ? JSON_OBJECT
                  : c == '['                           ? JSON_LIST
                  : c == '"'                           ? JSON_TEXT
                  : c == '-' || (c >= '0' && c <= '9') ? JSON_NUMBER
                                                       : JSON_NULL;
    switch (value->kind) {
    case JSON_OBJECT:
    case JSON_LIST:
        return scan_container(scan, value);
    case JSON_TEXT:
        return json_token_string(cursor, &value->text, &value->plain);
    case JSON_NUMBER:
        return json_token_number(cursor, &value->number);
    default:
        return scan_word(scan, value);
    }
}

static bool scan_text(struct scan *scan, struct json_value *root)
{
    struct json_cursor *cursor = &scan->cursor;
    char found[32];
    size_t bad;
    if (!text_valid(cursor->text, cursor->length, &bad)) {
        snprintf(found, sizeof found, "byte 0x%02x", (unsigned)(unsigned char)cursor->text[bad]);
        return json_wrong_found(cursor, bad, "UTF-8 text", found);
    }
    if (cursor->length >= 3 && memcmp(cursor->text, "\xEF\xBB\xBF", 3) == 0)
        cursor->at = 3;
    json_skip_blank(cursor);
    if (cursor->at == cursor->length)
        return json_wrong_found(cursor, cursor->at, "JSON text", "an empty file");
    if (!scan_value(scan, root))
        return false;
    scan->here = root;
    json_skip_blank(cursor);
    return cursor->at == cursor->length || wrong(scan, "nothing after the value");
}

const struct json_value *json_scan(struct arena *arena, const struct file_text *file, struct err_list *errors)
{
    struct scan *scan = ARENA_NEW(arena, struct scan);
    scan->cursor = (struct json_cursor){.arena = arena, .text = file->text, .length = file->length};
    scan->file = file;
    scan->errors = errors;
    struct json_value *root = new_value(scan, NULL);
    if (!scan_text(scan, root)) {
        const struct err *err = &scan->cursor.err;
        (void)text_wrong(errors, file, scan->cursor.wrong_at, pointer(scan, scan->here), err->expected,
                         err->found);
        return NULL;
    }
    return scan->duplicates ? NULL : root;
}
