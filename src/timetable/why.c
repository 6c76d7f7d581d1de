#include "timetable/why.h"

#include "base/arena.h"
#include "base/measure.h"
#include "timetable/telling.h"

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
        return telling->problem->operations->job->shop.spray_places > 0 ? "the spray places are taken"
                                                                        : "the shop has no place to spray";
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
    const char *from = telling_name(telling, telling_operation(telling, link->from));
    const char *to = telling_name(telling, telling_operation(telling, link->to));
    if (link->kind == LINK_WINDOW)
        return arena_textf(arena, "%s must start within the recoat window of %s, within the shop's hours", to,
                           from);
    if (link->kind == LINK_POLISH)
        return arena_textf(arena, "%s must start within %s after %s", to, span_format(link->span_min).text,
                           from);
    return arena_textf(arena, "%s waits for %s (%s)", to, from, link->what);
}

/* "15 C to 30 C and 0 % to 80 % humidity, 3 C above the dew point". */
static const char *air_words(struct telling *telling, const struct operation *operation)
{
    const struct finish_air *air = &operation->of.step->finish->air;
    enum unit_system units = operation->job->inches ? UNITS_US : UNITS_METRIC;
    return arena_textf(telling->problem->arena, "%s to %s and %s to %s humidity, %s above the dew point",
                       temperature_format(air->lowest_c, units).text,
                       temperature_format(air->highest_c, units).text, share_format(air->driest).text,
                       share_format(air->dampest).text, operation->job->inches ? "5 F" : "3 C");
}

/* An operation that no moment of the horizon allows. */
static const char *never_words(struct telling *telling, const struct operation *operation)
{
    struct arena *arena = telling->problem->arena;
    const char *name = telling_name(telling, operation);
    if (telling->problem->hours->longest == 0)
        return "the shop never opens";
    if (telling->problem->hours->longest * SLOT_MIN < operation->minutes || operation->doing != DO_APPLY)
        return arena_textf(arena, "%s can never start: no stretch of work is as long as its %s", name,
                           span_format(operation->minutes).text);
    return arena_textf(arena, "%s can never start: within working hours the air is never right for it (%s)",
                       name, air_words(telling, operation));
}

void why_impossible(struct problem *problem, const struct net_result *result, struct timetable *timetable)
{
    struct telling telling = {.problem = problem, .result = result, .timetable = timetable};
    if (problem->never >= 0)
        telling_say(&telling, never_words(&telling, telling_operation(&telling, problem->never)));
    for (size_t i = 0; i < result->rule_count; i++)
        if (result->rules[i] >= 0)
            telling_say(&telling, rule_words(&telling, &problem->rules[result->rules[i]]));
    if (telling.count == 0)
        telling_say(&telling, timetable->status == TIMETABLE_IMPOSSIBLE
                                  ? "the limits contradict each other"
                                  : "no plan was found within the effort allowed");
    timetable->why = telling.sentences;
    timetable->why_count = telling.count;
}
