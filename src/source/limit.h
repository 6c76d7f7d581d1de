/* Ceilings: no workshop has more, so that a larger value is a slip of the pen, reported at its place before any work is done
 * with it. Common practice, from memory; each is far beyond what is seen. */
#ifndef SOURCE_LIMIT_H
#define SOURCE_LIMIT_H

enum limit_name {
    LIMIT_NONE,
    LIMIT_COATS,
    LIMIT_COATS_A_DAY,
    LIMIT_COATS_IN_ALL,
    LIMIT_COVERAGE,
    LIMIT_DRYING,
    LIMIT_FILM,
    LIMIT_GRIT,
    LIMIT_HANDS_ON,
    LIMIT_HUMIDITY,
    LIMIT_KEEPING,
    LIMIT_LENGTH,
    LIMIT_LIFT,
    LIMIT_LOSS,
    LIMIT_MARK,
    LIMIT_MIX,
    LIMIT_NEED,
    LIMIT_PART_AREA,
    LIMIT_PARTS,
    LIMIT_PATCH,
    LIMIT_PEOPLE,
    LIMIT_QTY,
    LIMIT_RACK,
    LIMIT_RATE,
    LIMIT_RATIO,
    LIMIT_RESERVE,
    LIMIT_SCALE,
    LIMIT_SET_UP,
    LIMIT_SETTLE,
    LIMIT_SPRAY_PLACES,
    LIMIT_STEPS,
    LIMIT_SURFACE,
    LIMIT_TEMPERATURE,
    LIMIT_TIMES,
    LIMIT_TIMES_TOLERANCE,
    LIMIT_TRANSFER,
    LIMIT_VOLUME,
    LIMIT_WAIT,
    LIMIT_WORK,
    LIMIT_COUNT
};

/* In base units (base/measure.h), both ends included. */
struct limit {
    double least, most;
    const char *expected; /* "a thickness of at most 1 m" */
};

/* By name; of LIMIT_NONE nothing is refused. */
extern const struct limit limits[LIMIT_COUNT];

#endif
