/* A calendar server as one user sees it (WebDAV, RFC 4918): finding the calendar collection that is meant, the address itself or one
 * of the server's (RFC 6764 well-known, RFC 5397 principal, RFC 4791 home), and what it holds. Whatever an answer says, nothing is
 * asked of another server than the one that was named. */
#ifndef PUBLISH_DAV_H
#define PUBLISH_DAV_H

#include "publish/http.h"

enum {
    STATUS_OK = 200,
    STATUS_MULTI = 207,
    STATUS_PASSWORD = 401,
    STATUS_FORBIDDEN = 403,
    STATUS_MISSING = 404,
    STATUS_NOT_DONE = 405,
    STATUS_GONE = 410,
    STATUS_CHANGED = 412,
    STATUS_FAILED = 500,
    STATUS_NOT_KNOWN = 501
};

struct arena;

/* One resource; texts are in the arena, "" where nothing was said. */
struct dav_entry {
    const char *href, *etag;
    const char *principal, *home; /* current-user-principal, calendar-home-set */
    const char *data;             /* calendar-data: what it holds, asked for by a report */
    int status;                   /* of the resource as a whole, "HTTP/1.1 404 Not Found"; 0: none was told */
    bool calendar;                /* its resourcetype */
};

struct dav_list {
    struct dav_entry *items;
    size_t count;
};

/* The answer about several resources (RFC 4918, section 13; multistatus.c), read with expat. It is not trusted: a document with its own
 * entities, or one that is not well-formed, is refused. */
bool multistatus_read(struct arena *arena, const char *text, size_t length, struct dav_list *list,
                      struct err *err);

struct server {
    struct arena *arena;
    struct http_access access;
    const char *named; /* the address that the user gave */
};

/* One request to the server that was named; another one's is refused. */
bool server_exchange(const struct server *server, const struct http_request *request,
                     struct http_answer *answer, struct err *err);

/* The same where an answer may lead to another address of that server, which is then *url. */
bool server_follow(const struct server *server, const struct http_request *request, const char **url,
                   struct http_answer *answer, struct err *err);

/* What stands at an address, by PROPFIND; a redirect on the same server is followed. */
struct dav_look {
    long status;
    struct dav_entry entry; /* of STATUS_MULTI; empty where it names nothing */
    bool there;             /* it names something */
};
bool server_look(const struct server *server, const char **url, struct dav_look *seen, struct err *err);

/* The URL of the collection, with a slash at its end; NULL: *err. With `make` one is made where there is none: at the
 * address itself, or as "coatwright" in the user's home. A home with several calendars is an error that names them. */
const char *collection_find(const struct server *server, const char *url, bool make, struct err *err);

/* Hrefs and ETags of what a collection holds. */
bool collection_list(const struct server *server, const char *collection, struct dav_list *list,
                     struct err *err);

/* Tells that a server answered otherwise than was needed: a wrong password, no such place, a full disk. False. */
bool server_refused(struct arena *arena, const char *what, const struct http_answer *answer, struct err *err);

#endif
