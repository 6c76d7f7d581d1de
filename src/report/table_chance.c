#include "report/table_chance.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"
#include "base/number.h"
#include "report/sentences.h"

static const char *moment_text(struct arena *arena, const struct timetable *timetable, int64_t minute)
{
    if (minute == INT64_MAX)
        return "a day further off than was looked at";
    return arena_text(arena, moment_format(timetable->job->zone, minute, MOMENT_DAY_TIME).text);
}

/* "97 in 100"; all and none only where it is all and none. */
static const char *in_hundred(struct arena *arena, int64_t count, int64_t of)
{
    int64_t hundredths = (200 * count + of) / (2 * of);
    if (count == 0 || count == of)
        return count ? "all" : "none";
    if (hundredths == 0 || hundredths == 100)
        return count < of / 2 ? "fewer than 1 in 100" : "more than 99 in 100";
    return arena_textf(arena, "%d in 100", (int)hundredths);
}

static void print_answer(struct screen *screen, const struct timetable *timetable,
                         const struct chance *chance)
{
    struct arena *arena = screen->out->arena;
    int32_t draws = chance->options.draws;
    screen_paragraph(screen, 2, 2,
                     arena_textf(arena, "on time for %s: %s (of %d draws)",
                                 moment_text(arena, timetable, timetable->deliver_min),
                                 in_hundred(arena, chance->on_time, draws), (int)draws));
    screen_paragraph(screen, 2, 2,
                     arena_textf(arena, "half of them are ready by %s, nine in ten by %s",
                                 moment_text(arena, timetable, chance->half_min),
                                 moment_text(arena, timetable, chance->nine_tenths_min)));
    if (chance->scuffed)
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "a recoat window is missed and scuffed for: %s",
                                     in_hundred(arena, chance->scuffed, draws)));
    if (chance->spoiled)
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "a window is missed that must not be, and so the delivery: %s",
                                     in_hundred(arena, chance->spoiled, draws)));
}

static void print_risk(struct screen *screen, const struct timetable *timetable, const struct chance *chance)
{
    struct arena *arena = screen->out->arena;
    const struct timetable_step *step = chance->driver;
    if (!step)
        return;
    int64_t share = (int64_t)(chance->driver_share * 1000000 + 0.5);
    screen_paragraph(
        screen, 2, 2,
        arena_textf(
            arena,
            "the risk: %s on %s, drying from %s in the plan until it is %s; it held up %s of the draws "
            "that came %s, by %s more than planned on the average",
            step_words(arena, step->operation), step_piece(arena, step->operation),
            moment_text(arena, timetable, step->end_min), state_words(chance->driver_state),
            in_hundred(arena, share, 1000000), chance->driver_late ? "late" : "later than planned",
            span_format(chance->driver_adds_min).text));
}

static const char *spread_text(struct arena *arena, struct chance_spread spread)
{
    return arena_textf(arena, "%s to %s times its planned time%s", number_significant(spread.low, 2).text,
                       number_significant(spread.high, 2).text,
                       spread.even ? ", each as likely" : " (that the likeliest)");
}

void table_chance(struct screen *screen, const struct timetable *timetable, const struct chance *chance)
{
    struct arena *arena = screen->out->arena;
    const struct chance_options *options = &chance->options;
    screen_heading(screen, "The chance to be on time");
    print_answer(screen, timetable, chance);
    print_risk(screen, timetable, chance);
    screen_paragraph(screen, 2, 2,
                     arena_textf(arena,
                                 "assumed (common practice, from memory): drying takes %s, %d %% of the "
                                 "deviation common to all coats of a finish; work by hand %s; the order of "
                                 "work stays as planned",
                                 spread_text(arena, options->drying), (int)(options->shared * 100 + 0.5),
                                 spread_text(arena, options->hands)));
}
