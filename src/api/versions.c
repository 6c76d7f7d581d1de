/* Texts of a folder of jobs saved together, and what they replace kept beside them. */
#include "api/session.h"

#include "coatwright_folder.h"
#include "base/number.h"
#include "format/save.h"

#include <stdio.h>
#include <string.h>

enum {
    VERSIONS_MOST = 20,
    NAME_LONGEST = 190,
    ROW_DIGITS = 6,
    VERSION_LENGTH = COATWRIGHT_TEXT_VERSION_SIZE - 1
};

/* A file of a folder of versions: "desk.json.000012.<version>". */
struct kept {
    const char *file;
    struct coatwright_version_kept told;
};

struct versions {
    const char *folder; /* in which they lie */
    struct kept *items; /* the oldest first */
    size_t count;
};

/* What is asked of a folder. */
struct folder_call {
    const char *folder;
    const char *name;                    /* of one file ... */
    const char *const *names;            /* ... or of several ... */
    const struct coatwright_text *texts; /* ... or texts for them */
    size_t count, *conflict;
    struct file_text found;
};

/* ---- Reading. */

static bool read_text(struct coatwright *session, void *argument)
{
    struct folder_call *call = argument;
    const char *path = session_path(session, call->folder, call->name);
    struct path_rule rule = {arena_textf(session->arena, "%s/.", call->folder), false};
    struct err err;
    if (!path)
        return false;
    return file_load_named(session->arena, rule, path, &call->found, &err) ||
           session_file_failed(session, path, &err);
}

const char *coatwright_folder_text(struct coatwright *session, const char *folder, const char *name,
                                   size_t *length)
{
    struct folder_call call = {.folder = folder, .name = name};
    if (!session_given(session, folder, "a folder") || !session_given(session, name, "a name") ||
        !session_guard(session, read_text, &call))
        return NULL;
    if (length)
        *length = call.found.length;
    return call.found.text;
}

/* ---- Versions. */

/* Where the versions of a file lie. */
static const char *folder_of(struct coatwright *session, const char *folder, const char *name)
{
    return arena_textf(session->arena, "%s/.versions",
                       path_folder(session->arena, arena_textf(session->arena, "%s/%s", folder, name)));
}

/* Whether it is a version of a file of that name. */
static bool is_version(const char *file, const char *name)
{
    size_t length = strlen(name);
    return strncmp(file, name, length) == 0 && file[length] == '.' &&
           strspn(file + length + 1, "0123456789") == ROW_DIGITS && file[length + 1 + ROW_DIGITS] == '.' &&
           strlen(file + length + 2 + ROW_DIGITS) == VERSION_LENGTH;
}

/* A folder that is not there holds none. */
static struct versions find_versions(struct coatwright *session, const char *folder, const char *name)
{
    struct versions versions = {.folder = folder_of(session, folder, name)};
    struct path_rule rule = {arena_textf(session->arena, "%s/.", folder), false};
    struct file_list list;
    struct err unheard;
    if (!file_list(session->arena, rule, versions.folder, "", &list, &unheard))
        return versions;
    versions.items = ARENA_ARRAY(session->arena, list.count, struct kept);
    for (size_t i = 0; i < list.count; i++) {
        struct file_state state;
        const char *file = path_last(list.paths[i]);
        if (!is_version(file, path_last(name)) || !file_look(list.paths[i], &state))
            continue;
        versions.items[versions.count++] = (struct kept){
            file, {file + strlen(file) - VERSION_LENGTH, state.modified_s, (size_t)state.length}};
    }
    return versions;
}

static bool put_version(struct coatwright *session, const struct versions *versions, const char *file,
                        const struct file_text *text)
{
    struct err err;
    struct saving *saving = saving_begin(session->arena, versions->folder, true, &err);
    if (!saving)
        return session_file_failed(session, versions->folder, &err);
    saving_add(saving, file, text->text, text->length);
    bool good = saving_commit(saving, &err) || session_file_failed(session, versions->folder, &err);
    for (size_t i = 0; good && i + VERSIONS_MOST <= versions->count; i++)
        saving_drop(saving, versions->items[i].file);
    saving_end(saving);
    return good;
}

/* Keeps a text that is about to be replaced, unless it is the last that was kept. */
static bool keep(struct coatwright *session, const char *folder, const char *name,
                 const struct file_text *text)
{
    struct versions versions = find_versions(session, folder, name);
    const char *last = versions.count ? versions.items[versions.count - 1].file : "";
    char version[COATWRIGHT_TEXT_VERSION_SIZE], number[ROW_DIGITS + 1] = "0";
    int64_t before = 0;
    coatwright_text_version(text->text, text->length, version);
    if (versions.count && strcmp(versions.items[versions.count - 1].told.version, version) == 0)
        return true;
    if (strlen(path_last(name)) > NAME_LONGEST)
        return session_misused(session, "a shorter name of a file", name);
    if (*last)
        memcpy(number, last + strlen(path_last(name)) + 1, ROW_DIGITS);
    (void)count_parse(number, 999998, &before, NULL);
    return put_version(session, &versions,
                       arena_textf(session->arena, "%s.%06d.%s", path_last(name), (int)before + 1, version),
                       text);
}

static bool keep_all(struct coatwright *session, void *argument)
{
    const struct folder_call *call = argument;
    struct file_text file;
    struct err err;
    bool good = true;
    struct saving *saving = saving_begin(session->arena, call->folder, false, &err);
    if (!saving)
        return session_file_failed(session, call->folder, &err);
    for (size_t i = 0; i < call->count && good; i++) {
        const char *path = session_path(session, call->folder, call->names[i]);
        if (!path)
            good = false;
        else if (saving_load(saving, call->names[i], &file, &err))
            good = keep(session, call->folder, call->names[i], &file);
        else
            good = err.code == ERR_NONE || session_file_failed(session, path, &err);
    }
    saving_end(saving);
    return good;
}

bool coatwright_keep_versions(struct coatwright *session, const char *folder, const char *const *names,
                              size_t count)
{
    struct folder_call call = {.folder = folder, .names = names, .count = count};
    return session_given(session, folder, "a folder") && session_given(session, names, "names") &&
           session_guard(session, keep_all, &call);
}

static bool list_versions(struct coatwright *session, void *argument)
{
    const struct folder_call *call = argument;
    if (!session_path(session, call->folder, call->name))
        return false;
    session->versions = ARENA_NEW(session->arena, struct versions);
    *session->versions = find_versions(session, arena_text(session->arena, call->folder), call->name);
    return true;
}

bool coatwright_list_versions(struct coatwright *session, const char *folder, const char *name)
{
    struct folder_call call = {.folder = folder, .name = name};
    return session_given(session, folder, "a folder") && session_given(session, name, "a name") &&
           session_guard(session, list_versions, &call);
}

size_t coatwright_version_count(struct coatwright *session)
{
    return session && session->versions ? session->versions->count : 0;
}

const struct coatwright_version_kept *coatwright_version_kept(struct coatwright *session, size_t index)
{
    size_t count = coatwright_version_count(session);
    return index < count ? &session->versions->items[count - 1 - index].told : NULL;
}

static bool read_version(struct coatwright *session, void *argument)
{
    struct folder_call *call = argument;
    const struct versions *versions = session->versions;
    struct err err;
    for (size_t i = versions ? versions->count : 0; i-- > 0;) {
        if (strcmp(versions->items[i].told.version, call->name) != 0)
            continue;
        const char *path = arena_textf(session->arena, "%s/%s", versions->folder, versions->items[i].file);
        struct path_rule rule = {path, false};
        return file_load_named(session->arena, rule, path, &call->found, &err) ||
               session_file_failed(session, path, &err);
    }
    return session_misused(session, "a version that was kept", call->name);
}

const char *coatwright_version_text(struct coatwright *session, const char *version, size_t *length)
{
    struct folder_call call = {.name = version};
    if (!session_given(session, version, "a version") || !session_guard(session, read_version, &call))
        return NULL;
    if (length)
        *length = call.found.length;
    return call.found.text;
}

/* ---- Saving. */

static bool is_same(const struct file_text *file, const struct coatwright_text *text)
{
    return file->text && file->length == text->length &&
           (text->length == 0 || memcmp(file->text, text->text, text->length) == 0);
}

/* Whether a file is what the caller had read; *there: it is there at all. */
static bool is_as_read(struct coatwright *session, const struct coatwright_text *text,
                       const struct file_text *now, bool there)
{
    char version[COATWRIGHT_TEXT_VERSION_SIZE] = "";
    if (there)
        coatwright_text_version(now->text, now->length, version);
    if (there ? text->version && strcmp(text->version, version) == 0 : !text->version)
        return true;
    err_add(&session->errors, ERR_FILE, text->name, NULL, "the file as it was read",
            there ? "one that somebody has changed since" : "none: somebody has taken it away");
    return false;
}

/* Compares all before any is kept. What stands there already needs no saving: one who was told of a disk that failed at the very end
 * may ask once more. */
static bool compare(struct coatwright *session, const struct folder_call *call, const struct saving *saving,
                    struct file_text *now)
{
    for (size_t i = 0; i < call->count; i++) {
        struct err err;
        bool there = saving_load(saving, call->texts[i].name, &now[i], &err);
        if (!there && err.code != ERR_NONE)
            return session_file_failed(session, session_path(session, call->folder, call->texts[i].name),
                                       &err);
        if (!is_same(&now[i], &call->texts[i]) && !is_as_read(session, &call->texts[i], &now[i], there)) {
            *call->conflict = i + 1;
            return false;
        }
    }
    return true;
}

static bool save_all(struct coatwright *session, const struct folder_call *call, struct saving *saving)
{
    struct file_text *now = ARENA_ARRAY(session->arena, call->count, struct file_text);
    struct err err;
    if (!compare(session, call, saving, now))
        return false;
    for (size_t i = 0; i < call->count; i++) {
        const struct coatwright_text *text = &call->texts[i];
        if (is_same(&now[i], text))
            continue;
        if (now[i].text && !keep(session, call->folder, text->name, &now[i]))
            return false;
        saving_add(saving, text->name, text->text, text->length);
    }
    return saving_commit(saving, &err) || session_file_failed(session, call->folder, &err);
}

/* The texts as this library knows the struct, whatever the caller's size of it. */
static const struct coatwright_text *full_texts(struct coatwright *session, const struct folder_call *call)
{
    struct coatwright_text *texts = ARENA_ARRAY(session->arena, call->count, struct coatwright_text);
    size_t step = call->count ? call->texts->size : 0;
    for (size_t i = 0; i < call->count; i++)
        memcpy(&texts[i], (const char *)call->texts + i * step, step < sizeof *texts ? step : sizeof *texts);
    return texts;
}

static bool save_texts(struct coatwright *session, void *argument)
{
    struct folder_call *call = argument;
    struct err err;
    call->texts = full_texts(session, call);
    for (size_t i = 0; i < call->count; i++)
        if (!session_given(session, call->texts[i].name, "a name") ||
            !session_given(session, call->texts[i].text, "a text") ||
            !session_path(session, call->folder, call->texts[i].name))
            return false;
    struct saving *saving = saving_begin(session->arena, call->folder, false, &err);
    if (!saving)
        return session_file_failed(session, call->folder, &err);
    bool good = save_all(session, call, saving);
    saving_end(saving);
    return good;
}

bool coatwright_save_texts(struct coatwright *session, const char *folder,
                           const struct coatwright_text *texts, size_t count, size_t *conflict)
{
    size_t at = 0;
    struct folder_call call = {.folder = folder, .texts = texts, .count = count, .conflict = &at};
    bool good = session_given(session, folder, "a folder") && session_given(session, texts, "texts") &&
                session_guard(session, save_texts, &call);
    if (conflict)
        *conflict = at;
    return good;
}
