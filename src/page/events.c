/* Server-sent events: each open page hears which job has changed. */
#include "page/server.h"

#include <stdlib.h>
#include <string.h>

enum { LISTENERS_MOST = 200, PENDING_MOST = 4096, BLOCK = 1024 };

struct listener {
    struct server *server;
    struct MHD_Connection *connection;
    struct listener *next, *before;
    bool waits; /* its connection is suspended */
    size_t length;
    char pending[PENDING_MOST];
};

/* Gives what is pending; where there is nothing the connection waits. */
static ssize_t read_pending(void *with, uint64_t at, char *out, size_t most)
{
    struct listener *listener = with;
    struct server *server = listener->server;
    (void)at;
    (void)pthread_mutex_lock(&server->lock);
    size_t count = listener->length < most ? listener->length : most;
    memcpy(out, listener->pending, count);
    listener->length -= count;
    memmove(listener->pending, listener->pending + count, listener->length);
    bool ends = server->ends && count == 0;
    if (count == 0 && !ends) {
        listener->waits = true;
        MHD_suspend_connection(listener->connection);
    }
    (void)pthread_mutex_unlock(&server->lock);
    return ends ? MHD_CONTENT_READER_END_OF_STREAM : (ssize_t)count;
}

static void leave(void *with)
{
    struct listener *listener = with;
    struct server *server = listener->server;
    (void)pthread_mutex_lock(&server->lock);
    *(listener->before ? &listener->before->next : &server->listeners) = listener->next;
    if (listener->next)
        listener->next->before = listener->before;
    server->listener_count--;
    (void)pthread_mutex_unlock(&server->lock);
    free(listener);
}

static void put(struct listener *listener, const char *text)
{
    size_t length = strlen(text);
    if (length > PENDING_MOST - listener->length)
        return;
    memcpy(listener->pending + listener->length, text, length);
    listener->length += length;
}

static void let_go(struct listener *listener)
{
    if (!listener->waits)
        return;
    listener->waits = false;
    MHD_resume_connection(listener->connection);
}

bool events_listen(struct server *server, struct MHD_Connection *connection)
{
    static const struct page_answer head = {.status = 200, .type = "text/event-stream"};
    struct listener *listener = calloc(1, sizeof *listener);
    if (!listener)
        return false;
    listener->server = server;
    listener->connection = connection;
    put(listener, "retry: 2000\n\n");
    (void)pthread_mutex_lock(&server->lock);
    bool room = server->listener_count < LISTENERS_MOST && !server->ends;
    if (room) {
        listener->next = server->listeners;
        if (listener->next)
            listener->next->before = listener;
        server->listeners = listener;
        server->listener_count++;
    }
    (void)pthread_mutex_unlock(&server->lock);
    if (!room) {
        free(listener);
        return false;
    }
    struct MHD_Response *response =
        MHD_create_response_from_callback(MHD_SIZE_UNKNOWN, BLOCK, read_pending, listener, leave);
    if (!response) {
        leave(listener);
        return false;
    }
    answer_head(response, &head);
    bool queued = MHD_queue_response(connection, 200, response) == MHD_YES;
    MHD_destroy_response(response);
    return queued;
}

/* A page that does not read hears only, at the end, that anything may have changed. */
static void tell(struct listener *listener, const char *text)
{
    static const char everything[] = "event: changed\ndata: {\"file\": null}\n\n";
    if (strlen(text) + sizeof everything > PENDING_MOST - listener->length) {
        listener->length = 0;
        text = everything;
    }
    put(listener, text);
    let_go(listener);
}

void events_tell(struct server *server, const char *text)
{
    (void)pthread_mutex_lock(&server->lock);
    for (struct listener *listener = server->listeners; listener; listener = listener->next)
        tell(listener, text);
    (void)pthread_mutex_unlock(&server->lock);
}

void events_end(struct server *server)
{
    (void)pthread_mutex_lock(&server->lock);
    for (struct listener *listener = server->listeners; listener; listener = listener->next)
        let_go(listener);
    (void)pthread_mutex_unlock(&server->lock);
}
