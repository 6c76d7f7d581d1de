#include "format/json_tree.h"

#include "base/buf.h"

#include <stdbool.h>
#include <stdint.h>
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
