/* The shop's stated defaults, and the warmest hour in which somebody works. */
#include "check.h"

#include "base/moment.h"
#include "job/shop.h"

static void names(void **state)
{
    (void)state;
    check_text(HERE, work_name(WORK_WIPE), "wipe");
    check_true(HERE, work_name(WORK_COUNT) == NULL, "no work beyond the last");
}

/* The stated defaults. */
static void defaults_of_the_contract(void **state)
{
    (void)state;
    struct shop shop;
    shop_default(&shop);
    check_int(HERE, shop.people, 1);
    check_int(HERE, shop.spray_places, 1);
    check_int(HERE, shop.settle_min, 30);
    check_double(HERE, shop.scale_g, 1, 0);
    check_true(HERE, shop.rack_m2 < 0 && !shop.dust_separate && shop.air.assumed && shop.hours_assumed,
               "no rack limit, dust room shared, air and hours assumed");
    for (int day = MONDAY; day <= FRIDAY; day++) {
        check_int(HERE, (intmax_t)shop.hours[day].count, 2);
        check_int(HERE, shop.hours[day].stretches[0].from_min, 480);
        check_int(HERE, shop.hours[day].stretches[0].to_min, 720);
        check_int(HERE, shop.hours[day].stretches[1].from_min, 780);
        check_int(HERE, shop.hours[day].stretches[1].to_min, 1020);
    }
    check_int(HERE, (intmax_t)(shop.hours[SATURDAY].count + shop.hours[SUNDAY].count), 0);
    static const struct zone utc = {"UTC", 0, NULL};
    struct air noon = air_at(&shop.air, &utc, 720, NULL), night = air_at(&shop.air, &utc, 1380, NULL);
    check_double(HERE, noon.temperature_c, 18, 0);
    check_double(HERE, noon.humidity, 0.55, 0);
    check_double(HERE, night.temperature_c, 13, 0);
    check_double(HERE, night.humidity, 0.62, 0);
}

struct default_row {
    struct row row;
    int work;
    double rate, set_up, touch, clean_up;
    double loss_ml, transfer; /* of tools */
};

/* Common practice, from memory; HVLP lands 65 %: South Coast air district, spray equipment transfer efficiency. */
static const struct default_row defaults[] = {
    {ROW("cloth"), TOOL_CLOTH, 10, 5, 1, 5, 5, 1},
    {ROW("rubber"), TOOL_RUBBER, 10, 5, 1, 5, 5, 1},
    {ROW("brush"), TOOL_BRUSH, 7, 10, 1, 10, 10, 1},
    {ROW("foam brush"), TOOL_FOAM_BRUSH, 7, 10, 1, 10, 10, 1},
    {ROW("pad"), TOOL_PAD, 12, 5, 1, 5, 15, 1},
    {ROW("squeegee"), TOOL_SQUEEGEE, 12, 5, 1, 5, 15, 1},
    {ROW("roller"), TOOL_ROLLER, 15, 10, 1, 10, 60, 1},
    {ROW("conventional"), TOOL_CONVENTIONAL, 20, 25, 1.5, 20, 30, 0.3},
    {ROW("hvlp"), TOOL_HVLP, 20, 25, 1.5, 20, 30, 0.65},
    {ROW("airless"), TOOL_AIRLESS, 20, 25, 1.5, 20, 30, 0.5},
    {ROW("dip"), TOOL_DIP, 20, 5, 1, 5, 0, 1},
    {ROW("pour"), TOOL_POUR, 10, 5, 1, 5, 10, 1},
    {ROW("sanding"), WORK_SAND, 8, 5, 1, 0, 0, 0},
    {ROW("scuffing"), WORK_SCUFF, 15, 5, 1, 0, 0, 0},
    {ROW("polishing"), WORK_POLISH, 6, 5, 1, 0, 0, 0},
    {ROW("rubbing"), WORK_RUB, 15, 5, 1, 0, 0, 0},
    {ROW("wiping"), WORK_WIPE, 8, 5, 1, 0, 0, 0},
    {ROW("raising"), WORK_RAISE, 30, 5, 0, 0, 0, 0},
};

static void default_is(void **state)
{
    const struct default_row *r = *state;
    struct shop shop;
    shop_default(&shop);
    check_double(&r->row, shop.rate_m2_per_h[r->work], r->rate, 0);
    check_double(&r->row, shop.set_up_min[r->work], r->set_up, 0);
    check_double(&r->row, shop.handling_min[r->work], r->touch, 0);
    check_double(&r->row, shop.clean_up_min[r->work], r->clean_up, 0);
    if (r->work >= TOOL_COUNT)
        return;
    bool gun = tool_sprays((enum tool)r->work);
    check_double(&r->row, shop.loss_l[r->work] * 1000, r->loss_ml, 1e-12);
    check_double(&r->row, shop.transfer[r->work], r->transfer, 0);
    check_double(&r->row, shop.two_part_clean_up_min[r->work], gun ? 25 : r->clean_up, 0);
    check_int(&r->row, shop.rest_min[r->work], gun ? 30 : 120);
}

static const struct zone utc = {"UTC", 0, NULL};
static const struct air_spell spells[] = {{0, {10, 0.5}}, {11 * 60, {21, 0.5}}, {17 * 60, {28, 0.5}}};
static const struct air_spell hot[] = {{0, {30, 0.5}}};
/* Days 4 and 6 of the epoch: Monday and Wednesday. */
static const struct air_day dated[] = {{6, hot, 1}};
static const struct day_range closed[] = {{6, 6}};

struct warm_row {
    struct row row;
    int from, to; /* minutes */
    bool close;
    double want;
};

static const struct warm_row warm[] = {
    {ROW("the morning only"), 4 * 1440 + 480, 4 * 1440 + 600, false, 10},
    {ROW("a working day; the hot evening is free"), 4 * 1440, 5 * 1440, false, 21},
    {ROW("a dated hot day"), 4 * 1440, 8 * 1440, false, 30},
    {ROW("a dated hot day on which the shop is closed"), 4 * 1440, 8 * 1440, true, 21},
    {ROW("a weekend: nobody works, the whole air counts"), 9 * 1440, 10 * 1440 + 1439, false, 28},
    {ROW("one moment"), 4 * 1440 + 720, 4 * 1440 + 720, false, 21},
};

static void warmest_is(void **state)
{
    const struct warm_row *r = *state;
    struct shop shop;
    shop_default(&shop);
    shop.air = (struct air_year){{0, spells, 3}, dated, 1, false, NULL, 0};
    shop.closed = closed;
    shop.closed_count = r->close ? 1 : 0;
    check_double(&r->row, shop_warmest_c(&shop, &utc, r->from, r->to), r->want, 0);
}

struct country_row {
    struct row row;
    const char *zone;
    enum country said, want;
};

static const struct country_row countries[] = {
    {ROW("as the shop says it"), "America/New_York", COUNTRY_UK, COUNTRY_UK},
    {ROW("a city"), "America/New_York", COUNTRY_OTHER, COUNTRY_US},
    {ROW("the last city of the list"), "Pacific/Honolulu", COUNTRY_OTHER, COUNTRY_US},
    {ROW("a family of zones"), "US/Eastern", COUNTRY_OTHER, COUNTRY_US},
    {ROW("a family of a state"), "America/North_Dakota/Center", COUNTRY_OTHER, COUNTRY_US},
    {ROW("a neighbour"), "America/Toronto", COUNTRY_OTHER, COUNTRY_OTHER},
    {ROW("London"), "Europe/London", COUNTRY_OTHER, COUNTRY_UK},
    {ROW("Belfast"), "Europe/Belfast", COUNTRY_OTHER, COUNTRY_UK},
    {ROW("elsewhere in Europe"), "Europe/Berlin", COUNTRY_OTHER, COUNTRY_EU},
    {ROW("no name"), NULL, COUNTRY_OTHER, COUNTRY_OTHER},
};

static void country_is(void **state)
{
    const struct country_row *r = *state;
    struct zone zone = utc;
    struct shop shop;
    shop_default(&shop);
    shop.country = r->said;
    zone.name = r->zone;
    check_int(&r->row, shop_country(&shop, &zone), r->want);
}

/* Monday 4 January 2027, open 08:00-17:00 on Mondays alone, and never where every day is closed. */
static void the_nearest_hours(void **state)
{
    (void)state;
    static const struct stretch stretch = {8 * 60, 17 * 60};
    const int64_t monday = date_days((struct date){2027, 1, 4});
    const struct day_range always = {monday - 10000, monday + 10000};
    int64_t minute;
    struct shop shop;
    shop_default(&shop);
    for (int day = 0; day < 7; day++)
        shop.hours[day] = (struct shop_day){&stretch, day == 0 ? 1 : 0};
    check_true(HERE, shop_nearest_hours(&shop, &utc, monday, false, &minute), "on the day itself");
    check_int(HERE, minute, monday * DAY_MINUTES + 8 * 60);
    check_true(HERE, shop_nearest_hours(&shop, &utc, monday + 1, false, &minute), "a week later");
    check_int(HERE, minute, (monday + 7) * DAY_MINUTES + 8 * 60);
    check_true(HERE, shop_nearest_hours(&shop, &utc, monday + 6, true, &minute), "back to the Monday");
    check_int(HERE, minute, monday * DAY_MINUTES + 17 * 60);
    shop.closed = &always;
    shop.closed_count = 1;
    check_true(HERE, !shop_nearest_hours(&shop, &utc, monday, false, &minute), "never");
    check_true(HERE, !shop_nearest_hours(&shop, &utc, monday, true, &minute), "nor before");
}

/* Eleven years are looked through, 4000 days, the first of which is the day itself: a shop that opens on the last of them is still
 * found. */
static void open_after_eleven_years(void **state)
{
    (void)state;
    static const struct stretch stretch = {8 * 60, 17 * 60};
    const int64_t monday = date_days((struct date){2027, 1, 4});
    struct day_range away = {monday, monday + 3998};
    int64_t minute;
    struct shop shop;
    shop_default(&shop);
    for (int day = 0; day < 7; day++)
        shop.hours[day] = (struct shop_day){&stretch, 1};
    shop.closed = &away;
    shop.closed_count = 1;
    check_true(HERE, shop_nearest_hours(&shop, &utc, monday, false, &minute), "on the last day");
    check_int(HERE, minute, (monday + 3999) * DAY_MINUTES + 8 * 60);
    away.last_day++;
    check_true(HERE, !shop_nearest_hours(&shop, &utc, monday, false, &minute), "a day longer");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(names), CHECK_TEST(defaults_of_the_contract),
                     CHECK_ROWS(defaults, default_is), CHECK_ROWS(warm, warmest_is),
                     CHECK_ROWS(countries, country_is), CHECK_TEST(the_nearest_hours),
                     CHECK_TEST(open_after_eleven_years));
}
