#include "check.h"
#include "drawn.h"
#include "markup.h"

#include "base/arena.h"
#include "base/buf.h"
#include "report/drawing_parts.h"
#include "report/drawing.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What a drawing holds, gathered from its elements. */
struct seen {
    double width, height;
    size_t coats, films, lasts, styles, outside, windows, small, batches;
    double coat_x[DRAWN_STEPS], film_width[DRAWN_STEPS];
    struct svg_box batch[DRAWN_BATCHES + 1];
};

static void inside(struct seen *seen, const struct markup_element *element)
{
    double x = markup_number(element, "x"), y = markup_number(element, "y");
    double right = x + markup_number(element, "width"), bottom = y + markup_number(element, "height");
    check_true(HERE, right >= x && bottom >= y, "no box of negative size");
    seen->outside += x < -0.01 || y < -0.01 || right > seen->width + 0.01 || bottom > seen->height + 0.01;
}

static bool has(const struct markup_element *element, const char *name, const char *value)
{
    const char *own = markup_value(element, name);
    return own && strcmp(own, value) == 0;
}

static void look_at(void *context, const struct markup_element *element)
{
    struct seen *seen = context;
    if (strcmp(element->name, "svg") == 0) {
        seen->width = markup_number(element, "width");
        seen->height = markup_number(element, "height");
    }
    seen->styles += markup_value(element, "style") || markup_value(element, "class") ||
                    strcmp(element->name, "style") == 0 || strcmp(element->name, "script") == 0;
    seen->windows += strcmp(element->name, "path") == 0 && has(element, "stroke", "#6b3f86");
    if (strcmp(element->name, "text") == 0)
        seen->small += markup_number(element, "font-size") < PICTURE_SMALL;
    if (strcmp(element->name, "rect") != 0 || !markup_value(element, "x"))
        return;
    inside(seen, element);
    if (has(element, "fill", "#174a5b"))
        seen->coat_x[seen->coats++] = markup_number(element, "x");
    if (has(element, "fill", "url(#film)"))
        seen->film_width[seen->films++] = markup_number(element, "width");
    if (has(element, "fill", "#3d7f96"))
        seen->batch[seen->batches++] =
            (struct svg_box){markup_number(element, "x"), markup_number(element, "y"),
                             markup_number(element, "width"), markup_number(element, "height")};
    seen->lasts += has(element, "fill", "url(#last)");
}

static const char *drawing_of(struct arena *arena, const struct drawn *drawn, struct seen *seen)
{
    struct buf *out = ARENA_NEW(arena, struct buf);
    buf_init(out, arena);
    timetable_svg(out, &drawn->timetable);
    memset(seen, 0, sizeof *seen);
    const char *wrong = markup_read(out->text, look_at, seen);
    check_true(HERE, wrong == NULL, wrong);
    return out->text;
}

/* A batch that coats A and C is one band from its set-up on and across B; one of B alone is as high as a row. */
static void batches_are_bands(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    struct seen *seen = ARENA_NEW(arena, struct seen);
    drawn_init(d, 3);
    drawn_coat(d, 0, drawn_at(1, 8, 15), 30, drawn_at(1, 16, 0));
    drawn_coat(d, 2, drawn_at(1, 8, 45), 30, drawn_at(1, 16, 0));
    drawn_step(d, DO_SAND, 1, drawn_at(1, 10, 0), 60);
    drawn_batch(d, (const size_t[]){0, 1}, 2, drawn_at(1, 8, 0), drawn_at(1, 9, 30));
    drawn_batch(d, (const size_t[]){2}, 1, drawn_at(1, 10, 0), drawn_at(1, 11, 0));
    const char *svg = drawing_of(arena, d, seen);
    check_int(HERE, (intmax_t)seen->batches, 2 + 1);
    double row = seen->batch[1].height + 2;
    check_double(HERE, seen->batch[0].height + 2, 3 * row, 1e-6);
    check_double(HERE, seen->batch[1].y - seen->batch[0].y, row, 1e-6);
    check_double(HERE, seen->batch[0].width, 1.5 * seen->batch[1].width, 0.02);
    check_true(HERE, seen->batch[0].x < seen->coat_x[0], "the set-up comes first");
    check_true(HERE,
               strstr(svg, "coat 1 of 3, Sample varnish: Mon 1 Mar 08:00 to Mon 1 Mar 09:30, person 1") !=
                   NULL,
               svg);
    check_true(HERE, strstr(svg, ">a batch, from set-up to clean-up<") != NULL, svg);
    arena_free(arena);
}

/* Two coats with a window, a last coat, one further sign of each in the key; the words that a maker looks for. */
static void every_part_is_there(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    struct seen *seen = ARENA_NEW(arena, struct seen);
    drawn_init(d, 2);
    d->pieces[1].name = "a & b <small>";
    drawn_step(d, DO_SAND, 0, drawn_at(1, 8, 0), 45);
    drawn_coat(d, 0, drawn_at(1, 8, 45), 60, drawn_at(1, 16, 45))->window_min = drawn_at(3, 9, 0);
    drawn_coat(d, 1, drawn_at(2, 8, 0), 60, drawn_at(2, 16, 0));
    drawn_coat(d, 0, drawn_at(2, 10, 0), 60, drawn_at(3, 16, 0));
    d->operations[3].last_coat = true;
    drawn_step(d, DO_TASK, -1, drawn_at(4, 10, 0), 60);
    d->timetable.spare_min = 60;
    const char *svg = drawing_of(arena, d, seen);
    static const char *const words[] = {
        ">A<",
        ">a &amp; b &lt;small&gt;<",
        ">fit hinges<",
        ">oil<",
        ">1 Mar<",
        ">ready Thu 4 Mar 11:00<",
        ">delivery Fri 5 Mar 12:00<",
        "Ready Thu 4 Mar 11:00, dry to handle; to spare 1 h; delivery Fri 5 Mar 12:00",
        "A, coat 1 of 3, Sample varnish: Mon 1 Mar 08:45 to Mon 1 Mar 09:45",
        "dry to recoat Mon 1 Mar 16:45",
        "begin before Wed 3 Mar 09:00",
        ">s sand<",
        ">* task<",
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        check_true(HERE, strstr(svg, words[i]) != NULL, words[i]);
    check_int(HERE, (intmax_t)seen->coats, 3 + 1);
    check_int(HERE, (intmax_t)seen->films, 2 + 1);
    check_int(HERE, (intmax_t)seen->lasts, 1 + 1);
    check_int(HERE, (intmax_t)seen->windows, 1 + 1);
    check_int(HERE, (intmax_t)seen->styles, 0);
    check_true(HERE, seen->coat_x[0] < seen->coat_x[2] && seen->coat_x[2] < seen->coat_x[1],
               "later coats stand further to the right");
    arena_free(arena);
}

/* A delivery far beyond the work is told, not drawn; a late plan says so. */
static void late_and_far_deliveries(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    struct seen *seen = ARENA_NEW(arena, struct seen);
    drawn_init(d, 1);
    drawn_coat(d, 0, drawn_at(1, 8, 0), 60, drawn_at(2, 12, 0));
    d->timetable.deliver_min = drawn_at(25, 12, 0);
    check_true(HERE,
               strstr(drawing_of(arena, d, seen), ">delivery Thu 25 Mar 12:00, later than drawn<") != NULL,
               "far");
    d->timetable.deliver_min = drawn_at(1, 12, 0);
    d->timetable.late_min = DAY_MINUTES;
    check_true(HERE, strstr(drawing_of(arena, d, seen), "late by 1 d; delivery Mon 1 Mar 12:00<") != NULL,
               "late");
    arena_free(arena);
}

/* From one piece in two days to 60 in eight weeks the drawing keeps a sensible size, nothing leaves it, and it is
 * well-formed whatever the names are. */
static void drawings_keep_their_frame(void **state)
{
    (void)state;
    uint64_t seed = 8;
    for (int round = 0; round < 120; round++) {
        struct arena *arena = arena_make(0);
        struct drawn *d = ARENA_NEW(arena, struct drawn);
        struct seen *seen = ARENA_NEW(arena, struct seen);
        size_t pieces = (size_t)check_random_int(&seed, 1, 60);
        drawn_init(d, pieces);
        for (size_t i = 0; i < pieces; i++) {
            char *name = arena_textf(arena, "piece %zu ....................................", i);
            for (int k = check_random_int(&seed, 0, 6); k > 0; k--) {
                int at = check_random_int(&seed, 0, 40);
                name[at] = (char)check_random_int(&seed, 1, 255);
            }
            d->pieces[i].name = name;
        }
        drawn_random(d, &seed, check_random_int(&seed, 1, 56));
        drawing_of(arena, d, seen);
        check_int(HERE, (intmax_t)seen->outside, 0);
        check_int(HERE, (intmax_t)seen->styles, 0);
        check_int(HERE, (intmax_t)seen->small, 0);
        check_double(HERE, seen->width, PICTURE_WIDTH, 0);
        check_true(HERE, seen->height >= 150 && seen->height <= 25000, "height");
        arena_free(arena);
    }
}

/* On Letter landscape with margins of 8 mm there are 263.4 mm, 746.6 points, on A4 281: the smallest letters are 9 points high. */
static void letters_can_be_read_in_print(void **state)
{
    (void)state;
    check_true(HERE, PICTURE_SMALL * 263.4 / 25.4 * 72 / PICTURE_WIDTH >= 9, "9 points");
}

/* Three doors one after the other in one stretch of work stand in one row; one that is coated after lunch does not. */
static void like_rows_are_one(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    struct seen *seen = ARENA_NEW(arena, struct seen);
    drawn_init(d, 4);
    for (int i = 0; i < 4; i++) {
        d->pieces[i].name = arena_textf(arena, "door %d", i + 1);
        drawn_coat(d, i, drawn_at(1, i < 3 ? 9 + i : 14, 0), 30, drawn_at(1, i < 3 ? 12 + i : 17, 0));
    }
    const char *svg = drawing_of(arena, d, seen);
    check_true(HERE, strstr(svg, ">door 1 to 3<") && strstr(svg, ">door 4<"), svg);
    check_true(HERE,
               strstr(svg, "door 1 to 3, coat 1 of 3, Sample varnish: Mon 1 Mar 09:00 to Mon 1 Mar 11:30"),
               "tip");
    check_int(HERE, (intmax_t)seen->coats, 2 + 1);
    arena_free(arena);
}

/* Worked by hand: Monday is worked on (8 h open, 16 h closed), Tuesday is not. In widths of an open hour Monday takes
 * 8 + 16 / 5 = 11.2 and Tuesday 24 / 5 = 4.8: 16 in all, which are 800 pixels wide, 50 an hour. */
static void closed_hours_are_a_fifth(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    drawn_init(d, 1);
    d->timetable.deliver_min = drawn_at(2, 12, 0);
    drawn_coat(d, 0, drawn_at(1, 8, 0), 60, drawn_at(2, 8, 0));
    struct shown_days days = shown_days_make(arena, &d->timetable);
    struct time_axis axis = time_axis_make(arena, &days, 100, 800);
    check_int(HERE, (intmax_t)days.count, 2);
    check_true(HERE, days.items[0].worked && !days.items[1].worked, "work on Monday only");
    check_double(HERE, time_axis_x(&axis, drawn_at(1, 0, 0)), 100, 1e-9);
    check_double(HERE, time_axis_x(&axis, drawn_at(1, 8, 0)), 180, 1e-9);
    check_double(HERE, time_axis_x(&axis, drawn_at(1, 12, 0)), 380, 1e-9);
    check_double(HERE, time_axis_x(&axis, drawn_at(1, 13, 0)), 390, 1e-9);
    check_double(HERE, time_axis_x(&axis, drawn_at(1, 13, 30)), 415, 1e-9);
    check_double(HERE, time_axis_x(&axis, drawn_at(2, 0, 0)), 660, 1e-9);
    check_double(HERE, time_axis_x(&axis, drawn_at(2, 12, 0)), 780, 1e-9);
    check_double(HERE, time_axis_x(&axis, drawn_at(9, 0, 0)), 900, 1e-9);
    check_double(HERE, time_axis_x(&axis, drawn_at(0, 0, 0)), 100, 1e-9);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(every_part_is_there), CHECK_TEST(batches_are_bands),
                     CHECK_TEST(late_and_far_deliveries), CHECK_TEST(drawings_keep_their_frame),
                     CHECK_TEST(closed_hours_are_a_fifth), CHECK_TEST(letters_can_be_read_in_print),
                     CHECK_TEST(like_rows_are_one));
}
