#include "surface/explain.h"

#include "api/session.h"
#include "base/buf.h"
#include "io/words.h"

#include <string.h>

struct explain_call {
    const char *part, *text;
};

static bool unknown_part(struct coatwright *session, const char *name)
{
    const struct job *job = session->job;
    const char **names = ARENA_ARRAY(session->arena, job->part_count, const char *);
    for (size_t i = 0; i < job->part_count; i++)
        names[i] = job->parts[i].name;
    err_add(&session->errors, ERR_USAGE, NULL, NULL, "a part of the job",
            words_found(session->arena, name, names, job->part_count));
    return false;
}

static bool explain(struct coatwright *session, void *argument)
{
    struct explain_call *call = argument;
    const struct job *job = session->job;
    struct buf text;
    if (!session->surfaces) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "a job that was measured", "none");
        return false;
    }
    buf_init(&text, session->arena);
    for (size_t i = 0; i < job->part_count; i++)
        if (strcmp(job->parts[i].name, call->part) == 0) {
            buf_add(&text, text.length ? "\n" : "");
            part_explain(&text, job, &job->parts[i], session_units(session), &session->errors);
        }
    call->text = text.text;
    return text.length > 0 || unknown_part(session, call->part);
}

const char *coatwright_explain(struct coatwright *session, const char *part)
{
    struct explain_call call = {part, NULL};
    return session_guard(session, explain, &call) ? call.text : NULL;
}
