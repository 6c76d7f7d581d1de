/* Defaults of the method (section 2) and the contract (section 8): common practice, from memory, unless a source
 * stands beside the figure. */
#include "job/shop.h"

#include "base/arena.h"
#include "base/text.h"
#include "base/moment.h"

#include <math.h>
#include <string.h>

static const struct stretch working_day[] = {{8 * 60, 12 * 60}, {13 * 60, 17 * 60}};

static const struct air_spell usual_air[] = {{8 * 60, {18, 0.55}}, {18 * 60, {13, 0.62}}};

enum { WORKING_DAYS = 5, DAYS_SOUGHT = 4000 };

/* What a tool takes: m2/h, litres that stay in it, share that lands, minutes. */
static const struct {
    double rate_m2_per_h, loss_l, transfer, set_up_min, clean_up_min, handling_min;
} tools[TOOL_COUNT] = {
    [TOOL_CLOTH] = {10, 0.005, 1, 5, 5, 1},
    [TOOL_BRUSH] = {7, 0.010, 1, 10, 10, 1},
    [TOOL_FOAM_BRUSH] = {7, 0.010, 1, 10, 10, 1},
    [TOOL_PAD] = {12, 0.015, 1, 5, 5, 1},
    [TOOL_SQUEEGEE] = {12, 0.015, 1, 5, 5, 1},
    [TOOL_ROLLER] = {15, 0.060, 1, 10, 10, 1},
    [TOOL_RUBBER] = {10, 0.005, 1, 5, 5, 1},
    /* 65 %: the South Coast air district's benchmark of spray transfer efficiency */
    [TOOL_HVLP] = {20, 0.030, 0.65, 25, 20, 1.5},
    [TOOL_CONVENTIONAL] = {20, 0.030, 0.30, 25, 20, 1.5},
    [TOOL_AIRLESS] = {20, 0.030, 0.50, 25, 20, 1.5},
    [TOOL_DIP] = {20, 0, 1, 5, 5, 1},
    [TOOL_POUR] = {10, 0.010, 1, 5, 5, 1},
};

static const struct {
    const char *name;
    double rate_m2_per_h;
} works[WORK_COUNT - TOOL_COUNT] = {
    [WORK_SAND - TOOL_COUNT] = {"sand", 8},     [WORK_SCUFF - TOOL_COUNT] = {"scuff", 15},
    [WORK_POLISH - TOOL_COUNT] = {"polish", 6}, [WORK_RUB - TOOL_COUNT] = {"rub", 15},
    [WORK_WIPE - TOOL_COUNT] = {"wipe", 8},     [WORK_RAISE - TOOL_COUNT] = {"raise", 30},
};

/* How long a tool may lie with finish in it before it must be cleaned: common practice, from memory. */
static const int32_t rest_min = 120, gun_rest_min = 30;

static const double work_set_up_min = 5, work_handling_min = 1, two_part_spray_clean_up_min = 25;

static void default_tools(struct shop *shop)
{
    for (int i = 0; i < TOOL_COUNT; i++) {
        shop->rate_m2_per_h[i] = tools[i].rate_m2_per_h;
        shop->rest_min[i] = tool_sprays((enum tool)i) ? gun_rest_min : rest_min;
        shop->loss_l[i] = tools[i].loss_l;
        shop->transfer[i] = tools[i].transfer;
        shop->set_up_min[i] = tools[i].set_up_min;
        shop->clean_up_min[i] = tools[i].clean_up_min;
        shop->two_part_clean_up_min[i] =
            tool_sprays((enum tool)i) ? two_part_spray_clean_up_min : tools[i].clean_up_min;
        shop->handling_min[i] = tools[i].handling_min;
    }
    for (int i = TOOL_COUNT; i < WORK_COUNT; i++) {
        shop->rate_m2_per_h[i] = works[i - TOOL_COUNT].rate_m2_per_h;
        shop->set_up_min[i] = work_set_up_min;
        shop->handling_min[i] = i == WORK_RAISE ? 0 : work_handling_min; /* wetted where they lie */
    }
}

void shop_default(struct shop *shop)
{
    *shop = (struct shop){
        .people = 1,
        .hours_assumed = true,
        .air = {.daily = {.spells = usual_air, .spell_count = 2}, .assumed = true},
        .rack_m2 = -1,
        .spray_places = 1,
        .settle_min = 30,
        .scale_g = 1,
        .rate_cents_per_hour = -1,
        .country = COUNTRY_OTHER,
        .busy_from_min = INT64_MIN,
        .busy_to_min = INT64_MAX,
    };
    for (int day = 0; day < WORKING_DAYS; day++)
        shop->hours[day] = (struct shop_day){working_day, 2};
    default_tools(shop);
}

const char *work_name(int work)
{
    if (work >= TOOL_COUNT && work < WORK_COUNT)
        return works[work - TOOL_COUNT].name;
    return tool_name((enum tool)work);
}

struct person shop_person(const struct shop *shop, int i)
{
    if (shop->crew)
        return shop->crew[i];
    struct person person = {.does = SKILLS_ALL,
                            .closed = shop->closed,
                            .closed_count = shop->closed_count,
                            .busy = shop->busy,
                            .busy_count = shop->busy_count};
    for (int day = 0; day < 7; day++)
        person.hours[day] = shop->hours[day];
    return person;
}

/* A list with those of another that begin before a time or end behind it. */
static struct busy *joined(struct arena *arena, const struct busy *own, size_t *count,
                           const struct busy *more, size_t more_count, const struct shop *read)
{
    struct busy *all = ARENA_ARRAY(arena, *count + more_count, struct busy);
    size_t used = 0;
    for (; used < *count; used++)
        all[used] = own[used];
    for (size_t i = 0; i < more_count; i++)
        if (more[i].from_min < read->busy_from_min || more[i].to_min > read->busy_to_min)
            all[used++] = more[i];
    *count = used;
    return all;
}

void shop_join_busy(struct arena *arena, struct shop *shop, const struct shop *other)
{
    shop->busy = joined(arena, shop->busy, &shop->busy_count, other->busy, other->busy_count, shop);
    if (shop->crew && other->crew) {
        struct person *crew = ARENA_ARRAY(arena, (size_t)shop->people, struct person);
        for (int i = 0; i < shop->people; i++) {
            const struct person *more = &other->crew[i];
            crew[i] = shop->crew[i];
            crew[i].busy =
                joined(arena, crew[i].busy, &crew[i].busy_count, more->busy, more->busy_count, shop);
        }
        shop->crew = crew;
    }
    if (other->busy_from_min < shop->busy_from_min)
        shop->busy_from_min = other->busy_from_min;
    if (other->busy_to_min > shop->busy_to_min)
        shop->busy_to_min = other->busy_to_min;
}

/* How the zones of the United States begin; those below "America/" are shared with other countries. */
static bool is_us_zone(const char *zone)
{
    static const char *const begins[] = {"US/",
                                         "America/Indiana/",
                                         "America/Kentucky/",
                                         "America/North_Dakota/",
                                         "America/New_York",
                                         "America/Chicago",
                                         "America/Denver",
                                         "America/Los_Angeles",
                                         "America/Phoenix",
                                         "America/Detroit",
                                         "America/Boise",
                                         "America/Anchorage",
                                         "America/Juneau",
                                         "America/Sitka",
                                         "America/Nome",
                                         "America/Adak",
                                         "America/Indianapolis",
                                         "America/Louisville",
                                         "America/Menominee",
                                         "Pacific/Honolulu",
                                         NULL};
    for (const char *const *begin = begins; *begin; begin++)
        if (strncmp(zone, *begin, strlen(*begin)) == 0)
            return true;
    return false;
}

enum country shop_country(const struct shop *shop, const struct zone *zone)
{
    if (shop->country != COUNTRY_OTHER || !zone->name)
        return shop->country;
    if (strcmp(zone->name, "Europe/London") == 0 || strcmp(zone->name, "Europe/Belfast") == 0)
        return COUNTRY_UK;
    if (is_us_zone(zone->name))
        return COUNTRY_US;
    return strncmp(zone->name, "Europe/", 7) == 0 ? COUNTRY_EU : COUNTRY_OTHER;
}

bool shop_closed_on(const struct shop *shop, int64_t day)
{
    for (size_t i = 0; i < shop->closed_count; i++)
        if (day >= shop->closed[i].first_day && day <= shop->closed[i].last_day)
            return true;
    return false;
}

/* The day's hours, none where the shop is closed. */
static struct shop_day day_hours(const struct shop *shop, int64_t day)
{
    if (shop_closed_on(shop, day))
        return (struct shop_day){NULL, 0};
    return shop->hours[weekday_of(day)];
}

bool shop_nearest_hours(const struct shop *shop, const struct zone *zone, int64_t day, bool closing,
                        int64_t *minute)
{
    for (int n = 0; n < DAYS_SOUGHT; n++, day += closing ? -1 : 1) {
        struct shop_day hours = day_hours(shop, day);
        if (hours.count == 0)
            continue;
        int at = closing ? hours.stretches[hours.count - 1].to_min : hours.stretches[0].from_min;
        *minute = zone_moment_on(zone, day, at);
        return true;
    }
    return false;
}

/* The highest temperature between two moments, at least `warmest`. */
static double warmest_between(const struct shop *shop, const struct zone *zone, int64_t from, int64_t to,
                              double warmest)
{
    while (from < to) {
        int64_t until;
        warmest = fmax(warmest, air_at(&shop->air, zone, from, &until).temperature_c);
        from = until;
    }
    return warmest;
}

double shop_warmest_c(const struct shop *shop, const struct zone *zone, int64_t from_min, int64_t to_min)
{
    int minute_of_day;
    double warmest = -INFINITY;
    int64_t last = zone_day(zone, to_min, &minute_of_day);
    for (int64_t day = zone_day(zone, from_min, &minute_of_day); day <= last; day++) {
        const struct shop_day *hours = &shop->hours[weekday_of(day)];
        if (shop_closed_on(shop, day))
            continue;
        for (size_t i = 0; i < hours->count; i++) {
            int64_t from = zone_moment_on(zone, day, hours->stretches[i].from_min);
            int64_t to = zone_moment_on(zone, day, hours->stretches[i].to_min);
            warmest = warmest_between(shop, zone, from > from_min ? from : from_min,
                                      to < to_min ? to : to_min, warmest);
        }
    }
    if (isinf(warmest))
        warmest = warmest_between(shop, zone, from_min, to_min + 1, warmest);
    return warmest;
}

const char *const sundry_per_names[SUNDRY_PER_COUNT] = {
    [PER_WORKED_M2] = "m2", [PER_WIPED_M2] = "wiped-m2", [PER_COAT] = "coat",
    [PER_MIX] = "mix",      [PER_FINISH] = "finish",     [PER_THINNER] = "thinner",
};

const char *const sundry_each_names[SUNDRY_EACH_COUNT] = {
    [EACH_TOGETHER] = "together", [EACH_GRIT] = "grit", [EACH_SOLVENT] = "solvent", [EACH_FINISH] = "finish"};
