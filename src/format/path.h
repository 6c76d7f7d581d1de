/* Names of files and the ways they lead: relative to the file that names them and, unless the user trusts the job, not
 * outside of its folder. */
#ifndef FORMAT_PATH_H
#define FORMAT_PATH_H

#include "base/err.h"
#include "base/text.h"

struct arena;

struct path_rule {
    const char *from; /* the naming file; "-" (standard input) names from the working folder */
    bool trusted;     /* `..`, absolute paths and links out of the folder are allowed */
};

/* What to open (and to show) for `named`. False: the name leaves the folder; *err says how. Links are left to path_open. */
bool path_resolve(struct arena *arena, struct path_rule rule, const char *named, const char **path,
                  struct err *err);

/* Opens a path that a job leads to (by path_resolve, or inside such a folder) for reading, without waiting. No link is
 * followed out of the folder of rule.from, even one that changes meanwhile; a path that does not begin with it, which
 * the user gave, is held to its own folder. -1: *err says why, in the words for a file or for a folder. */
int path_open(struct arena *arena, struct path_rule rule, const char *path, bool folder, struct err *err);

/* "an error while reading (Input/output error)" */
struct text_short path_fault(const char *while_doing, int error);

/* Says why a file or a folder could not be read, by errno's number, and is false. What is expected then tells it from a way
 * that may not be gone. */
#define PATH_READABLE_FILE "a readable file"
bool path_unreadable(struct err *err, bool folder, int error);

/* The folder part of a path, without a slash at its end; "." where there is none. */
char *path_folder(struct arena *arena, const char *path);
/* The last part: "a/b.csv" -> "b.csv". */
const char *path_last(const char *path);
/* Whether it ends in `ending` (".json"), whatever the case. */
bool path_ends(const char *path, const char *ending);

#endif
