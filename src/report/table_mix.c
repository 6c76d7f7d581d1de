#include "report/table_mix.h"

#include "base/arena.h"
#include "base/moment.h"
#include "report/sentences.h"
#include "report/table_pour.h"

#include <math.h>

/* The largest that a terminal has: capitals on a line of their own. */
static void print_dead(struct screen *screen, const struct job *job, int64_t minute)
{
    struct buf line;
    struct text_short when = moment_format(job->zone, minute, MOMENT_DAY_TIME);
    buf_init(&line, screen->out->arena);
    buf_add(&line, "DEAD AT ");
    for (const char *at = when.text; *at; at++)
        buf_add_char(&line, (char)(*at >= 'a' && *at <= 'z' ? *at - 'a' + 'A' : *at));
    buf_add(screen->out, "\n  ");
    screen_tinted(screen, TINT_BAD, line.text);
    buf_add(screen->out, "\n\n");
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
                                     minutes_told(arena, card->apply_min)));
    if (isfinite(card->mix->pot_life_min))
        screen_paragraph(screen, 2, 2, mix_life(arena, card->finish, card->mix));
    if (card->use_by_min != INT64_MAX)
        print_dead(screen, job, card->use_by_min);
    table_pours(screen, card->finish, card->mix, card->by);
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
        screen_paragraph(screen, 2, 2, mix_warning_words(screen->out->arena, &cards->warnings[i]));
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
