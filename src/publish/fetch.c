#include "publish/fetch.h"

#include "base/arena.h"
#include "format/ical_value.h"

#include <string.h>

static const char a_calendar[] = "a calendar at this address";

/* A report asked for, up to the time that matters and behind it. */
struct query {
    const char *before, *after;
};

#define REPORT_OF(name)                                                                                      \
    "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<c:" name                                                   \
    " xmlns=\"DAV:\" xmlns:c=\"urn:ietf:params:xml:ns:caldav\">"

/* RFC 4791, section 7.8.1: the events that meet a time, whole, with their rules. */
static const struct query events = {
    REPORT_OF("calendar-query") "<prop><c:calendar-data/></prop><c:filter><c:comp-filter name=\"VCALENDAR\">"
                                "<c:comp-filter name=\"VEVENT\">",
    "</c:comp-filter></c:comp-filter></c:filter></c:calendar-query>\n"};

/* Section 7.10. */
static const struct query free_busy = {REPORT_OF("free-busy-query"), "</c:free-busy-query>\n"};

struct fetch {
    const struct server *server;
    const struct fetch_span *span;
    struct fetched *fetched;
    size_t capacity;
    struct err *err;
};

static void add(struct fetch *fetch, const char *name, const char *text, size_t length)
{
    struct fetched *fetched = fetch->fetched;
    fetched->items = arena_grow(fetch->server->arena, fetched->items, fetched->count, &fetch->capacity,
                                sizeof *fetched->items);
    fetched->items[fetched->count++] = (struct file_text){.name = name, .text = text, .length = length};
}

static bool refused(struct fetch *fetch, const struct http_answer *answer)
{
    return server_refused(fetch->server->arena, a_calendar, answer, fetch->err);
}

static bool get_file(struct fetch *fetch, const char *url)
{
    struct http_answer answer = {0};
    if (!server_follow(fetch->server, &(struct http_request){.method = "GET"}, &url, &answer, fetch->err))
        return false;
    if (answer.status != STATUS_OK)
        return refused(fetch, &answer);
    add(fetch, url, answer.body, answer.length);
    return true;
}

static bool report(struct fetch *fetch, const char *url, const struct query *query,
                   struct http_answer *answer)
{
    struct http_request request = {
        .method = "REPORT",
        .url = url,
        .type = "application/xml; charset=utf-8",
        .depth = "1",
        .body = arena_textf(fetch->server->arena, "%s<c:time-range start=\"%s\" end=\"%s\"/>%s",
                            query->before, ical_utc(fetch->span->from_min).text,
                            ical_utc(fetch->span->to_min).text, query->after),
    };
    return server_exchange(fetch->server, &request, answer, fetch->err);
}

/* Every event must have come: a server that gives no more than so many says so in the entry of the collection itself (RFC 5323,
 * section 5.17; RFC 4791, section 7.8), and an event that it cannot read has a status or no text. */
static bool take_events(struct fetch *fetch, const char *collection, const struct dav_list *list)
{
    for (size_t i = 0; i < list->count; i++) {
        const struct dav_entry *entry = &list->items[i];
        const char *href = url_resolve(fetch->server->arena, collection, entry->href);
        if (entry->status == STATUS_MISSING || entry->status == STATUS_GONE)
            continue;
        if (entry->status >= 300)
            return server_refused(fetch->server->arena, "all events of the calendar",
                                  &(struct http_answer){.status = entry->status}, fetch->err);
        if (!entry->data[0])
            return err_say_found(fetch->err, "all events of the calendar",
                                 arena_textf(fetch->server->arena, "nothing in %s", href));
        add(fetch, href, entry->data, strlen(entry->data));
    }
    return true;
}

/* Whether a server that gave this status may still do something else. */
static bool does_other(long status)
{
    return (status >= 400 && status < STATUS_FAILED && status != STATUS_PASSWORD) ||
           status == STATUS_NOT_KNOWN;
}

/* *other: it tells no free and busy times either, or none at this address. */
static bool ask_free_busy(struct fetch *fetch, const char *url, bool *other)
{
    struct http_answer answer;
    *other = false;
    if (!report(fetch, url, &free_busy, &answer))
        return false;
    *other = does_other(answer.status);
    if (answer.status != STATUS_OK)
        return refused(fetch, &answer);
    add(fetch, url, answer.body, answer.length);
    return true;
}

static bool ask_events(struct fetch *fetch, const char *collection)
{
    struct http_answer answer;
    struct dav_list list;
    bool other;
    if (!report(fetch, collection, &events, &answer))
        return false;
    if (does_other(answer.status))
        return ask_free_busy(fetch, collection, &other);
    if (answer.status != STATUS_MULTI)
        return refused(fetch, &answer);
    return multistatus_read(fetch->server->arena, answer.body, answer.length, &list, fetch->err) &&
           take_events(fetch, collection, &list);
}

static bool is_file(struct arena *arena, const char *address)
{
    return path_ends(arena_text_n(arena, address, strcspn(address, "?#")), ".ics");
}

bool fetch_calendar(const struct server *server, const struct fetch_span *span, struct fetched *fetched,
                    struct err *err)
{
    struct fetch fetch = {.server = server, .span = span, .fetched = fetched, .err = err};
    const char *url = server->named;
    struct dav_look seen;
    bool other = true;
    *fetched = (struct fetched){0};
    if (is_file(server->arena, url))
        return get_file(&fetch, url);
    if (!server_look(server, &url, &seen, err))
        return false;
    if (seen.status == STATUS_MULTI) {
        const char *collection = collection_find(server, server->named, false, err);
        return collection && ask_events(&fetch, collection);
    }
    if (!does_other(seen.status) && seen.status != STATUS_OK)
        return refused(&fetch, &(struct http_answer){.status = seen.status});
    /* Whoever may see no more than when somebody is free may not look at the calendar itself (RFC 4791, section 6.1.1). */
    if (seen.status == STATUS_FORBIDDEN && ask_free_busy(&fetch, url, &other))
        return true;
    return other && get_file(&fetch, server->named);
}
