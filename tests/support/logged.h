/* Work written by hand and a log of what was done of it. Now is Wednesday 3 March 2027 12:00. */
#ifndef TESTS_LOGGED_H
#define TESTS_LOGGED_H

#include "hand_work.h"

#include "base/arena.h"

enum { LOGGED_ENTRIES = 6 };

struct logged {
    struct hand_work work;
    struct log_entry entries[LOGGED_ENTRIES];
    struct arena *arena;
};

/* Pieces A and B, nothing to do and nothing done yet. */
struct logged *logged_make(void);
void logged_free(struct logged *logged);
/* A row that is sanded (30 min), coated (60), sanded, coated and polished on piece A, and one coat on piece
 * B. */
struct logged *logged_rows(void);

/* Adds work; its number. */
int logged_add(struct logged *logged, const char *id, int piece, enum doing doing, int32_t minutes);
/* Adds an entry. */
struct log_entry *logged_done(struct logged *logged, const char *step, int64_t began_min, int64_t done_min);

/* What is left of the work after that log. */
const struct operations *logged_settle(struct logged *logged);

#endif
