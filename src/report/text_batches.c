#include "report/text_parts.h"

#include "base/arena.h"
#include "base/moment.h"
#include "base/text.h"
#include "report/sentences.h"

#include <string.h>

enum {
    PIECES_WIDTH = 24,       /* cells of the column of pieces: more stand below ... */
    PIECES_BESIDE_SLACK = 16 /* ... and where there is a column more */
};

/* The films of a batch until what follows: the first and the last to be so far, and the first window to end. */
struct batch_films {
    const struct drying_wait *first, *last;
    int64_t window_min;
};

static struct batch_films films_of(const struct timetable *timetable, const struct timetable_batch *batch,
                                   enum finish_state state)
{
    struct batch_films films = {NULL, NULL, INT64_MAX};
    for (size_t i = 0; i < timetable->wait_count; i++) {
        const struct drying_wait *wait = &timetable->waits[i];
        if (&timetable->batches[timetable->steps[wait->step].batch] != batch || wait->state != state ||
            wait->until_min == INT64_MAX)
            continue;
        films.first = films.first && films.first->until_min <= wait->until_min ? films.first : wait;
        films.last = films.last && films.last->until_min >= wait->until_min ? films.last : wait;
        bool watched =
            wait->window_min != INT64_MAX && wait->window_min - wait->until_min <= BATCH_WATCHED_MIN;
        if (watched && wait->window_min < films.window_min)
            films.window_min = wait->window_min;
    }
    return films;
}

void table_drying(struct table *table, const struct timetable *timetable, const struct timetable_batch *batch)
{
    struct arena *arena = table->arena;
    const struct job *job = timetable->job;
    for (enum finish_state state = 0; state < STATE_COUNT; state++) {
        struct batch_films films = films_of(timetable, batch, state);
        if (!films.first)
            continue;
        int64_t from = films.first->until_min, to = films.last->until_min;
        const char *last = moment_words(arena, job, to);
        if (zone_day(job->zone, from, NULL) == zone_day(job->zone, to, NULL))
            last = arena_text(arena, moment_format(job->zone, to, MOMENT_TIME).text);
        bool window = films.window_min != INT64_MAX;
        table_note(table, arena_textf(arena, "%s %s%s%s%s%s", state_words(state),
                                      moment_words(arena, job, from), from < to ? " to " : "",
                                      from < to ? last : "", window ? ", next coat before " : "",
                                      window ? moment_words(arena, job, films.window_min) : ""));
    }
}

void table_batches_init(struct table *table, struct arena *arena, const struct job *job, bool slack)
{
    static const struct column first[] = {{NULL, ALIGN_LEFT, false},
                                          {NULL, ALIGN_LEFT, true},
                                          {NULL, ALIGN_LEFT, true},
                                          {NULL, ALIGN_RIGHT, false},
                                          {NULL, ALIGN_RIGHT, false}};
    struct column *columns = ARENA_ARRAY(arena, TABLE_COLUMNS, struct column);
    size_t count = sizeof first / sizeof first[0];
    memcpy(columns, first, sizeof first);
    if (job->shop.people > 1)
        columns[count++] = (struct column){NULL, ALIGN_LEFT, false};
    if (slack)
        columns[count++] = (struct column){"slack", ALIGN_RIGHT, false};
    table_init(table, arena, columns, count);
}

/* In whole days, hours or minutes, never more than it is. */
static const char *slack_words(struct arena *arena, int64_t float_min)
{
    if (float_min <= 0)
        return float_min == 0 ? "0" : "";
    int64_t unit = float_min >= DAY_MINUTES ? DAY_MINUTES : float_min >= 60 ? 60 : 1;
    return arena_text(arena, span_format(float_min / unit * unit).text);
}

/* The pieces where the column holds them, else how many there are. */
static const char *pieces_cell(struct arena *arena, const struct timetable *timetable,
                               const struct timetable_batch *batch, size_t width)
{
    const char *all = batch_pieces(arena, timetable, batch, SIZE_MAX);
    if (batch->step_count == 1 || text_width(all) <= width)
        return all;
    size_t pieces = batch_piece_count(arena, timetable, batch);
    return arena_textf(arena, "%zu piece%s", pieces, pieces == 1 ? "" : "s");
}

static void add_row(struct table *table, const struct screen *screen, const struct timetable *timetable,
                    const struct timetable_batch *batch, bool whole)
{
    struct arena *arena = screen->out->arena;
    const char *cells[TABLE_COLUMNS] = {
        arena_text(arena, moment_format(timetable->job->zone, batch->start_min, MOMENT_TIME).text),
        batch_words(arena, timetable, batch),
        pieces_cell(arena, timetable, batch, whole ? PIECES_BESIDE_SLACK : PIECES_WIDTH),
        batch_amount(arena, timetable, batch, screen->units),
        arena_text(arena, hours_format(batch->hands_on_min).text),
    };
    size_t count = 5;
    if (timetable->job->shop.people > 1)
        cells[count++] = person_name(arena, &timetable->job->shop, batch->person);
    if (count < table->column_count)
        cells[count] = slack_words(arena, batch->float_min);
    table_row(table, cells);
}

/* "09:00 case (inside), 0.88 m2; 09:07 base door 1 to 4, 0.31 m2 each; ..." */
static const char *order_note(const struct screen *screen, const struct timetable *timetable,
                              const struct timetable_batch *batch)
{
    struct arena *arena = screen->out->arena;
    struct batch_runs runs = batch_runs_make(arena, timetable, batch);
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < runs.count; i++)
        buf_addf(&text, "%s%s", i ? "; " : "",
                 batch_run_line(arena, timetable, batch, &runs.items[i], screen->units));
    const char *left = batch_left_in_tool(arena, timetable, batch, screen->units);
    if (left)
        buf_addf(&text, "; %s", left);
    return text.text;
}

/* What a page has no room for: the pieces' own moments and amounts, the mixes, the drying. */
static void note_all(struct table *table, const struct screen *screen, const struct plan *plan,
                     const struct timetable_batch *batch)
{
    const struct mix_card *card = NULL;
    if (batch->step_count > 1)
        table_note(table, order_note(screen, plan->timetable, batch));
    while ((card = batch_card(plan, batch, card)))
        table_note(table, card_words(table->arena, plan, card, screen->units));
    table_note(table, batch_note(table->arena, plan->timetable, batch, screen->units));
    table_note(table, batch_window_words(table->arena, plan->timetable, batch));
    table_drying(table, plan->timetable, batch);
}

static void note_helper(struct table *table, const struct timetable *timetable,
                        const struct timetable_batch *batch)
{
    if (batch->helper > 0)
        table_note(table, arena_textf(table->arena, "together with %s",
                                      person_name(table->arena, &timetable->job->shop, batch->helper)));
}

static void note_short(struct table *table, const struct screen *screen, const struct timetable *timetable,
                       const struct timetable_batch *batch)
{
    const char *all = batch_pieces(table->arena, timetable, batch, SIZE_MAX);
    if (batch->step_count > 1 && text_width(all) > PIECES_WIDTH)
        table_note(table, batch_pieces(table->arena, timetable, batch, screen->width - 10));
    table_note(table, batch_note(table->arena, timetable, batch, screen->units));
    table_note(table, batch_window_words(table->arena, timetable, batch));
}

static const char *day_words(struct arena *arena, int64_t day)
{
    struct date date = date_of(day);
    return arena_textf(arena, "%s %d %s", weekday_name(weekday_of(day)), date.day, month_name(date.month));
}

/* "Sat 6 Mar to Sun 7 Mar: no work". */
static const char *idle_words(struct arena *arena, int64_t first, int64_t last)
{
    const char *to = day_words(arena, last);
    if (first == last)
        return arena_textf(arena, "%s: no work", to);
    return arena_textf(arena, "%s to %s: no work", day_words(arena, first), to);
}

void table_batches_add(struct table *table, const struct screen *screen, const struct plan *plan,
                       struct batch_range range)
{
    const struct timetable *timetable = plan->timetable;
    struct arena *arena = screen->out->arena;
    int64_t day = INT64_MIN;
    size_t in_range = 0;
    for (size_t i = 0; i < timetable->batch_count; i++) {
        const struct timetable_batch *batch = &timetable->batches[i];
        int64_t start = batch->start_min;
        if (start < range.from_min || start >= range.to_min || ++in_range > range.most)
            continue;
        int64_t today = zone_day(plan->job->zone, start, NULL);
        if (day != INT64_MIN && today > day + 1)
            table_between(table, idle_words(arena, day + 1, today - 1));
        if (today != day)
            table_group(table, arena_text(arena, moment_format(plan->job->zone, start, MOMENT_DAY).text));
        day = today;
        add_row(table, screen, timetable, batch, range.whole);
        note_helper(table, timetable, batch);
        if (range.whole)
            note_all(table, screen, plan, batch);
        else
            note_short(table, screen, timetable, batch);
    }
    if (in_range > range.most)
        table_note(table,
                   arena_textf(arena, "and %zu more: see coatwright timetable", in_range - range.most));
}
