/* A JSON text as a tree of values, each with its place, and JSON pointers (RFC 6901) into it. It is read strictly: RFC 8259, and
 * beyond it no duplicate keys, no \u0000, no number that a double cannot hold, no nesting over JSON_DEEPEST and no more than
 * JSON_MOST values. */
#ifndef FORMAT_JSON_TREE_H
#define FORMAT_JSON_TREE_H

#include "format/place.h"

#include <stdbool.h>
#include <stddef.h>

struct buf;

enum json_kind { JSON_NULL, JSON_FALSE, JSON_TRUE, JSON_NUMBER, JSON_TEXT, JSON_LIST, JSON_OBJECT };

struct json_value {
    enum json_kind kind;
    bool plain;       /* of a text: it is printable ASCII, written without escapes */
    unsigned at;      /* where it begins in the text */
    unsigned name_at; /* of a member: where its name begins; else where the value does */
    const char *name; /* of a member: its name, decoded; else NULL */
    const struct json_value *parent, *next;
    union {
        double number;
        const char *text;               /* decoded */
        const struct json_value *child; /* the first item or member; NULL: empty */
    };
};

enum { JSON_DEEPEST = 64, JSON_MOST = 2000000 };

/* The tree, in the arena. NULL: each duplicate key was added to `errors`, and the first break of the grammar, at which
 * reading ends. A byte-order mark is allowed. */
const struct json_value *json_scan(struct arena *arena, const struct file_text *file,
                                   struct err_list *errors);

/* Appends the text of `file` as a merge patch (RFC 7396) changes it, everything else left as it stands: order, spaces and
 * lines. False: one of the two is not well-formed. */
bool json_merge(struct arena *arena, const struct file_text *file, const char *patch, struct buf *out);

/* Its first item or member; NULL: none, or no list and no object. */
const struct json_value *json_child(const struct json_value *value);

/* Appends the pointer of a value. */
void json_tree_pointer(struct buf *pointer, const struct json_value *value);

/* Appends "/" and a name or a number as a token of a pointer. */
void json_pointer_add(struct buf *pointer, const char *name);
void json_pointer_add_index(struct buf *pointer, size_t index);

/* What a pointer names, or its nearest ancestor that is there. */
const struct json_value *json_tree_find(const struct json_value *root, const char *pointer);

#endif
