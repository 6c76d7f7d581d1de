#include "api/session.h"

#include "format/words.h"

#include <stdlib.h>
#include <string.h>

const char *coatwright_version(void)
{
    return COATWRIGHT_VERSION;
}

int coatwright_version_number(void)
{
    return COATWRIGHT_VERSION_NUMBER;
}

struct guarded_call {
    struct coatwright *session;
    bool (*work)(struct coatwright *session, void *call);
    void *call;
    bool done;
};

static void tell_memory(struct coatwright *session)
{
    size_t most_mb = session->options.memory_ceiling >> 20;
    (void)err_addf(&session->errors, ERR_MEMORY, NULL, NULL, "memory enough for this job",
                   most_mb ? "none left of %zu MB" : "none left", most_mb);
}

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
        tell_memory(session);
    return guarded.done;
}

bool session_guard(struct coatwright *session, bool (*work)(struct coatwright *session, void *call),
                   void *call)
{
    if (session && session->asking) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "a session that is not at work", "one that is");
        return false;
    }
    return session && guarded(session->arena, session, work, call);
}

bool session_misused(struct coatwright *session, const char *expected, const char *found)
{
    err_add(&session->errors, ERR_USAGE, NULL, NULL, expected, words_quote(session->arena, found));
    return false;
}

bool session_given(struct coatwright *session, const void *argument, const char *expected)
{
    if (session && !argument)
        err_add(&session->errors, ERR_USAGE, NULL, NULL, expected, "NULL");
    return session && argument;
}

bool session_file_failed(struct coatwright *session, const char *path, const struct err *fault)
{
    err_add(&session->errors, ERR_FILE, fault->file[0] ? fault->file : path, NULL, fault->expected,
            fault->found);
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

struct screen session_screen(const struct coatwright *session, struct buf *out)
{
    int width = session->options.width ? session->options.width : SCREEN_USUAL;
    width = width < SCREEN_NARROWEST ? SCREEN_NARROWEST : width > SCREEN_WIDEST ? SCREEN_WIDEST : width;
    return (struct screen){out, session_units(session), session->options.colour, (size_t)width};
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

/* The caller's answer, who is told how far the stage has come. */
static bool look(void *with, const struct observer *observer)
{
    struct coatwright *session = with;
    double done = observer->effort > 0 ? (double)observer->done / (double)observer->effort : 0;
    done = done > 1 ? 1 : done;
    if (observer->parts > 0)
        done = ((double)observer->part + done) / (double)observer->parts;
    struct coatwright_progress progress = {
        observer->stage == OBSERVE_ADVICE ? COATWRIGHT_ADVISING : COATWRIGHT_SEARCHING, done};
    session->asking = true;
    bool goes_on = session->options.progress(session->options.caller, &progress);
    session->asking = false;
    return goes_on;
}

/* What an older caller does not know has its default. */
static bool take_options(const struct coatwright_options *options, struct coatwright_options *given)
{
    *given = (struct coatwright_options)COATWRIGHT_OPTIONS_INIT;
    if (options && options->size < sizeof options->size)
        return false;
    if (options)
        memcpy(given, options, options->size < sizeof *given ? options->size : sizeof *given);
    given->size = sizeof *given;
    return true;
}

struct coatwright *coatwright_open(const struct coatwright_options *options)
{
    struct coatwright_options given;
    struct coatwright *session = take_options(options, &given) ? calloc(1, sizeof *session) : NULL;
    if (!session)
        return NULL;
    session->arena = arena_make(given.memory_ceiling);
    session->spare = arena_make(0);
    if (!session->arena || !session->spare || !guarded(session->spare, session, set_up, &given)) {
        coatwright_close(session);
        return NULL;
    }
    session->given.only = given.given_only;
    session->card_day = INT64_MIN;
    session->observer = (struct observer){.look = look, .with = session};
    session->reading = (struct reading){.arena = session->arena,
                                        .errors = &session->errors,
                                        .warnings = &session->warnings,
                                        .given = &session->given};
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
