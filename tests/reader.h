/* A reading with lists of its own, for tests of readers: what was told comes back as lines. */
#ifndef TESTS_READER_H
#define TESTS_READER_H

#include "base/arena.h"
#include "io/texts.h"

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

/* A path in the test's own folder, which is removed afterwards; the file is written unless `text` is NULL. */
const char *reader_path(struct reader *reader, const char *name, const char *text);

#endif
