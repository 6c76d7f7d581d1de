
#include "api/session.h"
#include "base/buf.h"
#include "report/text.h"
#include "format/words.h"

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
    struct screen screen = session_screen(session, &text);
    for (size_t i = 0; i < job->part_count; i++)
        if (strcmp(job->parts[i].name, call->part) == 0) {
            buf_add(&text, text.length ? "\n" : "");
            show_part(&screen, job, &job->parts[i], &session->errors);
        }
    call->text = text.text;
    return text.length > 0 || unknown_part(session, call->part);
}

const char *coatwright_explain(struct coatwright *session, const char *part)
{
    struct explain_call call = {part, NULL};
    return session_given(session, part, "the name of a part") && session_guard(session, explain, &call)
               ? call.text
               : NULL;
}

struct finish_call {
    const char *finish, *text;
};

static bool unused_finish(struct coatwright *session, const char *id)
{
    const struct purchases *purchases = session->plan->purchases;
    const char **ids = ARENA_ARRAY(session->arena, purchases->count, const char *);
    for (size_t i = 0; i < purchases->count; i++)
        ids[i] = purchases->items[i].need.finish->id;
    err_add(&session->errors, ERR_USAGE, NULL, NULL, "a finish that the job uses",
            words_found(session->arena, id, ids, purchases->count));
    return false;
}

static bool explain_finish(struct coatwright *session, void *argument)
{
    struct finish_call *call = argument;
    struct buf text;
    if (!session->plan) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "a job that was planned", "none");
        return false;
    }
    const struct purchases *purchases = session->plan->purchases;
    struct screen screen = session_screen(session, &text);
    buf_init(&text, session->arena);
    for (size_t i = 0; i < purchases->count; i++)
        if (strcmp(purchases->items[i].need.finish->id, call->finish) == 0) {
            show_explain(&screen, session->plan, &purchases->items[i]);
            call->text = text.text;
            return true;
        }
    return unused_finish(session, call->finish);
}

const char *coatwright_explain_finish(struct coatwright *session, const char *finish)
{
    struct finish_call call = {finish, NULL};
    return session_given(session, finish, "the id of a finish") &&
                   session_guard(session, explain_finish, &call)
               ? call.text
               : NULL;
}
