/* A calendar server as one user sees it (WebDAV, RFC 4918): finding the calendar collection that is meant, the address itself or one
 * of the server's (RFC 6764 well-known, RFC 5397 principal, RFC 4791 home), and what it holds. Its answers are read with expat.
 * Untrusted: a document with its own entities, or one that is not well-formed, is refused. */
#ifndef PUBLISH_DAV_H
#define PUBLISH_DAV_H

#include "publish/http.h"

struct arena;

/* One resource; texts are in the arena, "" where nothing was said. */
struct dav_entry {
    const char *href, *etag;
    const char *principal, *home; /* current-user-principal, calendar-home-set */
    bool calendar;                /* its resourcetype */
};

struct dav_list {
    struct dav_entry *items;
    size_t count;
};

struct server {
    struct arena *arena;
    struct http_access access;
};

/* The URL of the collection, with a slash at its end; NULL: *err. With `make` one is made where there is none: at the
 * address itself, or as "coatwright" in the user's home. A home with several calendars is an error that names them. */
const char *collection_find(const struct server *server, const char *url, bool make, struct err *err);

/* Hrefs and ETags of what a collection holds. */
bool collection_list(const struct server *server, const char *collection, struct dav_list *list,
                     struct err *err);

/* Tells that a server answered otherwise than was needed: a wrong password, no such place, a full disk. False. */
bool server_refused(struct arena *arena, const char *what, const struct http_answer *answer, struct err *err);

#endif
