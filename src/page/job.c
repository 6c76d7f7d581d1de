/* One job: its texts, and how it stands with them or with others. */
#include "page/exchange.h"

#include "coatwright_folder.h"
#include "coatwright_walk.h"
#include "base/moment.h"

#include <string.h>

static bool is_editable(const struct coatwright_source *source)
{
    return source->name && source->text && strcmp(source->kind, "log") != 0;
}

/* Its texts by name; what lies outside of the folder, or is no text, is named alone. */
static json_t *texts_json(const struct exchange *x, struct coatwright *session)
{
    json_t *texts = json_object();
    for (size_t i = 0; i < coatwright_source_count(session); i++) {
        const struct coatwright_source *source = coatwright_source(session, i);
        char version[COATWRIGHT_TEXT_VERSION_SIZE] = "";
        json_t *text = source->text ? json_stringn(source->text, source->length) : json_null();
        coatwright_text_version(source->text, source->length, version);
        member_put(x, texts, source->name ? source->name : source->path,
                   json_pack("{s:o, s:s?, s:s, s:b}", "text", text, "version", source->text ? version : NULL,
                             "kind", source->kind, "editable", (int)is_editable(source)));
    }
    return texts;
}

json_t *plan_json(const struct exchange *x, const struct plan_kept *plan, bool quick)
{
    const struct coatwright_outcome *outcome = &plan->outcome;
    const struct coatwright_verdict *verdict = coatwright_verdict(plan->session);
    json_t *timetable = report_json(x, plan->session, COATWRIGHT_TIMETABLE);
    json_t *told = json_pack(
        "{s:b, s:b, s:b, s:b, s:s, s:s, s:s, s:s, s:i, s:s}", "planned", (int)outcome->planned, "in_time",
        (int)outcome->in_time, "mixes_sound", (int)outcome->mixes_sound, "quick", (int)quick, "ready_text",
        verdict->ready, "deliver_text", verdict->deliver, "to_spare_text", verdict->to_spare, "why",
        verdict->why, "hands_on_min", verdict->hands_on_min, "units", verdict->us ? "us" : "metric");
    static const char *const moments[] = {"ready", "deliver"};
    for (size_t i = 0; i < sizeof moments / sizeof moments[0]; i++) {
        json_t *moment = json_object_get(timetable, moments[i]);
        if (moment)
            member_put(x, told, moments[i], json_incref(moment));
    }
    json_decref(timetable);
    return told;
}

json_t *advice_json(const struct exchange *x, struct coatwright *session)
{
    json_t *lines = json_array();
    for (size_t i = 1; i <= coatwright_advice_count(session); i++)
        item_put(x, lines, json_pack("{s:i, s:s}", "number", (int)i, "text", coatwright_advice(session, i)));
    return lines;
}

json_t *state_json(struct exchange *x, const struct plan_kept *plan, bool quick)
{
    struct coatwright *session = plan->session;
    bool measured = plan->read && (plan->planned || coatwright_take_off(session)), planned = plan->planned;
    json_t *state = json_pack("{s:o, s:o, s:o, s:o, s:o}", "area",
                              measured ? report_json(x, session, COATWRIGHT_AREA) : json_null(), "buy",
                              planned ? report_json(x, session, COATWRIGHT_BUY) : json_null(), "cost",
                              planned ? report_json(x, session, COATWRIGHT_COST) : json_null(), "plan",
                              planned ? plan_json(x, plan, quick) : json_null(), "advice",
                              planned ? advice_json(x, session) : json_array());
    member_put(x, state, "errors", errors_json(x, session));
    member_put(x, state, "warnings", warnings_json(x, session));
    return state;
}

static bool is_quick(const char *effort)
{
    return effort && strcmp(effort, "quick") == 0;
}

void route_job(struct exchange *x)
{
    const char *file = x->segments[2];
    bool quick = is_quick(exchange_query(x, "effort"));
    if (!exchange_job(x, file))
        return;
    const struct plan_kept *plan = plan_take(x, file, quick ? QUICK_EFFORT : 0, false);
    json_t *texts = texts_json(x, plan->session), *state = state_json(x, plan, quick);
    exchange_json(x, json_pack("{s:s, s:o, s:o}", "file", file, "texts", texts, "state", state));
}

/* Hands over the texts of the request, by their names. */
static bool add_texts(struct exchange *x, struct coatwright *session)
{
    const char *name;
    json_t *texts = json_object_get(x->body, "texts"), *text;
    if (!json_is_object(texts)) {
        exchange_refuse(x, 400, "texts: expected an object with a text for each name of a file");
        return false;
    }
    json_object_foreach(texts, name, text)
    {
        const char *path = coatwright_folder_path(session, x->settings->folder, name);
        if (!path || !json_is_string(text)) {
            exchange_refuse(x, 400, "texts: expected an object with a text for each name of a file");
            return false;
        }
        if (!coatwright_add_text(session, path, json_string_value(text), json_string_length(text))) {
            exchange_fail(x, session);
            return false;
        }
    }
    return true;
}

/* The path of the job, its session having the texts of the request in the place of those in the folder; NULL: the answer says
 * what is wrong. */
static const char *job_as_edited(struct exchange *x, struct coatwright *session)
{
    const char *path = strchr(x->segments[2], '/') ? NULL : exchange_path(x, x->segments[2]);
    if (!path)
        exchange_refuse(x, 404, "there is no such job in the folder");
    return path && add_texts(x, session) ? path : NULL;
}

void route_try(struct exchange *x)
{
    bool quick = is_quick(text_of(x->body, "effort")),
         advice = json_is_true(json_object_get(x->body, "advice"));
    struct plan_kept plan = {.outcome = COATWRIGHT_OUTCOME_INIT};
    plan.session = exchange_session(x, quick ? QUICK_EFFORT : 0, advice);
    const char *path = job_as_edited(x, plan.session);
    if (!path)
        return;
    plan.read = coatwright_read(plan.session, path);
    plan.planned = plan.read && coatwright_plan(plan.session, &plan.outcome);
    exchange_json(x, state_json(x, &plan, quick));
}

/* All parts, drawn as they are being edited. */
void route_drawing(struct exchange *x)
{
    struct coatwright *session = exchange_session(x, 0, false);
    const char *path = job_as_edited(x, session), *svg = NULL;
    if (!path)
        return;
    if (coatwright_read(session, path) && coatwright_take_off(session))
        svg = coatwright_write(session, COATWRIGHT_AREA, COATWRIGHT_SVG);
    if (svg)
        exchange_json(x, json_pack("{s:s}", "svg", svg));
    else
        exchange_fail(x, session);
}
