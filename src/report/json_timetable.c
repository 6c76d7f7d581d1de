#include "report/json.h"
#include "report/log.h"

#include "base/arena.h"
#include "report/sentences.h"

static void write_spread(struct json_write *w, const char *key, struct chance_spread spread)
{
    json_open_row(w, key, '{');
    json_put_number(w, "low", spread.low);
    json_put_number(w, "high", spread.high);
    json_put_text(w, "likeliest", spread.even ? NULL : "as planned");
    json_close(w);
}

static void write_learned_minutes(struct json_write *w, const struct chance *chance)
{
    json_open(w, "learned", '[');
    for (size_t i = 0; i < chance->learned_count; i++) {
        const struct finish *finish = chance->learned[i].finish;
        enum tool tool = chance->learned[i].tool;
        json_open_row(w, NULL, '{');
        json_put_text(w, "finish", finish->id);
        json_put_text(w, "tool", tool_name(tool));
        json_put_number(w, "factor", finish->tool_learned[tool].minutes_factor);
        json_put_number(w, "tolerance", finish->tool_learned[tool].minutes_tolerance);
        json_close(w);
    }
    json_close(w);
}

static void write_risk(struct json_write *w, const struct chance *chance)
{
    if (!chance->driver) {
        json_put_null(w, "risk");
        return;
    }
    json_open_row(w, "risk", '{');
    json_put_text(w, "id", chance->driver->operation->id);
    json_put_text(w, "state", finish_state_name(chance->driver_state));
    json_put_text(w, "of", chance->driver_late ? "late" : "later than planned");
    json_put_number(w, "share", chance->driver_share);
    json_put_whole(w, "adds_min", chance->driver_adds_min);
    json_close(w);
}

void write_chance(struct json_write *w, const char *key, const struct timetable *timetable,
                  const struct chance *chance)
{
    const struct chance_options *options = &chance->options;
    json_open(w, key, '{');
    json_put_whole(w, "draws", options->draws);
    json_put_whole(w, "seed", (int64_t)options->seed);
    json_put_whole(w, "on_time", chance->on_time);
    json_put_number(w, "share", (double)chance->on_time / options->draws);
    json_put_moment(w, "ready_50", timetable->job->zone, chance->half_min);
    json_put_moment(w, "ready_90", timetable->job->zone, chance->nine_tenths_min);
    json_put_whole(w, "scuffed", chance->scuffed);
    json_put_whole(w, "spoiled", chance->spoiled);
    write_risk(w, chance);
    write_spread(w, "drying", options->drying);
    write_spread(w, "hands_on", options->hands);
    write_learned_minutes(w, chance);
    json_put_number(w, "shared", options->shared);
    json_put_text(w, "source", "common practice, from memory");
    json_close(w);
}

static const char *side_name(enum side side)
{
    return side == SIDE_BACK ? "back" : side == SIDE_FACE ? "face" : NULL;
}

static void write_what(struct json_write *w, const struct job *job, const struct operation *operation)
{
    bool task = operation->piece < 0;
    bool finish = operation->of.step && (operation->doing == DO_APPLY || operation->doing == DO_POLISH);
    json_put_text(w, "piece", task ? NULL : job->pieces[operation->piece].name);
    json_put_text(w, "schedule", task ? NULL : job->schedules[operation->schedule].name);
    if (task) {
        json_put_null(w, "coat");
        json_put_null(w, "coats");
    } else {
        json_put_whole(w, "coat", operation->coat);
        json_put_whole(w, "coats", operation->coats);
    }
    json_put_text(w, "side", task ? NULL : side_name(operation->side));
    json_put_text(w, "do", doing_name(operation->doing));
    json_put_text(w, "finish", finish ? operation->of.step->finish->id : NULL);
}

static void write_after(struct json_write *w, const struct timetable *timetable,
                        const struct timetable_step *step)
{
    json_open(w, "after", '[');
    for (size_t i = 0; i < step->after_count; i++) {
        const struct waited *waited = &step->after[i];
        json_open_row(w, NULL, '{');
        json_put_text(w, "id", timetable->steps[waited->step].operation->id);
        json_put_text(w, "what",
                      link_words(waited->link, timetable->steps[waited->step].operation, step->operation));
        json_put_moment(w, "min_until", timetable->job->zone, waited->min_until);
        json_put_moment(w, "max_until", timetable->job->zone, waited->max_until);
        json_close(w);
    }
    json_close(w);
}

static void write_step(struct json_write *w, const struct timetable *timetable, size_t index)
{
    const struct timetable_step *step = &timetable->steps[index];
    json_open(w, NULL, '{');
    json_put_text(w, "id", step->operation->id);
    write_what(w, timetable->job, step->operation);
    json_put_moment(w, "start", timetable->job->zone, step->start_min);
    json_put_moment(w, "end", timetable->job->zone, step->end_min);
    json_put_whole(w, "person", step->person);
    json_put_text(w, "batch", timetable->batches[step->batch].id);
    json_put_whole(w, "lot", step->operation->lot);
    json_put_whole(w, "lots", step->operation->lots);
    json_put_whole(w, "float_min", step->float_min);
    write_after(w, timetable, step);
    json_put_text(w, "note", step_note(w->out->arena, timetable, index, units_of(timetable->job)));
    json_close(w);
}

static void write_batch_steps(struct json_write *w, const struct timetable *timetable,
                              const struct timetable_batch *batch)
{
    json_open(w, "steps", '[');
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[batch->steps[i]];
        json_open_row(w, NULL, '{');
        json_put_text(w, "id", step->operation->id);
        json_put_moment(w, "start", timetable->job->zone, step->start_min);
        json_put_moment(w, "end", timetable->job->zone, step->end_min);
        json_close(w);
    }
    json_close(w);
    json_open(w, "mixes", '[');
    for (size_t i = 0; i < batch->mix_count; i++) {
        json_open_row(w, NULL, '{');
        json_put_moment(w, "at", timetable->job->zone, batch->mixes[i].at_min);
        json_put_whole(w, "minutes", (batch->mixes[i].seconds + 59) / 60);
        json_close(w);
    }
    json_close(w);
}

static void write_batch(struct json_write *w, const struct timetable *timetable,
                        const struct timetable_batch *batch)
{
    const struct operation *first = batch->first;
    const struct zone *zone = timetable->job->zone;
    bool coat = first->doing == DO_APPLY;
    json_open(w, NULL, '{');
    json_put_text(w, "id", batch->id);
    json_put_text(w, "words", batch_words(w->out->arena, timetable, batch));
    json_put_text(w, "do", doing_name(first->doing));
    json_put_text(w, "finish", coat ? first->of.step->finish->id : NULL);
    json_put_text(w, "tool", coat ? tool_names[first->of.step->by] : NULL);
    json_put_text(w, "person", person_name(w->out->arena, &timetable->job->shop, batch->person));
    if (batch->helper > 0)
        json_put_text(w, "helper", person_name(w->out->arena, &timetable->job->shop, batch->helper));
    json_put_moment(w, "start", zone, batch->start_min);
    json_put_moment(w, "work_from", zone, batch->work_from_min);
    json_put_moment(w, "work_until", zone, batch->work_until_min);
    json_put_moment(w, "end", zone, batch->end_min);
    json_put_whole(w, "hands_on_min", batch->hands_on_min);
    json_put_whole(w, "float_min", batch->float_min);
    write_batch_steps(w, timetable, batch);
    json_put_text(w, "note", batch_note(w->out->arena, timetable, batch, units_of(timetable->job)));
    json_close(w);
}

static void write_head(struct json_write *w, const struct timetable *timetable)
{
    static const char *const statuses[] = {[TIMETABLE_PLANNED] = "planned",
                                           [TIMETABLE_IMPOSSIBLE] = "impossible",
                                           [TIMETABLE_UNKNOWN] = "unknown"};
    static const char *const aims[] = {
        [AIM_LEAST_WORK] = "least-work", [AIM_SOONEST] = "soonest", [AIM_LATEST] = "latest"};
    const struct zone *zone = timetable->job->zone;
    json_put_text(w, "job", timetable->job->name);
    json_put_text(w, "zone", zone->name);
    json_put_text(w, "status", statuses[timetable->status]);
    json_put_moment(w, "start", zone, timetable->start_min);
    json_put_moment(w, "ready", zone, timetable->ready_min);
    json_put_moment(w, "deliver", zone, timetable->deliver_min);
    json_put_whole(w, "late_min", timetable->late_min);
    json_put_whole(w, "spare_min", timetable->spare_min);
    json_put_text(w, "aim", aims[timetable->aim]);
    json_put_whole(w, "to_spare_min", timetable->deliver_min - timetable->aim_min);
    json_put_whole(w, "hands_on_min", timetable->hands_on_min);
    json_put_whole(w, "no_less_work_min", timetable->no_less_work_min);
    json_put_flag(w, "work_proven", timetable->work_proven);
    json_put_flag(w, "ready_proven", timetable->ready_proven);
    json_put_moment(w, "no_earlier_than", zone, timetable->no_earlier_than_min);
    if (timetable->ended)
        json_put_flag(w, "ended_early", true);
}

static void write_states(struct json_write *w, const struct timetable *timetable)
{
    json_open(w, "states", '[');
    for (size_t i = 0; i < timetable->state_count; i++) {
        const struct piece_state *state = &timetable->states[i];
        json_open_row(w, NULL, '{');
        json_put_text(w, "piece", timetable->job->pieces[state->piece].name);
        json_put_text(w, "state", finish_state_name(state->state));
        json_put_moment(w, "at", timetable->job->zone, state->at_min);
        json_close(w);
    }
    json_close(w);
}

void write_timetable(struct json_write *w, const char *key, const struct plan *plan,
                     const struct chance *chance)
{
    const struct timetable *timetable = plan->timetable;
    json_open(w, key, '{');
    write_head(w, timetable);
    json_open(w, "steps", '[');
    for (size_t i = 0; i < timetable->step_count; i++)
        write_step(w, timetable, i);
    json_close(w);
    json_open(w, "batches", '[');
    for (size_t i = 0; i < timetable->batch_count; i++)
        write_batch(w, timetable, &timetable->batches[i]);
    json_close(w);
    write_done(w, timetable);
    write_states(w, timetable);
    json_open(w, "chain", '[');
    for (size_t i = 0; i < timetable->chain_count; i++)
        json_put_text(w, NULL, timetable->steps[timetable->chain[i]].operation->id);
    json_close(w);
    json_open(w, "why", '[');
    for (size_t i = 0; i < timetable->why_count; i++)
        json_put_text(w, NULL,
                      reason_words(w->out->arena, timetable, &timetable->why[i], units_of(plan->job)));
    for (size_t i = 0; i < plan->advice.count; i++)
        json_put_text(w, NULL,
                      arena_textf(w->out->arena, "%zu. %s", i + 1,
                                  advice_sentence(w->out->arena, &plan->advice.items[i], plan->job->zone,
                                                  units_of(plan->job))));
    json_close(w);
    if (chance)
        write_chance(w, "chance", timetable, chance);
    json_close(w);
}
