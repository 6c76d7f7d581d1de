#include "report/table_step.h"

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
        struct litres litres = plan_litres(plan->operations, apply);
        return arena_text(arena, volume_format(litres.likely + litres.thinner, screen->units).text);
    }
    if (operation->piece < 0 || operation->doing == DO_FLIP || operation->doing == DO_TASK ||
        operation->doing == DO_MASK)
        return "";
    return arena_text(arena, area_format(pass_area_m2(&operation->pass), screen->units).text);
}

static const char *day_time(struct arena *arena, const struct job *job, int64_t minute)
{
    return arena_text(arena, moment_format(job->zone, minute, MOMENT_DAY_TIME).text);
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
    return until == INT64_MAX ? NULL : arena_textf(arena, "begin before %s", day_time(arena, job, until));
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
    return arena_textf(arena, "%s %s%s%s", state_words(wait->state), day_time(arena, job, wait->until_min),
                       watched ? ", next coat before " : "",
                       watched ? day_time(arena, job, wait->window_min) : "");
}

void table_steps_init(struct table *table, struct arena *arena, const struct job *job, bool slips)
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
    if (slips)
        columns[count++] = (struct column){"may slip", ALIGN_RIGHT, false};
    table_init(table, arena, columns, count);
}

/* In whole days, hours or minutes, never more than it is; "" where the step may not slip at all. */
static const char *slip_words(struct arena *arena, int64_t float_min)
{
    if (float_min <= 0)
        return "";
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
        cells[count++] = arena_textf(arena, "hand %d", step->person);
    if (count < table->column_count)
        cells[count] = slip_words(arena, step->float_min);
    table_row(table, cells);
    table_note(table, step_note(arena, plan->timetable, index));
    table_note(table, window_note(arena, plan->job, step));
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
