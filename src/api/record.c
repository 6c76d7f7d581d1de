/* Adding to a job's log what really happened. */
#include "api/session.h"

#include "base/buf.h"
#include "base/number.h"
#include "base/text.h"
#include "format/save.h"
#include "source/limit.h"
#include "source/log_file.h"
#include "timetable/facts.h"

#include <string.h>

/* Entries on their way into the log; `found` is the plan since the last of those that it has. */
struct recording {
    struct coatwright *session;
    const struct coatwright_record *want;
    const struct plan *found;
    struct log_entry *entries;
    size_t count, room;
    int64_t at_min, began_min; /* INT64_MIN: not said */
    double used_l;             /* -1: not said */
};

static struct log_entry blank_entry(const struct recording *r, enum log_kind kind)
{
    return (struct log_entry){.kind = kind,
                              .written_min = r->session->now_min,
                              .began_min = INT64_MIN,
                              .done_min = INT64_MIN,
                              .used_l = -1,
                              .note = r->want->note};
}

static void add_entry(struct recording *r, struct log_entry entry)
{
    r->entries = arena_grow(r->session->arena, r->entries, r->count, &r->room, sizeof *r->entries);
    r->entries[r->count++] = entry;
}

/* `14:30` and `today 14:30` are today's, `yesterday 14:30` is the day before's; else a moment. */
static bool read_moment(struct coatwright *session, const char *text, int64_t *minute)
{
    static const char *const words[] = {"today ", "yesterday "};
    const struct zone *zone = session->job->zone;
    const char *time = text;
    int64_t day = zone_day(zone, session->now_min, NULL);
    struct moment_text moment;
    struct err fault;
    int of_day;
    for (int back = 0; back < 2; back++)
        if (text_same_n(words[back], strlen(words[back]),
                        arena_text_n(session->arena, text, strnlen(text, strlen(words[back]))))) {
            time = text + strlen(words[back]);
            day -= back;
        }
    if (time_parse(time, false, &of_day, &fault)) {
        *minute = zone_moment_on(zone, day, of_day);
        return true;
    }
    if (!moment_parse(text, zone, &moment, &fault) || moment.date_only)
        return session_misused(session, "a moment such as 14:30, \"yesterday 14:30\" or \"2027-03-02 14:30\"",
                               text);
    *minute = moment.minute;
    return true;
}

/* What is recorded lies behind. */
static bool read_past(struct coatwright *session, const char *text, int64_t *minute)
{
    if (!text)
        return true;
    if (!read_moment(session, text, minute))
        return false;
    return *minute <= session->now_min || session_misused(session, "a moment that has passed", text);
}

static const char *person_of(const struct recording *r, const struct timetable_step *step)
{
    const struct shop *shop = &r->session->job->shop;
    if (r->want->person)
        return r->want->person;
    return shop->crew && step->person <= shop->people ? shop->crew[step->person - 1].name : NULL;
}

static bool takes_parts(struct recording *r, const struct operation *operation, struct log_entry *entry)
{
    size_t from = operation->pass.lot.from, to = operation->pass.lot.to;
    if (operation->piece >= 0 && to == 0)
        to = piece_parts(operation->job, (size_t)operation->piece);
    if (operation->lots > 1 || r->want->parts > 0) {
        entry->first = (int)from + 1;
        entry->parts = (int)(to - from);
    }
    if (r->want->parts <= 0)
        return true;
    if (operation->piece < 0 || (size_t)r->want->parts > to - from) {
        session_misused(r->session,
                        arena_textf(r->session->arena, "at most %zu parts: no more are left", to - from),
                        arena_textf(r->session->arena, "%d", r->want->parts));
        return false;
    }
    entry->parts = r->want->parts;
    return true;
}

static bool add_done(struct recording *r, const struct timetable_step *step, int64_t began_min,
                     int64_t done_min, double used_l, bool as_planned)
{
    struct log_entry entry = blank_entry(r, LOG_DONE);
    entry.as_planned = as_planned;
    entry.step = step->operation->id;
    entry.began_min = began_min;
    entry.done_min = done_min;
    entry.used_l = used_l;
    entry.person = person_of(r, step);
    entry.batch = r->found->timetable->batches[step->batch].id;
    if (!takes_parts(r, step->operation, &entry))
        return false;
    add_entry(r, entry);
    return true;
}

static double litres_of(const struct recording *r, const struct timetable_step *step)
{
    const struct timetable *timetable = r->found->timetable;
    if (step->operation->doing != DO_APPLY)
        return 0;
    return plan_litres(timetable, (size_t)(step->operation - timetable->operations->items)).likely;
}

/* A step by its id: until now, or as was said; one of several lots has a share of what was used and of the time. */
static bool record_step(struct recording *r, const struct timetable_step *step, double used_l, bool alone)
{
    int64_t done_min = r->at_min != INT64_MIN ? r->at_min : r->session->now_min;
    if (r->began_min != INT64_MIN && r->began_min > done_min)
        return session_misused(r->session, "a beginning before the end", r->want->began);
    return add_done(r, step, r->began_min, done_min, used_l, !alone);
}

/* A batch ends now, or as was said; its steps lie before that as they were planned, and share what was used as planned. */
static bool record_batch(struct recording *r, const struct timetable_batch *batch)
{
    const struct timetable *timetable = r->found->timetable;
    int64_t done_min = r->at_min != INT64_MIN ? r->at_min : r->session->now_min;
    int64_t later = done_min - batch->work_until_min;
    double planned = 0;
    for (size_t i = 0; i < batch->step_count; i++)
        planned += litres_of(r, &timetable->steps[batch->steps[i]]);
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[batch->steps[i]];
        double own = litres_of(r, step);
        double used = r->used_l >= 0 && own > 0 ? r->used_l * own / planned : -1;
        if (!add_done(r, step, step->start_min + later, step->end_min + later, used, true))
            return false;
    }
    return true;
}

/* Everything that the plan has done by a moment, as planned. */
static bool record_until(struct recording *r, int64_t from_min, int64_t until_min)
{
    const struct timetable *timetable = r->found->timetable;
    if (r->used_l >= 0 || r->want->parts > 0 || r->want->began || r->want->at)
        return session_misused(r->session, "one step or batch with --at, --began, --used and --parts",
                               r->want->what);
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[i];
        if (step->start_min >= from_min && step->end_min <= until_min &&
            !add_done(r, step, step->start_min, step->end_min, -1, true))
            return false;
    }
    return r->count > 0 || session_misused(r->session, "a step that was planned until then", r->want->what);
}

static bool unknown_step(struct recording *r, const char *expected)
{
    struct coatwright *session = r->session;
    const struct timetable *timetable = r->found->timetable;
    const char **ids =
        ARENA_ARRAY(session->arena, timetable->step_count + timetable->batch_count + 1, const char *);
    size_t count = 0;
    for (size_t i = 0; i < timetable->step_count; i++)
        ids[count++] = timetable->steps[i].operation->id;
    for (size_t i = 0; i < timetable->batch_count; i++)
        ids[count++] = timetable->batches[i].id;
    const char *near = text_nearest(r->want->what, ids, count);
    err_addf(&session->errors, ERR_USAGE, NULL, NULL, expected,
             near ? "\"%s\" (did you mean \"%s\"?)" : "\"%s\"", r->want->what, near);
    return false;
}

static const struct fact *fact_of(const struct recording *r, const char *id)
{
    const struct operations *operations = r->found->operations;
    for (size_t i = 0; i < operations->fact_count; i++)
        if (operations->facts[i].entry && strcmp(operations->facts[i].operation.id, id) == 0)
            return &operations->facts[i];
    return NULL;
}

/* A step, or that of all lots of the piece that are left, which share what was used as planned. */
static bool record_named(struct recording *r, bool *found)
{
    const struct log_entry named = {.step = r->want->what};
    const struct timetable *timetable = r->found->timetable;
    size_t count = 0;
    double planned = 0;
    for (size_t i = 0; i < timetable->step_count; i++)
        if (log_names(&named, timetable->steps[i].operation)) {
            planned += litres_of(r, &timetable->steps[i]);
            count++;
        }
    *found = count > 0;
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[i];
        if (!log_names(&named, step->operation))
            continue;
        double share = planned > 0 ? litres_of(r, step) / planned : 1;
        if (!record_step(r, step, r->used_l >= 0 ? r->used_l * share : -1, count == 1))
            return false;
    }
    return true;
}

static bool record_done(struct recording *r)
{
    const struct timetable *timetable = r->found->timetable;
    const struct zone *zone = r->session->job->zone;
    const char *what = r->want->what;
    int64_t now = r->session->now_min, until_min = now;
    bool found = false;
    if (strcmp(what, "today") == 0)
        return record_until(r, zone_moment_on(zone, zone_day(zone, now, NULL), 0), now);
    if (strncmp(what, "until ", 6) == 0)
        return read_past(r->session, what + 6, &until_min) && record_until(r, INT64_MIN, until_min);
    if (!record_named(r, &found))
        return false;
    if (found)
        return true;
    for (size_t i = 0; i < timetable->batch_count; i++)
        if (strcmp(timetable->batches[i].id, what) == 0)
            return record_batch(r, &timetable->batches[i]);
    if (fact_of(r, what))
        return session_misused(r->session,
                               "a step that is still to be done (coatwright undo takes a record back)", what);
    return unknown_step(r, "the id of a step or batch still to be done, today, or until 14:30");
}

static bool record_again(struct recording *r)
{
    const struct fact *fact = fact_of(r, r->want->what);
    struct log_entry entry = blank_entry(r, LOG_AGAIN);
    if (!fact || fact->operation.doing != DO_APPLY)
        return unknown_step(r, "the id of a coat that is recorded as done");
    entry.step = fact->operation.id;
    entry.because = r->want->because;
    entry.grit = r->want->sand;
    entry.note = NULL;
    add_entry(r, entry);
    return true;
}

static bool record_skip(struct recording *r)
{
    struct log_entry entry = blank_entry(r, LOG_SKIP);
    const struct timetable_step *step = timetable_find(r->found->timetable, r->want->what);
    if (!step)
        return unknown_step(r, "the id of a step still to be done");
    if (step->operation->piece < 0)
        return session_misused(r->session, "a step of a piece (a task is taken out of the job file)",
                               r->want->what);
    if (step->operation->doing == DO_FLIP)
        return session_misused(r->session,
                               "a step that can be left out (record with coatwright done that it was turned)",
                               r->want->what);
    entry.step = step->operation->id;
    entry.note = NULL;
    add_entry(r, entry);
    return true;
}

/* The entry of that number, or the last that holds. */
static bool record_undo(struct recording *r)
{
    const struct log *log = &r->session->job->log;
    const bool *holding = log_holding(r->session->arena, log);
    struct log_entry entry = blank_entry(r, LOG_UNDO);
    int64_t wanted = 0;
    if (r->want->what && !count_parse(r->want->what, INT64_MAX / 2, &wanted, NULL))
        return session_misused(r->session, "the number of an entry (coatwright log shows them)",
                               r->want->what);
    for (size_t i = log->count; i-- > 0 && entry.undone == 0;)
        if (holding[i] && (wanted == 0 || log->entries[i].number == wanted))
            entry.undone = log->entries[i].number;
    if (entry.undone == 0 && r->want->what)
        return session_misused(r->session, "an entry that holds (coatwright log shows them)", r->want->what);
    if (entry.undone == 0) {
        err_add(&r->session->errors, ERR_USAGE, NULL, NULL, "an entry of the log to take back",
                log->count == 0 ? "no entry in it" : "only entries that were taken back");
        return false;
    }
    entry.note = NULL;
    add_entry(r, entry);
    return true;
}

/* `12 C 80 %`. */
static bool record_air(struct recording *r)
{
    struct coatwright *session = r->session;
    struct log_entry entry = blank_entry(r, LOG_AIR);
    const char *what = r->want->what ? r->want->what : "", *unit = strpbrk(what, "CFcf");
    size_t length = unit ? (size_t)(unit - what) + 1 : 0;
    struct err fault;
    if (!temperature_parse(arena_text_n(session->arena, what, length), &entry.air.temperature_c, &fault) ||
        !share_parse(text_trimmed(session->arena, what + length), &entry.air.humidity, &fault) ||
        entry.air.humidity < 0 || entry.air.humidity > 1)
        return session_misused(session, "a temperature and a humidity such as 12 C 80 %", what);
    const struct limit *limit = &limits[LIMIT_TEMPERATURE];
    if (entry.air.temperature_c < limit->least || entry.air.temperature_c > limit->most)
        return session_misused(session, limit->expected, what);
    entry.began_min = r->at_min != INT64_MIN ? r->at_min : session->now_min;
    entry.note = NULL;
    add_entry(r, entry);
    return true;
}

static bool find_entries(struct recording *r)
{
    switch (r->want->kind) {
    case COATWRIGHT_DONE:
        return record_done(r);
    case COATWRIGHT_AGAIN:
        return record_again(r);
    case COATWRIGHT_SKIP:
        return record_skip(r);
    case COATWRIGHT_UNDO:
        return record_undo(r);
    case COATWRIGHT_AIR_MEASURED:
        return record_air(r);
    }
    return false;
}

/* The plan since the last thing that was recorded: what it has from there on is what may be recorded. */
static bool plan_since(struct recording *r)
{
    struct coatwright *session = r->session;
    struct job *job = ARENA_NEW(session->arena, struct job);
    *job = *session->job;
    job->now_min = INT64_MIN;
    for (size_t i = 0; i < job->log.count; i++)
        if (job->log.entries[i].kind == LOG_DONE && job->log.entries[i].done_min > job->now_min &&
            job->log.entries[i].done_min <= session->now_min)
            job->now_min = job->log.entries[i].done_min;
    struct plan_options options = {.timetable = {session->options.effort, AIM_LEAST_WORK, NULL},
                                   .now_min = session->now_min};
    r->found = plan_make(session->arena, job, options, &session->errors);
    return r->found || session_located(session);
}

/* What the log could not give back is not written into it. */
static bool reads_back(struct recording *r, const char *path, const struct buf *lines)
{
    struct coatwright *session = r->session;
    struct err_list *unheard = ARENA_NEW(session->arena, struct err_list);
    struct reading reading = session->reading;
    struct file_text text = {.name = path, .text = lines->text, .length = lines->length};
    reading.errors = reading.warnings = unheard;
    if (log_read(&reading, &text, session->job->zone).count == r->count)
        return true;
    return session_misused(session, "an entry that the log can give back",
                           unheard->count ? unheard->items[0].found : "another one");
}

/* Numbers follow those that the log has by now; a last line that nobody finished goes. */
static bool append(struct recording *r)
{
    struct coatwright *session = r->session;
    const char *path = session->job->log.file;
    struct file_text now = {.name = path, .text = "", .length = 0};
    struct log log = {.last = 0};
    struct buf lines;
    struct err err;
    if (!path)
        return session_misused(session, "a job in a file, beside which its log lies", "standard input");
    struct saving *saving = saving_begin(session->arena, path_folder(session->arena, path), false, &err);
    if (!saving)
        return session_file_failed(session, path, &err);
    bool good = saving_load(saving, path_last(path), &now, &err) || err.code == ERR_NONE;
    if (good)
        log = log_read(&session->reading, &now, session->job->zone);
    buf_init(&lines, session->arena);
    for (size_t i = 0; i < r->count; i++) {
        r->entries[i].number = log.last + 1 + (int64_t)i;
        log_write(&lines, &r->entries[i], session->job->zone);
    }
    if (good && !reads_back(r, path, &lines)) {
        saving_end(saving);
        return false;
    }
    good = good && saving_append(saving, path_last(path), log.whole, lines.text, lines.length, &err);
    saving_end(saving);
    return good || session_file_failed(session, path, &err);
}

/* Text that the log can hold. */
static bool is_plain(struct coatwright *session, const char *text, const char *expected)
{
    size_t length = 0, bad_at;
    bool plain = !text || text_valid(text, strlen(text), &bad_at);
    if (text)
        (void)text_trim(text, &length);
    plain = plain && (!text || length > 0);
    for (const char *at = text; plain && at && *at;)
        plain = !text_is_control(text_next(&at));
    return plain || session_misused(session, expected, text);
}

static bool are_plain(struct coatwright *session, const struct coatwright_record *want)
{
    return is_plain(session, want->note, "a note on one line, without control characters") &&
           is_plain(session, want->because, "a reason on one line, without control characters") &&
           is_plain(session, want->person, "a person by a name on one line, without control characters");
}

static bool record(struct coatwright *session, void *call)
{
    struct recording *r = call;
    struct err fault;
    if (!session_has_job(session) || !are_plain(session, r->want))
        return false;
    if (r->want->used && !volume_parse(r->want->used, &r->used_l, &fault))
        return session_misused(session, fault.expected, r->want->used);
    if (!read_past(session, r->want->at, &r->at_min) || !read_past(session, r->want->began, &r->began_min))
        return false;
    bool plans = r->want->kind != COATWRIGHT_UNDO && r->want->kind != COATWRIGHT_AIR_MEASURED;
    return (!plans || plan_since(r)) && find_entries(r) && append(r);
}

bool coatwright_add_record(struct coatwright *session, const struct coatwright_record *want, size_t *entries)
{
    struct recording r = {
        .session = session, .want = want, .at_min = INT64_MIN, .began_min = INT64_MIN, .used_l = -1};
    if (!session_given(session, want, "what to record"))
        return false;
    if (want->kind != COATWRIGHT_UNDO && !session_given(session, want->what, "what happened"))
        return false;
    bool good = session_guard(session, record, &r);
    if (entries)
        *entries = good ? r.count : 0;
    return good;
}
