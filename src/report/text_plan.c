#include "report/text.h"

#include "base/arena.h"
#include "base/err.h"
#include "base/moment.h"
#include "report/log.h"
#include "report/text_parts.h"
#include "report/sentences.h"

#include <string.h>

enum { ADVICE_FIRST = 3, ENDS_MOST = 4, MIXES_MOST = 3, PAGE_LINES = 60 };

/* How many batches of the two days are told: the first of these with which the page is one. */
static const struct days_most {
    size_t first, second;
} days_most[] = {{8, 4}, {8, 3}, {8, 2}, {7, 2}, {6, 2}, {5, 2}, {5, 1}, {4, 1}, {3, 1}, {2, 1}};

static void print_title(struct screen *screen, const struct job *job)
{
    const char *customer = job->customer ? job->customer : "";
    screen_heading(screen,
                   arena_textf(screen->out->arena, "%s%s%s", job->name, *customer ? ", for " : "", customer));
}

/* Days since 1970 of the day of `now` or the first day of work after it, and of the next one with work; how many of the
 * two there are. */
static size_t days_of(const struct plan *plan, int64_t now_min, int64_t days[2])
{
    const struct timetable *timetable = plan->timetable;
    const struct zone *zone = plan->job->zone;
    int64_t today = zone_day(zone, now_min, NULL);
    size_t found = 0;
    for (size_t i = 0; i < timetable->batch_count && found < 2; i++) {
        int64_t day = zone_day(zone, timetable->batches[i].start_min, NULL);
        if (day >= today && (found == 0 || day > days[0]))
            days[found++] = day;
    }
    return found;
}

static void print_days(struct screen *screen, const struct plan *plan, const int64_t *days, size_t count,
                       struct days_most most)
{
    const struct zone *zone = plan->job->zone;
    struct table table;
    table_batches_init(&table, screen->out->arena, plan->job, false);
    for (size_t i = 0; i < count; i++)
        table_batches_add(&table, screen, plan,
                          (struct batch_range){.from_min = zone_moment_on(zone, days[i], 0),
                                               .to_min = zone_moment_on(zone, days[i] + 1, 0),
                                               .most = i ? most.second : most.first});
    table_print(&table, screen, 2);
}

/* Later days: only what ends by itself if nobody stands there. */
static void print_ends(struct screen *screen, const struct plan *plan, int64_t from_min)
{
    static const struct column columns[] = {{NULL, ALIGN_LEFT, false},
                                            {NULL, ALIGN_LEFT, true},
                                            {NULL, ALIGN_LEFT, true},
                                            {NULL, ALIGN_LEFT, false}};
    struct arena *arena = screen->out->arena;
    const struct zone *zone = plan->job->zone;
    struct table table;
    table_init(&table, arena, columns, 4);
    for (size_t i = 0; i < plan->timetable->batch_count && table.row_count < ENDS_MOST; i++) {
        const struct timetable_batch *batch = &plan->timetable->batches[i];
        size_t at = 0;
        int64_t until = batch_must_begin(plan->timetable, batch, &at);
        struct batch_run run = {at, 1, 1};
        if (batch->start_min < from_min || until == INT64_MAX)
            continue;
        const char *cells[] = {
            arena_text(arena, moment_format(zone, batch->start_min, MOMENT_DAY_TIME).text),
            batch_words(arena, plan->timetable, batch), batch_run_pieces(arena, plan->timetable, batch, &run),
            arena_textf(arena, "before %s", moment_format(zone, until, MOMENT_DAY_TIME).text)};
        table_row(&table, cells);
    }
    if (table.row_count)
        screen_heading(screen, "Later, at a fixed time");
    table_print(&table, screen, 2);
}

static void print_work(struct screen *screen, const struct plan *plan, int64_t now_min, struct days_most most)
{
    int64_t days[2];
    if (plan->timetable->batch_count == 0)
        return;
    size_t count = days_of(plan, now_min, days);
    screen_heading(screen, now_min < plan->timetable->batches[0].start_min ? "First days" : "Today and next");
    if (count == 0) {
        screen_paragraph(screen, 2, 0, "Nothing: all work is before today.");
        return;
    }
    print_days(screen, plan, days, count, most);
    print_ends(screen, plan, zone_moment_on(plan->job->zone, days[count - 1] + 1, 0));
}

static void print_drying_air(struct screen *screen, const struct plan *plan)
{
    struct arena *arena = screen->out->arena;
    for (size_t i = 0; i < plan->timetable->wait_count; i++) {
        const struct drying_wait *wait = &plan->timetable->waits[i];
        const struct timetable_step *step = &plan->timetable->steps[wait->step];
        const char *outside = outside_words(arena, plan->job, wait);
        if (outside)
            screen_paragraph(screen, 2, 2,
                             arena_textf(arena, "%s on %s %s", step_words(arena, step->operation),
                                         step_piece(arena, step->operation), outside));
    }
}

/* "19 °C 50 % RH from 07:00, 15 °C 58 % RH from 18:00". */
static const char *air_text(const struct screen *screen, const struct air_day *day)
{
    struct buf text;
    buf_init(&text, screen->out->arena);
    for (size_t i = 0; i < day->spell_count; i++) {
        const struct air_spell *spell = &day->spells[i];
        buf_addf(&text, "%s%s %s", i ? ", " : "",
                 temperature_format(spell->air.temperature_c, screen->units).text,
                 humidity_words(screen->out->arena, spell->air.humidity));
        if (day->spell_count > 1)
            buf_addf(&text, " from %s", time_format(spell->from_min).text);
    }
    return text.text;
}

/* "wood, assumed: at most 12 % moisture", of the pieces for outdoors another. */
static const char *moisture_text(struct arena *arena, const struct job *job)
{
    size_t outside = 0;
    for (size_t i = 0; i < job->piece_count; i++)
        outside += (job->pieces[i].uses & USE_OUTDOORS) != 0;
    if (!outside || outside == job->piece_count)
        return arena_textf(arena, "wood, assumed: at most %d %% moisture",
                           outside ? WOOD_MOISTURE_OUTSIDE : WOOD_MOISTURE_INSIDE);
    return arena_textf(arena, "wood, assumed: at most %d %% moisture, %d %% for outdoors",
                       WOOD_MOISTURE_INSIDE, WOOD_MOISTURE_OUTSIDE);
}

static void print_assumed(struct screen *screen, const struct plan *plan, const struct err_list *warnings)
{
    struct arena *arena = screen->out->arena;
    const struct shop *shop = &plan->job->shop;
    screen_heading(screen, "Warnings and assumptions");
    screen_paragraph(screen, 2, 2,
                     arena_textf(arena, "%s: %s%s", shop->air.assumed ? "air, assumed" : "air, from the shop",
                                 air_text(screen, &shop->air.daily),
                                 shop->hours_assumed ? "; working hours, assumed" : ""));
    screen_paragraph(screen, 2, 2, moisture_text(arena, plan->job));
    show_buy_risks(screen, plan);
    print_drying_air(screen, plan);
    for (size_t i = 0; i < warnings->count; i++)
        screen_paragraph(screen, 2, 2, warnings->items[i].found);
    for (size_t i = 0; i < plan->mixes->warning_count; i++)
        screen_paragraph(screen, 2, 2,
                         mix_warning_words(screen->out->arena, &plan->mixes->warnings[i], screen->units));
}

/* In a few words each; `timetable` has the sentences, with the finishes. */
static void print_cautions(struct screen *screen, const struct plan *plan)
{
    struct buf text;
    buf_init(&text, screen->out->arena);
    for (size_t i = 0; i < plan->caution_count; i++) {
        const char *brief = plan_caution_brief(screen->out->arena, &plan->cautions[i]);
        if (brief)
            buf_addf(&text, "%s%s", text.length ? "; " : "take care: ", brief);
    }
    if (text.length)
        screen_paragraph(screen, 2, 2,
                         arena_textf(screen->out->arena, "%s; in full: coatwright timetable; %s", text.text,
                                     caution_rider()));
}

static void print_page(struct screen *screen, const struct plan *plan, int64_t now_min,
                       const struct err_list *warnings, struct days_most most)
{
    print_title(screen, plan->job);
    show_verdict(screen, plan->timetable);
    show_done(screen, plan->timetable);
    show_advice(screen, plan, ADVICE_FIRST);
    print_work(screen, plan, now_min, most);
    screen_heading(screen, "To buy");
    show_buy_short(screen, plan);
    if (plan->sundries->count)
        screen_paragraph(screen, 2, 2, "also abrasives, cloths, thinner, estimated: see coatwright buy");
    print_assumed(screen, plan, warnings);
    print_cautions(screen, plan);
    if (plan->timetable->state_count) {
        screen_heading(screen, "Handle, wrap, use");
        show_states_short(screen, plan->timetable);
    }
    if (plan->mixes->count) {
        screen_heading(screen, "Mixes");
        show_mix_short(screen, plan, MIXES_MOST);
    }
    screen_heading(screen, "Areas");
    show_area_short(screen, plan->job, plan->surfaces);
}

static size_t lines_of(const char *text)
{
    size_t lines = 0;
    for (; *text; text++)
        lines += *text == '\n';
    return lines;
}

static void print_unrecorded(struct screen *screen, const struct job *job,
                             const struct unrecorded *unrecorded)
{
    struct arena *arena = screen->out->arena;
    if (unrecorded->count == 0)
        return;
    const char *moment = moment_format(job->zone, unrecorded->until_min, MOMENT_PLAIN).text;
    screen_paragraph(screen, 0, 2,
                     arena_textf(arena, "not recorded: %zu %s until %s; coatwright done %s until '%s'",
                                 unrecorded->count, unrecorded->count == 1 ? "step" : "steps",
                                 moment_words(arena, job, unrecorded->until_min), job->file, moment));
}

void show_plan(struct screen *screen, const struct plan *plan, int64_t now_min,
               const struct err_list *warnings, const struct unrecorded *unrecorded)
{
    struct buf *out = screen->out;
    print_unrecorded(screen, plan->job, unrecorded);
    for (size_t i = 0; i < sizeof days_most / sizeof days_most[0]; i++) {
        struct buf page;
        buf_init(&page, out->arena);
        screen->out = &page;
        print_page(screen, plan, now_min, warnings, days_most[i]);
        screen->out = out;
        if (i + 1 < sizeof days_most / sizeof days_most[0] && lines_of(page.text) > PAGE_LINES)
            continue;
        buf_add_n(out, page.text, page.length);
        return;
    }
}
