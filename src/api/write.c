#include "api/write.h"

#include "api/errors.h"
#include "api/reports.h"
#include "format/words.h"

static bool has(const struct coatwright *session, enum needs needs)
{
    switch (needs) {
    case NEEDS_SURFACES:
        return session->surfaces != NULL;
    case NEEDS_PLAN:
        return session->plan != NULL;
    case NEEDS_NOTHING:
        return true;
    case NEEDS_PLAN_OR_MIX:
        return session->plan != NULL || session->lone != NULL;
    default:
        return session->finishes != NULL;
    }
}

const struct buf *session_write(struct coatwright *session, enum coatwright_report report,
                                enum coatwright_format format, const struct file_text *previous)
{
    const struct report_writer *writer = report_find(report, format);
    struct buf *out = ARENA_NEW(session->arena, struct buf);
    if (!writer || !has(session, writer->needs)) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL,
                writer ? "what the report is about" : "a format of the report",
                writer ? "nothing read for it" : "another one");
        return NULL;
    }
    buf_init(out, session->arena);
    struct writing w = {
        .session = session,
        .out = out,
        .screen = session_screen(session, out),
        .previous = previous,
    };
    json_write_init(&w.json, out);
    if (!writer->write(&w))
        return NULL;
    if (format == COATWRIGHT_TEXT)
        words_shown(out, session->options.colour);
    return out;
}

struct write_call {
    enum coatwright_report report;
    enum coatwright_format format;
    const char *text;
};

static bool write_report(struct coatwright *session, void *argument)
{
    struct write_call *call = argument;
    const struct buf *out = session_write(session, call->report, call->format, NULL);
    call->text = out ? out->text : NULL;
    return out != NULL;
}

const char *coatwright_write(struct coatwright *session, enum coatwright_report report,
                             enum coatwright_format format)
{
    struct write_call call = {report, format, NULL};
    if (report == COATWRIGHT_ERRORS && format == COATWRIGHT_JSON)
        return session ? errors_json(session) : NULL;
    return session_guard(session, write_report, &call) ? call.text : NULL;
}
