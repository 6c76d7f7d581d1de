/* Whole files in. */
#ifndef FORMAT_FILE_H
#define FORMAT_FILE_H

#include "format/path.h"

#include <stdint.h>

enum { FILE_MOST = 64 << 20 }; /* bytes of a text that somebody could mean */

/* Which file it is, under whatever name. */
struct file_id {
    uint64_t device, inode;
};

/* What was read. A NUL follows the last byte. */
struct file_text {
    const char *name; /* as given; "-" is standard input */
    const char *text;
    size_t length;
    struct file_id id;
};

/* Reads all of it into the arena: a regular file, a pipe, or "-", as the command line names them. False: *err says why (no
 * such file, a directory, no permission, over FILE_MOST). */
bool file_load(struct arena *arena, const char *path, struct file_text *file, struct err *err);

/* The same of a regular file that nobody but its owner, who must be asking, may read: a password. */
bool file_load_secret(struct arena *arena, const char *path, struct file_text *file, struct err *err);

/* The same of a path that a job leads to (by path_resolve, or inside a folder of it): a regular file alone, and no link is
 * followed out of the folder, even one that changes meanwhile. */
bool file_load_named(struct arena *arena, struct path_rule rule, const char *path, struct file_text *file,
                     struct err *err);

/* Such a file, open for reading, to be closed by the caller; -1 with *err. */
int file_open_named(struct arena *arena, struct path_rule rule, const char *path, struct file_id *id,
                    struct err *err);

/* Which file stands under a name; false: none that can be looked at. A link is followed. */
bool file_identify(const char *path, struct file_id *id);
/* Whether it may not be written over: its owner or whoever asks says so. */
bool file_read_only(const char *path);
/* Whether there is nothing of that name; what cannot be looked at may be there. */
bool file_missing(const char *path);
/* Whether a regular file is there, or something that cannot be looked at, on a way that leads there. */
bool file_may_be(const char *path);

/* What a file or folder looks like from outside. */
struct file_state {
    bool folder;
    uint64_t changed;   /* differs as soon as somebody has written it */
    int64_t modified_s; /* since 1970 */
    uint64_t length;
};
/* False: there is nothing there. Where the system does not say what is, nothing is known of it. A link is followed. */
bool file_look(const char *path, struct file_state *state);

struct file_list {
    const char **paths; /* folder/name, by name */
    size_t count;
};

/* The files of a folder whose name ends in `ending` and does not begin with a dot. */
bool file_list(struct arena *arena, struct path_rule rule, const char *folder, const char *ending,
               struct file_list *list, struct err *err);

#endif
