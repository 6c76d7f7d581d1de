#include "report/drawing_parts.h"

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

enum { NAME_SIZE = 11, NAME_LEAST = 13, HOURS_LEAST = 48 };

static void closed_until(const struct picture *picture, int64_t from, int64_t to)
{
    double x = picture_x(picture, from), end = picture_x(picture, to);
    if (end - x < 0.05)
        return;
    svg_rect(picture->out, (struct svg_box){x, picture->top, end - x, picture->bottom - picture->top},
             "fill=\"" COLOUR_CLOSED "\"", NULL);
}

void picture_closed(const struct picture *picture)
{
    const struct hours *hours = picture->days.hours;
    int64_t closed_from = picture->days.items[0].from_min;
    for (size_t i = 0; i < hours->count; i++) {
        closed_until(picture, closed_from, hours_moment(hours, hours->stretches[i].from));
        closed_from = hours_moment(hours, hours->stretches[i].to);
    }
    closed_until(picture, closed_from, picture->days.items[picture->days.count - 1].to_min);
}

static void centred(const struct picture *picture, double x, double y, int size, const char *text)
{
    svg_text(
        picture->out, x, y,
        arena_textf(picture->arena, "text-anchor=\"middle\" font-size=\"%d\" fill=\"" COLOUR_INK "\"", size),
        text);
}

/* "Mon" over "1 Mar", as much of it as has room. */
static void day_name(const struct picture *picture, const struct shown_day *day, bool first)
{
    double x = picture_x(picture, day->from_min), width = picture_x(picture, day->to_min) - x;
    struct date date = date_of(day->day);
    const char *name = weekday_name(weekday_of(day->day));
    const char *number = arena_textf(picture->arena, "%d", date.day);
    const char *full = arena_textf(picture->arena, "%d %s", date.day, month_name(date.month));
    if (width < NAME_LEAST)
        return;
    if (svg_text_width(name, NAME_SIZE) > width)
        name = arena_text_n(picture->arena, name, 1);
    centred(picture, x + width / 2, picture->top - 27, NAME_SIZE, name);
    bool month = svg_text_width(full, NAME_SIZE) <= width || first || date.day == 1;
    centred(picture, x + width / 2, picture->top - 14, NAME_SIZE, month ? full : number);
}

/* "8", "12:30". */
static const char *hour_text(const struct picture *picture, int64_t minute)
{
    struct wall wall = zone_wall(picture->timetable->job->zone, minute);
    return wall.minute ? arena_textf(picture->arena, "%d:%02d", wall.hour, wall.minute)
                       : arena_textf(picture->arena, "%d", wall.hour);
}

static void hour(const struct picture *picture, int64_t minute, const char *anchor)
{
    svg_text(
        picture->out, picture_x(picture, minute), picture->top - 3,
        arena_textf(picture->arena, "text-anchor=\"%s\" font-size=\"9\" fill=\"" COLOUR_QUIET "\"", anchor),
        hour_text(picture, minute));
}

/* When the shop opens and closes, where there is room. */
static void day_hours(const struct picture *picture, const struct shown_day *day)
{
    if (!day->worked || picture_x(picture, day->close_min) - picture_x(picture, day->open_min) < HOURS_LEAST)
        return;
    hour(picture, day->open_min, "start");
    hour(picture, day->close_min, "end");
}

void picture_days(const struct picture *picture)
{
    for (size_t i = 0; i < picture->days.count; i++) {
        const struct shown_day *day = &picture->days.items[i];
        double x = picture_x(picture, day->from_min);
        bool monday = weekday_of(day->day) == MONDAY;
        svg_line(picture->out, (struct svg_box){x, picture->top - 38, 0, picture->bottom - picture->top + 38},
                 monday || i == 0 ? "stroke=\"" COLOUR_QUIET "\" stroke-width=\"1\""
                                  : "stroke=\"" COLOUR_RULE "\" stroke-width=\"1\"");
        day_name(picture, day, i == 0);
        day_hours(picture, day);
    }
}

struct due_place {
    double y, free_until;
};

/* A line from the days to below the lanes with its words beside its foot: behind it where they end before `free_until`. */
static void due_line(const struct picture *picture, int64_t minute, const char *words, struct due_place place,
                     const char *look)
{
    double x = picture_x(picture, minute), y = place.y;
    const char *text = arena_textf(picture->arena, "%s %s", words, picture_moment(picture, minute));
    bool before = x + 6 + svg_text_width(text, 12) > place.free_until;
    svg_line(picture->out, (struct svg_box){x, picture->top, 0, y - picture->top}, look);
    svg_text(picture->out, before ? x - 5 : x + 5, y,
             arena_textf(picture->arena,
                         "text-anchor=\"%s\" font-size=\"12\" font-weight=\"bold\" fill=\"" COLOUR_INK "\"",
                         before ? "end" : "start"),
             text);
}

void picture_due(const struct picture *picture)
{
    const struct timetable *timetable = picture->timetable;
    int64_t end = picture->days.items[picture->days.count - 1].to_min;
    double edge = picture->width - 8, due = edge;
    if (timetable->deliver_min <= end && timetable->deliver_min > timetable->ready_min)
        due = picture_x(picture, timetable->deliver_min) -
              2; /* its line passes by the words for the ready moment */
    due_line(picture, timetable->ready_min, "ready", (struct due_place){picture->bottom + 15, due},
             "stroke=\"" COLOUR_INK "\" stroke-width=\"1.5\" stroke-dasharray=\"5 3\"");
    if (timetable->deliver_min <= end)
        due_line(picture, timetable->deliver_min, "delivery", (struct due_place){picture->bottom + 31, edge},
                 "stroke=\"" COLOUR_DUE "\" stroke-width=\"2.5\"");
    else
        svg_text(picture->out, picture->right, picture->bottom + 31,
                 "text-anchor=\"end\" font-size=\"12\" font-weight=\"bold\" fill=\"" COLOUR_INK "\"",
                 arena_textf(picture->arena, "delivery %s, further on",
                             picture_moment(picture, timetable->deliver_min)));
}
