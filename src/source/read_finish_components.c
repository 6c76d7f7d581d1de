#include "source/read_finish_parts.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "base/measure.h"
#include "base/money.h"

#include <string.h>

enum { COMPONENTS_MOST = RATIO_MOST };

static void read_price(struct json_at at, int digits, int64_t *cents)
{
    struct err fault;
    const char *text;
    *cents = -1;
    if (at.node && json_text(at, "a price as text, such as \"14.50\"", &text) &&
        !money_parse(text, digits, cents, &fault))
        json_refuse(at, fault.expected);
}

/* A size by mass has its volume by the density; without one (a mistake told already) it is left at 0. */
static bool read_size(struct json_at at, double density_kg_per_l, struct pack *pack)
{
    struct err fault;
    struct amount amount;
    if (!json_text(at, "a volume such as \"500 ml\", or a mass", &pack->label))
        return false;
    if (!amount_parse(pack->label, &amount, &fault))
        return json_refuse(at, fault.expected);
    if (!amount.by_mass)
        pack->size_l = amount.value;
    else if (density_kg_per_l > 0)
        pack->size_l = amount.value / 1000 / density_kg_per_l;
    return true;
}

static void read_pack(struct json_at at, double density_kg_per_l, int digits, struct pack *pack)
{
    static const char *const keys[] = {"size", "price"};
    if (!json_object(at, "a pack", keys, 2))
        return;
    read_size(json_member(at, "size"), density_kg_per_l, pack);
    read_price(json_member(at, "price"), digits, &pack->price_cents);
}

static void read_packs(struct json_at list, int digits, struct component *component)
{
    if (!json_is_list(list) || json_size(list) == 0) {
        json_refuse(list, "a list of packs");
        return;
    }
    struct pack *packs = ARENA_ARRAY(list.doc->reading->arena, json_size(list), struct pack);
    component->packs = packs;
    for (struct json_at item = json_first(list); item.node; item = json_next(item))
        read_pack(item, component->density_kg_per_l, digits, &packs[component->pack_count++]);
}

static void read_component(struct json_at at, int digits, struct component *component)
{
    static const char *const keys[] = {"component", "parts", "density", "shelf-life", "opened-life", "packs"};
    component->shelf_life_min = component->opened_life_min = SPAN_NEVER;
    if (!json_object(at, "a component", keys, sizeof keys / sizeof keys[0]))
        return;
    json_text(json_member(at, "component"), "the component's name", &component->name);
    json_number(json_member(at, "parts"), &component->parts);
    json_quantity(json_member(at, "density"), density_parse, &component->density_kg_per_l);
    if (json_has(at, "shelf-life"))
        json_span(json_member(at, "shelf-life"), &component->shelf_life_min);
    if (json_has(at, "opened-life"))
        json_span(json_member(at, "opened-life"), &component->opened_life_min);
    if (json_has(at, "packs"))
        read_packs(json_member(at, "packs"), digits, component);
}

static size_t component_index(const struct finish *finish, const char *name)
{
    size_t i = 0;
    while (i < finish->component_count && strcmp(finish->components[i].name, name) != 0)
        i++;
    return i;
}

static void refuse_content(struct json_at member, const struct finish *finish)
{
    const char *names[COMPONENTS_MOST];
    for (size_t i = 0; i < finish->component_count; i++)
        names[i] = finish->components[i].name;
    json_refuse_key(member, "a component of this finish", names, finish->component_count);
}

static void read_contents(struct json_at contents, const struct finish *finish, double *litres)
{
    if (!json_is_object(contents)) {
        json_refuse(contents, "the amount of each component, as an object in braces");
        return;
    }
    for (struct json_at item = json_first(contents); item.node; item = json_next(item)) {
        struct pack pack = {0};
        size_t i = component_index(finish, json_name(item));
        if (i == finish->component_count)
            refuse_content(item, finish);
        else if (read_size(item, finish->components[i].density_kg_per_l, &pack))
            litres[i] = pack.size_l;
    }
}

/* Without a label a kit is called by its contents. */
static const char *kit_label(struct json_at contents)
{
    const char *label = "";
    struct arena *arena = contents.doc->reading->arena;
    for (struct json_at item = json_first(contents); item.node; item = json_next(item)) {
        const char *amount = "";
        if (json_text(item, "an amount", &amount))
            label = arena_textf(arena, "%s%s%s %s", label, *label ? " + " : "", json_name(item), amount);
    }
    return label;
}

static void read_kit(struct json_at at, int digits, const struct finish *finish, struct kit *kit)
{
    static const char *const keys[] = {"contents", "price", "label"};
    double *litres = ARENA_ARRAY(at.doc->reading->arena, finish->component_count, double);
    size_t before = reading_mistakes(at.doc->reading);
    kit->contents_l = litres;
    if (!json_object(at, "a kit", keys, 3))
        return;
    read_contents(json_member(at, "contents"), finish, litres);
    read_price(json_member(at, "price"), digits, &kit->price_cents);
    if (json_has(at, "label"))
        json_text(json_member(at, "label"), "the kit's name", &kit->label);
    else if (reading_mistakes(at.doc->reading) == before)
        kit->label = kit_label(json_member(at, "contents"));
}

static void read_kits(struct json_at list, int digits, struct finish *finish)
{
    if (!json_list(list, "a list of kits"))
        return;
    struct kit *kits = ARENA_ARRAY(list.doc->reading->arena, json_size(list), struct kit);
    for (struct json_at item = json_first(list); item.node; item = json_next(item))
        read_kit(item, digits, finish, &kits[finish->kit_count++]);
    finish->kits = kits;
}

/* How the components are mixed: needed where there are several. */
static void read_mixing(struct json_at file, struct finish *finish)
{
    static const char *const ways[] = {"volume", "mass"};
    int way = 0;
    bool several = finish->component_count > 1;
    if (several || json_has(file, "mix-by"))
        json_choice(json_member(file, "mix-by"), ways, 2, &way);
    finish->mix_by_mass = way == 1;
    if (several || json_has(file, "ratio-tolerance"))
        json_quantity(json_member(file, "ratio-tolerance"), share_parse, &finish->ratio_tolerance);
    if (json_has(file, "induction"))
        json_span(json_member(file, "induction"), &finish->induction_min);
    finish->pot_life_min = SPAN_NEVER;
    if (json_has(file, "pot-life"))
        json_span(json_member(file, "pot-life"), &finish->pot_life_min);
}

void finish_read_components(struct json_at file, int currency_digits, struct finish *finish)
{
    struct json_at list = json_member(file, "components");
    size_t count = json_is_list(list) ? json_size(list) : 0;
    if (count == 0 || count > COMPONENTS_MOST) {
        json_refuse(list, "a list of 1 to 8 components");
        return;
    }
    struct component *components = ARENA_ARRAY(list.doc->reading->arena, count, struct component);
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        components[finish->component_count].name = "";
        read_component(item, currency_digits, &components[finish->component_count++]);
    }
    finish->components = components;
    read_mixing(file, finish);
    if (json_has(file, "kits"))
        read_kits(json_member(file, "kits"), currency_digits, finish);
}
