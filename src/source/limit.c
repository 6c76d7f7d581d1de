#include "source/limit.h"

#include <stddef.h>

enum { HOUR = 60, DAY = 24 * HOUR, YEAR = 365 * DAY };

/* Without words the bounds of a whole number are reported as such. */
const struct limit limits[LIMIT_COUNT] = {
    [LIMIT_COATS] = {1, 20, NULL},
    [LIMIT_COATS_A_DAY] = {1, 12, NULL},
    [LIMIT_COATS_IN_ALL] = {1, 60, "at most 60 coats in a schedule"},
    [LIMIT_COVERAGE] = {0, 1000, "a coverage of at most 1000 m2/l"},
    [LIMIT_DRYING] = {0, 10 * YEAR, "a time span of at most 10 years"},
    [LIMIT_FILM] = {0, 0.1, "a wet film of at most 100 mm"},
    [LIMIT_GRIT] = {24, 10000, "a grit from 24 to 10000"},
    [LIMIT_HANDS_ON] = {0, 30 * DAY, "a time span of at most 30 days: the work itself, not a wait"},
    [LIMIT_HUMIDITY] = {0, 1, "a humidity of at most 100 %"},
    [LIMIT_KEEPING] = {0, 100 * YEAR, "a time span of at most 100 years"},
    [LIMIT_LENGTH] = {0, 100, "a length of at most 100 m"},
    [LIMIT_LIFT] = {1, 2, NULL},
    [LIMIT_LOSS] = {0, 20, "at most 20 l that stay in a tool"},
    [LIMIT_MARK] = {0, 3, NULL},
    [LIMIT_MIX] = {0, 10000, "at most 10000 l of a mix"},
    [LIMIT_NEED] = {0, 1e6, "an amount of at most 1000000"},
    [LIMIT_PATCH] = {1e-6, 10000, "an area from 1 mm2 to 10000 m2"},
    [LIMIT_PART_AREA] = {0, 10000, "an area of at most 10000 m2 a part"},
    [LIMIT_PARTS] = {1, 200000, "at most 200000 parts in all"},
    [LIMIT_PEOPLE] = {1, 100, NULL},
    [LIMIT_QTY] = {1, 10000, NULL},
    [LIMIT_RACK] = {0, 10000, "a rack of at most 10000 m2"},
    [LIMIT_RATE] = {0.01, 1000, "a rate from 0.01 m2/h to 1000 m2/h"},
    [LIMIT_RATIO] = {0, 1e4, "a part of the ratio of at most 10000"},
    [LIMIT_RESERVE] = {0, 10, "a reserve of at most 1000 %"},
    [LIMIT_SCALE] = {1e-4, 1e5, "a mass above 0: the smallest step of the scale"},
    [LIMIT_SET_UP] = {0, DAY, "a time span of at most 24 hours"},
    [LIMIT_SETTLE] = {0, 30 * DAY, "a time span of at most 30 days"},
    [LIMIT_SPRAY_PLACES] = {0, 100, NULL},
    [LIMIT_STEPS] = {1, 100, "at most 100 steps"},
    [LIMIT_SURFACE] = {0, 1e6, "at most 1000000 m2 in all"},
    [LIMIT_TEMPERATURE] = {-40, 60, "the temperature of a workshop, -40 C to 60 C"},
    [LIMIT_TIMES] = {0.1, 10, "a number from 0.1 to 10: minutes over those that are planned"},
    [LIMIT_TIMES_TOLERANCE] = {0, 0.95, "a tolerance of at most 95 %"},
    [LIMIT_TRANSFER] = {1e-9, 1, "a share above 0 % and at most 100 %"},
    [LIMIT_VOLUME] = {0, 10000, "a pack of at most 10000 l"},
    [LIMIT_WAIT] = {0, 2 * YEAR, "a time span of at most 2 years"},
    [LIMIT_WORK] = {0, 100, "a factor of at most 100"},
};
