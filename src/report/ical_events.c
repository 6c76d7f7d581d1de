/* What goes into the calendar: hands-on steps, drying, shopping; and the alarms that a maker must not miss. */
#include "report/ical_parts.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/measure.h"
#include "base/moment.h"
#include "report/step_words.h"
#include "report/sundry_words.h"

#include <math.h>

enum {
    WINDOW_WARNING_MIN = 120, /* before a recoat window ends */
    SOON_WARNING_MIN = 10,    /* before a pot dies, or a polish window ends */
    MOST_LOT_ALARMS = 24,
};

static const char *moment_words(const struct ical_scene *scene, int64_t minute)
{
    return arena_text(scene->arena, moment_format(scene->plan->job->zone, minute, MOMENT_DAY_TIME).text);
}

static void add_alarm(const struct ical_scene *scene, icalcomponent *event, int64_t minute, const char *words)
{
    icalcomponent *alarm = icalcomponent_new(ICAL_VALARM_COMPONENT);
    icalcomponent_add_component(event, alarm);
    icalcomponent_add_property(alarm, icalproperty_new_action(ICAL_ACTION_DISPLAY));
    struct icaltriggertype trigger = {ical_utc(minute), icaldurationtype_null_duration()};
    icalproperty *property = icalproperty_new_trigger(trigger);
    icalproperty_add_parameter(property, icalparameter_new_value(ICAL_VALUE_DATETIME));
    icalcomponent_add_property(alarm, property);
    icalcomponent_add_property(alarm, icalproperty_new_description(ical_clean(scene->arena, words)));
}

static void relate(const struct ical_scene *scene, icalcomponent *event, const char *uid)
{
    icalcomponent_add_property(event, icalproperty_new_relatedto(ical_clean(scene->arena, uid)));
}

static const char *summary_of(const struct ical_scene *scene, const struct operation *operation,
                              const char *words)
{
    const char *piece = step_piece(scene->arena, operation);
    const char *summary = piece[0] ? arena_textf(scene->arena, "%s: %s", piece, words) : words;
    return scene->several ? arena_textf(scene->arena, "%s: %s", scene->plan->job->name, summary) : summary;
}

static const char *description_of(const struct ical_scene *scene, const struct timetable_step *step)
{
    struct buf text;
    buf_init(&text, scene->arena);
    buf_addf(&text, "%s", step_amount(scene->arena, scene->plan, step->operation));
    if (step->note)
        buf_addf(&text, "%s%s", text.length ? "\n" : "", step->note);
    for (size_t i = 0; i < step->after_count; i++) {
        const struct waited *waited = &step->after[i];
        if (waited->max_until == INT64_MAX)
            continue;
        buf_addf(&text, "%sstart by %s (%s)", text.length ? "\n" : "", moment_words(scene, waited->max_until),
                 waited->what);
    }
    return text.text;
}

/* A lot must be wiped between two times after it was wetted: the alarm says when to begin wiping. */
static void add_lot_alarms(const struct ical_scene *scene, icalcomponent *event,
                           const struct timetable_step *step)
{
    const struct coat_minutes *detail = &step->operation->detail;
    if (detail->sections.count == 0)
        return;
    const struct finish *finish = step->operation->of.step->finish;
    double lot = detail->sections.minutes / detail->sections.count;
    double first = detail->set_up + detail->mixing + finish->wipe_off.least_min;
    for (int i = 0; i < detail->sections.count && i < MOST_LOT_ALARMS; i++)
        add_alarm(scene, event, step->start_min + (int64_t)floor(first + i * lot),
                  arena_textf(scene->arena, "wipe off lot %d of %d", i + 1, detail->sections.count));
}

static void add_pot_alarms(const struct ical_scene *scene, icalcomponent *event,
                           const struct timetable_step *step)
{
    const struct mix_cards *mixes = scene->plan->mixes;
    for (size_t i = 0; i < mixes->count; i++) {
        const struct mix_card *card = &mixes->items[i];
        if (card->step_id != step->operation->id || card->use_by_min == INT64_MAX)
            continue;
        add_alarm(scene, event, card->use_by_min - SOON_WARNING_MIN,
                  arena_textf(scene->arena, "mix %d of %d is dead at %s", card->number, card->of,
                              moment_words(scene, card->use_by_min)));
    }
}

static void add_window_alarms(const struct ical_scene *scene, icalcomponent *event,
                              const struct timetable_step *step)
{
    for (size_t i = 0; step->operation->doing == DO_POLISH && i < step->after_count; i++)
        if (step->after[i].max_until != INT64_MAX)
            add_alarm(scene, event, step->after[i].max_until - SOON_WARNING_MIN,
                      arena_textf(scene->arena, "start polishing by %s",
                                  moment_words(scene, step->after[i].max_until)));
}

void ical_add_steps(const struct ical_scene *scene)
{
    const struct timetable *timetable = scene->plan->timetable;
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[i];
        icalcomponent *event =
            ical_add_component(scene, ICAL_VEVENT_COMPONENT, ical_step_uid(scene, step->operation, ""),
                               summary_of(scene, step->operation, step_words(scene->arena, step->operation)),
                               doing_name(step->operation->doing), description_of(scene, step));
        ical_add_moment(scene, event, icalproperty_new(ICAL_DTSTART_PROPERTY), step->start_min);
        ical_add_moment(scene, event, icalproperty_new(ICAL_DTEND_PROPERTY), step->end_min);
        for (size_t k = 0; k < step->after_count; k++)
            relate(scene, event, ical_step_uid(scene, timetable->steps[step->after[k].step].operation, ""));
        add_lot_alarms(scene, event, step);
        add_pot_alarms(scene, event, step);
        add_window_alarms(scene, event, step);
    }
}

void ical_add_waits(const struct ical_scene *scene)
{
    const struct timetable *timetable = scene->plan->timetable;
    for (size_t i = 0; i < timetable->wait_count; i++) {
        const struct drying_wait *wait = &timetable->waits[i];
        const struct operation *apply = timetable->steps[wait->step].operation;
        if (wait->until_min == INT64_MAX || wait->until_min <= wait->from_min)
            continue;
        bool window = wait->window_min != INT64_MAX;
        const char *until = arena_textf(scene->arena, "%s at %s", state_words(wait->state),
                                        moment_words(scene, wait->until_min));
        const char *more = window ? arena_textf(scene->arena, "%s\nrecoat by %s", until,
                                                moment_words(scene, wait->window_min))
                                  : until;
        icalcomponent *event = ical_add_component(
            scene, ICAL_VEVENT_COMPONENT, ical_step_uid(scene, apply, "/drying"),
            summary_of(scene, apply, arena_textf(scene->arena, "coat %d drying", apply->coat)), "drying",
            more);
        ical_add_moment(scene, event, icalproperty_new(ICAL_DTSTART_PROPERTY), wait->from_min);
        ical_add_moment(scene, event, icalproperty_new(ICAL_DTEND_PROPERTY), wait->until_min);
        icalcomponent_add_property(event, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
        relate(scene, event, ical_step_uid(scene, apply, ""));
        if (window)
            add_alarm(scene, event, wait->window_min - WINDOW_WARNING_MIN,
                      arena_textf(scene->arena, "recoat by %s", moment_words(scene, wait->window_min)));
    }
}

/* The first coat is when the shopping must be there. */
static int64_t shopping_due(const struct timetable *timetable)
{
    for (size_t i = 0; i < timetable->step_count; i++)
        if (timetable->steps[i].operation->doing == DO_APPLY)
            return timetable->steps[i].start_min;
    return timetable->start_min;
}

static void add_sundries(const struct ical_scene *scene, struct buf *list)
{
    const struct sundries *sundries = scene->plan->sundries;
    if (sundries->count)
        buf_addf(list, "%sby rules of thumb:", list->length ? "\n" : "");
    for (size_t i = 0; i < sundries->count; i++)
        buf_addf(list, "\n%s %s", sundry_amount(scene->arena, &sundries->items[i], UNITS_METRIC),
                 sundry_name(scene->arena, &sundries->items[i]));
}

void ical_add_shopping(const struct ical_scene *scene)
{
    const struct purchases *purchases = scene->plan->purchases;
    struct buf list;
    buf_init(&list, scene->arena);
    for (size_t i = 0; i < purchases->count; i++) {
        const struct purchase *purchase = &purchases->items[i];
        for (size_t k = 0; k < purchase->kit_count; k++)
            buf_addf(&list, "%s%d x %s %s", list.length ? "\n" : "", purchase->kits[k].count,
                     purchase->kits[k].kit->label, purchase->need.finish->name);
        for (size_t c = 0; c < purchase->need.finish->component_count; c++) {
            const struct purchase_component *component = &purchase->components[c];
            for (size_t k = 0; k < component->pack_count; k++)
                buf_addf(&list, "%s%d x %s %s, %s", list.length ? "\n" : "", component->packs[k].count,
                         component->packs[k].pack->label, purchase->need.finish->name,
                         purchase->need.finish->components[c].name);
        }
    }
    add_sundries(scene, &list);
    if (list.length == 0)
        return;
    icalcomponent *todo = ical_add_component(
        scene, ICAL_VTODO_COMPONENT, arena_textf(scene->arena, "%s/shopping@coatwright", scene->job_slug),
        arena_textf(scene->arena, "buy finishes for %s", scene->plan->job->name), "shopping", list.text);
    ical_add_moment(scene, todo, icalproperty_new(ICAL_DUE_PROPERTY), shopping_due(scene->plan->timetable));
}
