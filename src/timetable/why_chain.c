/* The chain of steps that fixes the ready moment, told forwards. */
#include "timetable/why.h"

#include "base/arena.h"
#include "timetable/telling.h"

enum { ROW_LEAST = 3 }; /* steps that follow one another at once are told as one row from so many on */

/* The links of one step of the chain. */
struct chain_step {
    const struct net_link *links; /* last first */
    size_t count;
    size_t step; /* in the timetable */
};

/* The links come last first; the user reads them forward. */
static size_t split(const struct telling *telling, const struct net_link *links, size_t count,
                    struct chain_step *steps)
{
    size_t found = 0;
    for (size_t to = count, from; to > 0; to = from) {
        from = to - 1;
        while (from > 0 && links[from - 1].operation == links[to - 1].operation)
            from--;
        struct chain_step step = {
            &links[from], to - from,
            timetable_step_of(telling->timetable, telling_operation(telling, links[from].operation))};
        if (step.step != SIZE_MAX)
            steps[found++] = step;
    }
    return found;
}

static void tell_step(struct telling *telling, const struct chain_step *step)
{
    int operation = step->links[0].operation;
    telling_say(telling, arena_textf(telling->problem->arena, "%s cannot start before %s: %s",
                                     telling_name(telling, telling_operation(telling, operation)),
                                     telling_when(telling, telling->result->start[operation]),
                                     telling_wait(telling, step->links, step->count)));
}

static void tell_row(struct telling *telling, const struct chain_step *steps, size_t count)
{
    int first = steps[0].links[0].operation, last = steps[count - 1].links[0].operation;
    int32_t end = telling->result->start[last] + telling->problem->net.operations[last].duration;
    telling_say(telling,
                arena_textf(telling->problem->arena,
                            "from %s to %s hands are busy with %zu steps one after the other, from "
                            "%s to %s",
                            telling_when(telling, telling->result->start[first]), telling_when(telling, end),
                            count, telling_name(telling, telling_operation(telling, first)),
                            telling_name(telling, telling_operation(telling, last))));
}

static void tell_steps(struct telling *telling, const struct chain_step *steps, size_t count)
{
    for (size_t from = 0, to; from < count; from = to) {
        to = from;
        while (to < count && telling_follows(telling, steps[to].links, steps[to].count))
            to++;
        if (to - from >= ROW_LEAST) {
            tell_row(telling, &steps[from], to - from);
            continue;
        }
        to += to == from;
        for (size_t i = from; i < to; i++)
            tell_step(telling, &steps[i]);
    }
}

/* The line of the finish that makes the job ready when it is; NULL: none does. */
static const struct finish_line *last_line(struct telling *telling, int operation, int32_t ready)
{
    const struct operations *operations = telling->problem->operations;
    for (size_t i = 0; i < operations->line_count; i++) {
        const struct finish_line *line = &operations->lines[i];
        if (line->operation == operation &&
            net_map_at(&telling->problem->net, problem_line_map(telling->problem, line),
                       telling->result->start[operation]) == ready)
            return line;
    }
    return NULL;
}

/* When the last step would have to end for a delivery that is missed; "" where even the start of the job is too late. */
static const char *end_for_delivery(struct telling *telling, const struct finish_line *line)
{
    const struct problem *problem = telling->problem;
    if (telling->timetable->late_min == 0)
        return "";
    int32_t due = hours_slot_down(problem->hours, telling->timetable->deliver_min);
    int32_t start = net_map_last(&problem->net, problem_line_map(telling->problem, line), due);
    int32_t end = start + problem->net.operations[line->operation].duration;
    return start < 0 ? ""
                     : arena_textf(problem->arena, "; for %s it would have to end by %s",
                                   telling_when(telling, due), telling_when(telling, end));
}

static void tell_ready(struct telling *telling, int operation)
{
    int32_t ready = hours_slot_down(telling->problem->hours, telling->timetable->ready_min);
    const struct finish_line *line = last_line(telling, operation, ready);
    if (!line)
        return;
    const char *name = telling_name(telling, telling_operation(telling, operation));
    const char *until = telling_when(telling, ready), *end = end_for_delivery(telling, line);
    struct arena *arena = telling->problem->arena;
    if (line->is_state)
        telling_say(telling, arena_textf(arena, "%s is not %s until %s%s", name,
                                         operation_state_words(line->state), until, end));
    else if (line->span_min > 0)
        telling_say(telling, arena_textf(arena, "the schedule waits after %s until %s%s", name, until, end));
    else
        telling_say(telling, arena_textf(arena, "%s lasts until %s", name, until));
}

void why_chain(struct problem *problem, const struct net_result *result, struct timetable *timetable)
{
    struct telling telling = {.problem = problem, .result = result, .timetable = timetable};
    size_t count = 0;
    const struct net_link *links = net_critical_path(&problem->net, result, &count);
    struct chain_step *steps = ARENA_ARRAY(problem->arena, count, struct chain_step);
    size_t *chain = ARENA_ARRAY(problem->arena, count, size_t);
    timetable->chain_count = split(&telling, links, count, steps);
    for (size_t i = 0; i < timetable->chain_count; i++)
        chain[i] = steps[i].step;
    timetable->chain = chain;
    if (timetable->chain_count > 0) {
        tell_steps(&telling, steps, timetable->chain_count);
        tell_ready(&telling, links[0].operation);
    }
    timetable->why = telling.sentences;
    timetable->why_count = telling.count;
}

void why_float(struct problem *problem, const struct net_result *result, struct timetable *timetable)
{
    const int32_t *slack = net_float(&problem->net, result);
    for (size_t i = 0; i < timetable->step_count; i++)
        timetable->steps[i].float_min =
            (int64_t)slack[timetable->steps[i].operation - problem->operations->items] * SLOT_MIN;
}
