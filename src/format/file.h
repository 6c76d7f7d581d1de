/* Whole files in and out. Reading takes regular files, pipes and standard input; writing never leaves half a file. */
#ifndef FORMAT_FILE_H
#define FORMAT_FILE_H

#include "base/err.h"

struct arena;

enum { FILE_MOST = 64 << 20 }; /* bytes of a text that somebody could mean */

/* What was read. A NUL follows the last byte. */
struct file_text {
    const char *name; /* as given; "-" is standard input */
    const char *text;
    size_t length;
};

/* Reads all of it into the arena. False: *fault says why (no such file, a directory, no permission, over FILE_MOST). */
bool file_load(struct arena *arena, const char *path, struct file_text *file, struct err *fault);

/* Puts `length` bytes in the place of a file: written to a temporary name beside it, flushed to the disk and renamed, so
 * that a full disk or a kill leaves the old file whole. A link is followed, an old file's permissions are kept; a
 * device or a pipe is written directly. */
bool file_save(const char *path, const char *text, size_t length, struct err *fault);

#endif
