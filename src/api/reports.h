/* Every report in every format, and what must be there before it can be written. */
#ifndef API_REPORTS_H
#define API_REPORTS_H

#include "api/session.h"
#include "format/json_write.h"
#include "report/table.h"

enum needs { NEEDS_SURFACES, NEEDS_PLAN, NEEDS_PLAN_OR_MIX, NEEDS_FINISHES, NEEDS_NOTHING };

/* One report being written; `previous` is the calendar that it replaces, NULL: none. */
struct writing {
    struct coatwright *session;
    struct buf *out;
    struct screen screen;
    struct json_write json;
    const struct file_text *previous;
};

struct report_writer {
    enum coatwright_report report;
    enum coatwright_format format;
    enum needs needs;
    bool (*write)(struct writing *w); /* false: an error was added */
};

/* NULL: the report does not exist in that format. */
const struct report_writer *report_find(enum coatwright_report report, enum coatwright_format format);

#endif
