/* Busy times of foreign calendars. Where a section of RFC 5545 decides, it is named beside the row. */
#include "check.h"
#include "reader.h"

#include "base/buf.h"
#include "base/moment.h"
#include "format/ical_busy.h"
#include "format/zone.h"

#include <string.h>

#define CALENDAR(events) "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//y//EN\r\n" events "END:VCALENDAR\r\n"
#define EVENT(lines) "BEGIN:VEVENT\r\nUID:a\r\nDTSTAMP:20270101T000000Z\r\n" lines "END:VEVENT\r\n"

/* A zone that no system knows, five hours ahead. */
#define OWN_ZONE                                                                                             \
    "BEGIN:VTIMEZONE\r\nTZID:Shop "                                                                          \
    "Time\r\nBEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETFROM:+0500\r\n"                            \
    "TZOFFSETTO:+0500\r\nEND:STANDARD\r\nEND:VTIMEZONE\r\n"

static int64_t utc_minute(const char *text)
{
    static const struct zone utc = {"UTC", 0, NULL};
    struct moment_text moment;
    assert_true(moment_parse(text, &utc, &moment, NULL));
    return moment.minute;
}

/* London, March 2027: the clocks go forward on the 28th. */
static const char *read_text(struct reader *reader, const char *text)
{
    struct file_text file = reader_file("other.ics", text);
    struct busy_list list = {.items = NULL};
    struct buf out;
    struct err err;
    struct busy_window window = {
        zone_load(reader->arena, "Europe/London", (struct zone_years){2026, 2028}, &err),
        utc_minute("2027-03-01T00:00:00Z"), utc_minute("2027-04-05T00:00:00Z")};
    buf_init(&out, reader->arena);
    if (!busy_read(&reader->reading, &file, &window, &list))
        return reader_lines(reader, &reader->errors);
    busy_join(&list);
    for (size_t i = 0; i < list.count; i++)
        buf_addf(&out, "%s%s-%s", i ? " " : "",
                 moment_format(window.zone, list.items[i].from_min, MOMENT_PLAIN).text + 5,
                 moment_format(window.zone, list.items[i].to_min, MOMENT_PLAIN).text + 5);
    return out.text;
}

struct busy_row {
    struct row row;
    const char *text, *want;
};

static const struct busy_row events[] = {
    {ROW("UTC"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDTEND:20270302T100000Z\r\n")),
     "03-02 09:00-03-02 10:00"},
    {ROW("the shop's wall"), CALENDAR(EVENT("DTSTART:20270402T090000\r\nDTEND:20270402T100000\r\n")),
     "04-02 09:00-04-02 10:00"},
    {ROW("another zone"),
     CALENDAR(EVENT("DTSTART;TZID=America/New_York:20270302T090000\r\nDURATION:PT90M\r\n")),
     "03-02 14:00-03-02 15:30"},
    {ROW("a zone of its own"),
     CALENDAR(OWN_ZONE EVENT("DTSTART;TZID=Shop Time:20270302T140000\r\nDURATION:PT1H\r\n")),
     "03-02 09:00-03-02 10:00"},
    {ROW("a zone with a maker's prefix"),
     CALENDAR(EVENT("DTSTART;TZID=/example.org/1/Europe/Paris:20270302T100000\r\nDURATION:PT1H\r\n")),
     "03-02 09:00-03-02 10:00"},
    {ROW("LF line ends"),
     "BEGIN:VCALENDAR\nBEGIN:VEVENT\nDTSTART:20270302T090000Z\nDURATION:PT1H\nEND:VEVENT\n"
     "END:VCALENDAR\n",
     "03-02 09:00-03-02 10:00"},
    {ROW("folded lines"), CALENDAR(EVENT("DTSTART:2027030\r\n 2T090000Z\r\nDURATION:PT\r\n\t1H\r\n")),
     "03-02 09:00-03-02 10:00"},
    /* 3.6.1: a date without an end is one day; its end is not included */
    {ROW("one whole day"), CALENDAR(EVENT("DTSTART;VALUE=DATE:20270303\r\n")), "03-03 00:00-03-04 00:00"},
    {ROW("two whole days"), CALENDAR(EVENT("DTSTART;VALUE=DATE:20270303\r\nDTEND;VALUE=DATE:20270305\r\n")),
     "03-03 00:00-03-05 00:00"},
    {ROW("a day of 23 hours"), CALENDAR(EVENT("DTSTART;VALUE=DATE:20270328\r\n")), "03-28 00:00-03-29 00:00"},
    {ROW("a week by duration"), CALENDAR(EVENT("DTSTART;VALUE=DATE:20270303\r\nDURATION:P1W\r\n")),
     "03-03 00:00-03-10 00:00"},
    /* 3.6.1: a time without an end takes no time */
    {ROW("a moment"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\n")), ""},
    {ROW("transparent"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nTRANSP:TRANSPARENT\r\n")), ""},
    {ROW("cancelled"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nSTATUS:CANCELLED\r\n")),
     ""},
    {ROW("tentative"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nSTATUS:TENTATIVE\r\n")),
     "03-02 09:00-03-02 10:00"},
    {ROW("outside the window"), CALENDAR(EVENT("DTSTART:20260302T090000Z\r\nDURATION:PT1H\r\n")), ""},
    {ROW("into the window"), CALENDAR(EVENT("DTSTART:20270228T230000Z\r\nDURATION:PT2H\r\n")),
     "02-28 23:00-03-01 01:00"},
    {ROW("joined"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\n")
                  EVENT("DTSTART:20270302T110000Z\r\nDURATION:PT1H\r\n")
                      EVENT("DTSTART:20270302T100000Z\r\nDURATION:PT30M\r\n")),
     "03-02 09:00-03-02 10:30 03-02 11:00-03-02 12:00"},
    {ROW("two calendars in a file"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\n"))
         CALENDAR(EVENT("DTSTART:20270303T090000Z\r\nDURATION:PT1H\r\n")),
     "03-02 09:00-03-02 10:00 03-03 09:00-03-03 10:00"},
    {ROW("no events"), CALENDAR("BEGIN:VTODO\r\nUID:x\r\nDTSTART:20270302T090000Z\r\nEND:VTODO\r\n"), ""},
    {ROW("an alarm's duration is not the event's"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDTEND:20270302T100000Z\r\nBEGIN:VALARM\r\nACTION:AUDIO\r\n"
                    "TRIGGER:-PT5M\r\nREPEAT:2\r\nDURATION:PT5M\r\nEND:VALARM\r\n")),
     "03-02 09:00-03-02 10:00"},
    /* 3.8.5.3: the wall's time stays what it is while the clocks change */
    {ROW("every week over the clock change"),
     CALENDAR(EVENT(
         "DTSTART;TZID=Europe/London:20270322T090000\r\nDURATION:PT1H\r\nRRULE:FREQ=WEEKLY;COUNT=3\r\n")),
     "03-22 09:00-03-22 10:00 03-29 09:00-03-29 10:00"},
    {ROW("until, included"),
     CALENDAR(
         EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;UNTIL=20270303T090000Z\r\n")),
     "03-02 09:00-03-02 10:00 03-03 09:00-03-03 10:00"},
    {ROW("whole days every week"),
     CALENDAR(EVENT("DTSTART;VALUE=DATE:20200106\r\nRRULE:FREQ=WEEKLY;BYDAY=MO;UNTIL=20270310\r\n")),
     "03-01 00:00-03-02 00:00 03-08 00:00-03-09 00:00"},
    {ROW("the last Friday"),
     CALENDAR(EVENT("DTSTART:20270129T150000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=MONTHLY;BYDAY=-1FR\r\n")),
     "03-26 15:00-03-26 16:00"},
    {ROW("a day that never comes"),
     CALENDAR(EVENT(
         "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=MONTHLY;BYMONTH=2;BYMONTHDAY=30\r\n")),
     "03-02 09:00-03-02 10:00"},
    /* 3.6.1, 3.8.5.3: a duration is of days of the calendar, or exact; an end makes exact ones */
    {ROW("a day of the calendar over the clock change"),
     CALENDAR(EVENT("DTSTART:20270327T120000\r\nDURATION:P1D\r\n")), "03-27 12:00-03-28 12:00"},
    {ROW("24 hours over the clock change"), CALENDAR(EVENT("DTSTART:20270327T120000\r\nDURATION:PT24H\r\n")),
     "03-27 12:00-03-28 13:00"},
    {ROW("repeated by its end, exact"),
     CALENDAR(EVENT(
         "DTSTART:20270326T120000\r\nDTEND:20270327T120000\r\nRRULE:FREQ=DAILY;INTERVAL=2;COUNT=2\r\n")),
     "03-26 12:00-03-27 12:00 03-28 12:00-03-29 12:00"},
    {ROW("seconds count for a whole minute"),
     CALENDAR(EVENT("DTSTART:20270302T090030Z\r\nDTEND:20270302T095930Z\r\n")), "03-02 09:00-03-02 10:00"},
    {ROW("declined by all"),
     CALENDAR(EVENT(
         "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nATTENDEE;PARTSTAT=DECLINED:mailto:a@x.example\r\n")),
     ""},
    {ROW("declined by one of two"),
     CALENDAR(EVENT(
         "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nATTENDEE;PARTSTAT=DECLINED:mailto:a@x.example\r\n"
         "ATTENDEE;PARTSTAT=ACCEPTED:mailto:b@x.example\r\n")),
     "03-02 09:00-03-02 10:00"},
    {ROW("declined by whom the calendar is called after"),
     CALENDAR("X-WR-CALNAME:a@x.example\r\n" EVENT(
         "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nATTENDEE;PARTSTAT=DECLINED:mailto:a@x.example\r\n"
         "ATTENDEE;PARTSTAT=ACCEPTED:mailto:b@x.example\r\n")),
     ""},
    {ROW("taken back"), CALENDAR("METHOD:CANCEL\r\n" EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\n")),
     ""},
    {ROW("one occurrence taken back"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=2\r\n")) CALENDAR(
         "METHOD:CANCEL\r\n" EVENT("DTSTART:20270303T090000Z\r\nRECURRENCE-ID:20270303T090000Z\r\n")),
     "03-02 09:00-03-02 10:00"},
    /* 3.8.4.4: this and all later occurrences, here cancelled */
    {ROW("all later ones cancelled"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=5\r\n")
                  EVENT("RECURRENCE-ID;RANGE=THISANDFUTURE:20270304T090000Z\r\nDTSTART:20270304T090000Z\r\n"
                        "STATUS:CANCELLED\r\n")),
     "03-02 09:00-03-02 10:00 03-03 09:00-03-03 10:00"},
    {ROW("free times do not count"),
     CALENDAR("BEGIN:VFREEBUSY\r\nUID:f\r\nFREEBUSY;FBTYPE=FREE:20270302T090000Z/PT1H\r\n"
              "FREEBUSY;FBTYPE=BUSY-TENTATIVE:20270303T090000Z/20270303T100000Z\r\nEND:VFREEBUSY\r\n"),
     "03-03 09:00-03-03 10:00"},
    {ROW("every hour of a day"),
     CALENDAR(
         EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT10M\r\nRRULE:FREQ=HOURLY;UNTIL=20270302T110000Z\r\n")),
     "03-02 09:00-03-02 09:10 03-02 10:00-03-02 10:10 03-02 11:00-03-02 11:10"},
    /* 3.8.5.1, 3.8.5.2: exceptions and additions */
    {ROW("left out"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=3\r\n"
                    "EXDATE:20270303T090000Z\r\n")),
     "03-02 09:00-03-02 10:00 03-04 09:00-03-04 10:00"},
    {ROW("left out by the day"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=3\r\n"
                    "EXDATE;VALUE=DATE:20270302,20270304\r\n")),
     "03-03 09:00-03-03 10:00"},
    {ROW("added, in its own zone"),
     CALENDAR(EVENT(
         "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRDATE;TZID=America/New_York:20270304T040000\r\n")),
     "03-02 09:00-03-02 10:00 03-04 09:00-03-04 10:00"},
    /* 3.8.4.4: one occurrence moved, another cancelled */
    {ROW("moved and cancelled"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=4\r\n")
                  EVENT("RECURRENCE-ID:20270303T090000Z\r\nDTSTART:20270303T140000Z\r\nDURATION:PT2H\r\n")
                      EVENT("RECURRENCE-ID:20270304T090000Z\r\nDTSTART:20270304T090000Z\r\nDURATION:PT1H\r\n"
                            "STATUS:CANCELLED\r\n")),
     "03-02 09:00-03-02 10:00 03-03 14:00-03-03 16:00 03-05 09:00-03-05 10:00"},
};

static const struct busy_row mistakes[] = {
    {ROW("garbage"), "hello\n", "other.ics:1:1: expected a calendar: BEGIN:VCALENDAR, found \"hello\""},
    {ROW("nothing"), "", "other.ics:1:1: expected a calendar: BEGIN:VCALENDAR, found an empty file"},
    {ROW("cut off"), "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nDTSTART:2027",
     "other.ics:3:13: expected END:VEVENT, found the end of the file"},
    {ROW("wrong end"), "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nEND:VCALENDAR\r\n",
     "other.ics:3:1: expected END:VEVENT, found \"END:VCALENDAR\""},
    {ROW("not UTF-8"), "BEGIN:VCALENDAR\r\nX:caf\xE9\r\nEND:VCALENDAR\r\n",
     "other.ics:2:6: expected UTF-8 text, found byte 0xe9"},
    {ROW("no start"), CALENDAR(EVENT("DTEND:20270302T100000Z\r\n")),
     "other.ics:4:1: expected an event with one DTSTART, found \"BEGIN:VEVENT\""},
    {ROW("a start that cannot be read"), CALENDAR(EVENT("DTSTART:tomorrow\r\n")),
     "other.ics:7:1: expected a value that DTSTART can have, found \"DTSTART:tomorrow\""},
    {ROW("30 February"), CALENDAR(EVENT("DTSTART:20270230T090000Z\r\n")),
     "other.ics:7:1: expected a date that exists, found \"DTSTART:20270230T090000Z\""},
    {ROW("month 13"), CALENDAR(EVENT("DTSTART:20271302T090000Z\r\n")),
     "other.ics:7:1: expected a date that exists, found \"DTSTART:20271302T090000Z\""},
    {ROW("an end before the start"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDTEND:20270302T080000Z\r\n")),
     "other.ics:8:1: expected an end after the beginning, at most ten years later, found "
     "\"DTEND:20270302T080000Z\""},
    {ROW("every second"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nRRULE:FREQ=SECONDLY;BYMONTH=2;BYMONTHDAY=30\r\n")),
     "other.ics:8:1: expected a rule by minute, hour, day, week, month or year of the usual calendar, found "
     "\"RRULE:FREQ=SECONDLY;BYMONTH=2;BYMONTHDAY=30\""},
    {ROW("another calendar's months"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nRRULE:RSCALE=CHINESE;FREQ=DAILY\r\n")),
     "other.ics:8:1: expected a rule by minute, hour, day, week, month or year of the usual calendar, found "
     "\"RRULE:RSCALE=CHINESE;FREQ=DAILY\""},
    {ROW("a rule that is none"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nRRULE:every day\r\n")),
     "other.ics:8:1: expected a value that RRULE can have, found \"RRULE:every day\""},
    {ROW("two mistakes, two messages"),
     CALENDAR(EVENT("DTSTART:20270230T090000Z\r\n") EVENT("DTSTART:20270302T090000Z\r\nDURATION:-PT1H\r\n")),
     "other.ics:7:1: expected a date that exists, found \"DTSTART:20270230T090000Z\"\n"
     "other.ics:13:1: expected an end after the beginning, at most ten years later, found "
     "\"DURATION:-PT1H\""},
};

static void reads_as(void **state)
{
    const struct busy_row *r = *state;
    struct reader *reader = reader_make();
    check_text(&r->row, read_text(reader, r->text), r->want);
    check_text(&r->row, reader_lines(reader, &reader->warnings), "");
    reader_free(reader);
}

static void unknown_zone(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *got =
        read_text(reader, CALENDAR(EVENT("DTSTART;TZID=Mars/Base:20270402T090000\r\nDTEND;TZID=Mars/Base:"
                                         "20270402T100000\r\n")));
    check_text(HERE, got, "04-02 09:00-04-02 10:00");
    check_text(HERE, reader_lines(reader, &reader->warnings),
               "other.ics:7:1: warning: the time zone \"Mars/Base\" is not known: the shop's is taken");
    reader_free(reader);
}

/* A zone that would be expanded second by second is not touched. */
static void hostile_zone(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *got = read_text(
        reader,
        CALENDAR(
            "BEGIN:VTIMEZONE\r\nTZID:Europe/Paris\r\nBEGIN:STANDARD\r\nDTSTART:19700101T000000\r\n"
            "RRULE:FREQ=SECONDLY\r\nTZOFFSETFROM:+0900\r\nTZOFFSETTO:+0900\r\nEND:STANDARD\r\n"
            "END:VTIMEZONE\r\n" EVENT("DTSTART;TZID=Europe/Paris:20270302T100000\r\nDURATION:PT1H\r\n")));
    check_text(HERE, got, "03-02 09:00-03-02 10:00");
    reader_free(reader);
}

static void deep_nesting(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct buf text;
    buf_init(&text, reader->arena);
    for (int i = 0; i < 100000; i++)
        buf_add(&text, i ? "BEGIN:VEVENT\r\n" : "BEGIN:VCALENDAR\r\n");
    check_text(HERE, read_text(reader, text.text),
               "other.ics:9:1: expected at most 8 levels of components, found one more");
    reader_free(reader);
}

/* Rules that begin long ago are followed only where they matter; those that must be counted through the centuries end at
 * a ceiling, soon. */
static void many_rules(void **state)
{
    (void)state;
    static const struct busy_row kinds[] = {
        {ROW("for ever"), "RRULE:FREQ=DAILY\r\n", ""},
        {ROW("counted"), "RRULE:FREQ=MINUTELY;BYHOUR=9;COUNT=100000000\r\n",
         "rules that are soon followed to the end of this job"},
    };
    for (size_t k = 0; k < 2; k++) {
        struct reader *reader = reader_make();
        struct buf text;
        buf_init(&text, reader->arena);
        buf_add(&text, "BEGIN:VCALENDAR\r\n");
        for (int i = 0; i < 500; i++)
            buf_addf(
                &text,
                "BEGIN:VEVENT\r\nUID:%d\r\nDTSTART:19700101T090000Z\r\nDURATION:PT1H\r\n%sEND:VEVENT\r\n", i,
                kinds[k].text);
        buf_add(&text, "END:VCALENDAR\r\n");
        read_text(reader, text.text);
        check_text(&kinds[k].row, reader->errors.count ? reader->errors.items[0].expected : "",
                   kinds[k].want);
        reader_free(reader);
    }
}

/* Both an end and a duration: the first that stands there. */
static void end_and_duration(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    check_text(
        HERE,
        read_text(reader,
                  CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nDTEND:20270302T120000Z\r\n"))),
        "03-02 09:00-03-02 10:00");
    check_text(HERE, reader_lines(reader, &reader->warnings),
               "other.ics:9:1: warning: DURATION stands before it: this DTEND is not counted");
    reader_free(reader);
}

/* Small calendars with one oddity each; what each must block is what RFC 5545 says, times in London. */
static const struct busy_row files[] = {
    {ROW("a zone without its rules, three events"), "1-no-vtimezone-later-events-lost.ics",
     "03-01 09:00-03-01 17:00 03-02 09:00-03-02 17:00 03-03 09:00-03-03 17:00"},
    {ROW("free and busy"), "10-vfreebusy.ics", "03-03 09:00-03-03 17:00 03-04 09:00-03-04 12:00"},
    {ROW("an exception on the start's clock"), "11-exdate-floating.ics",
     "03-01 14:00-03-01 15:00 03-02 14:00-03-02 15:00 03-04 14:00-03-04 15:00 03-05 14:00-03-05 15:00"},
    {ROW("a change on the start's clock"), "12-recurrence-id-floating.ics",
     "03-01 14:00-03-01 15:00 03-02 14:00-03-02 15:00 03-03 21:00-03-03 22:00 03-04 14:00-03-04 15:00 "
     "03-05 14:00-03-05 15:00"},
    {ROW("over the spring gap"), "13-gap-daily.ics",
     "03-26 01:30-03-26 02:30 03-27 01:30-03-27 02:30 03-28 02:30-03-28 03:30 03-29 01:30-03-29 02:30 "
     "03-30 01:30-03-30 02:30"},
    {ROW("this and all later ones"), "14-range.ics",
     "03-01 09:00-03-01 10:00 03-02 09:00-03-02 10:00 03-03 15:00-03-03 17:00 03-04 15:00-03-04 17:00 "
     "03-05 15:00-03-05 17:00 03-06 15:00-03-06 17:00"},
    {ROW("the second day of a week"), "15-bysetpos-weekly.ics",
     "03-01 09:00-03-01 10:00 03-03 09:00-03-03 10:00 03-10 09:00-03-10 10:00 03-17 09:00-03-17 10:00 "
     "03-24 09:00-03-24 10:00 03-31 09:00-03-31 10:00"},
    {ROW("a day and an hour"), "16-duration-p1d.ics",
     "03-25 12:00-03-26 13:00 03-27 12:00-03-28 13:00 03-29 12:00-03-30 13:00"},
    {ROW("hourly, years ago"), "17-hourly-ended.ics", "03-03 09:00-03-03 10:00"},
    {ROW("a day that ends as it begins"), "18-all-day-zero.ics", "03-02 00:00-03-03 00:00"},
    {ROW("a zone of three parts"), "19-three-part-zone.ics", "03-10 13:00-03-10 14:00"},
    {ROW("ends in a zone of its own"), "2-vtimezone-dtend-ignored.ics",
     "03-01 09:00-03-01 17:00 03-02 09:00-03-02 17:00 03-04 00:00-03-05 00:00"},
    {ROW("a zone that changes every hour"), "20-vtimezone-hang.ics", "04-01 09:00-04-01 10:00"},
    {ROW("an exception by the day of another zone"), "21-exdate-date-other-zone.ics",
     "03-02 03:00-03-02 04:00 03-03 03:00-03-03 04:00 03-05 03:00-03-05 04:00 03-06 03:00-03-06 04:00"},
    {ROW("a zone of another system"), "22-windows-zone.ics", "03-25 10:00-03-25 11:00"},
    {ROW("a change in a zone"), "3-vtimezone-override-refused.ics",
     "03-01 09:00-03-01 17:00 03-02 09:00-03-02 17:00 03-03 09:00-03-03 17:00"},
    {ROW("a duration, later an end"), "4-vtimezone-valid-refused.ics",
     "03-01 09:00-03-01 10:00 03-02 09:00-03-02 17:00"},
    {ROW("two events"), "6-two-events-second-lost.ics", "03-01 09:00-03-01 10:00 03-02 09:00-03-02 10:00"},
    {ROW("an exception on the day of 23 hours"), "7-exdate-spring-day.ics",
     "03-26 00:00-03-28 00:00 03-29 00:00-03-31 00:00"},
    {ROW("periods of their own length"), "8-rdate-period.ics",
     "03-01 09:00-03-01 10:00 03-03 09:00-03-03 17:00 03-04 09:00-03-04 09:30"},
    {ROW("a fold inside a character"), "9-fold-in-utf8.ics", "03-01 09:00-03-01 10:00"},
};

static void file_blocks(void **state)
{
    const struct busy_row *r = *state;
    struct reader *reader = reader_make();
    struct file_text file;
    struct err err;
    assert_true(file_load(reader->arena, arena_textf(reader->arena, "tests/busy/%s", r->text), &file, &err));
    check_text(&r->row, read_text(reader, file.text), r->want);
    bool warned = strncmp(r->text, "20", 2) == 0 || strncmp(r->text, "22", 2) == 0;
    check_int(&r->row, (intmax_t)reader->warnings.count, warned);
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(events, reads_as), CHECK_ROWS(mistakes, reads_as), CHECK_TEST(unknown_zone),
                     CHECK_TEST(hostile_zone), CHECK_TEST(deep_nesting), CHECK_TEST(many_rules),
                     CHECK_TEST(end_and_duration), CHECK_ROWS(files, file_blocks));
}
