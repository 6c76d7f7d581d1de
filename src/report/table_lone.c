#include "report/table_lone.h"

#include "amount/shellac.h"
#include "base/arena.h"
#include "base/coverage.h"
#include "base/number.h"
#include "report/sentences.h"
#include "report/table_pour.h"

#include <math.h>

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
        screen_heading(screen, arena_textf(arena, "%s: %s, the most that %s of %s makes", name, each,
                                           mass_format(want->amount, screen->units).text,
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
    const char *lands =
        term->transfer < 1 ? arena_textf(arena, " / %s that lands", share_format(term->transfer).text) : "";
    screen_paragraph(screen, 2, 2,
                     arena_textf(arena, "%s by %s: %s x %s / %s%s = %s, and %s stays in the tool%s", surface,
                                 tool_name(want->tool), area_format(want->amount, screen->units).text,
                                 number_round(term->absorb, 3).text,
                                 coverage_format(coverage, screen->units).text, lands,
                                 screen_volume(screen, term->litres), screen_volume(screen, lone->loss_l),
                                 want->thin > 0 ? "; thinner comes on top" : ""));
    if (isfinite(lone->mix->pot_life_min))
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "%s to lay%s", minutes_told(arena, lone->laying_min),
                                     lone->count > 1 ? " each" : ""));
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

void table_lone(struct screen *screen, const struct lone_mix *lone)
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
                         arena_textf(arena, "at %s: %s",
                                     temperature_format(want->temperature_c, screen->units).text,
                                     mix_life(arena, want->finish, lone->mix)));
    table_pours(screen, want->finish, lone->mix, want->tool);
    for (size_t i = 0; i < lone->warning_count; i++)
        screen_paragraph(screen, 2, 2, mix_warning_words(screen->out->arena, &lone->warnings[i]));
}
