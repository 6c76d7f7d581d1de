#include "timetable/why.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"
#include "network/chain.h"

#include <string.h>

struct telling {
    struct problem *problem;
    const struct net_result *result;
    struct timetable *timetable;
    const char **sentences;
    size_t count, room;
};

static void say(struct telling *telling, const char *sentence)
{
    telling->sentences = arena_grow(telling->problem->arena, telling->sentences, telling->count,
                                    &telling->room, sizeof *telling->sentences);
    telling->sentences[telling->count++] = sentence;
}

static const struct operation *operation_at(const struct telling *telling, int index)
{
    return &telling->problem->operations->items[index];
}

/* "coat 2 on the top", "sanding the case", "fit hinges". */
static const char *name_of(const struct telling *telling, const struct operation *operation)
{
    static const char *const words[DOING_COUNT] = {
        [DO_SAND] = "sanding",    [DO_SCUFF] = "scuffing",    [DO_RAISE] = "raising the grain of",
        [DO_MASK] = "masking",    [DO_FLIP] = "turning over", [DO_POLISH] = "polishing",
        [DO_RUB] = "rubbing out", [DO_APPLY] = "coat",        [DO_TASK] = "task",
    };
    struct arena *arena = telling->problem->arena;
    if (operation->piece < 0)
        return operation->words;
    const char *piece = operation->job->pieces[operation->piece].name;
    const char *side = operation->side == SIDE_BACK   ? "the back of "
                       : operation->side == SIDE_FACE ? "the face of "
                                                      : "";
    if (operation->doing == DO_APPLY)
        return arena_textf(arena, "coat %d on %s%s", operation->coat, side, piece);
    if (operation->doing == DO_TASK)
        return arena_textf(arena, "%s (%s)", operation->words, piece);
    return arena_textf(arena, "%s %s%s", words[operation->doing], side, piece);
}

static const char *when(const struct telling *telling, int32_t slot)
{
    const struct hours *hours = telling->problem->hours;
    return arena_text(telling->problem->arena,
                      moment_format(hours->zone, hours_moment(hours, slot), MOMENT_DAY_TIME).text);
}

static const char *lag_reason(struct telling *telling, const struct net_link *link)
{
    struct arena *arena = telling->problem->arena;
    const struct rule *rule = &telling->problem->rules[telling->problem->net.lags[link->index].rule];
    const struct link *lag = &telling->problem->operations->links[rule->index];
    const struct net_lag *net = &telling->problem->net.lags[link->index];
    const char *earlier = name_of(telling, operation_at(telling, link->earlier));
    if (net->maximum)
        return arena_textf(arena, "%s, which follows, must come within its window", earlier);
    int32_t until = net_map_at(&telling->problem->net, net->map, telling->result->start[link->earlier]);
    const char *moment = until >= NET_NEVER ? "never" : when(telling, until);
    if (lag->kind == LINK_STATE)
        return arena_textf(arena, "%s is not %s until %s", earlier, lag->what, moment);
    if (lag->kind == LINK_DAY)
        return arena_textf(arena, "the finish takes no more coats that day (%s)", earlier);
    if (lag->span_min > 0)
        return arena_textf(arena, "%s after %s until %s",
                           strcmp(lag->what, "dust settled") == 0 ? "dust settles" : "the schedule waits",
                           earlier, moment);
    return arena_textf(arena, "%s lasts until %s", earlier, moment);
}

static const char *reason_of(struct telling *telling, const struct net_link *link)
{
    struct arena *arena = telling->problem->arena;
    const char *earlier = link->earlier < 0 ? "" : name_of(telling, operation_at(telling, link->earlier));
    const struct problem *problem = telling->problem;
    if (link->kind == NET_LINK_LAG)
        return lag_reason(telling, link);
    if (link->kind == NET_LINK_RELEASE)
        return "work does not begin earlier";
    if (link->kind == NET_LINK_APART)
        return arena_textf(arena, "%s shares the room: dust and wet films stay apart", earlier);
    if (link->kind != NET_LINK_RESOURCE)
        return "the hours, or the air, do not allow it earlier";
    switch (problem->rules[problem->net.resources[link->index].rule].kind) {
    case RULE_SPRAY:
        return arena_textf(arena, "%s holds the spray place", earlier);
    case RULE_RACK:
        return arena_textf(arena, "%s holds the rack", earlier);
    default:
        return arena_textf(arena, "%s comes first: no hand is free", earlier);
    }
}

/* A step that waits for two things in a row (a film, then the hours) tells both in one sentence. */
static void tell_step(struct telling *telling, const struct net_link *links, size_t from, size_t to)
{
    struct arena *arena = telling->problem->arena;
    int operation = links[from].operation;
    const char *reasons = NULL;
    for (size_t i = to; i > from; i--) {
        const char *reason = reason_of(telling, &links[i - 1]);
        reasons = reasons ? arena_textf(arena, "%s, and then %s", reasons, reason) : reason;
    }
    say(telling, arena_textf(arena, "%s cannot start before %s: %s",
                             name_of(telling, operation_at(telling, operation)),
                             when(telling, telling->result->start[operation]), reasons));
}

static size_t step_of(const struct telling *telling, int operation)
{
    const struct timetable *timetable = telling->timetable;
    for (size_t i = 0; i < timetable->step_count; i++)
        if (timetable->steps[i].operation == operation_at(telling, operation))
            return i;
    return SIZE_MAX;
}

/* The links come last first; the user reads them forward. */
static void tell_chain(struct telling *telling, const struct net_link *links, size_t count)
{
    struct timetable *timetable = telling->timetable;
    size_t *chain = ARENA_ARRAY(telling->problem->arena, count, size_t);
    for (size_t to = count, from; to > 0; to = from) {
        from = to - 1;
        while (from > 0 && links[from - 1].operation == links[to - 1].operation)
            from--;
        size_t step = step_of(telling, links[from].operation);
        if (step == SIZE_MAX)
            continue;
        chain[timetable->chain_count++] = step;
        if (timetable->late_min > 0)
            tell_step(telling, links, from, to);
    }
    timetable->chain = chain;
}

void why_chain(struct problem *problem, const struct net_result *result, struct timetable *timetable)
{
    struct telling telling = {.problem = problem, .result = result, .timetable = timetable};
    size_t count = 0;
    const struct net_link *links = net_chain(&problem->net, result, &count);
    tell_chain(&telling, links, count);
    const int32_t *slack = net_float(&problem->net, result);
    for (size_t i = 0; i < timetable->step_count; i++)
        timetable->steps[i].float_min =
            (int64_t)slack[timetable->steps[i].operation - problem->operations->items] * SLOT_MIN;
    timetable->why = telling.sentences;
    timetable->why_count = telling.count;
}

/* A piece that alone is more than the rack, else all that dries at the same time. */
static const char *rack_words(struct telling *telling)
{
    const struct operations *operations = telling->problem->operations;
    double rack_m2 = operations->job->shop.rack_m2;
    for (size_t i = 0; i < operations->count; i++) {
        const struct operation *operation = &operations->items[i];
        if (operation->doing != DO_APPLY || problem_rack_m2(operation) <= rack_m2)
            continue;
        return arena_textf(telling->problem->arena, "%s takes %s of a rack of %s",
                           operation->job->pieces[operation->piece].name,
                           area_format(problem_rack_m2(operation), UNITS_METRIC).text,
                           area_format(rack_m2, UNITS_METRIC).text);
    }
    return "the rack does not hold what must dry at the same time";
}

static const char *rule_words(struct telling *telling, const struct rule *rule)
{
    struct arena *arena = telling->problem->arena;
    const struct link *link = NULL;
    switch (rule->kind) {
    case RULE_PEOPLE:
        return "there are not hands enough";
    case RULE_SPRAY:
        return "the spray places are taken";
    case RULE_RACK:
        return rack_words(telling);
    case RULE_PIECE:
        return "one piece is worked on by one person at a time";
    case RULE_DUST:
        return "dust and wet films must not meet in one room";
    case RULE_LINK:
        link = &telling->problem->operations->links[rule->index];
        break;
    }
    const char *from = name_of(telling, operation_at(telling, link->from));
    const char *to = name_of(telling, operation_at(telling, link->to));
    if (link->kind == LINK_WINDOW)
        return arena_textf(arena, "%s must start within the recoat window of %s, within the shop's hours", to,
                           from);
    if (link->kind == LINK_POLISH)
        return arena_textf(arena, "%s must start within %s after %s", to, span_format(link->span_min).text,
                           from);
    return arena_textf(arena, "%s waits for %s (%s)", to, from, link->what);
}

void why_impossible(struct problem *problem, const struct net_result *result, struct timetable *timetable)
{
    struct telling telling = {.problem = problem, .result = result, .timetable = timetable};
    struct arena *arena = problem->arena;
    if (problem->never >= 0) {
        const struct operation *operation = operation_at(&telling, problem->never);
        say(&telling,
            problem->hours->longest == 0
                ? "the shop never opens"
                : arena_textf(arena,
                              "%s can never start: the air is never right for it within working hours, or "
                              "no stretch of work is as long as its %s",
                              name_of(&telling, operation), span_format(operation->minutes).text));
    }
    for (size_t i = 0; i < result->rule_count; i++)
        if (result->rules[i] >= 0)
            say(&telling, rule_words(&telling, &problem->rules[result->rules[i]]));
    if (telling.count == 0)
        say(&telling, timetable->status == TIMETABLE_IMPOSSIBLE
                          ? "the limits contradict each other"
                          : "no plan was found within the effort allowed");
    timetable->why = telling.sentences;
    timetable->why_count = telling.count;
}
