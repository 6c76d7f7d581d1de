#include "plan/mix_warning.h"

bool mix_warns_of_cup(const struct finish *finish, const struct mix *mix, struct mix_warning *warning)
{
    double mass_g = mix_mass_g(mix), life_min = mix_cup_life_min(finish, mass_g, mix->want.temperature_c);
    *warning = (struct mix_warning){.kind = MIX_WARNING_CUP,
                                    .finish = finish,
                                    .mass_g = mass_g,
                                    .minutes = life_min,
                                    .pot_life_min = mix->pot_life_min};
    return life_min < mix->pot_life_min;
}
