/* What the readers share: where to keep, where to tell, and the texts read so far, so that a mistake found later, by a
 * room that knows no files, gets its line and column from its file's name and pointer. */
#ifndef FORMAT_TEXTS_H
#define FORMAT_TEXTS_H

#include "base/err.h"
#include "format/file.h"

struct texts;

struct reading {
    struct arena *arena;
    struct texts *texts;
    struct err_list *errors, *warnings;
};

enum text_kind { TEXT_JSON, TEXT_CSV };

struct texts *texts_make(struct arena *arena);

/* Keeps a well-formed text (borrowed: it must live as long) under its name; the same name again replaces it. */
void texts_add(struct texts *texts, const struct file_text *file, enum text_kind kind);

/* Mistakes told so far, those beyond the list's end included: a reader compares it before and after. */
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
/* Whether a file is text: UTF-8 without a NUL; if not, its first bad byte is told, against what was expected. */
bool text_check(struct err_list *list, const struct file_text *file, const char *expected);
/* The same as a warning: a sentence. */
void text_warn(struct err_list *list, const struct file_text *file, size_t at, const char *pointer,
               const char *sentence);

#endif
