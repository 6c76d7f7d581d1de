#include "page/exchange.h"

#include "coatwright_folder.h"
#include "base/buf.h"
#include "base/moment.h"
#include "base/text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static void drop_json(void *json)
{
    json_decref(json);
}

json_t *exchange_keep(struct exchange *x, json_t *json)
{
    if (json)
        arena_own(x->arena, json, drop_json);
    return json;
}

void exchange_text(struct exchange *x, const char *type, const char *text)
{
    x->answer->type = type;
    x->answer->body = text;
    x->answer->length = strlen(text);
}

static int add_text(const char *text, size_t length, void *out)
{
    buf_add_n(out, text, length);
    return 0;
}

const char *json_written(struct arena *arena, const json_t *json)
{
    struct buf out;
    buf_init(&out, arena);
    bool good = json && json_dump_callback(json, add_text, &out, JSON_COMPACT | JSON_REAL_PRECISION(15)) == 0;
    return good ? out.text : NULL;
}

void exchange_json(struct exchange *x, json_t *json)
{
    (void)exchange_keep(x, json);
    const char *text = json_written(x->arena, json);
    if (!text)
        x->answer->status = 503;
    exchange_text(x, "application/json", text ? text : "{\"error\": \"there is no memory left for this\"}");
}

void exchange_refuse(struct exchange *x, int status, const char *sentence)
{
    x->answer->status = status;
    exchange_json(x, json_pack("{s:s}", "error", sentence));
}

void exchange_fail(struct exchange *x, struct coatwright *session)
{
    const struct coatwright_error *error;
    struct buf text;
    buf_init(&text, x->arena);
    for (size_t i = 0; (error = coatwright_error(session, i)) != NULL; i++) {
        char line[1200];
        struct coatwright_error named = *error;
        named.file = exchange_name(x, error->file);
        coatwright_error_line(&named, line, sizeof line);
        buf_addf(&text, "%s%s", i ? "; " : "", line);
    }
    error = coatwright_error(session, 0);
    int status = !error                             ? 500
                 : error->code == COATWRIGHT_MEMORY ? 503
                 : error->code == COATWRIGHT_FILE   ? 500
                                                    : 422;
    exchange_refuse(x, status, text.length ? text.text : "something went wrong");
}

/* ---- Sessions. */

static void close_session(void *session)
{
    coatwright_close(session);
}

struct coatwright *exchange_open(struct exchange *x, const struct coatwright_options *options)
{
    struct coatwright *session = coatwright_open(options);
    if (!session)
        arena_run_out(x->arena);
    arena_own(x->arena, session, close_session);
    return session;
}

const char *moment_text(const struct exchange *x, int64_t minute)
{
    static const struct zone utc = {"UTC", 0, NULL};
    return arena_text(x->arena, moment_format(&utc, minute, MOMENT_RFC3339).text);
}

static bool goes_on(void *page, const struct coatwright_progress *progress)
{
    (void)progress;
    return !page_ends(page);
}

struct coatwright_options exchange_options(struct exchange *x, int64_t effort, bool advice)
{
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    options.memory_ceiling = PAGE_MEMORY;
    options.finishes = x->settings->finishes;
    options.now = x->settings->now ? x->settings->now : moment_text(x, (int64_t)time(NULL) / 60);
    options.effort = effort;
    options.advice = advice;
    options.progress = goes_on;
    options.caller = x->page;
    return options;
}

struct coatwright *exchange_session(struct exchange *x, int64_t effort, bool advice)
{
    struct coatwright_options options = exchange_options(x, effort, advice);
    return exchange_open(x, &options);
}

/* ---- Names. */

bool session_met(struct coatwright *session, enum coatwright_code code)
{
    const struct coatwright_error *error;
    for (size_t i = 0; (error = coatwright_error(session, i)) != NULL; i++)
        if (error->code == code)
            return true;
    return false;
}

/* What a session gave, or NULL where there is none; where its memory ended, the exchange ends. */
static const char *given(const struct exchange *x, struct coatwright *session, const char *text)
{
    if (!text && session_met(session, COATWRIGHT_MEMORY))
        arena_run_out(x->arena);
    return text;
}

const char *exchange_path(struct exchange *x, const char *name)
{
    struct coatwright *session = exchange_session(x, 0, false);
    return given(x, session, coatwright_folder_path(session, x->settings->folder, name));
}

const char *exchange_name(const struct exchange *x, const char *path)
{
    size_t length = strlen(x->settings->folder);
    bool below = strncmp(path, x->settings->folder, length) == 0 && path[length] == '/';
    return below ? path + length + 1 : path;
}

const char *exchange_job(struct exchange *x, const char *name)
{
    const char *path = name && !strchr(name, '/') ? exchange_path(x, name) : NULL;
    struct coatwright *session = path ? exchange_session(x, 0, false) : NULL;
    if (session && coatwright_is_job(session, x->settings->folder, name))
        return path;
    exchange_refuse(x, 404, "there is no such job in the folder");
    return NULL;
}

/* ---- JSON of sessions. */

const char *text_of(const json_t *object, const char *key)
{
    return json_string_value(json_object_get(object, key));
}

void member_put(const struct exchange *x, json_t *object, const char *key, json_t *value)
{
    if (json_object_set_new(object, key, value) != 0)
        arena_run_out(x->arena);
}

void item_put(const struct exchange *x, json_t *list, json_t *value)
{
    if (json_array_append_new(list, value) != 0)
        arena_run_out(x->arena);
}

json_t *report_json(const struct exchange *x, struct coatwright *session, enum coatwright_report report)
{
    const char *text = given(x, session, coatwright_write(session, report, COATWRIGHT_JSON));
    json_t *json = text ? json_loads(text, 0, NULL) : json_null();
    if (!json)
        arena_run_out(x->arena);
    return json;
}

static json_t *error_json(const struct exchange *x, const struct coatwright_error *error)
{
    char line[1200];
    struct coatwright_error bare = *error;
    bare.file = bare.pointer = "";
    bare.line = bare.column = 0;
    coatwright_error_line(&bare, line, sizeof line);
    return json_pack("{s:s, s:i, s:i, s:s, s:s, s:s, s:s}", "file", exchange_name(x, error->file), "line",
                     error->line, "column", error->column, "pointer", error->pointer, "found", error->found,
                     "expected", error->expected, "text", line);
}

json_t *errors_json(const struct exchange *x, struct coatwright *session)
{
    json_t *list = json_array();
    for (size_t i = 0; i < coatwright_error_count(session); i++)
        item_put(x, list, error_json(x, coatwright_error(session, i)));
    return list;
}

json_t *warnings_json(const struct exchange *x, struct coatwright *session)
{
    json_t *list = json_array();
    for (size_t i = 0; i < coatwright_warning_count(session); i++)
        item_put(x, list, error_json(x, coatwright_warning(session, i)));
    return list;
}
