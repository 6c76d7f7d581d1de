#include "source/finish_parts.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "finish/finish.h"

#include <string.h>

enum { COMPONENTS_MOST = RATIO_MOST };

static const char price_form[] = "a price as text, such as \"14.50\"";

/* A pack or a component while it is read: a size by mass has its volume by the density. */
struct pack_draft {
    struct pack pack;
    double density_kg_per_l;
};

/* Without a density (a mistake reported already) the volume is left at 0. */
static bool read_amount(struct json_at at, double density_kg_per_l, struct pack *pack)
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
    return pack->size_l <= limits[LIMIT_VOLUME].most || json_refuse(at, limits[LIMIT_VOLUME].expected);
}

static void read_size(struct field_in in)
{
    struct pack_draft *to = in.record;
    read_amount(in.at, to->density_kg_per_l, &to->pack);
}

static void read_pack_price(struct field_in in)
{
    read_price(in.at, price_form, *(const int *)in.context,
               &((struct pack_draft *)in.record)->pack.price_cents);
}

static const struct field pack_items[] = {
    {"size", FIELD_OWN, .needed = true, .read = read_size},
    {"price", FIELD_OWN, .read = read_pack_price},
};
static const struct fields pack_fields = FIELDS("a pack", pack_items);

static void read_packs(struct field_in in)
{
    struct component *component = in.record;
    if (!filled_list(in.at, "a list of packs"))
        return;
    struct pack *packs = ARENA_ARRAY(in.at.doc->reading->arena, json_size(in.at), struct pack);
    component->packs = packs;
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item)) {
        struct pack_draft draft = {{.price_cents = -1}, component->density_kg_per_l};
        fields_read(item, &pack_fields, &draft, in.context);
        packs[component->pack_count++] = draft.pack;
    }
}

static const struct field component_items[] = {
    {"component", FIELD_TEXT, AT(component, name), .needed = true, .expected = "the component's name"},
    {"parts", FIELD_NUMBER, AT(component, parts), .needed = true, .limit = LIMIT_RATIO},
    {"density", FIELD_QUANTITY, AT(component, density_kg_per_l), .needed = true, .quantity = &field_density},
    {"shelf-life", FIELD_SPAN, AT(component, shelf_life_min), .limit = LIMIT_KEEPING},
    {"opened-life", FIELD_SPAN, AT(component, opened_life_min), .limit = LIMIT_KEEPING},
    {"packs", FIELD_OWN, .read = read_packs},
};
static const struct fields component_fields = FIELDS("a component", component_items);

void finish_read_components(struct field_in in)
{
    struct finish *finish = in.record;
    size_t count = json_is_list(in.at) ? json_size(in.at) : 0;
    if (count == 0 || count > COMPONENTS_MOST) {
        json_refuse(in.at, "a list of 1 to 8 components");
        return;
    }
    struct component *components = ARENA_ARRAY(in.at.doc->reading->arena, count, struct component);
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item)) {
        struct component *component = &components[finish->component_count++];
        *component =
            (struct component){.name = "", .shelf_life_min = SPAN_NEVER, .opened_life_min = SPAN_NEVER};
        fields_read(item, &component_fields, component, in.context);
    }
    finish->components = components;
}

/* A kit while it is read. */
struct kit_draft {
    struct kit kit;
    double *litres;
    const struct finish *finish;
};

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

static void read_contents(struct field_in in)
{
    struct kit_draft *to = in.record;
    if (!json_is_object(in.at)) {
        json_refuse(in.at, "the amount of each component, as an object in braces");
        return;
    }
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item)) {
        struct pack pack = {0};
        size_t i = component_index(to->finish, json_name(item));
        if (i == to->finish->component_count)
            refuse_content(item, to->finish);
        else if (read_amount(item, to->finish->components[i].density_kg_per_l, &pack))
            to->litres[i] = pack.size_l;
    }
}

static void read_kit_price(struct field_in in)
{
    read_price(in.at, price_form, *(const int *)in.context,
               &((struct kit_draft *)in.record)->kit.price_cents);
}

static const struct field kit_items[] = {
    {"contents", FIELD_OWN, .needed = true, .read = read_contents},
    {"price", FIELD_OWN, .read = read_kit_price},
    {"label", FIELD_TEXT, AT(kit_draft, kit.label), .expected = "the kit's name"},
};
static const struct fields kit_fields = FIELDS("a kit", kit_items);

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

static struct kit read_kit(struct field_in in, struct json_at at)
{
    const struct reading *reading = at.doc->reading;
    const struct finish *finish = in.record;
    struct kit_draft draft = {.kit = {.price_cents = -1}, .finish = finish};
    size_t before = reading_mistakes(reading);
    draft.kit.contents_l = draft.litres = ARENA_ARRAY(reading->arena, finish->component_count, double);
    fields_read(at, &kit_fields, &draft, in.context);
    if (!draft.kit.label && reading_mistakes(reading) == before)
        draft.kit.label = kit_label(json_member(at, "contents"));
    return draft.kit;
}

void finish_read_kits(struct field_in in)
{
    struct finish *finish = in.record;
    if (!json_list(in.at, "a list of kits"))
        return;
    struct kit *kits = ARENA_ARRAY(in.at.doc->reading->arena, json_size(in.at), struct kit);
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item))
        kits[finish->kit_count++] = read_kit(in, item);
    finish->kits = kits;
}
