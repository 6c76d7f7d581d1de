/* How large a job may be. */
#include "base/err.h"
#include "base/measure.h"
#include "source/job_draft.h"
#include "surface/takeoff.h"

void job_check_size(const struct job *job, struct err_list *errors)
{
    struct job_pointer pointer;
    const struct surface *largest = NULL;
    int64_t parts = 0;
    for (size_t i = 0; i < job->part_count; i++) {
        parts += job->parts[i].qty;
        if (parts <= (int64_t)limits[LIMIT_PARTS].most)
            continue;
        const char *file = job_part_place(job, &job->parts[i], "qty", &pointer);
        err_addf(errors, ERR_INPUT, file, pointer.text, limits[LIMIT_PARTS].expected, "more up to here");
        return;
    }
    double area_m2 = job->surfaces->finished_m2 + job->surfaces->bare_m2;
    for (size_t i = 0; i < job->surfaces->count; i++)
        if (!largest || job->surfaces->items[i].area_m2 > largest->area_m2)
            largest = &job->surfaces->items[i];
    if (!largest || area_m2 <= limits[LIMIT_SURFACE].most)
        return;
    const char *file = job_part_place(job, &job->parts[largest->part], "qty", &pointer);
    err_addf(errors, ERR_INPUT, file, pointer.text, limits[LIMIT_SURFACE].expected, "%s, %s of them here",
             area_format(area_m2, UNITS_METRIC).text, area_format(largest->area_m2, UNITS_METRIC).text);
}
