#include "report/finish_figures.h"

#include "report/sentences.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/coverage.h"
#include "base/money.h"
#include "base/number.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

enum { PRICE_DIGITS = 2 };

struct figuring {
    struct finish_figures *figures;
    struct arena *arena;
    const struct finish *finish;
    enum unit_system units;
};

static void add(struct figuring *t, const char *group, const char *what, const char *value)
{
    assert(t->figures->count < FINISH_FIGURES_MOST);
    t->figures->items[t->figures->count++] = (struct finish_figure){group, what, value};
}

static const char *span(struct figuring *t, int32_t span_min)
{
    return span_min == SPAN_NEVER ? "any time" : arena_text(t->arena, span_format(span_min).text);
}

/* Whole years and months as a lid names them; both read back as the same span. */
struct text_short finish_life(int32_t span_min)
{
    static const struct {
        int32_t min;
        const char *unit;
    } units[] = {{525600, "y"}, {43200, "mo"}};
    struct text_short text;
    for (size_t i = 0; i < 2; i++)
        if (span_min > 0 && span_min % units[i].min == 0) {
            snprintf(text.text, sizeof text.text, "%d %s", (int)(span_min / units[i].min), units[i].unit);
            return text;
        }
    return span_format(span_min);
}

static const char *life(struct figuring *t, int32_t span_min)
{
    return arena_text(t->arena, finish_life(span_min).text);
}

static const char *warmth(struct figuring *t, double temperature_c)
{
    return arena_text(t->arena, temperature_format(temperature_c, t->units).text);
}

static void add_components(struct figuring *t)
{
    const struct finish *finish = t->finish;
    struct buf parts;
    buf_init(&parts, t->arena);
    for (size_t i = 0; i < finish->component_count; i++) {
        const struct component *component = &finish->components[i];
        buf_addf(&parts, "%s%s: %s part%s of %s", i ? "; " : "", component->name,
                 number_round(component->parts, 3).text, component->parts > 1 ? "s" : "",
                 density_format(component->density_kg_per_l, t->units).text);
    }
    add(t, "components", "components", parts.text);
}

static void add_mixing(struct figuring *t)
{
    const struct finish *finish = t->finish;
    if (finish->component_count > 1)
        add(t, "mix", "mixed",
            arena_textf(t->arena, "by %s, ratio within %s", finish->mix_by_mass ? "mass" : "volume",
                        share_format(finish->ratio_tolerance).text));
    if (finish->induction_min)
        add(t, "induction", "induction", span(t, finish->induction_min));
    if (finish->pot_life_min != SPAN_NEVER)
        add(t, "pot-life", "pot life",
            arena_textf(t->arena, "%s at %s%s", span(t, finish->pot_life_min), warmth(t, finish->at_c),
                        finish->pot_mass_g > 0 ? arena_textf(t->arena, ", of up to %s in one cup",
                                                             mass_format(finish->pot_mass_g, t->units).text)
                                               : ""));
}

static const char *price(struct figuring *t, int64_t cents)
{
    return cents < 0 ? "" : arena_textf(t->arena, " at %s", money_format(cents, PRICE_DIGITS).text);
}

static void add_packs(struct figuring *t)
{
    const struct finish *finish = t->finish;
    struct buf packs;
    buf_init(&packs, t->arena);
    for (size_t i = 0; i < finish->component_count; i++) {
        const struct component *component = &finish->components[i];
        bool named = finish->component_count > 1;
        for (size_t k = 0; k < component->pack_count; k++)
            buf_addf(&packs, "%s%s%s%s%s",
                     k              ? ", "
                     : packs.length ? "; "
                                    : "",
                     pack_words(t->arena, component->packs[k].label),
                     price(t, component->packs[k].price_cents),
                     named && k + 1 == component->pack_count ? " " : "",
                     named && k + 1 == component->pack_count ? component->name : "");
    }
    for (size_t k = 0; k < finish->kit_count; k++)
        buf_addf(&packs, "%skit of %s%s", packs.length ? "; " : "",
                 pack_words(t->arena, finish->kits[k].label), price(t, finish->kits[k].price_cents));
    if (packs.length)
        add(t, "packs", "packs", packs.text);
}

/* "sealed 1 y, opened 6 mo", for each component that says so. */
static void add_lives(struct figuring *t)
{
    const struct finish *finish = t->finish;
    struct buf lives;
    buf_init(&lives, t->arena);
    for (size_t i = 0; i < finish->component_count; i++) {
        const struct component *component = &finish->components[i];
        bool sealed = component->shelf_life_min != SPAN_NEVER,
             opened = component->opened_life_min != SPAN_NEVER;
        if (!sealed && !opened)
            continue;
        buf_addf(&lives, "%s", lives.length ? "; " : "");
        if (finish->component_count > 1)
            buf_addf(&lives, "%s ", component->name);
        if (sealed)
            buf_addf(&lives, "sealed %s%s", life(t, component->shelf_life_min), opened ? ", " : "");
        if (opened)
            buf_addf(&lives, "opened %s", life(t, component->opened_life_min));
    }
    if (lives.length)
        add(t, "shelf-life", "keeps", lives.text);
}

static const char *coverage(struct figuring *t, bool first)
{
    struct coverage figure = {COVERAGE_M2_PER_L, finish_coverage(t->finish, first)};
    return arena_text(t->arena, coverage_format(figure, t->units).text);
}

static const char *join(struct figuring *t, const char *text, const char *more)
{
    return *text ? arena_textf(t->arena, "%s, %s", text, more) : more;
}

/* What one tool does otherwise: "22 m2/l, nothing between coats". */
static const char *own_figures(struct figuring *t, enum tool tool)
{
    struct coverage figure = {COVERAGE_M2_PER_L, t->finish->tool_m2_per_l[tool]};
    const struct tool_learned *learned = &t->finish->tool_learned[tool];
    const char *text = figure.value > 0 ? arena_text(t->arena, coverage_format(figure, t->units).text) : "";
    if (t->finish->tool_no_between[tool])
        text = join(t, text, "nothing between coats");
    if (learned->minutes_factor > 0)
        text = join(t, text,
                    arena_textf(t->arena, "takes %s times the planned minutes, tolerance %s",
                                number_fixed(learned->minutes_factor, 2).text,
                                share_format(learned->minutes_tolerance).text));
    if (learned->has_loss)
        text = join(t, text,
                    arena_textf(t->arena, "%s stay in it", volume_format(learned->loss_l, t->units).text));
    return text;
}

static void add_coverage(struct figuring *t)
{
    const struct finish *finish = t->finish;
    const char *film = finish->wet_film_um > 0
                           ? arena_textf(t->arena, "wet film %s, so ",
                                         thickness_format(finish->wet_film_um / 1e6, t->units).text)
                           : "";
    add(t, "coverage", "coverage",
        arena_textf(t->arena, "%sfirst coat %s, later coats %s, tolerance %s", film, coverage(t, true),
                    coverage(t, false), share_format(finish->tolerance).text));
    const char *own = NULL;
    for (int i = 0; i < TOOL_COUNT; i++)
        if (finish_has_own_tool(finish, (enum tool)i))
            own = arena_textf(t->arena, "%s%s%s %s", own ? own : "", own ? "; " : "", tool_name((enum tool)i),
                              own_figures(t, (enum tool)i));
    if (own)
        add(t, "by-tool", "by tool", own);
    if (finish->solids > 0)
        add(t, "solids", "solids", arena_text(t->arena, share_format(finish->solids).text));
    if (finish->thin_most >= 0)
        add(t, "thin-most", "thinned at most", arena_text(t->arena, share_format(finish->thin_most).text));
    if (finish->dry_film_most_um > 0)
        add(t, "dry-film-most", "all coats dry",
            arena_textf(t->arena, "at most %s",
                        thickness_format(finish->dry_film_most_um / 1e6, t->units).text));
}

static void add_laying(struct figuring *t)
{
    const struct finish *finish = t->finish;
    const char *tools = tool_name(finish->usual_tool);
    for (int i = 0; i < TOOL_COUNT; i++)
        if (finish->by[i] && i != (int)finish->usual_tool)
            tools = arena_textf(t->arena, "%s, %s", tools, tool_name((enum tool)i));
    add(t, "by", "applied by", tools);
    add_coverage(t);
    const char *daily = finish->coats_a_day ? arena_textf(t->arena, ", %d a day", finish->coats_a_day) : "";
    add(t, "coats", "coats",
        arena_textf(t->arena, "usually %d, at most %d%s", finish->coats_usual, finish->coats_most, daily));
    if (finish->flip_now)
        add(t, "flip", "flipped", "while wet, on points");
    if (finish->between_grit)
        add(t, "between", "between coats",
            arena_textf(t->arena, "%s %d", finish->between_scuff ? "scuff" : "sand", finish->between_grit));
}

static void add_window(struct figuring *t, const char *group, const char *what, struct span_range range,
                       const char *after)
{
    add(t, group, what,
        arena_textf(t->arena, "%s to %s after %s", span(t, range.least_min), span(t, range.most_min), after));
}

static const char *times_text(struct figuring *t, const struct finish_times *times)
{
    return arena_textf(t->arena,
                       "dust-free %s, dry to handle %s, dry to recoat %s to %s, dry to sand %s, safe to wrap "
                       "%s, light use %s, "
                       "fully cured %s",
                       span(t, times->after_min[STATE_DUST_FREE]), span(t, times->after_min[STATE_HANDLE]),
                       span(t, times->after_min[STATE_RECOAT]), span(t, times->recoat_last_min),
                       span(t, times->after_min[STATE_SAND]), span(t, times->after_min[STATE_WRAP]),
                       span(t, times->after_min[STATE_LIGHT_USE]), span(t, times->after_min[STATE_CURED]));
}

static void add_drying(struct figuring *t)
{
    const struct finish *finish = t->finish;
    if (finish->has_wipe_off)
        add_window(t, "wipe-off",
                   finish->wipe_off_from > 1
                       ? arena_textf(t->arena, "wipe off, coat %d on", finish->wipe_off_from)
                       : "wipe off",
                   finish->wipe_off, "wetting");
    if (finish->has_polish)
        add_window(t, "polish", "polish", finish->polish, "the coat");
    add(t, "times",
        arena_textf(t->arena, "at %s %s RH", warmth(t, finish->at_c), share_format(finish->at_humidity).text),
        times_text(t, &finish->first));
    if (memcmp(&finish->first, &finish->later, sizeof finish->first) != 0)
        add(t, "later-times", "later coats", times_text(t, &finish->later));
    if (finish->late_after > 0)
        add(t, "late-times", arena_textf(t->arena, "after coat %d", finish->late_after),
            times_text(t, &finish->late));
    add(t, "late-recoat", "late recoat", finish->refuses_late_recoat ? "refused" : "after a scuff");
    add(t, "air", "air",
        arena_textf(t->arena, "%s to %s, %s to %s RH", warmth(t, finish->air.lowest_c),
                    warmth(t, finish->air.highest_c), share_format(finish->air.driest).text,
                    share_format(finish->air.dampest).text));
}

const char *contact_words(enum contact contact)
{
    static const char *const words[CONTACT_COUNT] = {
        [CONTACT_NEVER] = "never",
        [CONTACT_ASK] = "only fully cured, and if its maker says so: ask",
        [CONTACT_MADE] = "made for it",
    };
    return words[contact];
}

static void add_nature(struct figuring *t)
{
    const struct finish *finish = t->finish;
    struct buf resists, cautions;
    buf_init(&resists, t->arena);
    buf_init(&cautions, t->arena);
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        buf_addf(&resists, "%s%s %d", i ? ", " : "", resistance_name((enum resistance)i), finish->resists[i]);
    for (size_t i = 0; i < finish->caution_count; i++)
        buf_addf(&cautions, "%s%s", i ? ", " : "", finish->cautions[i]);
    add(t, "resists", "resists (0-3)", resists.text);
    if (finish->solvent)
        add(t, "solvent", "solvent", finish->solvent);
    if (finish->voc_g_per_l >= 0)
        add(t, "voc", "VOC", arena_textf(t->arena, "%s g/L", number_round(finish->voc_g_per_l, 0).text));
    add(t, "food", "food; children",
        finish->food == finish->child
            ? contact_words(finish->food)
            : arena_textf(t->arena, "food: %s; children: %s", contact_words(finish->food),
                          contact_words(finish->child)));
    if (cautions.length)
        add(t, "cautions", "cautions", cautions.text);
}

void finish_figures(struct finish_figures *figures, struct arena *arena, const struct finish *finish,
                    enum unit_system units)
{
    struct figuring t = {figures, arena, finish, units};
    figures->count = 0;
    add(&t, "nature", "nature",
        arena_textf(arena, "%s, dries by %s", finish->family, finish_drying_name(finish->dries_by)));
    add_components(&t);
    add_mixing(&t);
    add_packs(&t);
    add_lives(&t);
    add_laying(&t);
    add_drying(&t);
    add_nature(&t);
}

static const struct finish_figure *find(const struct finish_figures *figures, const char *group)
{
    for (size_t i = 0; i < figures->count; i++)
        if (strcmp(figures->items[i].group, group) == 0)
            return &figures->items[i];
    return NULL;
}

static bool same(const struct finish_figure *a, const struct finish_figure *b)
{
    return b && strcmp(a->value, b->value) == 0 && strcmp(a->what, b->what) == 0;
}

size_t finish_differences(const struct finish_figures *a, const struct finish_figures *b,
                          struct finish_difference differences[2 * FINISH_FIGURES_MOST])
{
    size_t count = 0;
    for (size_t i = 0; i < a->count; i++) {
        const struct finish_figure *other = find(b, a->items[i].group);
        if (!same(&a->items[i], other))
            differences[count++] = (struct finish_difference){&a->items[i], other};
    }
    for (size_t i = 0; i < b->count; i++)
        if (!find(a, b->items[i].group))
            differences[count++] = (struct finish_difference){NULL, &b->items[i]};
    return count;
}
