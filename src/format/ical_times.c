#include "format/ical_times.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/day.h"
#include "format/ical_event.h"
#include "format/ical_text.h"
#include "format/ical_value.h"

#include <string.h>

static const char stamp_uid[] = "busy-times@coatwright";

/* What says when an event is. */
static const char *const kept[] = {"UID",   "DTSTAMP", "DTSTART",       "DTEND",    "DURATION", "RRULE",
                                   "RDATE", "EXDATE",  "RECURRENCE-ID", "FREEBUSY", "SEQUENCE"};

static void begin_calendar(struct buf *out)
{
    buf_add(out, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//coatwright//busy times//EN\r\n");
}

void ical_stamp_add(const struct ical_stamp *stamp, struct buf *out)
{
    begin_calendar(out);
    buf_addf(out, "BEGIN:VFREEBUSY\r\nUID:%s\r\nDTSTAMP:%s\r\nDTSTART:%s\r\nDTEND:%s\r\n", stamp_uid,
             ical_utc(stamp->at_min).text, ical_utc(stamp->from_min).text, ical_utc(stamp->to_min).text);
    buf_add(out, "COMMENT:Fetched by coatwright fetch-busy\\, which writes this file anew.\r\n");
    buf_add(out, "END:VFREEBUSY\r\nEND:VCALENDAR\r\n");
}

static bool read_moment(const struct ical_component *component, const char *name, int64_t *minute)
{
    const struct ical_property *property = ical_property_find(component->properties, name);
    struct ical_time time;
    const char *next;
    if (!property || !ical_time_read(property->value, &time, &next) || *next || !time.utc)
        return false;
    *minute = time.day * DAY_MINUTES + time.minute;
    return true;
}

bool ical_stamp_read(struct arena *arena, const struct file_text *file, struct ical_stamp *stamp)
{
    static const char end[] = "END:VCALENDAR";
    const char *last = strstr(file->text, end);
    struct err_list unused = {.count = 0};
    struct reading reading = {.arena = arena, .errors = &unused, .warnings = &unused};
    if (!last)
        return false;
    struct file_text first = {.name = file->name, .text = file->text};
    first.length = (size_t)(last - file->text) + strlen(end);
    const struct ical_component *calendar = ical_text_read(&reading, &first);
    const struct ical_component *told = calendar ? calendar->children : NULL;
    const struct ical_property *uid = told ? ical_property_find(told->properties, "UID") : NULL;
    return uid && strcmp(uid->value, stamp_uid) == 0 && read_moment(told, "DTSTAMP", &stamp->at_min) &&
           read_moment(told, "DTSTART", &stamp->from_min) && read_moment(told, "DTEND", &stamp->to_min);
}

/* A calendar while its times are copied. */
struct copy {
    const struct file_text *file;
    struct buf line; /* unfolded */
    struct buf *out;
};

/* The line at an offset, folded anew; where the next one begins. */
static size_t copy_line(struct copy *copy, size_t at)
{
    size_t next = ical_text_line(copy->file, at, &copy->line);
    buf_add(&copy->line, "\r\n");
    ical_fold(copy->line.text, copy->out);
    return next;
}

static void copy_whole(struct copy *copy, const struct ical_component *component)
{
    for (size_t at = component->at; at < component->end;)
        at = copy_line(copy, at);
}

static bool is_kept(const char *name)
{
    for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++)
        if (strcmp(kept[i], name) == 0)
            return true;
    return false;
}

static void copy_times(struct copy *copy, const struct ical_component *component, bool blocks)
{
    buf_addf(copy->out, "BEGIN:%s\r\n", component->name);
    for (const struct ical_property *p = component->properties; p; p = p->next)
        if (is_kept(p->name))
            (void)copy_line(copy, p->at);
    if (!blocks)
        buf_add(copy->out, "TRANSP:TRANSPARENT\r\n");
    buf_addf(copy->out, "END:%s\r\n", component->name);
}

static bool has_times(const struct ical_component *calendar)
{
    for (const struct ical_component *c = calendar->children; c; c = c->next)
        if (strcmp(c->name, "VEVENT") == 0 || strcmp(c->name, "VFREEBUSY") == 0)
            return true;
    return false;
}

static void copy_calendar(struct copy *copy, struct ical_reading *in, const struct ical_component *calendar)
{
    begin_calendar(copy->out);
    ical_begin_calendar(in, calendar);
    for (const struct ical_component *c = calendar->children; c; c = c->next) {
        if (strcmp(c->name, "VTIMEZONE") == 0)
            copy_whole(copy, c);
        else if (strcmp(c->name, "VEVENT") == 0)
            copy_times(copy, c, ical_blocks(in, c));
        else if (strcmp(c->name, "VFREEBUSY") == 0 && !in->cancelling)
            copy_times(copy, c, true);
    }
    buf_add(copy->out, "END:VCALENDAR\r\n");
}

bool ical_times_add(const struct reading *reading, const struct file_text *file, struct buf *out)
{
    const struct ical_component *calendar = ical_text_read(reading, file);
    struct ical_reading in = {.reading = reading, .file = file};
    struct copy copy = {.file = file, .out = out};
    if (!calendar)
        return false;
    buf_init(&copy.line, reading->arena);
    for (; calendar; calendar = calendar->next)
        if (has_times(calendar))
            copy_calendar(&copy, &in, calendar);
    return true;
}
