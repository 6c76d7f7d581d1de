/* What changes a job: a line of what would help, a record of what happened, a mix, a new job. */
#include "page/exchange.h"

#include "coatwright_folder.h"

#include <stdlib.h>
#include <string.h>

enum { SOURCES_MOST = 64 };

void route_advice(struct exchange *x)
{
    if (!exchange_job(x, x->segments[2]))
        return;
    const struct plan_kept *plan = plan_take(x, x->segments[2], 0, true);
    if (plan->planned)
        exchange_json(x, json_pack("{s:o}", "lines", advice_json(x, plan->session)));
    else
        exchange_fail(x, plan->session);
}

/* The names of what may be edited of the job that was read. */
static size_t editable(struct coatwright *session, const char *names[SOURCES_MOST])
{
    size_t count = 0;
    for (size_t i = 0; i < coatwright_source_count(session) && count < SOURCES_MOST; i++) {
        const struct coatwright_source *source = coatwright_source(session, i);
        if (source->name && source->text && strcmp(source->kind, "log") != 0)
            names[count++] = source->name;
    }
    return count;
}

void route_apply(struct exchange *x)
{
    json_int_t number = json_integer_value(json_object_get(x->body, "number"));
    const char *names[SOURCES_MOST];
    if (!exchange_job(x, x->segments[2]))
        return;
    const struct plan_kept *plan = plan_take(x, x->segments[2], 0, true);
    struct coatwright *session = plan->session;
    size_t count = plan->planned ? editable(session, names) : 0;
    if (plan->planned && number > 0 && coatwright_keep_versions(session, x->settings->folder, names, count) &&
        coatwright_apply(session, (size_t)number, NULL))
        exchange_json(x, json_pack("{s:o}", "texts", versions_json(x, names, count)));
    else if (plan->planned && number <= 0)
        exchange_refuse(x, 400, "number: expected the number of a line of what would help");
    else
        exchange_fail(x, session);
}

static bool read_kind(const char *word, enum coatwright_record_kind *kind)
{
    static const char *const words[] = {[COATWRIGHT_DONE] = "done",
                                        [COATWRIGHT_AGAIN] = "again",
                                        [COATWRIGHT_SKIP] = "skip",
                                        [COATWRIGHT_UNDO] = "undo",
                                        [COATWRIGHT_AIR_MEASURED] = "air"};
    for (size_t i = 0; word && i < sizeof words / sizeof words[0]; i++)
        if (strcmp(words[i], word) == 0) {
            *kind = (enum coatwright_record_kind)i;
            return true;
        }
    return false;
}

/* A text that is not empty, or a number as one; NULL: neither. */
static const char *words_of(struct exchange *x, const char *key)
{
    const json_t *value = json_object_get(x->body, key);
    const char *text = json_string_value(value);
    if (json_is_integer(value))
        return arena_textf(x->arena, "%" JSON_INTEGER_FORMAT, json_integer_value(value));
    return text && *text ? text : NULL;
}

static int whole_of(struct exchange *x, const char *key)
{
    const char *text = words_of(x, key);
    long number = text ? strtol(text, NULL, 10) : 0;
    return number > 0 && number < 1000000 ? (int)number : 0;
}

void route_record(struct exchange *x)
{
    struct coatwright_record want = COATWRIGHT_RECORD_INIT;
    struct coatwright *session = exchange_session(x, 0, false);
    const char *path = exchange_job(x, x->segments[2]);
    size_t entries;
    if (!path)
        return;
    if (!read_kind(text_of(x->body, "kind"), &want.kind)) {
        exchange_refuse(x, 400, "kind: expected done, again, skip, undo or air");
        return;
    }
    want.what = words_of(x, "what");
    want.at = words_of(x, "at");
    want.began = words_of(x, "began");
    want.used = words_of(x, "used");
    want.parts = whole_of(x, "parts");
    want.person = words_of(x, "person");
    want.note = words_of(x, "note");
    want.because = words_of(x, "because");
    want.sand = whole_of(x, "sand");
    if (coatwright_read(session, path) && coatwright_add_record(session, &want, &entries))
        exchange_json(x, json_pack("{s:I}", "entries", (json_int_t)entries));
    else
        exchange_fail(x, session);
}

void route_mix(struct exchange *x)
{
    struct coatwright_mix_want want = COATWRIGHT_MIX_WANT_INIT;
    struct coatwright *session = exchange_session(x, 0, false);
    want.finish = words_of(x, "finish");
    want.amount = words_of(x, "amount");
    want.have = words_of(x, "have");
    want.at = words_of(x, "at");
    want.by = words_of(x, "by");
    want.wood = words_of(x, "wood");
    want.later = json_is_true(json_object_get(x->body, "later"));
    want.thin = words_of(x, "thin");
    want.scale = words_of(x, "scale");
    if (!coatwright_mix(session, &want, NULL)) {
        exchange_fail(x, session);
        return;
    }
    json_t *mix = report_json(x, session, COATWRIGHT_MIX);
    member_put(x, mix, "errors", errors_json(x, session));
    exchange_json(x, mix);
}

/* ---- A new job. */

/* Base64 (RFC 4648) in the memory of the exchange; NULL: it is none. */
static const char *decode(struct exchange *x, const char *text, size_t *length)
{
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    char *out = arena_alloc(x->arena, strlen(text) / 4 * 3 + 4, 1);
    unsigned held = 0, bits = 0;
    *length = 0;
    for (; *text && *text != '='; text++) {
        const char *at = strchr(letters, *text);
        if (!at)
            return NULL;
        held = held << 6 | (unsigned)(at - letters);
        bits += 6;
        if (bits >= 8) {
            bits -= 8;
            out[(*length)++] = (char)(held >> bits & 255);
        }
    }
    return out;
}

/* A spreadsheet as rows of text, to be added to a list that is there. */
void route_sheet(struct exchange *x)
{
    const char *name = text_of(x->body, "name"), *base64 = text_of(x->body, "base64");
    size_t length = 0;
    const char *bytes = base64 ? decode(x, base64, &length) : NULL;
    if (!name || !bytes) {
        exchange_refuse(x, 400, "expected the name of a spreadsheet file, and its bytes as base64");
        return;
    }
    struct coatwright *session = exchange_session(x, 0, false);
    const char *text = coatwright_sheet_text(session, name, bytes, length);
    if (text)
        exchange_json(x, json_pack("{s:s}", "text", text));
    else
        exchange_fail(x, session);
}

/* The list of the body, handed over under its name; its path, or NULL: the answer says what is wrong. */
static const char *add_list(struct exchange *x, struct coatwright *session)
{
    const json_t *list = json_object_get(x->body, "list");
    const char *name = text_of(list, "name"), *text = text_of(list, "text"),
               *base64 = text_of(list, "base64");
    const char *path =
        name && !strchr(name, '/') ? coatwright_folder_path(session, x->settings->folder, name) : NULL;
    if (path && text_of(x->body, "kind")) /* the library will write it */
        return path;
    size_t length = text ? json_string_length(json_object_get(list, "text")) : 0;
    const char *bytes = text ? text : base64 ? decode(x, base64, &length) : NULL;
    if (!path)
        exchange_refuse(x, 400, "list: expected the name of a list, such as cuts.csv");
    else if (!bytes)
        exchange_refuse(x, 400, "list: expected its text, or its bytes as base64");
    else if (coatwright_add_text(session, path, bytes, length))
        return path;
    else
        exchange_fail(x, session);
    return NULL;
}

static struct coatwright_new_want new_want(struct exchange *x, const char *list)
{
    struct coatwright_new_want want = COATWRIGHT_NEW_WANT_INIT;
    want.list = list;
    want.name = words_of(x, "name");
    want.start = words_of(x, "start");
    want.deliver = words_of(x, "deliver");
    want.outside = words_of(x, "outside");
    want.inside = words_of(x, "inside");
    want.units = words_of(x, "units");
    want.zone = words_of(x, "zone");
    want.flat = text_of(x->body, "flat");
    want.inner = text_of(x->body, "inner");
    want.hours = words_of(x, "hours");
    want.people = whole_of(x, "people");
    want.currency = words_of(x, "currency");
    want.kind = text_of(x->body, "kind");
    want.sizes = words_of(x, "sizes");
    want.wood = words_of(x, "wood");
    return want;
}

static json_t *made_json(const struct exchange *x, const struct coatwright_new_job *made)
{
    return json_pack("{s:s?, s:s?, s:s?, s:s?, s:s?, s:s?}", "job_file",
                     made->job_file ? exchange_name(x, made->job_file) : NULL, "shop_file",
                     made->shop_file ? exchange_name(x, made->shop_file) : NULL, "prices_file",
                     made->prices_file ? exchange_name(x, made->prices_file) : NULL, "flat", made->flat,
                     "inner", made->inner, "units_meant", made->units_meant);
}

void route_new(struct exchange *x)
{
    struct plan_kept plan = {.session = exchange_session(x, 0, false), .outcome = COATWRIGHT_OUTCOME_INIT};
    struct coatwright_new_job made = COATWRIGHT_NEW_JOB_INIT;
    bool save = json_is_true(json_object_get(x->body, "yes_save"));
    const char *list = add_list(x, plan.session);
    if (!list)
        return;
    struct coatwright_new_want want = new_want(x, list);
    plan.read = coatwright_new(plan.session, &want, &made);
    plan.planned = plan.read && coatwright_plan(plan.session, &plan.outcome);
    if (plan.read && save && !coatwright_save_new(plan.session)) {
        exchange_fail(x, plan.session);
        return;
    }
    json_t *state = state_json(x, &plan, false);
    member_put(x, state, "made", made_json(x, &made));
    member_put(x, state, "saved", json_boolean(plan.read && save));
    exchange_json(x, state);
}
