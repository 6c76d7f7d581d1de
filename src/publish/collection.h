/* Finding the calendar collection that a user means: the address itself, or one of a server's (RFC 6764 well-known, RFC 5397
 * principal, RFC 4791 home). */
#ifndef PUBLISH_COLLECTION_H
#define PUBLISH_COLLECTION_H

#include "publish/dav.h"
#include "publish/http.h"

/* A server as one user sees it. */
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
