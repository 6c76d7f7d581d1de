/* The log of a job: what really happened, one JSON object a line, only ever added to. */
#ifndef SOURCE_LOG_FILE_H
#define SOURCE_LOG_FILE_H

#include "base/buf.h"
#include "format/place.h"
#include "job/log.h"

/* The entries of a log's text in the order of the file, texts borrowed. A line that is no entry, or unfinished at the end of
 * the file, is left out and reported as a warning at its place; so are numbers that do not rise. The log never makes a job
 * unreadable. */
struct log log_read(const struct reading *reading, const struct file_text *file, const struct zone *zone);

/* An entry as its line, end and all. */
void log_write(struct buf *out, const struct log_entry *entry, const struct zone *zone);

#endif
