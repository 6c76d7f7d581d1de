#include "report/busy.h"

#include "base/number.h"

#include <inttypes.h>
#include <stdio.h>

enum { HOUR_MINUTES = 60, OLD_DAYS = 7 };

/* "40 min ago", "3 h ago", "12 days ago". */
static struct text_short age(int64_t minutes)
{
    struct text_short text;
    if (minutes < HOUR_MINUTES)
        snprintf(text.text, sizeof text.text, "%" PRId64 " min ago", minutes);
    else if (minutes < 2 * DAY_MINUTES)
        snprintf(text.text, sizeof text.text, "%" PRId64 " h ago", minutes / HOUR_MINUTES);
    else
        snprintf(text.text, sizeof text.text, "%" PRId64 " days ago", minutes / DAY_MINUTES);
    return text;
}

static void show_fetched(struct buf *out, const struct busy_report *report, const struct busy_file *file)
{
    if (!file->address)
        return;
    if (file->fetched_min == INT64_MIN) {
        buf_add(out, ", nobody knows when it was fetched");
        return;
    }
    buf_addf(out, ", fetched %s", moment_format(report->zone, file->fetched_min, MOMENT_LONG).text);
    if (file->fetched_min < report->now_min)
        buf_addf(out, ", %s", age(report->now_min - file->fetched_min).text);
}

void show_busy(struct buf *out, const struct busy_report *report)
{
    for (size_t i = 0; i < report->count; i++) {
        const struct busy_file *file = &report->files[i];
        buf_addf(out, "%s: %zu event%s, %s h in the time of this job", file->file, file->events,
                 file->events == 1 ? "" : "s", number_round((double)file->busy_min / HOUR_MINUTES, 1).text);
        show_fetched(out, report, file);
        buf_add_char(out, '\n');
    }
}

void write_busy(struct json_write *w, const char *key, const struct busy_report *report)
{
    json_open(w, key, '[');
    for (size_t i = 0; i < report->count; i++) {
        const struct busy_file *file = &report->files[i];
        json_open_row(w, NULL, '{');
        json_put_text(w, "file", file->file);
        json_put_text(w, "address", file->address);
        json_put_moment(w, "fetched", report->zone,
                        file->address && file->fetched_min != INT64_MIN ? file->fetched_min : INT64_MAX);
        json_put_whole(w, "events", (int64_t)file->events);
        json_put_whole(w, "busy_min", file->busy_min);
        json_close(w);
    }
    json_close(w);
}

void busy_warn(const struct job *job, int64_t now_min, struct err_list *warnings)
{
    for (size_t i = 0; i < job->shop.busy_file_count; i++) {
        const struct busy_file *file = &job->shop.busy_files[i];
        int64_t old = file->fetched_min == INT64_MIN ? 0 : now_min - file->fetched_min;
        if (file->address && old > (int64_t)OLD_DAYS * DAY_MINUTES)
            (void)err_addf(warnings, ERR_WARNING, file->file, NULL, NULL,
                           "fetched %s; what was entered since is not seen: coatwright fetch-busy %s",
                           age(old).text, job->file);
    }
}
