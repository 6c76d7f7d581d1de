#include "report/json.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "base/measure.h"
#include "base/money.h"
#include "report/finish_figures.h"

#include <math.h>
#include <string.h>

enum { PRICE_DIGITS = 2 };

static void put_text(struct json_write *w, const char *key, struct text_short text)
{
    json_put_text(w, key, text.text);
}

static void put_span(struct json_write *w, const char *key, int32_t span_min)
{
    if (span_min != SPAN_NEVER)
        put_text(w, key, span_format(span_min));
}

static void put_range(struct json_write *w, const char *key, int32_t least_min, int32_t most_min)
{
    json_open_row(w, key, '[');
    put_span(w, NULL, least_min);
    put_span(w, NULL, most_min);
    json_close(w);
}

static void put_price(struct json_write *w, int64_t cents)
{
    if (cents >= 0)
        put_text(w, "price", money_format(cents, PRICE_DIGITS));
}

static void write_component(struct json_write *w, const struct component *component)
{
    json_open(w, NULL, '{');
    json_put_text(w, "component", component->name);
    json_put_number(w, "parts", component->parts);
    put_text(w, "density", density_write(component->density_kg_per_l));
    if (component->shelf_life_min != SPAN_NEVER)
        put_text(w, "shelf-life", finish_life(component->shelf_life_min));
    if (component->opened_life_min != SPAN_NEVER)
        put_text(w, "opened-life", finish_life(component->opened_life_min));
    if (component->pack_count > 0)
        json_open(w, "packs", '[');
    for (size_t i = 0; i < component->pack_count; i++) {
        json_open_row(w, NULL, '{');
        json_put_text(w, "size", component->packs[i].label);
        put_price(w, component->packs[i].price_cents);
        json_close(w);
    }
    if (component->pack_count > 0)
        json_close(w);
    json_close(w);
}

static void write_kits(struct json_write *w, const struct finish *finish)
{
    if (finish->kit_count > 0)
        json_open(w, "kits", '[');
    for (size_t k = 0; k < finish->kit_count; k++) {
        json_open_row(w, NULL, '{');
        json_open_row(w, "contents", '{');
        for (size_t i = 0; i < finish->component_count; i++)
            if (finish->kits[k].contents_l[i] > 0)
                put_text(w, finish->components[i].name, volume_write(finish->kits[k].contents_l[i]));
        json_close(w);
        put_price(w, finish->kits[k].price_cents);
        json_put_text(w, "label", finish->kits[k].label);
        json_close(w);
    }
    if (finish->kit_count > 0)
        json_close(w);
}

static void write_mixing(struct json_write *w, const struct finish *finish)
{
    json_open(w, "components", '[');
    for (size_t i = 0; i < finish->component_count; i++)
        write_component(w, &finish->components[i]);
    json_close(w);
    write_kits(w, finish);
    if (finish->component_count > 1) {
        json_put_text(w, "mix-by", finish->mix_by_mass ? "mass" : "volume");
        put_text(w, "ratio-tolerance", share_write(finish->ratio_tolerance));
    }
    if (finish->induction_min > 0)
        put_span(w, "induction", finish->induction_min);
    put_span(w, "pot-life", finish->pot_life_min);
    if (finish->pot_mass_g > 0)
        put_text(w, "pot-mass", mass_write(finish->pot_mass_g));
}

static void write_by_tool(struct json_write *w, const struct finish *finish)
{
    bool open = false;
    for (int i = 0; i < TOOL_COUNT; i++) {
        const struct tool_learned *learned = &finish->tool_learned[i];
        if (!finish_has_own_tool(finish, (enum tool)i))
            continue;
        if (!open)
            json_open(w, "by-tool", '{');
        open = true;
        json_open_row(w, tool_name((enum tool)i), '{');
        if (finish->tool_m2_per_l[i] > 0)
            put_text(w, "coverage",
                     coverage_write((struct coverage){COVERAGE_M2_PER_L, finish->tool_m2_per_l[i]}));
        if (finish->tool_no_between[i])
            json_put_flag(w, "no-between", true);
        if (learned->minutes_factor > 0) {
            json_open_row(w, "minutes", '{');
            json_put_number(w, "times", learned->minutes_factor);
            put_text(w, "tolerance", share_write(learned->minutes_tolerance));
            json_close(w);
        }
        if (learned->has_loss)
            put_text(w, "loss", volume_write(learned->loss_l));
        json_close(w);
    }
    if (open)
        json_close(w);
}

/* To a millionth of a micrometre, so that what was read as 14.1 um is written so. */
static struct text_short film_write(double film_um)
{
    return thickness_write(round(film_um * 1e6) / 1e12);
}

static void write_coverage(struct json_write *w, const struct finish *finish)
{
    json_open_row(w, "coverage", '{');
    if (finish->wet_film_um > 0)
        put_text(w, "wet-film", film_write(finish->wet_film_um));
    else {
        put_text(w, "first", coverage_write((struct coverage){COVERAGE_M2_PER_L, finish->first_m2_per_l}));
        put_text(w, "later", coverage_write((struct coverage){COVERAGE_M2_PER_L, finish->later_m2_per_l}));
    }
    put_text(w, "tolerance", share_write(finish->tolerance));
    json_close(w);
    if (finish->solids > 0)
        put_text(w, "solids", share_write(finish->solids));
    write_by_tool(w, finish);
    if (finish->thin_most >= 0)
        put_text(w, "thin-most", share_write(finish->thin_most));
    if (finish->dry_film_most_um > 0)
        put_text(w, "dry-film-most", film_write(finish->dry_film_most_um));
}

static void write_laying(struct json_write *w, const struct finish *finish)
{
    write_tools(w, finish);
    json_open_row(w, "coats", '{');
    json_put_whole(w, "usual", finish->coats_usual);
    json_put_whole(w, "most", finish->coats_most);
    if (finish->coats_a_day)
        json_put_whole(w, "a-day", finish->coats_a_day);
    json_close(w);
    json_put_text(w, "flip", finish->flip_now ? "now" : "handle");
}

static void write_times(struct json_write *w, const char *key, const struct finish *finish,
                        const struct finish_times *times)
{
    json_open(w, key, '{');
    if (times == &finish->late)
        json_put_whole(w, "after-coat", finish->late_after);
    for (int i = 0; i < STATE_COUNT; i++)
        if (i == STATE_RECOAT)
            put_range(w, "recoat", times->after_min[i], times->recoat_last_min);
        else
            put_span(w, finish_state_name((enum finish_state)i), times->after_min[i]);
    if (times == &finish->first)
        json_put_text(w, "at",
                      arena_textf(w->out->arena, "%s %s", temperature_write(finish->at_c).text,
                                  share_write(finish->at_humidity).text));
    json_close(w);
}

static void write_drying(struct json_write *w, const struct finish *finish)
{
    write_times(w, "times", finish, &finish->first);
    if (memcmp(&finish->first, &finish->later, sizeof finish->first) != 0)
        write_times(w, "later-times", finish, &finish->later);
    if (finish->late_after > 0)
        write_times(w, "late-times", finish, &finish->late);
    if (finish->has_wipe_off)
        put_range(w, "wipe-off", finish->wipe_off.least_min, finish->wipe_off.most_min);
    if (finish->wipe_off_from > 1)
        json_put_whole(w, "wipe-off-from", finish->wipe_off_from);
    if (finish->has_polish)
        put_range(w, "polish", finish->polish.least_min, finish->polish.most_min);
    json_put_text(w, "late-recoat", finish->refuses_late_recoat ? "refuse" : "scuff");
    if (finish->between_grit) {
        json_open_row(w, "between", '{');
        json_put_whole(w, finish->between_scuff ? "scuff" : "sand", finish->between_grit);
        json_close(w);
    }
}

static void write_air(struct json_write *w, const struct finish_air *air)
{
    json_open(w, "air", '{');
    json_open_row(w, "temperature", '[');
    put_text(w, NULL, temperature_write(air->lowest_c));
    put_text(w, NULL, temperature_write(air->highest_c));
    json_close(w);
    json_open_row(w, "humidity", '[');
    put_text(w, NULL, share_write(air->driest));
    put_text(w, NULL, share_write(air->dampest));
    json_close(w);
    json_close(w);
}

static void write_nature(struct json_write *w, const struct finish *finish)
{
    write_air(w, &finish->air);
    write_traits(w, finish);
    if (finish->solvent)
        json_put_text(w, "solvent", finish->solvent);
    if (finish->voc_g_per_l >= 0)
        json_put_text(w, "voc", arena_textf(w->out->arena, "%s/l", mass_write(finish->voc_g_per_l).text));
}

static bool has_group(const struct finish_figures *figures, const char *group)
{
    for (size_t i = 0; i < figures->count; i++)
        if (strcmp(figures->items[i].group, group) == 0)
            return true;
    return false;
}

/* JSON has no comments: what to look for stands where the source of the figures belongs, and is overwritten by it. */
static void write_hints(struct json_write *w, const struct finish *finish)
{
    static const struct {
        const char *group, *hint;
    } hints[] = {
        {"components",
         "name, parts and density of each: label, or weigh 100 ml on a zeroed scale and divide by 100"},
        {"packs", "the sizes that your shop sells; what you pay goes beside each as \"price\": \"14.50\""},
        {"shelf-life",
         "best before when sealed, and once opened: label or lid; leave out what it does not say"},
        {"mix", "ratio by volume or by mass, and how exact it must be: label; only of several components"},
        {"induction",
         "how long it stands after mixing, as \"induction\": \"15 min\"; leave out if none is asked"},
        {"pot-life", "of the mix, at the temperature of `at`: label; leave out of a single component"},
        {"coverage",
         "m2 a litre on bare wood and on a film (or \"wet-film\": \"100 um\"): label; how far yours strayed"},
        {"by-tool",
         "what one tool does otherwise, as \"by-tool\": {\"rubber\": {\"coverage\": \"22 m2/l\"}}"},
        {"thin-most", "litres of thinner to a litre at most, as \"thin-most\": \"10 %\": label"},
        {"dry-film-most", "all coats together, dry, as \"dry-film-most\": \"125 um\": data sheet"},
        {"food", "\"never\", \"ask\" or \"made\" for food; \"child\" the same: ask the maker"},
        {"solids", "by volume: data sheet; leave out if not known"},
        {"coats", "usual, most, a day: label"},
        {"times", "at the air that the label names: dust dry, dry to handle, recoat from-to, sand, stack, "
                  "use, full cure"},
        {"later-times", "times of the second coat on, where they differ, as \"later-times\""},
        {"late-times", "times of a film of several coats, as \"late-times\": {\"after-coat\": 3, ...}"},
        {"wipe-off",
         "from wetting to wiped dry, as \"wipe-off\": [\"5 min\", \"15 min\"]; only of what is wiped off"},
        {"polish", "from applying to polishing, as \"polish\": [\"10 min\", \"4 h\"]; only of dry wax"},
        {"late-recoat", "when recoated too late: \"scuff\" first, or \"refuse\": label"},
        {"between", "between coats, as \"between\": {\"sand\": 320}; leave out if nothing is asked"},
        {"air", "temperature and humidity from-to while it is applied: label or data sheet"},
        {"resists", "0 (not) to 3 (well): data sheet, or a sample of your own"},
        {"voc", "g in a litre ready to use: on the label by law in the EU and in most states of the US"},
    };
    struct finish_figures figures;
    finish_figures(&figures, w->out->arena, finish, UNITS_METRIC);
    json_open(w, "sources", '{');
    for (size_t i = 0; i < sizeof hints / sizeof hints[0]; i++)
        json_put_text(w, hints[i].group,
                      arena_textf(w->out->arena, "%s: %s",
                                  has_group(&figures, hints[i].group)
                                      ? "FILL IN, until then the table's figures"
                                      : "LEFT OUT, unless the label says so",
                                  hints[i].hint));
    json_close(w);
}

void write_label(struct json_write *w, const struct finish *finish)
{
    struct arena *arena = w->out->arena;
    json_open(w, NULL, '{');
    json_put_text(w, "format", "coatwright-finish/1");
    json_put_text(w, "finish", arena_textf(arena, "my-%s", finish->id));
    json_put_text(w, "name", arena_textf(arena, "%s of my own: what the can calls itself", finish->name));
    json_put_text(w, "short", finish->short_name);
    json_put_text(w, "family", finish->family);
    json_put_text(w, "dries-by", finish_drying_name(finish->dries_by));
    write_mixing(w, finish);
    write_coverage(w, finish);
    write_laying(w, finish);
    write_drying(w, finish);
    write_nature(w, finish);
    write_hints(w, finish);
    json_close(w);
}
