#include "api/session.h"

#include "format/words.h"

#include <stdlib.h>

const char *coatwright_version(void)
{
    return COATWRIGHT_VERSION;
}

struct guarded_call {
    struct coatwright *session;
    bool (*work)(struct coatwright *session, void *call);
    void *call;
    bool done;
};

static void work_guarded(void *call)
{
    struct guarded_call *guarded = call;
    guarded->done = guarded->work(guarded->session, guarded->call);
}

/* The one place to which control escapes when memory ends. */
static bool guarded(struct arena *arena, struct coatwright *session,
                    bool (*work)(struct coatwright *session, void *call), void *call)
{
    struct guarded_call guarded = {session, work, call, false};
    if (!arena_try(arena, work_guarded, &guarded))
        err_add(&session->errors, ERR_MEMORY, NULL, NULL, "memory enough for this job", "none left");
    return guarded.done;
}

bool session_guard(struct coatwright *session, bool (*work)(struct coatwright *session, void *call),
                   void *call)
{
    return guarded(session->arena, session, work, call);
}

bool session_misused(struct coatwright *session, const char *expected, const char *found)
{
    err_add(&session->errors, ERR_USAGE, NULL, NULL, expected, words_quote(session->arena, found));
    return false;
}

bool session_file_failed(struct coatwright *session, const char *path, const struct err *fault)
{
    err_add(&session->errors, ERR_FILE, path, NULL, fault->expected, fault->found);
    return false;
}

const char *session_finishes(const struct coatwright *session)
{
    return session->options.finishes ? session->options.finishes : COATWRIGHT_FINISHES;
}

enum unit_system session_units(const struct coatwright *session)
{
    bool inches = session->job && session->job->inches;
    enum coatwright_units units = session->options.units;
    return units == COATWRIGHT_US || (units == COATWRIGHT_UNITS_OF_JOB && inches) ? UNITS_US : UNITS_METRIC;
}

static const char *copy(struct arena *arena, const char *text)
{
    return text ? arena_text(arena, text) : NULL;
}

static bool set_up(struct coatwright *session, void *call)
{
    const struct coatwright_options *options = call;
    session->options = *options;
    session->options.finishes = copy(session->spare, options->finishes);
    session->options.now = copy(session->spare, options->now);
    return true;
}

struct coatwright *coatwright_open(const struct coatwright_options *options)
{
    struct coatwright_options given = options ? *options : (struct coatwright_options){.now = NULL};
    struct coatwright *session = calloc(1, sizeof *session);
    if (!session)
        return NULL;
    session->arena = arena_make(given.memory_ceiling);
    session->spare = arena_make(0);
    if (!session->arena || !session->spare || !guarded(session->spare, session, set_up, &given)) {
        coatwright_close(session);
        return NULL;
    }
    session->reading =
        (struct reading){.arena = session->arena, .errors = &session->errors, .warnings = &session->warnings};
    return session;
}

void coatwright_close(struct coatwright *session)
{
    if (!session)
        return;
    arena_free(session->arena);
    arena_free(session->spare);
    free(session);
}
