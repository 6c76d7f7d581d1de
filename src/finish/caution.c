#include "finish/caution.h"

#include <string.h>

static const char memory[] = "common practice, from memory";

static const struct caution table[] = {
    {"oily-rags",
     "rags wet with it heat up and can catch fire by themselves: dry them spread flat outdoors, or keep them "
     "under water "
     "in a closed metal can that is emptied daily",
     "29 CFR 1910.106(h)(8)(iii): closed metal can, emptied daily; the rest common practice"},
    {"vapour",
     "its vapour is harmful: air the room while it is laid and while it dries, and wear a mask for organic "
     "vapour",
     "29 CFR 1910.94(c)(6)(ii) for the air; the rest common practice"},
    {"flammable", "it burns: no flame, no spark, no heater and no smoking near it, and tins closed", memory},
    {"isocyanate",
     "its hardener holds isocyanates: who becomes sensitive stays so, and neither smell nor irritation warns "
     "in time; "
     "gloves, no skin contact, and never sprayed without supplied air",
     "OSHA interpretation, 13 June 1996: sensitisation is permanent, poor warning properties; the rest "
     "common practice"},
    {"formaldehyde",
     "it gives off formaldehyde while it cures: air the room for days, and keep people out of it", memory},
    {"acid", "its catalyst is an acid: gloves and goggles, no steel vessel, and rinse splashes at once",
     memory},
    {"lye", "it is caustic: gloves and goggles, water at hand, and no aluminium", memory},
    {"skin",
     "it irritates the skin or makes it sensitive: nitrile gloves, and wash with soap, never with solvent",
     memory},
    {"dust", "its sanding dust is harmful: extract it at the tool and wear a mask", memory},
    {"spray-mist",
     "sprayed, it fills the air with mist: spray in a booth with at least 100 ft/min (0.5 m/s) at its open "
     "face, and wear "
     "a mask for mist and vapour",
     "29 CFR 1910.107(b)(5): 100 ft/min; the rest common practice"},
    {"exotherm",
     "a large mix in one cup heats itself, may smoke and crack: mix small amounts, pour them into a shallow "
     "tray, and set "
     "a hot cup outdoors on stone",
     memory},
    {"food-cure", "it may touch food only when it is fully cured",
     "21 CFR 175.300(b)(3): films formed by listed drying oils and resins; the rest common practice"},
    {"nut-oil", "it is pressed from nuts: tell customers with allergies", memory},
    {"frost", "frost spoils it: store and ship it warm", memory},
};

const struct caution *caution_find(const char *word)
{
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++)
        if (strcmp(table[i].word, word) == 0)
            return &table[i];
    return NULL;
}

const struct caution *caution_table(size_t *count)
{
    *count = sizeof table / sizeof table[0];
    return table;
}

bool finish_warns_of(const struct finish *finish, const char *word)
{
    for (size_t i = 0; i < finish->caution_count; i++)
        if (strcmp(finish->cautions[i], word) == 0)
            return true;
    return false;
}

const char *caution_rider(void)
{
    return "the data sheet and local rules decide";
}
