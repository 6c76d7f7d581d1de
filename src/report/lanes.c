#include "report/lanes.h"

#include "base/arena.h"

#include <stdlib.h>

/* Steps by lane: a task after all pieces, in the order of the job. */
struct lane_key {
    int piece, schedule, task;
    size_t step;
};

static int compare(int a, int b)
{
    return (a > b) - (a < b);
}

static int by_lane(const struct lane_key *a, const struct lane_key *b)
{
    if (a->task != b->task)
        return compare(a->task, b->task);
    return a->piece != b->piece ? compare(a->piece, b->piece) : compare(a->schedule, b->schedule);
}

static int by_lane_then_step(const void *left, const void *right)
{
    const struct lane_key *a = left, *b = right;
    int order = by_lane(a, b);
    return order ? order : (a->step > b->step) - (a->step < b->step);
}

static struct lane_key *sorted_keys(struct arena *arena, const struct timetable *timetable)
{
    struct lane_key *keys = ARENA_ARRAY(arena, timetable->step_count, struct lane_key);
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct operation *operation = timetable->steps[i].operation;
        keys[i] = operation->piece >= 0 ? (struct lane_key){operation->piece, operation->schedule, -1, i}
                                        : (struct lane_key){-1, -1, operation->task, i};
    }
    qsort(keys, timetable->step_count, sizeof *keys, by_lane_then_step);
    return keys;
}

static struct lane lane_of(const struct job *job, const struct lane_key *key, const struct lane_key *before)
{
    bool first = !before || key->task >= 0 || before->piece != key->piece;
    if (key->task >= 0)
        return (struct lane){job->tasks[key->task].name, NULL, first, true, false, false};
    return (struct lane){
        job->pieces[key->piece].name, job->schedules[key->schedule].name, first, first, false, false};
}

struct lanes lanes_make(struct arena *arena, const struct timetable *timetable)
{
    struct lanes lanes = {ARENA_ARRAY(arena, timetable->step_count, struct lane), 0,
                          ARENA_ARRAY(arena, timetable->step_count, size_t)};
    struct lane_key *keys = sorted_keys(arena, timetable);
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct lane_key *before = i ? &keys[i - 1] : NULL;
        if (!before || by_lane(before, &keys[i]) != 0) {
            struct lane lane = lane_of(timetable->job, &keys[i], before);
            if (!lane.first)
                lanes.items[lanes.count - 1].alone = false;
            lanes.items[lanes.count++] = lane;
        }
        const struct operation *operation = timetable->steps[keys[i].step].operation;
        if (operation->doing == DO_APPLY) {
            lanes.items[lanes.count - 1].back |= operation->side == SIDE_BACK;
            lanes.items[lanes.count - 1].face |= operation->side == SIDE_FACE;
        }
        lanes.of_step[keys[i].step] = lanes.count - 1;
    }
    return lanes;
}

static const struct mark_words marks[] = {
    {'s', "sand"},    {'c', "scuff"}, {'w', "wet to raise the grain"},
    {'m', "mask"},    {'f', "flip"},  {'p', "polish"},
    {'r', "rub out"}, {'*', "task"},  {'\0', NULL},
};

const struct mark_words *step_marks(void)
{
    return marks;
}

char step_mark(const struct operation *operation)
{
    static const char letters[DOING_COUNT] = {
        [DO_SAND] = 's', [DO_SCUFF] = 'c',  [DO_RAISE] = 'w', [DO_MASK] = 'm',
        [DO_FLIP] = 'f', [DO_POLISH] = 'p', [DO_RUB] = 'r',   [DO_TASK] = '*'};
    if (operation->doing != DO_APPLY)
        return letters[operation->doing];
    return operation->coat < 10 ? (char)('0' + operation->coat) : '+';
}
