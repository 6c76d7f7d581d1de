#include "report/text.h"

#include "amount/mix.h"
#include "amount/shellac.h"
#include "base/arena.h"
#include "base/coverage.h"
#include "base/moment.h"
#include "base/number.h"
#include "report/text_parts.h"
#include "report/sentences.h"

#include <math.h>

static const double finer = 10; /* a scale or a syringe that tells a tenth of the step */

const char *pour_grams(struct arena *arena, double mass_g)
{
    return arena_textf(arena, "%s g", number_round(mass_g, 2).text);
}

const char *pour_name(const struct finish *finish, const struct pour *pour)
{
    return pour->component == SIZE_MAX ? "thinner" : finish->components[pour->component].name;
}

const struct pour *pour_at(const struct mix *mix, size_t rank)
{
    size_t i = 0;
    while (mix->pours[i].rank != rank)
        i++;
    return &mix->pours[i];
}

const char *minutes_told(struct arena *arena, double minutes)
{
    return arena_text(arena, span_format((int64_t)floor(minutes)).text);
}

const char *mix_life(struct arena *arena, const struct finish *finish, const struct mix *mix)
{
    const char *stand = finish->induction_min > 0
                            ? arena_textf(arena, "let it stand %s, ", span_format(finish->induction_min).text)
                            : "";
    if (mix->working_min <= 0)
        return arena_textf(arena, "%sbut its pot life ends after %s", stand,
                           minutes_told(arena, mix->pot_life_min));
    return arena_textf(arena, "%sapply it within %s; pot life %s", stand,
                       minutes_told(arena, mix->working_min), minutes_told(arena, mix->pot_life_min));
}

/* A thinner of unknown density cannot be weighed. */
static bool by_volume(const struct pour *pour)
{
    return pour->component == SIZE_MAX && pour->mass_g <= 0;
}

static void print_list(struct screen *screen, const struct finish *finish, const struct mix *mix)
{
    static const struct column columns[] = {{"pour", ALIGN_LEFT, true},
                                            {"volume", ALIGN_RIGHT, false},
                                            {"weigh", ALIGN_RIGHT, false},
                                            {"running total", ALIGN_RIGHT, false}};
    struct arena *arena = screen->out->arena;
    struct table table;
    table_init(&table, arena, columns, 4);
    for (size_t rank = 0; rank < mix->pour_count; rank++) {
        const struct pour *pour = pour_at(mix, rank);
        bool measured = by_volume(pour);
        const char *cells[] = {pour_name(finish, pour),
                               arena_text(arena, volume_format(pour->volume_l, screen->units).text),
                               measured ? "by volume" : pour_grams(arena, pour->weigh_g),
                               measured ? "" : pour_grams(arena, pour->total_g)};
        table_row(&table, cells);
    }
    table_print(&table, screen, 4);
}

/* Components that the ladder can show, in the order of pouring. */
static size_t rung_columns(const struct finish *finish, const struct mix *mix, struct column *columns)
{
    size_t count = 0;
    for (size_t rank = 0; rank < mix->pour_count && count + 1 < TABLE_COLUMNS; rank++)
        if (!by_volume(pour_at(mix, rank)))
            columns[count++] = (struct column){pour_name(finish, pour_at(mix, rank)), ALIGN_RIGHT, true};
    columns[count] = (struct column){NULL, ALIGN_LEFT, false};
    return count;
}

/* Totals, as the scale that stands under the cup shows them. */
static void print_ladder(struct screen *screen, const struct finish *finish, const struct mix *mix)
{
    struct arena *arena = screen->out->arena;
    struct column columns[TABLE_COLUMNS];
    struct rung rungs[LADDER_RUNGS];
    struct table table;
    size_t shown = rung_columns(finish, mix, columns), count = ladder_make(arena, finish, mix, rungs);
    if (shown < 2 || count < 2)
        return;
    table_init(&table, arena, columns, shown + 1);
    for (size_t i = 0; i < count; i++) {
        const char *cells[TABLE_COLUMNS] = {NULL};
        for (size_t rank = 0; rank < shown; rank++)
            cells[rank] = pour_grams(arena, rungs[i].grams[pour_at(mix, rank) - mix->pours]);
        cells[shown] = rungs[i].asked ? "this mix" : "";
        table_row(&table, cells);
    }
    screen_paragraph(screen, 4, 0,
                     arena_textf(arena, "if you pour more or less %s, add this much:",
                                 pour_name(finish, mix_first_pour(mix))));
    table_print(&table, screen, 6);
}

static void say(struct screen *screen, const char *text)
{
    screen_paragraph(screen, 4, 2, text);
}

static void print_ratio(struct screen *screen, const struct finish *finish, const struct mix *mix)
{
    struct arena *arena = screen->out->arena;
    struct text_short off = share_format(mix->ratio_error), limit = share_format(finish->ratio_tolerance);
    if (mix->within)
        say(screen,
            arena_textf(arena, "weighed like this the ratio is %s off; %s is allowed", off.text, limit.text));
    else
        say(screen, arena_textf(arena, "weighed like this the ratio is %s off, more than the %s allowed",
                                off.text, limit.text));
}

/* What is made beyond what was asked, and what would spare it. */
static void print_waste(struct screen *screen, const struct finish *finish, const struct mix *mix)
{
    struct arena *arena = screen->out->arena;
    struct mix_want want = mix->want;
    if (mix->made_l > mix->volume_l * 1.005)
        say(screen,
            arena_textf(arena, "makes %s, %s more than needed: less cannot be weighed in the right ratio",
                        screen_volume(screen, mix->made_l),
                        screen_volume(screen, mix->made_l - mix->volume_l)));
    if (!mix->raised && mix->within)
        return;
    want.scale_g /= finer;
    const struct mix *again = mix_make(arena, finish, want);
    const char *step = pour_grams(arena, want.scale_g);
    if (again->within && !again->raised)
        say(screen, arena_textf(arena, "a scale in steps of %s, or a syringe, keeps the ratio", step));
    else
        say(screen, arena_textf(arena, "steps of %s are too coarse as well: measure with a syringe", step));
}

static void print_smallest(struct screen *screen, const struct mix *mix, enum tool by)
{
    struct arena *arena = screen->out->arena;
    double feed = tool_feed_l(by);
    const char *scale = mix->smallest_l > 0 ? arena_textf(arena, "%s on a scale in steps of %s",
                                                          screen_volume(screen, mix->smallest_l),
                                                          pour_grams(arena, mix->want.scale_g))
                                            : NULL;
    const char *tool = feed > 0 ? arena_textf(arena, "%s needs at least %s in the cup", tool_name(by),
                                              screen_volume(screen, feed))
                                : NULL;
    if (scale || tool)
        say(screen, arena_textf(arena, "smallest mix: %s%s%s", scale ? scale : "", scale && tool ? "; " : "",
                                tool ? tool : ""));
    if (mix->made_l < feed)
        say(screen, arena_textf(arena, "too little for %s: mix %s, or apply it by hand", tool_name(by),
                                screen_volume(screen, feed)));
}

void show_pours(struct screen *screen, const struct finish *finish, const struct mix *mix, enum tool by)
{
    print_list(screen, finish, mix);
    if (finish->component_count > 1) {
        print_ratio(screen, finish, mix);
        print_waste(screen, finish, mix);
    }
    print_smallest(screen, mix, by);
    print_ladder(screen, finish, mix);
}

/* The moment to work by stands first and out; the pot life below it. */
static void print_ends(struct screen *screen, const struct job *job, const struct mix_card *card)
{
    struct arena *arena = screen->out->arena;
    if (card->pot_life_ends_min == INT64_MAX)
        return;
    buf_add(screen->out, "\n  ");
    screen_tinted(
        screen, TINT_BAD,
        arena_textf(arena, "APPLY BY %s", moment_format(job->zone, card->apply_by_min, MOMENT_TIME).text));
    buf_addf(screen->out, "\n  pot life ends %s\n\n", moment_words(arena, job, card->pot_life_ends_min));
}

/* "top, back; doors (lot 2 of 2), parts 1 to 7 of 12" */
const char *card_served(struct arena *arena, const struct mix_card *card)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < card->serves_count; i++) {
        const struct mix_serves *serves = &card->serves[i];
        buf_addf(&text, "%s%s", i ? "; " : "", step_piece(arena, serves->coat));
        if (serves->coat->lots > 1)
            buf_addf(&text, " (lot %d of %d)", serves->coat->lot, serves->coat->lots);
        if (serves->from_part == 1 && serves->to_part == serves->parts)
            continue;
        if (serves->from_part == serves->to_part)
            buf_addf(&text, ", part %d of %d", serves->from_part, serves->parts);
        else
            buf_addf(&text, ", parts %d to %d of %d", serves->from_part, serves->to_part, serves->parts);
    }
    return text.text;
}

static void print_card(struct screen *screen, const struct job *job, const struct mix_card *card)
{
    struct arena *arena = screen->out->arena;
    const char *share = card->of > 1 ? arena_textf(arena, ", mix %d of %d", card->number, card->of) : "";
    screen_heading(screen, arena_textf(arena, "%s, coat %d%s: %s", card->finish->name, card->of_finish, share,
                                       volume_format(card->volume_l, screen->units).text));
    screen_paragraph(screen, 2, 2, arena_textf(arena, "for %s", card_served(arena, card)));
    if (card->mixed_at_min != INT64_MAX)
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "mix it %s; %s to apply",
                                     moment_format(job->zone, card->mixed_at_min, MOMENT_DAY_TIME).text,
                                     minutes_told(arena, card->apply_min)));
    if (isfinite(card->mix->pot_life_min))
        screen_paragraph(screen, 2, 2, mix_life(arena, card->finish, card->mix));
    print_ends(screen, job, card);
    show_pours(screen, card->finish, card->mix, card->by);
}

void show_mix(struct screen *screen, const struct plan *plan)
{
    const struct mix_cards *cards = plan->mixes;
    screen_heading(screen, arena_textf(screen->out->arena, "Mixes for %s", plan->job->name));
    if (cards->count == 0)
        screen_paragraph(screen, 2, 0, "No mixing: every finish comes ready to use.");
    for (size_t i = 0; i < cards->count; i++)
        print_card(screen, plan->job, &cards->items[i]);
    if (cards->warning_count)
        screen_heading(screen, "Warnings");
    for (size_t i = 0; i < cards->warning_count; i++)
        screen_paragraph(screen, 2, 2,
                         mix_warning_words(screen->out->arena, &cards->warnings[i], screen->units));
}

static const char *day_time(struct arena *arena, const struct job *job, int64_t minute,
                            enum moment_style style)
{
    return minute == INT64_MAX ? "" : arena_text(arena, moment_format(job->zone, minute, style).text);
}

static const char *pours_text(struct arena *arena, const struct mix_card *card)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < card->mix->pour_count; i++) {
        const struct pour *pour = pour_at(card->mix, i);
        buf_addf(&text, "%s%s %s", i ? " + " : "", pour_grams(arena, pour->weigh_g),
                 pour_name(card->finish, pour));
    }
    return text.text;
}

void show_mix_short(struct screen *screen, const struct plan *plan, size_t most)
{
    static const struct column columns[] = {{NULL, ALIGN_LEFT, false},
                                            {NULL, ALIGN_RIGHT, false},
                                            {NULL, ALIGN_LEFT, true},
                                            {NULL, ALIGN_LEFT, false}};
    struct arena *arena = screen->out->arena;
    struct table table;
    table_init(&table, arena, columns, 4);
    for (size_t i = 0; i < plan->mixes->count && i < most; i++) {
        const struct mix_card *card = &plan->mixes->items[i];
        const char *cells[] = {
            day_time(arena, plan->job, card->mixed_at_min, MOMENT_DAY_TIME),
            arena_text(arena, volume_format(card->volume_l, screen->units).text), pours_text(arena, card),
            card->apply_by_min == INT64_MAX
                ? ""
                : arena_textf(arena, "apply by %s",
                              day_time(arena, plan->job, card->apply_by_min, MOMENT_TIME))};
        if (i == 0 || card->finish != plan->mixes->items[i - 1].finish)
            table_group(&table, card->finish->name);
        table_row(&table, cells);
    }
    table_print(&table, screen, 4);
    if (plan->mixes->count > most)
        screen_paragraph(screen, 4, 2,
                         arena_textf(arena, "and %zu more: see coatwright mix", plan->mixes->count - most));
}

static const char *name_of(struct arena *arena, const struct lone_want *want)
{
    if (want->cut_lb <= 0)
        return want->finish->name;
    return arena_textf(arena, "%s-pound cut of %s", number_round(want->cut_lb, 2).text, want->finish->id);
}

static void print_title(struct screen *screen, const struct lone_mix *lone)
{
    struct arena *arena = screen->out->arena;
    const struct lone_want *want = &lone->want;
    const char *name = name_of(arena, want), *each = screen_volume(screen, lone->mix->volume_l);
    if (want->by == LONE_HAVE)
        screen_heading(screen,
                       arena_textf(arena, "%s: %s%s, the most that %s of %s makes", name,
                                   lone->count > 1 ? arena_textf(arena, "%d mixes of ", lone->count) : "",
                                   each, mass_format(want->amount, screen->units).text,
                                   want->finish->components[want->component].name));
    else if (want->by == LONE_AREA && lone->count == 1)
        screen_heading(screen, arena_textf(arena, "%s: %s for %s", name, each,
                                           area_format(want->amount, screen->units).text));
    else if (lone->count > 1)
        screen_heading(
            screen, arena_textf(arena, "%s: %d mixes of %s, one after the other", name, lone->count, each));
    else
        screen_heading(screen, arena_textf(arena, "%s: %s", name, each));
}

/* Litres = area x absorb / (coverage x transfer) + loss, with the numbers in it. */
static void print_area(struct screen *screen, const struct lone_mix *lone)
{
    struct arena *arena = screen->out->arena;
    const struct lone_want *want = &lone->want;
    const struct litre_term *term = &lone->term;
    struct coverage coverage = {COVERAGE_M2_PER_L, term->coverage_m2_per_l};
    const char *surface = want->later ? "a later coat"
                                      : arena_textf(arena, "the first coat on %s",
                                                    want->wood ? want->wood->name : "closed grain");
    const char *lands = term->transfer < 1 ? arena_textf(arena, " / transfer efficiency %s",
                                                         share_format(term->transfer).text)
                                           : "";
    screen_paragraph(screen, 2, 2,
                     arena_textf(arena, "%s by %s: %s x %s / %s%s = %s, with %s that stays in the tool%s",
                                 surface, tool_name(want->tool),
                                 area_format(want->amount, screen->units).text,
                                 arena_textf(arena, "absorption %s", number_round(term->absorb, 3).text),
                                 coverage_format(coverage, screen->units).text, lands,
                                 screen_volume(screen, term->litres), screen_volume(screen, lone->loss_l),
                                 want->thin > 0 ? "; the thinner is added to that" : ""));
}

static void print_cut(struct screen *screen, const struct lone_want *want)
{
    screen_paragraph(
        screen, 2, 2,
        arena_textf(screen->out->arena,
                    "pounds of flakes to a US gallon of alcohol (%s g to a litre); a pound takes "
                    "up 0.1 gallon",
                    number_round(shellac_flakes_g_per_l(want->cut_lb), 1).text));
    if (want->from_lb <= 0)
        screen_paragraph(screen, 2, 2,
                         "flakes dissolve in 12 to 24 h and keep 6 months dissolved (from memory): date the "
                         "jar");
}

void show_lone(struct screen *screen, const struct lone_mix *lone)
{
    struct arena *arena = screen->out->arena;
    const struct lone_want *want = &lone->want;
    print_title(screen, lone);
    if (want->by == LONE_AREA)
        print_area(screen, lone);
    if (want->cut_lb > 0)
        print_cut(screen, want);
    if (isfinite(lone->mix->pot_life_min))
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "%s to apply%s", minutes_told(arena, lone->laying_min),
                                     lone->count > 1 ? " each" : ""));
    if (isfinite(lone->mix->pot_life_min))
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "at %s: %s",
                                     temperature_format(want->temperature_c, screen->units).text,
                                     mix_life(arena, want->finish, lone->mix)));
    show_pours(screen, want->finish, lone->mix, want->tool);
    for (size_t i = 0; i < lone->warning_count; i++)
        screen_paragraph(screen, 2, 2,
                         mix_warning_words(screen->out->arena, &lone->warnings[i], screen->units));
}
