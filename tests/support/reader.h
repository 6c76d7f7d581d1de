/* A reading with lists of its own, for tests of readers: what was told comes back as lines. */
#ifndef TESTS_READER_H
#define TESTS_READER_H

#include "check.h"

#include "base/arena.h"
#include "format/place.h"

struct reader {
    struct arena *arena;
    struct err_list errors, warnings;
    struct reading reading;
};

struct reader *reader_make(void);
void reader_free(struct reader *reader);

/* The messages of a list, one a line, in the arena. */
const char *reader_lines(struct reader *reader, const struct err_list *list);

/* A text as if it had been read from a file. */
struct file_text reader_file(const char *name, const char *text);

/* `text` with the one place where `find` stands changed to `put`. */
const char *reader_swap(struct reader *reader, const char *text, const char *find, const char *put);

/* One mistake and no other was told: `want` (pointer, expected, found), in a file of this text, at the only place where
 * `at` stands. */
void reader_check_only(struct reader *reader, const struct row *row, const char *text, const char *at,
                       const char *want);

/* A path in the test's own folder, which is removed afterwards; the file is written unless `text` is NULL. */
const char *reader_path(struct reader *reader, const char *name, const char *text);

#endif
