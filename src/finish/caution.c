#include "finish/caution.h"

#include <string.h>

const char *const caution_names[CAUTION_COUNT] = {
    "oily-rags", "vapour", "flammable", "isocyanate", "formaldehyde", "acid",     "lye",
    "oxidiser",  "skin",   "dust",      "spray-mist", "exotherm",     "seed-oil", "frost"};

bool caution_known(const char *name)
{
    for (size_t i = 0; i < CAUTION_COUNT; i++)
        if (strcmp(caution_names[i], name) == 0)
            return true;
    return false;
}

bool finish_warns_of(const struct finish *finish, const char *word)
{
    for (size_t i = 0; i < finish->caution_count; i++)
        if (strcmp(finish->cautions[i], word) == 0)
            return true;
    return false;
}

enum breathing finish_breathing(const struct finish *finish, bool sprayed)
{
    if (finish_warns_of(finish, "isocyanate"))
        return sprayed ? BREATHING_SUPPLIED : BREATHING_FREE;
    if (sprayed)
        return BREATHING_VAPOUR_AND_MIST;
    return finish_warns_of(finish, "vapour") ? BREATHING_VAPOUR : BREATHING_FREE;
}

bool finish_heats_its_dust(const struct finish *finish)
{
    return finish_warns_of(finish, "oily-rags");
}

bool finish_is_lacquer(const struct finish *finish)
{
    return strcmp(finish->family, "lacquer") == 0;
}
