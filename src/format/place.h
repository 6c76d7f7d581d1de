/* From a pointer to its line and column, and what the readers share: where to keep, where to tell, and the texts read so far, so that a mistake found later, by a
 * room that knows no files, gets its line and column from its file's name and pointer. */
#ifndef FORMAT_PLACE_H
#define FORMAT_PLACE_H

#include "base/err.h"
#include "format/file.h"

struct given_files;
struct texts;

struct reading {
    struct arena *arena;
    struct texts *texts;
    struct err_list *errors, *warnings;
    const struct given_files *given; /* looked at before the file system; NULL: none */
};

struct place {
    int line, column; /* from 1; columns count characters; a byte-order mark is none */
};

/* The place of a byte; at or behind the end, the place just behind the last character. A line ends with LF, CR LF or CR. */
struct place place_at(const char *text, size_t length, size_t offset);

/* The offset of what a pointer names, or of its nearest ancestor that is there, by what the reader of the text kept. */
typedef size_t text_locate(struct arena *arena, const void *kept, const struct file_text *file,
                           const char *pointer);

struct texts *texts_make(struct arena *arena);

/* Keeps a well-formed text (borrowed: it must live as long) under its name; the same name again replaces it. */
void texts_add(struct texts *texts, const struct file_text *file, text_locate *locate, const void *kept);

/* Reads a file as file_load does or, with a rule (what a job names), as file_load_named; and remembers which file it was.
 * What was given under that name comes first. */
bool reading_load(const struct reading *reading, const struct path_rule *rule, const char *path,
                  struct file_text *file, struct err *err);
/* The same of file_open_named, given files apart. */
int reading_open(const struct reading *reading, struct path_rule rule, const char *path, struct err *err);
/* The files of a folder that a job names: those given, and those in the file system under other names. */
bool reading_list(const struct reading *reading, struct path_rule rule, const char *folder,
                  const char *ending, struct file_list *list, struct err *err);
/* Whether there is nothing of that name to be loaded with a rule. */
bool reading_missing(const struct reading *reading, const char *path);
/* Each file that was read, in that order (text NULL: a mesh); NULL: there are no more. */
const struct file_text *texts_read(const struct texts *texts, size_t index);
/* Whether one of the files read stands under this name, or under another name of the same file. */
bool texts_has_read(const struct texts *texts, const char *path);

/* Mistakes reported so far, those beyond the list's end included: a reader compares it before and after. */
size_t reading_mistakes(const struct reading *reading);

/* Fills in the line and column of every entry that has none and whose file was added. */
void texts_locate(const struct texts *texts, struct err_list *list);

/* Puts the entries in the order of reading: file by file as they first appear, then by place. */
void texts_order(struct err_list *list);

/* Counts one more where the list is full: then neither its words nor its place are worth the search. */
bool list_full(struct err_list *list);

/* Adds a mistake at a byte of a text; the item, or NULL where the list is full. */
struct err *text_wrong(struct err_list *list, const struct file_text *file, size_t at, const char *pointer,
                       const char *expected, const char *found);
/* Whether a file is text: UTF-8 without a NUL; if not, its first bad byte is reported, with what was expected. */
bool text_check(struct err_list *list, const struct file_text *file, const char *expected);
/* The same as a warning: a sentence. */
void text_warn(struct err_list *list, const struct file_text *file, size_t at, const char *pointer,
               const char *sentence);

#endif
