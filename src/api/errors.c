#include "api/session.h"
#include "report/json.h"

#include <stdio.h>
#include <string.h>

static const enum coatwright_code codes[] = {
    [ERR_INPUT] = COATWRIGHT_INPUT, [ERR_FILE] = COATWRIGHT_FILE,       [ERR_MEMORY] = COATWRIGHT_MEMORY,
    [ERR_USAGE] = COATWRIGHT_USAGE, [ERR_WARNING] = COATWRIGHT_WARNING,
};

/* "input:/parts/" and * for the number of a part: what stays the same when words and rows change. */
static void identify(const struct err *err, char *id, size_t size)
{
    static const char *const kinds[] = {
        [ERR_INPUT] = "input", [ERR_FILE] = "file",       [ERR_MEMORY] = "memory",
        [ERR_USAGE] = "usage", [ERR_WARNING] = "warning",
    };
    size_t used = (size_t)snprintf(id, size, "%s:", kinds[err->code]);
    for (const char *at = err->pointer; *at && used + 1 < size;) {
        size_t digits = at > err->pointer && at[-1] == '/' ? strspn(at, "0123456789") : 0;
        bool index = digits > 0 && (at[digits] == '/' || at[digits] == '\0');
        id[used++] = index ? '*' : *at;
        at += index ? digits : 1;
    }
    id[used] = '\0';
}

static const struct coatwright_error *tell(const struct err *err, struct told *told)
{
    identify(err, told->id, sizeof told->id);
    told->error = (struct coatwright_error){codes[err->code], err->line,  err->column,   err->file,
                                            err->pointer,     err->found, err->expected, told->id};
    return &told->error;
}

static enum err_code inside(enum coatwright_code code)
{
    enum err_code found = ERR_INPUT;
    while (codes[found] != code && found < ERR_WARNING)
        found++;
    return found;
}

size_t coatwright_error_count(const struct coatwright *session)
{
    return session ? session->errors.count : 0;
}

size_t coatwright_error_more(const struct coatwright *session)
{
    return session ? session->errors.dropped : 0;
}

const struct coatwright_error *coatwright_error(struct coatwright *session, size_t index)
{
    bool there = index < coatwright_error_count(session);
    return there ? tell(&session->errors.items[index], &session->told_errors[index]) : NULL;
}

size_t coatwright_warning_count(const struct coatwright *session)
{
    return session ? session->warnings.count : 0;
}

const struct coatwright_error *coatwright_warning(struct coatwright *session, size_t index)
{
    bool there = index < coatwright_warning_count(session);
    return there ? tell(&session->warnings.items[index], &session->told_warnings[index]) : NULL;
}

/* The error as a list of this room holds it; NULL where the list is full. */
static struct err *add(struct err_list *list, const struct coatwright_error *error)
{
    struct err *err =
        err_add(list, inside(error->code), error->file, error->pointer, error->expected, error->found);
    if (err) {
        err->line = error->line;
        err->column = error->column;
    }
    return err;
}

void coatwright_error_add(struct coatwright *session, const struct coatwright_error *error)
{
    if (session && error)
        (void)add(&session->errors, error);
}

size_t coatwright_error_line(const struct coatwright_error *error, char *line, size_t size)
{
    struct err_list list = {.count = 0};
    if (!line || size == 0)
        return 0;
    line[0] = '\0';
    return error ? err_format(add(&list, error), line, size) : 0;
}

static void write_json(void *call)
{
    struct coatwright *session = call;
    struct buf *out = ARENA_NEW(session->spare, struct buf);
    struct json_write w;
    buf_init(out, session->spare);
    json_write_init(&w, out);
    write_errors(&w, &session->errors);
    session->errors_text = out->text;
}

const char *session_errors_json(struct coatwright *session)
{
    session->errors_text = NULL;
    return arena_try(session->spare, write_json, session) ? session->errors_text : NULL;
}
