/* Long lines of a calendar (RFC 5545, section 3.1). The calendar library may fold between the CR and the LF of a line that is
 * just as long as it allows: so its folds are taken out and the lines folded again. */
#ifndef FORMAT_ICAL_FOLD_H
#define FORMAT_ICAL_FOLD_H

struct buf;

/* Appends the text with every line at most 75 octets long, no character cut apart. Lines end in CRLF, folds in CRLF and a
 * blank. */
void ical_fold(const char *text, struct buf *out);

#endif
