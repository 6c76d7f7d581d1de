/* Busy times from calendars on a server, into files beside the job. */
#include "api/session.h"

#include "coatwright_server.h"
#include "base/buf.h"
#include "format/ical_busy.h"
#include "format/ical_times.h"
#include "format/save.h"
#include "publish/fetch.h"

#include <string.h>

/* So many days before the job stay in a file that was fetched for another one. */
enum { DAYS_KEPT = 366 };

struct fetch_call {
    const char *path;
    const struct coatwright_fetch_want *want;
};

struct fetching {
    struct coatwright *session;
    const struct job *job;
    struct server server;
    struct busy_file *done; /* those that were written */
    size_t count;
};

/* What stands there now: the stamp of a fetched calendar, or nothing (at_min INT64_MIN). Anything else is not written over. */
static bool stamp_of(struct coatwright *session, const char *path, struct ical_stamp *stamp)
{
    struct file_text file;
    struct err err;
    struct saving *saving = saving_begin(session->arena, path_folder(session->arena, path), false, &err);
    *stamp = (struct ical_stamp){INT64_MIN, 0, 0};
    if (!saving)
        return session_file_failed(session, path, &err);
    bool there = saving_load(saving, path_last(path), &file, &err);
    saving_end(saving);
    if (!there)
        return err.code == ERR_NONE || session_file_failed(session, path, &err);
    if (ical_stamp_read(session->arena, &file, stamp))
        return true;
    err_fill(&err, ERR_FILE, "a calendar that fetch-busy wrote, or no file", "another one");
    return session_file_failed(session, path, &err);
}

/* The time of the job, with what other jobs of the shop have asked for. */
static struct ical_stamp stamp_for(const struct fetching *fetching, const struct ical_stamp *before)
{
    const struct shop *shop = &fetching->job->shop;
    struct ical_stamp stamp = {fetching->session->now_min, shop->busy_from_min, shop->busy_to_min};
    int64_t kept = shop->busy_from_min - (int64_t)DAYS_KEPT * DAY_MINUTES;
    if (before->at_min == INT64_MIN || before->to_min < stamp.from_min)
        return stamp;
    if (before->from_min < stamp.from_min)
        stamp.from_min = before->from_min > kept ? before->from_min : kept;
    if (before->to_min > stamp.to_min)
        stamp.to_min = before->to_min;
    return stamp;
}

static bool read_back(const struct fetching *fetching, const struct reading *reading,
                      const struct file_text *file, struct busy_file *told)
{
    const struct job *job = fetching->job;
    struct busy_window window = {job->zone, job->shop.busy_from_min, job->shop.busy_to_min};
    struct busy_list list = {.items = NULL};
    if (!busy_read(reading, file, &window, &list))
        return false;
    told->events = list.events;
    told->busy_min = busy_minutes(&list, job->start_min, job->deliver_min);
    return true;
}

/* The text of the file. Each calendar is read for itself first, so that a mistake is reported at its own address; together they
 * may be too many. */
static bool assemble(const struct fetching *fetching, const struct fetched *fetched,
                     const struct ical_stamp *stamp, struct busy_file *told, struct buf *text)
{
    struct coatwright *session = fetching->session;
    struct reading again = session->reading;
    struct err_list unused = {.count = 0};
    ical_stamp_add(stamp, text);
    for (size_t i = 0; i < fetched->count; i++)
        if (!read_back(fetching, &session->reading, &fetched->items[i], told) ||
            !ical_times_add(&session->reading, &fetched->items[i], text))
            return false;
    again.warnings = &unused;
    struct file_text file = {.name = told->file, .text = text->text, .length = text->length};
    return read_back(fetching, &again, &file, told);
}

static bool save(struct coatwright *session, const char *path, const struct buf *text)
{
    struct err err;
    struct saving *saving = saving_begin(session->arena, path_folder(session->arena, path), false, &err);
    if (!saving)
        return session_file_failed(session, path, &err);
    saving_add(saving, path_last(path), text->text, text->length);
    bool good = saving_commit(saving, &err) || session_file_failed(session, path, &err);
    saving_end(saving);
    return good;
}

static bool fetch_one(struct fetching *fetching, const struct busy_file *asked)
{
    struct coatwright *session = fetching->session;
    struct ical_stamp stamp;
    struct fetched fetched;
    struct buf text;
    struct err err;
    struct busy_file *told = &fetching->done[fetching->count];
    if (!stamp_of(session, asked->file, &stamp))
        return false;
    stamp = stamp_for(fetching, &stamp);
    fetching->server.named = asked->address;
    if (!fetch_calendar(&fetching->server, &(struct fetch_span){stamp.from_min, stamp.to_min}, &fetched,
                        &err))
        return session_file_failed(session, asked->address, &err);
    *told = *asked;
    told->fetched_min = stamp.at_min;
    buf_init(&text, session->arena);
    if (!assemble(fetching, &fetched, &stamp, told, &text) || !save(session, asked->file, &text))
        return false;
    fetching->count++;
    return true;
}

/* Each calendar once, whoever names it; of one address that one alone. */
static size_t choose(const struct shop *shop, const char *from, const struct busy_file **chosen)
{
    size_t count = 0;
    for (size_t i = 0; i < shop->busy_file_count; i++) {
        const struct busy_file *file = &shop->busy_files[i];
        bool wanted = file->address && (!from || strcmp(file->address, from) == 0);
        for (size_t k = 0; k < count; k++)
            wanted = wanted && strcmp(chosen[k]->address, file->address) != 0;
        if (wanted)
            chosen[count++] = file;
    }
    return count;
}

/* A password is for the server of its user alone. */
static bool one_server(struct coatwright *session, const struct busy_file *const *chosen, size_t count)
{
    for (size_t i = 1; i < count; i++)
        if (!url_same_server(chosen[0]->address, chosen[i]->address))
            return session_misused(session,
                                   "--from with one of the addresses, for they are on several servers",
                                   chosen[i]->address);
    return true;
}

static bool fetch_all(struct fetching *fetching, const struct coatwright_fetch_want *want)
{
    struct coatwright *session = fetching->session;
    const struct shop *shop = &fetching->job->shop;
    const struct busy_file **chosen =
        ARENA_ARRAY(session->arena, shop->busy_file_count + 1, const struct busy_file *);
    size_t count = choose(shop, want->from, chosen);
    bool good = true;
    if (count == 0)
        return session_misused(session, "a calendar by its address (busy)", want->from ? want->from : "none");
    if (want->user && !one_server(session, chosen, count))
        return false;
    fetching->done = ARENA_ARRAY(session->arena, count, struct busy_file);
    for (size_t i = 0; i < count; i++)
        good &= fetch_one(fetching, chosen[i]);
    session->fetched =
        (struct busy_report){fetching->job->zone, fetching->done, fetching->count, session->now_min};
    return good;
}

static bool fetch(struct coatwright *session, void *argument)
{
    const struct fetch_call *call = argument;
    const struct coatwright_fetch_want *want = call->want;
    struct fetching fetching = {.session = session,
                                .server = {session->arena, {want->user, NULL, want->authorities}, NULL}};
    if (!session_password(session, want->password, want->password_file, &fetching.server.access.password))
        return false;
    fetching.job = session_read(session, call->path, true);
    return fetching.job && session_set_now(session, fetching.job) && fetch_all(&fetching, want);
}

bool coatwright_fetch_busy(struct coatwright *session, const char *path,
                           const struct coatwright_fetch_want *want)
{
    struct fetch_call call = {path, want};
    return session_given(session, path, "the path of a job") &&
           session_given(session, want, "what to fetch") && session_guard(session, fetch, &call);
}

size_t coatwright_fetched_count(const struct coatwright *session)
{
    return session ? session->fetched.count : 0;
}
