/* Busy times of foreign calendars. Where a section of RFC 5545 decides, it is named beside the row. */
#include "check.h"
#include "busy_times.h"

#include <string.h>

/* A zone that no system knows, five hours ahead. */
#define OWN_ZONE                                                                                             \
    "BEGIN:VTIMEZONE\r\nTZID:Shop "                                                                          \
    "Time\r\nBEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETFROM:+0500\r\n"                            \
    "TZOFFSETTO:+0500\r\nEND:STANDARD\r\nEND:VTIMEZONE\r\n"

/* A zone that no system knows, an hour ahead in summer; the lines of its two observances say when. */
#define HUT(winter, summer)                                                                                  \
    "BEGIN:VTIMEZONE\r\nTZID:Hut\r\nBEGIN:STANDARD\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0000\r\n" winter     \
    "END:STANDARD\r\nBEGIN:DAYLIGHT\r\nTZOFFSETFROM:+0000\r\nTZOFFSETTO:+0100\r\n" summer                    \
    "END:DAYLIGHT\r\nEND:VTIMEZONE\r\n"
#define LISTED_ZONE                                                                                          \
    HUT("DTSTART:20251101T020000\r\nRDATE:20261101T020000\r\n",                                              \
        "DTSTART:20260308T020000\r\nRDATE:20270308T020000,20280308T020000\r\n")
/* The second Sunday of March 2027 is the 14th. */
#define ENDED_ZONE(until)                                                                                    \
    HUT("DTSTART:19701101T020000\r\nRRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU\r\n",                             \
        "DTSTART:19700308T020000\r\nRRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU;UNTIL=" until "\r\n")
#define IN_THE_HUT(day) EVENT("DTSTART;TZID=Hut:" day "T120000\r\nDURATION:PT1H\r\n")

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
    {ROW("a byte order mark, small letters, empty lines"),
     "\xEF\xBB\xBF"
     "begin:vcalendar\r\n\r\nbegin:vevent\r\ndtstart:20270302T090000Z\r\nduration:PT1H\r\n\r\n"
     "end:vevent\r\nend:vcalendar\r\n",
     "03-02 09:00-03-02 10:00"},
    /* 3.2: parameters in any order, quoted where they hold a colon or a semicolon */
    {ROW("a zone behind another parameter, in quotes"),
     CALENDAR(
         EVENT("DTSTART;X-NOTE=\"tea: a;b\";VALUE=DATE-TIME;TZID=\"America/New_York\":20270302T090000\r\n"
               "DURATION:PT1H\r\n")),
     "03-02 14:00-03-02 15:00"},
    {ROW("free, by another program's word"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nX-MICROSOFT-CDO-BUSYSTATUS:FREE\r\n")), ""},
    {ROW("out of the house, by another program's word"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nX-MICROSOFT-CDO-BUSYSTATUS:OOF\r\n")),
     "03-02 09:00-03-02 10:00"},
    {ROW("published"), CALENDAR("METHOD:PUBLISH\r\n" EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\n")),
     "03-02 09:00-03-02 10:00"},
    {ROW("declined by whom the calendar is called after, by the name alone"),
     CALENDAR("X-WR-CALNAME:ann\r\n" EVENT(
         "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nATTENDEE;PARTSTAT=ACCEPTED:mailto:b@x.example\r\n"
         "ATTENDEE;PARTSTAT=DECLINED:ann\r\n")),
     ""},
    {ROW("declined by a guest, the calendar is another's"),
     CALENDAR("X-WR-CALNAME:a@x.example\r\n" EVENT(
         "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nATTENDEE;PARTSTAT=DECLINED:mailto:guest@x.example\r\n"
         "ATTENDEE;PARTSTAT=ACCEPTED:mailto:a@x.example\r\n")),
     "03-02 09:00-03-02 10:00"},
    {ROW("from a day to a time of it"),
     CALENDAR(EVENT("DTSTART;VALUE=DATE:20270303\r\nDTEND:20270303T120000\r\n")), "03-03 00:00-03-03 12:00"},
    /* 3.3.10: until a date, that day included */
    {ROW("until a day"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;UNTIL=20270303\r\n")),
     "03-02 09:00-03-02 10:00 03-03 09:00-03-03 10:00"},
    {ROW("until a time of the wall, in New York"),
     CALENDAR(EVENT("DTSTART;TZID=America/New_York:20270302T090000\r\nDURATION:PT1H\r\n"
                    "RRULE:FREQ=DAILY;UNTIL=20270303T090000\r\n")),
     "03-02 14:00-03-02 15:00 03-03 14:00-03-03 15:00"},
    {ROW("two rules"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=2\r\n"
                    "RRULE:FREQ=WEEKLY;COUNT=2\r\n")),
     "03-02 09:00-03-02 10:00 03-03 09:00-03-03 10:00 03-09 09:00-03-09 10:00"},
    {ROW("at the minute of every hour"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT5M\r\n"
                    "RRULE:FREQ=HOURLY;BYMINUTE=0,30;BYSECOND=0;COUNT=3\r\n")),
     "03-02 09:00-03-02 09:05 03-02 09:30-03-02 09:35 03-02 10:00-03-02 10:05"},
    /* 3.8.5.2: periods */
    {ROW("a day of the calendar added over the clock change, and a period to a moment"),
     CALENDAR(EVENT(
         "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\n"
         "RDATE;TZID=Europe/London;VALUE=PERIOD:20270327T120000/P1D,20270304T090000Z/20270304T093000Z\r\n")),
     "03-02 09:00-03-02 10:00 03-04 09:00-03-04 09:30 03-27 12:00-03-28 12:00"},
    {ROW("an addition on the day that is left out"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRDATE:20270304T090000Z,20270305T090000Z\r\n"
                    "EXDATE;VALUE=DATE:20270304\r\n")),
     "03-02 09:00-03-02 10:00 03-05 09:00-03-05 10:00"},
    {ROW("one moved, named by its day"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=2\r\n") EVENT(
         "RECURRENCE-ID;VALUE=DATE:20270303\r\nDTSTART:20270303T090000Z\r\nDURATION:PT2H\r\n")),
     "03-02 09:00-03-02 10:00 03-03 09:00-03-03 11:00"},
    {ROW("another event's occurrence of that moment stays"),
     CALENDAR(EVENT(
         "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=2\r\n") "BEGIN:VEVENT\r\nUID:"
                                                                                      "b\r\nRECURRENCE-ID:"
                                                                                      "20270303T090000Z\r\nDT"
                                                                                      "START:"
                                                                                      "20270303T140000Z\r\n"
                                                                                      "DURATION:PT1H\r\nEND:"
                                                                                      "VEVENT\r\n"),
     "03-02 09:00-03-02 10:00 03-03 09:00-03-03 10:00 03-03 14:00-03-03 15:00"},
    {ROW("all later ones of another event stay"),
     CALENDAR(EVENT(
         "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=2\r\n") "BEGIN:VEVENT\r\nUID:"
                                                                                      "b\r\nRECURRENCE-ID;"
                                                                                      "RANGE=THISANDFUTURE:"
                                                                                      "20270302T090000Z\r\n"
                                                                                      "DTSTART:"
                                                                                      "20270302T140000Z\r\nDU"
                                                                                      "RATION:PT1H\r\nEND:"
                                                                                      "VEVENT\r\n"),
     "03-02 09:00-03-02 10:00 03-02 14:00-03-02 15:00 03-03 09:00-03-03 10:00"},
    {ROW("all later ones come six days sooner: into the window, too"),
     CALENDAR(EVENT("DTSTART:20270301T090000Z\r\nDURATION:PT1H\r\nRRULE:FREQ=WEEKLY;COUNT=8\r\n")
                  EVENT("RECURRENCE-ID;RANGE=THISANDFUTURE:20270405T090000Z\r\nDTSTART:20270330T090000Z\r\n"
                        "DURATION:PT1H\r\n")),
     "03-01 09:00-03-01 10:00 03-08 09:00-03-08 10:00 03-15 09:00-03-15 10:00 03-22 09:00-03-22 10:00 "
     "03-29 10:00-03-29 11:00 03-30 10:00-03-30 11:00"},
    {ROW("busy times that are taken back"),
     CALENDAR(
         "METHOD:CANCEL\r\nBEGIN:VFREEBUSY\r\nUID:f\r\nFREEBUSY:20270302T090000Z/PT1H\r\nEND:VFREEBUSY\r\n"),
     ""},
    {ROW("several busy times in a line"),
     CALENDAR("BEGIN:VFREEBUSY\r\nUID:f\r\nFREEBUSY:20270302T090000Z/PT1H,20270303T090000Z/"
              "PT2H\r\nEND:VFREEBUSY\r\n"),
     "03-02 09:00-03-02 10:00 03-03 09:00-03-03 11:00"},
    /* 3.6.5: a zone by its changes; the clocks of this one go forward on 8 March and on no other day of the window */
    {ROW("a zone with its changes in a list"),
     CALENDAR(LISTED_ZONE EVENT(
         "DTSTART;TZID=Hut:20270307T120000\r\nDURATION:PT1H\r\nRRULE:FREQ=DAILY;COUNT=2\r\n")),
     "03-07 12:00-03-07 13:00 03-08 11:00-03-08 12:00"},
    {ROW("a zone whose rule ends on the day of a change, that included"),
     CALENDAR(ENDED_ZONE("20270314") IN_THE_HUT("20270320")), "03-20 11:00-03-20 12:00"},
    {ROW("a zone whose rule ends as the clock before says"),
     CALENDAR(ENDED_ZONE("20270314T020000") IN_THE_HUT("20270320")), "03-20 11:00-03-20 12:00"},
    {ROW("a zone whose rule ends a minute before a change"),
     CALENDAR(ENDED_ZONE("20270314T015900Z") IN_THE_HUT("20270320")), "03-20 12:00-03-20 13:00"},
};

static void reads_as(void **state)
{
    const struct busy_row *r = *state;
    struct reader *reader = reader_make();
    check_text(&r->row, busy_times(reader, r->text), r->want);
    check_text(&r->row, reader_lines(reader, &reader->warnings), "");
    reader_free(reader);
}

static void unknown_zone(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *got =
        busy_times(reader, CALENDAR(EVENT("DTSTART;TZID=Mars/Base:20270402T090000\r\nDTEND;TZID=Mars/Base:"
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
    const char *got = busy_times(
        reader,
        CALENDAR(
            "BEGIN:VTIMEZONE\r\nTZID:Europe/Paris\r\nBEGIN:STANDARD\r\nDTSTART:19700101T000000\r\n"
            "RRULE:FREQ=SECONDLY\r\nTZOFFSETFROM:+0900\r\nTZOFFSETTO:+0900\r\nEND:STANDARD\r\n"
            "END:VTIMEZONE\r\n" EVENT("DTSTART;TZID=Europe/Paris:20270302T100000\r\nDURATION:PT1H\r\n")));
    check_text(HERE, got, "03-02 09:00-03-02 10:00");
    reader_free(reader);
}

/* Both an end and a duration: the first that stands there. */
static void end_and_duration(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    check_text(
        HERE,
        busy_times(reader, CALENDAR(EVENT(
                               "DTSTART:20270302T090000Z\r\nDURATION:PT1H\r\nDTEND:20270302T120000Z\r\n"))),
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
    check_text(&r->row, busy_times(reader, file.text), r->want);
    bool warned = strncmp(r->text, "20", 2) == 0 || strncmp(r->text, "22", 2) == 0;
    check_int(&r->row, (intmax_t)reader->warnings.count, warned);
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(events, reads_as), CHECK_TEST(unknown_zone), CHECK_TEST(hostile_zone),
                     CHECK_TEST(end_and_duration), CHECK_ROWS(files, file_blocks));
}
