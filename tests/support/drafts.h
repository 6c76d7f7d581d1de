/* Batches placed in a draft by one person, for tests. */
#ifndef TESTS_DRAFTS_H
#define TESTS_DRAFTS_H

#include "check.h"
#include "timetable/draft.h"

/* A batch of the kind of its first item. */
struct batch batch_of(const struct draft *draft, const int *items, size_t count);
/* Places it from a minute on, whenever that may be. */
bool draft_try(struct draft *draft, const int *items, size_t count, int32_t from, struct placed *placed);
/* Places and adds it; it begins then. */
void draft_put(const struct row *row, struct draft *draft, const int *items, size_t count, int32_t want);
void check_cause(const struct row *row, const struct placed *placed, struct cause_of_start want);

#endif
