/* What is in a folder of jobs, and what a job was read from. */
#include "api/session.h"

#include "coatwright_folder.h"
#include "base/sha256.h"
#include "format/json.h"
#include "format/sheet.h"

#include <string.h>

struct name_call {
    const char *folder, *name, *path;
};

struct folder {
    struct coatwright_folder_file *files;
    size_t count, capacity;
};

/* What cannot be read counts as one: a job that is left out of a list would be lost in silence. */
bool session_is_job(struct coatwright *session, struct path_rule rule, const char *path)
{
    struct file_state state;
    struct err_list *unheard = ARENA_NEW(session->arena, struct err_list);
    struct reading reading = {session->arena, texts_make(session->arena), unheard, unheard, &session->given};
    struct json_at root;
    const char *format;
    if (!json_load(&reading, &rule, path, &root))
        return unheard->count > 0 && strcmp(unheard->items[0].expected, PATH_READABLE_FILE) == 0 &&
               file_look(path, &state);
    return json_is_object(root) && json_has(root, "format") &&
           json_text(json_member(root, "format"), "", &format) && strcmp(format, "coatwright-job/1") == 0;
}

/* What follows the folder and its slash; NULL: the path does not lead below it. */
static const char *name_below(const char *folder, const char *path)
{
    size_t length = strlen(folder);
    if (strcmp(folder, ".") == 0 && path[0] != '/')
        return strncmp(path, "./", 2) == 0 ? path + 2 : path;
    if (strncmp(path, folder, length) != 0)
        return NULL;
    path += length;
    return path[0] == '/' ? path + 1 : folder[length - 1] == '/' ? path : NULL;
}

static bool is_name(const char *name)
{
    size_t bad_at;
    if (!text_valid(name, strlen(name), &bad_at))
        return false;
    for (const char *at = name; *at;)
        if (text_is_control(text_next(&at)))
            return false;
    for (const char *at = name; at; at = strchr(at, '/') ? strchr(at, '/') + 1 : NULL)
        if (*at == '.' || *at == '/' || *at == '\0')
            return false;
    return true;
}

/* The files of one folder, and where it is the first those of the folders in it. */
static bool add_files(struct coatwright *session, const char *home, const char *path, bool first,
                      struct err *err)
{
    struct folder *folder = session->folder;
    struct path_rule rule = {arena_textf(session->arena, "%s/.", home), false};
    struct file_list list;
    if (!file_list(session->arena, rule, path, "", &list, err))
        return false;
    for (size_t i = 0; i < list.count; i++) {
        struct file_state state;
        struct err unheard;
        if (!is_name(name_below(home, list.paths[i])) || !file_look(list.paths[i], &state))
            continue;
        if (state.folder) {
            if (first)
                (void)add_files(session, home, list.paths[i], false, &unheard);
            continue;
        }
        bool job = first && path_ends(list.paths[i], ".json") && session_is_job(session, rule, list.paths[i]);
        folder->files = arena_grow(session->arena, folder->files, folder->count, &folder->capacity,
                                   sizeof *folder->files);
        folder->files[folder->count++] =
            (struct coatwright_folder_file){name_below(home, list.paths[i]), job, state.changed};
    }
    return true;
}

static bool list_folder(struct coatwright *session, void *argument)
{
    const char *path = arena_text(session->arena, ((const struct text_call *)argument)->text);
    struct err err;
    session->folder = ARENA_NEW(session->arena, struct folder);
    return add_files(session, path, path, true, &err) || session_file_failed(session, path, &err);
}

bool coatwright_list_folder(struct coatwright *session, const char *folder)
{
    struct text_call call = {folder, 0, NULL};
    return session_given(session, folder, "the name of a folder") &&
           session_guard(session, list_folder, &call);
}

size_t coatwright_folder_count(struct coatwright *session)
{
    return session && session->folder ? session->folder->count : 0;
}

const struct coatwright_folder_file *coatwright_folder_file(struct coatwright *session, size_t index)
{
    return index < coatwright_folder_count(session) ? &session->folder->files[index] : NULL;
}

/* The path of a name below a folder; an error says that it is none. */
const char *session_path(struct coatwright *session, const char *folder, const char *name)
{
    if (is_name(name))
        return arena_textf(session->arena, "%s/%s", folder, name);
    (void)session_misused(session, "the name of a file in the folder", name);
    return NULL;
}

static bool find_path(struct coatwright *session, void *argument)
{
    struct name_call *call = argument;
    call->path = session_path(session, call->folder, call->name);
    return call->path != NULL;
}

const char *coatwright_folder_path(struct coatwright *session, const char *folder, const char *name)
{
    struct name_call call = {folder, name, NULL};
    bool good = session_given(session, folder, "a folder") && session_given(session, name, "a name") &&
                session_guard(session, find_path, &call);
    return good ? call.path : NULL;
}

static bool is_job(struct coatwright *session, void *argument)
{
    const struct name_call *call = argument;
    struct path_rule rule = {arena_textf(session->arena, "%s/.", call->folder), false};
    return is_name(call->name) &&
           session_is_job(session, rule, arena_textf(session->arena, "%s/%s", call->folder, call->name));
}

bool coatwright_is_job(struct coatwright *session, const char *folder, const char *name)
{
    struct name_call call = {folder, name, NULL};
    return folder && name && session_guard(session, is_job, &call);
}

/* ---- What the job was read from. */

/* The file that a key of a JSON file names, as it was read; "" where it names none. */
static const char *named_by(struct arena *arena, const struct file_text *file, const char *pointer)
{
    struct err_list *unheard = ARENA_NEW(arena, struct err_list);
    const struct json_value *root = json_scan(arena, file, unheard);
    const struct json_value *at = root ? json_tree_find(root, pointer) : NULL;
    struct path_rule rule = {file->name, false};
    const char *path;
    struct err err;
    if (!at || at->kind != JSON_TEXT || !at->name || strcmp(at->name, pointer + 1) != 0)
        return "";
    const char *sheet = strchr(at->text, '#');
    const char *named = sheet ? arena_text_n(arena, at->text, (size_t)(sheet - at->text)) : at->text;
    return path_resolve(arena, rule, named, &path, &err) ? path : "";
}

/* What a file is to the job, by the key that names it in the job or in its shop, else by what it looks like. */
static const char *kind_of(struct arena *arena, const struct texts *texts, const struct file_text *file)
{
    static const char *const keys[] = {"/parts", "/shop", "/stock", "/prices", "/log"};
    const struct file_text *job = texts_read(texts, 0), *other;
    if (file == job)
        return "job";
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (strcmp(named_by(arena, job, keys[i]), file->name) == 0)
            return keys[i] + 1;
    const char *shop = named_by(arena, job, "/shop");
    for (size_t i = 1; (other = texts_read(texts, i)) != NULL; i++)
        if (strcmp(other->name, shop) == 0 && other->text &&
            strcmp(named_by(arena, other, "/prices"), file->name) == 0)
            return "prices";
    return path_ends(file->name, ".ics")    ? "busy"
           : path_ends(file->name, ".log")  ? "log"
           : path_ends(file->name, ".json") ? "finish"
                                            : "mesh";
}

static bool read_before(const struct texts *texts, size_t index)
{
    for (size_t i = 0; i < index; i++)
        if (strcmp(texts_read(texts, i)->name, texts_read(texts, index)->name) == 0)
            return true;
    return false;
}

static bool is_plain_text(const struct file_text *file)
{
    size_t bad_at;
    return file->text && !memchr(file->text, 0, file->length) &&
           text_valid(file->text, file->length, &bad_at);
}

static bool list_sources(struct coatwright *session, void *unused)
{
    const struct texts *texts = session->reading.texts;
    const struct file_text *file;
    size_t count = 0;
    (void)unused;
    while (texts && texts_read(texts, count))
        count++;
    session->sources = ARENA_ARRAY(session->arena, count + 1, struct coatwright_source);
    session->source_count = 0;
    const char *folder = count ? path_folder(session->arena, texts_read(texts, 0)->name) : ".";
    for (size_t i = 0; i < count; i++) {
        file = texts_read(texts, i);
        if (read_before(texts, i) || name_below(session_finishes(session), file->name))
            continue;
        bool plain = is_plain_text(file);
        session->sources[session->source_count++] = (struct coatwright_source){
            file->name, name_below(folder, file->name), kind_of(session->arena, texts, file),
            plain ? file->text : NULL, plain ? file->length : 0};
    }
    return true;
}

size_t coatwright_source_count(struct coatwright *session)
{
    if (session && !session->sources)
        (void)session_guard(session, list_sources, NULL);
    return session ? session->source_count : 0;
}

const struct coatwright_source *coatwright_source(struct coatwright *session, size_t index)
{
    return index < coatwright_source_count(session) ? &session->sources[index] : NULL;
}

/* ---- */

void coatwright_text_version(const char *text, size_t length, char version[COATWRIGHT_TEXT_VERSION_SIZE])
{
    struct sha256 hash = sha256_of(text, text ? length : 0);
    sha256_hex(&hash, COATWRIGHT_TEXT_VERSION_SIZE - 1, version);
}

static bool read_sheet(struct coatwright *session, void *argument)
{
    struct text_call *call = argument;
    struct file_text file = {.name = call->name, .text = call->text, .length = call->length};
    struct err err;
    if (!sheet_is(file.name))
        return session_misused(session, "a spreadsheet file (.xlsx or .ods)", file.name);
    if (!sheet_read(session->arena, &file, NULL, &file, &err)) {
        err_add(&session->errors, err.code, call->name, NULL, err.expected, err.found);
        return false;
    }
    call->text = file.text;
    return true;
}

const char *coatwright_sheet_text(struct coatwright *session, const char *name, const char *bytes,
                                  size_t length)
{
    struct text_call call = {bytes, length, name};
    bool good = session_given(session, name, "the name of a spreadsheet file") &&
                session_given(session, bytes, "the bytes of a spreadsheet file") &&
                session_guard(session, read_sheet, &call);
    return good ? call.text : NULL;
}

static bool read_secret(struct coatwright *session, void *argument)
{
    struct text_call *call = argument;
    if (!session_password(session, NULL, call->text, &call->name))
        return false;
    return *call->name || session_misused(session, "a secret in the first line of the file", call->text);
}

const char *coatwright_secret(struct coatwright *session, const char *path)
{
    struct text_call call = {path, 0, NULL};
    bool good =
        session_given(session, path, "the name of a file") && session_guard(session, read_secret, &call);
    return good ? call.name : NULL;
}
