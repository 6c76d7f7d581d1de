/* Makes one of the changes that would help: in the files of the job, or in a copy of them. */
#include "api/session.h"

#include "base/buf.h"
#include "format/json_tree.h"
#include "format/save.h"
#include "format/words.h"
#include "report/sentences.h"

#include <string.h>

enum { FILES_MOST = 1000 };

/* A file of the job, as it is and as it is to be. */
struct changed_file {
    const char *path;
    struct file_text was;
    const char *text;
    size_t length;
};

struct applying {
    struct coatwright *session;
    const struct advice *advice;
    struct changed_file *files;
    size_t count;
};

/* The line of a number from 1; NULL: there is none, which is reported. */
static const struct advice *line_of(struct coatwright *session, size_t number)
{
    size_t count = session->plan ? session->plan->advice.count : 0;
    if (number >= 1 && number <= count)
        return &session->plan->advice.items[number - 1];
    err_add(&session->errors, ERR_USAGE, NULL, NULL,
            count ? arena_textf(session->arena, "the number of a line of what would help, 1 to %zu", count)
                  : "a plan with lines of what would help",
            count ? arena_textf(session->arena, "%zu", number) : "none");
    return NULL;
}

static bool load(struct coatwright *session, const char *path, struct file_text *file)
{
    struct err err;
    return file_load(session->arena, path, file, &err) || session_file_failed(session, path, &err);
}

/* The file of a path among those that change, loaded where it is a new one; NULL: it cannot be. */
static struct changed_file *file_of(struct applying *a, const char *path)
{
    for (size_t i = 0; i < a->count; i++)
        if (strcmp(a->files[i].path, path) == 0)
            return &a->files[i];
    struct changed_file *file = &a->files[a->count];
    if (!load(a->session, path, &file->was))
        return NULL;
    file->path = path;
    file->text = file->was.text;
    file->length = file->was.length;
    a->count++;
    return file;
}

static bool change_file(struct applying *a, const char *path, const char *patch)
{
    struct buf out;
    struct changed_file *file = file_of(a, path);
    if (!file)
        return false;
    struct file_text now = {.name = path, .text = file->text, .length = file->length};
    buf_init(&out, a->session->arena);
    if (!json_merge(a->session->arena, &now, patch, &out)) {
        err_add(&a->session->errors, ERR_FILE, path, NULL, "the file as it was read", "another one");
        return false;
    }
    file->text = out.text;
    file->length = out.length;
    return true;
}

static bool change_files_of(struct applying *a)
{
    struct arena *arena = a->session->arena;
    size_t most = 0;
    for (size_t i = 0; i < a->advice->change_count; i++)
        most += a->advice->changes[i].file_count;
    a->files = ARENA_ARRAY(arena, most, struct changed_file);
    for (size_t i = 0; i < a->advice->change_count; i++) {
        const struct advice_change *change = &a->advice->changes[i];
        for (size_t k = 0; k < change->file_count; k++)
            if (!change_file(a, change->files[k], change_patch(arena, change)))
                return false;
    }
    return true;
}

/* Those of one folder, from number `first` on, as they are to be or as they were. */
static bool write_folder(const struct applying *a, size_t first, bool back)
{
    struct coatwright *session = a->session;
    const char *folder = path_folder(session->arena, a->files[first].path);
    struct err err;
    struct saving *saving = saving_begin(session->arena, folder, false, &err);
    if (!saving)
        return session_file_failed(session, folder, &err);
    for (size_t i = first; i < a->count; i++) {
        const struct changed_file *file = &a->files[i];
        if (strcmp(path_folder(session->arena, file->path), folder) == 0)
            saving_add(saving, path_last(file->path), back ? file->was.text : file->text,
                       back ? file->was.length : file->length);
    }
    bool good = saving_commit(saving, &err) || session_file_failed(session, folder, &err);
    saving_end(saving);
    return good;
}

/* Whether a file is the first of its folder. */
static bool opens_folder(const struct applying *a, size_t index)
{
    struct arena *arena = a->session->arena;
    const char *folder = path_folder(arena, a->files[index].path);
    for (size_t i = 0; i < index; i++)
        if (strcmp(path_folder(arena, a->files[i].path), folder) == 0)
            return false;
    return true;
}

static bool may_write(struct coatwright *session, const char *path)
{
    if (!file_read_only(path))
        return true;
    err_add(&session->errors, ERR_FILE, path, NULL, "a file that can be written",
            "no permission to write there");
    return false;
}

/* Folder by folder; where one cannot be written those before it become what they were. */
static bool write_in_place(struct applying *a)
{
    for (size_t i = 0; i < a->count; i++)
        if (!may_write(a->session, a->files[i].path))
            return false;
    for (size_t i = 0; i < a->count; i++) {
        if (!opens_folder(a, i) || write_folder(a, i, false))
            continue;
        for (size_t k = 0; k < i; k++)
            if (opens_folder(a, k))
                (void)write_folder(a, k, true);
        return false;
    }
    return true;
}

/* What follows the folder and its slash; NULL: the path does not lead below it. */
static const char *below(const char *folder, const char *path)
{
    size_t length = strlen(folder);
    if (strcmp(folder, ".") == 0 && path[0] != '/')
        return strncmp(path, "./", 2) == 0 ? path + 2 : path;
    return strncmp(path, folder, length) == 0 && path[length] == '/' ? path + length + 1 : NULL;
}

static bool leads_up(const char *name)
{
    return strncmp(name, "../", 3) == 0 || strstr(name, "/../") != NULL;
}

/* Its name in a copy; NULL: it is none of the job's folder, which is reported. */
static const char *name_in_copy(struct coatwright *session, const char *path)
{
    const char *name = below(path_folder(session->arena, session->job->file), path);
    if (name && !leads_up(name))
        return name;
    err_add(&session->errors, ERR_USAGE, path, NULL,
            "files below the folder of the job, to be copied with it", "one beside them");
    return NULL;
}

static bool add_copy(const struct applying *a, const char *path, struct copy_file *copy)
{
    struct file_text file;
    copy->name = name_in_copy(a->session, path);
    if (!copy->name)
        return false;
    for (size_t i = 0; i < a->count; i++)
        if (strcmp(a->files[i].path, path) == 0) {
            copy->text = a->files[i].text;
            copy->length = a->files[i].length;
            return true;
        }
    if (!load(a->session, path, &file))
        return false;
    copy->text = file.text;
    copy->length = file.length;
    return true;
}

static bool listed(const struct copy_file *copies, size_t count, const char *name)
{
    for (size_t i = 0; i < count; i++)
        if (name && strcmp(copies[i].name, name) == 0)
            return true;
    return false;
}

/* Every file that was read, but the finishes that came with the program. */
static bool write_copy(const struct applying *a, const char *folder)
{
    struct coatwright *session = a->session;
    struct copy_file *copies = ARENA_ARRAY(session->arena, FILES_MOST, struct copy_file);
    const char *job_folder = path_folder(session->arena, session->job->file);
    const struct file_text *file;
    struct err err;
    size_t count = 0;
    for (size_t i = 0; (file = texts_read(session->reading.texts, i)) != NULL && count < FILES_MOST; i++) {
        const char *path = file->name;
        if (below(session_finishes(session), path) || listed(copies, count, below(job_folder, path)))
            continue;
        if (!add_copy(a, path, &copies[count]))
            return false;
        count++;
    }
    return copy_make(session->arena, folder, copies, count, &err) ||
           session_file_failed(session, folder, &err);
}

static bool apply(struct coatwright *session, void *argument)
{
    const struct text_call *call = argument;
    struct applying a = {.session = session, .advice = line_of(session, call->length)};
    if (!a.advice)
        return false;
    if (a.advice->change_count == 0) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "a line that changes a file",
                "one that is an option");
        return false;
    }
    if (strcmp(session->job->file, "-") == 0 || session->given.count > 0) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "a job in a file", "one without");
        return false;
    }
    if (!change_files_of(&a) || !(call->text ? write_copy(&a, call->text) : write_in_place(&a)))
        return false;
    session->applied = call->text
                           ? arena_textf(session->arena, "%s/%s", call->text, path_last(session->job->file))
                           : session->job->file;
    return true;
}

const char *coatwright_apply(struct coatwright *session, size_t number, const char *folder)
{
    struct text_call call = {folder, number, NULL};
    return session_guard(session, apply, &call) ? session->applied : NULL;
}

static bool say(struct coatwright *session, void *argument)
{
    struct text_call *call = argument;
    const struct advice *advice = line_of(session, call->length);
    if (!advice)
        return false;
    struct buf text;
    buf_init(&text, session->arena);
    buf_addf(&text, "%zu. %s", call->length,
             advice_sentence(session->arena, advice, session->job->zone, session_units(session)));
    words_shown(&text, false);
    call->text = text.text;
    return true;
}

size_t coatwright_advice_count(struct coatwright *session)
{
    return session && session->plan ? session->plan->advice.count : 0;
}

const char *coatwright_advice(struct coatwright *session, size_t number)
{
    struct text_call call = {NULL, number, NULL};
    return session_guard(session, say, &call) ? call.text : NULL;
}
