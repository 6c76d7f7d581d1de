/* A folder of jobs, for programs in which people edit them: what is in it, the texts that a job was read from, several of them
 * saved together, and their earlier versions.
 *
 * A name is that of a file below the folder, as the jobs give it: "desk.json", "finishes/own-oil.json". Names that lead
 * elsewhere (absolute ones, "..", links), hidden ones (a part that begins with a dot) and those with control characters are
 * no names: errors of usage. No link is followed out of the folder, and none is written through. */
#ifndef COATWRIGHT_FOLDER_H
#define COATWRIGHT_FOLDER_H

#include "coatwright.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- What is in it. */

struct coatwright_folder_file {
    const char *name;
    bool job;         /* it says that it is one, with mistakes or not */
    uint64_t changed; /* differs as soon as somebody has written it */
};

/* Lists a folder: files in it, and those in the folders of it, hidden ones apart, by name; again, it looks anew. Errors: file (no such
 * folder), memory. */
COATWRIGHT_API bool coatwright_list_folder(struct coatwright *session, const char *folder);
COATWRIGHT_API size_t coatwright_folder_count(struct coatwright *session);
/* NULL: the index is not below the count; likewise below. */
COATWRIGHT_API const struct coatwright_folder_file *coatwright_folder_file(struct coatwright *session,
                                                                           size_t index);

/* The path of a name, as coatwright_read and coatwright_add_text take it, whether or not there is such a file. NULL: an error was added
 * (usage, memory). */
COATWRIGHT_API const char *coatwright_folder_path(struct coatwright *session, const char *folder,
                                                  const char *name);

/* Whether there is a job of that name, with mistakes or not. Cannot fail. */
COATWRIGHT_API bool coatwright_is_job(struct coatwright *session, const char *folder, const char *name);

/* ---- What a job was read from. */

struct coatwright_source {
    const char *path; /* as coatwright_read would take it */
    const char *name; /* below the folder of the job; NULL: outside of it */
    const char *kind; /* "job" "parts" "shop" "stock" "prices" "finish" "busy" "log" "mesh" */
    const char *text; /* as it was read; NULL: no text, such as a spreadsheet or a mesh */
    size_t length;
};

/* Each file that the job was read from, once, in the order of reading, those that came with the library apart; also after a
 * job with mistakes was refused. Texts of coatwright_add_text are none. */
COATWRIGHT_API size_t coatwright_source_count(struct coatwright *session);
COATWRIGHT_API const struct coatwright_source *coatwright_source(struct coatwright *session, size_t index);

/* ---- Reading and saving texts. */

enum { COATWRIGHT_TEXT_VERSION_SIZE = 33 };

/* What names the contents of a text: equal texts have equal versions, others do not (128 bits of SHA-256). Cannot fail. */
COATWRIGHT_API void coatwright_text_version(const char *text, size_t length,
                                            char version[COATWRIGHT_TEXT_VERSION_SIZE]);

/* The text that a file of the folder holds now, with a NUL behind it; *length may be NULL. NULL: an error was added (usage, file,
 * memory), or there is no such file, which is none. */
COATWRIGHT_API const char *coatwright_folder_text(struct coatwright *session, const char *folder,
                                                  const char *name, size_t *length);

/* The first sheet of a spreadsheet file (.xlsx or .ods, by its name) as text: a line for each row, tabs between the cells. NULL: an
 * error was added (usage: another kind of file; input: a file that is not whole or too large; memory). */
COATWRIGHT_API const char *coatwright_sheet_text(struct coatwright *session, const char *name,
                                                 const char *bytes, size_t length);

struct coatwright_text {
    size_t size; /* of this struct */
    const char *name, *text;
    size_t length;
    const char *version; /* of what the caller had read; NULL: a new file */
};
#define COATWRIGHT_TEXT_INIT                                                                                 \
    {                                                                                                        \
        sizeof(struct coatwright_text), NULL, NULL, 0, NULL                                                  \
    }

/* Writes all of the texts or none, on the disk before true is given. What they replace is kept (below). Where one of the
 * files is neither what the caller had read nor what is to be written, none is: *conflict (may be NULL) is its index + 1, else 0. Two
 * writers take turns. Errors: usage, file (also a conflict), memory. */
COATWRIGHT_API bool coatwright_save_texts(struct coatwright *session, const char *folder,
                                          const struct coatwright_text *texts, size_t count,
                                          size_t *conflict);

/* ---- Earlier versions: the last twenty of each file, in a hidden folder ".versions" beside it. */

struct coatwright_version_kept {
    const char *version;
    int64_t until_s; /* since 1970, when it was replaced */
    size_t length;
};

/* Keeps what stands in the files now, as saving does, before something else changes them. Errors: usage, file, memory. */
COATWRIGHT_API bool coatwright_keep_versions(struct coatwright *session, const char *folder,
                                             const char *const *names, size_t count);

/* Looks up the versions of a file, the newest first. Errors: usage, file, memory. */
COATWRIGHT_API bool coatwright_list_versions(struct coatwright *session, const char *folder,
                                             const char *name);
COATWRIGHT_API size_t coatwright_version_count(struct coatwright *session);
COATWRIGHT_API const struct coatwright_version_kept *coatwright_version_kept(struct coatwright *session,
                                                                             size_t index);

/* The text of one of those that were looked up; *length may be NULL. NULL: an error was added (usage, file, memory). */
COATWRIGHT_API const char *coatwright_version_text(struct coatwright *session, const char *version,
                                                   size_t *length);

/* ---- A secret of the program's own. */

/* The first line of a file which nobody but its owner, who must be asking, may read. NULL: an error was added (file, memory,
 * usage where the line is empty). */
COATWRIGHT_API const char *coatwright_secret(struct coatwright *session, const char *path);

#ifdef __cplusplus
}
#endif

#endif
