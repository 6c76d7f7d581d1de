#include "check.h"

#include "base/day.h"

#include <stdio.h>

struct day_row {
    struct row row;
    struct date date;
    intmax_t days;
    enum weekday weekday;
};

/* Days and weekdays from GNU date (`date -ud 2027-03-05 +%s`, `+%a`). */
static const struct day_row days[] = {
    {ROW("the first"), {1970, 1, 1}, 0, THURSDAY},
    {ROW("the day before"), {1969, 12, 31}, -1, WEDNESDAY},
    {ROW("leap day of a century"), {2000, 2, 29}, 11016, TUESDAY},
    {ROW("behind it"), {2000, 3, 1}, 11017, WEDNESDAY},
    {ROW("a Monday in March"), {2027, 3, 1}, 20878, MONDAY},
    {ROW("a Friday in March"), {2027, 3, 5}, 20882, FRIDAY},
    {ROW("century without leap day"), {2100, 3, 1}, 47541, MONDAY},
    {ROW("last year"), {9999, 12, 31}, 2932896, FRIDAY},
    {ROW("long ago"), {1600, 2, 29}, -135081, TUESDAY},
};

static void day_is(void **state)
{
    const struct day_row *r = *state;
    check_int(&r->row, date_days(r->date), r->days);
    struct date back = date_of(r->days);
    check_int(&r->row, back.year, r->date.year);
    check_int(&r->row, back.month, r->date.month);
    check_int(&r->row, back.day, r->date.day);
    check_int(&r->row, weekday_of(r->days), r->weekday);
}

/* Counted one by one from 1600 to 2400, by the lengths of the months alone. */
static void every_day_follows_the_one_before(void **state)
{
    (void)state;
    int64_t day = date_days((struct date){1600, 1, 1});
    for (int year = 1600; year <= 2400; year++)
        for (int month = 1; month <= 12; month++)
            for (int d = 1; d <= month_days(year, month); d++, day++) {
                struct date back = date_of(day);
                if (date_days((struct date){year, month, d}) != day || back.year != year ||
                    back.month != month || back.day != d)
                    fail_msg("%04d-%02d-%02d is not day %jd", year, month, d, (intmax_t)day);
            }
    check_int(HERE, year_leap(2000) + year_leap(2024), 2);
    check_int(HERE, year_leap(1900) + year_leap(2100) + year_leap(2027), 0);
}

struct parse_row {
    struct row row;
    const char *text, *want; /* what was read, written again; or what was expected */
};

static const struct parse_row dates[] = {
    {ROW("date"), "2027-03-05", "2027-03-05"},
    {ROW("blanks"), " 2027-03-05 ", "2027-03-05"},
    {ROW("leap day"), "2028-02-29", "2028-02-29"},
    {ROW("no leap day"), "2027-02-29", "a day that exists: Feb 2027 has 28 days"},
    {ROW("30 February"), "2028-02-30", "a day that exists: Feb 2028 has 29 days"},
    {ROW("31 April"), "2027-04-31", "a day that exists: Apr 2027 has 30 days"},
    {ROW("day 0"), "2027-04-00", "a day that exists: Apr 2027 has 30 days"},
    {ROW("month 13"), "2027-13-01", "a month from 01 to 12"},
    {ROW("month 0"), "2027-00-01", "a month from 01 to 12"},
    {ROW("slashes"), "2027/03/05", "a date such as \"2027-03-05\": write \"2027-03-05\""},
    {ROW("the day first, or the month"), "05-03-2027",
     "a date such as \"2027-03-05\": write \"2027-03-05\" or \"2027-05-03\""},
    {ROW("the month first"), "12/22/2026", "a date such as \"2027-03-05\": write \"2026-12-22\""},
    {ROW("the day first"), "22/12/2026", "a date such as \"2027-03-05\": write \"2026-12-22\""},
    {ROW("the day first, with points"), "5.3.2027", "a date such as \"2027-03-05\": write \"2027-03-05\""},
    {ROW("no such day either way"), "31/31/2026", "a date such as \"2027-03-05\""},
    {ROW("one digit"), "2027-3-5", "a date such as \"2027-03-05\": write \"2027-03-05\""},
    {ROW("five digits"), "20270-03-05", "a date such as \"2027-03-05\""},
    {ROW("before 1970"), "1969-12-31", "a year from 1970 to 9999"},
    {ROW("junk behind"), "2027-03-05x", "nothing after the date"},
    {ROW("empty"), "", "a date such as \"2027-03-05\""},
};

static void date_reads(void **state)
{
    const struct parse_row *r = *state;
    struct date date = {0, 0, 0};
    struct err fault = {.expected = ""};
    bool read = date_parse(r->text, &date, &fault);
    check_text(&r->row, read ? date_format(date).text : fault.expected, r->want);
    check_true(&r->row, read || date.year == 0, "left alone");
}

#define RANGE "a date such as \"2027-03-12\" or dates such as \"2027-03-12..2027-03-14\""

static const struct parse_row ranges[] = {
    {ROW("range"), "2027-03-12..2027-03-14", "2027-03-12 to 2027-03-14"},
    {ROW("blanks"), "2027-03-12 .. 2027-03-14", "2027-03-12 to 2027-03-14"},
    {ROW("one day"), "2027-03-08", "2027-03-08 to 2027-03-08"},
    {ROW("backwards"), "2027-03-14..2027-03-12", "a last day that is not before the first"},
    {ROW("no last"), "2027-03-14..", "a date such as \"2027-03-05\""},
    {ROW("one dot"), "2027-03-12.2027-03-14", RANGE},
    {ROW("empty"), "", RANGE},
    {ROW("last does not exist"), "2027-02-27..2027-02-30", "a day that exists: Feb 2027 has 28 days"},
};

static void range_reads(void **state)
{
    const struct parse_row *r = *state;
    struct date first = {0, 0, 0}, last = first;
    struct err fault = {.expected = ""};
    char line[160];
    bool read = date_range_parse(r->text, &first, &last, &fault);
    snprintf(line, sizeof line, "%s to %s", date_format(first).text, date_format(last).text);
    check_text(&r->row, read ? line : fault.expected, r->want);
}

#define HOURS "working hours such as \"08:00-12:30\""

static const struct parse_row hours[] = {
    {ROW("hours"), "08:00-12:30", "08:00 to 12:30"},
    {ROW("one digit, blanks"), "8:00 - 12:30", "08:00 to 12:30"},
    {ROW("en dash"),
     "08:00\xE2\x80\x93"
     "12:30",
     "08:00 to 12:30"},
    {ROW("until midnight"), "13:00-24:00", "13:00 to 24:00"},
    {ROW("all day"), "00:00-24:00", "00:00 to 24:00"},
    {ROW("backwards"), "17:00-08:00",
     "an end after the beginning, in the same day (a night is 22:00-24:00, and 00:00-06:00 of the next day)"},
    {ROW("nothing between"), "08:00-08:00",
     "an end after the beginning, in the same day (a night is 22:00-24:00, and 00:00-06:00 of the next day)"},
    {ROW("beyond the day"), "08:00-24:01", HOURS},
    {ROW("minute 60"), "08:60-09:00", HOURS},
    {ROW("no end"), "08:00", HOURS},
    {ROW("seconds"), "08:00:00-09:00:00", HOURS},
    {ROW("empty"), "", HOURS},
};

static void hours_read(void **state)
{
    const struct parse_row *r = *state;
    int from = 0, to = 0;
    struct err fault = {.expected = ""};
    char line[160];
    bool read = time_range_parse(r->text, &from, &to, &fault);
    snprintf(line, sizeof line, "%s to %s", time_format(from).text, time_format(to).text);
    check_text(&r->row, read ? line : fault.expected, r->want);
}

static void times_of_day(void **state)
{
    (void)state;
    int minute = -1;
    struct err fault;
    check_true(HERE, time_parse("07:05", false, &minute, NULL), "read");
    check_int(HERE, minute, 425);
    check_true(HERE, time_parse("24:00", true, &minute, NULL), "an end");
    check_int(HERE, minute, 1440);
    check_true(HERE, !time_parse("24:00", false, &minute, &fault), "no beginning");
    check_text(HERE, fault.expected, "a time of day such as \"08:00\"");
    check_true(HERE, !time_parse("8", false, &minute, NULL), "no minutes");
    check_true(HERE, !time_parse("12:00 pm", false, &minute, NULL), "junk");
    check_int(HERE, minute, 1440);
}

static void weekdays_by_name(void **state)
{
    (void)state;
    enum weekday weekday = SUNDAY;
    check_true(HERE, weekday_parse("mon", &weekday) && weekday == MONDAY, "mon");
    check_true(HERE, weekday_parse("Saturday", &weekday) && weekday == SATURDAY, "Saturday");
    check_true(HERE, !weekday_parse("mond", &weekday) && !weekday_parse("", &weekday), "others");
    check_text(HERE, weekday_name(THURSDAY), "Thu");
    check_text(HERE, month_name(12), "Dec");
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(days, day_is), CHECK_ROWS(dates, date_reads), CHECK_ROWS(ranges, range_reads),
                     CHECK_ROWS(hours, hours_read), CHECK_TEST(every_day_follows_the_one_before),
                     CHECK_TEST(times_of_day), CHECK_TEST(weekdays_by_name));
}
