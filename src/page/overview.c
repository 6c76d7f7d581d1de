/* The folder: its jobs and how they stand, what is to be done today, what must be bought. */
#include "page/exchange.h"

#include "coatwright_folder.h"
#include "coatwright_walk.h"

#include <string.h>

/* How one job stands, by the plan that its own page and the bench show. What it does today and what is to be bought for it
 * are added to the lists. */
static json_t *job_json(struct exchange *x, const char *name, json_t *today, json_t *buy)
{
    const struct plan_kept *plan = plan_take(x, name, 0, false);
    json_t *job = json_pack("{s:s, s:b, s:o}", "file", name, "ok", (int)plan->read, "errors",
                            errors_json(x, plan->session));
    if (!plan->planned)
        return job;
    json_t *area = report_json(x, plan->session, COATWRIGHT_AREA), *stands = plan_json(x, plan, false);
    if (json_object_update(job, stands) != 0 ||
        json_object_set(job, "name", json_object_get(area, "job")) != 0)
        arena_run_out(x->arena);
    member_put(x, job, "late", json_boolean(plan->outcome.planned && !plan->outcome.in_time));
    json_decref(area);
    json_decref(stands);
    item_put(x, buy,
             json_pack("{s:s, s:o}", "file", name, "buy", report_json(x, plan->session, COATWRIGHT_BUY)));
    if (plan->outcome.planned)
        item_put(x, today,
                 json_pack("{s:s, s:o}", "file", name, "day", report_json(x, plan->session, COATWRIGHT_DAY)));
    return job;
}

void route_folder(struct exchange *x)
{
    struct coatwright *list = exchange_session(x, 0, false);
    if (!coatwright_list_folder(list, x->settings->folder)) {
        exchange_fail(x, list);
        return;
    }
    json_t *jobs = json_array(), *today = json_array(), *buy = json_array();
    for (size_t i = 0; i < coatwright_folder_count(list); i++) {
        const struct coatwright_folder_file *file = coatwright_folder_file(list, i);
        if (file->job)
            item_put(x, jobs, job_json(x, file->name, today, buy));
    }
    struct coatwright_options options = exchange_options(x, 0, false);
    exchange_json(x, json_pack("{s:s, s:s, s:o, s:o, s:o}", "folder", x->settings->folder, "now", options.now,
                               "jobs", jobs, "today", today, "buy", buy));
}
