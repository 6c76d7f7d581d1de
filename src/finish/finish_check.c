/* What no single figure of a finish can break by itself; source has read each of them already. */
#include "finish/finish_check.h"

#include "base/err.h"
#include "base/measure.h"
#include "base/number.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* A liquid, a paste or a powder that is mixed with water: kg/l. */
static const double density_least = 0.4, density_most = 3.0;

enum { GRIT_LEAST = 24, GRIT_MOST = 10000 };

void finish_tell(struct checker *c, const char *expected, const char *found, const char *pointer, ...)
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
        finish_tell(c, "a time span above 0", span_format(component->shelf_life_min).text,
                    "/components/%zu/shelf-life", i);
    if (component->opened_life_min <= 0)
        finish_tell(c, "a time span above 0", span_format(component->opened_life_min).text,
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
        finish_tell(c, "a number of parts above 0", number_format(component->parts).text,
                    "/components/%zu/parts", i);
    if (!is_liquid(component->density_kg_per_l))
        finish_tell(c, "a density that a liquid or a paste can have, 0.4 kg/l to 3 kg/l",
                    density_format(component->density_kg_per_l, UNITS_METRIC).text, "/components/%zu/density",
                    i);
    for (size_t k = 0; k < i; k++)
        if (strcmp(c->finish->components[k].name, component->name) == 0)
            finish_tell(c, "a name that no other component has", component->name, "/components/%zu/component",
                        i);
    check_lives(c, i);
    for (size_t k = 0; k < component->pack_count; k++)
        if (!(component->packs[k].size_l > 0))
            finish_tell(c, "a size above 0", component->packs[k].label, "/components/%zu/packs/%zu/size", i,
                        k);
}

static void check_kit(struct checker *c, size_t k)
{
    double total = 0;
    for (size_t i = 0; i < c->finish->component_count; i++)
        total += c->finish->kits[k].contents_l[i];
    if (!(total > 0))
        finish_tell(c, "contents above 0", "an empty kit", "/kits/%zu", k);
}

static void check_mixing(struct checker *c)
{
    const struct finish *f = c->finish;
    if (f->component_count > 1 && !(f->ratio_tolerance > 0 && f->ratio_tolerance < 1))
        finish_tell(c, "a share above 0 % and below 100 %", share_format(f->ratio_tolerance).text,
                    "/ratio-tolerance");
    if (f->pot_life_min <= 0)
        finish_tell(c, "a time span above 0", span_format(f->pot_life_min).text, "/pot-life");
    else if (f->induction_min >= f->pot_life_min)
        finish_tell(c, "an induction shorter than the pot life", span_format(f->induction_min).text,
                    "/induction");
}

/* One given by mass is nothing where the density is nothing: that mistake has been told. */
static bool covers(const struct finish *finish, bool first)
{
    return finish_coverage(finish, first) > 0 || !(finish_density(finish) > 0);
}

static void check_coverage(struct checker *c)
{
    const struct finish *f = c->finish;
    if (!covers(f, true))
        finish_tell(c, "a coverage above 0", number_format(f->first_m2_per_l).text, "/coverage/first");
    if (!covers(f, false))
        finish_tell(c, "a coverage above 0", number_format(f->later_m2_per_l).text, "/coverage/later");
    if (!(f->tolerance >= 0 && f->tolerance < 1))
        finish_tell(c, "a tolerance below 100 %", share_format(f->tolerance).text, "/coverage/tolerance");
    if (!(f->solids >= 0 && f->solids <= 1))
        finish_tell(c, "a share of at most 100 %", share_format(f->solids).text, "/solids");
}

static void check_coats(struct checker *c)
{
    const struct finish *f = c->finish;
    if (!f->by[f->usual_tool])
        finish_tell(c, "at least one tool", "none", "/by");
    if (f->coats_usual < 1)
        finish_tell(c, "at least 1 coat", number_format(f->coats_usual).text, "/coats/usual");
    if (f->coats_most < f->coats_usual)
        finish_tell(c, "no fewer than the usual coats", number_format(f->coats_most).text, "/coats/most");
    if (f->between_grit != 0 && (f->between_grit < GRIT_LEAST || f->between_grit > GRIT_MOST))
        finish_tell(c, "a grit from 24 to 10000", number_format(f->between_grit).text,
                    f->between_scuff ? "/between/scuff" : "/between/sand");
}

void finish_check(const struct finish *finish, struct err_list *errors)
{
    struct checker c = {finish, errors};
    if (finish->component_count == 0)
        finish_tell(&c, "at least one component", "none", "/components");
    if (finish->component_count > FINISH_PARTS_MOST)
        finish_tell(&c, "at most 8 components", number_format((double)finish->component_count).text,
                    "/components");
    for (size_t i = 0; i < finish->component_count; i++)
        check_component(&c, i);
    for (size_t i = 0; i < finish->kit_count; i++)
        check_kit(&c, i);
    check_mixing(&c);
    check_coverage(&c);
    check_coats(&c);
    finish_check_limits(&c);
    if (finish->shipped)
        finish_check_sources(&c);
}
