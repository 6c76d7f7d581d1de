/* Coatwright: from a part list to the surfaces, the coats, the shopping and a dated timetable.
 * examples/walk.c shows the way from coatwright_open to coatwright_close; coatwright_walk.h gives the plan as structs,
 * coatwright_server.h knows calendars on a server.
 *
 * A session holds one job. Everything that it hands out, texts and structs, is its own and stays as it is until the session
 * is closed; what a caller hands in is copied. Functions that can fail give false or NULL and have then added at least one
 * error to the session, which stays usable and must still be closed. NULL for a session gives false, NULL or 0, NULL for
 * anything else that is needed is an error of usage; what may be NULL says so.
 *
 * Sessions are free of each other: threads may each use sessions of their own at the same time, for everything. One session
 * is for one thread at a time; jobs planned together count as one. No function reads the clock or the environment, changes
 * the locale or looks at it: numbers have a decimal point. Texts are UTF-8 without NUL. Moments are whole minutes since
 * 1970-01-01T00:00Z, INT64_MAX where there is none; money is whole cents, the smallest unit of the job's currency, -1 where
 * a price is missing.
 *
 * Structs may grow at their end in a later version. Those that a caller makes begin with their size, which their INIT sets;
 * those of the library are only ever handed out by address. */
#ifndef COATWRIGHT_H
#define COATWRIGHT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined __GNUC__
#define COATWRIGHT_API __attribute__((visibility("default")))
#else
#define COATWRIGHT_API
#endif

#define COATWRIGHT_VERSION_NUMBER 100 /* 10000 x major + 100 x minor + patch */
#define COATWRIGHT_VERSION "0.1.0"

struct coatwright;

/* COATWRIGHT_VERSION and COATWRIGHT_VERSION_NUMBER of the library that runs. Cannot fail. */
COATWRIGHT_API const char *coatwright_version(void);
COATWRIGHT_API int coatwright_version_number(void);

/* Of texts for people; JSON is always metric. */
enum coatwright_units { COATWRIGHT_UNITS_OF_JOB, COATWRIGHT_METRIC, COATWRIGHT_US };

enum coatwright_stage {
    COATWRIGHT_SEARCHING, /* for the plan */
    COATWRIGHT_ADVISING   /* what would help: each alternative is planned */
};

/* How far long work has come. Borrowed during the call. */
struct coatwright_progress {
    enum coatwright_stage stage;
    double done; /* of the stage: 0 to 1; a search may end at any share, as soon as its plan is proven best */
};

enum coatwright_page { COATWRIGHT_PAGE_OF_UNITS, COATWRIGHT_A4, COATWRIGHT_LETTER };

struct coatwright_options {
    size_t size;           /* of this struct */
    size_t memory_ceiling; /* bytes that a session may take beside itself (about 60 KB); 0: no limit */
    const char *finishes;  /* folder of the finish table; NULL: the one that came with the library */
    const char *now;  /* "2027-01-04T08:00Z", or without offset in the job's zone; NULL: the job's start */
    int64_t effort;   /* counted work that planning may take; 0: the default */
    bool latest;      /* plan everything as late as the delivery and the least work allow */
    bool soonest;     /* be ready as early as can be, instead of with the least work that is in time */
    bool advice;      /* say what would help a late or impossible plan: costs a plan for each alternative */
    bool trust_paths; /* files named by the job may lie outside its folder */
    bool
        given_only; /* files named by the job are those of coatwright_add_text; the finish table is read all the same */
    enum coatwright_units units; /* of the job: US where it measures in inches or feet, else metric */
    bool colour;                 /* texts for people with the colours of a terminal */
    /* Asked now and then during long work, some hundred times a second, in the thread that does it. False ends the search:
     * the plan is the best so far, and says so (coatwright_outcome). It must not use the session. NULL: never asked. */
    bool (*progress)(void *caller, const struct coatwright_progress *progress);
    void *caller; /* handed to it */
    int width;    /* columns of those texts, from 40 to 120; 0: 80 */
    enum coatwright_page
        page; /* of drawings of areas and the sheet: Letter where the units are US, else A4 */
    bool
        as_planned; /* plan jobs with a log without it too, so that COATWRIGHT_COST tells both: costs a plan more */
};
#define COATWRIGHT_OPTIONS_INIT                                                                              \
    {                                                                                                        \
        sizeof(struct coatwright_options), 0, NULL, NULL, 0, false, false, false, false, false,              \
            COATWRIGHT_UNITS_OF_JOB, false, NULL, NULL, 0, COATWRIGHT_PAGE_OF_UNITS, false                   \
    }

/* A new session; the options are copied and may be NULL (all defaults). NULL: no memory, or options without their size. */
COATWRIGHT_API struct coatwright *coatwright_open(const struct coatwright_options *options);

/* Releases the session and everything that it gave out. Takes NULL. */
COATWRIGHT_API void coatwright_close(struct coatwright *session);

/* Reads a job with the files that it names; "-" is standard input. Once per session. Errors: input (every mistake that
 * could be found, 20 at most), file, memory, and usage where `now` is no moment. */
COATWRIGHT_API bool coatwright_read(struct coatwright *session, const char *path);

/* Hands over a text, of a part list, shop, stock, calendar or finish, under the name by which the job names it ("parts.csv",
 * "finishes/own-oil.json"; names are relative to the job's own). It is found before any file of that name; the same name
 * again replaces it. Before the job is read. Errors: usage, memory. */
COATWRIGHT_API bool coatwright_add_text(struct coatwright *session, const char *name, const char *text,
                                        size_t length);

/* Reads a job whose text is in memory, as coatwright_read does; `name` stands in messages, and the files that the job names
 * lie beside it. Errors: as coatwright_read. */
COATWRIGHT_API bool coatwright_read_text(struct coatwright *session, const char *name, const char *text,
                                         size_t length);

/* Measures the job that was read without planning it: enough for COATWRIGHT_AREA. Errors: usage, input, memory. */
COATWRIGHT_API bool coatwright_take_off(struct coatwright *session);

struct coatwright_outcome {
    size_t size;       /* of this struct */
    bool planned;      /* a timetable was found */
    bool in_time;      /* and it keeps the delivery */
    bool mixes_sound;  /* every mix can be made as asked */
    bool ended;        /* the search was ended by `progress` or the memory ceiling: the best plan so far */
    int64_t ready_min; /* INT64_MAX without a timetable */
};
#define COATWRIGHT_OUTCOME_INIT                                                                              \
    {                                                                                                        \
        sizeof(struct coatwright_outcome), false, false, false, false, INT64_MAX                             \
    }

/* Plans the job that was read; *outcome (may be NULL) is filled on success. Again, it plans anew. A delivery that is missed,
 * a job without a possible timetable and a mix that cannot be made are outcomes, not errors. Errors: usage, input, memory. */
COATWRIGHT_API bool coatwright_plan(struct coatwright *session, struct coatwright_outcome *outcome);

/* Plans the jobs of several sessions that share people, rack, spray places and room: their shops must be the same (where
 * a later one differs from the first it is wrong input, in its own session), the first one's options are everyone's, each
 * job keeps its delivery; the worst lateness is made small, then that of the others. outcomes[i] is filled for each on
 * success (NULL: nobody asks); each session once. The first session's calendar then holds all the jobs, whose names must
 * differ, and its timetable for people begins with how they all stand; other reports are each job's own.
 * What the plans take lives in the first session, which must be closed last. Errors: as coatwright_plan, in the session of
 * the job that they are about; memory in the first. */
COATWRIGHT_API bool coatwright_plan_together(struct coatwright *const *sessions, size_t count,
                                             struct coatwright_outcome *outcomes);

/* Draws the planned work again and again, drying and hands-on times from their spreads and the order of work fixed, so
 * that COATWRIGHT_TIMETABLE tells the chance to be on time. The answer is the same on every run and for any number of
 * `threads` (at least 1, at most 64) that share in it. Of jobs planned together only the session's own is drawn. Errors:
 * usage where no timetable was found; memory. */
COATWRIGHT_API bool coatwright_chance(struct coatwright *session, int threads);

/* ---- The day card. */

/* Whose, and of which day; NULL wherever nothing was said. */
struct coatwright_day_want {
    size_t size;        /* of this struct */
    const char *day;    /* "2027-03-02"; that of `now`, on the job's wall; of a sheet all of them */
    const char *person; /* a name, or a number from 1; everyone */
};
#define COATWRIGHT_DAY_WANT_INIT                                                                             \
    {                                                                                                        \
        sizeof(struct coatwright_day_want), NULL, NULL                                                       \
    }

/* Chooses what COATWRIGHT_DAY and COATWRIGHT_SHEET show, of the plan that the session has or will have; without it everyone's card
 * of the day of `now`, and a sheet of all of it. The card and the sheet of the first of several jobs planned together are those of
 * all of them. Errors: usage (no job was read, no such day, nobody of that name), memory. */
COATWRIGHT_API bool coatwright_day(struct coatwright *session, const struct coatwright_day_want *want);

/* ---- A new job. */

/* What is known of it; NULL wherever nothing was said, but for the first four. */
struct coatwright_new_want {
    size_t size;      /* of this struct */
    const char *list; /* a part list, or a folder with one; with a kind: where its list will be, or NULL */
    const char *start, *deliver;
    const char *outside; /* a finish, by its id */
    const char *inside;  /* of the insides of boxes and of the pieces of `inner`; as outside */
    const char *name;    /* the list's */
    const char *units;   /* of numbers without one, "mm"; as the list looks */
    const char *zone;    /* UTC */
    const char *currency;
    const char *flat;  /* pieces that lie flat, commas between; those with a large face and back */
    const char *inner; /* pieces that are seen only when something is opened; by their names */
    const char *hours; /* "08:00-12:00 13:00-17:00", Monday to Friday */
    int people;        /* 0: one */
    const char *kind;  /* without a list: table, cabinet, doors, shelf, chair or box, ... */
    const char *sizes; /* ... its outer sizes, "1800 x 900 x 750" ... */
    const char *wood;  /* ... and its wood; oak */
};
#define COATWRIGHT_NEW_WANT_INIT                                                                             \
    {                                                                                                        \
        sizeof(struct coatwright_new_want), NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL,      \
            NULL, NULL, 0, NULL, NULL, NULL                                                                  \
    }

/* What became of it; the session owns the texts. */
struct coatwright_new_job {
    size_t size;                                    /* of this struct */
    const char *job_file, *shop_file, *prices_file; /* beside the list */
    const char *flat, *inner;                       /* as they were taken, commas between; "" for none */
    const char *parts_file;                         /* of a kind; NULL: the list was there */
    const char *units_meant;                        /* "in" or "mm" where the list looks so; NULL: no doubt */
};
#define COATWRIGHT_NEW_JOB_INIT                                                                              \
    {                                                                                                        \
        sizeof(struct coatwright_new_job), NULL, NULL, NULL, NULL, NULL, NULL, NULL                          \
    }

/* Makes a job of a part list and reads it, as coatwright_read would the files that coatwright_save_new writes: the list is
 * read as it is, its warnings say how it was understood. *made (may be NULL) is filled also where the list has mistakes.
 * Errors: as coatwright_read, and usage. */
COATWRIGHT_API bool coatwright_new(struct coatwright *session, const struct coatwright_new_want *want,
                                   struct coatwright_new_job *made);

/* Writes its job, shop and prices files beside the list, and the list itself where it was handed over as a text: all or none,
 * and over no file that holds something else. Errors: file, usage. */
COATWRIGHT_API bool coatwright_save_new(struct coatwright *session);

/* ---- Without a job. */

/* A mix; NULL wherever nothing was said. */
struct coatwright_mix_want {
    size_t size;        /* of this struct */
    const char *finish; /* by its id */
    const char
        *amount; /* of the mix, thinner included: "400 ml", "450 g"; or what it shall cover: "1.4 m2" */
    const char
        *have;      /* or a component and how much of it there is, "hardener 180 g": the most that it makes */
    const char *at; /* "15 C"; the reference of its pot life */
    const char *by; /* a tool; the finish's first */
    const char *wood;  /* under a first coat; closed grain */
    bool later;        /* for a film: a second or later coat, not one on bare wood */
    const char *thin;  /* finish to thinner, "2:1", or thinner as a share, "10 %"; none */
    const char *scale; /* its smallest step: "0.1 g"; 1 g */
    const char *cut;   /* of shellac: the pounds of the cut to make, of flakes; the finish as it comes */
    const char *from;  /* ... or of a stronger cut */
};
#define COATWRIGHT_MIX_WANT_INIT                                                                             \
    {                                                                                                        \
        sizeof(struct coatwright_mix_want), NULL, NULL, NULL, NULL, NULL, NULL, false, NULL, NULL, NULL,     \
            NULL                                                                                             \
    }

/* Mixes it, for COATWRIGHT_MIX. *sound (may be NULL) tells whether it can be weighed as asked. Errors: usage, input, file,
 * memory. */
COATWRIGHT_API bool coatwright_mix(struct coatwright *session, const struct coatwright_mix_want *want,
                                   bool *sound);

/* Reads the finish table for COATWRIGHT_FINISH_TABLE and COATWRIGHT_FINISH_LABEL: all of it, or the one finish (NULL:
 * all), with the finishes of the shop's own folder ahead (NULL: none). Errors: usage, input, file, memory. */
COATWRIGHT_API bool coatwright_finishes(struct coatwright *session, const char *finish, const char *own);

/* ---- Texts. */

/* How the areas of a part come about: formulas with the numbers in them, for every row of the part list with that name.
 * The job must have been measured or planned. Borrowed like a report; NULL: an error was added (usage, memory). */
COATWRIGHT_API const char *coatwright_explain(struct coatwright *session, const char *part);

/* How the litres and packs of a finish (by its id) come about, coat by coat. The job must have been planned. Borrowed like
 * a report; NULL: an error was added (usage, memory). */
COATWRIGHT_API const char *coatwright_explain_finish(struct coatwright *session, const char *finish);

enum coatwright_report {
    COATWRIGHT_ERRORS,       /* JSON: the errors that the session holds */
    COATWRIGHT_CHECK,        /* text, JSON: the warnings of a job without mistakes */
    COATWRIGHT_AREA,         /* text, JSON, SVG */
    COATWRIGHT_BUY,          /* text, JSON, CSV */
    COATWRIGHT_MIX,          /* text, JSON; after coatwright_mix that mix alone */
    COATWRIGHT_TIMETABLE,    /* text, JSON, iCalendar, SVG (the last two only where one was found) */
    COATWRIGHT_PLAN,         /* text, JSON */
    COATWRIGHT_FINISH_TABLE, /* text, JSON */
    COATWRIGHT_COST, /* text, JSON, CSV: the lines of a quote, with `as_planned` as planned and as it became */
    COATWRIGHT_FINISH_LABEL, /* JSON: a finish file to be filled in from the label, after the nearest finish */
    COATWRIGHT_WOODS,        /* text, JSON: the woods that a part list may name; needs nothing read */
    COATWRIGHT_LOG,          /* text, JSON: what was recorded */
    COATWRIGHT_DAY,          /* text, JSON: the day card, of coatwright_day */
    COATWRIGHT_LEARNED,      /* text, JSON: what the logs of coatwright_learn say */
    COATWRIGHT_SHEET,        /* HTML: the sheet to print, where a timetable was found */
    COATWRIGHT_BUSY          /* text, JSON: the calendars of coatwright_fetch_busy */
};

enum coatwright_format {
    COATWRIGHT_TEXT,
    COATWRIGHT_JSON,
    COATWRIGHT_CSV,
    COATWRIGHT_ICALENDAR,
    COATWRIGHT_SVG, /* a drawing */
    COATWRIGHT_HTML /* one page that needs nothing else, for paper and for the screen */
};

/* The report as text, borrowed until the session is closed. NULL: an error was added (usage where the report does not exist
 * in that format or nothing was read for it; memory). */
COATWRIGHT_API const char *coatwright_write(struct coatwright *session, enum coatwright_report report,
                                            enum coatwright_format format);

/* Writes the report to a file, whole or not at all: under another name first, flushed to the disk, then renamed. A
 * calendar takes the place of an older one so that events keep their history. Never over a file of the job that was read.
 * Errors: as coatwright_write, file, and usage. */
COATWRIGHT_API bool coatwright_save(struct coatwright *session, enum coatwright_report report,
                                    enum coatwright_format format, const char *path);

/* Writes plan.json, timetable.ics, shopping.csv and sheet.html into a folder, which is made where it is missing (its parent is
 * not). Each file whole or not at all; what can be known to fail is reported before the first is written. Errors: as
 * coatwright_save. */
COATWRIGHT_API bool coatwright_save_all(struct coatwright *session, const char *folder);

/* ---- The log: what really happened. It lies beside the job (desk.log beside desk.json, or as the job's `log` says) and is only
 * ever added to. A job that is read takes its steps as done; whatever is not recorded is planned from `now` on. */

enum coatwright_record_kind {
    COATWRIGHT_DONE,         /* steps that were done */
    COATWRIGHT_AGAIN,        /* a coat that must be repeated */
    COATWRIGHT_SKIP,         /* a step that is left out */
    COATWRIGHT_UNDO,         /* an entry that is taken back */
    COATWRIGHT_AIR_MEASURED, /* the air of the shop at a moment */
};

/* NULL or 0 wherever nothing is said. Moments: "14:30" (today), "yesterday 14:30", or as `now`. */
struct coatwright_record {
    size_t size; /* of this struct */
    enum coatwright_record_kind kind;
    /* Done: the id of a step or batch, "today" (all of today's until now) or "until 14:30" (all that was planned until then);
     * again, skip: the id of a step; undo: the number of an entry, NULL: the last; air: "12 C 80 %". */
    const char *what;
    const char *at, *began; /* done: its end, now; its beginning. Air: when it was measured, now */
    const char *used;       /* done: "240 ml" */
    int parts;              /* done: so many parts of the lot; the others stay to be done */
    const char *person, *note;
    const char *because; /* again */
    int sand;            /* again: the grit to sand with before the coat; 0: it is not sanded */
};
#define COATWRIGHT_RECORD_INIT                                                                               \
    {                                                                                                        \
        sizeof(struct coatwright_record), COATWRIGHT_DONE, NULL, NULL, NULL, NULL, 0, NULL, NULL, NULL, 0    \
    }

/* Compares the plan with an earlier one (a plan.json; one that is not there has nothing to say): the page of a job with a log then
 * begins with the steps that it had done by now and that were not recorded. Errors: usage, memory. */
COATWRIGHT_API bool coatwright_earlier_plan(struct coatwright *session, const char *path);

/* Adds it to the log of the job that was read, on the disk before true is given; *entries (may be NULL): how many lines it took.
 * The session's own job stays as it was read: read it again in a new session. Two writers take turns. Errors: usage (no such
 * step, a moment that has not come), file (the log is then as it was), memory. */
COATWRIGHT_API bool coatwright_add_record(struct coatwright *session, const struct coatwright_record *want,
                                          size_t *entries);

/* Learns coverage, minutes and loss of each finish and tool from the logs of the jobs in a folder, for COATWRIGHT_LEARNED: in a
 * session without a job. A job with mistakes is left out, with a warning. Errors: usage, file (no such folder), input (no
 * job in it, a finish table with mistakes), memory. */
COATWRIGHT_API bool coatwright_learn(struct coatwright *session, const char *folder);

/* Writes what was learned of coverage, minutes and loss into files of the shop's own finishes, in the folder that the jobs name: copies of the
 * table's with the learned figures, or in the place of those that it wrote before. A file with figures of the shop's own is
 * left as it is; COATWRIGHT_LEARNED tells what became of each. Errors: usage (nothing was learned, no job names a folder),
 * file, memory. */
COATWRIGHT_API bool coatwright_save_learned(struct coatwright *session);

/* ---- What would help a late plan (coatwright_options.advice), by the numbers from 1 that its reports give. */

COATWRIGHT_API size_t coatwright_advice_count(struct coatwright *session);

/* One line of it with the changes that it makes: "1. one more person: ready ...; in desk.json: `{...}`". NULL: there is none
 * of that number. Errors: usage. */
COATWRIGHT_API const char *coatwright_advice(struct coatwright *session, size_t number);

/* Makes the changes of a line by their JSON merge patches (RFC 7396), everything else in the files left as it stands: in a
 * folder that is made and takes a copy of every file below the job's folder that was read, or (NULL) in these files
 * themselves, all or none of them; no link is written through. Gives the path of the job as it is then, to be read in a
 * session of its own. NULL: no such line, one that changes no file, or it could not be written. Errors: usage, file. */
COATWRIGHT_API const char *coatwright_apply(struct coatwright *session, size_t number, const char *folder);

/* ---- Errors and warnings. */

enum coatwright_code {
    COATWRIGHT_INPUT = 1, /* what the user wrote is wrong */
    COATWRIGHT_FILE,      /* a file could not be read or written */
    COATWRIGHT_MEMORY,    /* the ceiling was reached, or the system has no more */
    COATWRIGHT_USAGE,     /* the function was called wrongly */
    COATWRIGHT_WARNING    /* worth a look; the sentence stands in `found` */
};

/* One mistake at its place. Texts are never NULL, "" where there is nothing to say. */
struct coatwright_error {
    enum coatwright_code code;
    int line, column;    /* from 1; 0: not known; columns count characters */
    const char *file;    /* as it was given */
    const char *pointer; /* RFC 6901; "" for the whole document */
    const char *found, *expected;
    const char
        *id; /* stays the same while words and rows change: the kind and the pointer, with an asterisk in the
                       place of each index: "file:/shop", "input:/units", "memory:" */
};

/* Errors so far, in the order in which they were found, and how many more were counted only. */
COATWRIGHT_API size_t coatwright_error_count(const struct coatwright *session);
COATWRIGHT_API size_t coatwright_error_more(const struct coatwright *session);
/* NULL: the index is not below the count. */
COATWRIGHT_API const struct coatwright_error *coatwright_error(struct coatwright *session, size_t index);

/* The same for warnings about what was read, which never make a function fail. */
COATWRIGHT_API size_t coatwright_warning_count(const struct coatwright *session);
COATWRIGHT_API const struct coatwright_error *coatwright_warning(struct coatwright *session, size_t index);

/* Adds an error of the caller's own, which is then reported like the others; its texts may be NULL, its id is not looked at.
 * Cannot fail. */
COATWRIGHT_API void coatwright_error_add(struct coatwright *session, const struct coatwright_error *error);

/* "desk.json:14:22: /parts/3/thickness: expected a length such as ..., found ..." in `line`, cut where it does not fit
 * (1200 bytes hold any), always terminated where there is room for that, no line end. Returns its length. Cannot fail; with
 * NULL or no room it is 0. */
COATWRIGHT_API size_t coatwright_error_line(const struct coatwright_error *error, char *line, size_t size);

#ifdef __cplusplus
}
#endif

#endif
