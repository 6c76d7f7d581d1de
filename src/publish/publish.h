/* A plan's calendar kept in a collection on a server (CalDAV, RFC 4791): one resource for each UID.
 *
 * Only what a state file says is ours is touched. New resources are put if nothing is there, changed ones if they are as
 * we left them; what somebody else has changed or put there is read again, reported, and left alone. What stands there just as
 * it is or was to be put is ours: it came through, and the answer was lost, or the server has given it another ETag. Deletions
 * come last, so that a run that is cut short has lost nothing, and the next one takes up what it finds. */
#ifndef PUBLISH_PUBLISH_H
#define PUBLISH_PUBLISH_H

#include "publish/dav.h"

struct buf;
struct reading;

/* What is to stand on the server. Texts are borrowed. */
struct publish_item {
    const char *uid;
    const char *text; /* a VCALENDAR of its own */
};

struct publish_items {
    struct publish_item *items;
    size_t count;
};

enum publish_act {
    PUBLISH_SAME,    /* stands there as it should */
    PUBLISH_PUT,     /* was new */
    PUBLISH_CHANGED, /* was changed */
    PUBLISH_DELETED,
    PUBLISH_AGAIN, /* somebody had deleted it: put again */
    PUBLISH_LEFT   /* somebody else has changed it: left as it is */
};

struct publish_deed {
    enum publish_act act;
    const char *uid, *href;
};

struct publish_outcome {
    const char *collection;
    struct publish_deed *deeds; /* in the order in which they were done */
    size_t count;
};

/* One resource that is ours. */
struct publish_mark {
    const char *uid, *href, *etag;
    const char *hash;  /* of the text as we put it */
    const char *faces; /* of what of ours may stand there, also by runs that were cut short */
};

struct publish_state {
    const char *collection; /* "": never published */
    struct publish_mark *marks;
    size_t count, capacity;
};

struct publish_want {
    const char *collection;
    const struct publish_items *items;
    bool dry; /* nothing is written, and the outcome says what would be */
};

/* Notes in `state` what is about to be changed, so that the next run knows it as ours where this one is cut short. True: there is
 * something new to be saved before it begins. */
bool publish_intend(struct arena *arena, const struct publish_want *want, struct publish_state *state);

/* Brings the collection to the items; `state` follows what was done, and is to be saved also where it fails half way. */
bool publish(const struct server *server, const struct publish_want *want, struct publish_state *state,
             struct publish_outcome *outcome, struct err *err);

/* A calendar of our own writing taken apart: one text for each UID, as CalDAV wants it (RFC 4791, section 4.1), each with the time
 * zones that it names. `text` is a whole VCALENDAR with CRLF line ends; what is made of it is in the arena. */
void publish_items_split(struct arena *arena, const char *text, struct publish_items *items);

/* A number, as text without blanks, that is the same for an item as we wrote it and as a server holds it: of its lines in whatever
 * order and folds, the moment of writing (DTSTAMP, LAST-MODIFIED) and the form of a duration (TRIGGER) left out. */
const char *publish_face(struct arena *arena, const char *text);

/* What was published where: a JSON file beside the job. False: it is there and cannot be understood; reported at its place. A file
 * that is not there gives an empty state. */
bool publish_state_load(const struct reading *reading, const char *path, struct publish_state *state);
void publish_state_write(const struct publish_state *state, struct buf *out);

#endif
