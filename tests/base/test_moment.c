/* Moments and zones. The rules of the zones: Europe/London and America/New_York of the IANA time zone database, Lord
 * Howe Island for its change by half an hour. */
#include "check.h"

#include "base/moment.h"

static const struct zone utc = {"UTC", 0, NULL};

/* 2027: 28 March 01:00 UTC to 31 October 01:00 UTC. */
static const struct zone_change london_changes[] = {{INT64_MIN, 0}, {30103260, 60}, {30415740, 0}};
static const struct zone london = {"Europe/London", 3, london_changes};

/* 2027: 14 March 07:00 UTC to 7 November 06:00 UTC. */
static const struct zone_change new_york_changes[] = {{INT64_MIN, -300}, {30083460, -240}, {30426120, -300}};
static const struct zone new_york = {"America/New_York", 3, new_york_changes};

/* 2027: 4 April 02:00 on the wall (15:00 UTC the day before) from +11:00 to +10:30, 3 October 15:30 UTC the day before
 * back to +11:00. */
static const struct zone_change lord_howe_changes[] = {{INT64_MIN, 660}, {30112740, 630}, {30374850, 660}};
static const struct zone lord_howe = {"Australia/Lord_Howe", 3, lord_howe_changes};

struct moment_row {
    struct row row;
    const struct zone *zone;
    const char *text, *rfc3339;
};

static const struct moment_row moments[] = {
    {ROW("winter"), &london, "2027-03-01 08:00", "2027-03-01T08:00:00+00:00"},
    {ROW("summer"), &london, "2027-07-01 08:00", "2027-07-01T08:00:00+01:00"},
    {ROW("last minute of winter"), &london, "2027-03-28 00:59", "2027-03-28T00:59:00+00:00"},
    {ROW("the gap begins"), &london, "2027-03-28 01:00", "2027-03-28T02:00:00+01:00"},
    {ROW("in the gap"), &london, "2027-03-28 01:30", "2027-03-28T02:30:00+01:00"},
    {ROW("behind the gap"), &london, "2027-03-28 02:00", "2027-03-28T02:00:00+01:00"},
    {ROW("before the overlap"), &london, "2027-10-31 00:59", "2027-10-31T00:59:00+01:00"},
    {ROW("in the overlap: the first"), &london, "2027-10-31 01:30", "2027-10-31T01:30:00+01:00"},
    {ROW("behind the overlap"), &london, "2027-10-31 02:00", "2027-10-31T02:00:00+00:00"},
    {ROW("west"), &new_york, "2027-03-01 08:00", "2027-03-01T08:00:00-05:00"},
    {ROW("west, in the gap"), &new_york, "2027-03-14 02:30", "2027-03-14T03:30:00-04:00"},
    {ROW("west, in the overlap"), &new_york, "2027-11-07 01:30", "2027-11-07T01:30:00-04:00"},
    {ROW("west, behind the overlap"), &new_york, "2027-11-07 02:00", "2027-11-07T02:00:00-05:00"},
    {ROW("half an hour twice"), &lord_howe, "2027-04-04 01:45", "2027-04-04T01:45:00+11:00"},
    {ROW("half an hour missing"), &lord_howe, "2027-10-03 02:15", "2027-10-03T02:45:00+11:00"},
    {ROW("offset wins over the zone"), &london, "2027-07-01T08:00:00-04:00", "2027-07-01T13:00:00+01:00"},
    {ROW("Z"), &london, "2027-07-01T07:00:00Z", "2027-07-01T08:00:00+01:00"},
    {ROW("second time in the overlap"), &london, "2027-10-31T01:30:00+00:00", "2027-10-31T01:30:00+00:00"},
    {ROW("seconds dropped"), &london, "2027-07-01T07:00:59.5Z", "2027-07-01T08:00:00+01:00"},
    {ROW("without seconds"), &london, "2027-07-01T07:00Z", "2027-07-01T08:00:00+01:00"},
    {ROW("blanks, small letters"), &london, " 2027-07-01t07:00z ", "2027-07-01T08:00:00+01:00"},
    {ROW("half hours"), &utc, "2027-01-01T05:30:00+05:30", "2027-01-01T00:00:00+00:00"},
    {ROW("UTC"), &utc, "1970-01-01 00:00", "1970-01-01T00:00:00+00:00"},
};

static void moment_reads(void **state)
{
    const struct moment_row *r = *state;
    struct moment_text moment = {true, -1, {0, 0, 0}}, back = moment;
    struct err fault = {.expected = ""};
    check_true(&r->row, moment_parse(r->text, r->zone, &moment, &fault), fault.expected);
    check_true(&r->row, !moment.date_only, "a moment");
    struct text_short written = moment_format(r->zone, moment.minute, MOMENT_RFC3339);
    check_text(&r->row, written.text, r->rfc3339);
    check_true(&r->row, moment_parse(written.text, &utc, &back, NULL), "written reads back");
    check_int(&r->row, back.minute, moment.minute);
}

#define MOMENT "a moment such as \"2027-03-01 08:00\", \"2027-03-01T08:00:00+00:00\" or a date"

struct refusal_row {
    struct row row;
    const char *text, *expected;
};

static const struct refusal_row refusals[] = {
    {ROW("30 February"), "2027-02-30 08:00", "a day that exists: Feb 2027 has 28 days"},
    {ROW("month 13"), "2027-13-01", "a month from 01 to 12"},
    {ROW("hour 24"), "2027-03-01 24:00", MOMENT},
    {ROW("hour 25"), "2027-03-01 25:00", MOMENT},
    {ROW("second 60"), "2027-03-01T08:00:60Z", MOMENT},
    {ROW("no minutes"), "2027-03-01 08", MOMENT},
    {ROW("offset without colon"), "2027-03-01T08:00:00+0100", MOMENT},
    {ROW("offset too large"), "2027-03-01T08:00:00+24:00", MOMENT},
    {ROW("junk behind"), "2027-03-01 08:00 sharp", MOMENT},
    {ROW("another separator"), "2027-03-01_08:00", MOMENT},
    {ROW("words"), "tomorrow", MOMENT},
    {ROW("empty"), "", MOMENT},
    {ROW("a point without digits"), "2027-03-01T08:00:00.Z", MOMENT},
};

static void moment_refuses(void **state)
{
    const struct refusal_row *r = *state;
    struct moment_text moment = {true, -7, {0, 0, 0}};
    struct err fault = {.expected = ""};
    check_true(&r->row, !moment_parse(r->text, &london, &moment, &fault), "refused");
    check_text(&r->row, fault.expected, r->expected);
    check_int(&r->row, moment.minute, -7);
}

static void a_date_alone_is_told(void **state)
{
    (void)state;
    struct moment_text moment = {false, 0, {0, 0, 0}};
    check_true(HERE, moment_parse(" 2027-03-19 ", &london, &moment, NULL), "read");
    check_true(HERE, moment.date_only, "a date");
    check_text(HERE, date_format(moment.date).text, "2027-03-19");
}

struct style_row {
    struct row row;
    enum moment_style style;
    const char *want;
};

/* 2027-07-02 08:05 in London. */
static const struct style_row styles[] = {
    {ROW("plain"), MOMENT_PLAIN, "2027-07-02 08:05"},
    {ROW("date"), MOMENT_DATE, "2027-07-02"},
    {ROW("day"), MOMENT_DAY, "Fri 2 Jul"},
    {ROW("day and time"), MOMENT_DAY_TIME, "Fri 2 Jul 08:05"},
    {ROW("long"), MOMENT_LONG, "Fri 2 Jul 2027 08:05"},
    {ROW("time"), MOMENT_TIME, "08:05"},
    {ROW("RFC 3339"), MOMENT_RFC3339, "2027-07-02T08:05:00+01:00"},
};

static void style_is(void **state)
{
    const struct style_row *r = *state;
    int64_t minute = date_days((struct date){2027, 7, 2}) * DAY_MINUTES + 7 * 60 + 5;
    check_text(&r->row, moment_format(&london, minute, r->style).text, r->want);
}

/* Wall and moment are inverse except in an overlap, where the first occurrence comes back. */
static void wall_and_moment_agree(void **state)
{
    (void)state;
    static const struct zone *const zones[] = {&utc, &london, &new_york, &lord_howe};
    int64_t begin = date_days((struct date){2027, 1, 1}) * DAY_MINUTES;
    for (size_t z = 0; z < sizeof zones / sizeof zones[0]; z++)
        for (int64_t minute = begin; minute < begin + 366 * DAY_MINUTES; minute += 5) {
            struct wall wall = zone_wall(zones[z], minute);
            int64_t back = zone_moment(zones[z], wall);
            struct wall again = zone_wall(zones[z], back);
            bool same = again.hour == wall.hour && again.minute == wall.minute && again.day == wall.day;
            bool earlier = back < minute && minute - back <= 60 &&
                           zone_offset_at(zones[z], back) > zone_offset_at(zones[z], minute);
            if (!same || (back != minute && !earlier))
                fail_msg("%s: minute %jd comes back as %jd", zones[z]->name, (intmax_t)minute,
                         (intmax_t)back);
        }
}

static void before_1970_and_minutes_beyond_the_day(void **state)
{
    (void)state;
    int minute = -1;
    check_int(HERE, zone_day(&utc, -1, &minute), -1);
    check_int(HERE, minute, 1439);
    check_int(HERE, zone_day(&new_york, 0, &minute), -1);
    check_int(HERE, minute, 19 * 60);
    check_int(HERE, zone_moment_on(&london, 20878, 1440), zone_moment_on(&london, 20879, 0));
    check_int(HERE, zone_wall(&utc, 0).weekday, THURSDAY);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(moments, moment_reads), CHECK_ROWS(refusals, moment_refuses),
                     CHECK_ROWS(styles, style_is), CHECK_TEST(a_date_alone_is_told),
                     CHECK_TEST(wall_and_moment_agree), CHECK_TEST(before_1970_and_minutes_beyond_the_day));
}
