/* Files that a JSON file names. Mistakes are told where the name stands. */
#ifndef SOURCE_NAMED_H
#define SOURCE_NAMED_H

#include "format/json.h"
#include "format/path.h"

/* The path of a text value, as far as the rule lets it lead. */
bool named_path(struct json_at at, struct path_rule rule, const char **path);

/* Its contents as well. */
bool named_load(struct json_at at, struct path_rule rule, struct file_text *file);

#endif
