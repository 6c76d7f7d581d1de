/* `schedules`: names of finishing schedules, each a list of steps. A step is an object of one of several forms, told by
 * the key of its kind. */
#include "source/job_draft.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "base/measure.h"
#include "base/number.h"

#include <stdio.h>
#include <string.h>

enum { RAISED_DRY_MIN = 120 };

/* `true`, or words about it. A time here would be lost in silence. */
static void read_words(struct field_in in)
{
    struct arena *arena = in.at.doc->reading->arena;
    struct step *step = in.record;
    int64_t span;
    if (json_is_true(in.at) || !json_text(in.at, "true, or words", &step->words))
        return;
    if (span_parse(step->words, &span, NULL))
        json_refuse(in.at, arena_textf(arena, "true, or words, and the time as \"%s\"",
                                       step->kind == STEP_RAISE ? "dry" : "takes"));
}

static void write_words(struct field_out out)
{
    const struct step *step = out.record;
    if (step->words)
        json_put_text(out.to, out.key, step->words);
    else
        json_put_flag(out.to, out.key, true);
}

static void read_wait(struct field_in in)
{
    static const char expected[] = "a time span or a state such as \"cured\"";
    struct step *step = in.record;
    const char *text;
    step->wait_min = -1;
    if (!json_text(in.at, expected, &text))
        return;
    for (int i = 0; i < STATE_COUNT; i++)
        if (strcmp(text, finish_state_names[i]) == 0) {
            step->wait_state = (enum finish_state)i;
            return;
        }
    if (text[0] >= '0' && text[0] <= '9')
        read_span(in.at, LIMIT_WAIT, &step->wait_min);
    else
        json_refuse_name(in.at, expected, finish_state_names, STATE_COUNT);
}

static void write_wait(struct field_out out)
{
    const struct step *step = out.record;
    json_put_text(out.to, out.key,
                  step->wait_min < 0 ? finish_state_names[step->wait_state]
                                     : span_write(step->wait_min).text);
}

static void read_finish(struct field_in in)
{
    const struct job_draft *draft = in.context;
    struct step *step = in.record;
    const char *id;
    if (!json_text(in.at, "a finish of the table", &id))
        return;
    step->finish = finish_table_find(draft->finishes, id);
    if (!step->finish && !finish_table_failed(draft->finishes, id))
        json_refuse_name(in.at, "a finish of the table",
                         finish_table_ids(draft->reading->arena, draft->finishes), draft->finishes->count);
    if (!step->finish)
        return;
    step->coats = step->finish->coats_usual;
    step->by = step->finish->usual_tool;
    step->between = step_usual_between(draft->reading->arena, step->finish, step->by);
}

static void write_finish(struct field_out out)
{
    json_put_text(out.to, out.key, ((const struct step *)out.record)->finish->id);
}

/* `2:1` is finish to thinner; `10 %` is thinner per finish. */
static const struct quantity thinning = {proportion_parse, NULL};

static void write_thin(struct field_out out)
{
    const struct step *step = out.record;
    char text[80];
    snprintf(text, sizeof text, "1:%s", number_format(step->thin).text);
    if (step->thin > 0)
        json_put_text(out.to, out.key, text);
}

static const char rub_with[] = "what to rub with, such as \"steel wool 0000\"";

static const struct field between_items[] = {
    {"sand", FIELD_WHOLE, AT(step, grit), .limit = LIMIT_GRIT},
    {"scuff", FIELD_WHOLE, AT(step, grit), .limit = LIMIT_GRIT},
    {"rub", FIELD_TEXT, AT(step, words), .expected = rub_with},
};
static const struct fields between_fields = FIELDS("the step between coats", between_items);

/* A tool may do without the finish's step between coats. */
static void read_by(struct field_in in)
{
    struct step *step = in.record;
    int tool;
    if (!json_choice(in.at, tool_names, TOOL_COUNT, &tool))
        return;
    step->by = (enum tool)tool;
    if (step->finish)
        step->between = step_usual_between(in.at.doc->reading->arena, step->finish, step->by);
}

/* The step between coats: the schedule's own, or the finish's. */
static void read_between(struct field_in in)
{
    struct step *between = ARENA_NEW(in.at.doc->reading->arena, struct step);
    if (json_is_object(in.at) && json_size(in.at) != 1)
        json_refuse(in.at, "one of \"sand\", \"scuff\" or \"rub\"");
    else if (fields_read(in.at, &between_fields, between, NULL)) {
        between->kind = json_has(in.at, "rub") ? STEP_RUB : json_has(in.at, "scuff") ? STEP_SCUFF : STEP_SAND;
        ((struct step *)in.record)->between = between;
    }
}

static void write_between(struct field_out out)
{
    const struct step *between = ((const struct step *)out.record)->between;
    if (!between)
        return;
    json_open_row(out.to, out.key, '{');
    if (between->kind == STEP_RUB)
        json_put_text(out.to, "rub", between->words);
    else
        json_put_whole(out.to, step_names[between->kind], between->grit);
    json_close(out.to);
}

/* For the whole step, unless it says what each part takes. */
static void read_takes(struct field_in in)
{
    struct step *step = in.record;
    if (in.at.node || step->takes_each_min == 0)
        read_span(in.at, LIMIT_HANDS_ON, &step->takes_min);
}

static void write_takes(struct field_out out)
{
    const struct step *step = out.record;
    bool each = strcmp(out.key, "takes-each") == 0;
    int32_t minutes = each ? step->takes_each_min : step->takes_min;
    char text[32];
    snprintf(text, sizeof text, "%d min", (int)minutes);
    if (minutes > 0 || (!each && step->takes_each_min == 0))
        json_put_text(out.to, out.key, text);
}

#define TAKES                                                                                                \
    {"takes-each", FIELD_SPAN, AT(step, takes_each_min), .limit = LIMIT_HANDS_ON, .write = write_takes},     \
    {                                                                                                        \
        "takes", FIELD_SPAN, AT(step, takes_min), .needed = true, .limit = LIMIT_HANDS_ON,                   \
                                                  .read = read_takes, .write = write_takes                   \
    }

static const struct field sanding[] = {{"sand", FIELD_WHOLE, AT(step, grit), .limit = LIMIT_GRIT}};
static const struct field scuffing[] = {{"scuff", FIELD_WHOLE, AT(step, grit), .limit = LIMIT_GRIT}};
static const struct field raising[] = {
    {"raise", FIELD_TEXT, AT(step, words), .read = read_words, .write = write_words},
    {"dry", FIELD_SPAN, AT(step, dry_min), .limit = LIMIT_WAIT},
};
static const struct field masking[] = {
    {"mask", FIELD_TEXT, AT(step, words), .read = read_words, .write = write_words}, TAKES};
static const struct field coating[] = {
    {"coat", FIELD_OWN, .read = read_finish, .write = write_finish},
    {"coats", FIELD_WHOLE, AT(step, coats), .limit = LIMIT_COATS},
    {"by", FIELD_WORD, AT(step, by), WORDS(tool_names), .read = read_by},
    {"thin", FIELD_QUANTITY, AT(step, thin), .quantity = &thinning, .write = write_thin},
    {"between", FIELD_OWN, .read = read_between, .write = write_between},
};
static const struct field polishing[] = {
    {"polish", FIELD_TEXT, AT(step, words), .read = read_words, .write = write_words}};
static const struct field rubbing[] = {{"rub", FIELD_TEXT, AT(step, words), .expected = rub_with}};
static const struct field waiting[] = {{"wait", FIELD_OWN, .read = read_wait, .write = write_wait}};
static const struct field task[] = {{"task", FIELD_TEXT, AT(step, words), .expected = "words for the task"},
                                    TAKES};

/* By kind; the key that tells the kind stands first. */
static const struct fields forms[STEP_KIND_COUNT] = {
    [STEP_SAND] = FIELDS("a sanding step", sanding),
    [STEP_SCUFF] = FIELDS("a scuff", scuffing),
    [STEP_RAISE] = FIELDS("a step that raises the grain", raising),
    [STEP_MASK] = FIELDS("a masking step", masking),
    [STEP_COAT] = FIELDS("a coat", coating),
    [STEP_POLISH] = FIELDS("a polishing step", polishing),
    [STEP_RUB] = FIELDS("a rubbing step", rubbing),
    [STEP_WAIT] = FIELDS("a wait", waiting),
    [STEP_TASK] = FIELDS("a task", task),
};

/* Which kind a step is: the one kind whose name is among its keys. -1: none, which is reported. */
static int kind_of(struct json_at at)
{
    for (int kind = 0; kind < STEP_KIND_COUNT; kind++)
        if (json_has(at, step_names[kind]))
            return kind;
    if (!json_is_object(at) || json_size(at) == 0)
        json_refuse(at, "a step such as {\"sand\": 180}");
    else
        json_object(at, "a step", step_names, STEP_KIND_COUNT);
    return -1;
}

static void read_step(const struct job_draft *draft, struct json_at at, struct step *step)
{
    int kind = kind_of(at);
    if (kind < 0)
        return;
    step->kind = (enum step_kind)kind;
    step->dry_min = RAISED_DRY_MIN;
    fields_read(at, &forms[kind], step, draft);
}

static void read_steps(const struct job_draft *draft, struct json_at list, struct schedule *schedule)
{
    if (!filled_list(list, "a list of at least one step"))
        return;
    if (json_size(list) > (size_t)limits[LIMIT_STEPS].most) {
        json_refuse_found(list, limits[LIMIT_STEPS].expected,
                          arena_textf(draft->reading->arena, "%zu", json_size(list)));
        return;
    }
    int coats = 0;
    struct step *steps = ARENA_ARRAY(draft->reading->arena, json_size(list), struct step);
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        read_step(draft, item, &steps[schedule->step_count]);
        coats += steps[schedule->step_count++].coats;
    }
    if (coats > (int)limits[LIMIT_COATS_IN_ALL].most)
        json_refuse_found(list, limits[LIMIT_COATS_IN_ALL].expected,
                          arena_textf(draft->reading->arena, "%d", coats));
    schedule->steps = steps;
}

/* A name stands in part lists, where "-" means bare and blanks at its ends are lost. */
static void check_name(struct json_at member)
{
    const char *name = json_name(member);
    size_t length = strlen(name);
    if (length == 0 || strcmp(name, "-") == 0 || name[0] == ' ' || name[length - 1] == ' ')
        json_refuse_key(member, "a name that a part list can say", NULL, 0);
}

void job_read_schedules(struct field_in in)
{
    struct job_draft *draft = (struct job_draft *)in.context;
    struct job *job = in.record;
    struct arena *arena = draft->reading->arena;
    bool added;
    if (!json_is_object(in.at) || json_size(in.at) == 0) {
        json_refuse(in.at, "at least one finishing schedule, as an object in braces");
        return;
    }
    struct schedule *schedules = ARENA_ARRAY(arena, json_size(in.at), struct schedule);
    for (struct json_at member = json_first(in.at); member.node; member = json_next(member)) {
        struct schedule *schedule = &schedules[job->schedule_count++];
        schedule->name = arena_text(arena, json_name(member));
        names_add(&draft->schedules, schedule->name, &added);
        check_name(member);
        read_steps(draft, member, schedule);
    }
    job->schedules = schedules;
    draft->schedules_known = true;
}

static bool same_finish(const struct finish *a, const struct finish *b)
{
    return a && b ? finish_same(a, b) : a == b;
}

static bool same_step(const struct step *a, const struct step *b)
{
    if (a->kind != b->kind || !same_finish(a->finish, b->finish) || a->wait_min != b->wait_min ||
        a->wait_state != b->wait_state || !a->between != !b->between)
        return false;
    for (size_t i = 0; i < forms[a->kind].count; i++)
        if (!field_same(&forms[a->kind].items[i], a, b))
            return false;
    return !a->between || same_step(a->between, b->between);
}

static bool same_schedule(const struct schedule *a, const struct schedule *b)
{
    for (size_t i = 0; i < a->step_count && a->step_count == b->step_count; i++)
        if (!same_step(&a->steps[i], &b->steps[i]))
            return false;
    return a->step_count == b->step_count;
}

/* Whether a job has the very schedule. */
static bool has_schedule(const struct job *job, const struct schedule *schedule)
{
    int i = job_schedule_find(job, schedule->name);
    return i >= 0 && same_schedule(&job->schedules[i], schedule);
}

bool job_same_schedules(const void *a, const void *b)
{
    const struct job *left = a, *right = b;
    for (size_t i = 0; i < left->schedule_count; i++)
        if (!has_schedule(right, &left->schedules[i]))
            return false;
    return left->schedule_count == right->schedule_count;
}

/* Every key that the reader would set is written out. */
static void write_steps(struct json_write *to, const struct schedule *schedule)
{
    json_open(to, schedule->name, '[');
    for (size_t i = 0; i < schedule->step_count; i++) {
        json_open_row(to, NULL, '{');
        fields_write(to, &forms[schedule->steps[i].kind], &schedule->steps[i], NULL);
        json_close(to);
    }
    json_close(to);
}

void job_write_schedules(struct field_out out)
{
    const struct job *job = out.record, *base = out.base;
    json_open(out.to, out.key, '{');
    for (size_t i = 0; i < job->schedule_count; i++)
        if (!base || !has_schedule(base, &job->schedules[i]))
            write_steps(out.to, &job->schedules[i]);
    json_close(out.to);
}
