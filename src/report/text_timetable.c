#include "report/text.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"
#include "base/number.h"
#include "report/log.h"
#include "report/text_parts.h"
#include "report/sentences.h"
#include "timetable/hours.h"

enum {
    SPARE_SLOTS_MOST = 3 * 366 * DAY_MINUTES / SLOT_MIN, /* beyond, the clock alone is said */
    OPEN_SLOTS_MOST = 30 * DAY_MINUTES / SLOT_MIN,       /* the next opening is looked for in so many */
};

const char *deliver_words(struct arena *arena, const struct timetable *timetable)
{
    const struct job *job = timetable->job;
    int64_t day_min;
    struct text_short moment = moment_format(job->zone, timetable->deliver_min, MOMENT_LONG);
    if (!job_delivers_closed(job, &day_min))
        return arena_text(arena, moment.text);
    return arena_textf(arena, "%s (closed; last open moment %s)",
                       moment_format(job->zone, day_min, MOMENT_DAY).text, moment.text);
}

/* What the shop works between two moments, and on an average day on which it is open. */
struct working_time {
    int64_t minutes, day_minutes;
};

static struct working_time working_between(struct arena *arena, const struct job *job, int64_t from,
                                           int64_t to)
{
    struct working_time time = {0, 0};
    int days = 0;
    for (int day = 0; day < 7; day++) {
        const struct shop_day *hours = &job->shop.hours[day];
        days += hours->count > 0;
        for (size_t i = 0; i < hours->count; i++)
            time.day_minutes += hours->stretches[i].to_min - hours->stretches[i].from_min;
    }
    time.day_minutes = days ? time.day_minutes / days : 0;
    int64_t slots = (to - from) / SLOT_MIN;
    if (slots <= 0 || slots > SPARE_SLOTS_MOST)
        return time;
    const struct hours *hours = hours_make(arena, &job->shop, job->zone, from, (int32_t)slots);
    for (size_t i = 0; i < hours->count; i++)
        time.minutes += (int64_t)(hours->stretches[i].to - hours->stretches[i].from) * SLOT_MIN;
    return time;
}

/* "2 working days 6 h (4 d 13 h 20 min by the clock)", in whole hours from a day on. */
static const char *spare_words(struct arena *arena, const struct job *job, int64_t from, int64_t to)
{
    struct working_time time = working_between(arena, job, from, to);
    const char *clock = arena_text(arena, span_format(to - from).text);
    int64_t days = time.day_minutes ? time.minutes / time.day_minutes : 0;
    int64_t rest = time.day_minutes ? time.minutes % time.day_minutes : 0;
    rest = days ? rest / 60 * 60 : rest;
    const char *hours = rest || !days ? arena_text(arena, span_format(rest).text) : "";
    if (!time.minutes)
        return arena_textf(arena, "%s by the clock, none of it working time", clock);
    if (!days)
        return arena_textf(arena, "%s of working time (%s by the clock)", hours, clock);
    return arena_textf(arena, "%d working day%s%s%s (%s by the clock)", (int)days, days == 1 ? "" : "s",
                       *hours ? " " : "", hours, clock);
}

const char *to_spare_words(struct arena *arena, const struct timetable *timetable)
{
    int64_t ready = timetable->ready_min, due = timetable->deliver_min;
    bool late = timetable->late_min > 0;
    return spare_words(arena, timetable->job, late ? due : ready, late ? ready : due);
}

const char *ready_words(struct arena *arena, const struct job *job, int64_t ready_min)
{
    const char *ready = moment_words(arena, job, ready_min);
    if (ready_min == INT64_MAX)
        return ready;
    const struct hours *hours = hours_make(arena, &job->shop, job->zone, ready_min, OPEN_SLOTS_MOST);
    if (hours->count == 0 || hours->stretches[0].from == 0)
        return ready;
    int64_t open = hours_moment(hours, hours->stretches[0].from);
    int64_t day = zone_day(job->zone, open, NULL);
    bool soon = day - zone_day(job->zone, ready_min, NULL) < 7;
    if (!soon)
        return arena_textf(arena, "%s (open from %s)", ready, moment_words(arena, job, open));
    return arena_textf(arena, "%s (open from %s %s)", ready, weekday_name(weekday_of(day)),
                       moment_format(job->zone, open, MOMENT_TIME).text);
}

/* What is proven is proven of the lots that the plan has: where a piece has several parts there are others. */
static bool may_be_other_lots(const struct timetable *timetable)
{
    const struct operations *operations = timetable->operations;
    bool several = false;
    for (size_t i = 0; i < operations->count; i++)
        several |= operations->items[i].piece >= 0 && operations->items[i].units.count > 1;
    return several;
}

static const char *proof_words(struct arena *arena, const struct timetable *timetable)
{
    bool lots = may_be_other_lots(timetable);
    if (timetable->ended)
        return "the search was ended early: this is the best plan so far";
    if (timetable->ready_proven)
        return lots ? "no earlier finish is possible in these lots" : "no earlier finish is possible";
    const char *before = moment_words(arena, timetable->job, timetable->no_earlier_than_min);
    return lots ? arena_textf(arena, "in these lots no finish before %s", before)
                : arena_textf(arena, "no finish before %s is possible", before);
}

static const char *work_words(struct arena *arena, const struct timetable *timetable)
{
    static const char *const aims[] = {[AIM_LEAST_WORK] = "the least work first",
                                       [AIM_SOONEST] = "ready as early as can be",
                                       [AIM_LATEST] = "the least work first, and as late as may be"};
    const char *work = arena_textf(arena, "Planned for %s; work: %s", aims[timetable->aim],
                                   hours_format(timetable->hands_on_min).text);
    if (timetable->work_proven)
        return arena_textf(arena, "%s, no plan takes less work", work);
    if (timetable->no_less_work_min <= 0)
        return work;
    return arena_textf(arena, "%s, no plan takes less than %s", work,
                       hours_format(timetable->no_less_work_min).text);
}

static void verdict_planned(struct screen *screen, const struct timetable *timetable)
{
    struct arena *arena = screen->out->arena;
    const struct job *job = timetable->job;
    bool late = timetable->late_min > 0;
    int64_t ready = timetable->ready_min;
    const char *sentence = arena_textf(arena, "%s %s, %s", late ? "LATE: ready" : "Ready",
                                       ready_words(arena, job, ready), state_words(job->deliver_at));
    screen_line(screen, late ? TINT_BAD : TINT_GOOD, sentence);
    screen_paragraph(screen, 0, 2,
                     arena_textf(arena, "Delivery %s; %s", deliver_words(arena, timetable),
                                 proof_words(arena, timetable)));
    screen_paragraph(
        screen, 0, 2,
        arena_textf(arena, "%s %s", late ? "Late by" : "To spare:", to_spare_words(arena, timetable)));
    screen_paragraph(screen, 0, 2, work_words(arena, timetable));
}

void show_verdict(struct screen *screen, const struct timetable *timetable)
{
    if (timetable->status == TIMETABLE_PLANNED) {
        verdict_planned(screen, timetable);
        return;
    }
    screen_line(screen, TINT_BAD,
                timetable->status == TIMETABLE_IMPOSSIBLE ? "No plan is possible" : "No plan was found");
    for (size_t i = 0; i < timetable->why_count; i++)
        screen_paragraph(screen, 2, 2,
                         reason_words(screen->out->arena, timetable, &timetable->why[i], screen->units));
    if (timetable->ended)
        screen_paragraph(screen, 2, 2, "the search was ended early");
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
                                 moment_words(arena, timetable->job, timetable->deliver_min),
                                 in_hundred(arena, chance->on_time, draws), (int)draws));
    screen_paragraph(screen, 2, 2,
                     arena_textf(arena, "half of them are ready by %s, nine in ten by %s",
                                 moment_words(arena, timetable->job, chance->half_min),
                                 moment_words(arena, timetable->job, chance->nine_tenths_min)));
    if (chance->scuffed)
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "a recoat window is missed and the coat scuffed: %s",
                                     in_hundred(arena, chance->scuffed, draws)));
    if (chance->spoiled)
        screen_paragraph(
            screen, 2, 2,
            arena_textf(arena, "a recoat window is missed that must be kept, and with it the delivery: %s",
                        in_hundred(arena, chance->spoiled, draws)));
}

static void print_risk(struct screen *screen, const struct timetable *timetable, const struct chance *chance)
{
    struct arena *arena = screen->out->arena;
    const struct timetable_step *step = chance->driver;
    if (!step)
        return;
    int64_t share = (int64_t)(chance->driver_share * 1000000 + 0.5);
    screen_paragraph(screen, 2, 2,
                     arena_textf(arena,
                                 "the greatest risk: %s on %s, drying from %s in the plan until it is %s; it "
                                 "delayed %s of the draws "
                                 "that were %s, by %s more than planned on average",
                                 step_words(arena, step->operation), step_piece(arena, step->operation),
                                 moment_words(arena, timetable->job, step->end_min),
                                 state_words(chance->driver_state), in_hundred(arena, share, 1000000),
                                 chance->driver_late ? "late" : "later than planned",
                                 span_format(chance->driver_adds_min).text));
}

static const char *spread_text(struct arena *arena, struct chance_spread spread)
{
    return arena_textf(arena, "%s to %s times its planned time%s", number_significant(spread.low, 2).text,
                       number_significant(spread.high, 2).text,
                       spread.even ? ", each as likely" : " (that the likeliest)");
}

static void print_learned(struct screen *screen, const struct chance *chance)
{
    struct arena *arena = screen->out->arena;
    for (size_t i = 0; i < chance->learned_count; i++) {
        const struct finish *finish = chance->learned[i].finish;
        enum tool tool = chance->learned[i].tool;
        const struct tool_learned *learned = &finish->tool_learned[tool];
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena,
                                     "learned from this shop's logs: coats of %s by %s take %s times their "
                                     "planned minutes, give or take %s",
                                     finish->name, tool_name(tool),
                                     number_fixed(learned->minutes_factor, 2).text,
                                     share_format(learned->minutes_tolerance).text));
    }
}

void show_chance(struct screen *screen, const struct timetable *timetable, const struct chance *chance)
{
    struct arena *arena = screen->out->arena;
    const struct chance_options *options = &chance->options;
    screen_heading(screen, "Chance of being on time");
    print_answer(screen, timetable, chance);
    print_risk(screen, timetable, chance);
    print_learned(screen, chance);
    screen_paragraph(
        screen, 2, 2,
        arena_textf(arena,
                    "assumed (common practice, from memory): drying takes %s, %d %% of the "
                    "deviation common to all coats of a finish; %swork by hand takes %s; the order of "
                    "work is as planned",
                    spread_text(arena, options->drying), (int)(options->shared * 100 + 0.5),
                    chance->learned_count > 0 ? "other " : "", spread_text(arena, options->hands)));
}

/* The next in the order of delivery, those told already left out; equals in the order of the command line. */
static size_t next_due(const struct plan *const *plans, size_t count, const bool *told)
{
    size_t next = count;
    for (size_t i = 0; i < count; i++)
        if (!told[i] &&
            (next == count || plans[i]->timetable->deliver_min < plans[next]->timetable->deliver_min))
            next = i;
    return next;
}

void show_together(struct screen *screen, const struct plan *const *plans, size_t count)
{
    static const struct column columns[] = {{"job", ALIGN_LEFT, true},
                                            {"delivery", ALIGN_LEFT, false},
                                            {"ready", ALIGN_LEFT, true},
                                            {"to spare", ALIGN_RIGHT, false},
                                            {"late", ALIGN_RIGHT, false}};
    struct arena *arena = screen->out->arena;
    struct table table;
    if (plans[0]->timetable->status != TIMETABLE_PLANNED)
        return;
    bool *told = ARENA_ARRAY(arena, count, bool);
    table_init(&table, arena, columns, sizeof columns / sizeof columns[0]);
    for (size_t i = 0; i < count; i++) {
        size_t next = next_due(plans, count, told);
        const struct timetable *timetable = plans[next]->timetable;
        bool late = timetable->late_min > 0;
        const char *by =
            arena_text(arena, span_format(late ? timetable->late_min : timetable->spare_min).text);
        table_row(&table, (const char *[]){plans[next]->job->name,
                                           moment_words(arena, timetable->job, timetable->deliver_min),
                                           ready_words(arena, timetable->job, timetable->ready_min),
                                           late ? NULL : by, late ? by : NULL});
        told[next] = true;
    }
    screen_heading(screen, "Jobs in order of delivery");
    table_print(&table, screen, 2);
}

/* What each step of the chain waits for. Of jobs that share a shop those in time have no sentences: their steps are told. */
static void print_chain(struct screen *screen, const struct timetable *timetable)
{
    struct arena *arena = screen->out->arena;
    if (timetable->chain_count == 0)
        return;
    screen_heading(screen, timetable->late_min > 0 ? "Why it is late" : "Critical path");
    for (size_t i = 0; i < timetable->why_count; i++)
        screen_paragraph(screen, 2, 2, reason_words(arena, timetable, &timetable->why[i], screen->units));
    for (size_t i = 0; timetable->why_count == 0 && i < timetable->chain_count; i++) {
        const struct timetable_step *step = &timetable->steps[timetable->chain[i]];
        const char *piece = step_piece(arena, step->operation);
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "%s  %s%s%s",
                                     moment_words(arena, timetable->job, step->start_min),
                                     step_words(arena, step->operation), *piece ? ": " : "", piece));
    }
}

static bool slack_known(const struct timetable *timetable)
{
    for (size_t i = 0; i < timetable->batch_count; i++)
        if (timetable->batches[i].float_min >= 0)
            return true;
    return false;
}

static void print_cautions(struct screen *screen, const struct plan *plan)
{
    struct arena *arena = screen->out->arena;
    if (plan->caution_count)
        screen_heading(screen, arena_textf(arena, "Take care: %s", caution_rider()));
    for (size_t i = 0; i < plan->caution_count; i++)
        screen_paragraph(screen, 2, 2, plan_caution_words(arena, &plan->cautions[i], screen->units));
}

void show_timetable(struct screen *screen, const struct plan *plan)
{
    const struct timetable *timetable = plan->timetable;
    struct table table;
    screen_heading(screen, arena_textf(screen->out->arena, "Timetable of %s", plan->job->name));
    show_verdict(screen, timetable);
    show_done(screen, timetable);
    if (timetable->status != TIMETABLE_PLANNED) {
        show_advice(screen, plan, SIZE_MAX);
        return;
    }
    buf_add_char(screen->out, '\n');
    table_batches_init(&table, screen->out->arena, plan->job, slack_known(timetable));
    table_batches_add(&table, screen, plan, (struct batch_range){INT64_MIN, INT64_MAX, SIZE_MAX, true});
    table_print(&table, screen, 2);
    screen_heading(screen, "Day by day");
    show_chart(screen, timetable);
    screen_heading(screen, "Handle, wrap, use");
    show_states(screen, timetable);
    print_chain(screen, timetable);
    show_advice(screen, plan, SIZE_MAX);
    print_cautions(screen, plan);
}
