/* Calendars that keep somebody busy: what was read of each, and how old it is. */
#ifndef REPORT_BUSY_H
#define REPORT_BUSY_H

#include "base/buf.h"
#include "format/json_write.h"
#include "job/job.h"

struct busy_report {
    const struct zone *zone;
    const struct busy_file *files;
    size_t count;
    int64_t now_min;
};

/* A line for each, so that a loss is seen: a calendar of which nothing counts looks like one that could not be read. */
void show_busy(struct buf *out, const struct busy_report *report);
void write_busy(struct json_write *w, const char *key, const struct busy_report *report);

/* Warns of calendars that were fetched long ago. */
void busy_warn(const struct job *job, int64_t now_min, struct err_list *warnings);

#endif
