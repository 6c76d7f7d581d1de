#include "format/ical_text.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"
#include "format/words.h"

#include <stdio.h>
#include <string.h>

enum {
    DEEPEST = 8,
    EVENTS_MOST = 20000,
    LINES_MOST = 500000,
    CALENDAR_MOST = 16 << 20,
    OCTETS_MOST = 75,
};

/* A component while it is open, and where its next property and child go. */
struct open {
    struct ical_component *component;
    const struct ical_property **property;
    const struct ical_component **child;
};

struct scan {
    const struct reading *reading;
    const struct file_text *file;
    size_t at, next; /* the line at hand, and the one behind it with all its folds */
    const struct ical_component *calendars, **end;
    struct open open[DEEPEST];
    size_t depth, events, lines;
};

static bool folded_on(const struct file_text *file, size_t at)
{
    return at < file->length && (file->text[at] == ' ' || file->text[at] == '\t');
}

/* The end of the line's text, without its line end; *next is the line behind it, fold or not. */
static size_t line_end(const struct file_text *file, size_t at, size_t *next)
{
    const char *end = memchr(file->text + at, '\n', file->length - at);
    size_t length = end ? (size_t)(end - file->text) : file->length;
    *next = length + (end != NULL);
    return length > at && file->text[length - 1] == '\r' ? length - 1 : length;
}

const char *ical_line(const struct reading *reading, const struct file_text *file, size_t at)
{
    size_t next, end = line_end(file, at < file->length ? at : file->length, &next);
    return words_quote(reading->arena, arena_text_n(reading->arena, file->text + at, end - at));
}

/* A fold behind an empty line leaves a line that begins with a blank. They are dropped: written again, it would be a fold itself. */
static const char blanks[] = " \t";

size_t ical_text_line(const struct file_text *file, size_t at, struct buf *line)
{
    size_t next, end = line_end(file, at, &next);
    line->length = 0;
    line->text[0] = '\0';
    buf_add_n(line, file->text + at, end - at);
    while (folded_on(file, next)) {
        at = next + 1;
        end = line_end(file, next, &next);
        buf_add_n(line, file->text + at, end - at);
    }
    size_t blank = strspn(line->text, blanks);
    line->length -= blank;
    memmove(line->text, line->text + blank, line->length + 1);
    return next;
}

static bool wrong(const struct scan *scan, size_t at, const char *expected, const char *found)
{
    (void)text_wrong(scan->reading->errors, scan->file, at, "", expected, found);
    return false;
}

static bool wrong_line(const struct scan *scan, const char *expected)
{
    return wrong(scan, scan->at, expected, ical_line(scan->reading, scan->file, scan->at));
}

/* The line with its folds taken out, which may stand inside a character; scan->next moves behind them. */
static char *unfold(struct scan *scan, size_t *length)
{
    const struct file_text *file = scan->file;
    size_t from = scan->at, end = line_end(file, from, &scan->next), last = end;
    while (folded_on(file, scan->next))
        last = line_end(file, scan->next, &scan->next);
    char *line = arena_alloc(scan->reading->arena, last - from + 1, 1);
    *length = 0;
    for (size_t next = from;;) {
        end = line_end(file, next, &next);
        memcpy(line + *length, file->text + from, end - from);
        *length += end - from;
        if (next >= scan->next)
            return line;
        from = next + 1;
    }
}

/* Where an octet of the unfolded line stands in the file. */
static size_t offset_of(const struct scan *scan, size_t octet)
{
    size_t from = scan->at, next;
    for (;;) {
        size_t end = line_end(scan->file, from, &next);
        if (octet <= end - from || next >= scan->next)
            return from + octet;
        octet -= end - from;
        from = next + 1;
    }
}

static bool is_text(const struct scan *scan, const char *line, size_t length)
{
    char found[32];
    size_t bad;
    if (text_valid(line, length, &bad))
        return true;
    snprintf(found, sizeof found, "byte 0x%02x", (unsigned)(unsigned char)line[bad]);
    return wrong(scan, offset_of(scan, bad), "UTF-8 text", found);
}

static void capitals(char *name)
{
    for (; *name; name++)
        if (*name >= 'a' && *name <= 'z')
            *name = (char)(*name - 'a' + 'A');
}

/* Cuts the line into its parts; a colon inside quotes belongs to a parameter. */
static void cut(char *line, struct ical_property *property)
{
    char *at = line + strcspn(line, ";:"), *value = at;
    bool quoted = false;
    property->name = line;
    property->parameters = property->value = "";
    for (; *value && (quoted || *value != ':'); value++)
        quoted ^= *value == '"';
    if (*at == ';' && value > at)
        property->parameters = at + 1;
    if (*value) {
        *value = '\0';
        property->value = value + 1;
    }
    *at = '\0';
    capitals(line);
}

static char *component_name(struct arena *arena, const struct ical_property *line)
{
    char *name = text_trimmed(arena, line->value);
    capitals(name);
    return name;
}

static bool begin(struct scan *scan, const struct ical_property *line)
{
    struct arena *arena = scan->reading->arena;
    char *name = component_name(arena, line);
    if (scan->depth == 0 && strcmp(name, "VCALENDAR") != 0)
        return wrong_line(scan, "BEGIN:VCALENDAR");
    if (scan->depth == DEEPEST)
        return wrong(scan, scan->at, "at most 8 levels of components", "one more");
    if (scan->depth == 1 && strcmp(name, "VEVENT") == 0 && ++scan->events > EVENTS_MOST)
        return wrong(scan, scan->at, "at most 20000 events", "one more");
    struct ical_component *component = ARENA_NEW(arena, struct ical_component);
    component->name = name;
    component->at = scan->at;
    const struct ical_component ***end = scan->depth ? &scan->open[scan->depth - 1].child : &scan->end;
    **end = component;
    *end = &component->next;
    scan->open[scan->depth++] = (struct open){component, &component->properties, &component->children};
    return true;
}

static bool end(struct scan *scan, const struct ical_property *line)
{
    struct arena *arena = scan->reading->arena;
    if (scan->depth == 0)
        return wrong_line(scan, "BEGIN:VCALENDAR");
    struct ical_component *component = scan->open[scan->depth - 1].component;
    if (strcmp(component_name(arena, line), component->name) != 0)
        return wrong_line(scan, arena_textf(arena, "END:%s", component->name));
    component->end = scan->next;
    scan->depth--;
    return true;
}

static bool take_line(struct scan *scan)
{
    size_t length;
    char *line = unfold(scan, &length);
    struct ical_property property = {.at = scan->at};
    if (length == 0)
        return true;
    if (++scan->lines > LINES_MOST)
        return wrong(scan, scan->at, "at most 500000 lines", "one more");
    if (!is_text(scan, line, length))
        return false;
    line += strspn(line, blanks);
    if (!*line)
        return true;
    cut(line, &property);
    if (strcmp(property.name, "BEGIN") == 0)
        return begin(scan, &property);
    if (strcmp(property.name, "END") == 0)
        return end(scan, &property);
    if (scan->depth == 0)
        return wrong_line(scan, "a calendar: BEGIN:VCALENDAR");
    struct ical_property *kept = ARENA_NEW(scan->reading->arena, struct ical_property);
    struct open *open = &scan->open[scan->depth - 1];
    *kept = property;
    *open->property = kept;
    open->property = &kept->next;
    return true;
}

const struct ical_component *ical_text_read(const struct reading *reading, const struct file_text *file)
{
    struct scan scan = {.reading = reading, .file = file, .end = &scan.calendars};
    const char *nul = memchr(file->text, '\0', file->length);
    if (file->length > CALENDAR_MOST) {
        (void)wrong(&scan, 0, "a calendar of at most 16 MiB", "a larger one");
        return NULL;
    }
    if (nul) {
        (void)wrong(&scan, (size_t)(nul - file->text), "UTF-8 text", "byte 0x00");
        return NULL;
    }
    if (file->length >= 3 && memcmp(file->text, "\xEF\xBB\xBF", 3) == 0)
        scan.at = 3;
    for (; scan.at < file->length; scan.at = scan.next)
        if (!take_line(&scan))
            return NULL;
    if (scan.depth > 0)
        (void)wrong(&scan, file->length,
                    arena_textf(reading->arena, "END:%s", scan.open[scan.depth - 1].component->name),
                    "the end of the file");
    else if (!scan.calendars)
        (void)wrong(&scan, file->length, "a calendar: BEGIN:VCALENDAR", "an empty file");
    return scan.depth > 0 ? NULL : scan.calendars;
}

const struct ical_property *ical_property_find(const struct ical_property *from, const char *name)
{
    while (from && strcmp(from->name, name) != 0)
        from = from->next;
    return from;
}

const char *ical_parameter(struct arena *arena, const struct ical_property *property, const char *name)
{
    const char *at = property->parameters;
    while (*at) {
        size_t length = strcspn(at, "=;:");
        const char *value = at + length + (at[length] == '=');
        bool quoted = *value == '"';
        value += quoted;
        size_t value_length = strcspn(value, quoted ? "\"" : ";,");
        if (at[length] == '=' && text_same_n(at, length, name))
            return arena_text_n(arena, value, value_length);
        at = value + value_length + (quoted && value[value_length] == '"');
        for (quoted = false; *at && (quoted || *at != ';'); at++)
            quoted ^= *at == '"';
        at += *at == ';';
    }
    return NULL;
}

bool ical_parameter_is(struct arena *arena, const struct ical_property *property, const char *name,
                       const char *word)
{
    const char *value = ical_parameter(arena, property, name);
    return value && text_same(value, word);
}

static bool is_fold(const char *at)
{
    return at[0] == '\r' && at[1] == '\n' && (at[2] == ' ' || at[2] == '\t');
}

static size_t octets_of(const char *at)
{
    size_t octets = 1;
    while (((unsigned char)at[octets] & 0xC0) == 0x80)
        octets++;
    return octets;
}

void ical_fold(const char *text, struct buf *out)
{
    size_t used = 0;
    for (const char *at = text; *at;) {
        if (is_fold(at)) {
            at += 3;
            continue;
        }
        size_t octets = octets_of(at);
        bool line_end = *at == '\r' || *at == '\n';
        if (!line_end && used + octets > OCTETS_MOST) {
            buf_add(out, "\r\n ");
            used = 1;
        }
        buf_add_n(out, at, octets);
        used = line_end ? 0 : used + octets;
        at += octets;
    }
}
