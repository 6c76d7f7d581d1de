#include "base/arena.h"
#include "report/sentences.h"
#include "report/timetable_svg_parts.h"

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
    struct svg_box box = key_entry(key, "underlined: the ready moment hangs on it");
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
