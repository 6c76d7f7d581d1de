#include "io/table_mix.h"

#include "base/arena.h"
#include "base/moment.h"
#include "base/number.h"

#include <math.h>

static const char *grams(struct arena *arena, double mass_g)
{
    return arena_textf(arena, "%s g", number_round(mass_g, 2).text);
}

static const char *pour_name(const struct finish *finish, const struct pour *pour)
{
    return pour->component == SIZE_MAX ? "thinner" : finish->components[pour->component].name;
}

static void print_pours(struct screen *screen, const struct finish *finish, const struct mix *mix)
{
    static const struct column columns[] = {{"pour", ALIGN_LEFT, true},
                                            {"volume", ALIGN_RIGHT, false},
                                            {"weigh", ALIGN_RIGHT, false},
                                            {"scale not zeroed", ALIGN_RIGHT, false}};
    struct arena *arena = screen->out->arena;
    struct table table;
    table_init(&table, arena, columns, 4);
    for (size_t i = 0; i < mix->pour_count; i++) {
        const struct pour *pour = &mix->pours[i];
        const char *cells[] = {pour_name(finish, pour),
                               arena_text(arena, volume_format(pour->volume_l, screen->units).text),
                               grams(arena, pour->weigh_g), grams(arena, pour->total_g)};
        table_row(&table, cells);
    }
    table_print(&table, screen, 4);
}

static const char *minutes_text(struct arena *arena, double minutes)
{
    return arena_text(arena, span_format((int64_t)floor(minutes)).text);
}

static void print_facts(struct screen *screen, const struct finish *finish, const struct mix *mix)
{
    struct arena *arena = screen->out->arena;
    if (mix->pour_count > 1) {
        struct text_short off = share_format(mix->ratio_error);
        struct text_short limit = share_format(finish->ratio_tolerance);
        if (mix->within)
            screen_paragraph(
                screen, 4, 0,
                arena_textf(arena, "as weighed the ratio is %s off; %s is allowed", off.text, limit.text));
        else
            screen_paragraph(
                screen, 4, 0,
                arena_textf(arena,
                            "as weighed the ratio is %s off, more than the %s allowed: this scale mixes "
                            "soundly from %s on; take a finer scale or a syringe",
                            off.text, limit.text, volume_format(mix->smallest_l, screen->units).text));
    }
    if (mix->made_l > mix->volume_l * 1.005)
        screen_paragraph(screen, 4, 0,
                         arena_textf(arena, "makes %s: less could not be weighed in the ratio",
                                     volume_format(mix->made_l, screen->units).text));
}

/* "let it stand 15 min, lay it within 3 h; the pot is dead after 4 h". */
static const char *life_text(struct arena *arena, const struct finish *finish, const struct mix *mix)
{
    const char *stand = finish->induction_min > 0
                            ? arena_textf(arena, "let it stand %s, ", span_format(finish->induction_min).text)
                            : "";
    if (mix->working_min <= 0)
        return arena_textf(arena, "%sbut the pot is dead after %s", stand,
                           minutes_text(arena, mix->pot_life_min));
    return arena_textf(arena, "%slay it within %s; the pot is dead after %s", stand,
                       minutes_text(arena, mix->working_min), minutes_text(arena, mix->pot_life_min));
}

static void print_card(struct screen *screen, const struct job *job, const struct mix_card *card)
{
    struct arena *arena = screen->out->arena;
    struct buf pieces;
    buf_init(&pieces, arena);
    for (size_t i = 0; i < card->piece_count; i++)
        buf_addf(&pieces, "%s%s", i ? ", " : "", job->pieces[card->pieces[i]].name);
    const char *share = card->of > 1 ? arena_textf(arena, ", mix %d of %d", card->number, card->of) : "";
    screen_heading(screen, arena_textf(arena, "%s, coat %d%s: %s", card->finish->name, card->coat, share,
                                       volume_format(card->volume_l, screen->units).text));
    screen_paragraph(screen, 2, 2, arena_textf(arena, "for %s", pieces.text));
    if (card->mixed_at_min != INT64_MAX)
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "mix it %s, %s to lay",
                                     moment_format(job->zone, card->mixed_at_min, MOMENT_DAY_TIME).text,
                                     minutes_text(arena, card->apply_min)));
    if (isfinite(card->mix->pot_life_min))
        screen_paragraph(screen, 2, 2, life_text(arena, card->finish, card->mix));
    if (card->use_by_min != INT64_MAX)
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "DEAD AT %s",
                                     moment_format(job->zone, card->use_by_min, MOMENT_DAY_TIME).text));
    print_pours(screen, card->finish, card->mix);
    print_facts(screen, card->finish, card->mix);
}

void table_mix(struct screen *screen, const struct plan *plan)
{
    const struct mix_cards *cards = plan->mixes;
    screen_heading(screen, arena_textf(screen->out->arena, "Mixes for %s", plan->job->name));
    if (cards->count == 0)
        screen_paragraph(screen, 2, 0, "Nothing is mixed: every finish comes ready to use.");
    for (size_t i = 0; i < cards->count; i++)
        print_card(screen, plan->job, &cards->items[i]);
    if (cards->warning_count)
        screen_heading(screen, "Worth a look");
    for (size_t i = 0; i < cards->warning_count; i++)
        screen_paragraph(screen, 2, 2, cards->warnings[i]);
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
        const struct pour *pour = &card->mix->pours[i];
        buf_addf(&text, "%s%s %s", i ? " + " : "", grams(arena, pour->weigh_g),
                 pour_name(card->finish, pour));
    }
    return text.text;
}

void table_mix_short(struct screen *screen, const struct plan *plan)
{
    static const struct column columns[] = {{NULL, ALIGN_LEFT, false},
                                            {NULL, ALIGN_RIGHT, false},
                                            {NULL, ALIGN_LEFT, true},
                                            {NULL, ALIGN_LEFT, false}};
    struct arena *arena = screen->out->arena;
    struct table table;
    table_init(&table, arena, columns, 4);
    for (size_t i = 0; i < plan->mixes->count; i++) {
        const struct mix_card *card = &plan->mixes->items[i];
        const char *cells[] = {day_time(arena, plan->job, card->mixed_at_min, MOMENT_DAY_TIME),
                               arena_text(arena, volume_format(card->volume_l, screen->units).text),
                               pours_text(arena, card),
                               card->use_by_min == INT64_MAX
                                   ? ""
                                   : arena_textf(arena, "dead at %s",
                                                 day_time(arena, plan->job, card->use_by_min, MOMENT_TIME))};
        if (i == 0 || card->finish != plan->mixes->items[i - 1].finish)
            table_group(&table, card->finish->name);
        table_row(&table, cells);
    }
    table_print(&table, screen, 4);
}

void table_mix_alone(struct screen *screen, const struct finish *finish, const struct mix *mix,
                     double temperature_c)
{
    struct arena *arena = screen->out->arena;
    screen_heading(
        screen, arena_textf(arena, "%s: %s", finish->name, volume_format(mix->volume_l, screen->units).text));
    if (isfinite(mix->pot_life_min))
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "at %s: %s",
                                     temperature_format(temperature_c, screen->units).text,
                                     life_text(arena, finish, mix)));
    print_pours(screen, finish, mix);
    print_facts(screen, finish, mix);
}
