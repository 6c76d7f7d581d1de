/* What an earlier plan had done by now, and the log does not say. */
#include "api/session.h"

#include "base/moment.h"
#include "format/json.h"

#include <string.h>

/* Whether it is still to be done in the plan as it is now. */
static bool is_left(const struct plan *plan, const char *id)
{
    return timetable_find(plan->timetable, id) != NULL;
}

/* A plan of another program, or of another form, has no such steps: nothing is told. */
static void count_steps(struct coatwright *session, struct json_at steps, struct unrecorded *unrecorded)
{
    const struct zone *zone = session->job->zone;
    for (struct json_at step = json_first(steps); step.node; step = json_next(step)) {
        struct json_at id = json_member(step, "id"), end = json_member(step, "end");
        struct moment_text moment;
        struct err fault;
        if (!json_is_text(id) || !json_is_text(end) || !moment_parse(end.node->text, zone, &moment, &fault) ||
            moment.date_only || moment.minute > session->now_min || !is_left(session->plan, id.node->text))
            continue;
        unrecorded->count++;
        unrecorded->until_min = moment.minute > unrecorded->until_min ? moment.minute : unrecorded->until_min;
    }
}

static bool compare(struct coatwright *session, void *argument)
{
    const struct text_call *call = argument;
    struct err_list *told = ARENA_NEW(session->arena, struct err_list);
    struct reading reading = {session->arena, texts_make(session->arena), told, told, NULL};
    struct json_at root;
    if (!session->plan) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "a job that was planned", "none");
        return false;
    }
    session->unrecorded = (struct unrecorded){0, INT64_MIN};
    if (session->job->log.count > 0 && !file_missing(call->text) &&
        json_load(&reading, NULL, call->text, &root))
        count_steps(session, json_member(json_member(root, "timetable"), "steps"), &session->unrecorded);
    return true;
}

bool coatwright_earlier_plan(struct coatwright *session, const char *path)
{
    struct text_call call = {path, 0, NULL};
    return session_given(session, path, "the name of an earlier plan.json") &&
           session_guard(session, compare, &call);
}
