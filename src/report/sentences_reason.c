/* Why a plan is as it is, or why there is none. */
#include "report/sentences.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"

/* A timetable whose reasons are told, and where the texts lie. */
struct telling {
    struct arena *arena;
    const struct timetable *timetable;
};

static const char *when(const struct telling *telling, int64_t minute)
{
    return moment_words(telling->arena, telling->timetable->job, minute);
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

/* "coat 2 on top", "coat 1 on case (varnish)", "sanding case to 180", "fit hinges". */
static const char *own_name(struct arena *arena, const struct operation *operation)
{
    static const char *const words[DOING_COUNT] = {
        [DO_SAND] = "sanding",    [DO_SCUFF] = "scuffing", [DO_RAISE] = "raising the grain of",
        [DO_MASK] = "masking",    [DO_FLIP] = "turning",   [DO_POLISH] = "polishing",
        [DO_RUB] = "rubbing out", [DO_APPLY] = "coat",     [DO_TASK] = "task",
    };
    if (operation->piece < 0)
        return operation->words;
    const char *piece = operation->job->pieces[operation->piece].name;
    const char *side = operation->side == SIDE_BACK   ? "the back of "
                       : operation->side == SIDE_FACE ? "the face of "
                                                      : "";
    const char *schedule = schedule_of(arena, operation);
    if (operation->doing == DO_APPLY)
        return arena_textf(arena, "coat %d on %s%s%s", operation->coat, side, piece, schedule);
    if (operation->doing == DO_TASK)
        return arena_textf(arena, "%s (%s)", operation->words, piece);
    if (operation->doing == DO_FLIP)
        return arena_textf(arena, "turning %s over", piece);
    return arena_textf(arena, "%s %s%s%s%s", words[operation->doing], side, piece,
                       grit_words(arena, operation), schedule);
}

/* Among several jobs a piece of another is known by its job as well: "coat 2 on top (Desk)". */
static const char *name(const struct telling *telling, const struct operation *operation)
{
    const char *own = own_name(telling->arena, operation);
    return operation->job == telling->timetable->job
               ? own
               : arena_textf(telling->arena, "%s (%s)", own, operation->job->name);
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

static const char *wait_for_link(const struct telling *telling, const struct cause *cause)
{
    struct arena *arena = telling->arena;
    const char *earlier = name(telling, cause->earlier), *until = when(telling, cause->until_min);
    if (cause->link->kind == LINK_STATE)
        return arena_textf(arena, "%s is not %s until %s", earlier, state_words(cause->link->state), until);
    if (cause->link->kind == LINK_DAY)
        return arena_textf(arena, "the finish takes no more coats that day (%s)", earlier);
    if (cause->link->span_min > 0)
        return arena_textf(arena, "%s after %s until %s",
                           cause->link->settles ? "dust settles" : "the schedule waits", earlier, until);
    return arena_textf(arena, "%s lasts until %s", earlier, until);
}

/* The moment is told where the step stands later than that. */
static const char *wait_for_release(const struct telling *telling, const struct reason *reason)
{
    struct arena *arena = telling->arena;
    int64_t from = reason->cause.until_min;
    bool waits = from < reason->from_min;
    if (reason->cause.wait == WAIT_JOB)
        return waits ? arena_textf(arena, "the job begins on %s", when(telling, from))
                     : "the job begins then";
    const char *piece = reason->first->job->pieces[reason->first->piece].name;
    return waits ? arena_textf(arena, "%s is there on %s", piece, when(telling, from))
                 : arena_textf(arena, "%s is not there earlier", piece);
}

static const char *wait_words(const struct telling *telling, const struct reason *reason)
{
    struct arena *arena = telling->arena;
    const struct cause *cause = &reason->cause;
    switch (cause->wait) {
    case WAIT_NOTHING:
        return NULL;
    case WAIT_JOB:
    case WAIT_PIECE:
        return wait_for_release(telling, reason);
    case WAIT_LINK:
        return wait_for_link(telling, cause);
    case WAIT_WINDOW:
        return arena_textf(arena, "%s, which follows, must come within its window",
                           name(telling, cause->earlier));
    case WAIT_DUST:
        return arena_textf(arena, "%s shares the room: dust and wet films stay apart",
                           name(telling, cause->earlier));
    case WAIT_SPRAY:
        return arena_textf(arena, "%s holds the spray place", name(telling, cause->earlier));
    case WAIT_RACK:
        return arena_textf(arena, "%s holds the rack", name(telling, cause->earlier));
    case WAIT_ITS_TURN:
        return arena_textf(arena, "%s comes first: one person at a time works on a piece",
                           name(telling, cause->earlier));
    case WAIT_PERSON:
        return arena_textf(arena, "%s comes first: no hand is free", name(telling, cause->earlier));
    }
    return NULL;
}

static const char *closed_words(const struct telling *telling, const struct reason *reason)
{
    switch (reason->cause.closed) {
    case CLOSED_NOT:
        return NULL;
    case CLOSED_SHOP:
        return "the shop is closed until then";
    case CLOSED_SOON:
        return arena_textf(
            telling->arena, "its %s do not fit in before the shop closes at %s",
            span_format(reason->first->minutes).text,
            moment_format(telling->timetable->job->zone, reason->cause.closes_min, MOMENT_TIME).text);
    case CLOSED_AIR:
        return "the air does not suit it earlier";
    case CLOSED_EITHER:
        return "neither the hours nor the air allow it earlier";
    }
    return NULL;
}

static const char *step_reason(const struct telling *telling, const struct reason *reason)
{
    const char *wait = wait_words(telling, reason), *closed = closed_words(telling, reason);
    return arena_textf(telling->arena, "%s cannot start before %s: %s%s%s", name(telling, reason->first),
                       when(telling, reason->from_min), wait ? wait : "", wait && closed ? ", and " : "",
                       closed ? closed : "");
}

static const char *ready_reason(const struct telling *telling, const struct reason *reason)
{
    struct arena *arena = telling->arena;
    const char *last = name(telling, reason->first), *until = when(telling, reason->until_min), *end = "";
    if (reason->end_by_min != INT64_MIN)
        end = arena_textf(arena, "; for %s it would have to end by %s",
                          when(telling, telling->timetable->deliver_min), when(telling, reason->end_by_min));
    if (reason->line->is_state)
        return arena_textf(arena, "%s is not %s until %s%s", last, state_words(reason->line->state), until,
                           end);
    if (reason->line->span_min > 0)
        return arena_textf(arena, "the schedule waits after %s until %s%s", last, until, end);
    return arena_textf(arena, "%s lasts until %s", last, until);
}

static const char *link_reason(const struct telling *telling, const struct reason *reason)
{
    struct arena *arena = telling->arena;
    const struct link *link = reason->link;
    const char *from = name(telling, reason->first), *to = name(telling, reason->last);
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
static const char *air_limits(const struct telling *telling, const struct operation *operation)
{
    const struct finish_air *air = &operation->of.step->finish->air;
    enum unit_system units = operation->job->inches ? UNITS_US : UNITS_METRIC;
    return arena_textf(telling->arena, "%s to %s and %s to %s humidity, %s above the dew point",
                       temperature_format(air->lowest_c, units).text,
                       temperature_format(air->highest_c, units).text, share_format(air->driest).text,
                       share_format(air->dampest).text, operation->job->inches ? "5 F" : "3 C");
}

static const char *rack_reason(const struct telling *telling, const struct reason *reason)
{
    return arena_textf(telling->arena, "%s takes %s of a rack of %s",
                       reason->first->job->pieces[reason->first->piece].name,
                       area_format(reason->rack_m2, UNITS_METRIC).text,
                       area_format(reason->first->job->shop.rack_m2, UNITS_METRIC).text);
}

/* Why there is no plan. */
static const char *refusal_words(const struct telling *telling, const struct reason *reason)
{
    switch (reason->kind) {
    case REASON_SIZE:
        return arena_textf(telling->arena,
                           "%zu steps are more than the %zu that one timetable holds: give parts that go "
                           "through finishing together the same piece",
                           reason->count, reason->most);
    case REASON_CLOSED:
        return "the shop never opens";
    case REASON_LONG:
        return arena_textf(telling->arena, "%s can never start: no stretch of work is as long as its %s",
                           name(telling, reason->first), span_format(reason->first->minutes).text);
    case REASON_AIR:
        return arena_textf(telling->arena,
                           "%s can never start: within working hours the air is never right for it (%s)",
                           name(telling, reason->first), air_limits(telling, reason->first));
    case REASON_RACK_SMALL:
        return rack_reason(telling, reason);
    case REASON_RACK:
        return "the rack does not hold what must dry at the same time";
    case REASON_PEOPLE:
        return "there are not hands enough";
    case REASON_SPRAY:
        return telling->timetable->job->shop.spray_places > 0 ? "the spray places are taken"
                                                              : "the shop has no place to spray";
    case REASON_TURNS:
        return "one piece is worked on by one person at a time";
    case REASON_DUST:
        return "dust and wet films must not meet in one room";
    case REASON_LINK:
        return link_reason(telling, reason);
    case REASON_CONTRADICTS:
        return "the limits contradict each other";
    default:
        return "no plan was found within the effort allowed";
    }
}

const char *reason_words(struct arena *arena, const struct timetable *timetable, const struct reason *reason)
{
    struct telling telling = {arena, timetable};
    switch (reason->kind) {
    case REASON_STEP:
        return step_reason(&telling, reason);
    case REASON_ROW:
        return arena_textf(arena,
                           "from %s to %s hands are busy with %zu steps one after the other, from %s to %s",
                           when(&telling, reason->from_min), when(&telling, reason->until_min), reason->count,
                           name(&telling, reason->first), name(&telling, reason->last));
    case REASON_READY:
        return ready_reason(&telling, reason);
    default:
        return refusal_words(&telling, reason);
    }
}
