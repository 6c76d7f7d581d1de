#include "api/errors.h"

#include "api/session.h"
#include "report/json.h"

#include <assert.h>
#include <stdio.h>

static const enum coatwright_code codes[] = {
    [ERR_INPUT] = COATWRIGHT_INPUT, [ERR_FILE] = COATWRIGHT_FILE,       [ERR_MEMORY] = COATWRIGHT_MEMORY,
    [ERR_USAGE] = COATWRIGHT_USAGE, [ERR_WARNING] = COATWRIGHT_WARNING,
};

static struct coatwright_error outside(const struct err *err)
{
    return (struct coatwright_error){codes[err->code], err->line,  err->column,  err->file,
                                     err->pointer,     err->found, err->expected};
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
    return session->errors.count;
}

size_t coatwright_error_more(const struct coatwright *session)
{
    return session->errors.dropped;
}

struct coatwright_error coatwright_error(const struct coatwright *session, size_t index)
{
    assert(index < session->errors.count);
    return outside(&session->errors.items[index]);
}

size_t coatwright_warning_count(const struct coatwright *session)
{
    return session->warnings.count;
}

struct coatwright_error coatwright_warning(const struct coatwright *session, size_t index)
{
    assert(index < session->warnings.count);
    return outside(&session->warnings.items[index]);
}

void coatwright_error_add(struct coatwright *session, const struct coatwright_error *error)
{
    struct err *err = err_add(&session->errors, inside(error->code), error->file, error->pointer,
                              error->expected, error->found);
    if (err) {
        err->line = error->line;
        err->column = error->column;
    }
}

size_t coatwright_error_line(const struct coatwright_error *error, char *line, size_t size)
{
    struct err_list list = {.count = 0};
    struct err *err =
        err_add(&list, inside(error->code), error->file, error->pointer, error->expected, error->found);
    err->line = error->line;
    err->column = error->column;
    return err_format(err, line, size);
}

const char *errors_json(struct coatwright *session)
{
    struct buf out;
    struct json_write w;
    buf_init(&out, session->spare);
    json_write_init(&w, &out);
    write_errors(&w, &session->errors);
    return out.text;
}
