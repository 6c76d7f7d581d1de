/* Rules of recurrence (RFC 5545, section 3.3.10). A rule is followed only where it is asked for, and in a bounded number of
 * steps: a library's iterator may search for a 30 February for ever. */
#ifndef FORMAT_ICAL_RULE_H
#define FORMAT_ICAL_RULE_H

#include "base/day.h"
#include "format/ical_value.h"

enum ical_frequency {
    ICAL_YEARLY,
    ICAL_MONTHLY,
    ICAL_WEEKLY,
    ICAL_DAILY,
    ICAL_HOURLY,
    ICAL_MINUTELY,
    ICAL_SECONDLY
};
enum { ICAL_BY_MOST = 400 };

struct ical_by {
    short count, items[ICAL_BY_MOST];
};

struct ical_rule {
    enum ical_frequency frequency;
    int64_t interval, count; /* count 0: none */
    bool ends;               /* there is an UNTIL */
    struct ical_time until;  /* included */
    enum weekday week_start;
    unsigned months;  /* bit of each, 1 to 12; 0: all */
    unsigned hours;   /* bits; 0: all */
    uint64_t minutes; /* bits; 0: all */
    struct ical_by weeks, year_days, month_days, positions;
    struct ical_by week_days; /* 8 * ordinal + weekday; ordinal 0: every one */
};

/* False: the text is no rule, or *expected says which kinds of rules can be followed. */
bool ical_rule_read(const char *text, struct ical_rule *rule, const char **expected);

/* Who takes the starts, in rising order; false: no more are wanted. */
struct ical_taker {
    void *to;
    bool (*take)(void *to, struct ical_time start);
};

/* The starts of a rule, as walls, on the days from `from_day` to `to_day`. UNTIL is left to the taker, who knows the zone.
 * `steps` are counted down. False: none were left. */
bool ical_rule_walk(const struct ical_rule *rule, struct ical_time begin, int64_t from_day, int64_t to_day,
                    struct ical_taker taker, int64_t *steps);

#endif
