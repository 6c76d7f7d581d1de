/* A calendar of our own writing taken apart: one text for each UID, as CalDAV wants it (RFC 4791, section 4.1), each with
 * the time zones that it names. */
#ifndef PUBLISH_RESOURCES_H
#define PUBLISH_RESOURCES_H

#include "publish/publish.h"

/* `text` is a whole VCALENDAR with CRLF line ends; what is made of it is in the arena. */
void resources_split(struct arena *arena, const char *text, struct publish_items *items);

#endif
