/* Pages as HTML that is XML as well, of one file: looks in one style sheet at its head, no script, no address of anything else,
 * and a policy that keeps a browser from fetching whatever a text might name.
 *
 * `look` is a string of attributes written by the caller, such as `class="batch"`; it goes out as it is, "" for none. Every
 * other text is escaped; what would turn the direction of a line becomes the sign for an unknown character. */
#ifndef FORMAT_HTML_H
#define FORMAT_HTML_H

#include "base/buf.h"

/* Up to the body, which is open then. `style` goes out as it is. */
void html_begin(struct buf *out, const char *title, const char *style);
void html_end(struct buf *out);

void html_open(struct buf *out, const char *name, const char *look);
void html_close(struct buf *out, const char *name);
/* An element with a text, which may be NULL: then nothing is added. */
void html_element(struct buf *out, const char *name, const char *look, const char *text);
void html_text(struct buf *out, const char *text);
/* One more attribute for a look: ` name="value"`. */
void html_attribute(struct buf *look, const char *name, const char *value);

#endif
