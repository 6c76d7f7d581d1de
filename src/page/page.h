/* The page: a request in, an answer out. It knows no sockets; server.c brings it to the network. */
#ifndef PAGE_PAGE_H
#define PAGE_PAGE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct arena;
struct page;
struct plans;
struct watched;

enum { PAGE_BODY_MOST = 8 << 20 };

/* As it came over the wire; what was not sent is NULL. */
struct page_request {
    const char *method, *target; /* the target still encoded, with its query */
    const char *host, *origin, *content_type, *authorization, *cookie, *known; /* known: If-None-Match */
    const char *body;
    size_t length;
};

/* Texts live as long as the arena of the request, or as the program. */
struct page_answer {
    int status;
    const char *type; /* of its contents */
    const char *body;
    size_t length;
    const char *style;    /* what the style-src of its policy has beside 'self'; NULL: nothing */
    const char *location; /* NULL: none, as below */
    const char *cookie;   /* to be set */
    const char
        *tag; /* of its contents: the browser may keep them, and asks each time; NULL: it keeps nothing */
    const char *file_name; /* to be saved as */
    bool events;           /* no body: events follow */
};

struct page_settings {
    const char *folder;   /* of the jobs */
    const char *finishes; /* of the finish table; NULL: the library's */
    const char *now;      /* NULL: the clock's */
    const char *listen;   /* the name that was asked for; NULL: this machine alone */
    const char *token;    /* NULL: none is asked for */
    bool any;             /* it listens at every address of the machine */
    int port;             /* at which it listens */
};

/* The settings are copied, their texts borrowed. NULL: no memory. */
struct page *page_make(const struct page_settings *settings);
void page_free(struct page *page);

const struct page_settings *page_settings(const struct page *page);
/* Before it is asked: the port as it became known, and whether every address of the machine has it. */
void page_set_port(struct page *page, int port, bool any);

/* From now on whatever is being planned is ended as soon as may be. */
void page_end(struct page *page);
bool page_ends(const struct page *page);

/* Threads may ask at the same time. Memory that ends is an answer, too. */
void page_answer(struct page *page, struct arena *arena, const struct page_request *request,
                 struct page_answer *answer);

/* Brings it to the network (serve.c): listens, prints its address as one line on standard output, and answers until SIGINT or SIGTERM. settings.port 0:
 * a free one. False: *err says why it could not begin. */
struct err;
bool page_serve(struct page_settings settings, struct err *err);

/* Looks which jobs have changed since it was last called (watch.c), and hands an event for each to `tell`. One thread alone. */
void page_look(struct page *page, void (*tell)(void *with, const char *event), void *with);

/* What the parts of this room keep: plans (planned.c), and the folder as it was seen last (watch.c). */
struct plans *page_plans(const struct page *page);
struct watched *page_watched(const struct page *page);
struct plans *plans_make(void);
void plans_free(struct plans *plans);
struct watched *watched_make(void);
void watched_free(struct watched *watched);

#endif
