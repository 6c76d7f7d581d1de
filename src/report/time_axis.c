#include "report/time_axis.h"

#include "base/arena.h"

static const double narrow = 0.2; /* of the width of a working hour */

static void add_point(struct time_axis *axis, int64_t minute, double share)
{
    struct axis_point *last = &axis->points[axis->count - 1];
    if (minute <= last->minute)
        return;
    axis->points[axis->count++] =
        (struct axis_point){minute, last->x + share * (double)(minute - last->minute)};
}

/* One worked day: up to each opening narrow, up to each closing wide. */
static void add_worked(struct time_axis *axis, const struct hours *hours, const struct shown_day *day)
{
    for (size_t i = 0; i < hours->count; i++) {
        int64_t from = hours_moment(hours, hours->stretches[i].from);
        int64_t to = hours_moment(hours, hours->stretches[i].to);
        if (to <= day->from_min || from >= day->to_min)
            continue;
        add_point(axis, from, narrow);
        add_point(axis, to < day->to_min ? to : day->to_min, 1);
    }
    add_point(axis, day->to_min, narrow);
}

/* Work on a day that the shop's hours leave closed keeps its room all the same. */
static void add_day(struct time_axis *axis, const struct shown_days *days, const struct shown_day *day)
{
    if (day->worked && day->open_min < day->close_min)
        add_worked(axis, days->hours, day);
    else
        add_point(axis, day->to_min, day->worked ? 1 : narrow);
}

static double wanted_width(const struct shown_days *days, struct axis_size size)
{
    size_t worked = 0;
    for (size_t i = 0; i < days->count; i++)
        worked += days->items[i].worked;
    double width = size.day * ((double)worked + 0.4 * (double)(days->count - worked));
    width = width > size.least ? width : size.least;
    return width < size.most ? width : size.most;
}

struct time_axis time_axis_make(struct arena *arena, const struct shown_days *days, struct axis_size size)
{
    struct time_axis axis = {
        ARENA_ARRAY(arena, 2 * (days->hours->count + days->count) + 2 * days->count + 1, struct axis_point),
        1};
    axis.points[0] = (struct axis_point){days->items[0].from_min, 0};
    for (size_t i = 0; i < days->count; i++)
        add_day(&axis, days, &days->items[i]);
    double scale = wanted_width(days, size) / axis.points[axis.count - 1].x;
    for (size_t i = 0; i < axis.count; i++)
        axis.points[i].x = size.x + scale * axis.points[i].x;
    return axis;
}

double time_axis_x(const struct time_axis *axis, int64_t minute)
{
    const struct axis_point *points = axis->points;
    size_t low = 0, high = axis->count - 1;
    if (minute <= points[0].minute)
        return points[0].x;
    if (minute >= points[high].minute)
        return points[high].x;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (points[middle].minute <= minute)
            low = middle;
        else
            high = middle;
    }
    double share = (double)(minute - points[low].minute) / (double)(points[high].minute - points[low].minute);
    return points[low].x + share * (points[high].x - points[low].x);
}
