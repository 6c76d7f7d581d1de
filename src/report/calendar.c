/* What goes into the calendar: hands-on steps, drying, shopping; and the alarms that a maker must not miss. */
#include "report/calendar.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/err.h"
#include "base/measure.h"
#include "base/moment.h"
#include "base/text.h"
#include "format/ical_write.h"
#include "report/sentences.h"

#include <math.h>
#include <string.h>

enum {
    WINDOW_WARNING_MIN = 60, /* before a recoat window ends */
    SOON_WARNING_MIN = 10,   /* before a mix must be applied, or a polish window ends */
    MOST_SECTION_ALARMS = 24,
};

/* A plan on its way into a calendar. */
struct scene {
    struct arena *arena;
    const struct plan *plan;
    const char *prefix; /* of its UIDs */
    bool several;       /* among the plans of other jobs */
    struct ical *calendar;
};

static const char *step_uid(const struct scene *scene, const struct operation *operation, const char *more)
{
    return ical_uid(scene->arena, scene->prefix, arena_textf(scene->arena, "%s%s", operation->id, more));
}

static const char *summary_of(const struct scene *scene, const struct operation *operation, const char *words)
{
    const char *piece = step_piece(scene->arena, operation);
    const char *summary = piece[0] ? arena_textf(scene->arena, "%s: %s", piece, words) : words;
    return scene->several ? arena_textf(scene->arena, "%s: %s", scene->plan->job->name, summary) : summary;
}

static const char *description_of(const struct scene *scene, size_t index)
{
    const struct timetable *timetable = scene->plan->timetable;
    const struct timetable_step *step = &timetable->steps[index];
    const char *note = step_note(scene->arena, timetable, index, units_of(timetable->job));
    struct buf text;
    buf_init(&text, scene->arena);
    buf_addf(&text, "%s", step_amount(scene->arena, scene->plan, step->operation, units_of(timetable->job)));
    if (note)
        buf_addf(&text, "%s%s", text.length ? "\n" : "", note);
    for (size_t i = 0; i < step->after_count; i++) {
        const struct waited *waited = &step->after[i];
        if (waited->max_until == INT64_MAX)
            continue;
        buf_addf(&text, "%sstart by %s (%s)", text.length ? "\n" : "",
                 moment_words(scene->arena, scene->plan->job, waited->max_until),
                 link_words(waited->link, timetable->steps[waited->step].operation, step->operation));
    }
    return text.text;
}

/* A lot must be wiped between two times after it was wetted: the alarm says when to begin wiping. */
static void lot_alarms(const struct scene *scene, struct ical_item *item, const struct timetable_step *step)
{
    const struct coat_minutes *detail = &step->operation->detail;
    if (detail->sections.count == 0)
        return;
    double lot = detail->sections.minutes / detail->sections.count;
    double first = detail->set_up + detail->mixing + detail->sections.least_min;
    for (int i = 0; i < detail->sections.count && i < MOST_SECTION_ALARMS; i++)
        ical_alarm(scene->calendar, item, step->start_min + (int64_t)floor(first + i * lot),
                   arena_textf(scene->arena, "wipe off section %d of %d", i + 1, detail->sections.count));
}

static void pot_alarms(const struct scene *scene, struct ical_item *item, const struct timetable_step *step)
{
    const struct mix_cards *mixes = scene->plan->mixes;
    for (size_t i = 0; i < mixes->count; i++) {
        const struct mix_card *card = &mixes->items[i];
        if (card->step_id != step->operation->id || card->pot_life_ends_min == INT64_MAX)
            continue;
        ical_alarm(scene->calendar, item, card->apply_by_min - SOON_WARNING_MIN,
                   arena_textf(scene->arena, "mix %d of %d: apply by %s, pot life ends %s", card->number,
                               card->of, moment_words(scene->arena, scene->plan->job, card->apply_by_min),
                               moment_words(scene->arena, scene->plan->job, card->pot_life_ends_min)));
    }
}

static void window_alarms(const struct scene *scene, struct ical_item *item,
                          const struct timetable_step *step)
{
    for (size_t i = 0; step->operation->doing == DO_POLISH && i < step->after_count; i++)
        if (step->after[i].max_until != INT64_MAX)
            ical_alarm(scene->calendar, item, step->after[i].max_until - SOON_WARNING_MIN,
                       arena_textf(scene->arena, "start polishing by %s",
                                   moment_words(scene->arena, scene->plan->job, step->after[i].max_until)));
}

static void add_steps(const struct scene *scene)
{
    const struct timetable *timetable = scene->plan->timetable;
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[i];
        struct ical_item *item =
            ical_add(scene->calendar, step_uid(scene, step->operation, ""),
                     summary_of(scene, step->operation, step_words(scene->arena, step->operation)),
                     doing_name(step->operation->doing));
        item->description = description_of(scene, i);
        item->from_min = step->start_min;
        item->to_min = step->end_min;
        for (size_t k = 0; k < step->after_count; k++)
            ical_after(scene->calendar, item,
                       step_uid(scene, timetable->steps[step->after[k].step].operation, ""));
        lot_alarms(scene, item, step);
        pot_alarms(scene, item, step);
        window_alarms(scene, item, step);
    }
}

static void add_waits(const struct scene *scene)
{
    const struct timetable *timetable = scene->plan->timetable;
    for (size_t i = 0; i < timetable->wait_count; i++) {
        const struct drying_wait *wait = &timetable->waits[i];
        const struct operation *apply = timetable->steps[wait->step].operation;
        if (wait->until_min == INT64_MAX || wait->until_min <= wait->from_min)
            continue;
        bool window = wait->window_min != INT64_MAX;
        const char *until = arena_textf(scene->arena, "%s at %s", state_words(wait->state),
                                        moment_words(scene->arena, scene->plan->job, wait->until_min));
        const char *more = window
                               ? arena_textf(scene->arena, "%s\nrecoat by %s", until,
                                             moment_words(scene->arena, scene->plan->job, wait->window_min))
                               : until;
        struct ical_item *item =
            ical_add(scene->calendar, step_uid(scene, apply, "/drying"),
                     summary_of(scene, apply,
                                arena_textf(scene->arena, "drying: %s", coat_words(scene->arena, apply))),
                     "drying");
        item->description = more;
        item->from_min = wait->from_min;
        item->to_min = wait->until_min;
        item->transparent = true;
        ical_after(scene->calendar, item, step_uid(scene, apply, ""));
        if (window)
            ical_alarm(scene->calendar, item, wait->window_min - WINDOW_WARNING_MIN,
                       arena_textf(scene->arena, "recoat by %s",
                                   moment_words(scene->arena, scene->plan->job, wait->window_min)));
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

static void add_sundries(const struct scene *scene, struct buf *list)
{
    const struct sundries *sundries = scene->plan->sundries;
    if (sundries->count)
        buf_addf(list, "%sestimated:", list->length ? "\n" : "");
    for (size_t i = 0; i < sundries->count; i++)
        buf_addf(list, "\n%s %s",
                 sundry_amount(scene->arena, &sundries->items[i], units_of(scene->plan->job)),
                 sundry_name(scene->arena, &sundries->items[i]));
}

static void add_shopping(const struct scene *scene)
{
    const struct purchases *purchases = scene->plan->purchases;
    struct buf list;
    buf_init(&list, scene->arena);
    for (size_t i = 0; i < purchases->count; i++) {
        const struct purchase *purchase = &purchases->items[i];
        for (size_t k = 0; k < purchase->kit_count; k++)
            buf_addf(&list, "%s%d x %s %s", list.length ? "\n" : "", purchase->kits[k].count,
                     pack_words(scene->arena, purchase->kits[k].kit->label), purchase->need.finish->name);
        for (size_t c = 0; c < purchase->need.finish->component_count; c++) {
            const struct purchase_component *component = &purchase->components[c];
            for (size_t k = 0; k < component->pack_count; k++)
                buf_addf(&list, "%s%d x %s %s, %s", list.length ? "\n" : "", component->packs[k].count,
                         pack_words(scene->arena, component->packs[k].pack->label),
                         purchase->need.finish->name, purchase->need.finish->components[c].name);
        }
    }
    add_sundries(scene, &list);
    if (list.length == 0)
        return;
    struct ical_item *todo =
        ical_add(scene->calendar, ical_uid(scene->arena, scene->prefix, "shopping"),
                 arena_textf(scene->arena, "buy finishes for %s", scene->plan->job->name), "shopping");
    todo->todo = true;
    todo->description = list.text;
    todo->to_min = shopping_due(scene->plan->timetable);
}

static bool names_differ(struct arena *arena, const struct plan *const *plans, size_t count,
                         struct err_list *errors)
{
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < i; k++) {
            const struct job *job = plans[i]->job, *other = plans[k]->job;
            if (strcmp(text_slug(arena, job->name), text_slug(arena, other->name)) != 0)
                continue;
            err_add(errors, ERR_INPUT, job->file, "/job",
                    arena_textf(arena, "another name than in %s: jobs of one calendar are known by it",
                                other->file),
                    job->name);
            return false;
        }
    return true;
}

bool calendar_write(struct arena *arena, const struct plan *const *plans, size_t count,
                    struct calendar_options options, struct buf *out, struct err_list *errors)
{
    struct ical calendar;
    if (!names_differ(arena, plans, count, errors))
        return false;
    ical_init(&calendar, arena, plans[0]->job->zone, options.now_min);
    for (size_t i = 0; i < count; i++) {
        const char *prefix = ical_prefix(arena, plans[i]->job->name, options.keys ? options.keys[i] : "");
        struct scene scene = {arena, plans[i], prefix, count > 1, &calendar};
        ical_own(&calendar, prefix);
        add_steps(&scene);
        add_waits(&scene);
        add_shopping(&scene);
    }
    return ical_write(&calendar, options.previous, out, errors);
}
