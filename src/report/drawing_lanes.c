#include "report/drawing_parts.h"

#include "base/arena.h"
#include "report/sentences.h"

enum { WORK_LEAST = 3, MARK_SIZE = 10 };

static bool applied(const struct timetable_step *step)
{
    return step->operation->doing == DO_APPLY;
}

static struct svg_box box_of(const struct picture *picture, size_t lane, int64_t from, int64_t to)
{
    double x = picture_x(picture, from);
    return (struct svg_box){x, picture_lane_y(picture, lane), picture_x(picture, to) - x,
                            picture->lane_height};
}

static const char *tip_of(const struct picture *picture, const struct timetable_step *step)
{
    const char *piece = step_piece(picture->arena, step->operation);
    return arena_textf(picture->arena, "%s%s%s: %s to %s", piece, *piece ? ", " : "",
                       step_words(picture->arena, step->operation), picture_moment(picture, step->start_min),
                       picture_moment(picture, step->end_min));
}

/* Where both sides get coats of their own the face has the upper half of the lane, the back the lower one. */
static struct svg_box half(const struct picture *picture, const struct operation *operation, size_t lane,
                           struct svg_box box)
{
    const struct lane *of = &picture->lanes.items[lane];
    double inset = picture->lane_height * 0.22;
    box.y += inset;
    box.height -= 2 * inset;
    if (!of->back || !of->face || operation->side == SIDE_ALL)
        return box;
    box.height = box.height / 2 - 0.5;
    box.y += operation->side == SIDE_BACK ? box.height + 1 : 0;
    return box;
}

/* Where the air leaves the limits: a warning sign on the film. */
static void draw_outside(const struct picture *picture, const struct drying_wait *wait, struct svg_box box)
{
    struct buf data;
    if (wait->outside.minutes == 0)
        return;
    double x = picture_x(picture, wait->outside.from_min), y = box.y + box.height / 2;
    buf_init(&data, picture->arena);
    buf_add_char(&data, 'M');
    svg_number(&data, x);
    buf_add_char(&data, ' ');
    svg_number(&data, y + 5);
    buf_add(&data, "h10l-5 -10z");
    svg_path(picture->out, data.text, "fill=\"#ffffff\" stroke=\"" COLOUR_DUE "\" stroke-width=\"1.2\"",
             arena_textf(picture->arena, "the air leaves the finish's limits: %s",
                         picture_moment(picture, wait->outside.from_min)));
    svg_text(picture->out, x + 5, y + 4,
             "text-anchor=\"middle\" font-size=\"8\" font-weight=\"bold\" fill=\"" COLOUR_DUE "\"", "!");
}

static void draw_wait(const struct picture *picture, const struct drying_wait *wait)
{
    const struct timetable_step *step = &picture->timetable->steps[wait->step];
    size_t lane = picture->lanes.of_step[wait->step];
    bool last = step->operation->last_coat;
    struct svg_box box =
        half(picture, step->operation, lane, box_of(picture, lane, wait->from_min, wait->until_min));
    const char *tip = arena_textf(picture->arena, "%s: %s %s", tip_of(picture, step),
                                  state_words(wait->state), picture_moment(picture, wait->until_min));
    svg_rect(picture->out, box,
             last ? "fill=\"url(#last)\" stroke=\"" COLOUR_LAST_INK "\" stroke-width=\"0.8\""
                  : "fill=\"url(#film)\" stroke=\"" COLOUR_FILM_INK "\" stroke-width=\"0.8\"",
             tip);
    draw_outside(picture, wait, box);
}

void picture_window(const struct picture *picture, struct svg_box box, bool ends, const char *tip)
{
    struct buf data;
    buf_init(&data, picture->arena);
    buf_add_char(&data, 'M');
    svg_number(&data, box.x);
    buf_add_char(&data, ' ');
    svg_number(&data, box.y);
    buf_add_char(&data, 'h');
    svg_number(&data, box.width);
    if (ends)
        buf_add(&data, "v-4m0 4v3");
    svg_path(picture->out, data.text, "fill=\"none\" stroke=\"" COLOUR_WINDOW "\" stroke-width=\"1.4\"", tip);
}

/* The open window runs along the lane's foot; the windows of coats that follow one another lie a little apart. */
static void draw_window(const struct picture *picture, size_t lane, int64_t from, int64_t until, int layer)
{
    int64_t end = picture->days.items[picture->days.count - 1].to_min;
    struct svg_box box = box_of(picture, lane, from, until);
    box.y += picture->lane_height - 2 - 2.4 * layer;
    picture_window(picture, box, until <= end,
                   arena_textf(picture->arena, "begin before %s", picture_moment(picture, until)));
}

static void draw_windows(const struct picture *picture)
{
    const struct timetable *timetable = picture->timetable;
    int *layers = ARENA_ARRAY(picture->arena, picture->lanes.count, int);
    for (size_t i = 0; i < timetable->wait_count; i++) {
        const struct drying_wait *wait = &timetable->waits[i];
        size_t lane = picture->lanes.of_step[wait->step];
        if (wait->window_min == INT64_MAX || wait->window_min <= wait->until_min)
            continue;
        draw_window(picture, lane, wait->until_min, wait->window_min, layers[lane]);
        layers[lane] = !layers[lane];
    }
}

/* A coat is a solid block with its number in white, other work a hollow one; where it is too slim for its mark, a coat
 * has it at its side. */
void picture_work(const struct picture *picture, struct svg_box box, char mark, const char *tip)
{
    bool coat = mark == '+' || (mark >= '0' && mark <= '9');
    const char text[] = {mark, '\0'};
    svg_rect(picture->out, box,
             coat ? "fill=\"" COLOUR_COAT "\" stroke=\"#ffffff\" stroke-width=\"0.6\""
                  : "fill=\"#ffffff\" stroke=\"" COLOUR_COAT "\" stroke-width=\"1\"",
             tip);
    bool inside = box.width >= 9;
    if (inside)
        svg_text(picture->out, box.x + box.width / 2, box.y + box.height / 2 + 3.6,
                 coat ? "text-anchor=\"middle\" font-size=\"10\" font-weight=\"bold\" fill=\"#ffffff\""
                      : "text-anchor=\"middle\" font-size=\"10\" fill=\"" COLOUR_COAT "\"",
                 text);
    else if (coat)
        svg_text(picture->out, box.x + box.width + 1.5, box.y + box.height / 2 + 3.6,
                 "font-size=\"10\" font-weight=\"bold\" fill=\"" COLOUR_COAT
                 "\" stroke=\"#ffffff\" stroke-width=\"2.4\" paint-order=\"stroke\"",
                 text);
}

static void draw_step(const struct picture *picture, size_t index)
{
    const struct timetable_step *step = &picture->timetable->steps[index];
    struct svg_box box = box_of(picture, picture->lanes.of_step[index], step->start_min, step->end_min);
    box.width = box.width < WORK_LEAST ? WORK_LEAST : box.width;
    box.y += 2.5;
    box.height -= 6;
    picture_work(picture, box, step_mark(step->operation), tip_of(picture, step));
    if (picture->critical[index])
        svg_rect(picture->out, (struct svg_box){box.x, box.y + box.height - 0.5, box.width, 3},
                 "fill=\"" COLOUR_DUE "\"", NULL);
}

void picture_lanes(const struct picture *picture)
{
    const struct timetable *timetable = picture->timetable;
    for (size_t i = 0; i < timetable->wait_count; i++)
        draw_wait(picture, &timetable->waits[i]);
    draw_windows(picture);
    for (int coats = 0; coats < 2; coats++)
        for (size_t i = 0; i < timetable->step_count; i++)
            if (applied(&timetable->steps[i]) == (coats == 1))
                draw_step(picture, i);
}
