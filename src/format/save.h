/* Files out, one or several of a folder together, so that a full disk, a kill or a second writer leaves all of them as they
 * were or as they are to be.
 *
 *     struct saving *saving = saving_begin(arena, folder, true, &err);
 *     if (saving && saving_load(saving, "plan.json", &old, &err)) ...
 *     saving_add(saving, "plan.json", text, length);
 *     ... saving_commit(saving, &err) ...
 *     saving_end(saving);
 *
 * Each is written under a hidden name beside its place and flushed; then all are renamed and the folder is flushed. Where
 * several are renamed a list of them stands in the folder meanwhile: who is killed in between has the renaming finished by
 * the next that saves there. A link is never written through. Modes are those of the umask. */
#ifndef FORMAT_SAVE_H
#define FORMAT_SAVE_H

#include "format/file.h"

struct saving;

/* Opens the folder (making it where asked), waits a few seconds for another writer, and finishes what one that was killed
 * had begun. NULL: *err. It lasts until saving_end, or as long as the arena. */
struct saving *saving_begin(struct arena *arena, const char *folder, bool make, struct err *err);

/* The file that stands there now under a name. False: *err, or (err->code ERR_NONE) there is none. */
bool saving_load(const struct saving *saving, const char *name, struct file_text *file, struct err *err);

/* A file of the set, text borrowed; in a folder of this one that is there as well ("finishes/oil.json"), through no link. */
void saving_add(struct saving *saving, const char *name, const char *text, size_t length);

/* Puts them in their places. False: err->file says which could not be; all are what they were, but where it was the disk alone that did
 * not confirm it: then they are in their places, and *err says so. */
bool saving_commit(struct saving *saving, struct err *err);

/* Takes a file of the folder away, if it is there. */
void saving_drop(const struct saving *saving, const char *name);

/* Adds a text behind the first `keep` bytes of a file of the folder, which is made where it is missing, and flushes it to the
 * disk: what is known to be added outlasts a kill. What stood behind those bytes goes. Where they end without a line end one
 * comes between. False: *err, and those bytes are what they were. */
bool saving_append(const struct saving *saving, const char *name, size_t keep, const char *text,
                   size_t length, struct err *err);

/* Lets the next writer in. A folder that was made for nothing is taken away. */
void saving_end(struct saving *saving);

struct copy_file {
    const char *name; /* below the folder; "finishes/oil.json" makes the folder between as well */
    const char *text;
    size_t length;
};

/* A new folder of files, put together beside its place under a hidden name and renamed. It must be missing or empty, what it
 * stands in be there. False: *err, and everything is as it was. */
bool copy_make(struct arena *arena, const char *folder, const struct copy_file *files, size_t count,
               struct err *err);

/* Whether a path leads to a device or a pipe, and writing into it. */
bool save_is_stream(const char *path);
bool save_stream(const char *path, const char *text, size_t length, struct err *err);

#endif
