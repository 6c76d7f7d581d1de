#include "format/ical_item.h"

#include "base/arena.h"
#include "base/text.h"

#include <inttypes.h>
#include <string.h>

enum { PREFIX_MOST = 80 };

void ical_init(struct ical *calendar, struct arena *arena, const struct zone *zone, int64_t now_min)
{
    *calendar = (struct ical){.arena = arena, .zone = zone, .now_min = now_min};
}

/* The text, or its beginning, no character cut apart, and its hash. */
static const char *shortened(struct arena *arena, const char *text, size_t most)
{
    size_t end = most - 17;
    if (strlen(text) <= most)
        return text;
    while (end > 0 && ((unsigned char)text[end] & 0xC0) == 0x80)
        end--;
    return arena_textf(arena, "%.*s-%016" PRIx64, (int)end, text, text_hash(TEXT_HASH, text));
}

const char *ical_prefix(struct arena *arena, const char *name, const char *key)
{
    const char *slug = shortened(arena, text_slug(arena, name), PREFIX_MOST);
    return key[0] ? arena_textf(arena, "%s-%s/", slug, key) : arena_textf(arena, "%s/", slug);
}

const char *ical_uid(struct arena *arena, const char *prefix, const char *id)
{
    static const char host[] = "@coatwright";
    return arena_textf(
        arena, "%s%s",
        shortened(arena, arena_textf(arena, "%s%s", prefix, id), ICAL_UID_MOST - sizeof host + 1), host);
}

void ical_own(struct ical *calendar, const char *prefix)
{
    calendar->ours = arena_grow(calendar->arena, calendar->ours, calendar->own_count, &calendar->own_capacity,
                                sizeof *calendar->ours);
    calendar->ours[calendar->own_count++] = prefix;
}

struct ical_item *ical_add(struct ical *calendar, const char *uid, const char *summary, const char *category)
{
    calendar->items = arena_grow(calendar->arena, calendar->items, calendar->count, &calendar->capacity,
                                 sizeof *calendar->items);
    struct ical_item *item = &calendar->items[calendar->count++];
    *item = (struct ical_item){.uid = uid,
                               .summary = summary,
                               .category = category,
                               .description = "",
                               .from_min = INT64_MAX,
                               .to_min = INT64_MAX};
    return item;
}

void ical_alarm(const struct ical *calendar, struct ical_item *item, int64_t minute, const char *words)
{
    item->alarms = arena_grow(calendar->arena, item->alarms, item->alarm_count, &item->alarm_capacity,
                              sizeof *item->alarms);
    item->alarms[item->alarm_count++] = (struct ical_alarm){minute, words};
}

void ical_after(const struct ical *calendar, struct ical_item *item, const char *uid)
{
    item->after = arena_grow(calendar->arena, item->after, item->after_count, &item->after_capacity,
                             sizeof *item->after);
    item->after[item->after_count++] = uid;
}
