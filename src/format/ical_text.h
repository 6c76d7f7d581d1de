/* The text of a calendar (RFC 5545, section 3.1) as components and properties. Such a file comes from elsewhere and is held
 * to bounds: 16 MiB, 500,000 lines, 8 levels of components, 20,000 events. */
#ifndef FORMAT_ICAL_TEXT_H
#define FORMAT_ICAL_TEXT_H

#include "format/place.h"

struct buf;

struct ical_property {
    const char *name;       /* in capitals */
    const char *parameters; /* as they stand between name and value: "TZID=Europe/London"; "" for none */
    const char *value;      /* unfolded, escapes as they stand */
    size_t at;              /* where its line begins in the file */
    const struct ical_property *next;
};

struct ical_component {
    const char *name; /* in capitals */
    size_t at, end;   /* of BEGIN; behind the line of END */
    const struct ical_property *properties;
    const struct ical_component *children, *next;
};

/* The calendars of a file, one after the other. NULL: the text is no calendar, or its BEGIN and END do not match; reported at
 * the line. */
const struct ical_component *ical_text_read(const struct reading *reading, const struct file_text *file);

/* The first property of that name from this one on; NULL: none. */
const struct ical_property *ical_property_find(const struct ical_property *from, const char *name);

/* The first value of a parameter, without quotes, in the arena; NULL: it is not there. */
const char *ical_parameter(struct arena *arena, const struct ical_property *property, const char *name);
/* Whether it is there and says this word, in any case. */
bool ical_parameter_is(struct arena *arena, const struct ical_property *property, const char *name,
                       const char *word);

/* The line at an offset without its folds, into an empty `line`; where the next one begins. */
size_t ical_text_line(const struct file_text *file, size_t at, struct buf *line);

/* The line at an offset, quoted, for messages. */
const char *ical_line(const struct reading *reading, const struct file_text *file, size_t at);

/* Appends a text with every line at most 75 octets long, no character cut apart, folds made anew: the calendar library may
 * fold between the CR and the LF of a line that is just as long as it allows. Lines end in CRLF, folds in CRLF and a blank. */
void ical_fold(const char *text, struct buf *out);

#endif
