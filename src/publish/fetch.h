/* The busy times of a calendar on a server: of a CalDAV collection (RFC 4791), of a file behind an address, or of a server that
 * tells no more than when somebody is free. */
#ifndef PUBLISH_FETCH_H
#define PUBLISH_FETCH_H

#include "format/file.h"
#include "publish/dav.h"

/* Which times are asked for; a file comes whole. */
struct fetch_span {
    int64_t from_min, to_min;
};

/* What came: a calendar for each resource, named by its address. */
struct fetched {
    struct file_text *items;
    size_t count;
};

/* Asks the server that was named. An address that ends in .ics is a file. All else is looked at first: a calendar, or the only one of
 * the user to whom it leads, is asked for its events; where a server does not give them, for free and busy times; what is no
 * CalDAV at all is a file. False: *err; nothing came, or not all that should. */
bool fetch_calendar(const struct server *server, const struct fetch_span *span, struct fetched *fetched,
                    struct err *err);

#endif
