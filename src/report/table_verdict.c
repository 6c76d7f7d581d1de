#include "report/table_verdict.h"

#include "base/arena.h"
#include "base/moment.h"
#include "report/sentences.h"

static const char *moment_text(struct arena *arena, const struct timetable *timetable, int64_t minute)
{
    if (minute == INT64_MAX)
        return "never";
    return arena_text(arena, moment_format(timetable->job->zone, minute, MOMENT_DAY_TIME).text);
}

static const char *ready_for(enum finish_state state)
{
    static const char *const words[STATE_COUNT] = {
        [STATE_DUST_FREE] = "dust-free", [STATE_HANDLE] = "to handle", [STATE_RECOAT] = "for another coat",
        [STATE_SAND] = "to sand",        [STATE_WRAP] = "to wrap",     [STATE_LIGHT_USE] = "for light use",
        [STATE_CURED] = "cured",
    };
    return words[state];
}

/* With the day that the customer named where that is another. */
static const char *delivery_text(struct arena *arena, const struct timetable *timetable)
{
    const struct job *job = timetable->job;
    int64_t day_min;
    struct text_short moment = moment_format(job->zone, timetable->deliver_min, MOMENT_LONG);
    if (!job_delivers_closed(job, &day_min))
        return arena_text(arena, moment.text);
    return arena_textf(arena, "%s (closed; last open moment %s)",
                       moment_format(job->zone, day_min, MOMENT_DAY).text, moment.text);
}

static void verdict_planned(struct screen *screen, const struct timetable *timetable)
{
    struct arena *arena = screen->out->arena;
    bool late = timetable->late_min > 0;
    const char *ready = moment_text(arena, timetable, timetable->ready_min);
    const char *best = moment_text(arena, timetable, timetable->no_earlier_than_min);
    struct text_short by = span_format(late ? timetable->late_min : timetable->spare_min);
    const char *sentence = late ? arena_textf(arena, "LATE by %s: ready %s %s", by.text,
                                              ready_for(timetable->job->deliver_at), ready)
                                : arena_textf(arena, "Ready %s %s, %s in hand",
                                              ready_for(timetable->job->deliver_at), ready, by.text);
    screen_tinted(screen, late ? TINT_BAD : TINT_GOOD, sentence);
    buf_add_char(screen->out, '\n');
    screen_paragraph(screen, 0, 2,
                     arena_textf(arena, "Delivery %s; %s", delivery_text(arena, timetable),
                                 timetable->proven
                                     ? "no quicker way exists"
                                     : arena_textf(arena, "nothing sooner than %s is possible", best)));
    if (timetable->ended)
        screen_paragraph(screen, 0, 2, "The search was ended early: this is the best plan so far");
}

void table_verdict(struct screen *screen, const struct timetable *timetable)
{
    if (timetable->status == TIMETABLE_PLANNED) {
        verdict_planned(screen, timetable);
        return;
    }
    screen_tinted(screen, TINT_BAD,
                  timetable->status == TIMETABLE_IMPOSSIBLE ? "There is no way to do it as asked"
                                                            : "No timetable was found");
    buf_add_char(screen->out, '\n');
    for (size_t i = 0; i < timetable->why_count; i++)
        screen_paragraph(screen, 2, 2, reason_words(screen->out->arena, timetable, &timetable->why[i]));
}
