#include "publish/publish.h"

#include "base/arena.h"
#include "base/text.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

enum { NAME_MOST = 120, FACES_LONGEST = 500 };

/* One run. */
struct run {
    const struct server *server;
    struct arena *arena;
    const char *collection;
    bool dry;
    struct publish_state *state;
    struct dav_list there; /* as the server lists it at the beginning */
    struct publish_outcome *outcome;
    size_t deed_capacity;
    struct err *err;
};

/* Tells whether a text is as it was, not who made it. */
static const char *hash_of(struct arena *arena, const char *text)
{
    return arena_textf(arena, "%016" PRIx64, text_hash(TEXT_HASH, text));
}

/* A resource's name from its UID: letters, digits, `-` and `.` stay, all else and what is long goes into a number. */
static const char *href_of(struct run *run, const char *uid)
{
    char name[NAME_MOST + 1];
    size_t length = 0;
    bool plain = strlen(uid) <= NAME_MOST;
    for (const char *at = uid; *at && length < NAME_MOST; at++) {
        bool kept = (*at >= 'a' && *at <= 'z') || (*at >= '0' && *at <= '9') || *at == '-' || *at == '.';
        plain = plain && kept;
        name[length++] = kept ? *at : '-';
    }
    name[length] = '\0';
    return plain ? arena_textf(run->arena, "%s%s.ics", run->collection, name)
                 : arena_textf(run->arena, "%s%.60s-%016" PRIx64 ".ics", run->collection, name,
                               text_hash(TEXT_HASH, uid));
}

static void note(struct run *run, enum publish_act act, const char *uid, const char *href)
{
    struct publish_outcome *outcome = run->outcome;
    outcome->deeds =
        arena_grow(run->arena, outcome->deeds, outcome->count, &run->deed_capacity, sizeof *outcome->deeds);
    outcome->deeds[outcome->count++] = (struct publish_deed){act, uid, href};
}

static struct publish_mark *mark_of(const struct publish_state *state, const char *uid)
{
    for (size_t i = 0; i < state->count; i++)
        if (strcmp(state->marks[i].uid, uid) == 0)
            return &state->marks[i];
    return NULL;
}

/* `text`: as we put it; NULL: it stands as an earlier run put it. */
static void set_mark(struct run *run, const char *uid, const char *href, const char *etag, const char *text)
{
    struct publish_state *state = run->state;
    struct publish_mark *mark = mark_of(state, uid);
    if (!mark) {
        state->marks =
            arena_grow(run->arena, state->marks, state->count, &state->capacity, sizeof *state->marks);
        mark = &state->marks[state->count++];
    }
    *mark = (struct publish_mark){uid, href, etag ? etag : "", text ? hash_of(run->arena, text) : "",
                                  text ? publish_face(run->arena, text) : ""};
}

static void drop_mark(struct publish_state *state, const char *uid)
{
    struct publish_mark *mark = mark_of(state, uid);
    if (mark)
        *mark = state->marks[--state->count];
}

static bool exchange(struct run *run, struct http_request request, struct http_answer *answer)
{
    return server_exchange(run->server, &request, answer, run->err);
}

static bool done(long status)
{
    return status == 200 || status == 201 || status == 204;
}

static bool read_again(struct run *run, const char *href, struct http_answer *answer)
{
    return exchange(run, (struct http_request){.method = "GET", .url = href}, answer);
}

/* ETag and marks after a PUT; a server that changes what it stores gives no ETag (RFC 4791, 5.3.4), so it is asked for. */
static bool keep(struct run *run, const struct publish_item *item, const char *href, const char *etag)
{
    struct http_answer answer = {.etag = etag};
    if (!etag && !read_again(run, href, &answer))
        return false;
    set_mark(run, item->uid, href, answer.etag, item->text);
    return true;
}

static bool is_gone(const struct http_answer *answer)
{
    return answer->status == STATUS_MISSING || answer->status == STATUS_GONE;
}

/* Whether a text on the server holds this UID, so that it was put by a run whose state was lost. */
static bool holds_uid(struct run *run, const char *text, const char *uid)
{
    return strstr(text, arena_textf(run->arena, "UID:%s\r\n", uid)) ||
           strstr(text, arena_textf(run->arena, "UID:%s\n", uid));
}

static bool put(struct run *run, const struct publish_item *item, const char *href, const char *etag,
                enum publish_act act);

/* Whether it came through already, though the answer to it was lost; then it is marked. */
static bool take_up(struct run *run, const struct publish_item *item, const char *href,
                    const struct http_answer *there, enum publish_act act)
{
    if (!done(there->status) || !there->etag ||
        strcmp(publish_face(run->arena, item->text), publish_face(run->arena, there->body)) != 0)
        return false;
    if (!run->dry)
        set_mark(run, item->uid, href, there->etag, item->text);
    note(run, act, item->uid, href);
    return true;
}

/* Something stands where ours is to go, or ours no longer as it was listed. What we put there ourselves, its answer or our state
 * lost, is taken up, what was deleted meanwhile put again; all else is left. */
static bool meet(struct run *run, const struct publish_item *item, const char *href, enum publish_act act)
{
    struct http_answer answer;
    if (!read_again(run, href, &answer))
        return false;
    if (take_up(run, item, href, &answer, act))
        return true;
    if (act == PUBLISH_CHANGED && is_gone(&answer))
        return put(run, item, href, NULL, PUBLISH_AGAIN);
    bool ours =
        done(answer.status) && holds_uid(run, answer.body, item->uid) && !mark_of(run->state, item->uid);
    if (ours && answer.etag) {
        set_mark(run, item->uid, href, answer.etag, NULL);
        return put(run, item, href, answer.etag, PUBLISH_CHANGED);
    }
    note(run, PUBLISH_LEFT, item->uid, href);
    return true;
}

static bool put(struct run *run, const struct publish_item *item, const char *href, const char *etag,
                enum publish_act act)
{
    struct http_answer answer;
    struct http_request request = {.method = "PUT",
                                   .url = href,
                                   .type = "text/calendar; charset=utf-8",
                                   .body = item->text,
                                   .match = etag,
                                   .no_match = etag ? NULL : "*"};
    if (run->dry) {
        note(run, act, item->uid, href);
        return true;
    }
    if (!exchange(run, request, &answer))
        return false;
    if (answer.status == STATUS_CHANGED)
        return meet(run, item, href, act);
    if (!done(answer.status))
        return server_refused(run->arena, "a place for an event", &answer, run->err);
    note(run, act, item->uid, href);
    return keep(run, item, href, answer.etag);
}

/* The ETag that the server lists for a URL; NULL: it lists no such resource. */
static const char *listed(const struct run *run, const char *href)
{
    for (size_t i = 0; i < run->there.count; i++)
        if (strcmp(url_resolve(run->arena, run->collection, run->there.items[i].href), href) == 0)
            return run->there.items[i].etag;
    return NULL;
}

/* Whether what stands there is ours, though its ETag is not the one that we were told. */
static bool is_ours(struct run *run, const struct publish_mark *mark, const struct http_answer *there)
{
    return done(there->status) && there->etag && strstr(mark->faces, publish_face(run->arena, there->body));
}

/* Ours does not have the ETag with which it was left: by a run that was cut short, or by somebody else, who may have deleted it since. */
static bool look(struct run *run, const struct publish_item *item, const struct publish_mark *mark)
{
    struct http_answer answer;
    const char *href = mark->href;
    if (!read_again(run, href, &answer))
        return false;
    if (take_up(run, item, href, &answer, PUBLISH_SAME))
        return true;
    if (is_gone(&answer))
        return put(run, item, href, NULL, PUBLISH_AGAIN);
    if (is_ours(run, mark, &answer))
        return put(run, item, href, answer.etag, PUBLISH_CHANGED);
    note(run, PUBLISH_LEFT, item->uid, href);
    return true;
}

static bool bring(struct run *run, const struct publish_item *item)
{
    const struct publish_mark *mark = mark_of(run->state, item->uid);
    const char *href = mark ? mark->href : href_of(run, item->uid);
    const char *etag = listed(run, href);
    if (!mark)
        return put(run, item, href, NULL, PUBLISH_PUT);
    if (!etag)
        return put(run, item, href, NULL, PUBLISH_AGAIN);
    bool as_left = strcmp(etag, mark->etag) == 0,
         same = strcmp(mark->hash, hash_of(run->arena, item->text)) == 0;
    if (!as_left)
        return look(run, item, mark);
    if (!same)
        return put(run, item, href, mark->etag, PUBLISH_CHANGED);
    note(run, PUBLISH_SAME, item->uid, href);
    return true;
}

static bool wanted(const struct publish_items *items, const char *uid)
{
    for (size_t i = 0; i < items->count; i++)
        if (strcmp(items->items[i].uid, uid) == 0)
            return true;
    return false;
}

static bool delete (struct run *run, struct publish_mark mark)
{
    struct http_answer answer = {.status = 204};
    const char *etag = listed(run, mark.href);
    if (etag && strcmp(etag, mark.etag) != 0) {
        if (!read_again(run, mark.href, &answer))
            return false;
        if (!is_ours(run, &mark, &answer)) {
            note(run, PUBLISH_LEFT, mark.uid, mark.href);
            return true;
        }
        mark.etag = answer.etag;
    }
    struct http_request request = {
        .method = "DELETE", .url = mark.href, .match = mark.etag[0] ? mark.etag : NULL};
    if (!run->dry && etag && !exchange(run, request, &answer))
        return false;
    bool gone = done(answer.status) || is_gone(&answer);
    if (!gone && answer.status != STATUS_CHANGED)
        return server_refused(run->arena, "an event taken off the calendar", &answer, run->err);
    note(run, gone ? PUBLISH_DELETED : PUBLISH_LEFT, mark.uid, mark.href);
    if (gone && !run->dry)
        drop_mark(run->state, mark.uid);
    return true;
}

static bool bring_all(struct run *run, const struct publish_items *items)
{
    for (size_t i = 0; i < items->count; i++)
        if (!bring(run, &items->items[i]))
            return false;
    return true;
}

static bool delete_rest(struct run *run, const struct publish_items *items)
{
    for (size_t i = run->state->count; i-- > 0;)
        if (!wanted(items, run->state->marks[i].uid) && !delete (run, run->state->marks[i]))
            return false;
    return true;
}

/* A face that is among them already is not added; the oldest of very many are forgotten. */
static bool add_face(struct arena *arena, struct publish_mark *mark, const char *text)
{
    const char *face = publish_face(arena, text);
    if (strstr(mark->faces, face))
        return false;
    size_t over = strlen(mark->faces) > FACES_LONGEST ? strcspn(mark->faces, " ") + 1 : 0;
    mark->faces = arena_textf(arena, "%s%s%s", mark->faces + over, mark->faces[0] ? " " : "", face);
    return true;
}

bool publish_intend(struct arena *arena, const struct publish_want *want, struct publish_state *state)
{
    bool news = false;
    if (strcmp(state->collection, want->collection) != 0)
        return false;
    for (size_t i = 0; i < want->items->count; i++) {
        const struct publish_item *item = &want->items->items[i];
        struct publish_mark *mark = mark_of(state, item->uid);
        if (mark && strcmp(mark->hash, hash_of(arena, item->text)) != 0)
            news |= add_face(arena, mark, item->text);
    }
    return news;
}

bool publish(const struct server *server, const struct publish_want *want, struct publish_state *state,
             struct publish_outcome *outcome, struct err *err)
{
    struct run run = {.server = server,
                      .arena = server->arena,
                      .collection = want->collection,
                      .dry = want->dry,
                      .state = state,
                      .outcome = outcome,
                      .err = err};
    *outcome = (struct publish_outcome){.collection = want->collection};
    if (!collection_list(server, want->collection, &run.there, err))
        return false;
    if (strcmp(state->collection, want->collection) != 0)
        *state = (struct publish_state){.collection = want->collection};
    return bring_all(&run, want->items) && delete_rest(&run, want->items);
}
