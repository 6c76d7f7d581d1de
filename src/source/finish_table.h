/* The finishes that a run knows: a folder of *.json, and the shop's own folder ahead of it. */
#ifndef SOURCE_FINISH_TABLE_H
#define SOURCE_FINISH_TABLE_H

#include "base/buf.h"
#include "finish/finish.h"
#include "finish/fit.h"
#include "format/path.h"
#include "format/place.h"
#include "job/shop.h"

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

/* One file of it (finish_file.c). */
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

/* Figures of a finish that were learned from the logs of a shop (finish_learned.c). */
struct new_figures {
    double first_m2_per_l, later_m2_per_l, tolerance;
    double tool_m2_per_l[TOOL_COUNT];      /* 0: as the table has it */
    struct tool_learned tools[TOOL_COUNT]; /* what is not given: as the shop has it */
    size_t coats;                          /* that the coverage was learned from */
};

/* The merge patch (RFC 7396) that puts them into a file of the table's finish, by wet film where that is how it stands there. Its source then
 * says that they were learned, which is what later lets the file be replaced. */
void finish_figures_write(struct buf *out, const struct finish *table, const struct new_figures *figures);

/* Whether the source of a coverage says so. */
bool finish_figures_are_learned(const char *source);

/* Rules as data (rules.c): what may go over what, and what is used up beside finish, from rules/fit.json and
 * rules/sundries.json below the shipped table and below the shop's own folder. */

/* The shipped ones, then the shop's own; an own one of the same name takes the place of the shipped one. A folder (NULL:
 * none) without such a file has none. Mistakes are added, each at its place. `table` may be NULL: names of finishes are not
 * looked up then. */
struct fit_rules fit_rules_load(const struct reading *reading, const struct finish_folders *folders,
                                const struct finish_table *table);
struct sundry_rules sundry_rules_load(const struct reading *reading, const struct finish_folders *folders);

#endif
