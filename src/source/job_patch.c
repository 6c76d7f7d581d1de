#include "source/job_patch.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"
#include "base/number.h"
#include "source/shop_file.h"

#include <string.h>

/* A grit, words, or true where there are none. */
static void put_kind(struct json_write *to, const struct step *step)
{
    const char *key = step_kind_name(step->kind);
    if (step->kind == STEP_SAND || step->kind == STEP_SCUFF)
        json_put_whole(to, key, step->grit);
    else if (step->words)
        json_put_text(to, key, step->words);
    else
        json_put_flag(to, key, true);
}

static void put_coat(struct json_write *to, const struct step *step)
{
    json_put_text(to, "coat", step->finish->id);
    json_put_whole(to, "coats", step->coats);
    json_put_text(to, "by", tool_name(step->by));
    if (step->thin > 0)
        json_put_text(to, "thin", arena_textf(to->out->arena, "1:%s", number_format(step->thin).text));
    if (!step->between)
        return;
    json_open(to, "between", '{');
    put_kind(to, step->between);
    json_close(to);
}

static void put_step(struct json_write *to, const struct step *step)
{
    json_open(to, NULL, '{');
    if (step->kind == STEP_COAT)
        put_coat(to, step);
    else if (step->kind == STEP_WAIT)
        json_put_text(to, "wait",
                      step->wait_min < 0 ? finish_state_name(step->wait_state)
                                         : span_write(step->wait_min).text);
    else
        put_kind(to, step);
    if (step->kind == STEP_RAISE)
        json_put_text(to, "dry", span_write(step->dry_min).text);
    if (step->kind == STEP_MASK || step->kind == STEP_TASK)
        json_put_text(to, "takes", span_write(step->takes_min).text);
    json_close(to);
}

/* Every schedule whose list of steps is another. */
static void put_schedules(struct json_write *to, const struct job *job, const struct job *changed)
{
    if (job->schedules == changed->schedules)
        return;
    json_open(to, "schedules", '{');
    for (size_t i = 0; i < job->schedule_count; i++) {
        const struct schedule *schedule = &changed->schedules[i];
        if (schedule->steps == job->schedules[i].steps)
            continue;
        json_open(to, schedule->name, '[');
        for (size_t k = 0; k < schedule->step_count; k++)
            put_step(to, &schedule->steps[k]);
        json_close(to);
    }
    json_close(to);
}

static bool shop_changed(const struct job *job, const struct job *changed)
{
    return memcmp(&job->shop, &changed->shop, sizeof job->shop) != 0;
}

/* On one line, without its end. */
static const char *one_line(struct buf *buf)
{
    if (buf->length > 0 && buf->text[buf->length - 1] == '\n')
        buf->text[--buf->length] = '\0';
    return buf->text;
}

static const char *job_change(struct arena *arena, const struct job *job, const struct job *changed)
{
    struct buf out;
    struct json_write to;
    buf_init(&out, arena);
    json_write_init(&to, &out);
    json_open_row(&to, NULL, '{');
    if (job->deliver_is_day != changed->deliver_is_day)
        json_put_text(&to, "deliver", moment_format(changed->zone, changed->deliver_min, MOMENT_PLAIN).text);
    if (job->deliver_at != changed->deliver_at)
        json_put_text(&to, "deliver-at", finish_state_name(changed->deliver_at));
    if (!job->shop_file && shop_changed(job, changed)) {
        json_open(&to, "shop", '{');
        shop_write(&to, &changed->shop, &job->shop);
        json_close(&to);
    }
    put_schedules(&to, job, changed);
    json_close(&to);
    return one_line(&out);
}

static const char *shop_change(struct arena *arena, const struct job *job, const struct job *changed)
{
    struct buf out;
    struct json_write to;
    buf_init(&out, arena);
    json_write_init(&to, &out);
    json_open_row(&to, NULL, '{');
    shop_write(&to, &changed->shop, &job->shop);
    json_close(&to);
    return one_line(&out);
}

const struct job_writer job_writer = {job_change, shop_change};
