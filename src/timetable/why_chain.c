/* The chain of steps that fixes the ready moment, told forwards. */
#include "timetable/why.h"

#include "base/arena.h"
#include "timetable/reasoning.h"

enum { ROW_LEAST = 3 }; /* steps that follow one another at once are one row from so many on */

/* The links of one step of the chain. */
struct chain_step {
    const struct net_link *links; /* last first */
    size_t count;
    size_t step; /* in the timetable */
};

/* The links come last first; the user reads them forward. */
static size_t split(const struct reasoning *reasoning, const struct net_link *links, size_t count,
                    struct chain_step *steps)
{
    size_t found = 0;
    for (size_t to = count, from; to > 0; to = from) {
        from = to - 1;
        while (from > 0 && links[from - 1].operation == links[to - 1].operation)
            from--;
        struct chain_step step = {
            &links[from], to - from,
            timetable_step_of(reasoning->timetable, reasoning_operation(reasoning, links[from].operation))};
        if (step.step != SIZE_MAX)
            steps[found++] = step;
    }
    return found;
}

static void add_step(struct reasoning *reasoning, const struct chain_step *step)
{
    int operation = step->links[0].operation;
    reasoning_add(reasoning, (struct reason){
                                 .kind = REASON_STEP,
                                 .first = reasoning_operation(reasoning, operation),
                                 .from_min = reasoning_moment(reasoning, reasoning->result->start[operation]),
                                 .cause = reasoning_cause(reasoning, step->links, step->count)});
}

static void add_row(struct reasoning *reasoning, const struct chain_step *steps, size_t count)
{
    int first = steps[0].links[0].operation, last = steps[count - 1].links[0].operation;
    int32_t end = reasoning->result->start[last] + reasoning->problem->net.operations[last].duration;
    reasoning_add(reasoning,
                  (struct reason){.kind = REASON_ROW,
                                  .first = reasoning_operation(reasoning, first),
                                  .last = reasoning_operation(reasoning, last),
                                  .from_min = reasoning_moment(reasoning, reasoning->result->start[first]),
                                  .until_min = reasoning_moment(reasoning, end),
                                  .count = count});
}

static void add_steps(struct reasoning *reasoning, const struct chain_step *steps, size_t count)
{
    for (size_t from = 0, to; from < count; from = to) {
        to = from;
        while (to < count && reasoning_follows(reasoning, steps[to].links, steps[to].count))
            to++;
        if (to - from >= ROW_LEAST) {
            add_row(reasoning, &steps[from], to - from);
            continue;
        }
        to += to == from;
        for (size_t i = from; i < to; i++)
            add_step(reasoning, &steps[i]);
    }
}

/* The line of the finish that makes the job ready when it is; NULL: none does. */
static const struct finish_line *last_line(struct reasoning *reasoning, int operation, int32_t ready)
{
    const struct operations *operations = reasoning->problem->operations;
    for (size_t i = 0; i < operations->line_count; i++) {
        const struct finish_line *line = &operations->lines[i];
        if (line->operation == operation &&
            net_map_at(&reasoning->problem->net, problem_line_map(reasoning->problem, line),
                       reasoning->result->start[operation]) == ready)
            return line;
    }
    return NULL;
}

/* When the last step would have to end for a delivery that is missed; INT64_MIN where even the start of the job is too
 * late. */
static int64_t end_for_delivery(const struct reasoning *reasoning, const struct finish_line *line)
{
    struct problem *problem = reasoning->problem;
    if (reasoning->timetable->late_min == 0)
        return INT64_MIN;
    int32_t due = hours_slot_down(problem->hours, reasoning->timetable->deliver_min);
    int32_t start = net_map_last(&problem->net, problem_line_map(problem, line), due);
    return start < 0 ? INT64_MIN
                     : reasoning_moment(reasoning, start + problem->net.operations[line->operation].duration);
}

static void add_ready(struct reasoning *reasoning, int operation)
{
    int32_t ready = hours_slot_down(reasoning->problem->hours, reasoning->timetable->ready_min);
    const struct finish_line *line = last_line(reasoning, operation, ready);
    if (line)
        reasoning_add(reasoning, (struct reason){.kind = REASON_READY,
                                                 .first = reasoning_operation(reasoning, operation),
                                                 .line = line,
                                                 .until_min = reasoning_moment(reasoning, ready),
                                                 .end_by_min = end_for_delivery(reasoning, line)});
}

void why_chain(struct problem *problem, const struct net_result *result, struct timetable *timetable)
{
    struct reasoning reasoning = {.problem = problem, .result = result, .timetable = timetable};
    size_t count = 0;
    const struct net_link *links = net_critical_path(&problem->net, result, &count);
    struct chain_step *steps = ARENA_ARRAY(problem->arena, count, struct chain_step);
    size_t *chain = ARENA_ARRAY(problem->arena, count, size_t);
    timetable->chain_count = split(&reasoning, links, count, steps);
    for (size_t i = 0; i < timetable->chain_count; i++)
        chain[i] = steps[i].step;
    timetable->chain = chain;
    if (timetable->chain_count > 0) {
        add_steps(&reasoning, steps, timetable->chain_count);
        add_ready(&reasoning, links[0].operation);
    }
    reasoning_keep(&reasoning);
}

void why_float(struct problem *problem, const struct net_result *result, struct timetable *timetable)
{
    const int32_t *slack = net_float(&problem->net, result);
    for (size_t i = 0; i < timetable->step_count; i++)
        timetable->steps[i].float_min =
            (int64_t)slack[timetable->steps[i].operation - problem->operations->items] * SLOT_MIN;
}
