/* The strict look at a JSON text, before a parser that lets much pass (cJSON 1.7) sees it: RFC 8259, and beyond it no
 * duplicate keys, no \u0000, no number that a double cannot hold, no nesting over JSON_DEEPEST. */
#ifndef FORMAT_JSON_SCAN_H
#define FORMAT_JSON_SCAN_H

#include "format/texts.h"

enum { JSON_DEEPEST = 64 };

/* Whether the text is well-formed. Each duplicate key is added to `errors`, and the first break of the grammar, at
 * which scanning ends. A byte-order mark is allowed. */
bool json_scan(struct arena *arena, const struct file_text *file, struct err_list *errors);

#endif
