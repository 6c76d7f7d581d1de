/* Where a file that another file names may lie: relative to the naming file and, unless the user trusts the job, not
 * outside of its folder. */
#ifndef FORMAT_PATH_H
#define FORMAT_PATH_H

#include "format/file.h"

struct path_rule {
    const char *from; /* the naming file; "-" (standard input) names from the working folder */
    bool trusted;     /* `..`, absolute paths and links out of the folder are allowed */
};

/* What to open (and to show) for `named`. False: the path leaves the folder; *fault says how. A file that is not
 * there is no fault here. */
bool path_resolve(struct arena *arena, struct path_rule rule, const char *named, const char **path,
                  struct err *fault);

/* The folder part of a path, without a slash at its end; "." where there is none. */
char *path_folder(struct arena *arena, const char *path);
/* The last part: "a/b.csv" -> "b.csv". */
const char *path_last(const char *path);
/* Whether it ends in `ending` (".json"), whatever the case. */
bool path_ends(const char *path, const char *ending);

#endif
