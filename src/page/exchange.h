/* A request at work: its parts, what helps to answer it, and the ways it can go. Inside this room. */
#ifndef PAGE_EXCHANGE_H
#define PAGE_EXCHANGE_H

#include "base/arena.h"
#include "coatwright.h"
#include "page/page.h"

#include <jansson.h>

enum { SEGMENTS_MOST = 4, QUERY_MOST = 8, PAGE_MEMORY = 512 << 20, QUICK_EFFORT = 1000 };

struct planned;
struct plans;

struct query {
    const char *name, *value;
};

struct exchange {
    struct page *page;
    const struct page_settings *settings;
    struct arena *arena;
    const struct page_request *request;
    struct page_answer *answer;
    const char *segments[SEGMENTS_MOST]; /* of the path, decoded */
    size_t segment_count;
    struct query query[QUERY_MOST];
    size_t query_count;
    json_t *body;            /* of a POST: an object */
    struct planned *planned; /* the plan that it has taken; NULL: none */
    const char *look;        /* the folder as it was seen when the first was taken; NULL: not yet */
};

/* ---- Plans that are kept (planned.c). */

enum { REPORTS = COATWRIGHT_SHEET + 1, FORMATS = COATWRIGHT_HTML + 1 };

struct plan_kept {
    struct coatwright *session; /* of this exchange alone, until it gives it back */
    struct coatwright_outcome outcome;
    bool read, planned, done;
    const char *texts[REPORTS][FORMATS]; /* that were written */
};

/* The job of that name, planned as it stands; one at a time. Never NULL. */
const struct plan_kept *plan_take(struct exchange *x, const char *file, int64_t effort, bool advice);
/* A report of the plan that was taken, in the memory of the exchange; NULL: an error was added to its session. */
const char *plan_text(struct exchange *x, enum coatwright_report report, enum coatwright_format format);
void plan_give_back(struct exchange *x);

/* Cuts the target into segments and query. False: it is none that the page could have. */
bool exchange_read_target(struct exchange *x);
/* Reads what a POST sends into x->body. False: it is no JSON object, as the answer says then. */
bool exchange_read_body(struct exchange *x);
/* NULL: the query has none. */
const char *exchange_query(const struct exchange *x, const char *name);

/* Whether it may be asked at all; false: it has its answer. */
bool exchange_allowed(struct exchange *x);

/* The answer is a sentence that says what is wrong. */
void exchange_refuse(struct exchange *x, int status, const char *sentence);
/* The errors of a session, as one sentence. */
void exchange_fail(struct exchange *x, struct coatwright *session);
/* JSON as text in an arena; NULL: no memory. The library's own buffer would lose a part of it then, and say nothing. */
const char *json_written(struct arena *arena, const json_t *json);
/* The answer is this JSON, which it takes over; NULL: no memory. */
void exchange_json(struct exchange *x, json_t *json);
/* The answer is a text that lives as long as the exchange. */
void exchange_text(struct exchange *x, const char *type, const char *text);

/* Takes over what is to be released with the exchange, and gives it back. */
json_t *exchange_keep(struct exchange *x, json_t *json);

/* A new session for this exchange, as the folder and the clock have it. */
struct coatwright *exchange_session(struct exchange *x, int64_t effort, bool advice);
/* The options of it. */
struct coatwright_options exchange_options(struct exchange *x, int64_t effort, bool advice);
struct coatwright *exchange_open(struct exchange *x, const struct coatwright_options *options);

/* Whether one of the session's errors is of this kind. */
bool session_met(struct coatwright *session, enum coatwright_code code);

/* The path of a name below the folder; NULL: it is no name that may be asked for. */
const char *exchange_path(struct exchange *x, const char *name);
/* The path of the job of that name; NULL: there is none, as the answer says then. */
const char *exchange_job(struct exchange *x, const char *name);
/* The name of a path below the folder; the path itself where it is elsewhere. */
const char *exchange_name(const struct exchange *x, const char *path);

/* A member of a JSON object as text; NULL: it is not there, or no text. */
const char *text_of(const json_t *object, const char *key);

/* A moment as JSON has it. */
const char *moment_text(const struct exchange *x, int64_t minute);
/* Takes a value over into an object, or into a list. NULL is memory that ended when it was made: here as there the exchange ends
 * as the arena does, so that no answer lacks a part. */
void member_put(const struct exchange *x, json_t *object, const char *key, json_t *value);
void item_put(const struct exchange *x, json_t *list, json_t *value);
/* A report of the session as JSON; null where there is none. */
json_t *report_json(const struct exchange *x, struct coatwright *session, enum coatwright_report report);
json_t *errors_json(const struct exchange *x, struct coatwright *session);
json_t *warnings_json(const struct exchange *x, struct coatwright *session);

/* What a session says of the job that was read (or not): mistakes, areas, what to buy, cost and plan. */
json_t *state_json(struct exchange *x, const struct plan_kept *plan, bool quick);
/* How the plan stands. */
json_t *plan_json(const struct exchange *x, const struct plan_kept *plan, bool quick);
json_t *advice_json(const struct exchange *x, struct coatwright *session);
/* Of several names of texts their versions as they stand now. */
json_t *versions_json(struct exchange *x, const char *const *names, size_t count);

/* The routes (names of their files apart, route_... answers that path). */
void route_asset(struct exchange *x);
void route_icon(struct exchange *x);
void route_folder(struct exchange *x);
void route_job(struct exchange *x);
void route_try(struct exchange *x);
void route_drawing(struct exchange *x);
void route_save(struct exchange *x);
void route_versions(struct exchange *x);
void route_version(struct exchange *x);
void route_new(struct exchange *x);
void route_sheet(struct exchange *x);
void route_plan(struct exchange *x);
void route_today(struct exchange *x);
void route_log(struct exchange *x);
void route_advice(struct exchange *x);
void route_apply(struct exchange *x);
void route_record(struct exchange *x);
void route_mix(struct exchange *x);
void route_finishes(struct exchange *x);
void route_woods(struct exchange *x);
void route_file(struct exchange *x);
void route_calendar(struct exchange *x);
void route_all_calendars(struct exchange *x);

#endif
