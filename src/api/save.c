#include "api/write.h"

#include "base/buf.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct save_call {
    enum coatwright_report report;
    enum coatwright_format format;
    const char *path;
};

/* Only a plain file can be read before it is replaced: a pipe or a device would wait for ever. */
static const struct file_text *previous_of(struct coatwright *session, const struct save_call *call)
{
    struct stat there;
    struct err fault;
    struct file_text *file = ARENA_NEW(session->arena, struct file_text);
    if (call->format != COATWRIGHT_ICALENDAR || stat(call->path, &there) != 0 || !S_ISREG(there.st_mode))
        return NULL;
    return file_load(session->arena, call->path, file, &fault) ? file : NULL;
}

static const struct buf *text_of(struct coatwright *session, const struct save_call *call)
{
    return session_write(session, call->report, call->format, previous_of(session, call));
}

static bool same_file(const char *path, const char *other)
{
    struct stat a, b;
    return other && stat(path, &a) == 0 && stat(other, &b) == 0 && a.st_dev == b.st_dev &&
           a.st_ino == b.st_ino;
}

static bool is_input(const struct job *job, const char *path)
{
    const char *const inputs[] = {job->file, job->parts_file, job->shop_file};
    for (size_t i = 0; i < sizeof inputs / sizeof inputs[0]; i++)
        if (same_file(path, inputs[i]))
            return true;
    return false;
}

/* A slip of the hand must not cost the maker the job: what was read is not written over. */
static bool may_replace(struct coatwright *session, const char *path)
{
    bool read = is_input(session->job, path);
    for (size_t i = 0; i < session->together_count; i++)
        read |= is_input(session->together[i]->job, path);
    if (read)
        err_add(&session->errors, ERR_USAGE, path, NULL, "another file than those of the job",
                "one that was read");
    return !read;
}

static bool put(struct coatwright *session, const char *path, const struct buf *text)
{
    struct err fault;
    return file_save(path, text->text, text->length, &fault) || session_file_failed(session, path, &fault);
}

static bool save(struct coatwright *session, void *argument)
{
    const struct save_call *call = argument;
    const struct buf *text = text_of(session, call);
    return text && (!session->job || may_replace(session, call->path)) && put(session, call->path, text);
}

bool coatwright_save(struct coatwright *session, enum coatwright_report report, enum coatwright_format format,
                     const char *path)
{
    struct save_call call = {report, format, path};
    return session_guard(session, save, &call);
}

static bool folder_ready(struct coatwright *session, const char *folder)
{
    struct err fault;
    struct stat there;
    if (stat(folder, &there) == 0) {
        if (!S_ISDIR(there.st_mode))
            err_fill(&fault, ERR_FILE, "a folder to write into", "a file");
        else if (access(folder, W_OK | X_OK) != 0)
            err_fill(&fault, ERR_FILE, "a folder to write into", strerror(errno));
        else
            return true;
    } else if (mkdir(folder, 0777) == 0)
        return true;
    else
        err_fill(&fault, ERR_FILE, "a folder to write into", strerror(errno));
    return session_file_failed(session, folder, &fault);
}

static bool save_all(struct coatwright *session, void *argument)
{
    static const struct save_call files[] = {
        {COATWRIGHT_PLAN, COATWRIGHT_JSON, "plan.json"},
        {COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR, "timetable.ics"},
        {COATWRIGHT_BUY, COATWRIGHT_CSV, "shopping.csv"},
    };
    enum { FILES = sizeof files / sizeof files[0] };
    const struct buf *texts[FILES];
    const char *folder = ((const struct text_call *)argument)->text, *paths[FILES];
    for (size_t i = 0; i < FILES; i++) {
        struct save_call call = files[i];
        paths[i] = arena_textf(session->arena, "%s/%s", folder, files[i].path);
        call.path = paths[i];
        texts[i] = text_of(session, &call);
        if (!texts[i])
            return false;
    }
    for (size_t i = 0; i < FILES; i++)
        if (!may_replace(session, paths[i]))
            return false;
    if (!folder_ready(session, folder))
        return false;
    for (size_t i = 0; i < FILES; i++)
        if (!put(session, paths[i], texts[i]))
            return false;
    return true;
}

bool coatwright_save_all(struct coatwright *session, const char *folder)
{
    struct text_call call = {folder};
    return session_guard(session, save_all, &call);
}
