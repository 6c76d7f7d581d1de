/* Dates, times, durations and offsets of calendars: the examples of RFC 5545, and what is none. Days are counted from 1970-01-01. */
#include "check.h"

#include "format/ical_value.h"

enum {
    JULY_14_1997 = 10056,
    JANUARY_18_1998 = 10244
}; /* 27 years of 365 days, 7 leap days, 194 and 382 days */

struct time_row {
    struct row row;
    const char *text;
    int64_t day;
    int minute;
    bool date, utc;
    const char *rest;
};

static const struct time_row times[] = {
    {ROW("3.3.4, a date"), "19970714", JULY_14_1997, 0, true, false, ""},
    {ROW("3.3.5, the wall's time"), "19980118T230000", JANUARY_18_1998, 1380, false, false, ""},
    {ROW("3.3.5, UTC"), "19980119T070000Z", JANUARY_18_1998 + 1, 420, false, true, ""},
    {ROW("small letters"), "19980119t070000z", JANUARY_18_1998 + 1, 420, false, true, ""},
    {ROW("3.3.12, a leap second"), "19970630T235960Z", JULY_14_1997 - 14, 1439, false, true, ""},
    {ROW("the first of a list"), "19970714,19970715", JULY_14_1997, 0, true, false, ",19970715"},
    {ROW("the first of a period"), "19970714T000000Z/PT1H", JULY_14_1997, 0, false, true, "/PT1H"},
};

static void time_is(void **state)
{
    const struct time_row *r = *state;
    struct ical_time time;
    const char *next = "";
    check_true(&r->row, ical_time_read(r->text, &time, &next), "read");
    check_int(&r->row, time.day, r->day);
    check_int(&r->row, time.minute, r->minute);
    check_int(&r->row, time.date, r->date);
    check_int(&r->row, time.utc, r->utc);
    check_text(&r->row, next, r->rest);
}

struct no_row {
    struct row row;
    const char *text;
};

static const struct no_row no_times[] = {
    {ROW("nothing"), ""},
    {ROW("a short year"), "199"},
    {ROW("a letter in the year"), "19x70714"},
    {ROW("a letter in the month"), "19970x14"},
    {ROW("a month of one digit"), "1997 714"},
    {ROW("a date cut off"), "1997071"},
    {ROW("dashes between"), "1997-07-14"},
    {ROW("before the calendar"), "15991231"},
    {ROW("too far away"), "25010101"},
    {ROW("a day that is not in the month"), "19970229"},
    {ROW("a T and no time"), "19970714T"},
    {ROW("no minutes"), "19970714T07"},
    {ROW("no seconds"), "19970714T0700"},
    {ROW("hour 24"), "19970714T240000"},
    {ROW("minute 60"), "19970714T076000"},
    {ROW("second 61"), "19970714T070061"},
    {ROW("an offset behind it, which 3.3.5 forbids"), "19980119T230000-0800"},
    {ROW("text behind it"), "19970714 "},
};

static void is_no_time(void **state)
{
    const struct no_row *r = *state;
    struct ical_time time;
    const char *next;
    check_true(&r->row, !ical_time_read(r->text, &time, &next), "refused");
}

struct span_row {
    struct row row;
    const char *text;
    int64_t days, minutes;
    const char *rest;
};

static const struct span_row spans[] = {
    {ROW("3.3.6, 15 days, 5 hours and 20 seconds"), "P15DT5H0M20S", 15, 301, ""},
    {ROW("3.3.6, seven weeks"), "P7W", 49, 0, ""},
    {ROW("with its sign"), "+PT15M", 0, 15, ""},
    {ROW("a minute and a second more"), "PT61S", 0, 2, ""},
    {ROW("in a list"), "PT1H,PT2H", 0, 60, ",PT2H"},
    {ROW("in a period"), "P1D/", 1, 0, "/"},
};

static void span_is(void **state)
{
    const struct span_row *r = *state;
    struct ical_span span;
    const char *next = "";
    check_true(&r->row, ical_span_read(r->text, &span, &next), "read");
    check_int(&r->row, span.days, r->days);
    check_int(&r->row, span.minutes, r->minutes);
    check_text(&r->row, next, r->rest);
}

static const struct no_row no_spans[] = {
    {ROW("nothing"), ""},
    {ROW("no P"), "1D"},
    {ROW("P alone"), "P"},
    {ROW("PT alone"), "PT"},
    {ROW("backwards"), "-PT15M"},
    {ROW("a number without its unit"), "P1"},
    {ROW("hours without T"), "P5H"},
    {ROW("days behind T"), "PT1D"},
    {ROW("a number behind T without its unit"), "PT5"},
    {ROW("a month, which is not always as long"), "P1Y"},
    {ROW("longer than any job"), "P60000001D"},
    {ROW("text behind it"), "PT1H "},
};

static void is_no_span(void **state)
{
    const struct no_row *r = *state;
    struct ical_span span;
    const char *next;
    check_true(&r->row, !ical_span_read(r->text, &span, &next), "refused");
}

struct offset_row {
    struct row row;
    const char *text;
    int minutes;
};

static const struct offset_row offsets[] = {
    {ROW("3.3.14, five hours behind"), "-0500", -300},
    {ROW("3.3.14, an hour ahead"), "+0100", 60},
    {ROW("half an hour"), "+0530", 330},
    {ROW("with seconds"), "-003044", -30},
};

static void offset_is(void **state)
{
    const struct offset_row *r = *state;
    int minutes = 0;
    check_true(&r->row, ical_offset_read(r->text, &minutes), "read");
    check_int(&r->row, minutes, r->minutes);
}

static const struct no_row no_offsets[] = {
    {ROW("nothing"), ""},
    {ROW("no sign"), "0100"},
    {ROW("hours alone"), "+01"},
    {ROW("a colon"), "+01:00"},
    {ROW("seconds of one digit"), "+01000"},
    {ROW("24 hours"), "+2400"},
    {ROW("60 minutes"), "+0160"},
    {ROW("text behind it"), "+010000Z"},
};

static void is_no_offset(void **state)
{
    const struct no_row *r = *state;
    int minutes;
    check_true(&r->row, !ical_offset_read(r->text, &minutes), "refused");
}

static void utc_is_written(void **state)
{
    (void)state;
    check_text(HERE, ical_utc((JANUARY_18_1998 + 1) * INT64_C(1440) + 420).text, "19980119T070000Z");
    check_text(HERE, ical_utc(-1).text, "19691231T235900Z");
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(times, time_is), CHECK_ROWS(no_times, is_no_time), CHECK_ROWS(spans, span_is),
                     CHECK_ROWS(no_spans, is_no_span), CHECK_ROWS(offsets, offset_is),
                     CHECK_ROWS(no_offsets, is_no_offset), CHECK_TEST(utc_is_written));
}
