/* One request on its connection, from its first line to the end of its answer. */
#include "page/server.h"

#include "base/arena.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    ARENA_MOST = 768 << 20,
    HELD_MOST = 128 << 20, /* bytes of all bodies together */
    BODY_FIRST = 16 << 10,
    TARGET_MOST = 4096
};

enum visit_state { VISIT_NEW, VISIT_COMING, VISIT_ASKED, VISIT_ANSWERED };

struct visit {
    struct server *server;
    struct MHD_Connection *connection;
    struct visit *next;
    enum visit_state state;
    struct arena *arena; /* the response's, once there is one */
    char *target, *body;
    size_t length, room; /* of the body; `length` counts also what was not kept */
    bool full;           /* all clients together send more than can be held */
    struct page_request request;
    struct page_answer answer;
};

void *visit_begin(void *with, const char *target, struct MHD_Connection *connection)
{
    struct visit *visit = calloc(1, sizeof *visit);
    if (!visit)
        return NULL;
    visit->server = with;
    visit->connection = connection;
    visit->target = strdup(strlen(target) < TARGET_MOST ? target : "too long");
    return visit;
}

void visit_end(void *with, struct MHD_Connection *connection, void **held,
               enum MHD_RequestTerminationCode how)
{
    struct visit *visit = *held;
    (void)connection;
    (void)how;
    if (!visit)
        return;
    ((struct server *)with)->held -= visit->room;
    arena_free(visit->arena);
    free(visit->target);
    free(visit->body);
    free(visit);
    *held = NULL;
}

/* ---- In. */

static const char *head_of(struct MHD_Connection *connection, const char *name)
{
    return MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
}

static void read_head(struct visit *visit, const char *method)
{
    struct MHD_Connection *connection = visit->connection;
    const char *length = head_of(connection, "Content-Length");
    visit->request = (struct page_request){.method = method,
                                           .target = visit->target,
                                           .host = head_of(connection, "Host"),
                                           .origin = head_of(connection, "Origin"),
                                           .content_type = head_of(connection, "Content-Type"),
                                           .authorization = head_of(connection, "Authorization"),
                                           .cookie = head_of(connection, "Cookie"),
                                           .known = head_of(connection, "If-None-Match")};
    visit->state = VISIT_COMING;
    if (length && strtoull(length, NULL, 10) > PAGE_BODY_MOST)
        visit->length = (size_t)PAGE_BODY_MOST + 1;
}

static bool grow(struct visit *visit, size_t needed)
{
    size_t room = visit->room ? visit->room : BODY_FIRST;
    while (room < needed)
        room *= 2;
    if (room == visit->room)
        return true;
    char *body = visit->server->held + room - visit->room <= HELD_MOST ? realloc(visit->body, room) : NULL;
    if (!body)
        return false;
    visit->server->held += room - visit->room;
    visit->room = room;
    visit->body = body;
    return true;
}

/* What is too much is counted, not kept; who goes on and on is let go. */
static enum MHD_Result take_body(struct visit *visit, const char *data, size_t length)
{
    bool fits = visit->length <= PAGE_BODY_MOST && length <= PAGE_BODY_MOST - visit->length && !visit->full;
    if (fits && !grow(visit, visit->length + length))
        visit->full = true;
    if (fits && !visit->full)
        memcpy(visit->body + visit->length, data, length);
    visit->length += length;
    return visit->length <= 2 * (size_t)PAGE_BODY_MOST ? MHD_YES : MHD_NO;
}

/* ---- The answer. */

static void refuse(struct visit *visit, int status, const char *body)
{
    visit->answer = (struct page_answer){
        .status = status, .type = "application/json", .body = body, .length = strlen(body)};
}

static void give_answer(struct visit *visit)
{
    visit->request.body = visit->body;
    visit->request.length = visit->length;
    visit->arena = arena_make(ARENA_MOST);
    if (visit->full || !visit->arena || !visit->target)
        refuse(visit, 503, "{\"error\": \"the page is busy: try again in a moment\"}");
    else
        page_answer(visit->server->page, visit->arena, &visit->request, &visit->answer);
}

void *visit_work(void *with)
{
    struct server *server = with;
    for (;;) {
        (void)pthread_mutex_lock(&server->lock);
        while (!server->first && !server->ends)
            (void)pthread_cond_wait(&server->wake, &server->lock);
        struct visit *visit = server->first;
        if (visit) {
            server->first = visit->next;
            server->waiting--;
        }
        (void)pthread_mutex_unlock(&server->lock);
        if (!visit)
            return NULL;
        give_answer(visit);
        visit->state = VISIT_ANSWERED;
        MHD_resume_connection(visit->connection);
    }
}

/* False: too many wait already, or the server ends. */
static bool enqueue(struct server *server, struct visit *visit)
{
    (void)pthread_mutex_lock(&server->lock);
    bool taken = server->waiting < WAITING_MOST && !server->ends;
    if (taken) {
        visit->state = VISIT_ASKED;
        MHD_suspend_connection(visit->connection);
        *(server->first ? &server->last->next : &server->first) = visit;
        server->last = visit;
        server->waiting++;
        (void)pthread_cond_signal(&server->wake);
    }
    (void)pthread_mutex_unlock(&server->lock);
    return taken;
}

static void add_head(struct MHD_Response *response, const char *name, const char *value)
{
    if (value)
        (void)MHD_add_response_header(response, name, value);
}

void answer_head(struct MHD_Response *response, const struct page_answer *answer)
{
    char policy[512], disposition[320];
    (void)snprintf(policy, sizeof policy,
                   "default-src 'none'; script-src 'self'; style-src 'self'%s%s; img-src 'self'; "
                   "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
                   answer->style ? " " : "", answer->style ? answer->style : "");
    add_head(response, "Content-Security-Policy", policy);
    add_head(response, "Content-Type", answer->type);
    add_head(response, "X-Content-Type-Options", "nosniff");
    add_head(response, "Referrer-Policy", "no-referrer");
    add_head(response, "Cross-Origin-Resource-Policy", "same-origin");
    add_head(response, "Cache-Control", answer->tag ? "no-cache" : "no-store");
    add_head(response, "ETag", answer->tag);
    add_head(response, "Location", answer->location);
    add_head(response, "Set-Cookie", answer->cookie);
    if (answer->file_name) {
        (void)snprintf(disposition, sizeof disposition, "attachment; filename=\"%s\"", answer->file_name);
        add_head(response, "Content-Disposition", disposition);
    }
}

static void free_arena(void *arena)
{
    arena_free(arena);
}

/* The library takes what it only reads as if it wrote. */
static void *writable(const char *body)
{
    union {
        const char *read;
        void *written;
    } text = {.read = body ? body : ""};
    return text.written;
}

static enum MHD_Result send_answer(struct visit *visit)
{
    const struct page_answer *answer = &visit->answer;
    if (answer->events && answer->status == 200) {
        if (events_listen(visit->server, visit->connection))
            return MHD_YES;
        refuse(visit, 503, "{\"error\": \"too many pages are open\"}");
    }
    struct MHD_Response *response = MHD_create_response_from_buffer_with_free_callback_cls(
        answer->length, writable(answer->body), free_arena, visit->arena);
    if (!response)
        return MHD_NO;
    visit->arena = NULL;
    answer_head(response, answer);
    enum MHD_Result result = MHD_queue_response(visit->connection, (unsigned)answer->status, response);
    MHD_destroy_response(response);
    return result;
}

/* NOLINTNEXTLINE(readability-function-size): the parameters are those of the daemon. */
enum MHD_Result visit_handle(void *with, struct MHD_Connection *connection, const char *url,
                             const char *method, const char *version, const char *data, size_t *length,
                             void **held)
{
    struct visit *visit = *held;
    (void)url;
    (void)version;
    (void)connection;
    if (!visit)
        return MHD_NO;
    if (visit->state == VISIT_NEW) {
        read_head(visit, method);
        if (visit->length <= PAGE_BODY_MOST)
            return MHD_YES;
        refuse(visit, 413, "{\"error\": \"what is sent is larger than 8 MB\"}");
        return send_answer(visit);
    }
    if (*length > 0) {
        enum MHD_Result result = take_body(visit, data, *length);
        *length = 0;
        return result;
    }
    if (visit->state == VISIT_COMING && enqueue(with, visit))
        return MHD_YES;
    if (visit->state == VISIT_COMING)
        refuse(visit, 503, "{\"error\": \"the page is busy: try again in a moment\"}");
    return send_answer(visit);
}
