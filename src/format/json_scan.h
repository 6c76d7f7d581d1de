/* A JSON text as a tree, read strictly: RFC 8259, and beyond it no duplicate keys, no \u0000, no number that a double
 * cannot hold, no nesting over JSON_DEEPEST and no more than JSON_MOST values. */
#ifndef FORMAT_JSON_SCAN_H
#define FORMAT_JSON_SCAN_H

#include "format/json_tree.h"
#include "format/place.h"

enum { JSON_DEEPEST = 64, JSON_MOST = 2000000 };

/* The tree, in the arena. NULL: each duplicate key was added to `errors`, and the first break of the grammar, at which
 * reading ends. A byte-order mark is allowed. */
const struct json_value *json_scan(struct arena *arena, const struct file_text *file,
                                   struct err_list *errors);

#endif
