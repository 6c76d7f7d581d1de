/* JSON of `finishes`: each finish with its figures and their sources. */
#ifndef REPORT_WRITE_FINISHES_H
#define REPORT_WRITE_FINISHES_H

#include "finish/finish.h"
#include "format/json_write.h"

/* How many groups of figures stand on what; a group may be of several kinds. */
struct source_count {
    size_t groups, published, common_practice, from_memory;
};

/* A source is published when it names a year, for then it names a document. */
struct source_count sources_count(const struct finish *const *finishes, size_t count);

/* replaces[i]: the shipped finish whose place an own one takes; NULL: none. */
void write_finishes(struct json_write *w, const struct finish *const *finishes,
                    const struct finish *const *replaces, size_t count);

#endif
