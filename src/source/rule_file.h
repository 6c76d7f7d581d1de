/* Files of rules below a table of finishes: rules/NAME in the shipped folder, and in the shop's own. */
#ifndef SOURCE_RULE_FILE_H
#define SOURCE_RULE_FILE_H

#include "source/finish_table.h"
#include "format/json.h"

struct rule_file {
    const char *name;   /* "fit.json" */
    const char *format; /* what `format` must say */
    const char *list;   /* the key of the list */
};

/* The list of a folder's file (NULL: no folder). False: there is no such file, or mistakes were added. `own`: the folder
 * is the shop's own, whose links may not lead out of it. */
bool rule_file_open(const struct reading *reading, const struct finish_folders *folders, bool own,
                    struct rule_file file, struct json_at *list);

#endif
