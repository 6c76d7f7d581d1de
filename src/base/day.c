#include "base/day.h"

#include "base/number.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

bool year_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

int month_days(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    assert(month >= 1 && month <= 12);
    return days[month - 1] + (month == 2 && year_leap(year));
}

bool date_valid(struct date date)
{
    return date.month >= 1 && date.month <= 12 && date.day >= 1 &&
           date.day <= month_days(date.year, date.month);
}

/* Eras of 400 years that begin on 1 March, so that the leap day ends its year. */
enum { ERA_DAYS = 146097, ERA_BEGIN = 719468 };

int64_t date_days(struct date date)
{
    int64_t year = date.year - (date.month <= 2);
    int64_t era = number_floor_div(year, 400);
    int64_t year_of_era = year - era * 400;
    int64_t day_of_year = (153 * (date.month + (date.month > 2 ? -3 : 9)) + 2) / 5 + date.day - 1;
    int64_t day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return era * ERA_DAYS + day_of_era - ERA_BEGIN;
}

struct date date_of(int64_t days)
{
    int64_t shifted = days + ERA_BEGIN;
    int64_t era = number_floor_div(shifted, ERA_DAYS);
    int64_t day_of_era = shifted - era * ERA_DAYS;
    int64_t year_of_era =
        (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / (ERA_DAYS - 1)) / 365;
    int64_t day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    int64_t month = (5 * day_of_year + 2) / 153;
    struct date date;
    date.day = (int)(day_of_year - (153 * month + 2) / 5 + 1);
    date.month = (int)(month < 10 ? month + 3 : month - 9);
    date.year = (int)(year_of_era + era * 400 + (date.month <= 2));
    return date;
}

enum weekday weekday_of(int64_t days)
{
    int64_t since_monday = (days + THURSDAY) % 7; /* 1970-01-01 was a Thursday */
    return (enum weekday)(since_monday < 0 ? since_monday + 7 : since_monday);
}

static const char *const weekdays[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                       "Friday", "Saturday", "Sunday"};

const char *weekday_name(enum weekday weekday)
{
    static const char *const names[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    return names[weekday];
}

const char *month_name(int month)
{
    static const char *const names[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                        "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    assert(month >= 1 && month <= 12);
    return names[month - 1];
}

bool weekday_parse(const char *text, enum weekday *weekday)
{
    for (int i = MONDAY; i <= SUNDAY; i++)
        if (text_same(text, weekdays[i]) || text_same(text, weekday_name((enum weekday)i))) {
            *weekday = (enum weekday)i;
            return true;
        }
    return false;
}

struct text_short date_format(struct date date)
{
    struct text_short out;
    snprintf(out.text, sizeof out.text, "%04d-%02d-%02d", date.year, date.month, date.day);
    return out;
}

struct text_short time_format(int minute)
{
    struct text_short out;
    snprintf(out.text, sizeof out.text, "%02d:%02d", minute / 60, minute % 60);
    return out;
}

bool digits_scan(const char **at, int least, int most, int *value)
{
    int n = 0, total = 0;
    while (n <= most && (*at)[n] >= '0' && (*at)[n] <= '9')
        total = total * 10 + ((*at)[n++] - '0');
    if (n < least || n > most)
        return false;
    *at += n;
    *value = total;
    return true;
}

static bool letter_scan(const char **at, char c)
{
    if (**at != c)
        return false;
    ++*at;
    return true;
}

static bool separator_scan(const char **at, char *separator)
{
    *separator = **at;
    return letter_scan(at, '/') || letter_scan(at, '.') || letter_scan(at, '-');
}

/* Dates as they are written elsewhere, 12/22/2026, 22.12.2026 or 2026/12/22: how they are to be written. What may be a day
 * or a month is both; between points the day comes first. */
static bool say_date(const char *p, struct err *fault)
{
    static const char form[] = "a date such as \"2027-03-05\"";
    int number[3];
    char one, other;
    if (!digits_scan(&p, 1, 4, &number[0]) || !separator_scan(&p, &one) ||
        !digits_scan(&p, 1, 2, &number[1]) || !separator_scan(&p, &other) ||
        !digits_scan(&p, 1, 4, &number[2]) || one != other)
        return err_say(fault, form);
    struct date plain = {number[0], number[1], number[2]}, days_first = {number[2], number[1], number[0]},
                months_first = {number[2], number[0], number[1]};
    struct date best = number[0] >= 1970 ? plain : date_valid(days_first) ? days_first : months_first;
    if (best.year < 1970 || !date_valid(best))
        return err_say(fault, form);
    if (number[0] < 1970 && one != '.' && date_valid(days_first) && date_valid(months_first) &&
        number[0] != number[1])
        return err_say(fault, "%s: write \"%s\" or \"%s\"", form, date_format(days_first).text,
                       date_format(months_first).text);
    return err_say(fault, "%s: write \"%s\"", form, date_format(best).text);
}

bool date_scan(const char **at, struct date *date, struct err *fault)
{
    const char *p = *at;
    struct date d;
    if (!digits_scan(&p, 4, 4, &d.year) || !letter_scan(&p, '-') || !digits_scan(&p, 2, 2, &d.month) ||
        !letter_scan(&p, '-') || !digits_scan(&p, 2, 2, &d.day))
        return say_date(*at, fault);
    if (d.month < 1 || d.month > 12)
        return err_say(fault, "a month from 01 to 12");
    if (!date_valid(d))
        return err_say(fault, "a day that exists: %s %d has %d days", month_name(d.month), d.year,
                       month_days(d.year, d.month));
    if (d.year < 1970)
        return err_say(fault, "a year from 1970 to 9999");
    *at = p;
    *date = d;
    return true;
}

bool time_scan(const char **at, int *minute)
{
    const char *p = *at;
    int hours, minutes;
    if (!digits_scan(&p, 1, 2, &hours) || !letter_scan(&p, ':') || !digits_scan(&p, 2, 2, &minutes))
        return false;
    if (minutes > 59 || hours * 60 + minutes > DAY_MINUTES)
        return false;
    *at = p;
    *minute = hours * 60 + minutes;
    return true;
}

bool date_parse(const char *text, struct date *date, struct err *fault)
{
    const char *at = blanks_skip(text);
    struct date found;
    if (!date_scan(&at, &found, fault))
        return false;
    if (*blanks_skip(at) != '\0')
        return err_say(fault, "nothing after the date");
    *date = found;
    return true;
}

bool date_range_parse(const char *text, struct date *first, struct date *last, struct err *fault)
{
    static const char form[] = "a date such as \"2027-03-12\" or dates such as \"2027-03-12..2027-03-14\"";
    const char *at = blanks_skip(text);
    struct date from, to;
    if (*at == '\0')
        return err_say(fault, form);
    if (!date_scan(&at, &from, fault))
        return false;
    to = from;
    at = blanks_skip(at);
    if (strncmp(at, "..", 2) == 0) {
        at = blanks_skip(at + 2);
        if (!date_scan(&at, &to, fault))
            return false;
    }
    if (*blanks_skip(at) != '\0')
        return err_say(fault, form);
    if (date_days(to) < date_days(from))
        return err_say(fault, "a last day that is not before the first");
    *first = from;
    *last = to;
    return true;
}

bool time_parse(const char *text, bool end, int *minute, struct err *fault)
{
    const char *at = blanks_skip(text);
    int found;
    if (!time_scan(&at, &found) || *blanks_skip(at) != '\0' || (found == DAY_MINUTES && !end))
        return err_say(fault, "a time of day such as \"08:00\"");
    *minute = found;
    return true;
}

/* A hyphen, or an en dash as some keyboards make of it. */
static bool dash_scan(const char **at)
{
    size_t length = **at == '-' ? 1 : strncmp(*at, "\xE2\x80\x93", 3) == 0 ? 3 : 0;
    *at += length;
    return length > 0;
}

bool time_range_parse(const char *text, int *from, int *to, struct err *fault)
{
    const char *at = blanks_skip(text);
    int begin, end;
    bool read = time_scan(&at, &begin);
    if (read) {
        at = blanks_skip(at);
        read = dash_scan(&at);
    }
    if (read) {
        at = blanks_skip(at);
        read = time_scan(&at, &end) && *blanks_skip(at) == '\0';
    }
    if (!read)
        return err_say(fault, "working hours such as \"08:00-12:30\"");
    if (end <= begin)
        return err_say(fault, "an end after the beginning, in the same day (a night is 22:00-24:00, and "
                              "00:00-06:00 of the next day)");
    *from = begin;
    *to = end;
    return true;
}
