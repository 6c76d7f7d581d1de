/* The finishes that a run knows: a folder of *.json, and the shop's own folder ahead of it. */
#ifndef SOURCE_FINISH_TABLE_H
#define SOURCE_FINISH_TABLE_H

#include "finish/finish.h"
#include "format/path.h"
#include "format/place.h"

struct finish_table {
    const struct finish **items; /* by id */
    size_t count;
    const char **failed; /* ids of files with mistakes: naming one of them is no second mistake */
    size_t failed_count;
};

struct finish_folders {
    const char *shipped;   /* NULL: none */
    const char *own;       /* NULL: none */
    struct path_rule rule; /* what files of the own folder may be links to */
    int currency_digits;
};

/* Reads every file; mistakes are added, each in its own file. A folder that cannot be read is one, too. An own finish
 * takes the place of the shipped one of its id; two of one id in one folder are a mistake. */
struct finish_table *finish_table_load(const struct reading *reading, const struct finish_folders *folders);

/* NULL: none of that id. */
const struct finish *finish_table_find(const struct finish_table *table, const char *id);
bool finish_table_failed(const struct finish_table *table, const char *id);
/* All ids, for did-you-mean; in the table's order. */
const char **finish_table_ids(struct arena *arena, const struct finish_table *table);

#endif
