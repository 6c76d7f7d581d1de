#include "format/ical_scan.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/words.h"

#include <string.h>

enum { DEEPEST = 8, EVENTS_MOST = 20000, CALENDAR_MOST = 16 << 20 };

static const char *const when_names[WHEN_COUNT] = {
    "DTSTART", "DTEND", "DURATION", "RRULE", "RDATE", "EXDATE", "RECURRENCE-ID",
};

struct line {
    const char *text;
    size_t length, name; /* bytes of the line, and of its property's name */
};

struct walk {
    const struct reading *reading;
    const struct file_text *file;
    struct ical_scan *scan;
    size_t at, capacity;
    struct line open[DEEPEST]; /* the BEGIN lines of what is open */
    size_t depth;
    size_t event_depth; /* 0: not inside an event */
};

const char *ical_when_name(enum ical_when when)
{
    return when_names[when];
}

static struct line line_at(const struct file_text *file, size_t at)
{
    struct line line = {file->text + at, 0, 0};
    size_t left = file->length - at;
    while (line.length < left && line.text[line.length] != '\n')
        line.length++;
    size_t end = line.length;
    if (end > 0 && line.text[end - 1] == '\r')
        end--;
    while (line.name < end && line.text[line.name] != ':' && line.text[line.name] != ';')
        line.name++;
    return line;
}

const char *ical_line(const struct reading *reading, const struct file_text *file, size_t at)
{
    struct line line = line_at(file, at);
    size_t length = line.length;
    if (length > 0 && line.text[length - 1] == '\r')
        length--;
    return words_quote(reading->arena, arena_text_n(reading->arena, line.text, length));
}

static bool wrong(const struct walk *walk, size_t at, const char *expected, const char *found)
{
    (void)text_wrong(walk->reading->errors, walk->file, at, "", expected, found);
    return false;
}

/* What stands behind the colon: a component's name. */
static struct line component(struct line line)
{
    size_t skipped = line.name < line.length ? line.name + 1 : line.length;
    struct line name = {line.text + skipped, 0, 0};
    while (skipped + name.length < line.length && !strchr("\r\n \t", name.text[name.length]))
        name.length++;
    return name;
}

static bool is_named(struct line line, const char *name)
{
    return text_same_n(line.text, line.length, name);
}

static bool begin(struct walk *walk, struct line line)
{
    struct line name = component(line);
    if (walk->depth == 0 && !is_named(name, "VCALENDAR"))
        return wrong(walk, walk->at, "BEGIN:VCALENDAR", ical_line(walk->reading, walk->file, walk->at));
    if (walk->depth == DEEPEST)
        return wrong(walk, walk->at, "at most 8 levels of components", "one more");
    walk->open[walk->depth++] = name;
    if (walk->depth != 2 || !is_named(name, "VEVENT"))
        return true;
    if (walk->scan->count == EVENTS_MOST)
        return wrong(walk, walk->at, "at most 20000 events", "one more");
    struct ical_scan *scan = walk->scan;
    scan->events =
        arena_grow(walk->reading->arena, scan->events, scan->count, &walk->capacity, sizeof *scan->events);
    scan->events[scan->count++] = (struct ical_event){.at = walk->at};
    walk->event_depth = walk->depth;
    return true;
}

static bool end(struct walk *walk, struct line line)
{
    struct line name = component(line), open = walk->depth ? walk->open[walk->depth - 1] : name;
    const char *want = arena_text_n(walk->reading->arena, open.text, open.length);
    if (walk->depth == 0 || !is_named(name, want))
        return wrong(walk, walk->at,
                     walk->depth ? arena_textf(walk->reading->arena, "END:%s", want) : "BEGIN:VCALENDAR",
                     ical_line(walk->reading, walk->file, walk->at));
    if (walk->depth == walk->event_depth)
        walk->event_depth = 0;
    walk->depth--;
    return true;
}

static void count(struct walk *walk, struct line line)
{
    struct ical_event *event = &walk->scan->events[walk->scan->count - 1];
    for (int i = 0; i < WHEN_COUNT; i++)
        if (text_same_n(line.text, line.name, when_names[i]) && event->lines[i]++ == 0)
            event->first[i] = walk->at;
}

static bool take_line(struct walk *walk, struct line line)
{
    bool folded = line.length > 0 && (line.text[0] == ' ' || line.text[0] == '\t');
    bool blank = line.length == 0 || (line.length == 1 && line.text[0] == '\r');
    if (blank || (folded && walk->depth > 0))
        return true;
    if (text_same_n(line.text, line.name, "BEGIN"))
        return begin(walk, line);
    if (text_same_n(line.text, line.name, "END"))
        return end(walk, line);
    if (walk->depth == 0)
        return wrong(walk, walk->at, "a calendar: BEGIN:VCALENDAR",
                     ical_line(walk->reading, walk->file, walk->at));
    if (walk->event_depth > 0 && walk->event_depth == walk->depth)
        count(walk, line);
    return true;
}

bool ical_scan(const struct reading *reading, const struct file_text *file, struct ical_scan *scan)
{
    struct walk walk = {.reading = reading, .file = file, .scan = scan};
    *scan = (struct ical_scan){NULL, 0};
    if (file->length > CALENDAR_MOST)
        return wrong(&walk, 0, "a calendar of at most 16 MiB", "a larger one");
    if (!text_check(reading->errors, file, "UTF-8 text"))
        return false;
    bool calendar = false;
    if (file->length >= 3 && memcmp(file->text, "\xEF\xBB\xBF", 3) == 0)
        walk.at = 3;
    while (walk.at < file->length) {
        struct line line = line_at(file, walk.at);
        if (!take_line(&walk, line))
            return false;
        calendar |= walk.depth > 0;
        walk.at += line.length + 1;
    }
    if (!calendar)
        return wrong(&walk, file->length, "a calendar: BEGIN:VCALENDAR", "an empty file");
    if (walk.depth == 0)
        return true;
    struct line open = walk.open[walk.depth - 1];
    return wrong(&walk, file->length, arena_textf(reading->arena, "END:%.*s", (int)open.length, open.text),
                 "the end of the file");
}
