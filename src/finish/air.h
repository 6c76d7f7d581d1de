/* The air of the shop: temperature and humidity, piecewise constant over the day, with dated exceptions. */
#ifndef FINISH_AIR_H
#define FINISH_AIR_H

#include "base/moment.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct air {
    double temperature_c;
    double humidity; /* share, 0..1 */
};

/* From this minute of the day's wall clock until the next spell. */
struct air_spell {
    int from_min;
    struct air air;
};

struct air_day {
    int64_t day;                    /* days since 1970-01-01, for dated entries */
    const struct air_spell *spells; /* at least one, from_min rising */
    size_t spell_count;
};

/* Air that was measured at a moment. */
struct air_measured {
    int64_t at_min;
    struct air air;
    size_t order; /* of those at one moment the last counts */
};

/* A day's air before its first spell is the last spell of the day before. What was measured holds until it was measured
 * again, or the next spell begins. */
struct air_year {
    struct air_day daily;
    const struct air_day *dated; /* days rising */
    size_t dated_count;
    bool assumed;                        /* not given by the user: the stated default */
    const struct air_measured *measured; /* moments rising */
    size_t measured_count;
};

/* The air at a moment (UTC minute), and the moment at which it next changes (INT64_MAX: never). */
struct air air_at(const struct air_year *year, const struct zone *zone, int64_t minute, int64_t *until);

/* By their moments; those of one moment stay in their order. */
void air_sort_measured(struct air_measured *measured, size_t count);

/* Saturation vapour pressure over water in hPa: WMO-No. 8 annex 4.B, 6.112 exp(17.62 t/(243.12 + t)). */
double air_saturation_hpa(double temperature_c);
/* Vapour pressure deficit in hPa: es(T)(1 - RH). */
double air_deficit_hpa(struct air air);
/* The inverse of the Magnus form; -INFINITY for dry air (humidity 0). */
double air_dew_point_c(struct air air);

#endif
