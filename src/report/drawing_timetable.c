#include "report/drawing.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"
#include "report/drawing_parts.h"
#include "report/sentences.h"

enum { SIGN_WIDTH = 26, KEY_SIZE = 11, ROW = 19 };

/* Entries flow in rows. */
struct key {
    const struct picture *picture;
    double x, y;
};

/* The box of the next sign; its words stand behind it. */
static struct svg_box key_entry(struct key *key, const char *words)
{
    const struct picture *picture = key->picture;
    double width = SIGN_WIDTH + 6 + svg_text_width(words, KEY_SIZE) + 14;
    if (key->x > 16 && key->x + width > picture->width - 8) {
        key->x = 16;
        key->y += ROW;
    }
    struct svg_box box = {key->x, key->y, SIGN_WIDTH, 14};
    svg_text(picture->out, key->x + SIGN_WIDTH + 6, key->y + 11, "font-size=\"11\" fill=\"" COLOUR_INK "\"",
             words);
    key->x += width;
    return box;
}

static const char *letters(const struct picture *picture)
{
    bool seen[256] = {false};
    struct buf words;
    buf_init(&words, picture->arena);
    buf_add(&words, "other work by hand: ");
    for (size_t i = 0; i < picture->timetable->step_count; i++)
        seen[(unsigned char)step_mark(picture->timetable->steps[i].operation)] = true;
    size_t before = words.length;
    for (const struct mark_words *mark = step_marks(); mark->mark; mark++)
        if (seen[(unsigned char)mark->mark])
            buf_addf(&words, "%s%c %s", words.length > before ? ", " : "", mark->mark, mark->words);
    return words.length > before ? words.text : NULL;
}

static void key_work(struct key *key)
{
    const struct picture *picture = key->picture;
    const char *others = letters(picture);
    picture_work(picture, key_entry(key, "a coat, with its number"), '1', NULL);
    if (others)
        picture_work(picture, key_entry(key, others), 's', NULL);
    struct svg_box box = key_entry(key, "underlined: on the critical path");
    box.y += 11;
    box.height = 3;
    svg_rect(picture->out, box, "fill=\"" COLOUR_DUE "\"", NULL);
}

static void key_films(struct key *key)
{
    const struct picture *picture = key->picture;
    bool window = false, sided = false;
    for (size_t i = 0; i < picture->timetable->wait_count; i++)
        window |= picture->timetable->waits[i].window_min != INT64_MAX;
    for (size_t i = 0; i < picture->lanes.count; i++)
        sided |= picture->lanes.items[i].back && picture->lanes.items[i].face;
    svg_rect(picture->out, key_entry(key, sided ? "drying (upper half: face, lower half: back)" : "drying"),
             "fill=\"url(#film)\" stroke=\"" COLOUR_FILM_INK "\" stroke-width=\"0.8\"", NULL);
    const char *last = arena_textf(picture->arena, "the last coat, until it is %s",
                                   state_words(picture->timetable->job->deliver_at));
    svg_rect(picture->out, key_entry(key, last),
             "fill=\"url(#last)\" stroke=\"" COLOUR_LAST_INK "\" stroke-width=\"0.8\"", NULL);
    if (window) {
        struct svg_box box = key_entry(key, "the next coat may go on, until the mark");
        box.y += 9;
        picture_window(picture, box, true, NULL);
    }
}

double picture_key(const struct picture *picture, double y)
{
    struct key key = {picture, 16, y};
    key_work(&key);
    key_films(&key);
    svg_rect(picture->out, key_entry(&key, "closed hours (they and days of waiting are drawn narrower)"),
             "fill=\"" COLOUR_CLOSED "\" stroke=\"" COLOUR_RULE "\"", NULL);
    return key.y + ROW;
}

enum { MARGIN = 16, NAME_MOST = 170, SCHEDULE_MOST = 120, TASK_MOST = 250, NAME_WIDTH_SIZE = 13 };

double picture_lane_y(const struct picture *picture, size_t lane)
{
    return picture->top + (double)lane * picture->lane_height;
}

const char *picture_moment(const struct picture *picture, int64_t minute)
{
    return moment_words(picture->arena, picture->timetable->job, minute);
}

static double at_most(double value, double most)
{
    return value < most ? value : most;
}

/* A task has both columns to itself. Names are bold, as wide as plain text of a size more. */
enum column { COLUMN_PIECE, COLUMN_SCHEDULE, COLUMN_TASK };

static double widest(const struct picture *picture, enum column column, double most)
{
    double width = 0;
    for (size_t i = 0; i < picture->lanes.count; i++) {
        const struct lane *lane = &picture->lanes.items[i];
        bool task = !lane->schedule;
        if (task != (column == COLUMN_TASK))
            continue;
        double own = column == COLUMN_SCHEDULE ? svg_text_width(lane->schedule, 11)
                                               : svg_text_width(lane->name, NAME_WIDTH_SIZE);
        width = own > width ? own : width;
    }
    return at_most(width, most);
}

static double lane_height(size_t lanes)
{
    return lanes <= 24 ? 24 : lanes <= 60 ? 20 : 17;
}

static void lay_out(struct picture *picture)
{
    picture->name_width = widest(picture, COLUMN_PIECE, NAME_MOST);
    double pieces = picture->name_width + 10 + widest(picture, COLUMN_SCHEDULE, SCHEDULE_MOST);
    double tasks = widest(picture, COLUMN_TASK, TASK_MOST);
    picture->left = MARGIN + (tasks > pieces ? tasks : pieces) + 10;
    picture->axis =
        time_axis_make(picture->arena, &picture->days, (struct axis_size){picture->left, 800, 1500, 120});
    picture->right = time_axis_x(&picture->axis, picture->days.items[picture->days.count - 1].to_min);
    picture->top = 96;
    picture->lane_height = lane_height(picture->lanes.count);
    picture->bottom = picture_lane_y(picture, picture->lanes.count);
    picture->width = picture->right + MARGIN;
}

static const char *verdict(const struct picture *picture)
{
    const struct timetable *timetable = picture->timetable;
    bool late = timetable->late_min > 0;
    return arena_textf(picture->arena, "ready %s (%s), %s %s; delivery %s",
                       picture_moment(picture, timetable->ready_min), state_words(timetable->job->deliver_at),
                       span_format(late ? timetable->late_min : timetable->spare_min).text,
                       late ? "late" : "to spare", picture_moment(picture, timetable->deliver_min));
}

static void draw_title(const struct picture *picture)
{
    double room = picture->width - 2 * MARGIN;
    svg_text(picture->out, MARGIN, 26, "font-size=\"17\" font-weight=\"bold\" fill=\"" COLOUR_INK "\"",
             svg_fitted(picture->arena, picture->timetable->job->name, 17, room));
    svg_text(picture->out, MARGIN, 45, "font-size=\"12\" fill=\"" COLOUR_INK "\"",
             svg_fitted(picture->arena, verdict(picture), 12, room));
}

static void draw_names(const struct picture *picture)
{
    for (size_t i = 0; i < picture->lanes.count; i++) {
        const struct lane *lane = &picture->lanes.items[i];
        double y = picture_lane_y(picture, i), middle = y + picture->lane_height / 2 + 4;
        double x = lane->first ? MARGIN : MARGIN + picture->name_width + 10;
        svg_line(picture->out, (struct svg_box){x, y, picture->right - x, 0},
                 "stroke=\"" COLOUR_RULE "\" stroke-width=\"0.7\"");
        if (lane->first)
            svg_text(picture->out, MARGIN, middle,
                     "font-size=\"12\" font-weight=\"bold\" fill=\"" COLOUR_INK "\"",
                     svg_fitted(picture->arena, lane->name, NAME_WIDTH_SIZE,
                                lane->schedule ? picture->name_width : picture->left - MARGIN - 6));
        if (lane->schedule)
            svg_text(picture->out, MARGIN + picture->name_width + 10, middle,
                     "font-size=\"11\" fill=\"" COLOUR_QUIET "\"",
                     svg_fitted(picture->arena, lane->schedule, 11, SCHEDULE_MOST));
    }
    svg_rect(picture->out,
             (struct svg_box){picture->left, picture->top, picture->right - picture->left,
                              picture->bottom - picture->top},
             "fill=\"none\" stroke=\"" COLOUR_QUIET "\" stroke-width=\"1\"", NULL);
}

static void draw_patterns(const struct picture *picture)
{
    buf_add(picture->out, "<defs>\n");
    svg_pattern(picture->out,
                (struct svg_pattern){"film", SVG_HATCH_RISING, COLOUR_FILM, COLOUR_FILM_INK, 5, 1.3});
    svg_pattern(picture->out,
                (struct svg_pattern){"last", SVG_HATCH_DOTS, COLOUR_LAST, COLOUR_LAST_INK, 5, 0.9});
    buf_add(picture->out, "</defs>\n");
}

static void find_critical(struct picture *picture)
{
    picture->critical = ARENA_ARRAY(picture->arena, picture->timetable->step_count, bool);
    for (size_t i = 0; i < picture->timetable->chain_count; i++)
        picture->critical[picture->timetable->chain[i]] = true;
}

/* Everything below the root, whose height is known only when the key has been laid out. */
static double draw(const struct picture *picture)
{
    draw_patterns(picture);
    draw_title(picture);
    picture_closed(picture);
    picture_days(picture);
    draw_names(picture);
    picture_lanes(picture);
    picture_due(picture);
    return picture_key(picture, picture->bottom + 48) + MARGIN;
}

void timetable_svg(struct buf *out, const struct timetable *timetable)
{
    struct buf body;
    struct picture picture = {.out = &body, .arena = out->arena, .timetable = timetable};
    buf_init(&body, out->arena);
    picture.lanes = lanes_make(out->arena, timetable);
    picture.days = shown_days_make(out->arena, timetable);
    find_critical(&picture);
    lay_out(&picture);
    double height = draw(&picture);
    svg_begin(out, picture.width, height, arena_textf(out->arena, "Timetable of %s", timetable->job->name));
    buf_add_n(out, body.text, body.length);
    svg_end(out);
}
