#include "io/table_finish.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "base/number.h"
#include "io/table_finishes.h"

#include <string.h>

struct sheet {
    struct screen *screen;
    struct arena *arena;
    const struct finish *finish;
    struct table table;
};

static const char *source_of(const struct finish *finish, const char *group)
{
    for (size_t i = 0; i < finish->source_count; i++)
        if (strcmp(finish->sources[i].group, group) == 0)
            return finish->sources[i].text;
    return "";
}

static void add(struct sheet *sheet, const char *group, const char *what, const char *figures)
{
    table_row(&sheet->table, (const char *[]){what, figures, source_of(sheet->finish, group)});
}

static const char *span(struct sheet *sheet, int32_t span_min)
{
    return span_min == SPAN_NEVER ? "no end" : arena_text(sheet->arena, span_format(span_min).text);
}

static const char *air(struct sheet *sheet, double temperature_c)
{
    return arena_text(sheet->arena, temperature_format(temperature_c, sheet->screen->units).text);
}

static void add_components(struct sheet *sheet)
{
    const struct finish *finish = sheet->finish;
    struct buf parts, packs;
    buf_init(&parts, sheet->arena);
    buf_init(&packs, sheet->arena);
    for (size_t i = 0; i < finish->component_count; i++) {
        const struct component *component = &finish->components[i];
        buf_addf(&parts, "%s%s: %s part%s of %s", i ? "; " : "", component->name,
                 number_round(component->parts, 3).text, component->parts > 1 ? "s" : "",
                 density_format(component->density_kg_per_l, sheet->screen->units).text);
        for (size_t k = 0; k < component->pack_count; k++)
            buf_addf(&packs, "%s%s%s",
                     k   ? ", "
                     : i ? "; "
                         : "",
                     component->packs[k].label,
                     k + 1 == component->pack_count && finish->component_count > 1
                         ? arena_textf(sheet->arena, " %s", component->name)
                         : "");
    }
    add(sheet, "components", "components", parts.text);
    if (finish->component_count > 1)
        add(sheet, "mix", "mixed",
            arena_textf(sheet->arena, "by %s, %s off at most", finish->mix_by_mass ? "mass" : "volume",
                        share_format(finish->ratio_tolerance).text));
    if (finish->induction_min)
        add(sheet, "induction", "stands first", span(sheet, finish->induction_min));
    if (finish->pot_life_min != SPAN_NEVER)
        add(sheet, "pot-life", "pot life",
            arena_textf(sheet->arena, "%s at %s", span(sheet, finish->pot_life_min),
                        air(sheet, finish->at_c)));
    if (packs.length)
        add(sheet, "packs", "packs", packs.text);
}

static const char *coverage(struct sheet *sheet, bool first)
{
    struct coverage figure = {COVERAGE_M2_PER_L, finish_coverage(sheet->finish, first)};
    return arena_text(sheet->arena, coverage_format(figure, sheet->screen->units).text);
}

static void add_laying(struct sheet *sheet)
{
    const struct finish *finish = sheet->finish;
    struct buf tools;
    buf_init(&tools, sheet->arena);
    for (int i = 0; i < TOOL_COUNT; i++)
        if (finish->by[i])
            buf_addf(&tools, "%s%s", tools.length ? ", " : "", tool_name((enum tool)i));
    add(sheet, "by", "laid by", tools.text);
    add(sheet, "coverage", "coverage",
        arena_textf(sheet->arena, "first %s, later %s, %s up or down", coverage(sheet, true),
                    coverage(sheet, false), share_format(finish->spread).text));
    if (finish->solids > 0)
        add(sheet, "solids", "solids", arena_text(sheet->arena, share_format(finish->solids).text));
    add(sheet, "coats", "coats",
        finish->coats_a_day
            ? arena_textf(sheet->arena, "usually %d, at most %d, %d a day", finish->coats_usual,
                          finish->coats_most, finish->coats_a_day)
            : arena_textf(sheet->arena, "usually %d, at most %d", finish->coats_usual, finish->coats_most));
    if (finish->between_grit)
        add(sheet, "between", "between coats",
            arena_textf(sheet->arena, "%s %d", finish->between_scuff ? "scuff" : "sand",
                        finish->between_grit));
    if (finish->has_wipe_off)
        add(sheet, "wipe-off", "wipe off",
            arena_textf(sheet->arena, "%s to %s after wetting", span(sheet, finish->wipe_off.least_min),
                        span(sheet, finish->wipe_off.most_min)));
    if (finish->has_polish)
        add(sheet, "polish", "polish",
            arena_textf(sheet->arena, "%s to %s after the coat", span(sheet, finish->polish.least_min),
                        span(sheet, finish->polish.most_min)));
}

static const char *times_text(struct sheet *sheet, const struct finish_times *times)
{
    return arena_textf(
        sheet->arena, "dust-free %s, touch %s, recoat %s to %s, sand %s, wrap %s, use %s, cured %s",
        span(sheet, times->after_min[STATE_DUST_FREE]), span(sheet, times->after_min[STATE_HANDLE]),
        span(sheet, times->after_min[STATE_RECOAT]), span(sheet, times->recoat_last_min),
        span(sheet, times->after_min[STATE_SAND]), span(sheet, times->after_min[STATE_WRAP]),
        span(sheet, times->after_min[STATE_LIGHT_USE]), span(sheet, times->after_min[STATE_CURED]));
}

static void add_drying(struct sheet *sheet)
{
    const struct finish *finish = sheet->finish;
    add(sheet, "times",
        arena_textf(sheet->arena, "at %s %s", air(sheet, finish->at_c),
                    share_format(finish->at_humidity).text),
        times_text(sheet, &finish->first));
    if (memcmp(&finish->first, &finish->later, sizeof finish->first) != 0)
        add(sheet, "later-times", "later coats", times_text(sheet, &finish->later));
    add(sheet, "late-recoat", "recoat too late", finish->refuses_late_recoat ? "refused" : "after a scuff");
    add(sheet, "air", "air",
        arena_textf(sheet->arena, "%s to %s, humidity %s to %s", air(sheet, finish->air.lowest_c),
                    air(sheet, finish->air.highest_c), share_format(finish->air.driest).text,
                    share_format(finish->air.dampest).text));
}

static void add_nature(struct sheet *sheet)
{
    const struct finish *finish = sheet->finish;
    struct buf resists, cautions;
    buf_init(&resists, sheet->arena);
    buf_init(&cautions, sheet->arena);
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        buf_addf(&resists, "%s%s %d", i ? ", " : "", resistance_name((enum resistance)i), finish->resists[i]);
    for (size_t i = 0; i < finish->caution_count; i++)
        buf_addf(&cautions, "%s%s", i ? ", " : "", finish->cautions[i]);
    add(sheet, "resists", "resists (0-3)", resists.text);
    if (finish->solvent)
        add(sheet, "solvent", "solvent", finish->solvent);
    if (finish->voc_g_per_l >= 0)
        add(sheet, "voc", "VOC",
            arena_textf(sheet->arena, "%s g/l", number_round(finish->voc_g_per_l, 0).text));
    if (cautions.length)
        add(sheet, "cautions", "cautions", cautions.text);
}

void table_finish(struct screen *screen, const struct finish *finish)
{
    static const struct column columns[] = {
        {"figure", ALIGN_LEFT, false}, {"value", ALIGN_LEFT, true}, {"source", ALIGN_LEFT, true}};
    struct sheet sheet = {.screen = screen, .arena = screen->out->arena, .finish = finish};
    screen_heading(screen, arena_textf(sheet.arena, "%s (%s)", finish->name, finish->id));
    screen_paragraph(screen, 2, 0,
                     arena_textf(sheet.arena, "%s, dries by %s; %s", finish->family,
                                 finish_drying_name(finish->dries_by),
                                 finish->shipped ? "from the table" : "the shop's own file"));
    buf_add_char(screen->out, '\n');
    table_init(&sheet.table, sheet.arena, columns, 3);
    add_components(&sheet);
    add_laying(&sheet);
    add_drying(&sheet);
    add_nature(&sheet);
    table_print(&sheet.table, screen, 2);
    buf_add_char(screen->out, '\n');
    table_source_count(screen, &finish, 1);
    screen_paragraph(screen, 0, 0, "The data sheet of the can in hand goes before all of this.");
}
