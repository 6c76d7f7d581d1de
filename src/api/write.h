/* Writing a report inside the guard: for write.c itself and for saving. */
#ifndef API_WRITE_H
#define API_WRITE_H

#include "api/session.h"

/* The text in the session's arena; NULL when an error was added. */
const struct buf *session_write(struct coatwright *session, enum coatwright_report report,
                                enum coatwright_format format, const struct file_text *previous);

#endif
