/* Calendars that are refused, in the words that say why; and how much one may hold. */
#include "check.h"
#include "busy_times.h"

#include "base/buf.h"
#include "format/ical_busy.h"
#include "format/ical_text.h"

#include <string.h>

static const struct busy_row mistakes[] = {
    {ROW("a parameter whose quotes do not end"),
     CALENDAR(EVENT("DTSTART;TZID=Europe/Paris;X-NOTE=\"tea:20270302T090000\r\nDURATION:PT1H\r\n")),
     "other.ics:7:1: expected a value that DTSTART can have, found "
     "\"DTSTART;TZID=Europe/Paris;X-NOTE=\"tea:20270302T090000\""},
    {ROW("an event without a calendar"), "BEGIN:VEVENT\r\nEND:VEVENT\r\n",
     "other.ics:1:1: expected BEGIN:VCALENDAR, found \"BEGIN:VEVENT\""},
    {ROW("an end alone"), "END:VCALENDAR\r\n",
     "other.ics:1:1: expected BEGIN:VCALENDAR, found \"END:VCALENDAR\""},
    {ROW("not UTF-8 behind a fold"), "BEGIN:VCALENDAR\r\nX:ca\r\n f\xE9\r\nEND:VCALENDAR\r\n",
     "other.ics:3:3: expected UTF-8 text, found byte 0xe9"},
    {ROW("two starts"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDTSTART:20270303T090000Z\r\n")),
     "other.ics:4:1: expected an event with one DTSTART, found \"BEGIN:VEVENT\""},
    {ROW("two values of a start"), CALENDAR(EVENT("DTSTART:20270302T090000Z,20270303T090000Z\r\n")),
     "other.ics:7:1: expected a date that exists, found \"DTSTART:20270302T090000Z,20270303T090000Z\""},
    {ROW("an end that is none"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDTEND:later\r\n")),
     "other.ics:8:1: expected a value that DTEND can have, found \"DTEND:later\""},
    {ROW("an end after more than ten years"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDTEND:20370401T090000Z\r\n")),
     "other.ics:8:1: expected an end after the beginning, at most ten years later, found "
     "\"DTEND:20370401T090000Z\""},
    {ROW("a duration of more than ten years"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:P3700D\r\n")),
     "other.ics:8:1: expected an end after the beginning, at most ten years later, found "
     "\"DURATION:P3700D\""},
    {ROW("a duration that is none"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:an hour\r\n")),
     "other.ics:8:1: expected a value that DURATION can have, found \"DURATION:an hour\""},
    {ROW("two durations"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nDURATION:PT1H,PT2H\r\n")),
     "other.ics:8:1: expected a value that DURATION can have, found \"DURATION:PT1H,PT2H\""},
    {ROW("a change of no moment"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nRECURRENCE-ID:first\r\n")),
     "other.ics:8:1: expected a value that RECURRENCE-ID can have, found \"RECURRENCE-ID:first\""},
    {ROW("an exception that is none"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nEXDATE:20270303T090000Z,never\r\n")),
     "other.ics:8:1: expected a date that exists, found \"EXDATE:20270303T090000Z,never\""},
    {ROW("a period as an exception"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nEXDATE:20270303T090000Z/PT1H\r\n")),
     "other.ics:8:1: expected a date that exists, found \"EXDATE:20270303T090000Z/PT1H\""},
    {ROW("an addition that is none"), CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nRDATE:soon\r\n")),
     "other.ics:8:1: expected a value that RDATE can have, found \"RDATE:soon\""},
    {ROW("a period that ends before it begins"),
     CALENDAR(EVENT("DTSTART:20270302T090000Z\r\nRDATE;VALUE=PERIOD:20270303T090000Z/20270302T090000Z\r\n")),
     "other.ics:8:1: expected a date that exists, found "
     "\"RDATE;VALUE=PERIOD:20270303T090000Z/20270302T090000Z\""},
    {ROW("a period of three"),
     CALENDAR(
         EVENT("DTSTART:20270302T090000Z\r\nRDATE;VALUE=PERIOD:20270303T090000Z/20270303T100000Z/PT1H\r\n")),
     "other.ics:8:1: expected a date that exists, found "
     "\"RDATE;VALUE=PERIOD:20270303T090000Z/20270303T100000Z/PT1H\""},
    {ROW("a busy time without an end"),
     CALENDAR("BEGIN:VFREEBUSY\r\nFREEBUSY:20270303T090000Z\r\nEND:VFREEBUSY\r\n"),
     "other.ics:5:1: expected a value that FREEBUSY can have, found \"FREEBUSY:20270303T090000Z\""},
    {ROW("a busy time that is none"), CALENDAR("BEGIN:VFREEBUSY\r\nFREEBUSY:all day\r\nEND:VFREEBUSY\r\n"),
     "other.ics:5:1: expected a value that FREEBUSY can have, found \"FREEBUSY:all day\""},
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

static void is_refused(void **state)
{
    const struct busy_row *r = *state;
    struct reader *reader = reader_make();
    check_text(&r->row, busy_times(reader, r->text), r->want);
    check_text(&r->row, reader_lines(reader, &reader->warnings), "");
    reader_free(reader);
}

/* A zone whose own rules cannot be followed is as good as unknown. */
static const struct busy_row wrong_zones[] = {
    {ROW("no offset"), "BEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETTO:+0500\r\nEND:STANDARD\r\n",
     "03-02 12:00-03-02 13:00"},
    {ROW("no offset to go to"),
     "BEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETFROM:+0500\r\nEND:STANDARD\r\n",
     "03-02 12:00-03-02 13:00"},
    {ROW("no start"), "BEGIN:STANDARD\r\nTZOFFSETFROM:+0500\r\nTZOFFSETTO:+0500\r\nEND:STANDARD\r\n",
     "03-02 12:00-03-02 13:00"},
    {ROW("no observance"), "", "03-02 12:00-03-02 13:00"},
    {ROW("a change that is none"),
     "BEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETFROM:+0500\r\n"
     "TZOFFSETTO:+0500\r\nRDATE:in spring\r\nEND:STANDARD\r\n",
     "03-02 12:00-03-02 13:00"},
    {ROW("a rule that is none"),
     "BEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETFROM:+0500\r\n"
     "TZOFFSETTO:+0500\r\nRRULE:FREQ=SOMETIMES\r\nEND:STANDARD\r\n",
     "03-02 12:00-03-02 13:00"},
};

static void zone_is_not_taken(void **state)
{
    const struct busy_row *r = *state;
    struct reader *reader = reader_make();
    const char *zone =
        arena_textf(reader->arena, "BEGIN:VTIMEZONE\r\nTZID:Hut\r\n%sEND:VTIMEZONE\r\n", r->text);
    const char *got =
        busy_times(reader, arena_textf(reader->arena, "BEGIN:VCALENDAR\r\n%s%sEND:VCALENDAR\r\n", zone,
                                       EVENT("DTSTART;TZID=Hut:20270302T120000\r\nDURATION:PT1H\r\n")));
    check_text(&r->row, got, r->want);
    check_true(&r->row,
               strstr(reader_lines(reader, &reader->warnings),
                      "the time zone \"Hut\" is not known: the shop's is taken"),
               "a warning");
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
    check_text(HERE, busy_times(reader, text.text),
               "other.ics:9:1: expected at most 8 levels of components, found one more");
    reader_free(reader);
}

struct bound_row {
    struct row row;
    const char *before, *repeated, *after;
    int times;
    const char *want;
};

static const struct bound_row bounds[] = {
    {ROW("20000 events"), "BEGIN:VCALENDAR\n",
     "BEGIN:VEVENT\nDTSTART:20270302T090000Z\nDURATION:PT1H\nEND:VEVENT\n", "END:VCALENDAR\n", 20000,
     "03-02 09:00-03-02 10:00"},
    {ROW("an event more"), "BEGIN:VCALENDAR\n",
     "BEGIN:VEVENT\nDTSTART:20270302T090000Z\nDURATION:PT1H\nEND:VEVENT\n", "END:VCALENDAR\n", 20001,
     "other.ics:80002:1: expected at most 20000 events, found one more"},
    {ROW("500000 lines"), "BEGIN:VCALENDAR\n", "X:\n", "END:VCALENDAR\n", 499998, ""},
    {ROW("a line more"), "BEGIN:VCALENDAR\n", "X:\n", "END:VCALENDAR\n", 499999,
     "other.ics:500001:1: expected at most 500000 lines, found one more"},
    {ROW("16 MiB and a byte"), "BEGIN:VCALENDAR\nX:", "0123456789ABCDEF", "\nEND:VCALENDAR\n", 1 << 20,
     "other.ics:1:1: expected a calendar of at most 16 MiB, found a larger one"},
    {ROW("50 changes of all later ones"),
     "BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:a\nDTSTART:20270302T090000Z\nDURATION:PT1H\nEND:VEVENT\n",
     "BEGIN:VEVENT\nUID:b\nRECURRENCE-ID;RANGE=THISANDFUTURE:20270302T090000Z\nDTSTART:20270302T090000Z\nEND:"
     "VEVENT\n",
     "END:VCALENDAR\n", 50, "03-02 09:00-03-02 10:00"},
    {ROW("a change more"), "BEGIN:VCALENDAR\n",
     "BEGIN:VEVENT\nUID:b\nRECURRENCE-ID;RANGE=THISANDFUTURE:20270302T090000Z\nDTSTART:20270302T090000Z\nEND:"
     "VEVENT\n",
     "END:VCALENDAR\n", 51,
     "other.ics:252:1: expected at most 50 changes of all later occurrences, found \"BEGIN:VEVENT\""},
    /* 200000 are kept apart before those that touch are joined */
    {ROW("one busy time, said very often"),
     "BEGIN:VCALENDAR\nBEGIN:VFREEBUSY\nFREEBUSY:20270302T090000Z/PT1H", ",20270302T090000Z/PT1H",
     "\nEND:VFREEBUSY\nEND:VCALENDAR\n", 200001, "03-02 09:00-03-02 10:00"},
};

static void bound_holds(void **state)
{
    const struct bound_row *r = *state;
    struct reader *reader = reader_make();
    struct buf text;
    buf_init(&text, reader->arena);
    buf_add(&text, r->before);
    for (int i = 0; i < r->times; i++)
        buf_add(&text, r->repeated);
    buf_add(&text, r->after);
    check_text(&r->row, busy_times(reader, text.text), r->want);
    reader_free(reader);
}

/* Every other minute of months: times that do not touch. As many again are let pass before they are counted. */
static void busy_all_the_time(void **state)
{
    (void)state;
    static const struct zone utc = {"UTC", 0, NULL};
    static const struct busy_row kinds[] = {
        {ROW("100000"), "COUNT=100000", ""},
        {ROW("twice as many and one"), "COUNT=200001",
         "other.ics:4:1: expected at most 100000 busy times, found \"BEGIN:VEVENT\""}};
    for (size_t k = 0; k < 2; k++) {
        struct reader *reader = reader_make();
        struct file_text file = reader_file(
            "other.ics",
            arena_textf(
                reader->arena,
                CALENDAR(EVENT(
                    "DTSTART:20270101T000000Z\r\nDURATION:PT1M\r\nRRULE:FREQ=MINUTELY;INTERVAL=2;%s\r\n")),
                kinds[k].text));
        struct busy_list list = {.items = NULL};
        struct busy_window window = {&utc, utc_minute("2027-01-01T00:00:00Z"),
                                     utc_minute("2029-01-01T00:00:00Z")};
        check_int(&kinds[k].row, busy_read(&reader->reading, &file, &window, &list), k == 0);
        check_text(&kinds[k].row, reader_lines(reader, &reader->errors), kinds[k].want);
        if (k == 0)
            check_int(&kinds[k].row, busy_minutes(&list, window.from_min, window.to_min), 100000);
        reader_free(reader);
    }
}

static void no_byte_is_zero(void **state)
{
    (void)state;
    static const char text[] = "BEGIN:VCALENDAR\r\nX:a\0b\r\nEND:VCALENDAR\r\n";
    struct reader *reader = reader_make();
    struct file_text file = {.name = "other.ics", .text = text, .length = sizeof text - 1};
    check_true(HERE, !ical_text_read(&reader->reading, &file), "refused");
    check_text(HERE, reader_lines(reader, &reader->errors),
               "other.ics:2:4: expected UTF-8 text, found byte 0x00");
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
        busy_times(reader, text.text);
        check_text(&kinds[k].row, reader->errors.count ? reader->errors.items[0].expected : "",
                   kinds[k].want);
        reader_free(reader);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(mistakes, is_refused), CHECK_ROWS(wrong_zones, zone_is_not_taken),
                     CHECK_TEST(deep_nesting), CHECK_ROWS(bounds, bound_holds), CHECK_TEST(busy_all_the_time),
                     CHECK_TEST(no_byte_is_zero), CHECK_TEST(many_rules));
}
