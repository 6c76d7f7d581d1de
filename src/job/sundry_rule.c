#include "job/sundry_rule.h"

const char *const sundry_per_names[SUNDRY_PER_COUNT] = {
    [PER_WORKED_M2] = "m2", [PER_WIPED_M2] = "wiped-m2", [PER_COAT] = "coat",
    [PER_MIX] = "mix",      [PER_FINISH] = "finish",     [PER_THINNER] = "thinner",
};

const char *const sundry_each_names[SUNDRY_EACH_COUNT] = {
    [EACH_TOGETHER] = "together", [EACH_GRIT] = "grit", [EACH_SOLVENT] = "solvent", [EACH_FINISH] = "finish"};
