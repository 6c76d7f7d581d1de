/* Why a plan is as it is, or why there is none. */
#include "report/sentences.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"

/* A timetable whose reasons are said, and where the texts lie. */
struct saying {
    struct arena *arena;
    const struct timetable *timetable;
    enum unit_system units;
};

static const char *when(const struct saying *saying, int64_t minute)
{
    return moment_words(saying->arena, saying->timetable->job, minute);
}

/* " (varnish)" where the piece gets more than one schedule. */
static const char *schedule_of(struct arena *arena, const struct operation *operation)
{
    const struct surfaces *surfaces = operation->pass.surfaces;
    const struct job *job = operation->job;
    size_t piece = (size_t)operation->piece;
    for (size_t i = surfaces_first(surfaces, piece); i < surfaces->count; i = surfaces_next(surfaces, i)) {
        const struct surface *surface = &surfaces->items[i];
        if (job->parts[surface->part].piece == piece && surface->schedule >= 0 &&
            surface->schedule != operation->schedule)
            return arena_textf(arena, " (%s)", job->schedules[operation->schedule].name);
    }
    return "";
}

/* " to 180": how far the wood is sanded. */
static const char *grit_words(struct arena *arena, const struct operation *operation)
{
    if (operation->grit <= 0)
        return "";
    return arena_textf(arena, operation->doing == DO_SCUFF ? " with %d" : " to %d", operation->grit);
}

/* "coat 2 of Danish oil on top", "coat 1 of Wax on case (wax)", "sanding case to 180", ""fit hinges"". */
static const char *own_name(struct arena *arena, const struct operation *operation)
{
    static const char *const words[DOING_COUNT] = {
        [DO_SAND] = "sanding",    [DO_SCUFF] = "scuffing", [DO_RAISE] = "raising the grain of",
        [DO_MASK] = "masking",    [DO_FLIP] = "turning",   [DO_POLISH] = "polishing",
        [DO_RUB] = "rubbing out", [DO_APPLY] = "coat",     [DO_TASK] = "task",
    };
    if (operation->piece < 0)
        return arena_textf(arena, "\"%s\"", operation->words);
    const char *piece = operation->job->pieces[operation->piece].name;
    const char *side = operation->side == SIDE_BACK   ? "the back of "
                       : operation->side == SIDE_FACE ? "the face of "
                                                      : "";
    const char *schedule = schedule_of(arena, operation);
    if (operation->doing == DO_APPLY)
        return arena_textf(arena, "coat %d of %s on %s%s%s", operation->of.of_finish,
                           operation->of.step->finish->short_name, side, piece, schedule);
    if (operation->doing == DO_TASK)
        return arena_textf(arena, "\"%s\" (%s)", operation->words, piece);
    if (operation->doing == DO_FLIP)
        return arena_textf(arena, "turning %s over", piece);
    return arena_textf(arena, "%s %s%s%s%s", words[operation->doing], side, piece,
                       grit_words(arena, operation), schedule);
}

/* Among several jobs a piece of another is known by its job as well: "sanding top to 180 (Desk)". */
static const char *name(const struct saying *saying, const struct operation *operation)
{
    const char *own = own_name(saying->arena, operation);
    return operation->job == saying->timetable->job
               ? own
               : arena_textf(saying->arena, "%s (%s)", own, operation->job->name);
}

/* What is waited for, without its moment. */
const char *link_words(const struct link *link, const struct operation *from, const struct operation *to)
{
    switch (link->kind) {
    case LINK_STATE:
        return state_words(link->state);
    case LINK_WINDOW:
        return "recoat window";
    case LINK_POLISH:
        return "polish while it takes";
    case LINK_DAY:
        return to->of.step->finish->coats_a_day == 1 ? "one coat a day" : "coats a day";
    case LINK_END:
        break;
    }
    if (link->span_min > 0)
        return link->settles ? "dust settled" : "waited";
    return from->piece < 0 && from->task != to->task ? "task done" : "step done";
}

/* Behind "waits"; the moment is said where the step stands later than that. */
static const char *wait_for_link(const struct saying *saying, const struct reason *reason)
{
    struct arena *arena = saying->arena;
    const struct cause *cause = &reason->cause;
    const char *earlier = name(saying, cause->earlier);
    const char *until = cause->until_min == reason->from_min
                            ? ""
                            : arena_textf(arena, " (%s)", when(saying, cause->until_min));
    if (cause->link->kind == LINK_STATE)
        return arena_textf(arena, "until %s is %s%s", earlier, state_words(cause->link->state), until);
    if (cause->link->kind == LINK_DAY)
        return arena_textf(arena, "for the next day: the finish takes no more coats on the day of %s",
                           earlier);
    if (cause->link->span_min > 0)
        return arena_textf(
            arena, cause->link->settles ? "for dust to settle after %s%s" : "as the schedule asks after %s%s",
            earlier, until);
    return arena_textf(arena, "for %s%s", earlier, until);
}

/* The moment is said where the step stands later than that. */
static const char *wait_for_release(const struct saying *saying, const struct reason *reason)
{
    int64_t from = reason->cause.until_min;
    const char *what = "the start of the job", *on = "";
    if (reason->cause.wait == WAIT_PIECE)
        what =
            arena_textf(saying->arena, "%s to arrive", reason->first->job->pieces[reason->first->piece].name);
    if (from < reason->from_min)
        on = arena_textf(saying->arena, ", %s", when(saying, from));
    return arena_textf(saying->arena, "for %s%s", what, on);
}

static const char *wait_words(const struct saying *saying, const struct reason *reason)
{
    static const char *const words[] = {
        [WAIT_WINDOW] = "for %s, which must keep its recoat window",
        [WAIT_DUST] = "for %s: dust and wet films share one room",
        [WAIT_SPRAY] = "for the spray place, taken by %s",
        [WAIT_RACK] = "for the rack, taken by %s",
        [WAIT_ITS_TURN] = "for %s: one person at a time works on a piece",
        [WAIT_PERSON] = "for %s: nobody else is free",
    };
    const struct cause *cause = &reason->cause;
    if (cause->wait == WAIT_NOTHING)
        return NULL;
    if (cause->wait == WAIT_JOB || cause->wait == WAIT_PIECE)
        return wait_for_release(saying, reason);
    if (cause->wait == WAIT_LINK)
        return wait_for_link(saying, reason);
    if (cause->wait == WAIT_WINDOW && cause->link->kind == LINK_POLISH)
        return arena_textf(saying->arena, "for %s, which must not come too late",
                           name(saying, cause->earlier));
    return arena_textf(saying->arena, words[cause->wait], name(saying, cause->earlier));
}

static const char *closed_words(const struct saying *saying, const struct reason *reason)
{
    switch (reason->cause.closed) {
    case CLOSED_NOT:
        return NULL;
    case CLOSED_SHOP:
        return "for the shop to open";
    case CLOSED_SOON:
        return arena_textf(
            saying->arena, "for the shop to open again: it closes at %s, too early for the %s of this step",
            moment_format(saying->timetable->job->zone, reason->cause.closes_min, MOMENT_TIME).text,
            span_format(reason->first->minutes).text);
    case CLOSED_AIR:
        return "for the right air";
    case CLOSED_EITHER:
        return "for working hours or the right air";
    }
    return NULL;
}

static const char *step_reason(const struct saying *saying, const struct reason *reason)
{
    const char *wait = wait_words(saying, reason), *closed = closed_words(saying, reason);
    return arena_textf(saying->arena, "%s (%s) waits %s%s%s", name(saying, reason->first),
                       when(saying, reason->from_min), wait ? wait : "", wait && closed ? ", then " : "",
                       closed ? closed : "");
}

static const char *ready_reason(const struct saying *saying, const struct reason *reason)
{
    struct arena *arena = saying->arena;
    const char *last = name(saying, reason->first), *until = when(saying, reason->until_min), *end = "";
    if (reason->end_by_min != INT64_MIN)
        end = arena_textf(arena, "; for %s it would have to end by %s",
                          when(saying, saying->timetable->deliver_min), when(saying, reason->end_by_min));
    if (reason->line->is_state)
        return arena_textf(arena, "%s is not %s until %s%s", last, state_words(reason->line->state), until,
                           end);
    if (reason->line->span_min > 0)
        return arena_textf(arena, "the schedule has a wait after %s until %s%s", last, until, end);
    return arena_textf(arena, "%s lasts until %s", last, until);
}

static const char *link_reason(const struct saying *saying, const struct reason *reason)
{
    struct arena *arena = saying->arena;
    const struct link *link = reason->link;
    const char *from = name(saying, reason->first), *to = name(saying, reason->last);
    if (link->kind == LINK_WINDOW)
        return arena_textf(arena, "%s must start within the recoat window of %s, within the shop's hours", to,
                           from);
    if (link->kind == LINK_POLISH)
        return arena_textf(arena, "%s must start within %s after %s", to, span_format(link->span_min).text,
                           from);
    return arena_textf(arena, "%s waits for %s (%s)", to, from,
                       link_words(link, reason->first, reason->last));
}

/* "15 C to 30 C and 0 % to 80 % humidity, 3 C above the dew point". */
static const char *air_limits(const struct saying *saying, const struct operation *operation)
{
    const struct finish_air *air = &operation->of.step->finish->air;
    return arena_textf(saying->arena, "%s to %s and %s to %s humidity, %s above the dew point",
                       temperature_format(air->lowest_c, saying->units).text,
                       temperature_format(air->highest_c, saying->units).text, share_format(air->driest).text,
                       share_format(air->dampest).text, saying->units == UNITS_US ? "5 °F" : "3 °C");
}

static const char *rack_reason(const struct saying *saying, const struct reason *reason)
{
    return arena_textf(saying->arena, "%s needs %s of rack, and the rack has %s",
                       reason->first->job->pieces[reason->first->piece].name,
                       area_format(reason->rack_m2, saying->units).text,
                       area_format(reason->first->job->shop.rack_m2, saying->units).text);
}

/* Why there is no plan. */
static const char *refusal_words(const struct saying *saying, const struct reason *reason)
{
    switch (reason->kind) {
    case REASON_SIZE:
        return arena_textf(saying->arena,
                           "%zu steps are more than the %zu of one timetable: give parts that go "
                           "through finishing together the same piece",
                           reason->count, reason->most);
    case REASON_CLOSED:
        return "the shop never opens";
    case REASON_LONG:
        return arena_textf(saying->arena, "%s can never start: no stretch of work is as long as its %s",
                           name(saying, reason->first), span_format(reason->first->minutes).text);
    case REASON_AIR:
        return arena_textf(saying->arena,
                           "%s can never start: within working hours the air is never right for it (%s)",
                           name(saying, reason->first), air_limits(saying, reason->first));
    case REASON_RACK_SMALL:
        return rack_reason(saying, reason);
    case REASON_RACK:
        return "the rack is too small for what must dry at the same time";
    case REASON_PEOPLE:
        return "there are too few people";
    case REASON_SPRAY:
        return saying->timetable->job->shop.spray_places > 0 ? "the spray places are taken"
                                                             : "the shop has no place to spray";
    case REASON_TURNS:
        return "one piece is worked on by one person at a time";
    case REASON_DUST:
        return "dust and wet films must not meet in one room";
    case REASON_LINK:
        return link_reason(saying, reason);
    case REASON_CONTRADICTS:
        return "the limits contradict each other";
    default:
        return "no plan was found within the effort allowed";
    }
}

const char *reason_words(struct arena *arena, const struct timetable *timetable, const struct reason *reason,
                         enum unit_system units)
{
    struct saying saying = {arena, timetable, units};
    switch (reason->kind) {
    case REASON_STEP:
        return step_reason(&saying, reason);
    case REASON_ROW:
        return arena_textf(arena, "from %s to %s %zu steps follow one another without a break, from %s to %s",
                           when(&saying, reason->from_min), when(&saying, reason->until_min), reason->count,
                           name(&saying, reason->first), name(&saying, reason->last));
    case REASON_READY:
        return ready_reason(&saying, reason);
    default:
        return refusal_words(&saying, reason);
    }
}
