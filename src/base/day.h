/* Civil dates (proleptic Gregorian) without any clock, as numbers and as text; times of day in minutes. */
#ifndef BASE_DAY_H
#define BASE_DAY_H

#include "base/err.h"
#include "base/text.h"

#include <stdint.h>

enum { DAY_MINUTES = 24 * 60 };

enum weekday { MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY, SATURDAY, SUNDAY };

struct date {
    int year, month, day; /* months and days from 1 */
};

bool year_leap(int year);
int month_days(int year, int month);
bool date_valid(struct date date);

/* Days since 1970-01-01, negative before. Howard Hinnant, "chrono-compatible low-level date algorithms" (2013). */
int64_t date_days(struct date date);
struct date date_of(int64_t days);
enum weekday weekday_of(int64_t days);

/* "Mon", "Jan". */
const char *weekday_name(enum weekday weekday);
const char *month_name(int month);
/* `mon` .. `sun`, any case, also `monday`. */
bool weekday_parse(const char *text, enum weekday *weekday);

/* `2027-03-05`: four, two and two digits, years 1970 to 9999, a day that exists. */
bool date_parse(const char *text, struct date *date, struct err *fault);
struct text_short date_format(struct date date);

/* `2027-03-12..2027-03-14`, both included, or one date; the last is not before the first. */
bool date_range_parse(const char *text, struct date *first, struct date *last, struct err *fault);

/* `08:00` -> 480; `24:00` only where it ends a stretch (`end`). */
bool time_parse(const char *text, bool end, int *minute, struct err *fault);
/* `08:00-12:30`, the end after the beginning. */
bool time_range_parse(const char *text, int *from, int *to, struct err *fault);
struct text_short time_format(int minute);

/* Reading in the middle of a text: each moves *at past what it read and leaves it alone where it fails. */

/* `least` to `most` decimal digits, as many as there are; more than `most` is a failure. */
bool digits_scan(const char **at, int least, int most, int *value);

/* `2027-03-05`. On failure *fault says whether the form or the day is wrong. */
bool date_scan(const char **at, struct date *date, struct err *fault);

/* `8:00`, `08:00`, `24:00`; seconds and beyond are not read. */
bool time_scan(const char **at, int *minute);

#endif
