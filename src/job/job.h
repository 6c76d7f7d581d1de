/* What the user asked for: pieces, their finishing schedules, tasks, the shop and its air, start and delivery.
 * Moments are UTC minutes, spans whole minutes. All storage is the reader's arena; nothing later changes a job. */
#ifndef JOB_JOB_H
#define JOB_JOB_H

#include "base/moment.h"
#include "finish/finish.h"
#include "finish/fit.h"
#include "job/log.h"
#include "job/part.h"
#include "job/shop.h"

struct arena;
struct err_list;
struct surfaces;

enum step_kind {
    STEP_SAND,
    STEP_SCUFF,
    STEP_RAISE,
    STEP_MASK,
    STEP_COAT,
    STEP_POLISH,
    STEP_RUB,
    STEP_WAIT,
    STEP_TASK,
    STEP_KIND_COUNT
};

/* When a part is turned over: as its finish says, wet on points, or when it is dry to handle. */
enum flip { FLIP_BY_FINISH, FLIP_NOW, FLIP_DRY };

enum laid { LAID_STANDING, LAID_HUNG, LAID_FLAT, LAID_COUNT };

/* One step of a finishing schedule. */
struct step {
    enum step_kind kind;
    const char *words;      /* task words; what to rub with */
    int grit;               /* sand, scuff */
    int32_t takes_min;      /* mask, task: for the whole step of a piece, however many lots it has */
    int32_t takes_each_min; /* mask, task: for each part */
    int32_t dry_min;        /* raise: how long the wetted grain dries */
    int32_t wait_min;       /* wait of a span; -1: of a state */
    enum finish_state wait_state;

    const struct finish *finish; /* coat from here on */
    int coats;
    enum tool by;
    double thin; /* litres of thinner per litre of finish */
    const struct step
        *between; /* one step between coats: the schedule's own, else the finish's; NULL: none */
};

struct schedule {
    const char *name;
    const struct step *steps;
    size_t step_count;
};

/* `case handle` in an `after` list: a state of a piece's last coat, or the end of a task. */
struct after {
    bool is_task;
    size_t index; /* of the piece or task */
    enum finish_state state;
};

/* What a piece must bear, as bits. Wear is that of stairs, floors and table tops. */
enum use {
    USE_WATER = 1,
    USE_ALCOHOL = 2,
    USE_HEAT = 4,
    USE_FOOD = 8,
    USE_OUTDOORS = 16,
    USE_CHILD = 32,
    USE_WEAR = 64
};
enum { USE_COUNT = 7 };

/* How moist wood may be, in % of its dry weight, when it is finished: assumed, never measured. Inside as UFGS-09995 asks
 * before a clear finish; outside common practice. */
enum { WOOD_MOISTURE_INSIDE = 12, WOOD_MOISTURE_OUTSIDE = 15 };

/* A stated area of one region that a schedule of its own treats ahead of the region's: after all work on bare wood, and
 * before its first coat, with which the region goes on as one. */
struct patch {
    int schedule;
    const char *name; /* the schedule's */
    double area_m2;   /* on all parts of the piece together, spread as their regions are */
    enum region region;
    const char *part; /* only on rows of this name; NULL: on all */
};

struct piece {
    const char *name;
    enum laid laid;
    bool laid_given;
    const struct after *after;
    size_t after_count;
    int64_t ready_min; /* INT64_MIN: from the start */
    double rack_m2;    /* -1: as its parts lie or stand */
    unsigned uses;
    int lots; /* 0: as few as serve */
    int lift; /* people who turn a part over; 0: by its mass */
    enum flip flip;
    int coats_a_day;           /* 0: as many as the finish takes */
    int32_t dry_by_min;        /* minute of the day by which every film is dry to handle; 0: any */
    const struct patch *patch; /* NULL: none */
    int entry;                 /* index in the job's "pieces", -1: named by its parts only */
    const char *all;           /* the schedule that it names for all of its parts; NULL: none */
};

struct task {
    const char *name;
    int32_t takes_min;
    const struct after *after;
    size_t after_count;
    const size_t *before; /* pieces whose first hands-on step waits for it */
    size_t before_count;
};

struct job;

/* What makes one job of another, as JSON merge patches (RFC 7396) on one line each: of the job's file, and of its shop's
 * where that is another. The names of keys are known to the room that reads them, so it is they who write. */
struct job_writer {
    const char *(*job_change)(struct arena *arena, const struct job *from, const struct job *to);
    const char *(*shop_change)(struct arena *arena, const struct job *from, const struct job *to);
};

struct job {
    const char *name, *customer; /* customer NULL: not given */
    const char *file;            /* as given, "-" for standard input */
    const char *parts_file;      /* NULL: the parts stand in the job */
    const char *shop_file;       /* NULL: likewise */
    bool strict;                 /* lists are read as they stand, or not at all */
    bool inches;                 /* bare numbers of the part list */
    const struct zone *zone;
    const char *currency;
    int currency_digits;
    int64_t start_min, deliver_min;
    bool deliver_is_day; /* `deliver` names a day alone: its last closing is meant, or the last before */
    int64_t deliver_day;
    enum finish_state deliver_at;
    int32_t to_spare_days; /* working days between ready and delivery that are aimed at, */
    int32_t to_spare_min;  /* and minutes of the clock beside them */
    double reserve;

    const struct schedule *schedules;
    size_t schedule_count;
    const struct piece *pieces; /* in the order of the part list */
    size_t piece_count;
    const struct part *parts;
    size_t part_count;
    const struct surfaces *surfaces; /* of the parts (surface/takeoff.h); NULL: not measured yet */
    const struct task *tasks;
    size_t task_count;
    const struct finish *const *finishes; /* the table as this job sees it, by id */
    size_t finish_count;
    const char *own_finishes; /* the folder of the shop's own; NULL: the job names none */
    const struct stock *stock;
    size_t stock_count;
    struct shop shop;
    struct fit_rules fit; /* what may go over what; none: not looked at */
    struct sundry_rules sundries;
    struct log log; /* what was done already */
    /* With a log, its own or one of the jobs planned with it, what is not recorded is planned from here on: never before
     * the start. Without one: INT64_MIN. */
    int64_t now_min;
    const struct job_writer *writer; /* of whoever read it */
};

/* Whether `deliver` names a day on which the shop is closed, so that the last closing before it is meant; then *day_min is
 * a moment of that day. */
bool job_delivers_closed(const struct job *job, int64_t *day_min);

/* A JSON pointer by value. */
struct job_pointer {
    char text[160];
};

/* `deliver` less the time to spare: so many days earlier on which the shop opens, at the same time of day. */
int64_t job_aims_at_min(const struct job *job);

/* Words of the files, by enum; the uses by the place of their bit. */
extern const char *const step_names[STEP_KIND_COUNT], *const laid_names[LAID_COUNT],
                                                          *const use_names[USE_COUNT];

const char *step_kind_name(enum step_kind kind);
/* What a finish asks for between its coats; NULL: nothing. */
const struct step *step_usual_between(struct arena *arena, const struct finish *finish, enum tool by);

/* Index of a schedule by its name; -1: none. */
int job_schedule_find(const struct job *job, const char *name);

/* How many parts a piece has, qty counted. */
size_t piece_parts(const struct job *job, size_t piece);

/* The file in which a part stands, and the pointer of its column there: "/3/width" in a part list of its own,
 * "/parts/3/width" in the job. */
const char *job_part_place(const struct job *job, const struct part *part, const char *column,
                           struct job_pointer *pointer);
/* "/schedules/<name>/<step>/<key>", the name escaped as RFC 6901 has it; key NULL: the step itself. */
struct job_pointer job_schedule_place(const struct schedule *schedule);
struct job_pointer job_step_place(const struct schedule *schedule, size_t step, const char *key);

/* Invariants that no single value can break: a cycle in `after` (named: "top -> case -> top"), deliver before
 * start, coats by a tool that the finish does not take, impossible thinning. Warnings: more coats than a finish
 * bears, a wide board finished on one face only, a `standing` default on a piece with two large faces, no wood, a
 * schedule that nothing uses, and what the rules of `fit` speak against. */
void job_check(struct arena *arena, const struct job *job, struct err_list *errors,
               struct err_list *warnings);

/* Of these what concerns the people's skills (job_skills.c): a step of a schedule that nobody can do. */
void job_check_skills(const struct job *job, const struct schedule *schedule, struct err_list *errors);

/* Of these what the rules of `fit` speak against (job_fit.c): once for a rule and a coat, naming the first part of those that it hits. */
void job_check_fit(struct arena *arena, const struct job *job, struct err_list *warnings);

#endif
