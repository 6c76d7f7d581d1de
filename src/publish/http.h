/* One request to a server and its answer, over HTTP (libcurl).
 *
 * A request goes to http or https alone, follows no redirect, checks the certificate, takes at most HTTP_SECONDS and at
 * most HTTP_ANSWER_MOST bytes. A password goes over plain http to this machine alone. What fails in passing (no
 * connection, a time-out, 429, 500, 502, 503, 504) is tried again, HTTP_TRIES times in all. */
#ifndef PUBLISH_HTTP_H
#define PUBLISH_HTTP_H

#include "base/err.h"

struct arena;

enum { HTTP_TRIES = 3, HTTP_SECONDS = 20, HTTP_ANSWER_MOST = 16 << 20 };

/* Texts are borrowed. */
struct http_access {
    const char *user, *password; /* NULL: none is sent */
    const char *authorities;     /* file of trusted certificates; NULL: the system's */
};

struct http_request {
    const char *method, *url;
    const char *type, *body;      /* NULL: no body */
    const char *depth;            /* of WebDAV: "0", "1"; NULL: none */
    const char *match, *no_match; /* If-Match, If-None-Match; NULL: none */
};

/* Texts are in the arena; NULL: the header was not there. */
struct http_answer {
    long status;
    const char *body; /* never NULL */
    size_t length;
    const char *etag, *location;
};

/* False: no answer was had; *err says why (`expected` what was needed, `found` what happened). */
bool http_exchange(struct arena *arena, const struct http_access *access, const struct http_request *request,
                   struct http_answer *answer, struct err *err);

/* Addresses of the web (RFC 3986; url.c). */

/* Whether two addresses have one scheme, host and port. */
bool url_same_server(const char *url, const char *other);

/* The URL that a reference in an answer means: a path on the server of `base`, or a URL of its own; "" for none. */
const char *url_resolve(struct arena *arena, const char *base, const char *reference);

/* Whether a password may go there: encrypted, or within this machine (RFC 7617, section 4: Basic hides nothing). */
bool url_may_carry_password(struct arena *arena, const char *address);

#endif
