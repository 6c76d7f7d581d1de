#include "api/session.h"

#include "base/measure.h"
#include "base/moment.h"
#include "finish/drying.h"
#include "source/job_file.h"
#include "format/words.h"

/* Without `now` the job's own start. */
bool session_set_now(struct coatwright *session, const struct job *job)
{
    struct moment_text moment = {.date_only = false, .minute = job->start_min};
    struct err fault;
    const char *now = session->options.now;
    if (now && !moment_parse(now, job->zone, &moment, &fault))
        return session_misused(session, fault.expected, now);
    session->now_min =
        moment.date_only ? zone_moment_on(job->zone, date_days(moment.date), 0) : moment.minute;
    return true;
}

static bool begin_reading(struct coatwright *session)
{
    if (session->job || session->reading.texts) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "one job in a session", "a second one");
        return false;
    }
    session->reading.texts = texts_make(session->arena);
    return true;
}

/* The first file that a maker has is the list. */
static bool is_no_list(struct coatwright *session, const char *path)
{
    static const char *const endings[] = {".csv", ".tsv", ".xlsx", ".ods"};
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++)
        if (path_ends(path, endings[i]) && !file_missing(path)) {
            err_add(&session->errors, ERR_INPUT, path, NULL,
                    "a job (coatwright new makes one of a part list)", "a part list");
            return false;
        }
    return true;
}

struct job *session_read(struct coatwright *session, const char *path, bool fetching)
{
    if (!begin_reading(session) || !is_no_list(session, path))
        return NULL;
    struct job_source source = {.path = arena_text(session->arena, path),
                                .finishes = session_finishes(session),
                                .trust_paths = session->options.trust_paths,
                                .given = &session->given,
                                .texts = session->reading.texts,
                                .fetching = fetching};
    /* What is worth a look in the job itself is told where it is planned. */
    struct err_list *unused = ARENA_NEW(session->arena, struct err_list);
    return job_read(session->arena, &source, &session->errors, fetching ? unused : &session->warnings);
}

static bool read_job(struct coatwright *session, void *call)
{
    struct job *job = session_read(session, ((const struct text_call *)call)->text, false);
    session->job = job;
    if (!job || !session_set_now(session, job))
        return false;
    if (job->log.count > 0)
        job->now_min = session->now_min;
    busy_warn(job, session->now_min, &session->warnings);
    return true;
}

bool coatwright_read(struct coatwright *session, const char *path)
{
    struct text_call call = {path, 0, NULL};
    return session_given(session, path, "the path of a job") && session_guard(session, read_job, &call);
}

static bool add_text(struct coatwright *session, void *argument)
{
    const struct text_call *call = argument;
    if (session->job || session->reading.texts) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "texts before the job is read", "one after it");
        return false;
    }
    given_add(&session->given, session->arena, call->name, call->text, call->length);
    return true;
}

bool coatwright_add_text(struct coatwright *session, const char *name, const char *text, size_t length)
{
    struct text_call call = {text, length, name};
    return session_given(session, name, "the name of a text") && session_given(session, text, "a text") &&
           session_guard(session, add_text, &call);
}

bool coatwright_read_text(struct coatwright *session, const char *name, const char *text, size_t length)
{
    return coatwright_add_text(session, name, text, length) && coatwright_read(session, name);
}

bool session_has_job(struct coatwright *session)
{
    if (!session->job)
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "a job that was read", "none");
    return session->job != NULL;
}

bool session_located(struct coatwright *session)
{
    texts_locate(session->reading.texts, &session->errors);
    return false;
}

static bool take_off(struct coatwright *session, void *call)
{
    (void)call;
    if (!session_has_job(session))
        return false;
    session->surfaces = surfaces_of(session->arena, session->job, &session->errors);
    return session->surfaces || session_located(session);
}

bool coatwright_take_off(struct coatwright *session)
{
    return session_guard(session, take_off, NULL);
}
