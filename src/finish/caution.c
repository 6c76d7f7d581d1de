#include "finish/caution.h"

#include <string.h>

const char *const caution_names[CAUTION_COUNT] = {
    "oily-rags", "vapour", "flammable",  "isocyanate", "formaldehyde", "acid",    "lye",
    "skin",      "dust",   "spray-mist", "exotherm",   "food-cure",    "nut-oil", "frost"};

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
