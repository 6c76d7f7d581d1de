/* Whatever a calendar server answers, finding, listing and fetching a calendar end, with a failure that says something or with texts
 * that came from the answers; and nothing is ever asked of another server than the one that was named. The answers stand in the
 * input one after the other, each a status and a length before its text; a status of 3xx leads to where the text says. This file's
 * http_exchange takes the place of the one that opens connections. */
#include "base/arena.h"
#include "publish/fetch.h"
#include "publish/publish.h"

#include <assert.h>
#include <string.h>

enum { REQUESTS_MOST = 64, LENGTH_BYTES = 2, HEAD_BYTES = LENGTH_BYTES + 1 };

static const char named[] = "https://calendar.example:8443/ann/diary/";
static const int statuses[] = {207, 200, 201, 204, 301, 302, 401, 403, 404, 405, 412, 500, 501, 507, 0, 207};

/* What is left of the input; the access that the target gave carries it. */
struct answers {
    const uint8_t *at;
    size_t left;
    size_t requests;
};

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

bool http_exchange(struct arena *arena, const struct http_access *access, const struct http_request *request,
                   struct http_answer *answer, struct err *err)
{
    struct answers *answers = (struct answers *)(void *)access->user;
    assert(url_same_server(named, request->url));
    assert(++answers->requests <= REQUESTS_MOST);
    if (answers->left < HEAD_BYTES)
        return err_say_found(err, "an answer", "none");
    int status = statuses[answers->at[0] % (sizeof statuses / sizeof statuses[0])];
    size_t length = answers->at[1] | (size_t)answers->at[2] << 8;
    answers->at += HEAD_BYTES;
    answers->left -= HEAD_BYTES;
    length = length < answers->left ? length : answers->left;
    const char *text = arena_text_n(arena, (const char *)answers->at, length);
    answers->at += length;
    answers->left -= length;
    if (status == 0)
        return err_say_found(err, "an answer", "none");
    *answer = (struct http_answer){.status = status,
                                   .body = text,
                                   .length = strlen(text),
                                   .location = status / 100 == 3 ? text : NULL,
                                   .etag = status == 201 ? "\"e\"" : NULL};
    return true;
}

static bool said(const struct err *err)
{
    return err->expected[0] && err->found[0];
}

/* Every text is one that a server gave, whole. */
static void try_fetch(const struct server *server)
{
    struct fetch_span span = {30000000, 31000000};
    struct fetched fetched;
    struct err err = {.code = ERR_NONE};
    if (!fetch_calendar(server, &span, &fetched, &err)) {
        assert(said(&err));
        return;
    }
    for (size_t i = 0; i < fetched.count; i++)
        assert(fetched.items[i].name && strlen(fetched.items[i].text) == fetched.items[i].length);
}

/* What was done is a deed for each item at most, and every mark is of an item that was put. */
static void try_publish(const struct server *server)
{
    static struct publish_item items[] = {{"a@x", "BEGIN:VCALENDAR\r\nUID:a@x\r\n"},
                                          {"b@x", "BEGIN:VCALENDAR\r\nUID:b@x\r\n"}};
    struct publish_items all = {items, 2};
    struct publish_mark mark = {"c@x", "https://calendar.example:8443/ann/diary/c.ics", "\"1\"", "0",
                                publish_face(server->arena, "BEGIN:VCALENDAR\r\nUID:c@x\r\n")};
    struct publish_mark *marks = ARENA_ARRAY(server->arena, 1, struct publish_mark);
    struct publish_state state = {"https://calendar.example:8443/ann/diary/", marks, 1, 1};
    struct publish_outcome outcome = {0};
    struct err err = {.code = ERR_NONE};
    marks[0] = mark;
    const char *collection = collection_find(server, named, true, &err);
    if (!collection) {
        assert(said(&err));
        return;
    }
    assert(url_same_server(named, collection));
    struct publish_want want = {collection, &all, false};
    (void)publish_intend(server->arena, &want, &state);
    if (!publish(server, &want, &state, &outcome, &err))
        assert(said(&err));
    assert(outcome.count <= 3 && state.count <= 3);
    for (size_t i = 0; i < state.count; i++)
        assert(url_same_server(named, state.marks[i].href));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = arena_make(0);
    struct answers answers = {data, size, 0};
    assert(arena);
    struct server server = {arena, {(const char *)(void *)&answers, NULL, NULL}, named};
    try_fetch(&server);
    answers = (struct answers){data, size, 0};
    try_publish(&server);
    arena_free(arena);
    return 0;
}
