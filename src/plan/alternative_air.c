/* Warmer air. Heating adds no water: the vapour stays and the humidity falls (air.h, Magnus form). */
#include "plan/alternative.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/number.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

/* A little more heating, and a shop that is heated well: common practice, from memory. */
static const double more_c = 3, more_f = 5, heated_c = 20;

/* To whole per cents, upwards. */
static struct air warmed(struct air air, double to_c)
{
    double humidity = air.humidity * air_saturation_hpa(air.temperature_c) / air_saturation_hpa(to_c);
    return (struct air){to_c, ceil(humidity * 100 - 1e-9) / 100};
}

/* What becomes of every spell: warmer by so much, and no colder than. */
struct warming {
    double more_c, least_c;
};

/* As it can be written: to a tenth of a degree of the user's scale. */
static double written_c(double c, enum unit_system units)
{
    char text[80];
    bool us = units == UNITS_US;
    snprintf(text, sizeof text, "%s %s", number_round(us ? c * 9 / 5 + 32 : c, 1).text, us ? "F" : "C");
    bool read = temperature_parse(text, &c, NULL);
    assert(read);
    return c;
}

static bool heat_day(struct alternatives *all, struct air_day *day, struct warming warming)
{
    enum unit_system units = all->job->inches ? UNITS_US : UNITS_METRIC;
    struct air_spell *spells = ARENA_ARRAY(all->arena, day->spell_count, struct air_spell);
    bool changed = false;
    for (size_t i = 0; i < day->spell_count; i++) {
        spells[i] = day->spells[i];
        double now_c = spells[i].air.temperature_c, to_c = fmax(now_c + warming.more_c, warming.least_c);
        if (to_c <= now_c || written_c(to_c, units) <= now_c)
            continue;
        spells[i].air = warmed(spells[i].air, written_c(to_c, units));
        changed = true;
    }
    day->spells = spells;
    return changed;
}

static void add_heating(struct alternatives *all, struct change change, struct warming warming, bool dated)
{
    struct shop shop = all->job->shop;
    bool changed = heat_day(all, &shop.air.daily, warming);
    struct air_day *days = ARENA_ARRAY(all->arena, shop.air.dated_count, struct air_day);
    for (size_t i = 0; i < shop.air.dated_count; i++) {
        days[i] = shop.air.dated[i];
        if (dated)
            changed |= heat_day(all, &days[i], warming);
    }
    shop.air.dated = days;
    if (!changed)
        return;
    alternatives_add_to_shop(all, change, &shop);
}

/* A dated day stands for what is known of that day: the nights of the daily round do not touch it. */
void alternatives_add_air(struct alternatives *all)
{
    const struct air_day *daily = &all->job->shop.air.daily;
    double by_c = all->job->inches ? more_f * 5 / 9 : more_c, warmest = -INFINITY;
    struct change change = {.kind = ALTERNATIVE_AIR};
    for (size_t i = 0; i < daily->spell_count; i++)
        warmest = fmax(warmest, daily->spells[i].air.temperature_c);
    change.heating = HEATING_NIGHTS;
    change.to_c = warmest;
    add_heating(all, change, (struct warming){0, warmest}, false);
    change.heating = HEATING_MORE;
    change.to_c = by_c;
    add_heating(all, change, (struct warming){by_c, -INFINITY}, true);
    change.heating = HEATING_DAY_AND_NIGHT;
    change.to_c = heated_c;
    add_heating(all, change, (struct warming){0, heated_c}, true);
}
