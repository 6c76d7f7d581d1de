#include "publish/publish.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"

#include <inttypes.h>
#include <string.h>

/* A run of whole lines. */
struct block {
    const char *text;
    size_t length;
};

struct calendar {
    struct block head; /* all before the first component */
    struct block *zones;
    size_t zone_count, zone_capacity;
};

static size_t line_length(const char *text)
{
    const char *end = strchr(text, '\n');
    return end ? (size_t)(end - text) + 1 : strlen(text);
}

static bool begins(const char *line, const char *word)
{
    return strncmp(line, word, strlen(word)) == 0;
}

/* A component from its BEGIN line to the END of the same name. */
static struct block component_at(const char *begin)
{
    size_t name = line_length(begin) - strlen("BEGIN:"), length = 0;
    const char *line = begin;
    while (*line) {
        size_t size = line_length(line);
        length += size;
        bool ends = begins(line, "END:") && size == name + strlen("END:") &&
                    strncmp(line + strlen("END:"), begin + strlen("BEGIN:"), name) == 0;
        if (ends)
            break;
        line += size;
    }
    return (struct block){begin, length};
}

/* The value of a property, its folds taken out; "" where there is none. */
static const char *value_of(struct arena *arena, struct block block, const char *property)
{
    struct buf value;
    buf_init(&value, arena);
    const char *end = block.text + block.length;
    for (const char *line = block.text; line < end; line += line_length(line)) {
        if (!begins(line, property))
            continue;
        const char *part = line + strlen(property);
        do {
            size_t length = line_length(part);
            buf_add_n(&value, part, length >= 2 ? length - 2 : 0);
            part += length;
        } while (part < end && *part++ == ' ');
        break;
    }
    return value.text;
}

/* Its lines, their folds and carriage returns taken out. */
static const char *unfolded(struct arena *arena, struct block block)
{
    struct buf plain;
    buf_init(&plain, arena);
    for (size_t i = 0; i < block.length; i++) {
        char c = block.text[i];
        if (c == '\n' && i + 1 < block.length && block.text[i + 1] == ' ')
            i++;
        else if (c != '\r')
            buf_add_char(&plain, c);
    }
    return plain.text;
}

/* Whether a component names a zone; its name may be folded anywhere, so the folds are taken out first. */
static bool names_zone(struct arena *arena, struct block block, const char *zone)
{
    return strstr(unfolded(arena, block), arena_textf(arena, "TZID=%s:", zone)) != NULL;
}

static void add(struct arena *arena, const struct calendar *calendar, struct block block,
                struct publish_items *items, size_t *capacity)
{
    struct buf text;
    buf_init(&text, arena);
    buf_add_n(&text, calendar->head.text, calendar->head.length);
    for (size_t i = 0; i < calendar->zone_count; i++)
        if (names_zone(arena, block, value_of(arena, calendar->zones[i], "TZID:")))
            buf_add_n(&text, calendar->zones[i].text, calendar->zones[i].length);
    buf_add_n(&text, block.text, block.length);
    buf_add(&text, "END:VCALENDAR\r\n");
    items->items = arena_grow(arena, items->items, items->count, capacity, sizeof *items->items);
    items->items[items->count++] = (struct publish_item){value_of(arena, block, "UID:"), text.text};
}

void publish_items_split(struct arena *arena, const char *text, struct publish_items *items)
{
    struct calendar calendar = {0};
    size_t capacity = 0;
    *items = (struct publish_items){0};
    const char *at = text + line_length(text);
    while (*at && !begins(at, "BEGIN:") && !begins(at, "END:"))
        at += line_length(at);
    calendar.head = (struct block){text, (size_t)(at - text)};
    while (begins(at, "BEGIN:")) {
        struct block block = component_at(at);
        if (begins(at, "BEGIN:VTIMEZONE")) {
            calendar.zones = arena_grow(arena, calendar.zones, calendar.zone_count, &calendar.zone_capacity,
                                        sizeof *calendar.zones);
            calendar.zones[calendar.zone_count++] = block;
        } else {
            add(arena, &calendar, block, items, &capacity);
        }
        at += block.length;
    }
}

/* The first component of a calendar that is no time zone; an empty one where there is none. */
static struct block main_component(const char *calendar)
{
    const char *at = calendar + line_length(calendar);
    while (*at && (!begins(at, "BEGIN:") || begins(at, "BEGIN:VTIMEZONE")))
        at += begins(at, "BEGIN:") ? component_at(at).length : line_length(at);
    return *at ? component_at(at) : (struct block){at, 0};
}

/* The moment of writing, and what servers write in another form: 90 minutes as 1 h 30 min. */
static bool may_differ(const char *line)
{
    return begins(line, "DTSTAMP:") || begins(line, "LAST-MODIFIED:") || begins(line, "TRIGGER:");
}

const char *publish_face(struct arena *arena, const char *text)
{
    uint64_t face = 0;
    for (const char *line = unfolded(arena, main_component(text)); *line; line += line_length(line)) {
        size_t told = may_differ(line) ? strcspn(line, ":") : line_length(line);
        face += text_hash(TEXT_HASH, arena_text_n(arena, line, told));
    }
    return arena_textf(arena, "%016" PRIx64, face);
}
