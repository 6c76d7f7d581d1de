#include "report/drawing.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"
#include "report/drawing_parts.h"
#include "report/sentences.h"

enum { SIGN_WIDTH = 26, ROW = 20 };

/* Entries flow in rows. */
struct key {
    const struct picture *picture;
    double x, y;
};

/* The box of the next sign; its words stand behind it. */
static struct svg_box key_entry(struct key *key, const char *words)
{
    double width = SIGN_WIDTH + 6 + svg_text_width(words, PICTURE_SMALL) + 14;
    if (key->x > PICTURE_MARGIN && key->x + width > PICTURE_WIDTH) {
        key->x = PICTURE_MARGIN;
        key->y += ROW;
    }
    struct svg_box box = {key->x, key->y, SIGN_WIDTH, 14};
    svg_text(key->picture->out, key->x + SIGN_WIDTH + 6, key->y + 11,
             "font-size=\"12\" fill=\"" COLOUR_INK "\"", words);
    key->x += width;
    return box;
}

static void key_work(struct key *key)
{
    const struct picture *picture = key->picture;
    bool seen[DOING_COUNT] = {false};
    for (size_t i = 0; i < picture->timetable->step_count; i++)
        seen[picture->timetable->steps[i].operation->doing] = true;
    picture_bar(picture, key_entry(key, "1 2 .. coat"), DO_APPLY, NULL);
    for (enum doing doing = 0; doing < DOING_COUNT; doing++) {
        struct operation operation = {.doing = doing};
        if (!seen[doing] || doing == DO_APPLY)
            continue;
        char mark = step_mark(&operation);
        for (const struct mark_words *words = step_marks(); words->mark; words++)
            if (words->mark == mark)
                picture_bar(picture, key_entry(key, arena_textf(picture->arena, "%c %s", mark, words->words)),
                            doing, NULL);
    }
    if (picture->timetable->batch_count > 0)
        picture_batch(picture, key_entry(key, "a batch, from set-up to clean-up"), NULL);
    struct svg_box box = key_entry(key, "critical path");
    box.y += 8;
    box.height = 3;
    svg_rect(picture->out, box, "fill=\"" COLOUR_INK "\"", NULL);
}

static void key_films(struct key *key)
{
    const struct picture *picture = key->picture;
    bool window = false, sided = false;
    for (size_t i = 0; i < picture->timetable->wait_count; i++)
        window |= picture->timetable->waits[i].window_min != INT64_MAX;
    for (size_t i = 0; i < picture->rows->count; i++)
        sided |= picture->rows->items[i].lane->back && picture->rows->items[i].lane->face;
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
    struct key key = {picture, PICTURE_MARGIN, y};
    key_work(&key);
    key_films(&key);
    svg_rect(picture->out, key_entry(&key, "closed (drawn narrower, as are days of waiting)"),
             "fill=\"" COLOUR_CLOSED "\" stroke=\"" COLOUR_RULE "\"", NULL);
    return key.y + ROW;
}

enum {
    NAME_MOST = 150,
    SCHEDULE_MOST = 100,
    TASK_MOST = 240,
    HEAD = 50,
    BETWEEN = 16,
    ROW_HEIGHT = 34,
    ROWS_ON_PAPER = 14
};

static const double day_least = 62; /* units of width for a day of work */

double picture_row_y(const struct picture *picture, size_t row)
{
    return picture->top + (double)picture->place[row] * picture->row_height;
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

static double widest(const struct picture_rows *rows, enum column column, double most)
{
    double width = 0;
    for (size_t i = 0; i < rows->count; i++) {
        const struct lane *lane = rows->items[i].lane;
        if (!lane->schedule != (column == COLUMN_TASK))
            continue;
        double own = column == COLUMN_SCHEDULE ? svg_text_width(lane->schedule, PICTURE_SMALL)
                                               : svg_text_width(rows->items[i].name, PICTURE_SMALL + 1);
        width = own > width ? own : width;
    }
    return at_most(width, most);
}

static void find_columns(struct picture *picture)
{
    picture->name_width = widest(picture->rows, COLUMN_PIECE, NAME_MOST);
    double pieces = picture->name_width + 10 + widest(picture->rows, COLUMN_SCHEDULE, SCHEDULE_MOST);
    double tasks = widest(picture->rows, COLUMN_TASK, TASK_MOST);
    picture->left = PICTURE_MARGIN + (tasks > pieces ? tasks : pieces) + 10;
    picture->right = PICTURE_WIDTH - PICTURE_MARGIN;
}

static double draw_title(const struct picture *picture)
{
    const struct timetable *timetable = picture->timetable;
    struct arena *arena = picture->arena;
    double room = PICTURE_WIDTH - 2 * PICTURE_MARGIN;
    bool late = timetable->late_min > 0;
    const char *verdict = arena_textf(arena, "Ready %s, %s; %s %s; delivery %s",
                                      ready_words(arena, timetable->job, timetable->ready_min),
                                      state_words(timetable->job->deliver_at), late ? "late by" : "to spare",
                                      span_format(late ? timetable->late_min : timetable->spare_min).text,
                                      picture_moment(picture, timetable->deliver_min));
    svg_text(picture->out, PICTURE_MARGIN, 28,
             "font-size=\"18\" font-weight=\"bold\" fill=\"" COLOUR_INK "\"",
             svg_fitted(arena, timetable->job->name, 18, room));
    svg_text(picture->out, PICTURE_MARGIN, 48, "font-size=\"13\" fill=\"" COLOUR_INK "\"",
             svg_fitted(arena, verdict, 13, room));
    return 56;
}

static void draw_names(const struct picture *picture)
{
    const char *piece = NULL;
    for (size_t i = 0; i < picture->rows->count; i++) {
        const struct picture_row *row = &picture->rows->items[i];
        if (picture->place[i] == SIZE_MAX)
            continue;
        double y = picture_row_y(picture, i), middle = y + picture->row_height / 2 + 6;
        bool named = piece && piece == row->lane->name;
        double x = named ? PICTURE_MARGIN + picture->name_width + 10 : PICTURE_MARGIN;
        svg_line(picture->out, (struct svg_box){x, y, picture->right - x, 0},
                 "stroke=\"" COLOUR_RULE "\" stroke-width=\"0.7\"");
        if (!named)
            svg_text(
                picture->out, PICTURE_MARGIN, middle,
                "font-size=\"12\" font-weight=\"bold\" fill=\"" COLOUR_INK "\"",
                svg_fitted(picture->arena, row->name, PICTURE_SMALL + 1,
                           row->lane->schedule ? picture->name_width : picture->left - PICTURE_MARGIN - 6));
        if (row->lane->schedule)
            svg_text(picture->out, PICTURE_MARGIN + picture->name_width + 10, middle,
                     "font-size=\"12\" fill=\"" COLOUR_QUIET "\"",
                     svg_fitted(picture->arena, row->lane->schedule, PICTURE_SMALL, SCHEDULE_MOST));
        piece = row->lane->name;
    }
    svg_rect(picture->out,
             (struct svg_box){picture->left, picture->top, picture->right - picture->left,
                              picture->bottom - picture->top},
             "fill=\"none\" stroke=\"" COLOUR_QUIET "\" stroke-width=\"1\"", NULL);
}

/* Marks the rows in which something happens in the band. */
static void find_rows(struct picture *picture)
{
    const struct picture_rows *rows = picture->rows;
    int64_t from = picture->days.items[0].from_min, to = picture->days.items[picture->days.count - 1].to_min;
    picture->place = ARENA_ARRAY(picture->arena, rows->count, size_t);
    bool *shown = ARENA_ARRAY(picture->arena, rows->count, bool);
    for (size_t i = 0; i < rows->bar_count; i++)
        shown[rows->bars[i].row] |= rows->bars[i].to_min > from && rows->bars[i].from_min < to;
    for (size_t i = 0; i < rows->film_count; i++)
        shown[rows->films[i].row] |= rows->films[i].until_min > from && rows->films[i].from_min < to;
    size_t count = 0;
    picture->shown = 0;
    for (size_t i = 0; i < rows->count; i++) {
        bool drawn = shown[i] && count >= picture->first && picture->shown < picture->most;
        picture->place[i] = drawn ? picture->shown++ : SIZE_MAX;
        count += shown[i];
    }
    picture->more = count > picture->first + picture->shown;
}

static double draw_band(struct picture *picture, struct shown_days days, double width, double y)
{
    picture->days = days;
    find_rows(picture);
    picture->axis = time_axis_make(picture->arena, &days, picture->left, width);
    picture->right = picture->left + width;
    picture->top = y + HEAD;
    picture->row_height = ROW_HEIGHT;
    picture->bottom = picture->top + (double)picture->shown * picture->row_height;
    picture_closed(picture);
    picture_days(picture);
    picture_poles(picture);
    draw_names(picture);
    picture_work(picture);
    return picture_flags(picture) + BETWEEN;
}

/* The days from `first` on that fit side by side: to a Sunday where there is one. */
static size_t band_end(const struct shown_days *days, size_t first, double room)
{
    size_t end = first, sunday = first;
    for (; end < days->count; end++) {
        room -= time_axis_share(&days->items[end]);
        if (room < 0 && end > first)
            break;
        if (weekday_of(days->items[end].day) == SUNDAY)
            sunday = end + 1;
    }
    return end == days->count || sunday == first ? end : sunday;
}

/* The same hours between two midnights. */
static const struct hours *hours_between(struct arena *arena, const struct hours *hours, int64_t from_min,
                                         int64_t to_min)
{
    struct hours *part = ARENA_NEW(arena, struct hours);
    *part = *hours;
    while (part->count > 0 && hours_moment(hours, part->stretches[0].to) <= from_min) {
        part->stretches++;
        part->count--;
    }
    while (part->count > 0 && hours_moment(hours, part->stretches[part->count - 1].from) >= to_min)
        part->count--;
    return part;
}

/* A drawing of what was drawn so far; the next begins anew. */
static void put_drawing(struct buf *out, const struct picture *picture, double height)
{
    struct arena *arena = picture->arena;
    svg_begin(out, PICTURE_WIDTH, height,
              arena_textf(arena, "Timetable of %s", picture->timetable->job->name));
    buf_add_n(out, picture->out->text, picture->out->length);
    svg_end(out);
    buf_init(picture->out, arena);
}

/* The days of a band once for all its rows or, where drawings stand apart, once for as many as fit on paper; the last of them is
 * put into `ends`, NULL: it goes on. Returns where it ends. */
static double draw_rows(struct picture *picture, struct shown_days band, double width, double y,
                        struct buf *ends, struct buf *apart)
{
    picture->most = apart ? ROWS_ON_PAPER : SIZE_MAX;
    picture->first = 0;
    y = draw_band(picture, band, width, y);
    while (picture->more) {
        put_drawing(apart, picture, y);
        picture->first += picture->shown;
        y = draw_band(picture, band, width, 0);
    }
    if (!ends)
        return y;
    put_drawing(ends, picture, y);
    return 0;
}

/* `apart`: where each band but the last becomes a drawing of its own; NULL: they are one. */
static double draw_bands(struct picture *picture, const struct shown_days *days, double y, struct buf *apart)
{
    double whole = picture->right - picture->left;
    double room = whole / day_least;
    for (size_t first = 0, end; first < days->count; first = end) {
        double share = 0;
        end = band_end(days, first, room);
        for (size_t i = first; i < end; i++)
            share += time_axis_share(&days->items[i]);
        struct shown_days band = {days->items + first, end - first, NULL};
        band.hours = hours_between(picture->arena, days->hours, band.items[0].from_min,
                                   band.items[band.count - 1].to_min);
        double width = first == 0 ? whole : at_most(whole, share * day_least * 1.4);
        y = draw_rows(picture, band, width, y, end < days->count ? apart : NULL, apart);
    }
    return y;
}

static void draw(struct buf *out, const struct timetable *timetable, bool apart)
{
    struct buf body;
    struct shown_days days = shown_days_make(out->arena, timetable);
    struct picture_rows rows = picture_rows_make(out->arena, timetable, &days);
    struct picture picture = {.out = &body, .arena = out->arena, .timetable = timetable, .rows = &rows};
    buf_init(&body, out->arena);
    if (!apart)
        picture_patterns(&body);
    find_columns(&picture);
    double y = draw_bands(&picture, &days, draw_title(&picture), apart ? out : NULL);
    put_drawing(out, &picture, picture_key(&picture, y) + PICTURE_MARGIN);
}

void timetable_svg(struct buf *out, const struct timetable *timetable)
{
    draw(out, timetable, false);
}

void timetable_bands_svg(struct buf *out, const struct timetable *timetable)
{
    draw(out, timetable, true);
}
