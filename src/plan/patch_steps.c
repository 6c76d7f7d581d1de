#include "plan/patch.h"

#include "base/number.h"

static void add_text(struct buf *out, const char *key, const char *value)
{
    buf_addf(out, ", \"%s\": ", key);
    patch_string(out, value);
}

static void add_span(struct buf *out, const char *key, int32_t minutes)
{
    buf_addf(out, ", \"%s\": \"%d min\"", key, (int)minutes);
}

/* A grit, words, or true where there are none; without the braces. */
static void add_kind(struct buf *out, const struct step *step)
{
    buf_addf(out, "\"%s\": ", step_kind_name(step->kind));
    if (step->kind == STEP_SAND || step->kind == STEP_SCUFF)
        buf_addf(out, "%d", step->grit);
    else if (step->words)
        patch_string(out, step->words);
    else
        buf_add(out, "true");
}

static void add_coat(struct buf *out, const struct step *step)
{
    buf_add(out, "\"coat\": ");
    patch_string(out, step->finish->id);
    buf_addf(out, ", \"coats\": %d", step->coats);
    add_text(out, "by", tool_name(step->by));
    if (step->thin > 0)
        buf_addf(out, ", \"thin\": \"1:%s\"", number_format(step->thin).text);
    if (!step->between)
        return;
    buf_add(out, ", \"between\": {");
    add_kind(out, step->between);
    buf_add_char(out, '}');
}

static void add_wait(struct buf *out, const struct step *step)
{
    if (step->wait_min < 0)
        buf_addf(out, "\"wait\": \"%s\"", finish_state_name(step->wait_state));
    else
        buf_addf(out, "\"wait\": \"%d min\"", (int)step->wait_min);
}

static void add_step(struct buf *out, const struct step *step)
{
    buf_add_char(out, '{');
    if (step->kind == STEP_COAT)
        add_coat(out, step);
    else if (step->kind == STEP_WAIT)
        add_wait(out, step);
    else
        add_kind(out, step);
    if (step->kind == STEP_RAISE)
        add_span(out, "dry", step->dry_min);
    if (step->kind == STEP_MASK || step->kind == STEP_TASK)
        add_span(out, "takes", step->takes_min);
    buf_add_char(out, '}');
}

void patch_steps(struct buf *out, const struct schedule *schedule)
{
    buf_add_char(out, '[');
    for (size_t i = 0; i < schedule->step_count; i++) {
        buf_add(out, i ? ", " : "");
        add_step(out, &schedule->steps[i]);
    }
    buf_add_char(out, ']');
}
