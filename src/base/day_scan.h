/* Reading dates and times in the middle of a text; for day_parse.c and moment.c. Each moves *at past what it read and
 * leaves it alone where it fails. */
#ifndef BASE_DAY_SCAN_H
#define BASE_DAY_SCAN_H

#include "base/day.h"

/* `least` to `most` decimal digits, as many as there are; more than `most` is a failure. */
bool digits_scan(const char **at, int least, int most, int *value);

/* `2027-03-05`. On failure *fault says whether the form or the day is wrong. */
bool date_scan(const char **at, struct date *date, struct err *fault);

/* `8:00`, `08:00`, `24:00`; seconds and beyond are not read. */
bool time_scan(const char **at, int *minute);

const char *blanks_skip(const char *at);

#endif
