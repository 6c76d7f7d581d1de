/* What a session holds, and the guard around everything that may run out of memory. */
#ifndef API_SESSION_H
#define API_SESSION_H

#include "base/arena.h"
#include "base/measure.h"
#include "base/observer.h"
#include "coatwright.h"
#include "format/given.h"
#include "source/finish_table.h"
#include "plan/chance.h"
#include "plan/lone.h"
#include "plan/plan.h"
#include "report/busy.h"
#include "report/table.h"

enum { NEW_FILES = 4 };

struct coatwright_source;
struct folder;
struct versions;
struct walk;
struct learning;

/* An error as it was handed out. */
struct told {
    struct coatwright_error error;
    char id[ERR_POINTER_SIZE + 16];
};

struct coatwright {
    struct arena *arena; /* under the ceiling: all of the job */
    struct arena *spare; /* beside it: the options' texts, and errors reported when the other is full */
    struct coatwright_options options;
    struct err_list errors, warnings;
    const char *errors_text; /* as JSON, in `spare` */
    struct told told_errors[ERR_MOST], told_warnings[ERR_MOST];
    struct reading reading;
    struct given_files given;
    const char *new_files[NEW_FILES]; /* job, shop and prices of coatwright_new; NULL: none */
    const struct job *job;
    const struct surfaces *surfaces;
    const struct plan *plan;
    const struct plan *first_plan;      /* of the same job without its log; NULL: not asked for, or no log */
    const struct walk *walk;            /* of the plan, as it was walked; NULL: not yet */
    const struct plan *const *together; /* of the first of several jobs: all their plans; NULL: one job */
    const struct texts *const *together_texts; /* what was read for each */
    size_t together_count;
    const struct chance *chance; /* NULL: not asked for */
    const char *applied;         /* the job with a change that was made; NULL: none was */
    int64_t now_min;
    struct unrecorded unrecorded;         /* of an earlier plan; count 0: nothing, or none was asked for */
    int64_t card_day;                     /* of the day card, since 1970; INT64_MIN: that of now */
    int card_person;                      /* from 1; 0: everyone */
    const struct finish *const *finishes; /* to be shown; NULL: none were read */
    const struct finish *const *replaces; /* for each the shipped one whose place it takes; NULL: none */
    size_t finish_count;
    bool one_finish;
    struct folder *folder;             /* that was listed; NULL: none was */
    struct versions *versions;         /* that were looked up; NULL: none were */
    struct coatwright_source *sources; /* what the job was read from, as it was handed out; NULL: not yet */
    size_t source_count;
    struct learning *learning;   /* from a folder of jobs; NULL: nothing was */
    struct busy_report fetched;  /* calendars that were fetched; count 0: none were */
    const struct lone_mix *lone; /* NULL: none was asked for */
    struct observer observer;    /* who asks the caller whether to go on */
    bool asking;                 /* the caller is asked right now, and must not use the session */
};

/* A text handed to what is run under the guard. */
struct text_call {
    const char *text;
    size_t length;
    const char *name;
};

/* Runs `work` with what it needs in `call`; memory that ends becomes an error of the session, and false. NULL: false. */
bool session_guard(struct coatwright *session, bool (*work)(struct coatwright *session, void *call),
                   void *call);

/* The path of a name below a folder, none of its parts hidden, empty or leading up; NULL: it is none, which is reported. */
const char *session_path(struct coatwright *session, const char *folder, const char *name);

/* Whether a file says that it is a job; what is no JSON is none. */
bool session_is_job(struct coatwright *session, struct path_rule rule, const char *path);

/* Reads the one job of a session; `fetching`: to fetch the calendars that it names on servers. NULL: it has mistakes. */
struct job *session_read(struct coatwright *session, const char *path, bool fetching);

/* The moment that counts as now, once the job is known. */
bool session_set_now(struct coatwright *session, const struct job *job);

/* The password itself, or the one in the file (NULL: none). False: the file cannot be read, or not by its owner alone. */
bool session_password(struct coatwright *session, const char *given, const char *file, const char **password);

/* Adds an error of the command line; false. `found` is quoted. */
bool session_misused(struct coatwright *session, const char *expected, const char *found);

/* Whether an argument was given; where it is NULL an error says what should have been. False for no session, too. */
bool session_given(struct coatwright *session, const void *argument, const char *expected);

/* Adds an error of a file; false. */
bool session_file_failed(struct coatwright *session, const char *path, const struct err *fault);

/* Whether a job was read; an error says that none was. */
bool session_has_job(struct coatwright *session);
/* Gives mistakes found by rooms that know no files their places; false. */
bool session_located(struct coatwright *session);

/* Draws what tells the jobs of a calendar from others, where that was not done yet; false when an error was added. */
bool session_draw_keys(struct coatwright *session);
/* A report in the session's arena, with the calendar that it replaces (NULL: none); NULL when an error was added. */
const struct buf *session_write(struct coatwright *session, enum coatwright_report report,
                                enum coatwright_format format, const struct file_text *previous);
/* What was learned; NULL: nothing was. */
const struct learned *session_learned(const struct coatwright *session);
/* The errors as one JSON text, in memory of their own. */
const char *session_errors_json(struct coatwright *session);

/* The units of what people read. */
enum unit_system session_units(const struct coatwright *session);
/* What they read it on. */
struct screen session_screen(const struct coatwright *session, struct buf *out);

/* The folder of the finish table. */
const char *session_finishes(const struct coatwright *session);
/* The table without a job, and a finish of it; NULL when an error was added. */
struct finish_table *session_table(struct coatwright *session, const char *own);
const struct finish *session_finish(struct coatwright *session, const struct finish_table *table,
                                    const char *id);

#endif
