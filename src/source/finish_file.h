/* A finish file -> struct finish in base units. */
#ifndef SOURCE_FINISH_FILE_H
#define SOURCE_FINISH_FILE_H

#include "finish/finish.h"
#include "format/place.h"

struct finish_source_file {
    const char *path;
    const struct path_rule *rule; /* NULL: the user or the program named it */
    bool shipped;                 /* from the table that comes with the program */
    int currency_digits;          /* decimals of the prices */
};

/* NULL when mistakes were added, each at its place in this file; *id is the finish's id then, as far as it could be
 * read, else the file's name without its ending. */
const struct finish *finish_read(const struct reading *reading, struct finish_source_file from,
                                 const char **id);

#endif
