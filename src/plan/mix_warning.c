#include "plan/mix_warning.h"

#include "finish/drying.h"

bool mix_warns_of_cup(const struct finish *finish, const struct mix *mix, struct mix_warning *warning)
{
    double tray_min = finish_pot_life_min(finish, mix->want.temperature_c, 0);
    *warning = (struct mix_warning){.kind = MIX_WARNING_CUP,
                                    .finish = finish,
                                    .mass_g = mix_mass_g(mix),
                                    .minutes = mix->pot_life_min,
                                    .pot_life_min = tray_min};
    return mix->pot_life_min < tray_min;
}
