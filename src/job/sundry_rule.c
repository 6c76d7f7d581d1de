#include "job/sundry_rule.h"

static const char *const per_names[SUNDRY_PER_COUNT] = {
    [PER_WORKED_M2] = "m2", [PER_WIPED_M2] = "wiped-m2", [PER_COAT] = "coat",
    [PER_MIX] = "mix",      [PER_FINISH] = "finish",     [PER_THINNER] = "thinner",
};

static const char *const each_names[SUNDRY_EACH_COUNT] = {
    [EACH_TOGETHER] = "together", [EACH_GRIT] = "grit", [EACH_SOLVENT] = "solvent", [EACH_FINISH] = "finish"};

const char *sundry_per_name(enum sundry_per per)
{
    return (int)per >= 0 && per < SUNDRY_PER_COUNT ? per_names[per] : NULL;
}

const char *sundry_each_name(enum sundry_each each)
{
    return (int)each >= 0 && each < SUNDRY_EACH_COUNT ? each_names[each] : NULL;
}
