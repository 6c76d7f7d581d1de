/* What a WebDAV server says of its resources: the multistatus of RFC 4918, with the properties of calendars (RFC 4791,
 * RFC 5397), read with expat. Untrusted: a document with its own entities, or one that is not well-formed, is refused. */
#ifndef PUBLISH_DAV_H
#define PUBLISH_DAV_H

#include "base/err.h"

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

bool dav_parse(struct arena *arena, const char *text, size_t length, struct dav_list *list, struct err *err);

/* The body of a PROPFIND that asks for all of these. */
extern const char dav_question[];

#endif
