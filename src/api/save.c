#include "api/session.h"

#include "base/buf.h"
#include "format/save.h"

#include <string.h>

/* Reports on their way into the files of a folder. */
struct save_call {
    enum coatwright_report report;
    enum coatwright_format format;
    const char *name;
};

/* A slip of the hand must not cost the maker the job: what was read is not written over. */
static bool may_replace(struct coatwright *session, const char *path)
{
    bool read = session->reading.texts && texts_has_read(session->reading.texts, path);
    for (size_t i = 0; i < session->together_count; i++)
        read |= texts_has_read(session->together_texts[i], path);
    if (read)
        err_add(&session->errors, ERR_USAGE, path, NULL, "another file than those of the job",
                "one that was read");
    return !read;
}

/* The calendar that is replaced goes into the new one; *previous stays NULL where there is none. */
static bool previous_of(struct coatwright *session, const struct saving *saving, const struct save_call *call,
                        const char *path, const struct file_text **previous)
{
    struct file_text *file = ARENA_NEW(session->arena, struct file_text);
    struct err err;
    if (call->format != COATWRIGHT_ICALENDAR)
        return true;
    if (saving_load(saving, call->name, file, &err))
        *previous = file;
    return *previous || err.code == ERR_NONE || session_file_failed(session, path, &err);
}

static const char *path_in(struct coatwright *session, const char *folder, const char *name)
{
    return strcmp(folder, ".") == 0 ? name : arena_textf(session->arena, "%s/%s", folder, name);
}

static bool add(struct coatwright *session, struct saving *saving, const char *folder,
                const struct save_call *call)
{
    const struct file_text *previous = NULL;
    if (!previous_of(session, saving, call, path_in(session, folder, call->name), &previous))
        return false;
    const struct buf *text = session_write(session, call->report, call->format, previous);
    if (text)
        saving_add(saving, call->name, text->text, text->length);
    return text != NULL;
}

/* The keys of a calendar are drawn under a lock of their own, in what may be the same folder. */
static bool may_begin(struct coatwright *session, const char *folder, const struct save_call *calls,
                      size_t count)
{
    bool good = true, calendar = false;
    for (size_t i = 0; i < count && good; i++) {
        good = may_replace(session, path_in(session, folder, calls[i].name));
        calendar |= calls[i].format == COATWRIGHT_ICALENDAR;
    }
    return good && (!calendar || session_draw_keys(session));
}

static bool save_files(struct coatwright *session, const char *folder, bool make,
                       const struct save_call *calls, size_t count)
{
    struct err err;
    if (!may_begin(session, folder, calls, count))
        return false;
    struct saving *saving = saving_begin(session->arena, folder, make, &err);
    bool good = saving || session_file_failed(session, folder, &err);
    for (size_t i = 0; i < count && good; i++)
        good = add(session, saving, folder, &calls[i]);
    if (good)
        good = saving_commit(saving, &err) || session_file_failed(session, folder, &err);
    if (saving)
        saving_end(saving);
    return good;
}

static bool save(struct coatwright *session, void *argument)
{
    struct save_call call = *(const struct save_call *)argument;
    const char *path = call.name;
    struct err err;
    if (!save_is_stream(path)) {
        call.name = path_last(path);
        return save_files(session, path_folder(session->arena, path), false, &call, 1);
    }
    const struct buf *text = session_write(session, call.report, call.format, NULL);
    return text &&
           (save_stream(path, text->text, text->length, &err) || session_file_failed(session, path, &err));
}

bool coatwright_save(struct coatwright *session, enum coatwright_report report, enum coatwright_format format,
                     const char *path)
{
    struct save_call call = {report, format, path};
    return session_given(session, path, "the name of a file") && session_guard(session, save, &call);
}

static bool save_all(struct coatwright *session, void *argument)
{
    static const struct save_call files[] = {
        {COATWRIGHT_PLAN, COATWRIGHT_JSON, "plan.json"},
        {COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR, "timetable.ics"},
        {COATWRIGHT_BUY, COATWRIGHT_CSV, "shopping.csv"},
        {COATWRIGHT_SHEET, COATWRIGHT_HTML, "sheet.html"},
    };
    const char *folder = ((const struct text_call *)argument)->text;
    return save_files(session, folder, true, files, sizeof files / sizeof files[0]);
}

bool coatwright_save_all(struct coatwright *session, const char *folder)
{
    struct text_call call = {folder, 0, NULL};
    return session_given(session, folder, "the name of a folder") && session_guard(session, save_all, &call);
}
