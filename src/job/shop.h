/* The shop: when it works, who works, its air, room, racks and tools, and the rates at which its people work.
 * Every field has a stated default (shop_default), "common practice, from memory" unless said otherwise. */
#ifndef JOB_SHOP_H
#define JOB_SHOP_H

#include "finish/air.h"
#include "finish/finish.h"
#include "finish/vapour.h"

/* Rates and spans are keyed by tool, and by these kinds of work. */
enum work { WORK_SAND = TOOL_COUNT, WORK_SCUFF, WORK_POLISH, WORK_RUB, WORK_WIPE, WORK_RAISE, WORK_COUNT };

/* Minutes of a day's wall clock, from 0 to 1440. */
struct stretch {
    int from_min, to_min;
};

struct shop_day {
    const struct stretch *stretches; /* rising, apart */
    size_t count;
};

/* Whole days, both included. */
struct day_range {
    int64_t first_day, last_day;
};

/* Moments (UTC minutes) at which nobody works: from another calendar. */
struct busy {
    int64_t from_min, to_min;
};

/* What a calendar was read as. */
struct busy_file {
    const char *file;
    const char *address; /* where fetch-busy fetched it; NULL: it is a file of the shop's own */
    int64_t fetched_min; /* when; INT64_MIN: the file does not say */
    size_t events;       /* that keep somebody busy, at whatever time */
    int64_t busy_min;    /* of the time from the start of the job to its delivery */
};

/* What stands on the shelf. */
struct stock {
    const struct finish *finish;
    size_t component;
    double amount_l;
    int64_t opened_day;      /* INT64_MIN: not opened */
    int64_t best_before_day; /* INT64_MAX: not given */
    size_t row;
};

enum { PEOPLE_MOST = 100 };

/* What a person does, as bits: 1 << enum work. */
enum { SKILLS_ALL = (1 << WORK_COUNT) - 1 };

/* Somebody who works here. Hours, closed days and busy times are complete: the shop's where nothing else is said. */
struct person {
    const char *name; /* NULL: one of several who are only counted */
    unsigned does;
    struct shop_day hours[7];
    bool hours_own; /* otherwise they are the shop's */
    const struct day_range *closed;
    size_t closed_count, closed_own; /* their own are the last of them */
    const struct busy *busy;
    size_t busy_count;
    const char *const *calendars; /* of their own, as the shop names them */
    size_t calendar_count;
};

struct shop {
    int people;
    const struct person
        *crew; /* NULL: people who are only counted, each with the shop's hours and all skills */
    struct shop_day hours[7]; /* Monday first */
    bool hours_assumed;
    const struct day_range *closed;
    size_t closed_count;
    const struct busy *busy;
    size_t busy_count;
    const struct busy_file *busy_files;
    size_t busy_file_count;
    int64_t busy_from_min, busy_to_min; /* the time for which calendars were read; of default shops, all */
    struct air_year air;
    double rack_m2; /* -1: no limit */
    int spray_places;
    bool dust_separate;
    int32_t settle_min;
    double scale_g;
    double rate_m2_per_h[WORK_COUNT];
    double loss_l[TOOL_COUNT];
    double transfer[TOOL_COUNT];
    double set_up_min[WORK_COUNT], clean_up_min[WORK_COUNT], handling_min[WORK_COUNT];
    int32_t rest_min[TOOL_COUNT]; /* how long a tool may lie with finish in it */
    double two_part_clean_up_min
        [TOOL_COUNT];            /* of finishes with several components; a reader that finds `clean-up`
                                                 for a tool sets both */
    int64_t rate_cents_per_hour; /* -1: not given */
    enum country country;        /* COUNTRY_OTHER: not given, the zone decides */
};

/* Fills every field; the stretches are static. */
void shop_default(struct shop *shop);

/* A tool's or a work's key in `rates`, `set-up`, ...: "brush", "sand", "wipe". */
const char *work_name(int work);

/* Whose limits and words hold: as the shop says it, else by the zone ("Europe/...", "America/New_York"). */
enum country shop_country(const struct shop *shop, const struct zone *zone);

bool shop_closed_on(const struct shop *shop, int64_t day);

/* Person i as they work: from the crew, or one of those who are only counted. */
struct person shop_person(const struct shop *shop, int i);

/* Adds the busy times of another description of the shop, and of its people, that lie outside the time for which those of this one
 * were read: of jobs planned together each was read for its own time. */
void shop_join_busy(struct arena *arena, struct shop *shop, const struct shop *other);

/* The first opening from a day on, or the last closing up to it. False: the shop stays closed for years. */
bool shop_nearest_hours(const struct shop *shop, const struct zone *zone, int64_t day, bool closing,
                        int64_t *minute);

/* The highest temperature of the air in any working hour between two moments, for cautious pot lives; of the whole time
 * where the shop never opens in it. Busy times count as working hours. */
double shop_warmest_c(const struct shop *shop, const struct zone *zone, int64_t from_min, int64_t to_min);

/* A line of the sundries: what the shop uses up beside finish, and by what it is counted. Estimates, as data
 * (finishes/rules/sundries.json, and the shop's own file). */

/* What an amount is counted by. */
enum sundry_per {
    PER_WORKED_M2, /* m2 under the hand: sanded, scuffed, rubbed, laid */
    PER_WIPED_M2,  /* m2 of what is wiped off */
    PER_COAT,      /* one operation of laying a coat */
    PER_MIX,
    PER_FINISH,  /* once for each finish that is laid by one of the tools */
    PER_THINNER, /* litres of thinner in the coats */
    SUNDRY_PER_COUNT
};

/* What is listed apart. */
enum sundry_each { EACH_TOGETHER, EACH_GRIT, EACH_SOLVENT, EACH_FINISH, SUNDRY_EACH_COUNT };

struct sundry_rule {
    const char *name, *unit; /* "abrasive disc 150 mm", "pcs" */
    double amount;           /* of that unit; 0: never listed */
    enum sundry_per per;
    enum sundry_each each;
    bool by[WORK_COUNT]; /* tools and works that need it */
    bool several_only;   /* only finishes of several components */
    const char *source;
    double cents_each; /* of one unit; 0: no price is known */
};

struct sundry_rules {
    const struct sundry_rule *items;
    size_t count;
};

/* Words of the files, by enum. */
extern const char *const sundry_per_names[SUNDRY_PER_COUNT], *const sundry_each_names[SUNDRY_EACH_COUNT];

#endif
