/* Connections, and the threads that answer what comes over them. Inside this room.
 *
 * One thread of libmicrohttpd moves bytes and never waits; a request that is complete is taken off it and answered by one of a few
 * workers, so that neither a slow client nor a long search keeps others waiting. */
#ifndef PAGE_SERVER_H
#define PAGE_SERVER_H

#include "page/page.h"

#include <microhttpd.h>
#include <pthread.h>

enum { WORKERS_MOST = 4, WAITING_MOST = 256 };

struct visit;
struct listener;

struct server {
    struct page *page;
    struct MHD_Daemon *daemon;
    pthread_mutex_t lock; /* of what follows */
    pthread_cond_t wake;
    struct visit *first, *last; /* waiting for a worker */
    size_t waiting;
    struct listener *listeners; /* to events */
    size_t listener_count;
    bool ends;
    pthread_t workers[WORKERS_MOST];
    size_t worker_count;
    size_t held; /* bytes of bodies that are coming in; of the daemon's thread alone */
};

/* A request on its connection (visit.c): what the daemon calls. */
void *visit_begin(void *with, const char *target, struct MHD_Connection *connection);
/* NOLINTNEXTLINE(readability-function-size): the parameters are those of the daemon. */
enum MHD_Result visit_handle(void *with, struct MHD_Connection *connection, const char *url,
                             const char *method, const char *version, const char *data, size_t *length,
                             void **held);
void visit_end(void *with, struct MHD_Connection *connection, void **held,
               enum MHD_RequestTerminationCode how);
/* A worker: answers what waits until the server ends. */
void *visit_work(void *with);

/* Events (events.c). Answers the visit with a stream of them; false: there are too many listeners. */
bool events_listen(struct server *server, struct MHD_Connection *connection);
/* Tells every listener an event, as it goes over the wire. */
void events_tell(struct server *server, const char *text);
/* Lets go of all of them. */
void events_end(struct server *server);

/* Puts what every answer has into its head (visit.c). */
void answer_head(struct MHD_Response *response, const struct page_answer *answer);

#endif
