#include "api/session.h"

#include "base/buf.h"
#include "coatwright_server.h"
#include "format/save.h"
#include "publish/dav.h"
#include "publish/publish.h"

#include <string.h>

struct publish_call {
    const struct coatwright_publish_want *want;
    struct coatwright_published *done;
};

/* Where the marks and the calendar as it was last published stand: beside the job, under its name. */
static const char *kept_path(struct coatwright *session, const char *ending)
{
    const char *job = session->job->file;
    size_t length = strlen(job);
    if (path_ends(job, ".json"))
        length -= strlen(".json");
    return arena_textf(session->arena, "%.*s.published%s", (int)length, job, ending);
}

bool session_password(struct coatwright *session, const char *given, const char *file, const char **password)
{
    struct file_text text;
    struct err err;
    *password = given;
    if (!file)
        return true;
    if (!file_load_secret(session->arena, file, &text, &err))
        return session_file_failed(session, file, &err);
    *password = arena_text_n(session->arena, text.text, strcspn(text.text, "\r\n"));
    return true;
}

/* The calendar as it is to stand, numbered after the one that was published last. */
static const struct buf *calendar_of(struct coatwright *session)
{
    struct file_text *previous = ARENA_NEW(session->arena, struct file_text);
    const char *path = kept_path(session, ".ics");
    struct err err;
    if (file_missing(path))
        previous = NULL;
    else if (!file_load(session->arena, path, previous, &err)) {
        (void)session_file_failed(session, path, &err);
        return NULL;
    }
    return session_write(session, COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR, previous);
}

/* What was done is kept even where the rest failed: the next run goes on from there. */
static bool keep(struct coatwright *session, const struct publish_state *state, const struct buf *calendar,
                 bool whole)
{
    struct buf marks;
    struct err err;
    const char *path = kept_path(session, ".json");
    struct saving *saving = saving_begin(session->arena, path_folder(session->arena, path), false, &err);
    if (!saving)
        return session_file_failed(session, path, &err);
    buf_init(&marks, session->arena);
    publish_state_write(state, &marks);
    saving_add(saving, path_last(path), marks.text, marks.length);
    if (whole)
        saving_add(saving, path_last(kept_path(session, ".ics")), calendar->text, calendar->length);
    bool good = saving_commit(saving, &err) || session_file_failed(session, path, &err);
    saving_end(saving);
    return good;
}

static void count(const struct publish_outcome *outcome, struct coatwright_published *done)
{
    size_t *const counts[] = {
        [PUBLISH_SAME] = &done->same,       [PUBLISH_PUT] = &done->added,
        [PUBLISH_CHANGED] = &done->changed, [PUBLISH_DELETED] = &done->removed,
        [PUBLISH_AGAIN] = &done->again,     [PUBLISH_LEFT] = &done->left,
    };
    for (size_t i = 0; i < outcome->count; i++)
        ++*counts[outcome->deeds[i].act];
    done->collection = outcome->collection;
}

/* Somebody else's change is worth a look, and so is a deletion that was not kept. */
static void warn(struct coatwright *session, const struct publish_outcome *outcome)
{
    for (size_t i = 0; i < outcome->count; i++) {
        const struct publish_deed *deed = &outcome->deeds[i];
        const char *sentence = deed->act == PUBLISH_LEFT    ? "somebody else has changed it: left as it is"
                               : deed->act == PUBLISH_AGAIN ? "somebody else had deleted it: put there again"
                                                            : NULL;
        if (sentence)
            err_add(&session->warnings, ERR_WARNING, deed->href, NULL, NULL, sentence);
    }
}

static bool bring(struct coatwright *session, const struct publish_call *call, const struct server *server,
                  const struct buf *calendar)
{
    const struct coatwright_publish_want *want = call->want;
    struct publish_outcome outcome = {0};
    struct publish_items items;
    struct publish_state state;
    struct err err;
    if (!publish_state_load(&session->reading, kept_path(session, ".json"), &state))
        return session_located(session);
    const char *collection = collection_find(server, want->url, want->make && !want->dry_run, &err);
    if (!collection)
        return session_file_failed(session, want->url, &err);
    publish_items_split(session->arena, calendar->text, &items);
    struct publish_want all = {collection, &items, want->dry_run};
    if (!want->dry_run && publish_intend(session->arena, &all, &state) &&
        !keep(session, &state, calendar, false))
        return false;
    bool good =
        publish(server, &all, &state, &outcome, &err) || session_file_failed(session, collection, &err);
    count(&outcome, call->done);
    warn(session, &outcome);
    return (want->dry_run || keep(session, &state, calendar, good)) && good;
}

static bool publish_plan(struct coatwright *session, void *argument)
{
    const struct publish_call *call = argument;
    const struct coatwright_publish_want *want = call->want;
    struct server server = {session->arena, {want->user, NULL, want->authorities}, want->url};
    if (!session_password(session, want->password, want->password_file, &server.access.password))
        return false;
    const struct buf *calendar = calendar_of(session);
    return calendar && bring(session, call, &server, calendar);
}

bool coatwright_publish(struct coatwright *session, const struct coatwright_publish_want *want,
                        struct coatwright_published *done)
{
    struct coatwright_published unasked = COATWRIGHT_PUBLISHED_INIT;
    struct publish_call call = {want, done ? done : &unasked};
    if (!session_given(session, want, "what to publish") ||
        !session_given(session, want->url, "the address of a calendar"))
        return false;
    return session_guard(session, publish_plan, &call);
}
