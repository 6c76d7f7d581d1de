#include "report/table_timetable.h"

#include "base/arena.h"
#include "base/moment.h"
#include "report/chart.h"
#include "report/sentences.h"
#include "report/table_advice.h"
#include "report/table_states.h"
#include "report/table_step.h"
#include "report/table_verdict.h"

static const char *moment_text(struct arena *arena, const struct timetable *timetable, int64_t minute)
{
    if (minute == INT64_MAX)
        return "never";
    return arena_text(arena, moment_format(timetable->job->zone, minute, MOMENT_DAY_TIME).text);
}

/* What each step of the chain waits for. Of jobs that share a shop those in time have no sentences: their steps are told. */
static void print_chain(struct screen *screen, const struct timetable *timetable)
{
    struct arena *arena = screen->out->arena;
    if (timetable->chain_count == 0)
        return;
    screen_heading(screen, timetable->late_min > 0 ? "Why it is late" : "What the ready moment hangs on");
    for (size_t i = 0; i < timetable->why_count; i++)
        screen_paragraph(screen, 2, 2, reason_words(arena, timetable, &timetable->why[i]));
    for (size_t i = 0; timetable->why_count == 0 && i < timetable->chain_count; i++) {
        const struct timetable_step *step = &timetable->steps[timetable->chain[i]];
        const char *piece = step_piece(arena, step->operation);
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "%s  %s%s%s", moment_text(arena, timetable, step->start_min),
                                     step_words(arena, step->operation), *piece ? ": " : "", piece));
    }
}

static bool any_slips(const struct timetable *timetable)
{
    for (size_t i = 0; i < timetable->step_count; i++)
        if (timetable->steps[i].float_min > 0)
            return true;
    return false;
}

void table_timetable(struct screen *screen, const struct plan *plan)
{
    const struct timetable *timetable = plan->timetable;
    struct table table;
    screen_heading(screen, arena_textf(screen->out->arena, "Timetable of %s", plan->job->name));
    table_verdict(screen, timetable);
    if (timetable->status != TIMETABLE_PLANNED) {
        table_advice(screen, plan, SIZE_MAX);
        return;
    }
    buf_add_char(screen->out, '\n');
    table_steps_init(&table, screen->out->arena, plan->job, any_slips(timetable));
    table_steps_add(&table, screen, plan, (struct step_range){INT64_MIN, INT64_MAX, SIZE_MAX, true});
    table_print(&table, screen, 2);
    screen_heading(screen, "Day by day");
    chart_print(screen, timetable);
    screen_heading(screen, "Touch, wrap, use");
    table_states(screen, timetable);
    print_chain(screen, timetable);
    table_advice(screen, plan, SIZE_MAX);
}
