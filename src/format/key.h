/* What tells files of one name from each other, on whatever machine they are put together: a number drawn once for a folder
 * and kept in it. */
#ifndef FORMAT_KEY_H
#define FORMAT_KEY_H

#include "format/file.h"

/* The key of a file, 12 letters and digits, from the file's name and the number of its folder, which is drawn where it is
 * missing and kept under `.coatwright-key`. "" where nothing can be kept: standard input, a folder that may not be written.
 * NULL: what stands there is no such number, or it cannot be read or kept; *err. */
const char *key_of(struct arena *arena, const char *path, struct err *err);

#endif
