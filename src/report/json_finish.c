#include "report/json.h"

#include "base/arena.h"
#include "report/finish_figures.h"

#include <math.h>
#include <string.h>

void write_tools(struct json_write *w, const struct finish *finish)
{
    json_open_row(w, "by", '[');
    json_put_text(w, NULL, tool_name(finish->usual_tool));
    for (int i = 0; i < TOOL_COUNT; i++)
        if (finish->by[i] && i != (int)finish->usual_tool)
            json_put_text(w, NULL, tool_name((enum tool)i));
    json_close(w);
}

void write_traits(struct json_write *w, const struct finish *finish)
{
    json_open_row(w, "resists", '{');
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        json_put_whole(w, resistance_name((enum resistance)i), finish->resists[i]);
    json_close(w);
    json_open_row(w, "cautions", '[');
    for (size_t i = 0; i < finish->caution_count; i++)
        json_put_text(w, NULL, finish->cautions[i]);
    json_close(w);
    json_put_text(w, "food", contact_names[finish->food]);
    json_put_text(w, "child", contact_names[finish->child]);
}

enum { PRICE_DIGITS = 2 };

static void put_span(struct json_write *w, const char *key, int32_t span_min)
{
    if (span_min == SPAN_NEVER)
        json_put_null(w, key);
    else
        json_put_whole(w, key, span_min);
}

/* What has no figure is null. */
static void put_above(struct json_write *w, const char *key, double value, double nothing)
{
    json_put_number(w, key, value > nothing ? value : (double)INFINITY);
}

static void put_range(struct json_write *w, const char *key, bool has, struct span_range range)
{
    if (!has) {
        json_put_null(w, key);
        return;
    }
    json_open_row(w, key, '[');
    put_span(w, NULL, range.least_min);
    put_span(w, NULL, range.most_min);
    json_close(w);
}

static void put_pair(struct json_write *w, const char *key, double a, double b)
{
    json_open_row(w, key, '[');
    json_put_number(w, NULL, a);
    json_put_number(w, NULL, b);
    json_close(w);
}

static void write_packs(struct json_write *w, const struct component *component)
{
    json_open(w, "packs", '[');
    for (size_t i = 0; i < component->pack_count; i++) {
        json_open_row(w, NULL, '{');
        json_put_number(w, "size_ml", component->packs[i].size_l * 1000);
        json_put_money(w, "price", component->packs[i].price_cents, PRICE_DIGITS);
        json_close(w);
    }
    json_close(w);
}

static void write_components(struct json_write *w, const struct finish *finish)
{
    json_open(w, "components", '[');
    for (size_t i = 0; i < finish->component_count; i++) {
        const struct component *component = &finish->components[i];
        json_open(w, NULL, '{');
        json_put_text(w, "component", component->name);
        json_put_number(w, "parts", component->parts);
        json_put_number(w, "density_kg_per_l", component->density_kg_per_l);
        put_span(w, "shelf_life_min", component->shelf_life_min);
        put_span(w, "opened_life_min", component->opened_life_min);
        write_packs(w, component);
        json_close(w);
    }
    json_close(w);
}

static void write_kits(struct json_write *w, const struct finish *finish)
{
    json_open(w, "kits", '[');
    for (size_t k = 0; k < finish->kit_count; k++) {
        json_open_row(w, NULL, '{');
        json_open_row(w, "contents_ml", '[');
        for (size_t i = 0; i < finish->component_count; i++)
            json_put_number(w, NULL, finish->kits[k].contents_l[i] * 1000);
        json_close(w);
        json_put_money(w, "price", finish->kits[k].price_cents, PRICE_DIGITS);
        json_close(w);
    }
    json_close(w);
}

static void write_mixing(struct json_write *w, const struct finish *finish)
{
    json_put_text(w, "mix_by", finish->component_count < 2 ? NULL : finish->mix_by_mass ? "mass" : "volume");
    put_above(w, "ratio_tolerance", finish->ratio_tolerance, 0);
    json_put_whole(w, "induction_min", finish->induction_min);
    put_span(w, "pot_life_min", finish->pot_life_min);
    put_above(w, "pot_mass_g", finish->pot_mass_g, 0);
}

static void write_laying(struct json_write *w, const struct finish *finish)
{
    json_open_row(w, "coverage_m2_per_l", '{');
    json_put_number(w, "first", finish_coverage(finish, true));
    json_put_number(w, "later", finish_coverage(finish, false));
    json_put_number(w, "tolerance", finish->tolerance);
    json_close(w);
    put_above(w, "wet_film_um", finish->wet_film_um, 0);
    put_above(w, "solids", finish->solids, 0);
    write_tools(w, finish);
    json_open(w, "by_tool", '{');
    for (int i = 0; i < TOOL_COUNT; i++) {
        const struct tool_learned *learned = &finish->tool_learned[i];
        if (!finish_has_own_tool(finish, (enum tool)i))
            continue;
        json_open_row(w, tool_name((enum tool)i), '{');
        put_above(w, "coverage_m2_per_l", finish->tool_m2_per_l[i], 0);
        json_put_flag(w, "no_between", finish->tool_no_between[i]);
        put_above(w, "minutes_factor", learned->minutes_factor, 0);
        put_above(w, "minutes_tolerance", learned->minutes_factor > 0 ? learned->minutes_tolerance : -1,
                  -0.5);
        put_above(w, "loss_l", learned->has_loss ? learned->loss_l : -1, -0.5);
        json_close(w);
    }
    json_close(w);
    put_above(w, "thin_most", finish->thin_most, -0.5);
    put_above(w, "dry_film_most_um", finish->dry_film_most_um, 0);
    json_put_whole(w, "coats", finish->coats_usual);
    json_put_whole(w, "coats_most", finish->coats_most);
    put_above(w, "coats_a_day", finish->coats_a_day, 0);
    json_put_text(w, "flip", finish->flip_now ? "now" : "handle");
    json_put_text(w, "between", !finish->between_grit ? NULL : finish->between_scuff ? "scuff" : "sand");
    put_above(w, "between_grit", finish->between_grit, 0);
}

static void write_times(struct json_write *w, const char *key, const struct finish_times *times)
{
    json_open_row(w, key, '{');
    for (int i = 0; i < STATE_COUNT; i++)
        put_span(w, finish_state_name((enum finish_state)i), times->after_min[i]);
    put_span(w, "recoat-last", times->recoat_last_min);
    json_close(w);
}

static void write_drying(struct json_write *w, const struct finish *finish)
{
    write_times(w, "times_min", &finish->first);
    write_times(w, "later_times_min", &finish->later);
    if (finish->late_after > 0)
        write_times(w, "late_times_min", &finish->late);
    else
        json_put_null(w, "late_times_min");
    put_above(w, "late_after", finish->late_after, 0);
    json_put_number(w, "at_c", finish->at_c);
    json_put_number(w, "at_humidity", finish->at_humidity);
    put_range(w, "wipe_off_min", finish->has_wipe_off, finish->wipe_off);
    put_above(w, "wipe_off_from", finish->has_wipe_off ? finish->wipe_off_from : 0, 0);
    put_range(w, "polish_min", finish->has_polish, finish->polish);
    json_put_text(w, "late_recoat", finish->refuses_late_recoat ? "refuse" : "scuff");
    put_pair(w, "air_c", finish->air.lowest_c, finish->air.highest_c);
    put_pair(w, "air_humidity", finish->air.driest, finish->air.dampest);
}

static void write_nature(struct json_write *w, const struct finish *finish)
{
    write_traits(w, finish);
    json_put_text(w, "solvent", finish->solvent);
    put_above(w, "voc_g_per_l", finish->voc_g_per_l, -0.5);
    json_open(w, "sources", '{');
    for (size_t i = 0; i < finish->source_count; i++)
        json_put_text(w, finish->sources[i].group, finish->sources[i].text);
    json_close(w);
}

static void write_overrides(struct json_write *w, const struct finish *finish, const struct finish *shipped)
{
    struct finish_difference differences[2 * FINISH_FIGURES_MOST];
    struct finish_figures own, table;
    finish_figures(&own, w->out->arena, finish, UNITS_METRIC);
    finish_figures(&table, w->out->arena, shipped, UNITS_METRIC);
    size_t count = finish_differences(&table, &own, differences);
    json_open(w, "overrides", '[');
    for (size_t i = 0; i < count; i++) {
        const struct finish_figure *a = differences[i].a, *b = differences[i].b;
        json_open_row(w, NULL, '{');
        json_put_text(w, "figure", a ? a->group : b->group);
        json_put_text(w, "table", a ? a->value : NULL);
        json_put_text(w, "own", b ? b->value : NULL);
        json_close(w);
    }
    json_close(w);
}

void write_finish(struct json_write *w, const struct finish *finish, const struct finish *shipped)
{
    json_open(w, NULL, '{');
    json_put_text(w, "finish", finish->id);
    json_put_text(w, "name", finish->name);
    json_put_text(w, "short", finish->short_name);
    json_put_text(w, "family", finish->family);
    json_put_text(w, "dries_by", finish_drying_name(finish->dries_by));
    json_put_flag(w, "shipped", finish->shipped);
    write_components(w, finish);
    write_kits(w, finish);
    write_mixing(w, finish);
    write_laying(w, finish);
    write_drying(w, finish);
    write_nature(w, finish);
    if (shipped)
        write_overrides(w, finish, shipped);
    json_close(w);
}

static bool digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool names_year(const char *text)
{
    for (const char *p = text; *p; p++)
        if ((p == text || !digit(p[-1])) && digit(p[0]) && digit(p[1]) && digit(p[2]) && digit(p[3]) &&
            !digit(p[4]) &&
            (strncmp(p, "18", 2) == 0 || strncmp(p, "19", 2) == 0 || strncmp(p, "20", 2) == 0))
            return true;
    return false;
}

struct source_count sources_count(const struct finish *const *finishes, size_t count)
{
    struct source_count counted = {0, 0, 0, 0};
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < finishes[i]->source_count; k++) {
            const char *text = finishes[i]->sources[k].text;
            counted.groups++;
            counted.published += names_year(text);
            counted.common_practice += strstr(text, "common practice") != NULL;
            counted.from_memory += strstr(text, "from memory") != NULL;
        }
    return counted;
}

void write_finishes(struct json_write *w, const struct finish *const *finishes,
                    const struct finish *const *replaces, size_t count)
{
    struct source_count counted = sources_count(finishes, count);
    json_open(w, NULL, '{');
    json_open(w, "finishes", '[');
    for (size_t i = 0; i < count; i++)
        write_finish(w, finishes[i], replaces[i]);
    json_close(w);
    json_open_row(w, "sources", '{');
    json_put_whole(w, "groups", (int64_t)counted.groups);
    json_put_whole(w, "published", (int64_t)counted.published);
    json_put_whole(w, "common_practice", (int64_t)counted.common_practice);
    json_put_whole(w, "from_memory", (int64_t)counted.from_memory);
    json_close(w);
    json_close(w);
}

void write_woods(struct json_write *w)
{
    size_t count;
    const struct wood *woods = wood_table(&count);
    json_open(w, NULL, '{');
    json_open(w, "woods", '[');
    for (size_t i = 0; i < count; i++) {
        const char *words[WOOD_WORDS_MOST], *names = wood_other_names(woods[i].name);
        size_t known = wood_words(&woods[i], words);
        json_open_row(w, NULL, '{');
        json_put_text(w, "wood", woods[i].name);
        json_put_text(w, "grain", words[0]);
        json_open_row(w, "traits", '[');
        for (size_t k = 1; k < known; k++)
            json_put_text(w, NULL, words[k]);
        json_close(w);
        json_open_row(w, "names", '[');
        while (names && *names) {
            size_t length = strcspn(names, "|");
            json_put_text(w, NULL, arena_text_n(w->out->arena, names, length));
            names += length + (names[length] == '|');
        }
        json_close(w);
        json_close(w);
    }
    json_close(w);
    json_close(w);
}
