/* Drying in changing air: how far a film has come, and when it reaches a state.
 *
 * A clock counts progress in whole millionths of a reference minute. Its rate is an integer in every spell of
 * constant air, so that sums and inverses are exact and the same on every machine. A film that begins at minute s
 * reaches a state that takes n minutes at reference air at the first t with progress(t) - progress(s) >= n million.
 * The rates by finish_drying, with their sources, stand in drying.c. */
#ifndef FINISH_DRYING_H
#define FINISH_DRYING_H

#include "base/day.h"
#include "finish/air.h"
#include "finish/finish.h"

struct arena;

enum {
    DRYING_UNIT = 1000000, /* progress of one minute at reference air */
    DRYING_SLOT_MIN = 5,
    DRYING_NEVER_SLOT = INT32_MAX / 4,
};

/* Progress by minute: constant rate from from_min[i] until from_min[i + 1]; the last spell does not end. */
struct drying_clock {
    size_t count;
    const int64_t *from_min;
    const int32_t *rate;     /* millionths per minute, 0 or more */
    const int64_t *progress; /* at from_min[i] */
    const uint32_t *at_day;  /* the spell of each whole day since the first begins, up to the last spell */
    size_t days;             /* 0: a spell is looked for from the first on */
};

/* The clocks of a finish. A water-borne film dries by the air's deficit at first and cures by reaction (wrap, light-use,
 * cured). The end of a recoat window never stops: below the lowest temperature, where films rest, it runs on. */
enum drying_kind { DRYING_FILM, DRYING_CURE, DRYING_WINDOW };

/* The clock on which a state is reached. */
enum drying_kind drying_kind(const struct finish *finish, enum finish_state state);

/* Rate in millionths a minute under this air. */
int32_t drying_rate(const struct finish *finish, enum drying_kind kind, struct air air);

/* Whether a film may be in this air, within the limits of its finish; and whether it may be laid there, 3 C above the dew point too
 * (ISO 8502-4, as reported). */
bool drying_bears(const struct finish *finish, struct air air);
bool drying_may_be_laid(const struct finish *finish, struct air air);
/* What dries by water or reaction needs such air until it is dry to handle. */
bool drying_needs_air(const struct finish *finish);

struct drying_span {
    int64_t from_min, to_min; /* UTC minutes */
};

enum { DRYING_BEYOND_MIN = 400 * DAY_MINUTES }; /* long cures end beyond what is planned */

/* The clock over a span; after it the last air goes on. */
struct drying_clock *drying_clock_make(struct arena *arena, const struct finish *finish,
                                       enum drying_kind kind, const struct air_year *air,
                                       const struct zone *zone, struct drying_span span);
/* Minutes themselves: every rate DRYING_UNIT. */
struct drying_clock *drying_clock_plain(struct arena *arena, int64_t from_min);

int64_t drying_progress(const struct drying_clock *clock, int64_t minute);

/* The first moment on the 5-minute grid of `origin_min` at which `needed_min` reference minutes have passed since
 * `start_min`, rounding up with 1 s of tolerance; INT64_MAX: never. */
int64_t drying_reach(const struct drying_clock *clock, int64_t origin_min, int64_t start_min,
                     int32_t needed_min);
/* The last moment on the grid at which no more than `needed_min` have passed since `start_min`. */
int64_t drying_last(const struct drying_clock *clock, int64_t origin_min, int64_t start_min,
                    int32_t needed_min);

struct drying_need {
    int32_t needed_min; /* at reference air */
    bool last;          /* drying_last, else drying_reach */
    int32_t slots;
};

/* The same for every slot s in 0..slots of a film that begins at origin_min + 5 s + after_min (the application's
 * length), as slots: table[0..slots], DRYING_NEVER_SLOT where never. One pass over slots and spells. */
void drying_table(const struct drying_clock *clock, int64_t origin_min, int32_t after_min,
                  struct drying_need need, int32_t *table);

/* Minutes that so much of a mix lives in one cup at a temperature: the pot life halves per 10 C (UFGS-09971, 3.7.1.3), of
 * an epoxy it falls to 1/2.4 (see drying.c). It is that of the finish's pot mass and less; twice the mass halves it (common
 * practice, from memory). Infinite where the finish has none. */
double finish_pot_life_min(const struct finish *finish, double temperature_c, double mass_g);
/* Minutes in which such a mix may be laid: (pot life - induction) x 0.9 (margin: common practice, from memory). */
double finish_working_min(const struct finish *finish, double temperature_c, double mass_g);

/* How much faster than at the reference temperature what reacts goes: of pot lives, wipe-off times and reacting films. */
double finish_haste(const struct finish *finish, double temperature_c);

#endif
