#include "report/table_pour.h"

#include "amount/ladder.h"
#include "base/arena.h"
#include "base/number.h"

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
        return arena_textf(arena, "%sbut the pot is dead after %s", stand,
                           minutes_told(arena, mix->pot_life_min));
    return arena_textf(arena, "%slay it within %s; the pot is dead after %s", stand,
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
                                            {"scale not zeroed", ALIGN_RIGHT, false}};
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
        cells[shown] = rungs[i].asked ? "<- this mix" : "";
        table_row(&table, cells);
    }
    screen_paragraph(screen, 4, 0,
                     arena_textf(arena, "poured more or less %s? then this goes with it:",
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
            arena_textf(arena, "as weighed the ratio is %s off; %s is allowed", off.text, limit.text));
    else
        say(screen, arena_textf(arena, "as weighed the ratio is %s off, more than the %s allowed", off.text,
                                limit.text));
}

/* What is made beyond what was asked, and what would spare it. */
static void print_waste(struct screen *screen, const struct finish *finish, const struct mix *mix)
{
    struct arena *arena = screen->out->arena;
    struct mix_want want = mix->want;
    if (mix->made_l > mix->volume_l * 1.005)
        say(screen, arena_textf(arena, "makes %s, %s more than asked: less could not be weighed in the ratio",
                                screen_volume(screen, mix->made_l),
                                screen_volume(screen, mix->made_l - mix->volume_l)));
    if (!mix->raised && mix->within)
        return;
    want.scale_g /= finer;
    const struct mix *again = mix_make(arena, finish, want);
    const char *step = pour_grams(arena, want.scale_g);
    if (again->within && !again->raised)
        say(screen,
            arena_textf(arena, "a scale in steps of %s weighs it in the ratio; so does a syringe", step));
    else
        say(screen, arena_textf(arena, "even steps of %s are too coarse for it: take a syringe", step));
}

static void print_smallest(struct screen *screen, const struct mix *mix, enum tool by)
{
    struct arena *arena = screen->out->arena;
    double feed = tool_feed_l(by);
    const char *scale = mix->smallest_l > 0 ? arena_textf(arena, "always sound from %s up in steps of %s",
                                                          screen_volume(screen, mix->smallest_l),
                                                          pour_grams(arena, mix->want.scale_g))
                                            : NULL;
    const char *tool =
        feed > 0 ? arena_textf(arena, "%s needs %s to feed", tool_name(by), screen_volume(screen, feed))
                 : NULL;
    if (scale || tool)
        say(screen, arena_textf(arena, "smallest mix: %s%s%s", scale ? scale : "", scale && tool ? "; " : "",
                                tool ? tool : ""));
    if (mix->made_l < feed)
        say(screen, arena_textf(arena, "too little for %s: mix %s, or lay it by hand", tool_name(by),
                                screen_volume(screen, feed)));
}

void table_pours(struct screen *screen, const struct finish *finish, const struct mix *mix, enum tool by)
{
    print_list(screen, finish, mix);
    if (finish->component_count > 1) {
        print_ratio(screen, finish, mix);
        print_waste(screen, finish, mix);
    }
    print_smallest(screen, mix, by);
    print_ladder(screen, finish, mix);
}
