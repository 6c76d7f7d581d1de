#include "finish/finish.h"

#include "base/text.h"

#include <string.h>

const char *const finish_state_names[STATE_COUNT] = {
    [STATE_DUST_FREE] = "dust-free", [STATE_HANDLE] = "handle", [STATE_RECOAT] = "recoat",
    [STATE_SAND] = "sand",           [STATE_WRAP] = "wrap",     [STATE_LIGHT_USE] = "light-use",
    [STATE_CURED] = "cured",
};

const char *const finish_drying_names[DRYING_COUNT] = {
    [DRIES_BY_OXIDATION] = "oxidation", [DRIES_BY_SOLVENT] = "solvent",   [DRIES_BY_WATER] = "water",
    [DRIES_BY_REACTION] = "reaction",   [DRIES_BY_MOISTURE] = "moisture", [DRIES_BY_NOTHING] = "none",
};

const char *const tool_names[TOOL_COUNT] = {
    [TOOL_CLOTH] = "cloth",     [TOOL_BRUSH] = "brush",   [TOOL_FOAM_BRUSH] = "foam-brush",
    [TOOL_PAD] = "pad",         [TOOL_ROLLER] = "roller", [TOOL_SQUEEGEE] = "squeegee",
    [TOOL_RUBBER] = "rubber",   [TOOL_HVLP] = "hvlp",     [TOOL_CONVENTIONAL] = "conventional",
    [TOOL_AIRLESS] = "airless", [TOOL_DIP] = "dip",       [TOOL_POUR] = "pour",
};

const char *const resistance_names[RESISTANCE_COUNT] = {
    [RESISTS_WATER] = "water", [RESISTS_ALCOHOL] = "alcohol",   [RESISTS_HEAT] = "heat",
    [RESISTS_WEAR] = "wear",   [RESISTS_OUTDOORS] = "outdoors",
};

const char *const contact_names[CONTACT_COUNT] = {
    [CONTACT_NEVER] = "never",
    [CONTACT_ASK] = "ask",
    [CONTACT_MADE] = "made",
};

static const char *name_of(const char *const *names, int count, int index)
{
    return index >= 0 && index < count ? names[index] : NULL;
}

static int index_of(const char *const *names, int count, const char *word)
{
    for (int i = 0; i < count; i++)
        if (text_same(names[i], word))
            return i;
    return -1;
}

const char *finish_state_name(enum finish_state state)
{
    return name_of(finish_state_names, STATE_COUNT, (int)state);
}

bool finish_state_find(const char *word, enum finish_state *state)
{
    int i = index_of(finish_state_names, STATE_COUNT, word);
    if (i >= 0)
        *state = (enum finish_state)i;
    return i >= 0;
}

const char *finish_drying_name(enum finish_drying drying)
{
    return name_of(finish_drying_names, DRYING_COUNT, (int)drying);
}

const char *tool_name(enum tool tool)
{
    return name_of(tool_names, TOOL_COUNT, (int)tool);
}

bool tool_find(const char *word, enum tool *tool)
{
    int i = index_of(tool_names, TOOL_COUNT, word);
    if (i >= 0)
        *tool = (enum tool)i;
    return i >= 0;
}

bool tool_sprays(enum tool tool)
{
    return tool == TOOL_HVLP || tool == TOOL_CONVENTIONAL || tool == TOOL_AIRLESS;
}

const char *resistance_name(enum resistance resistance)
{
    return name_of(resistance_names, RESISTANCE_COUNT, (int)resistance);
}

bool finish_same(const struct finish *a, const struct finish *b)
{
    return a == b || (a->file && b->file && strcmp(a->id, b->id) == 0 && strcmp(a->file, b->file) == 0);
}

const struct finish_times *finish_times_of(const struct finish *finish, int number, enum tool by)
{
    if (finish->late_after > 0 && number >= finish->late_after && by != TOOL_RUBBER)
        return &finish->late;
    return number > 1 ? &finish->later : &finish->first;
}

/* Litres of component i in a mix of as many litres, or kilograms, as the parts add up to. */
static double part_volume(const struct finish *finish, size_t i)
{
    const struct component *component = &finish->components[i];
    return finish->mix_by_mass ? component->parts / component->density_kg_per_l : component->parts;
}

double finish_density(const struct finish *finish)
{
    double volume = 0, mass = 0;
    for (size_t i = 0; i < finish->component_count; i++) {
        volume += part_volume(finish, i);
        mass += part_volume(finish, i) * finish->components[i].density_kg_per_l;
    }
    return mass / volume;
}

double finish_volume_share(const struct finish *finish, size_t i)
{
    double volume = 0;
    for (size_t k = 0; k < finish->component_count; k++)
        volume += part_volume(finish, k);
    return part_volume(finish, i) / volume;
}

double finish_coverage(const struct finish *finish, bool first)
{
    if (finish->wet_film_um > 0)
        return 1000 / finish->wet_film_um;
    return first ? finish->first_m2_per_l : finish->later_m2_per_l;
}

double finish_coverage_by(const struct finish *finish, bool first, enum tool by)
{
    return finish->tool_m2_per_l[by] > 0 ? finish->tool_m2_per_l[by] : finish_coverage(finish, first);
}

bool finish_has_own_tool(const struct finish *finish, enum tool by)
{
    const struct tool_learned *learned = &finish->tool_learned[by];
    return finish->tool_m2_per_l[by] > 0 || finish->tool_no_between[by] || learned->has_loss ||
           learned->minutes_factor > 0;
}

bool finish_is_oil(const struct finish *finish)
{
    size_t length = strlen(finish->family);
    return length >= 3 && text_same(finish->family + length - 3, "oil");
}
