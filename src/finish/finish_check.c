/* What no single figure of a finish can break by itself; source has read each of them already. */
#include "finish/finish.h"

#include "base/err.h"
#include "base/measure.h"
#include "base/number.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* A liquid, a paste or a powder that is mixed with water: kg/l. */
static const double density_least = 0.4, density_most = 3.0;

struct checker {
    const struct finish *finish;
    struct err_list *errors;
};

/* Adds a mistake at a formatted pointer. */
__attribute__((format(printf, 4, 5))) static void refuse(struct checker *c, const char *expected,
                                                         const char *found, const char *pointer, ...)
{
    char place[ERR_POINTER_SIZE];
    va_list arguments;
    va_start(arguments, pointer);
    vsnprintf(place, sizeof place, pointer, arguments);
    va_end(arguments);
    err_add(c->errors, ERR_INPUT, c->finish->file, place, expected, found);
}

static void check_lives(struct checker *c, size_t i)
{
    const struct component *component = &c->finish->components[i];
    if (component->shelf_life_min <= 0)
        refuse(c, "a time span above 0", span_format(component->shelf_life_min).text,
               "/components/%zu/shelf-life", i);
    if (component->opened_life_min <= 0)
        refuse(c, "a time span above 0", span_format(component->opened_life_min).text,
               "/components/%zu/opened-life", i);
}

static bool is_liquid(double density_kg_per_l)
{
    return density_kg_per_l >= density_least && density_kg_per_l <= density_most;
}

static void check_component(struct checker *c, size_t i)
{
    const struct component *component = &c->finish->components[i];
    if (!(component->parts > 0))
        refuse(c, "a number of parts above 0", number_format(component->parts).text, "/components/%zu/parts",
               i);
    if (!is_liquid(component->density_kg_per_l))
        refuse(c, "a density that a liquid or a paste can have, 0.4 kg/l to 3 kg/l",
               density_format(component->density_kg_per_l, UNITS_METRIC).text, "/components/%zu/density", i);
    for (size_t k = 0; k < i; k++)
        if (strcmp(c->finish->components[k].name, component->name) == 0)
            refuse(c, "a name that no other component has", component->name, "/components/%zu/component", i);
    check_lives(c, i);
    for (size_t k = 0; k < component->pack_count; k++)
        if (!(component->packs[k].size_l > 0))
            refuse(c, "a size above 0", component->packs[k].label, "/components/%zu/packs/%zu/size", i, k);
}

static void check_kit(struct checker *c, size_t k)
{
    double total = 0;
    for (size_t i = 0; i < c->finish->component_count; i++)
        total += c->finish->kits[k].contents_l[i];
    if (!(total > 0))
        refuse(c, "contents above 0", "an empty kit", "/kits/%zu", k);
}

static bool heats_itself(const struct finish *finish)
{
    for (size_t i = 0; i < finish->caution_count; i++)
        if (strcmp(finish->cautions[i], "exotherm") == 0)
            return true;
    return false;
}

static void check_mixing(struct checker *c)
{
    const struct finish *f = c->finish;
    if (f->pot_mass_g < 0 || (f->pot_mass_g == 0 && heats_itself(f)) ||
        (f->pot_mass_g > 0 && f->pot_life_min == SPAN_NEVER))
        refuse(c, "with the caution \"exotherm\", the mass of which the pot life is: \"500 g\"",
               mass_format(f->pot_mass_g, UNITS_METRIC).text, "/pot-mass");
    if (f->component_count > 1 && !(f->ratio_tolerance > 0 && f->ratio_tolerance < 1))
        refuse(c, "a share above 0 % and below 100 %", share_format(f->ratio_tolerance).text,
               "/ratio-tolerance");
    if (f->pot_life_min <= 0)
        refuse(c, "a time span above 0", span_format(f->pot_life_min).text, "/pot-life");
    else if (f->induction_min >= f->pot_life_min)
        refuse(c, "an induction shorter than the pot life", span_format(f->induction_min).text, "/induction");
}

/* One given by mass is nothing where the density is nothing: that mistake has been reported. */
static bool covers(const struct finish *finish, bool first)
{
    return finish_coverage(finish, first) > 0 || !(finish_density(finish) > 0);
}

static void check_coverage(struct checker *c)
{
    const struct finish *f = c->finish;
    if (!covers(f, true))
        refuse(c, "a coverage above 0", number_format(f->first_m2_per_l).text, "/coverage/first");
    if (!covers(f, false))
        refuse(c, "a coverage above 0", number_format(f->later_m2_per_l).text, "/coverage/later");
    if (!(f->tolerance >= 0 && f->tolerance < 1))
        refuse(c, "a tolerance below 100 %", share_format(f->tolerance).text, "/coverage/tolerance");
    if (!(f->solids >= 0 && f->solids <= 1))
        refuse(c, "a share of at most 100 %", share_format(f->solids).text, "/solids");
}

static void check_coats(struct checker *c)
{
    const struct finish *f = c->finish;
    if (!f->by[f->usual_tool])
        refuse(c, "at least one tool", "none", "/by");
    if (f->coats_usual < 1)
        refuse(c, "at least 1 coat", number_format(f->coats_usual).text, "/coats/usual");
    if (f->coats_most < f->coats_usual)
        refuse(c, "no fewer than the usual coats", number_format(f->coats_most).text, "/coats/most");
}

/* `later` may not come before `earlier`. */
struct order {
    enum finish_state earlier, later;
};

static const struct order orders[] = {
    {STATE_DUST_FREE, STATE_HANDLE}, {STATE_DUST_FREE, STATE_SAND},  {STATE_HANDLE, STATE_WRAP},
    {STATE_HANDLE, STATE_LIGHT_USE}, {STATE_LIGHT_USE, STATE_CURED}, {STATE_HANDLE, STATE_CURED},
};

static void check_times(struct checker *c, const struct finish_times *times, const char *key)
{
    char expected[160], found[160];
    for (size_t i = 0; i < sizeof orders / sizeof orders[0]; i++) {
        int32_t earlier = times->after_min[orders[i].earlier], later = times->after_min[orders[i].later];
        if (later >= earlier)
            continue;
        snprintf(expected, sizeof expected, "no less than `%s`, %s", finish_state_name(orders[i].earlier),
                 span_format(earlier).text);
        refuse(c, expected, span_format(later).text, "/%s/%s", key, finish_state_name(orders[i].later));
    }
    if (times->recoat_last_min < times->after_min[STATE_RECOAT]) {
        snprintf(found, sizeof found, "%s to %s", span_format(times->after_min[STATE_RECOAT]).text,
                 span_format(times->recoat_last_min).text);
        refuse(c, "a window that ends after it begins", found, "/%s/recoat", key);
    }
}

static void check_range(struct checker *c, struct span_range range, const char *pointer)
{
    char found[160];
    if (range.most_min > 0 && range.least_min <= range.most_min)
        return;
    snprintf(found, sizeof found, "%s to %s", span_format(range.least_min).text,
             span_format(range.most_min).text);
    refuse(c, "two times, the second not before the first and above 0", found, "%s", pointer);
}

static void check_air(struct checker *c)
{
    const struct finish *f = c->finish;
    char found[160];
    if (!(f->air.lowest_c < f->air.highest_c))
        refuse(c, "a highest temperature above the lowest",
               temperature_format(f->air.highest_c, UNITS_METRIC).text, "/air/temperature");
    if (!(f->air.driest >= 0 && f->air.driest < f->air.dampest && f->air.dampest <= 1))
        refuse(c, "humidities that rise, from 0 % to 100 %", share_format(f->air.dampest).text,
               "/air/humidity");
    bool humid = f->at_humidity > 0 && f->at_humidity < 1;
    if (humid && f->at_c >= f->air.lowest_c && f->at_c <= f->air.highest_c)
        return;
    snprintf(found, sizeof found, "%s %s", temperature_format(f->at_c, UNITS_METRIC).text,
             share_format(f->at_humidity).text);
    refuse(c, "air inside the limits of `air`, humidity above 0 % and below 100 %", found, "/times/at");
}

static void check_marks(struct checker *c)
{
    const struct finish *f = c->finish;
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        if (f->resists[i] < 0 || f->resists[i] > 3)
            refuse(c, "a mark from 0 to 3", number_format(f->resists[i]).text, "/resists/%s",
                   resistance_name((enum resistance)i));
    if (f->voc_g_per_l != -1 && !(f->voc_g_per_l >= 0 && f->voc_g_per_l <= 1000))
        refuse(c, "at most 1000 g/l", number_format(f->voc_g_per_l).text, "/voc");
}

static void check_limits(struct checker *c)
{
    const struct finish *f = c->finish;
    check_times(c, &f->first, "times");
    if (memcmp(&f->first, &f->later, sizeof f->first) != 0)
        check_times(c, &f->later, "later-times");
    if (f->late_after > 0)
        check_times(c, &f->late, "late-times");
    if (f->has_wipe_off)
        check_range(c, f->wipe_off, "/wipe-off");
    if (f->has_polish)
        check_range(c, f->polish, "/polish");
    check_air(c);
    check_marks(c);
}

static bool has_source(const struct finish *f, const char *group)
{
    for (size_t i = 0; i < f->source_count; i++)
        if (strcmp(f->sources[i].group, group) == 0)
            return f->sources[i].text[0] != '\0';
    return false;
}

static bool has_packs(const struct finish *f)
{
    size_t packs = f->kit_count;
    for (size_t i = 0; i < f->component_count; i++)
        packs += f->components[i].pack_count;
    return packs > 0;
}

static bool has_own_tool(const struct finish *f)
{
    for (int i = 0; i < TOOL_COUNT; i++)
        if (finish_has_own_tool(f, (enum tool)i))
            return true;
    return false;
}

static bool has_lives(const struct finish *f)
{
    for (size_t i = 0; i < f->component_count; i++)
        if (f->components[i].shelf_life_min != SPAN_NEVER || f->components[i].opened_life_min != SPAN_NEVER)
            return true;
    return false;
}

static void check_sources(struct checker *c)
{
    const struct finish *f = c->finish;
    const struct {
        const char *group;
        bool needed;
    } groups[] = {
        {"components", true},
        {"mix", f->component_count > 1},
        {"induction", f->induction_min > 0},
        {"pot-life", f->pot_life_min != SPAN_NEVER},
        {"coverage", true},
        {"solids", f->solids > 0},
        {"coats", true},
        {"times", true},
        {"later-times", memcmp(&f->first, &f->later, sizeof f->first) != 0},
        {"late-times", f->late_after > 0},
        {"by-tool", has_own_tool(f)},
        {"thin-most", f->thin_most >= 0},
        {"dry-film-most", f->dry_film_most_um > 0},
        {"food", true},
        {"wipe-off", f->has_wipe_off},
        {"polish", f->has_polish},
        {"late-recoat", true},
        {"between", f->between_grit > 0},
        {"air", true},
        {"resists", true},
        {"voc", f->voc_g_per_l >= 0},
        {"shelf-life", has_lives(f)},
        {"packs", has_packs(f)},
    };
    char expected[160];
    for (size_t i = 0; i < sizeof groups / sizeof groups[0]; i++) {
        if (!groups[i].needed || has_source(f, groups[i].group))
            continue;
        snprintf(expected, sizeof expected, "a source for `%s`", groups[i].group);
        refuse(c, expected, "none", "/sources");
    }
}

void finish_check(const struct finish *finish, struct err_list *errors)
{
    struct checker c = {finish, errors};
    if (finish->component_count == 0)
        refuse(&c, "at least one component", "none", "/components");
    if (finish->component_count > FINISH_PARTS_MOST)
        refuse(&c, "at most 8 components", number_format((double)finish->component_count).text,
               "/components");
    for (size_t i = 0; i < finish->component_count; i++)
        check_component(&c, i);
    for (size_t i = 0; i < finish->kit_count; i++)
        check_kit(&c, i);
    check_mixing(&c);
    check_coverage(&c);
    check_coats(&c);
    check_limits(&c);
    if (finish->shipped)
        check_sources(&c);
}
