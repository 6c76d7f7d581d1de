/* Drying, batches, windows and hands-on work in the rows of a band. A row has its letters above, its boxes below them. */
#include "report/drawing_parts.h"

#include "base/arena.h"
#include "report/sentences.h"

enum { WORK_LEAST = 4, LETTERS = 14, FOOT = 5, APART = 9 };

static bool applied(const struct picture *picture, const struct picture_bar *bar)
{
    return picture->timetable->steps[bar->step].operation->doing == DO_APPLY;
}

static bool in_band(const struct picture *picture, int64_t from, int64_t to)
{
    return to > picture->days.items[0].from_min && from < picture->days.items[picture->days.count - 1].to_min;
}

/* The part of a row below its letters, clipped to the band. */
static struct svg_box box_of(const struct picture *picture, size_t row, int64_t from, int64_t to)
{
    double x = picture_x(picture, from);
    return (struct svg_box){x, picture_row_y(picture, row) + LETTERS, picture_x(picture, to) - x,
                            picture->row_height - LETTERS - FOOT};
}

static const char *tip_of(const struct picture *picture, size_t row, size_t index, int64_t from, int64_t to)
{
    const struct timetable_step *step = &picture->timetable->steps[index];
    const struct picture_row *in = &picture->rows->items[row];
    const char *piece = in->lanes > 1 ? in->name : step_piece(picture->arena, step->operation);
    return arena_textf(picture->arena, "%s%s%s: %s to %s", piece, *piece ? ", " : "",
                       step_words(picture->arena, step->operation), picture_moment(picture, from),
                       picture_moment(picture, to));
}

/* Where both sides get coats of their own the face has the upper half, the back the lower one. */
static struct svg_box half(const struct picture *picture, size_t row, size_t step, struct svg_box box)
{
    const struct lane *lane = picture->rows->items[row].lane;
    enum side side = picture->timetable->steps[step].operation->side;
    if (!lane->back || !lane->face || side == SIDE_ALL)
        return box;
    box.height = box.height / 2 - 0.5;
    box.y += side == SIDE_BACK ? box.height + 1 : 0;
    return box;
}

/* Where the air leaves the limits: a warning sign on the film. */
static void draw_outside(const struct picture *picture, const struct drying_wait *wait, struct svg_box box)
{
    struct buf data;
    if (wait->outside.minutes == 0 || !in_band(picture, wait->outside.from_min, wait->outside.from_min + 1))
        return;
    double x = picture_x(picture, wait->outside.from_min), y = box.y + box.height / 2;
    buf_init(&data, picture->arena);
    buf_add_char(&data, 'M');
    svg_number(&data, x);
    buf_add_char(&data, ' ');
    svg_number(&data, y + 6);
    buf_add(&data, "h12l-6 -12z");
    svg_path(picture->out, data.text, "fill=\"" COLOUR_DUE "\" stroke=\"#ffffff\" stroke-width=\"1.2\"",
             arena_textf(picture->arena, "the air leaves the finish's limits: %s",
                         picture_moment(picture, wait->outside.from_min)));
}

static void draw_film(const struct picture *picture, const struct picture_film *film)
{
    const struct drying_wait *wait = &picture->timetable->waits[film->wait];
    const struct timetable_step *step = &picture->timetable->steps[wait->step];
    struct svg_box box =
        half(picture, film->row, wait->step, box_of(picture, film->row, film->from_min, film->until_min));
    const char *tip = arena_textf(picture->arena, "%s: %s %s",
                                  tip_of(picture, film->row, wait->step, step->start_min, step->end_min),
                                  state_words(wait->state), picture_moment(picture, film->until_min));
    svg_rect(picture->out, box,
             step->operation->last_coat
                 ? "fill=\"url(#last)\" stroke=\"" COLOUR_LAST_INK "\" stroke-width=\"0.8\""
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
    svg_path(picture->out, data.text, "fill=\"none\" stroke=\"" COLOUR_WINDOW "\" stroke-width=\"1.6\"", tip);
}

/* The open window runs along the row's foot; the windows of coats that follow one another lie a little apart. */
static void draw_windows(const struct picture *picture)
{
    int64_t end = picture->days.items[picture->days.count - 1].to_min;
    int *layers = ARENA_ARRAY(picture->arena, picture->rows->count, int);
    for (size_t i = 0; i < picture->rows->film_count; i++) {
        const struct picture_film *film = &picture->rows->films[i];
        if (film->window_min == INT64_MAX || film->window_min <= film->until_min ||
            picture->place[film->row] == SIZE_MAX || !in_band(picture, film->until_min, film->window_min))
            continue;
        struct svg_box box = box_of(picture, film->row, film->until_min, film->window_min);
        box.y += box.height + 3 - 2 * layers[film->row];
        picture_window(
            picture, box, film->window_min <= end,
            arena_textf(picture->arena, "begin before %s", picture_moment(picture, film->window_min)));
        layers[film->row] = !layers[film->row];
    }
}

void picture_batch(const struct picture *picture, struct svg_box box, const char *tip)
{
    svg_rect(picture->out, box,
             "fill=\"" COLOUR_BATCH "\" fill-opacity=\"0.14\" stroke=\"" COLOUR_BATCH
             "\" stroke-opacity=\"0.5\" stroke-width=\"0.8\"",
             tip);
}

/* The places, from above, of the first and the last row in which the batch has work; false: none is in the band. */
static bool places_of(const struct picture *picture, const struct timetable_batch *batch, size_t places[2])
{
    places[0] = SIZE_MAX;
    places[1] = 0;
    for (size_t i = 0; i < batch->step_count; i++) {
        size_t place = picture->place[picture->rows->of_step[batch->steps[i]]];
        if (place == SIZE_MAX)
            continue;
        places[0] = place < places[0] ? place : places[0];
        places[1] = place > places[1] ? place : places[1];
    }
    return places[0] != SIZE_MAX;
}

/* From set-up to clean-up, across all rows from its first to its last. */
static void draw_batches(const struct picture *picture)
{
    const struct timetable *timetable = picture->timetable;
    for (size_t i = 0; i < timetable->batch_count; i++) {
        const struct timetable_batch *batch = &timetable->batches[i];
        size_t places[2];
        if (!in_band(picture, batch->start_min, batch->end_min) || !places_of(picture, batch, places))
            continue;
        double x = picture_x(picture, batch->start_min);
        double y = picture->top + (double)places[0] * picture->row_height + 1;
        double height = (double)(places[1] - places[0] + 1) * picture->row_height - 2;
        picture_batch(
            picture, (struct svg_box){x, y, picture_x(picture, batch->end_min) - x, height},
            arena_textf(picture->arena, "%s: %s to %s, %s", batch_words(picture->arena, timetable, batch),
                        picture_moment(picture, batch->start_min), picture_moment(picture, batch->end_min),
                        batch_person(picture->arena, timetable, batch)));
    }
}

void picture_patterns(struct buf *out)
{
    static const struct svg_pattern patterns[] = {
        {"film", SVG_HATCH_RISING, COLOUR_FILM, COLOUR_FILM_INK, 5, 1.3},
        {"last", SVG_HATCH_DOTS, COLOUR_LAST, COLOUR_LAST_INK, 5, 0.9},
        {"sand", SVG_HATCH_DOTS, "#ffffff", COLOUR_COAT, 3, 0.9},
        {"turn", SVG_HATCH_FALLING, "#ffffff", COLOUR_WINDOW, 4, 1.6},
        {"polish", SVG_HATCH_RISING, "#ffffff", COLOUR_COAT, 3, 1.2},
    };
    buf_add(out, "<defs>\n");
    for (size_t i = 0; i < sizeof patterns / sizeof patterns[0]; i++)
        svg_pattern(out, patterns[i]);
    buf_add(out, "</defs>\n");
}

/* Kinds of work differ in their fill, so that a box too narrow for a letter still says what it is. */
void picture_bar(const struct picture *picture, struct svg_box box, enum doing doing, const char *tip)
{
    static const char *const fills[DOING_COUNT] = {
        [DO_SAND] = "url(#sand)",     [DO_SCUFF] = "url(#sand)", [DO_RAISE] = "#b9d7e2",
        [DO_MASK] = "#ffffff",        [DO_APPLY] = COLOUR_COAT,  [DO_FLIP] = "url(#turn)",
        [DO_POLISH] = "url(#polish)", [DO_RUB] = "url(#polish)", [DO_TASK] = "#a9a397",
    };
    svg_rect(picture->out, box,
             doing == DO_APPLY
                 ? "fill=\"" COLOUR_COAT "\" stroke=\"#ffffff\" stroke-width=\"0.6\""
                 : arena_textf(picture->arena, "fill=\"%s\" stroke=\"" COLOUR_COAT "\" stroke-width=\"1\"",
                               fills[doing]),
             tip);
}

static void draw_bar(const struct picture *picture, const struct picture_bar *bar)
{
    struct svg_box box = box_of(picture, bar->row, bar->from_min, bar->to_min);
    box.width = box.width < WORK_LEAST ? WORK_LEAST : box.width;
    box.x = box.x + box.width > picture->right ? picture->right - box.width : box.x;
    picture_bar(picture, box, picture->timetable->steps[bar->step].operation->doing,
                tip_of(picture, bar->row, bar->step, bar->from_min, bar->to_min));
    if (bar->critical)
        svg_rect(picture->out, (struct svg_box){box.x, box.y + box.height + 1, box.width, 3},
                 "fill=\"" COLOUR_INK "\"", NULL);
}

static double letter_x(const struct picture *picture, const struct picture_bar *bar)
{
    double x = picture_x(picture, bar->from_min), end = picture_x(picture, bar->to_min);
    return end - x < WORK_LEAST ? x + WORK_LEAST / 2.0 : (x + end) / 2;
}

/* Letters that would touch one that is there are left out: the fill says what the work is. */
static void draw_letters(const struct picture *picture, bool coats, double *taken, size_t *count)
{
    for (size_t i = 0; i < picture->rows->bar_count; i++) {
        const struct picture_bar *bar = &picture->rows->bars[i];
        if (applied(picture, bar) != coats || picture->place[bar->row] == SIZE_MAX ||
            !in_band(picture, bar->from_min, bar->to_min))
            continue;
        double x = letter_x(picture, bar), place = x + (double)bar->row * 2 * PICTURE_WIDTH;
        bool free = true;
        for (size_t k = 0; k < *count && free; k++)
            free = taken[k] - place >= APART || place - taken[k] >= APART;
        if (!free)
            continue;
        taken[(*count)++] = place;
        const char text[] = {step_mark(picture->timetable->steps[bar->step].operation), '\0'};
        svg_text(picture->out, x, picture_row_y(picture, bar->row) + LETTERS - 3,
                 coats ? "text-anchor=\"middle\" font-size=\"12\" font-weight=\"bold\" fill=\"" COLOUR_COAT
                         "\""
                       : "text-anchor=\"middle\" font-size=\"12\" fill=\"" COLOUR_COAT "\"",
                 text);
    }
}

void picture_work(const struct picture *picture)
{
    const struct picture_rows *rows = picture->rows;
    double *taken = ARENA_ARRAY(picture->arena, rows->bar_count, double);
    size_t count = 0;
    for (size_t i = 0; i < rows->film_count; i++)
        if (picture->place[rows->films[i].row] != SIZE_MAX &&
            in_band(picture, rows->films[i].from_min, rows->films[i].until_min))
            draw_film(picture, &rows->films[i]);
    draw_batches(picture);
    draw_windows(picture);
    for (int coats = 0; coats < 2; coats++)
        for (size_t i = 0; i < rows->bar_count; i++)
            if (applied(picture, &rows->bars[i]) == (coats == 1) &&
                picture->place[rows->bars[i].row] != SIZE_MAX &&
                in_band(picture, rows->bars[i].from_min, rows->bars[i].to_min))
                draw_bar(picture, &rows->bars[i]);
    draw_letters(picture, true, taken, &count);
    draw_letters(picture, false, taken, &count);
}
