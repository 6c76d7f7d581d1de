/* What a calendar becomes when it is written over an older one, and how its zones, texts and ids are written. */
#include "check.h"
#include "reader.h"

#include "base/buf.h"
#include "base/moment.h"
#include "base/text.h"
#include "format/ical_text.h"
#include "format/ical_write.h"
#include "format/ical_vtimezone.h"
#include "format/zone.h"

#include <string.h>

enum { NOON = 30031200, YEAR_FIRST = 2024, YEAR_LAST = 2034 }; /* 2027-02-06 12:00 UTC is 30031920 */

static const struct zone utc = {"UTC", 0, NULL};

/* Two steps of one job, and its shopping. */
struct making {
    const char *summary;
    int64_t from_min, now_min;
    bool second;
    const char *previous;
};

static const char *written(struct reader *reader, struct making making)
{
    struct arena *arena = reader->arena;
    struct ical calendar;
    struct buf out;
    const char *prefix = ical_prefix(arena, "Desk", "k1");
    struct file_text previous = reader_file("timetable.ics", making.previous ? making.previous : "");
    buf_init(&out, arena);
    ical_init(&calendar, arena, &utc, making.now_min);
    ical_own(&calendar, prefix);
    struct ical_item *item = ical_add(&calendar, ical_uid(arena, prefix, "top/1"), making.summary, "apply");
    item->from_min = making.from_min;
    item->to_min = making.from_min + 60;
    ical_alarm(&calendar, item, making.from_min + 50, "wipe off");
    if (making.second) {
        item = ical_add(&calendar, ical_uid(arena, prefix, "top/2"), "second", "apply");
        item->from_min = making.from_min + 600;
        item->to_min = making.from_min + 660;
        ical_after(&calendar, item, ical_uid(arena, prefix, "top/1"));
    }
    item = ical_add(&calendar, ical_uid(arena, prefix, "shopping"), "buy", "shopping");
    item->todo = true;
    item->to_min = making.from_min - 60;
    ical_alarm(&calendar, item, making.from_min - 120, "shop");
    if (!ical_write(&calendar, making.previous ? &previous : NULL, &out, &reader->errors))
        return reader_lines(reader, &reader->errors);
    return out.text;
}

/* The unfolded lines of the component with this UID, one of `names` after the other, by blanks. */
static const char *says(struct reader *reader, const char *text, const char *uid, const char *const *names)
{
    struct file_text file = reader_file("new.ics", text);
    const struct ical_component *calendar = ical_text_read(&reader->reading, &file);
    struct buf out;
    buf_init(&out, reader->arena);
    assert_non_null(calendar);
    for (const struct ical_component *c = calendar->children; c; c = c->next) {
        const struct ical_property *id = ical_property_find(c->properties, "UID");
        if (!id || strcmp(id->value, uid) != 0)
            continue;
        for (; *names; names++) {
            const struct ical_property *p = ical_property_find(c->properties, *names);
            buf_addf(&out, "%s%s", out.length ? " " : "", p ? p->value : "-");
        }
        return out.text;
    }
    return "none";
}

#define TOP "desk-k1/top/1@coatwright"
#define SECOND "desk-k1/top/2@coatwright"
static const char *const state[] = {"SEQUENCE", "DTSTAMP", "LAST-MODIFIED", "STATUS", NULL};

static struct making day(int number, int64_t from_min)
{
    return (struct making){.summary = "first",
                           .from_min = from_min,
                           .now_min = NOON + (int64_t)number * DAY_MINUTES,
                           .second = true};
}

static void sequences_rise_with_changes_alone(void **unused)
{
    (void)unused;
    struct reader *reader = reader_make();
    struct making making = day(0, NOON + 10 * DAY_MINUTES);
    const char *one = written(reader, making);
    check_text(HERE, says(reader, one, TOP, state), "0 20270206T000000Z 20270206T000000Z -");
    making = day(1, NOON + 10 * DAY_MINUTES);
    making.previous = one;
    const char *two = written(reader, making);
    check_text(HERE, says(reader, two, TOP, state), "0 20270206T000000Z 20270206T000000Z -");
    making = day(2, NOON + 11 * DAY_MINUTES);
    making.previous = two;
    const char *three = written(reader, making);
    check_text(HERE, says(reader, three, TOP, state), "1 20270208T000000Z 20270208T000000Z -");
    making = day(3, NOON + 11 * DAY_MINUTES);
    making.previous = three;
    making.summary = "another";
    const char *four = written(reader, making);
    check_text(HERE, says(reader, four, TOP, state), "2 20270209T000000Z 20270209T000000Z -");
    check_text(HERE, says(reader, four, SECOND, state), "1 20270208T000000Z 20270208T000000Z -");
    reader_free(reader);
}

/* 3.8.7.4: a number of 32 bits. */
static void sequences_never_wrap(void **unused)
{
    (void)unused;
    static const char *const numbers[][2] = {{"2147483646", "2147483647"},
                                             {"2147483647", "2147483647"},
                                             {"99999999999999", "2147483647"},
                                             {"-5", "1"},
                                             {"x", "1"}};
    struct reader *reader = reader_make();
    struct making making = day(0, NOON + 10 * DAY_MINUTES);
    const char *one = written(reader, making);
    const char *at = strstr(one, "SEQUENCE:0");
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        making = day(1, NOON + 20 * DAY_MINUTES);
        making.previous =
            arena_textf(reader->arena, "%.*sSEQUENCE:%s%s", (int)(at - one), one, numbers[i][0], at + 10);
        check_text(HERE, says(reader, written(reader, making), TOP, (const char *const[]){"SEQUENCE", NULL}),
                   numbers[i][1]);
    }
    reader_free(reader);
}

/* What goes from the plan is cancelled, unless it is over; what comes back rises further. */
static void what_goes_is_cancelled(void **unused)
{
    (void)unused;
    struct reader *reader = reader_make();
    struct making making = day(0, NOON + 10 * DAY_MINUTES);
    const char *one = written(reader, making);
    making = day(1, NOON + 10 * DAY_MINUTES);
    making.second = false;
    making.previous = one;
    const char *two = written(reader, making);
    check_text(HERE, says(reader, two, SECOND, state), "1 20270207T000000Z 20270207T000000Z CANCELLED");
    making = day(2, NOON + 10 * DAY_MINUTES);
    making.second = false;
    making.previous = two;
    const char *three = written(reader, making);
    check_text(HERE, says(reader, three, SECOND, state), "1 20270207T000000Z 20270207T000000Z CANCELLED");
    making = day(3, NOON + 10 * DAY_MINUTES);
    making.previous = three;
    check_text(HERE, says(reader, written(reader, making), SECOND, state),
               "2 20270209T000000Z 20270209T000000Z -");
    making = day(30, NOON + 40 * DAY_MINUTES);
    making.second = false;
    making.previous = one;
    check_text(HERE, says(reader, written(reader, making), SECOND, state),
               "0 20270206T000000Z 20270206T000000Z -");
    reader_free(reader);
}

/* A moment at noon of the tenth day, and what is to be done by the end of that day, with an event of the day beside it. */
static const char *moments(struct reader *reader, int64_t now_min, const char *old, bool gone)
{
    struct ical calendar;
    struct buf out;
    const char *prefix = ical_prefix(reader->arena, "Desk", "k1");
    struct file_text previous = reader_file("timetable.ics", old ? old : "");
    buf_init(&out, reader->arena);
    ical_init(&calendar, reader->arena, &utc, now_min);
    ical_own(&calendar, prefix);
    for (int i = 0; i < 3 && !gone; i++) {
        static const char *const ids[] = {"ready", "shopping-day", "shopping"};
        struct ical_item *item = ical_add(&calendar, ical_uid(reader->arena, prefix, ids[i]), ids[i], ids[i]);
        item->todo = i == 2;
        item->all_day = i > 0;
        *(i < 2 ? &item->from_min : &item->to_min) = NOON + 10 * DAY_MINUTES;
    }
    check_true(HERE, ical_write(&calendar, old ? &previous : NULL, &out, &reader->errors), "written");
    return out.text;
}

/* An event without an end is a moment (3.6.1), a DATE is a whole day; both are over when they are past, and only then stay as
 * they are when the plan has them no more. */
static void moments_and_days(void **unused)
{
    (void)unused;
    struct reader *reader = reader_make();
    const char *one = moments(reader, NOON, NULL, false);
    check_true(HERE, strstr(one, "CATEGORIES:ready\r\nDTSTART:20270216T000000Z\r\nDTSTAMP") != NULL, one);
    check_true(HERE, strstr(one, "CATEGORIES:shopping-day\r\nDTSTART;VALUE=DATE:20270216\r\nDTSTAMP") != NULL,
               one);
    check_true(HERE, strstr(one, "CATEGORIES:shopping\r\nDUE;VALUE=DATE:20270216\r\nDTSTAMP") != NULL, one);
    check_text(HERE, moments(reader, NOON + DAY_MINUTES, one, false), one);
    static const char *const uids[] = {"desk-k1/ready@coatwright", "desk-k1/shopping-day@coatwright"};
    for (int day = 9; day < 12; day++)
        for (int i = 0; i < 2; i++) {
            const char *text = moments(reader, NOON + day * DAY_MINUTES, one, true);
            bool over = i == 0 ? day >= 10 : day >= 11;
            check_text(HERE, says(reader, text, uids[i], (const char *const[]){"SEQUENCE", "STATUS", NULL}),
                       over ? "0 -" : "1 CANCELLED");
        }
    reader_free(reader);
}

#define THEIRS                                                                                               \
    "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//other//EN\nX-WR-CALNAME:Our\n  "                                \
    "shop\nBEGIN:VTIMEZONE\nTZID:Mine\nUID:" TOP "\n"                                                        \
    "BEGIN:STANDARD\nDTSTART:19700101T000000\nTZOFFSETFROM:+0000\nTZOFFSETTO:+0000\nEND:STANDARD\nEND:"      \
    "VTIMEZONE\n"                                                                                            \
    "BEGIN:VEVENT\nUID:dentist\nDTSTAMP:20270101T000000Z\nDTSTART;TZID=Mine:20270301T090000\nX-MORE;A=\"b:"  \
    "c\":d\n"                                                                                                \
    "BEGIN:VALARM\nACTION:AUDIO\nTRIGGER:-PT5M\nEND:VALARM\nEND:VEVENT\n"                                    \
    "BEGIN:VEVENT\nUID:desk-k2/top/"                                                                         \
    "1@coatwright\nDTSTAMP:20270101T000000Z\nDTSTART:20270301T090000Z\nEND:VEVENT\n"                         \
    "BEGIN:VJOURNAL\nUID:" TOP "\nDTSTAMP:20270101T000000Z\nEND:VJOURNAL\nEND:VCALENDAR\n"

/* Events of others, of another job of the same name too, stay as they are, and what is no event, even with a UID of ours. */
static void others_stay(void **unused)
{
    (void)unused;
    struct reader *reader = reader_make();
    struct making making = day(0, NOON + 10 * DAY_MINUTES);
    making.previous = THEIRS;
    const char *text = written(reader, making);
    static const char *const lines[] = {
        "X-WR-CALNAME:Our shop\r\n",
        "BEGIN:VTIMEZONE\r\nTZID:Mine\r\nUID:" TOP "\r\nBEGIN:STANDARD\r\n",
        "BEGIN:VEVENT\r\nUID:dentist\r\nDTSTAMP:20270101T000000Z\r\nDTSTART;TZID=Mine:20270301T090000\r\nX-"
        "MORE;A=\"b:c\":d\r\n"
        "BEGIN:VALARM\r\nACTION:AUDIO\r\nTRIGGER:-PT5M\r\nEND:VALARM\r\nEND:VEVENT\r\n",
        "UID:desk-k2/top/"
        "1@coatwright\r\nDTSTAMP:20270101T000000Z\r\nDTSTART:20270301T090000Z\r\nEND:VEVENT\r\n",
        "BEGIN:VJOURNAL\r\nUID:" TOP "\r\nDTSTAMP:20270101T000000Z\r\nEND:VJOURNAL\r\n",
        "BEGIN:VEVENT\r\nUID:" TOP "\r\n"};
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++)
        check_true(HERE, strstr(text, lines[i]) != NULL, lines[i]);
    making.previous = text;
    check_text(HERE, written(reader, making), text);
    reader_free(reader);
}

/* 3.8.1.11, 3.8.2.1: who has bought it need not buy it again. */
static void what_is_done_stays_done(void **unused)
{
    (void)unused;
    static const char *const shopping[] = {"STATUS", "COMPLETED", "PERCENT-COMPLETE", "SEQUENCE", NULL};
    struct reader *reader = reader_make();
    struct making making = day(0, NOON + 10 * DAY_MINUTES);
    const char *one = written(reader, making);
    const char *at = strstr(one, "END:VTODO");
    const char *done = arena_textf(
        reader->arena, "%.*sSTATUS:COMPLETED\r\nCOMPLETED:20270206T100000Z\r\nPERCENT-COMPLETE:100\r\n%s",
        (int)(at - one), one, at);
    making = day(1, NOON + 10 * DAY_MINUTES);
    making.previous = done;
    const char *two = written(reader, making);
    check_text(HERE, says(reader, two, "desk-k1/shopping@coatwright", shopping),
               "COMPLETED 20270206T100000Z 100 0");
    making = day(2, NOON + 12 * DAY_MINUTES);
    making.previous = two;
    check_text(HERE, says(reader, written(reader, making), "desk-k1/shopping@coatwright", shopping),
               "COMPLETED 20270206T100000Z 100 1");
    reader_free(reader);
}

struct refused_row {
    struct row row;
    const char *previous, *want;
};

static const struct refused_row refused[] = {
    {ROW("garbage"), "hello", "timetable.ics:1:1: expected a calendar: BEGIN:VCALENDAR, found \"hello\""},
    {ROW("empty"), "", "timetable.ics:1:1: expected a calendar: BEGIN:VCALENDAR, found an empty file"},
    {ROW("cut off"), "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:a\r\n",
     "timetable.ics:4:1: expected END:VEVENT, found the end of the file"},
    {ROW("two calendars"), "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\nBEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n",
     "timetable.ics:3:1: expected one calendar, found a second one"},
};

static void is_refused(void **row)
{
    const struct refused_row *r = *row;
    struct reader *reader = reader_make();
    struct making making = day(0, NOON + 10 * DAY_MINUTES);
    making.previous = r->previous;
    check_text(&r->row, written(reader, making), r->want);
    reader_free(reader);
}

static void alarms_are_relative(void **unused)
{
    (void)unused;
    struct reader *reader = reader_make();
    const char *text = written(reader, day(0, NOON + 10 * DAY_MINUTES));
    check_true(HERE, strstr(text, "TRIGGER:PT50M\r\n") != NULL, "from the start of an event");
    check_true(HERE, strstr(text, "TRIGGER;RELATED=END:-PT60M\r\n") != NULL, "from the end of a to-do");
    check_true(HERE, strstr(text, "RELATED-TO;RELTYPE=DEPENDS-ON:" TOP "\r\n") != NULL, "RFC 9253");
    check_true(
        HERE, !strstr(text, "VTIMEZONE") && !strstr(text, "TZID") && strstr(text, "DTSTART:20270216T000000Z"),
        "UTC as UTC");
    reader_free(reader);
}

static void texts_are_clean(void **unused)
{
    (void)unused;
    struct reader *reader = reader_make();
    struct making making = day(0, NOON);
    making.summary = "a,b;c\\d\ne\x1b[2Jf\xE2\x80\xAEg\xC2\x9Bh";
    check_true(HERE, strstr(written(reader, making), "SUMMARY:a\\,b\\;c\\\\d\\ne [2Jf g h\r\n") != NULL,
               "escaped and blank");
    reader_free(reader);
}

static void ids_are_short(void **unused)
{
    (void)unused;
    struct arena *arena = arena_make(0);
    char long_name[3001];
    for (size_t i = 0; i < 3000; i += 2)
        memcpy(long_name + i, "\xC3\xA4", 2);
    long_name[3000] = '\0';
    const char *prefix = ical_prefix(arena, long_name, "0123456789abcdef"), *other;
    const char *uid = ical_uid(arena, prefix, long_name);
    size_t bad;
    check_true(HERE, strlen(uid) <= ICAL_UID_MOST && strncmp(uid, prefix, strlen(prefix)) == 0,
               "at most 255 octets, with their prefix");
    check_true(HERE, text_valid(uid, strlen(uid), &bad), "no character cut apart");
    long_name[2999] = '\xA5';
    other = ical_prefix(arena, long_name, "0123456789abcdef");
    check_true(HERE, strcmp(prefix, other) != 0, "long names that end differently differ");
    check_text(HERE, ical_uid(arena, ical_prefix(arena, "Desk", ""), "top/1"), "desk/top/1@coatwright");
    arena_free(arena);
}

/* Every zone of the system, written and read back, shows the same walls every hour of four years. */
static void zones_come_back(void **unused)
{
    (void)unused;
    struct reader *reader = reader_make();
    struct err err;
    size_t count, different = 0, dates = 0;
    const char **names = zone_names(reader->arena, &count);
    for (size_t i = 0; i < count; i++) {
        struct arena *arena = arena_make(0);
        struct reading reading = {.arena = arena, .errors = &reader->errors, .warnings = &reader->warnings};
        const struct zone *zone =
            zone_load(arena, names[i], (struct zone_years){YEAR_FIRST, YEAR_LAST}, &err);
        int64_t from = date_days((struct date){2026, 6, 1}) * DAY_MINUTES,
                to = from + 4 * 365 * (int64_t)DAY_MINUTES;
        int64_t steps = 1000000;
        struct buf out;
        buf_init(&out, arena);
        buf_add(&out, "BEGIN:VCALENDAR\r\n");
        ical_zone_write(&out, zone, from, to);
        buf_add(&out, "END:VCALENDAR\r\n");
        struct file_text file = reader_file(names[i], out.text);
        const struct ical_component *calendar = ical_text_read(&reading, &file);
        if (!calendar)
            print_error("%s: %s\n%s", names[i], reader_lines(reader, &reader->errors), out.text);
        assert_non_null(calendar);
        dates += strstr(out.text, "RDATE") != NULL;
        if (!calendar->children) {
            check_true(HERE, ical_zone_is_utc(zone), names[i]);
            arena_free(arena);
            continue;
        }
        const struct zone *back =
            ical_zone_read(arena, calendar->children, (struct zone_years){YEAR_FIRST, YEAR_LAST}, &steps);
        assert_non_null(back);
        for (int64_t at = from; at < to; at += 60)
            if (zone_offset_at(zone, at) != zone_offset_at(back, at)) {
                print_error("%s differs at %lld:\n%s", names[i], (long long)at, out.text);
                different++;
                break;
            }
        arena_free(arena);
    }
    check_true(HERE, count > 300, "all zones");
    check_int(HERE, (intmax_t)different, 0);
    check_int(HERE, (intmax_t)dates, 0);
    reader_free(reader);
}

struct moment_row {
    struct row row;
    const char *moment, *want; /* its line */
};

/* London: at 2027-10-31 02:00 the clock goes back to 01:00, at 2027-03-28 01:00 forward to 02:00. */
static const struct moment_row walls[] = {
    {ROW("before the hour that comes twice"), "2027-10-31T00:30:00+01:00",
     "DTSTART;TZID=Europe/London:20271031T003000"},
    {ROW("in it for the first time"), "2027-10-31T01:30:00+01:00", "DTSTART:20271031T003000Z"},
    {ROW("in it for the second time"), "2027-10-31T01:30:00Z", "DTSTART:20271031T013000Z"},
    {ROW("behind it"), "2027-10-31T02:00:00Z", "DTSTART;TZID=Europe/London:20271031T020000"},
    {ROW("before the hour that is left out"), "2027-03-28T00:59:00Z",
     "DTSTART;TZID=Europe/London:20270328T005900"},
    {ROW("behind it"), "2027-03-28T01:00:00Z", "DTSTART;TZID=Europe/London:20270328T020000"},
    {ROW("a summer's day"), "2027-07-01T12:00:00Z", "DTSTART;TZID=Europe/London:20270701T130000"},
};

/* What is written of an item that begins at a moment and lasts a minute, over an older calendar. */
static const char *written_at(struct reader *reader, const char *from, const char *now, const char *previous)
{
    struct ical calendar;
    struct buf out;
    struct err err;
    struct moment_text start, at;
    struct file_text before = reader_file("timetable.ics", previous ? previous : "");
    const char *prefix = ical_prefix(reader->arena, "Desk", "k1");
    const struct zone *zone =
        zone_load(reader->arena, "Europe/London", (struct zone_years){2026, 2028}, &err);
    assert_true(zone && moment_parse(from, zone, &start, NULL) && moment_parse(now, zone, &at, NULL));
    buf_init(&out, reader->arena);
    ical_init(&calendar, reader->arena, zone, at.minute);
    ical_own(&calendar, prefix);
    struct ical_item *item = ical_add(&calendar, ical_uid(reader->arena, prefix, "top/1"), "first", "apply");
    item->from_min = start.minute;
    item->to_min = start.minute + 1;
    assert_true(ical_write(&calendar, previous ? &before : NULL, &out, &reader->errors));
    return out.text;
}

static void moment_is_written(void **row)
{
    const struct moment_row *r = *row;
    struct reader *reader = reader_make();
    const char *text = written_at(reader, r->moment, "2027-01-01T00:00:00Z", NULL);
    check_true(&r->row, strstr(text, arena_textf(reader->arena, "\r\n%s\r\n", r->want)) != NULL, text);
    reader_free(reader);
}

struct gone_row {
    struct row row;
    const char *
        lines; /* of an event of ours that the new calendar has no more; now it is 12:00 in London on 7 July */
    bool cancelled;
};

static const struct gone_row gone[] = {
    {ROW("to come, in UTC"), "DTSTART:20270707T100000Z\r\nDTEND:20270707T110100Z\r\n", true},
    {ROW("over, in UTC"), "DTSTART:20270707T100000Z\r\nDTEND:20270707T110000Z\r\n", false},
    {ROW("to come, on the wall"),
     "DTSTART;TZID=Europe/London:20270707T110000\r\nDTEND;TZID=Europe/London:20270707T120100\r\n", true},
    {ROW("over, on the wall"),
     "DTSTART;TZID=Europe/London:20270707T110000\r\nDTEND;TZID=Europe/London:20270707T120000\r\n", false},
    {ROW("on another wall, who knows"),
     "DTSTART;TZID=Elsewhere:20260707T110000\r\nDTEND;TZID=Elsewhere:20260707T120000\r\n", true},
    {ROW("on any wall"), "DTSTART:20260707T110000\r\nDTEND:20260707T120000\r\n", true},
    {ROW("today"), "DTSTART;VALUE=DATE:20270707\r\n", true},
    {ROW("yesterday"), "DTSTART;VALUE=DATE:20270706\r\n", false},
    {ROW("an end that cannot be read"), "DTSTART:20260707T110000Z\r\nDTEND:later\r\n", true},
    {ROW("without any moment"), "", true},
    {ROW("names in lower case"), "Dtstart:20270707T100000Z\r\ndtend:20270707T110100Z\r\nstatus:CONFIRMED\r\n",
     true},
    {ROW("cancelled before"), "DTSTART:20270708T100000Z\r\nSTATUS:CANCELLED\r\nX-OLD:1\r\n", false},
};

static void what_is_gone(void **row)
{
    const struct gone_row *r = *row;
    struct reader *reader = reader_make();
    const char *previous = arena_textf(reader->arena,
                                       "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\n"
                                       "UID:desk-k1/old@coatwright\r\nSEQUENCE:4\r\n%sEND:VEVENT\r\n"
                                       "END:VCALENDAR\r\n",
                                       r->lines);
    const char *text = written_at(reader, "2027-08-01T09:00:00Z", "2027-07-07T11:00:00Z", previous);
    const char *got =
        says(reader, text, "desk-k1/old@coatwright", (const char *const[]){"SEQUENCE", "STATUS", NULL});
    bool before = strstr(r->lines, "CANCELLED") != NULL;
    check_text(&r->row, got, r->cancelled ? "5 CANCELLED" : before ? "4 CANCELLED" : "4 -");
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(walls, moment_is_written), CHECK_ROWS(gone, what_is_gone),
                     CHECK_TEST(sequences_rise_with_changes_alone), CHECK_TEST(sequences_never_wrap),
                     CHECK_TEST(what_goes_is_cancelled), CHECK_TEST(moments_and_days),
                     CHECK_TEST(others_stay), CHECK_TEST(what_is_done_stays_done),
                     CHECK_ROWS(refused, is_refused), CHECK_TEST(alarms_are_relative),
                     CHECK_TEST(texts_are_clean), CHECK_TEST(ids_are_short), CHECK_TEST(zones_come_back));
}
