#include "report/text_parts.h"

#include "base/arena.h"
#include "base/moment.h"
#include "report/sentences.h"

#include <string.h>

enum { WATCHED_MIN = 7 * DAY_MINUTES }; /* what ends within a week is worth a look at the clock */

/* Finish for a coat, area for other work on a surface. */
static const char *step_much(const struct screen *screen, const struct plan *plan,
                             const struct operation *operation)
{
    struct arena *arena = screen->out->arena;
    if (operation->doing == DO_APPLY) {
        size_t apply = (size_t)(operation - plan->operations->items);
        struct litres litres = plan_litres(plan->timetable, apply);
        return arena_text(arena, volume_format(litres.likely + litres.thinner, screen->units).text);
    }
    if (operation->piece < 0 || operation->doing == DO_FLIP || operation->doing == DO_TASK ||
        operation->doing == DO_MASK)
        return "";
    return arena_text(arena, area_format(pass_area_m2(&operation->pass), screen->units).text);
}

int64_t step_must_begin(const struct timetable_step *step)
{
    int64_t until = INT64_MAX;
    for (size_t i = 0; i < step->after_count; i++)
        until = step->after[i].max_until < until ? step->after[i].max_until : until;
    return until != INT64_MAX && until - step->start_min <= WATCHED_MIN ? until : INT64_MAX;
}

static const char *window_note(struct arena *arena, const struct job *job, const struct timetable_step *step)
{
    int64_t until = step_must_begin(step);
    return until == INT64_MAX ? NULL : arena_textf(arena, "begin before %s", moment_words(arena, job, until));
}

static const struct drying_wait *wait_of(const struct timetable *timetable, size_t step)
{
    for (size_t i = 0; i < timetable->wait_count; i++)
        if (timetable->waits[i].step == step)
            return &timetable->waits[i];
    return NULL;
}

static const char *drying_note(struct arena *arena, const struct timetable *timetable, size_t step)
{
    const struct drying_wait *wait = wait_of(timetable, step);
    const struct job *job = timetable->job;
    if (!wait || wait->until_min == INT64_MAX)
        return NULL;
    bool watched = wait->window_min != INT64_MAX && wait->window_min - wait->until_min <= WATCHED_MIN;
    return arena_textf(arena, "%s %s%s%s", state_words(wait->state),
                       moment_words(arena, job, wait->until_min), watched ? ", next coat before " : "",
                       watched ? moment_words(arena, job, wait->window_min) : "");
}

void table_steps_init(struct table *table, struct arena *arena, const struct job *job, bool slack)
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

static void add_step(struct table *table, const struct screen *screen, const struct plan *plan, size_t index)
{
    const struct timetable_step *step = &plan->timetable->steps[index];
    const struct operation *operation = step->operation;
    struct arena *arena = screen->out->arena;
    const char *cells[TABLE_COLUMNS] = {
        arena_text(arena, moment_format(plan->job->zone, step->start_min, MOMENT_TIME).text),
        step_words(arena, operation),
        step_piece(arena, operation),
        step_much(screen, plan, operation),
        arena_text(arena, span_format(step->end_min - step->start_min).text),
    };
    size_t count = 5;
    if (plan->job->shop.people > 1)
        cells[count++] = person_name(arena, &plan->job->shop, step->person);
    if (count < table->column_count)
        cells[count] = slack_words(arena, step->float_min);
    table_row(table, cells);
    table_note(table, step_note(arena, plan->timetable, index, screen->units));
    table_note(table, window_note(arena, plan->job, step));
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

void table_steps_add(struct table *table, const struct screen *screen, const struct plan *plan,
                     struct step_range range)
{
    const struct timetable *timetable = plan->timetable;
    struct arena *arena = screen->out->arena;
    int64_t day = INT64_MIN;
    size_t in_range = 0;
    for (size_t i = 0; i < timetable->step_count; i++) {
        int64_t start = timetable->steps[i].start_min;
        if (start < range.from_min || start >= range.to_min || ++in_range > range.most)
            continue;
        int64_t today = zone_day(plan->job->zone, start, NULL);
        if (day != INT64_MIN && today > day + 1)
            table_between(table, idle_words(arena, day + 1, today - 1));
        if (today != day)
            table_group(table, arena_text(arena, moment_format(plan->job->zone, start, MOMENT_DAY).text));
        day = today;
        add_step(table, screen, plan, i);
        if (range.drying && timetable->steps[i].operation->doing == DO_APPLY)
            table_note(table, drying_note(arena, timetable, i));
    }
    if (in_range > range.most)
        table_note(table,
                   arena_textf(arena, "and %zu more: see coatwright timetable", in_range - range.most));
}

enum { TOLD_MOST = 10, SHOWN = 4 }; /* pieces told one by one on a page; columns of moments */

static const enum finish_state shown[SHOWN] = {STATE_HANDLE, STATE_WRAP, STATE_LIGHT_USE, STATE_CURED};

/* The hour does not matter of what takes weeks. */
static const char *moment_text(struct arena *arena, const struct timetable *timetable, int64_t minute,
                               enum finish_state state)
{
    enum moment_style style = state == STATE_CURED ? MOMENT_DAY : MOMENT_DAY_TIME;
    return minute == INT64_MAX ? "never"
                               : arena_text(arena, moment_format(timetable->job->zone, minute, style).text);
}

/* When the piece, or the last of all (SIZE_MAX), reaches the state; INT64_MIN: it has no coat. */
static int64_t reached(const struct timetable *timetable, size_t piece, enum finish_state state)
{
    int64_t last = INT64_MIN;
    for (size_t i = 0; i < timetable->state_count; i++) {
        const struct piece_state *at = &timetable->states[i];
        if (at->state == state && (piece == SIZE_MAX || at->piece == piece) && at->at_min > last)
            last = at->at_min;
    }
    return last;
}

static void states_init(struct table *table, struct arena *arena)
{
    static const struct column columns[] = {{"piece", ALIGN_LEFT, true},
                                            {"dry to handle", ALIGN_LEFT, false},
                                            {"safe to wrap", ALIGN_LEFT, false},
                                            {"light use", ALIGN_LEFT, false},
                                            {"fully cured", ALIGN_LEFT, false}};
    table_init(table, arena, columns, 1 + SHOWN);
}

static void add(struct table *table, const struct timetable *timetable, const char *name, size_t piece)
{
    const char *cells[1 + SHOWN] = {name};
    if (reached(timetable, piece, shown[0]) == INT64_MIN)
        return;
    for (size_t i = 0; i < SHOWN; i++)
        cells[i + 1] = moment_text(table->arena, timetable, reached(timetable, piece, shown[i]), shown[i]);
    table_row(table, cells);
}

void show_states(struct screen *screen, const struct timetable *timetable)
{
    struct table table;
    states_init(&table, screen->out->arena);
    for (size_t i = 0; i < timetable->job->piece_count; i++)
        add(&table, timetable, timetable->job->pieces[i].name, i);
    table_print(&table, screen, 2);
}

void show_states_short(struct screen *screen, const struct timetable *timetable)
{
    struct arena *arena = screen->out->arena;
    size_t count = timetable->job->piece_count;
    struct table table;
    if (count <= TOLD_MOST) {
        show_states(screen, timetable);
        return;
    }
    states_init(&table, arena);
    add(&table, timetable, arena_textf(arena, "all %zu", count), SIZE_MAX);
    table_print(&table, screen, 2);
}

void show_advice(struct screen *screen, const struct plan *plan, size_t most)
{
    struct arena *arena = screen->out->arena;
    if (plan->advice.count > 0)
        screen_heading(screen, "What would help");
    for (size_t i = 0; i < plan->advice.count && i < most; i++) {
        const struct advice *advice = &plan->advice.items[i];
        screen_paragraph(screen, 2, 4,
                         arena_textf(arena, "%s: %s", advice_words(arena, advice, screen->units),
                                     advice_effect(arena, advice, plan->job->zone, MOMENT_DAY_TIME)));
        for (size_t k = 0; most == SIZE_MAX && k < advice->change_count; k++)
            buf_addf(screen->out, "    in %s: %s\n", change_files(arena, &advice->changes[k]),
                     change_patch(arena, &advice->changes[k]));
    }
}
