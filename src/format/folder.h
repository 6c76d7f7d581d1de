/* The files of a folder. */
#ifndef FORMAT_FOLDER_H
#define FORMAT_FOLDER_H

#include "format/file.h"

struct folder_names {
    const char **paths; /* folder/name, by name */
    size_t count;
};

/* Those whose name ends in `ending` and does not begin with a dot. */
bool folder_list(struct arena *arena, const char *folder, const char *ending, struct folder_names *names,
                 struct err *fault);

#endif
