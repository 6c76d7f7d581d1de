#include "report/text_parts.h"

#include "base/arena.h"
#include "base/moment.h"
#include "report/sentences.h"

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

int64_t piece_reaches(const struct timetable *timetable, size_t piece, enum finish_state state)
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
    if (piece_reaches(timetable, piece, shown[0]) == INT64_MIN)
        return;
    for (size_t i = 0; i < SHOWN; i++)
        cells[i + 1] =
            moment_text(table->arena, timetable, piece_reaches(timetable, piece, shown[i]), shown[i]);
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
                         arena_textf(arena, "%zu. %s: %s", i + 1, advice_words(arena, advice, screen->units),
                                     advice_effect(arena, advice, plan->job->zone, MOMENT_DAY_TIME)));
        for (size_t k = 0; most == SIZE_MAX && k < advice->change_count; k++)
            buf_addf(screen->out, "    in %s: %s\n", change_files(arena, &advice->changes[k]),
                     change_patch(arena, &advice->changes[k]));
    }
}
