#include "source/read_job_parts.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "source/read_words.h"

#include <string.h>

enum { GRIT_LEAST = 24, GRIT_MOST = 10000, COATS_MOST = 20, RAISED_DRY_MIN = 120, KEYS_MOST = 5 };

/* What may stand in each kind of step; its own name comes first. */
static const struct {
    const char *what;
    const char *keys[KEYS_MOST];
    size_t count;
} forms[STEP_KIND_COUNT] = {
    [STEP_SAND] = {"a sanding step", {"sand"}, 1},
    [STEP_SCUFF] = {"a scuff", {"scuff"}, 1},
    [STEP_RAISE] = {"a step that raises the grain", {"raise", "dry"}, 2},
    [STEP_MASK] = {"a masking step", {"mask", "takes"}, 2},
    [STEP_COAT] = {"a coat", {"coat", "coats", "by", "thin", "between"}, 5},
    [STEP_POLISH] = {"a polishing step", {"polish"}, 1},
    [STEP_RUB] = {"a rubbing step", {"rub"}, 1},
    [STEP_WAIT] = {"a wait", {"wait"}, 1},
    [STEP_TASK] = {"a task", {"task", "takes"}, 2},
};

static void read_grit(struct json_at at, int *grit)
{
    if (json_count(at, GRIT_MOST, grit) && *grit < GRIT_LEAST)
        json_refuse(at, "a grit from 24 to 10000");
}

/* `true`, or words about it. A time here would be lost in silence. */
static void read_words(struct json_at at, const char *time_key, struct step *step)
{
    struct arena *arena = at.doc->reading->arena;
    struct err fault;
    int64_t span;
    if (json_is_true(at) || !json_text(at, "true, or words", &step->words))
        return;
    if (span_parse(step->words, &span, &fault))
        json_refuse(at, arena_textf(arena, "true, or words, and the time as \"%s\"", time_key));
}

static void read_wait(struct json_at at, struct step *step)
{
    const char *text;
    struct err fault;
    int64_t span;
    const char *states[STATE_COUNT];
    step->wait_min = -1;
    state_names(states);
    if (!json_text(at, "a time span or a state such as \"cured\"", &text))
        return;
    for (int i = 0; i < STATE_COUNT; i++)
        if (strcmp(text, states[i]) == 0) {
            step->wait_state = (enum finish_state)i;
            return;
        }
    if (span_parse(text, &span, &fault) && span < INT32_MAX)
        step->wait_min = (int32_t)span;
    else if (text[0] >= '0' && text[0] <= '9')
        json_refuse(at, fault.expected);
    else
        json_refuse_name(at, "a time span or a state such as \"cured\"", states, STATE_COUNT);
}

/* `2:1` is finish to thinner; `10 %` is thinner per finish. */
static void read_thin(struct json_at at, double *thin)
{
    json_quantity(at, proportion_parse, thin);
}

/* The step between coats: the schedule's own, or the finish's. */
static void read_between(struct json_at at, struct step *coat)
{
    static const char *const keys[] = {"sand", "scuff", "rub"};
    struct step *between = ARENA_NEW(at.doc->reading->arena, struct step);
    if (!json_object(at, "the step between coats", keys, 3))
        return;
    if (json_size(at) != 1) {
        json_refuse(at, "one of \"sand\", \"scuff\" or \"rub\"");
        return;
    }
    const char *key = json_name(json_first(at));
    between->kind = strcmp(key, "rub") == 0 ? STEP_RUB : strcmp(key, "scuff") == 0 ? STEP_SCUFF : STEP_SAND;
    if (between->kind == STEP_RUB)
        json_text(json_first(at), "what to rub with, such as \"steel wool 0000\"", &between->words);
    else
        read_grit(json_first(at), &between->grit);
    coat->between = between;
}

static void find_finish(const struct job_draft *draft, struct json_at at, struct step *step)
{
    const char *id;
    struct arena *arena = draft->reading->arena;
    if (!json_text(at, "a finish of the table", &id))
        return;
    step->finish = finish_table_find(draft->finishes, id);
    if (!step->finish && !finish_table_failed(draft->finishes, id))
        json_refuse_name(at, "a finish of the table", finish_table_ids(arena, draft->finishes),
                         draft->finishes->count);
}

static void read_coat(const struct job_draft *draft, struct json_at at, struct step *step)
{
    find_finish(draft, json_member(at, "coat"), step);
    if (step->finish) {
        step->coats = step->finish->coats_usual;
        step->by = step->finish->usual_tool;
        step->between = step_usual_between(draft->reading->arena, step->finish);
    }
    if (json_has(at, "coats"))
        json_count(json_member(at, "coats"), COATS_MOST, &step->coats);
    if (json_has(at, "by"))
        read_tool(json_member(at, "by"), &step->by);
    if (json_has(at, "thin"))
        read_thin(json_member(at, "thin"), &step->thin);
    if (json_has(at, "between"))
        read_between(json_member(at, "between"), step);
}

/* Which kind a step is: the one kind whose name is among its keys. -1: none, which is told. */
static int kind_of(struct json_at at)
{
    const char *names[STEP_KIND_COUNT];
    int kind = -1;
    for (int i = 0; i < STEP_KIND_COUNT; i++) {
        names[i] = step_kind_name((enum step_kind)i);
        if (kind < 0 && json_has(at, names[i]))
            kind = i;
    }
    if (kind >= 0)
        return kind;
    if (!json_is_object(at) || json_size(at) == 0)
        json_refuse(at, "a step such as {\"sand\": 180}");
    else
        json_object(at, "a step", names, STEP_KIND_COUNT);
    return -1;
}

void job_read_step(const struct job_draft *draft, struct json_at at, struct step *step)
{
    int kind = kind_of(at);
    if (kind < 0 || !json_object(at, forms[kind].what, forms[kind].keys, forms[kind].count))
        return;
    struct json_at value = json_member(at, forms[kind].keys[0]);
    step->kind = (enum step_kind)kind;
    step->dry_min = RAISED_DRY_MIN;
    if (kind == STEP_SAND || kind == STEP_SCUFF)
        read_grit(value, &step->grit);
    else if (kind == STEP_RAISE || kind == STEP_MASK || kind == STEP_POLISH)
        read_words(value, kind == STEP_RAISE ? "dry" : "takes", step);
    else if (kind == STEP_COAT)
        read_coat(draft, at, step);
    else if (kind == STEP_WAIT)
        read_wait(value, step);
    else
        json_text(value,
                  kind == STEP_RUB ? "what to rub with, such as \"steel wool 0000\"" : "words for the task",
                  &step->words);
    if (json_has(at, "dry"))
        json_span(json_member(at, "dry"), &step->dry_min);
    if (kind == STEP_MASK || kind == STEP_TASK)
        json_span(json_member(at, "takes"), &step->takes_min);
}
