#include "timetable/why.h"

#include "base/arena.h"

/* A piece that alone is more than the rack, else all that dries at the same time. */
static struct reason rack_reason(const struct problem *problem)
{
    const struct operations *operations = problem->operations;
    for (size_t i = 0; i < operations->count; i++) {
        const struct operation *operation = &operations->items[i];
        if (operation->doing == DO_APPLY && problem_rack_m2(operation) > operations->job->shop.rack_m2)
            return (struct reason){
                .kind = REASON_RACK_SMALL, .first = operation, .rack_m2 = problem_rack_m2(operation)};
    }
    return (struct reason){.kind = REASON_RACK};
}

static struct reason rule_reason(const struct problem *problem, const struct rule *rule)
{
    static const enum reason_kind kinds[] = {
        [RULE_LINK] = REASON_LINK, [RULE_PEOPLE] = REASON_PEOPLE, [RULE_SPRAY] = REASON_SPRAY,
        [RULE_RACK] = REASON_RACK, [RULE_PIECE] = REASON_TURNS,   [RULE_DUST] = REASON_DUST,
    };
    if (rule->kind == RULE_RACK)
        return rack_reason(problem);
    struct reason reason = {.kind = kinds[rule->kind]};
    if (rule->kind == RULE_LINK) {
        reason.link = &problem->operations->links[rule->index];
        reason.first = &problem->operations->items[reason.link->from];
        reason.last = &problem->operations->items[reason.link->to];
    }
    return reason;
}

/* An operation that no moment of the horizon allows. */
static struct reason never_reason(const struct problem *problem)
{
    const struct operation *operation = &problem->operations->items[problem->never];
    int32_t longest_min = problem->hours->longest * SLOT_MIN;
    bool too_long = (int64_t)longest_min * 60 < operation->units.longest_s || operation->doing != DO_APPLY;
    return (struct reason){.kind = longest_min == 0 ? REASON_CLOSED
                                   : too_long       ? REASON_LONG
                                                    : REASON_AIR,
                           .first = operation};
}

void why_impossible(struct problem *problem, const struct net_result *result, struct timetable *timetable)
{
    struct reason *reasons = ARENA_ARRAY(problem->arena, result->rule_count + 2, struct reason);
    size_t count = 0;
    if (problem->never >= 0)
        reasons[count++] = never_reason(problem);
    for (size_t i = 0; i < result->rule_count; i++)
        if (result->rules[i] >= 0)
            reasons[count++] = rule_reason(problem, &problem->rules[result->rules[i]]);
    if (count == 0)
        reasons[count++] = (struct reason){
            .kind = timetable->status == TIMETABLE_IMPOSSIBLE ? REASON_CONTRADICTS : REASON_EFFORT};
    timetable->why = reasons;
    timetable->why_count = count;
}
