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
    return operation->of.of_finish < 10 ? (char)('0' + operation->of.of_finish) : '+';
}

enum { DAYS_MOST = 800, NEAR_MIN = 3 * DAY_MINUTES };

static int64_t later(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

/* Beyond half the time that the work takes, the delivery would squeeze the rest: it is then told, not drawn. */
static int64_t last_moment(const struct timetable *timetable)
{
    int64_t last = timetable->start_min;
    for (size_t i = 0; i < timetable->step_count; i++)
        last = later(last, timetable->steps[i].end_min);
    if (timetable->ready_min != INT64_MAX)
        last = later(last, timetable->ready_min);
    int64_t near = later(NEAR_MIN, (last - timetable->start_min) / 2);
    return timetable->deliver_min - last <= near ? later(last, timetable->deliver_min) : last;
}

static int64_t first_moment(const struct timetable *timetable)
{
    int64_t first = timetable->start_min;
    if (timetable->step_count && timetable->steps[0].start_min < first)
        first = timetable->steps[0].start_min;
    return first;
}

static void find_hours(const struct hours *hours, struct shown_day *day)
{
    day->open_min = day->close_min = day->from_min;
    for (size_t i = 0; i < hours->count; i++) {
        int64_t from = later(hours_moment(hours, hours->stretches[i].from), day->from_min);
        int64_t to = hours_moment(hours, hours->stretches[i].to);
        to = to < day->to_min ? to : day->to_min;
        if (from >= to)
            continue;
        if (day->open_min == day->close_min)
            day->open_min = from;
        day->close_min = to;
    }
}

struct shown_days shown_days_make(struct arena *arena, const struct timetable *timetable)
{
    const struct job *job = timetable->job;
    int64_t first = zone_day(job->zone, first_moment(timetable), NULL);
    int64_t last = zone_day(job->zone, last_moment(timetable) - 1, NULL);
    last = last < first ? first : last - first < DAYS_MOST ? last : first + DAYS_MOST - 1;
    int64_t from = zone_moment_on(job->zone, first, 0), to = zone_moment_on(job->zone, last + 1, 0);
    struct shown_days days = {.count = (size_t)(last - first + 1)};
    days.hours = hours_make(arena, &job->shop, job->zone, from, (int32_t)((to - from) / SLOT_MIN));
    days.items = ARENA_ARRAY(arena, days.count, struct shown_day);
    for (size_t i = 0; i < days.count; i++) {
        int64_t day = first + (int64_t)i;
        days.items[i] = (struct shown_day){.day = day,
                                           .from_min = zone_moment_on(job->zone, day, 0),
                                           .to_min = zone_moment_on(job->zone, day + 1, 0)};
        find_hours(days.hours, &days.items[i]);
    }
    for (size_t i = 0; i < timetable->step_count; i++) {
        int64_t day = zone_day(job->zone, timetable->steps[i].start_min, NULL) - first;
        if (day >= 0 && (size_t)day < days.count)
            days.items[day].worked = true;
    }
    return days;
}
