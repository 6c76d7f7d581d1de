#include "plan/mix_words.h"

#include "base/arena.h"
#include "base/measure.h"
#include "finish/caution.h"
#include "finish/drying.h"

const char *mix_too_late(const struct finish *finish, double temperature_c)
{
    return finish_working_min(finish, temperature_c) > 0 ? "the gun is clean" : "its induction ends";
}

const char *mix_cup_warning(struct arena *arena, const struct finish *finish, const struct mix *mix)
{
    double mass = mix_mass_g(mix), life = mix_cup_life_min(finish, mass, mix->want.temperature_c);
    if (life >= mix->pot_life_min)
        return NULL;
    return arena_textf(
        arena,
        "%s: %s in one cup heats itself and lives about %s, not %s: pour it into a shallow tray "
        "at once, or mix 200 g at a time; %s",
        finish->name, mass_format(mass, UNITS_METRIC).text, span_format((int64_t)life).text,
        span_format((int64_t)mix->pot_life_min).text, caution_rider());
}
