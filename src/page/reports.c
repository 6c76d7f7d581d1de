/* What a plan says, as JSON and as files to take away. */
#include "page/exchange.h"

#include "coatwright_folder.h"
#include "base/buf.h"
#include "base/sha256.h"

#include <stdio.h>
#include <string.h>

/* The plan of the job of that name; NULL: the answer says what is wrong with it. */
static const struct plan_kept *take(struct exchange *x, const char *file, bool advice)
{
    if (!exchange_job(x, file))
        return NULL;
    const struct plan_kept *plan = plan_take(x, file, 0, advice);
    if (plan->planned)
        return plan;
    exchange_fail(x, plan->session);
    return NULL;
}

static void answer_report(struct exchange *x, const struct plan_kept *plan, enum coatwright_report report,
                          enum coatwright_format format, const char *type)
{
    const char *text = plan_text(x, report, format);
    if (text)
        exchange_text(x, type, text);
    else
        exchange_fail(x, plan->session);
}

static void answer_json(struct exchange *x, enum coatwright_report report)
{
    const struct plan_kept *plan = take(x, x->segments[2], false);
    if (plan)
        answer_report(x, plan, report, COATWRIGHT_JSON, "application/json");
}

void route_plan(struct exchange *x)
{
    answer_json(x, COATWRIGHT_PLAN);
}

void route_today(struct exchange *x)
{
    answer_json(x, COATWRIGHT_DAY);
}

void route_log(struct exchange *x)
{
    answer_json(x, COATWRIGHT_LOG);
}

static const struct file {
    const char *name;
    enum coatwright_report report;
    enum coatwright_format format;
    const char *type;
    bool taken_away; /* rather saved than shown */
} files[] = {
    {"plan.json", COATWRIGHT_PLAN, COATWRIGHT_JSON, "application/json", true},
    {"timetable.ics", COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR, "text/calendar; charset=utf-8", true},
    {"shopping.csv", COATWRIGHT_BUY, COATWRIGHT_CSV, "text/csv; charset=utf-8", true},
    {"sheet.html", COATWRIGHT_SHEET, COATWRIGHT_HTML, "text/html; charset=utf-8", false},
    {"areas.svg", COATWRIGHT_AREA, COATWRIGHT_SVG, "image/svg+xml", false},
    {"timetable.svg", COATWRIGHT_TIMETABLE, COATWRIGHT_SVG, "image/svg+xml", false},
};

/* Its style element may be followed, by its hash, and no other. */
static void allow_style(struct exchange *x, const char *html)
{
    char hash[SHA256_BASE64_SIZE];
    const char *style = strstr(html, "<style"), *from = style ? strchr(style, '>') : NULL;
    const char *to = from ? strstr(from, "</style>") : NULL;
    if (!to)
        return;
    struct sha256 sum = sha256_of(from + 1, (size_t)(to - from - 1));
    sha256_base64(&sum, hash);
    x->answer->style = arena_textf(x->arena, "'sha256-%s'", hash);
}

void route_file(struct exchange *x)
{
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        const struct file *file = &files[i];
        if (strcmp(x->segments[2], file->name) != 0)
            continue;
        const struct plan_kept *plan = take(x, x->segments[1], false);
        if (!plan)
            return;
        answer_report(x, plan, file->report, file->format, file->type);
        if (x->answer->status == 200 && file->format == COATWRIGHT_HTML)
            allow_style(x, x->answer->body);
        if (x->answer->status == 200 && file->taken_away)
            x->answer->file_name = file->name;
        return;
    }
    exchange_refuse(x, 404, "there is no such file of a plan");
}

void route_calendar(struct exchange *x)
{
    static const char ending[] = ".ics";
    const char *name = x->segments[1];
    size_t length = strlen(name);
    if (length <= sizeof ending - 1 || strcmp(name + length - (sizeof ending - 1), ending) != 0) {
        exchange_refuse(x, 404, "there is no such calendar");
        return;
    }
    const struct plan_kept *plan = take(x, arena_text_n(x->arena, name, length - (sizeof ending - 1)), false);
    if (plan)
        answer_report(x, plan, COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR, "text/calendar; charset=utf-8");
}

enum { JOBS_MOST = 64 };

/* The jobs of the folder that have no mistakes, each in a session of its own. */
struct sound_jobs {
    const char *names[JOBS_MOST];
    struct coatwright *sessions[JOBS_MOST];
    size_t count;
};

/* Where the folder cannot be listed there are none, and the answer says why. */
static void read_all(struct exchange *x, struct sound_jobs *jobs)
{
    struct coatwright *list = exchange_session(x, 0, false);
    if (!coatwright_list_folder(list, x->settings->folder)) {
        exchange_fail(x, list);
        return;
    }
    for (size_t i = 0; i < coatwright_folder_count(list) && jobs->count < JOBS_MOST; i++) {
        const struct coatwright_folder_file *file = coatwright_folder_file(list, i);
        struct coatwright *session = file->job ? exchange_session(x, 0, false) : NULL;
        if (!session || !coatwright_read(session, exchange_path(x, file->name)))
            continue;
        jobs->names[jobs->count] = file->name;
        jobs->sessions[jobs->count++] = session;
    }
}

/* One calendar of them all, planned together as jobs that share one shop; NULL: they do not. */
static const char *planned_together(struct sound_jobs *jobs)
{
    bool planned = jobs->count > 1 && coatwright_plan_together(jobs->sessions, jobs->count, NULL);
    return planned ? coatwright_write(jobs->sessions[0], COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR) : NULL;
}

static const char calendar_end[] = "END:VCALENDAR\r\n", zone_begin[] = "BEGIN:VTIMEZONE";

/* Puts the components of a calendar at the end of another (RFC 5545 section 3.6); a zone that is there already is not repeated. */
static void join_calendar(struct buf *all, const char *text)
{
    const char *at = strstr(text, "\r\nBEGIN:");
    if (all->length == 0)
        buf_add_n(all, text, at ? (size_t)(at + 2 - text) : strlen(text));
    while (at && strncmp(at + 2, "BEGIN:", 6) == 0) {
        const char *begin = at + 2, *name = begin + 6;
        char *end = arena_textf(all->arena, "\r\nEND:%.*s\r\n", (int)strcspn(name, "\r"), name);
        at = strstr(begin, end);
        if (!at)
            return;
        at += strlen(end) - 2;
        const char *component = arena_text_n(all->arena, begin, (size_t)(at + 2 - begin));
        if (strncmp(begin, zone_begin, sizeof zone_begin - 1) != 0 || !strstr(all->text, component))
            buf_add(all, component);
    }
}

/* The calendar of each, planned for itself, in one. */
static const char *planned_apart(struct exchange *x, const struct sound_jobs *jobs)
{
    struct buf all;
    buf_init(&all, x->arena);
    for (size_t i = 0; i < jobs->count; i++) {
        const struct plan_kept *plan = plan_take(x, jobs->names[i], 0, false);
        const char *text = plan->planned ? plan_text(x, COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR) : NULL;
        if (text)
            join_calendar(&all, text);
    }
    if (all.length > 0)
        buf_add(&all, calendar_end);
    return all.length > 0 ? all.text : NULL;
}

/* All jobs in one calendar: planned together where they share one shop. */
void route_all_calendars(struct exchange *x)
{
    struct sound_jobs *jobs = ARENA_NEW(x->arena, struct sound_jobs);
    read_all(x, jobs);
    const char *text = planned_together(jobs);
    if (!text)
        text = planned_apart(x, jobs);
    if (text)
        exchange_text(x, "text/calendar; charset=utf-8", text);
    else if (!x->answer->body)
        exchange_refuse(x, 404, "there is no job without mistakes in the folder");
}

static void answer_table(struct exchange *x, struct coatwright *session, enum coatwright_report report)
{
    const char *text = coatwright_write(session, report, COATWRIGHT_JSON);
    if (text)
        exchange_text(x, "application/json", text);
    else
        exchange_fail(x, session);
}

void route_finishes(struct exchange *x)
{
    struct coatwright *session = exchange_session(x, 0, false);
    if (coatwright_finishes(session, NULL, NULL))
        answer_table(x, session, COATWRIGHT_FINISH_TABLE);
    else
        exchange_fail(x, session);
}

void route_woods(struct exchange *x)
{
    answer_table(x, exchange_session(x, 0, false), COATWRIGHT_WOODS);
}
