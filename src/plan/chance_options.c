#include "plan/chance_options.h"

struct chance_options chance_defaults(void)
{
    return (struct chance_options){.seed = 1,
                                   .draws = 10000,
                                   .threads = 2,
                                   .drying = {0.8, 1.3, false},
                                   .hands = {0.8, 1.4, false},
                                   .shared = 0.5};
}
