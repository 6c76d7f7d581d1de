#include "report/sentences.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"
#include "base/number.h"

#include <math.h>

enum unit_system units_of(const struct job *job)
{
    return job->inches ? UNITS_US : UNITS_METRIC;
}

const char *state_words(enum finish_state state)
{
    static const char *const words[STATE_COUNT] = {
        [STATE_DUST_FREE] = "dust-free",  [STATE_HANDLE] = "dry to handle",
        [STATE_RECOAT] = "dry to recoat", [STATE_SAND] = "dry to sand",
        [STATE_WRAP] = "safe to wrap",    [STATE_LIGHT_USE] = "fit for light use",
        [STATE_CURED] = "fully cured",
    };
    return words[state];
}

const char *humidity_words(struct arena *arena, double humidity)
{
    return arena_textf(arena, "%s RH", share_format(humidity).text);
}

const char *moment_words(struct arena *arena, const struct job *job, int64_t minute)
{
    if (minute == INT64_MAX)
        return "never";
    return arena_text(arena, moment_format(job->zone, minute, MOMENT_DAY_TIME).text);
}

/* Coats of one finish that follow each other in a schedule, with nothing but other work between: those of a step. */
static int coats_of_finish(const struct operation *apply)
{
    const struct schedule *schedule = &apply->job->schedules[apply->schedule];
    const struct finish *finish = apply->of.step->finish;
    int coats = 0;
    bool here = false;
    for (size_t i = 0; i < schedule->step_count; i++) {
        const struct step *step = &schedule->steps[i];
        if (step->kind != STEP_COAT)
            continue;
        if (step->finish != finish && here)
            break;
        coats = step->finish == finish ? coats + step->coats : 0;
        here |= step == apply->of.step;
    }
    return coats;
}

const char *coat_words(struct arena *arena, const struct operation *apply)
{
    return arena_textf(arena, "coat %d of %d, %s", apply->of.of_finish, coats_of_finish(apply),
                       apply->of.step->finish->short_name);
}

const char *step_words(struct arena *arena, const struct operation *operation)
{
    switch (operation->doing) {
    case DO_APPLY:
        return coat_words(arena, operation);
    case DO_SAND:
    case DO_SCUFF:
        return arena_textf(arena, "%s %d", doing_name(operation->doing), operation->grit);
    case DO_RUB:
        return operation->words ? arena_textf(arena, "rub out, %s", operation->words) : "rub out";
    case DO_RAISE:
        return "raise the grain";
    case DO_TASK:
        return operation->words;
    default:
        return doing_name(operation->doing);
    }
}

const char *lot_words(struct arena *arena, const struct operation *operation)
{
    return operation->lots > 1 ? arena_textf(arena, " (lot %d of %d)", operation->lot, operation->lots) : "";
}

const char *side_words(const struct operation *operation)
{
    return operation->side == SIDE_BACK ? " (back)" : operation->side == SIDE_FACE ? " (face)" : "";
}

const char *step_piece(struct arena *arena, const struct operation *operation)
{
    if (operation->piece < 0)
        return "";
    return arena_textf(arena, "%s%s%s", operation->job->pieces[operation->piece].name,
                       lot_words(arena, operation), side_words(operation));
}

const char *step_amount(struct arena *arena, const struct plan *plan, const struct operation *operation,
                        enum unit_system units)
{
    if (operation->piece < 0 || operation->doing == DO_FLIP || operation->doing == DO_MASK ||
        operation->doing == DO_TASK)
        return "";
    const char *area = arena_text(arena, area_format(pass_area_m2(&operation->pass), units).text);
    if (operation->doing != DO_APPLY)
        return area;
    size_t apply = (size_t)(operation - plan->operations->items);
    struct litres litres = plan_litres(plan->timetable, apply);
    return arena_textf(arena, "%s on %s", volume_format(litres.likely + litres.thinner, units).text, area);
}

const char *outside_words(struct arena *arena, const struct job *job, const struct drying_wait *wait)
{
    const struct air_outside *outside = &wait->outside;
    if (outside->minutes == 0)
        return NULL;
    bool again = outside->minutes > outside->until_min - outside->from_min;
    return arena_textf(arena, "dries in air outside its limits from %s to %s%s%s%s",
                       moment_words(arena, job, outside->from_min),
                       moment_words(arena, job, outside->until_min), again ? " and again, " : "",
                       again ? span_format(outside->minutes).text : "", again ? " in all" : "");
}

const char *sections_words(struct arena *arena, const struct operation *operation, enum unit_system units)
{
    const struct sections *sections = &operation->detail.sections;
    if (operation->doing != DO_APPLY || sections->count == 0)
        return NULL;
    return arena_textf(arena, "%d section%s of %s", sections->count, sections->count == 1 ? "" : "s",
                       area_format(sections->area_m2, units).text);
}

const char *wipe_words(struct arena *arena, const struct operation *operation)
{
    const struct sections *sections = &operation->detail.sections;
    if (operation->doing != DO_APPLY || sections->count == 0)
        return NULL;
    return arena_textf(arena, "wiped dry %d to %d min after it is wetted",
                       (int)ceil(sections->least_min - 1e-9), (int)floor(sections->most_min + 1e-9));
}

const char *step_warning(struct arena *arena, const struct timetable *timetable, size_t step)
{
    const struct operation *operation = timetable->steps[step].operation;
    if (operation->late_scuff)
        return "the recoat window is missed: scuff first";
    if (operation->people > 1 && timetable->batches[timetable->steps[step].batch].helper == 0)
        return "takes two people to turn over: get help";
    if (operation->parts > 1)
        return arena_textf(arena, "part %d of %d", operation->part, operation->parts);
    for (size_t i = 0; operation->doing == DO_APPLY && i < timetable->wait_count; i++) {
        const char *air = NULL;
        if (timetable->waits[i].step == step)
            air = outside_words(arena, timetable->job, &timetable->waits[i]);
        if (air)
            return air;
    }
    return NULL;
}

const char *step_note(struct arena *arena, const struct timetable *timetable, size_t step,
                      enum unit_system units)
{
    const struct operation *operation = timetable->steps[step].operation;
    const char *warning = step_warning(arena, timetable, step), *sections = NULL;
    if (wipe_words(arena, operation))
        sections = arena_textf(arena, "%s, each %s", sections_words(arena, operation, units),
                               wipe_words(arena, operation));
    return sections && warning ? arena_textf(arena, "%s; %s", sections, warning)
           : sections          ? sections
                               : warning;
}

const char *schedule_words(const struct job *job, int schedule)
{
    return schedule < 0 ? "bare" : job->schedules[schedule].name;
}

const char *person_name(struct arena *arena, const struct shop *shop, int person)
{
    return shop->crew ? shop->crew[person - 1].name : arena_textf(arena, "person %d", person);
}
