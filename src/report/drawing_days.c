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

struct time_axis time_axis_make(struct arena *arena, const struct shown_days *days, double x, double width)
{
    struct time_axis axis = {
        ARENA_ARRAY(arena, 2 * (days->hours->count + days->count) + 2 * days->count + 1, struct axis_point),
        1};
    axis.points[0] = (struct axis_point){days->items[0].from_min, 0};
    for (size_t i = 0; i < days->count; i++)
        add_day(&axis, days, &days->items[i]);
    double scale = width / axis.points[axis.count - 1].x;
    for (size_t i = 0; i < axis.count; i++)
        axis.points[i].x = x + scale * axis.points[i].x;
    return axis;
}

double time_axis_share(const struct shown_day *day)
{
    return day->worked ? 1 : 2 * narrow;
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

enum { NAME_GAP = 6, NAME_LEAST = 14, HOURS_LEAST = 56, FLAG_HEIGHT = 20 };

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

static void centred(const struct picture *picture, double x, double y, const char *text)
{
    svg_text(picture->out, x, y, "text-anchor=\"middle\" font-size=\"12\" fill=\"" COLOUR_INK "\"", text);
}

/* When the shop opens and closes, where there is room. */
static bool hours_shown(const struct picture *picture, const struct shown_day *day)
{
    return day->worked &&
           picture_x(picture, day->close_min) - picture_x(picture, day->open_min) >= HOURS_LEAST;
}

static bool has_room(const char *text, double width)
{
    return svg_text_width(text, PICTURE_SMALL) + NAME_GAP <= width;
}

/* "Mon" over "1 Mar", as much of it as has room; neighbours keep apart. The month stands below where a band or a month
 * begins in a narrow day. */
static void day_name(const struct picture *picture, const struct shown_day *day, bool first)
{
    double x = picture_x(picture, day->from_min), width = picture_x(picture, day->to_min) - x;
    struct date date = date_of(day->day);
    const char *name = weekday_name(weekday_of(day->day));
    const char *number = arena_textf(picture->arena, "%d", date.day);
    const char *full = arena_textf(picture->arena, "%d %s", date.day, month_name(date.month));
    if (width < NAME_LEAST)
        return;
    centred(picture, x + width / 2, picture->top - 34,
            has_room(name, width) ? name : arena_text_n(picture->arena, name, 1));
    if (has_room(full, width))
        centred(picture, x + width / 2, picture->top - 19, full);
    else if (has_room(number, width) || width > svg_text_width(number, PICTURE_SMALL) + 2)
        centred(picture, x + width / 2, picture->top - 19, number);
    if ((first || date.day == 1) && !has_room(full, width) && !hours_shown(picture, day))
        svg_text(picture->out, x + 3, picture->top - 4, "font-size=\"12\" fill=\"" COLOUR_INK "\"",
                 month_name(date.month));
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
        picture->out, picture_x(picture, minute), picture->top - 4,
        arena_textf(picture->arena, "text-anchor=\"%s\" font-size=\"12\" fill=\"" COLOUR_QUIET "\"", anchor),
        hour_text(picture, minute));
}

static void day_hours(const struct picture *picture, const struct shown_day *day)
{
    if (!hours_shown(picture, day))
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
        svg_line(picture->out, (struct svg_box){x, picture->top - 46, 0, picture->bottom - picture->top + 46},
                 monday || i == 0 ? "stroke=\"" COLOUR_QUIET "\" stroke-width=\"1\""
                                  : "stroke=\"" COLOUR_RULE "\" stroke-width=\"1\"");
        day_name(picture, day, i == 0);
        day_hours(picture, day);
    }
}

/* A moment with its words; in its own colour. */
struct flag {
    int64_t minute;
    const char *words, *colour;
    double y; /* of its top */
};

static bool in_band(const struct picture *picture, int64_t minute)
{
    return minute >= picture->days.items[0].from_min &&
           minute <= picture->days.items[picture->days.count - 1].to_min;
}

static struct flag ready_flag(const struct picture *picture)
{
    return (struct flag){picture->timetable->ready_min, "ready", COLOUR_READY, picture->bottom + 6};
}

static struct flag due_flag(const struct picture *picture)
{
    return (struct flag){picture->timetable->deliver_min, "delivery", COLOUR_DUE,
                         picture->bottom + 10 + FLAG_HEIGHT};
}

static void pole(const struct picture *picture, struct flag flag)
{
    if (in_band(picture, flag.minute))
        svg_line(picture->out,
                 (struct svg_box){picture_x(picture, flag.minute), picture->top, 0,
                                  flag.y + FLAG_HEIGHT - picture->top},
                 arena_textf(picture->arena, "stroke=\"%s\" stroke-width=\"2\"", flag.colour));
}

void picture_poles(const struct picture *picture)
{
    pole(picture, due_flag(picture));
    pole(picture, ready_flag(picture));
}

/* Behind its pole, or before it where the frame ends. */
static void draw_flag(const struct picture *picture, struct flag flag)
{
    const char *text = arena_textf(picture->arena, "%s %s", flag.words, picture_moment(picture, flag.minute));
    double width = svg_text_width(text, PICTURE_SMALL) + 16, x = picture_x(picture, flag.minute);
    if (x + width > PICTURE_WIDTH - PICTURE_MARGIN)
        x -= width;
    svg_rect(picture->out, (struct svg_box){x, flag.y, width, FLAG_HEIGHT},
             arena_textf(picture->arena, "fill=\"%s\"", flag.colour), NULL);
    svg_text(picture->out, x + width / 2, flag.y + 14,
             "text-anchor=\"middle\" font-size=\"12\" font-weight=\"bold\" fill=\"#ffffff\"", text);
}

static bool beyond(const struct picture *picture, int64_t minute)
{
    return minute > picture->days.items[picture->days.count - 1].to_min;
}

double picture_flags(const struct picture *picture)
{
    struct flag ready = ready_flag(picture), due = due_flag(picture);
    bool any = in_band(picture, ready.minute) || in_band(picture, due.minute);
    if (in_band(picture, ready.minute))
        draw_flag(picture, ready);
    if (in_band(picture, due.minute))
        draw_flag(picture, due);
    else if (in_band(picture, ready.minute) && beyond(picture, due.minute))
        svg_text(picture->out, picture->right, due.y + 14,
                 "text-anchor=\"end\" font-size=\"12\" font-weight=\"bold\" fill=\"" COLOUR_DUE "\"",
                 arena_textf(picture->arena, "delivery %s, later than drawn",
                             picture_moment(picture, due.minute)));
    return any ? due.y + FLAG_HEIGHT : picture->bottom;
}
