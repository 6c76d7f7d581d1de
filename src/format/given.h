/* Files that a caller hands over in memory, under the names by which others name them. */
#ifndef FORMAT_GIVEN_H
#define FORMAT_GIVEN_H

#include "format/file.h"

struct given_files {
    struct file_text *items;
    size_t count, capacity;
    bool only; /* what a file names is looked for here alone, not in the file system */
};

/* Copies a text under a name into the arena; the same name again replaces it. */
void given_add(struct given_files *given, struct arena *arena, const char *name, const char *text,
               size_t length);

/* What was given under this name; NULL: nothing was. `given` may be NULL, as below. */
const struct file_text *given_find(const struct given_files *given, const char *path);

/* The given files of a folder whose name ends in `ending`, as file_list has them; none is no failure. */
void given_list(const struct given_files *given, struct arena *arena, const char *folder, const char *ending,
                struct file_list *list);

#endif
