#include "report/table_check.h"

#include <inttypes.h>

void table_check(struct screen *screen, const struct job *job, const struct err_list *warnings)
{
    struct buf *out = screen->out;
    const char *file = job->file[0] == '-' && !job->file[1] ? "standard input" : job->file;
    for (size_t i = 0; i < warnings->count; i++) {
        char line[ERR_LINE_SIZE];
        err_format(&warnings->items[i], line, sizeof line);
        buf_addf(out, "%s\n", line);
    }
    if (warnings->dropped)
        buf_addf(out, "and %zu more\n", warnings->dropped);
    buf_addf(out, "%s: %zu piece%s, %zu part%s, %zu schedule%s, %zu task%s: no mistakes", file,
             job->piece_count, job->piece_count == 1 ? "" : "s", job->part_count,
             job->part_count == 1 ? "" : "s", job->schedule_count, job->schedule_count == 1 ? "" : "s",
             job->task_count, job->task_count == 1 ? "" : "s");
    if (warnings->count)
        buf_addf(out, ", %zu thing%s worth a look", warnings->count + warnings->dropped,
                 warnings->count + warnings->dropped == 1 ? "" : "s");
    buf_add_char(out, '\n');
}
