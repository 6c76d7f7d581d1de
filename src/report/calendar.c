/* What goes into the calendar: batches, moments that end or begin something, shopping; and the alarms that a maker must not
 * miss. */
#include "report/calendar.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/err.h"
#include "base/measure.h"
#include "base/moment.h"
#include "base/text.h"
#include "format/ical_write.h"
#include "report/log.h"
#include "report/sentences.h"
#include "timetable/hours.h"

#include <math.h>
#include <string.h>

enum {
    LAST_HOUR_MIN = 60,    /* before a recoat window ends, or the shop closes */
    SOON_WARNING_MIN = 10, /* before a mix must be applied, or a polish window ends */
    MOST_SECTION_ALARMS = 24,
    SUMMARY_WIDTH = 60, /* cells of the pieces in a summary */
    HOURS_BEFORE_DAYS = 14,
    HOURS_DAYS = 3 * 366, /* of the shop are looked at */
    PAUSE_LEAST_MIN = 5
};

/* A plan on its way into a calendar. */
struct scene {
    struct arena *arena;
    const struct plan *plan;
    const char *prefix; /* of its UIDs */
    const struct hours *hours;
    struct ical *calendar;
};

static const char *uid_of(const struct scene *scene, const struct timetable_batch *batch, const char *more)
{
    return ical_uid(scene->arena, scene->prefix, arena_textf(scene->arena, "%s%s", batch->id, more));
}

/* What, on what, of which job. */
static const char *summary_of(const struct scene *scene, const char *what, const char *pieces)
{
    return arena_textf(scene->arena, "%s%s%s (%s)", what, *pieces ? ": " : "", pieces,
                       scene->plan->job->name);
}

static const char *pieces_of(const struct scene *scene, const struct timetable_batch *batch)
{
    return batch_pieces(scene->arena, scene->plan->timetable, batch, SUMMARY_WIDTH);
}

static void add_line(struct buf *text, const char *line)
{
    if (line && *line)
        buf_addf(text, "%s%s", text->length ? "\n" : "", line);
}

/* A line for each run of pieces: "08:10 door 1 to 4, 24 ml each". */
static void add_order(const struct scene *scene, const struct timetable_batch *batch, struct buf *text)
{
    struct arena *arena = scene->arena;
    const struct timetable *timetable = scene->plan->timetable;
    struct batch_runs runs = batch_runs_make(arena, timetable, batch);
    for (size_t i = 0; i < runs.count; i++)
        add_line(text, batch_run_line(arena, timetable, batch, &runs.items[i], units_of(timetable->job)));
    add_line(text, batch_left_in_tool(arena, timetable, batch, units_of(timetable->job)));
}

static const char *care_of(const struct scene *scene, const struct timetable_batch *batch)
{
    size_t count;
    const struct plan_caution *cautions =
        batch_cautions(scene->arena, scene->plan, batch, plan_asks_for_supplied_air(scene->plan), &count);
    return batch_care(scene->arena, cautions, count);
}

static const char *description_of(const struct scene *scene, const struct timetable_batch *batch)
{
    const struct timetable *timetable = scene->plan->timetable;
    enum unit_system units = units_of(timetable->job);
    const struct mix_card *card = NULL;
    const char *amount = batch_amount(scene->arena, timetable, batch, units);
    struct buf text;
    buf_init(&text, scene->arena);
    if (timetable->job->shop.people > 1)
        add_line(&text, batch_person(scene->arena, timetable, batch));
    if (*amount && batch->step_count > 1)
        add_line(&text, arena_textf(scene->arena, "%s in all", amount));
    add_order(scene, batch, &text);
    while ((card = batch_card(scene->plan, batch, card)))
        add_line(&text, card_words(scene->arena, scene->plan, card, units));
    add_line(&text, batch_note(scene->arena, timetable, batch, units));
    add_line(&text, batch_window_words(scene->arena, timetable, batch));
    add_line(&text, care_of(scene, batch));
    return text.text;
}

/* A moment of open hours stays; any other becomes the beginning of the last open hour before it. */
static int64_t open_before(const struct scene *scene, int64_t minute)
{
    const struct hours *hours = scene->hours;
    int64_t last = minute;
    for (size_t i = 0; i < hours->count; i++) {
        int64_t from = hours_moment(hours, hours->stretches[i].from);
        int64_t to = hours_moment(hours, hours->stretches[i].to);
        if (from > minute)
            break;
        if (minute < to)
            return minute;
        last = to - LAST_HOUR_MIN > from ? to - LAST_HOUR_MIN : from;
    }
    return last;
}

/* The moment at which so many minutes of a step are done: where it pauses, in the hours of the shop. */
static int64_t done_at(const struct scene *scene, const struct timetable_step *step, int64_t minutes)
{
    const struct hours *hours = scene->hours;
    bool pauses = step->end_min - step->start_min > step->operation->minutes + PAUSE_LEAST_MIN;
    int64_t at = step->start_min;
    for (size_t i = 0; pauses && i < hours->count; i++) {
        int64_t from = hours_moment(hours, hours->stretches[i].from);
        int64_t to = hours_moment(hours, hours->stretches[i].to);
        if (to <= at)
            continue;
        at = from > at ? from : at;
        if (at + minutes <= to)
            break;
        minutes -= to - at;
        at = to;
    }
    at += minutes;
    return at < step->end_min ? at : step->end_min;
}

/* A section must be wiped between two times after it was wetted: the alarm says when to begin wiping. */
static void section_alarms(const struct scene *scene, struct ical_item *item,
                           const struct timetable_batch *batch, size_t at)
{
    const struct timetable *timetable = scene->plan->timetable;
    const struct timetable_step *step = &timetable->steps[batch->steps[at]];
    const struct sections *sections = &step->operation->detail.sections;
    struct batch_run alone = {at, 1, 1};
    const char *piece = batch_run_pieces(scene->arena, timetable, batch, &alone);
    for (int i = 0; i < sections->count && i < MOST_SECTION_ALARMS; i++) {
        double wetted = i * sections->minutes / sections->count;
        ical_alarm(scene->calendar, item,
                   done_at(scene, step, (int64_t)ceil(wetted + sections->least_min - 1e-9)),
                   sections->count == 1 ? arena_textf(scene->arena, "wipe off %s", piece)
                                        : arena_textf(scene->arena, "wipe off section %d of %d of %s", i + 1,
                                                      sections->count, piece));
    }
}

static void pot_alarms(const struct scene *scene, struct ical_item *item, const struct timetable_batch *batch)
{
    const struct mix_card *card = NULL;
    while ((card = batch_card(scene->plan, batch, card)))
        if (card->pot_life_ends_min != INT64_MAX)
            ical_alarm(scene->calendar, item, open_before(scene, card->apply_by_min - SOON_WARNING_MIN),
                       arena_textf(scene->arena, "mix %d of %d: apply by %s, pot life ends %s", card->number,
                                   card->of, moment_words(scene->arena, scene->plan->job, card->apply_by_min),
                                   moment_words(scene->arena, scene->plan->job, card->pot_life_ends_min)));
}

/* Polishing is bound to minutes. */
static void polish_alarms(const struct scene *scene, struct ical_item *item,
                          const struct timetable_batch *batch)
{
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct timetable_step *step = &scene->plan->timetable->steps[batch->steps[i]];
        for (size_t k = 0; step->operation->doing == DO_POLISH && k < step->after_count; k++)
            if (step->after[k].max_until != INT64_MAX)
                ical_alarm(
                    scene->calendar, item, open_before(scene, step->after[k].max_until - SOON_WARNING_MIN),
                    arena_textf(scene->arena, "start polishing by %s",
                                moment_words(scene->arena, scene->plan->job, step->after[k].max_until)));
    }
}

static bool is_after(const struct ical_item *item, const char *uid)
{
    for (size_t i = 0; i < item->after_count; i++)
        if (strcmp(item->after[i], uid) == 0)
            return true;
    return false;
}

/* The batches whose work it waits for, each once. */
static void add_after(const struct scene *scene, struct ical_item *item, const struct timetable_batch *batch)
{
    const struct timetable *timetable = scene->plan->timetable;
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[batch->steps[i]];
        for (size_t k = 0; k < step->after_count; k++) {
            const struct timetable_batch *before =
                &timetable->batches[timetable->steps[step->after[k].step].batch];
            const char *uid = uid_of(scene, before, "");
            if (before != batch && !is_after(item, uid))
                ical_after(scene->calendar, item, uid);
        }
    }
}

static void add_batches(const struct scene *scene)
{
    const struct timetable *timetable = scene->plan->timetable;
    for (size_t i = 0; i < timetable->batch_count; i++) {
        const struct timetable_batch *batch = &timetable->batches[i];
        struct ical_item *item =
            ical_add(scene->calendar, uid_of(scene, batch, ""),
                     summary_of(scene, batch_words(scene->arena, timetable, batch), pieces_of(scene, batch)),
                     doing_name(batch->first->doing));
        item->description = description_of(scene, batch);
        item->from_min = batch->start_min;
        item->to_min = batch->end_min;
        add_after(scene, item, batch);
        for (size_t k = 0; k < batch->step_count; k++)
            section_alarms(scene, item, batch, k);
        pot_alarms(scene, item, batch);
        polish_alarms(scene, item, batch);
    }
}

static struct ical_item *add_moment(const struct scene *scene, const char *uid, const char *summary,
                                    const char *category, int64_t minute)
{
    struct ical_item *item = ical_add(scene->calendar, uid, summary, category);
    item->from_min = minute;
    item->transparent = true;
    return item;
}

/* The coats of a batch for which `is` holds, as a batch of their own; without steps: none. */
static struct timetable_batch coats_that(const struct scene *scene, const struct timetable_batch *batch,
                                         bool (*is)(const struct scene *scene, size_t step))
{
    struct timetable_batch part = *batch;
    size_t *steps = ARENA_ARRAY(scene->arena, batch->step_count, size_t);
    part.step_count = 0;
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct operation *operation = scene->plan->timetable->steps[batch->steps[i]].operation;
        if (operation->doing == DO_APPLY && is(scene, batch->steps[i]))
            steps[part.step_count++] = batch->steps[i];
    }
    part.steps = steps;
    return part;
}

/* The end of the recoat window of a coat's film where it is before the delivery; INT64_MAX: none. */
static int64_t window_of(const struct scene *scene, size_t step)
{
    const struct timetable *timetable = scene->plan->timetable;
    int64_t first = timetable->deliver_min;
    for (size_t i = 0; i < timetable->wait_count; i++)
        if (timetable->waits[i].step == step && timetable->waits[i].window_min < first)
            first = timetable->waits[i].window_min;
    return first < timetable->deliver_min ? first : INT64_MAX;
}

static bool has_window(const struct scene *scene, size_t step)
{
    return window_of(scene, step) != INT64_MAX;
}

static void add_window_ends(const struct scene *scene)
{
    const struct timetable *timetable = scene->plan->timetable;
    for (size_t i = 0; i < timetable->batch_count; i++) {
        const struct timetable_batch *batch = &timetable->batches[i];
        struct timetable_batch part = coats_that(scene, batch, has_window);
        int64_t until = INT64_MAX;
        for (size_t k = 0; k < part.step_count; k++)
            until = window_of(scene, part.steps[k]) < until ? window_of(scene, part.steps[k]) : until;
        if (until == INT64_MAX)
            continue;
        const char *words = arena_textf(scene->arena, "end of the recoat window, %s",
                                        batch->first->of.step->finish->short_name);
        struct ical_item *item =
            add_moment(scene, uid_of(scene, batch, "/recoat-window"),
                       summary_of(scene, words, pieces_of(scene, &part)), "window", until);
        ical_alarm(
            scene->calendar, item, open_before(scene, until - LAST_HOUR_MIN),
            arena_textf(scene->arena, "recoat by %s", moment_words(scene->arena, timetable->job, until)));
    }
}

/* Whether no other batch coats the piece later. */
static bool is_last_coat(const struct scene *scene, size_t step)
{
    const struct timetable *timetable = scene->plan->timetable;
    for (size_t i = step + 1; i < timetable->step_count; i++)
        if (timetable->steps[i].operation->doing == DO_APPLY &&
            timetable->steps[i].batch != timetable->steps[step].batch &&
            timetable->steps[i].operation->piece == timetable->steps[step].operation->piece)
            return false;
    return true;
}

/* When all the pieces of these coats are safe to wrap; INT64_MIN: that is not known. */
static int64_t wrapped_from(const struct timetable *timetable, const struct timetable_batch *part)
{
    int64_t at = INT64_MIN;
    for (size_t i = 0; i < timetable->state_count; i++) {
        const struct piece_state *state = &timetable->states[i];
        for (size_t k = 0; state->state == STATE_WRAP && k < part->step_count; k++)
            if (timetable->steps[part->steps[k]].operation->piece == (int)state->piece && state->at_min > at)
                at = state->at_min;
    }
    return at;
}

static void add_wraps(const struct scene *scene)
{
    const struct timetable *timetable = scene->plan->timetable;
    for (size_t i = 0; i < timetable->batch_count; i++) {
        struct timetable_batch part = coats_that(scene, &timetable->batches[i], is_last_coat);
        int64_t at = wrapped_from(timetable, &part);
        if (at != INT64_MIN && at != INT64_MAX)
            (void)add_moment(scene, uid_of(scene, &part, "/safe-to-wrap"),
                             summary_of(scene, state_words(STATE_WRAP), pieces_of(scene, &part)), "wrap", at);
    }
}

/* What was done stays at its real time, and what it still asks for with it. */
static void add_done(const struct scene *scene)
{
    struct arena *arena = scene->arena;
    const struct timetable *timetable = scene->plan->timetable;
    size_t count;
    const struct done_batch *batches = done_batches(arena, timetable, &count);
    for (size_t i = 0; i < count; i++) {
        const struct done_batch *batch = &batches[i];
        const struct operation *operation = &batch->first->operation;
        const char *words = arena_textf(arena, "done: %s", step_words(arena, operation));
        struct ical_item *item =
            ical_add(scene->calendar, ical_uid(arena, scene->prefix, batch->id),
                     summary_of(scene, words, batch->pieces), doing_name(operation->doing));
        item->from_min = batch->from_min;
        item->to_min = batch->to_min;
        const char *window = arena_textf(arena, "%s/recoat-window", batch->id),
                   *wrap = arena_textf(arena, "%s/safe-to-wrap", batch->id);
        if (batch->window_min < timetable->deliver_min)
            (void)add_moment(scene, ical_uid(arena, scene->prefix, window),
                             summary_of(scene, "end of the recoat window", batch->pieces), "window",
                             batch->window_min);
        if (batch->wrap_min != INT64_MAX)
            (void)add_moment(scene, ical_uid(arena, scene->prefix, wrap),
                             summary_of(scene, state_words(STATE_WRAP), batch->pieces), "wrap",
                             batch->wrap_min);
    }
}

static void add_ends(const struct scene *scene)
{
    const struct timetable *timetable = scene->plan->timetable;
    const struct job *job = timetable->job;
    const char *customer = job->customer ? job->customer : "";
    struct ical_item *item;
    if (timetable->ready_min != INT64_MAX) {
        item = add_moment(scene, ical_uid(scene->arena, scene->prefix, "ready"),
                          summary_of(scene, "ready", state_words(job->deliver_at)), "ready",
                          timetable->ready_min);
        item->description = ready_words(scene->arena, job, timetable->ready_min);
    }
    (void)add_moment(scene, ical_uid(scene->arena, scene->prefix, "delivery"),
                     summary_of(scene, "delivery", customer), "delivery", timetable->deliver_min);
}

/* Whether a step uses something of the shopping: a finish that is bought, or what is used up beside it. */
static bool uses_shopping(const struct plan *plan, const struct operation *operation)
{
    if (operation->doing == DO_FLIP || operation->doing == DO_TASK)
        return false;
    if (plan->sundries->count > 0)
        return true;
    for (size_t i = 0; operation->doing == DO_APPLY && i < plan->purchases->count; i++) {
        const struct purchase *purchase = &plan->purchases->items[i];
        bool buys = purchase->kit_count > 0;
        for (size_t c = 0; c < purchase->need.finish->component_count; c++)
            buys |= purchase->components[c].pack_count > 0;
        if (buys && purchase->need.finish == operation->of.step->finish)
            return true;
    }
    return false;
}

/* The last open day before that of the first step that uses anything of it; where the shop was never open before, the day
 * before. */
static int64_t shopping_day_min(const struct plan *plan, const struct hours *hours)
{
    const struct timetable *timetable = plan->timetable;
    const struct zone *zone = plan->job->zone;
    int64_t first = timetable->start_min;
    for (size_t i = timetable->step_count; i-- > 0;)
        if (uses_shopping(plan, timetable->steps[i].operation))
            first = timetable->steps[i].start_min;
    int64_t midnight = zone_moment_on(zone, zone_day(zone, first, NULL), 0), last = midnight - 1;
    for (size_t i = 0; i < hours->count && hours_moment(hours, hours->stretches[i].from) < midnight; i++)
        last = hours_moment(hours, hours->stretches[i].from);
    return last;
}

static void add_shopping(const struct scene *scene)
{
    const char *list = shopping_lines(scene->arena, scene->plan);
    if (!*list)
        return;
    int64_t day = shopping_day_min(scene->plan, scene->hours);
    const char *words = arena_textf(scene->arena, "buy finishes for %s", scene->plan->job->name);
    struct ical_item *todo =
        ical_add(scene->calendar, ical_uid(scene->arena, scene->prefix, "shopping"), words, "shopping");
    todo->todo = todo->all_day = true;
    todo->description = list;
    todo->to_min = day;
    struct ical_item *event =
        add_moment(scene, ical_uid(scene->arena, scene->prefix, "shopping-day"), words, "shopping", day);
    event->all_day = true;
    event->description = list;
}

static void add_plan(const struct scene *scene)
{
    add_done(scene);
    add_batches(scene);
    add_window_ends(scene);
    add_wraps(scene);
    add_ends(scene);
    add_shopping(scene);
}

/* The hours of the shop from before the first step on. */
static const struct hours *hours_of(struct arena *arena, const struct timetable *timetable)
{
    const struct job *job = timetable->job;
    int64_t first = timetable->step_count ? timetable->steps[0].start_min : timetable->start_min;
    int64_t from = zone_moment_on(job->zone, zone_day(job->zone, first, NULL) - HOURS_BEFORE_DAYS, 0);
    return hours_make(arena, &job->shop, job->zone, from, HOURS_DAYS * (DAY_MINUTES / SLOT_MIN));
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
        struct scene scene = {arena, plans[i], prefix, hours_of(arena, plans[i]->timetable), &calendar};
        ical_own(&calendar, prefix);
        add_plan(&scene);
    }
    return ical_write(&calendar, options.previous, out, errors);
}
