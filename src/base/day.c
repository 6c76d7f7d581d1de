#include "base/day.h"

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

static int64_t floor_divide(int64_t a, int64_t b)
{
    return a / b - (a % b < 0);
}

int64_t date_days(struct date date)
{
    int64_t year = date.year - (date.month <= 2);
    int64_t era = floor_divide(year, 400);
    int64_t year_of_era = year - era * 400;
    int64_t day_of_year = (153 * (date.month + (date.month > 2 ? -3 : 9)) + 2) / 5 + date.day - 1;
    int64_t day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return era * ERA_DAYS + day_of_era - ERA_BEGIN;
}

struct date date_of(int64_t days)
{
    int64_t shifted = days + ERA_BEGIN;
    int64_t era = floor_divide(shifted, ERA_DAYS);
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
