/* Coatwright: from a part list to the surfaces, the coats, the shopping and a dated timetable.
 *
 *     struct coatwright_options options = {.now = "2027-01-04T08:00Z"};
 *     struct coatwright_outcome outcome;
 *     struct coatwright *session = coatwright_open(&options);
 *     const char *text;
 *     if (session && coatwright_read(session, "desk.json") && coatwright_plan(session, &outcome) &&
 *         (text = coatwright_write(session, COATWRIGHT_PLAN, COATWRIGHT_JSON)))
 *         puts(text);
 *     else
 *         for (size_t i = 0; session && i < coatwright_error_count(session); i++) ... coatwright_error(...) ...
 *     coatwright_close(session);
 *
 * A session holds one job and owns every text that it hands out until it is closed. Functions that can fail give false
 * or NULL and have then added at least one error to the session; the session stays usable and must still be closed.
 * Nothing is shared between sessions but the time zones of the calendar library: two threads may each use a session
 * of their own as long as only one at a time reads a job or writes an iCalendar file. No function reads the clock or
 * the environment. */
#ifndef COATWRIGHT_H
#define COATWRIGHT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#define COATWRIGHT_VERSION "0.1.0"

struct coatwright;

/* Of texts for people; JSON is always metric. */
enum coatwright_units { COATWRIGHT_UNITS_OF_JOB, COATWRIGHT_METRIC, COATWRIGHT_US };

struct coatwright_options {
    size_t memory_ceiling; /* bytes that a session may take beside itself (about 50 KB); 0: no limit */
    const char *finishes;  /* folder of the finish table; NULL: the one that came with the library */
    const char *now;  /* "2027-01-04T08:00Z", or without offset in the job's zone; NULL: the job's start */
    int64_t effort;   /* counted work that planning may take; 0: the default */
    bool late;        /* plan each step as late as the delivery allows, instead of as early as it can be */
    bool advice;      /* say what would help a late or impossible plan: costs a plan for each alternative */
    bool trust_paths; /* files named by the job may lie outside its folder */
    enum coatwright_units units; /* of the job: US where it measures in inches or feet, else metric */
    bool colour;                 /* texts for people with the colours of a terminal */
};

enum coatwright_code {
    COATWRIGHT_INPUT = 1, /* what the user wrote is wrong */
    COATWRIGHT_FILE,      /* a file could not be read or written */
    COATWRIGHT_MEMORY,    /* the ceiling was reached, or the system has no more */
    COATWRIGHT_USAGE,     /* the function was called wrongly */
    COATWRIGHT_WARNING    /* worth a look; the sentence stands in `found` */
};

/* One mistake at its place. Texts are never NULL, "" where there is nothing to say; the session owns them. */
struct coatwright_error {
    enum coatwright_code code;
    int line, column;    /* from 1; 0: not known; columns count characters */
    const char *file;    /* as it was given */
    const char *pointer; /* RFC 6901; "" for the whole document */
    const char *found, *expected;
};

struct coatwright_outcome {
    bool planned;      /* a timetable was found */
    bool in_time;      /* and it keeps the delivery */
    bool mixes_sound;  /* every mix can be made as asked */
    int64_t ready_min; /* minutes since 1970-01-01T00:00Z; INT64_MAX without a timetable */
};

enum coatwright_report {
    COATWRIGHT_ERRORS,       /* JSON: the errors that the session holds */
    COATWRIGHT_CHECK,        /* text, JSON: the warnings of a job without mistakes */
    COATWRIGHT_AREA,         /* text, JSON, SVG */
    COATWRIGHT_BUY,          /* text, JSON, CSV */
    COATWRIGHT_MIX,          /* text, JSON; after coatwright_mix that mix alone */
    COATWRIGHT_TIMETABLE,    /* text, JSON, iCalendar, SVG (the last two only where one was found) */
    COATWRIGHT_PLAN,         /* text, JSON */
    COATWRIGHT_FINISH_TABLE, /* text, JSON */
    COATWRIGHT_COST,         /* text, JSON, CSV: the lines of a quote */
    COATWRIGHT_FINISH_LABEL /* JSON: a finish file to be filled in from the label, after the nearest finish */
};

enum coatwright_format {
    COATWRIGHT_TEXT,
    COATWRIGHT_JSON,
    COATWRIGHT_CSV,
    COATWRIGHT_ICALENDAR,
    COATWRIGHT_SVG /* a drawing */
};

/* COATWRIGHT_VERSION of the library. Cannot fail. */
const char *coatwright_version(void);

/* A new session; the options are copied and may be NULL (all defaults). NULL: no memory at all. */
struct coatwright *coatwright_open(const struct coatwright_options *options);

/* Releases the session and every text that it gave out. Takes NULL. */
void coatwright_close(struct coatwright *session);

/* Reads a job with the files that it names; "-" is standard input. Once per session. Errors: input (every mistake that
 * could be found, 20 at most), file, memory, and usage where `now` is no moment. */
bool coatwright_read(struct coatwright *session, const char *path);

/* Plans the job that was read; *outcome is filled on success. A delivery that is missed, a job without a possible
 * timetable and a mix that cannot be made are outcomes, not errors. Errors: input, memory. */
bool coatwright_plan(struct coatwright *session, struct coatwright_outcome *outcome);

/* Plans the jobs of several sessions that share people, rack, spray places and room: their shops must be the same (where
 * a later one differs from the first it is wrong input, in its own session), the first one's options are everyone's, each
 * job keeps its delivery; the worst lateness is made small, then that of the others. outcomes[i] is filled for each on
 * success. The first session's calendar then holds all the jobs, whose names must differ, and its timetable for people
 * begins with how they all stand; other reports are each job's own.
 * What the plans take lives in the first session, which must be closed last. Errors: as coatwright_plan, in the session of
 * the job that they are about; memory in the first. */
bool coatwright_plan_together(struct coatwright *const *sessions, size_t count,
                              struct coatwright_outcome *outcomes);

/* Draws the planned work again and again, drying and hands-on times from their spreads and the order of work fixed, so
 * that COATWRIGHT_TIMETABLE tells the chance to be on time. The answer is the same on every run and for any number of
 * `threads` (at least 1) that share in it. Of jobs planned together only the session's own is drawn. Errors: usage where no
 * timetable was found; memory. */
bool coatwright_chance(struct coatwright *session, int threads);

/* Measures the job that was read without planning it: enough for COATWRIGHT_AREA. Errors: input, memory. */
bool coatwright_take_off(struct coatwright *session);

/* A mix without a job; NULL wherever nothing was said. */
struct coatwright_mix_want {
    const char *finish; /* by its id */
    const char
        *amount; /* of the mix, thinner included: "350 ml", "400 g"; or what it shall cover: "1.4 m2" */
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

/* Mixes it, for COATWRIGHT_MIX. *sound tells whether it can be weighed as asked. Errors: usage, input, file, memory. */
bool coatwright_mix(struct coatwright *session, const struct coatwright_mix_want *want, bool *sound);

/* Reads the finish table for COATWRIGHT_FINISH_TABLE and COATWRIGHT_FINISH_LABEL: all of it, or the one finish (NULL:
 * all), with the finishes of the shop's own folder ahead (NULL: none). Errors: usage, input, file, memory. */
bool coatwright_finishes(struct coatwright *session, const char *finish, const char *own);

/* How the areas of a part come about: formulas with the numbers in them, for every row of the part list with that name.
 * The job must have been measured or planned. Borrowed like a report; NULL: an error was added (usage, memory). */
const char *coatwright_explain(struct coatwright *session, const char *part);

/* How the litres and packs of a finish (by its id) come about, coat by coat. The job must have been planned. Borrowed like
 * a report; NULL: an error was added (usage, memory). */
const char *coatwright_explain_finish(struct coatwright *session, const char *finish);

/* The report as UTF-8 text without NUL characters, borrowed until the session is closed. NULL: an error was added
 * (usage where the report does not exist in that format or nothing was read for it; memory). */
const char *coatwright_write(struct coatwright *session, enum coatwright_report report,
                             enum coatwright_format format);

/* Writes the report to a file, whole or not at all: under another name first, flushed to the disk, then renamed. A
 * calendar takes the place of an older one so that events keep their history. Never over a file of the job that was read.
 * Errors: as coatwright_write, file, and usage. */
bool coatwright_save(struct coatwright *session, enum coatwright_report report, enum coatwright_format format,
                     const char *path);

/* Writes plan.json, timetable.ics and shopping.csv into a folder, which is made where it is missing (its parent is
 * not). Each file whole or not at all; what can be known to fail is told before the first is written. */
bool coatwright_save_all(struct coatwright *session, const char *folder);

/* Errors so far, in the order in which they were found, and how many more were counted only. */
size_t coatwright_error_count(const struct coatwright *session);
size_t coatwright_error_more(const struct coatwright *session);
/* `index` must be below the count. */
struct coatwright_error coatwright_error(const struct coatwright *session, size_t index);

/* The same for warnings, which never make a function fail. */
size_t coatwright_warning_count(const struct coatwright *session);
struct coatwright_error coatwright_warning(const struct coatwright *session, size_t index);

/* Adds an error of the caller's own, which is then told like the others; its texts are copied. Cannot fail. */
void coatwright_error_add(struct coatwright *session, const struct coatwright_error *error);

/* "desk.json:14:22: /parts/3/thickness: expected a length such as ..., found ..." in `line`, cut where it does not fit
 * (1200 bytes hold any), always terminated, no line end. Returns its length. Cannot fail. */
size_t coatwright_error_line(const struct coatwright_error *error, char *line, size_t size);

#ifdef __cplusplus
}
#endif

#endif
