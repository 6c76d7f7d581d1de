/* The air of the shop: dew points against published ones, and which air holds when. */
#include "check.h"

#include "base/moment.h"
#include "finish/air.h"

#include <math.h>

struct dew_row {
    struct row row;
    struct air air;
    double want_c, tolerance;
};

/* WMO-No. 8 annex 4.B, derived; Bolton 1980 and the Arizona form agree within 0.02 C. The tolerance is
 * relative to the value. */
static const struct dew_row dew_points[] = {
    {ROW("20 C 50 %"), {20, 0.50}, 9.26, 0.005 / 9.26},
    {ROW("23 C 50 %"), {23, 0.50}, 12.01, 0.005 / 12.01},
    {ROW("25 C 60 %"), {25, 0.60}, 16.69, 0.005 / 16.69},
    {ROW("10 C 80 %"), {10, 0.80}, 6.71, 0.005 / 6.71},
    {ROW("saturated"), {15, 1.0}, 15, 1e-12},
    /* A chart, which reads low: 70 F 65 % -> 57 F, to 2.5 F. */
    {ROW("70 F 65 % of a chart"), {190 / 9.0, 0.65}, 125 / 9.0, 2.5 / 1.8 / (125 / 9.0)},
};

static void dew_point_is(void **state)
{
    const struct dew_row *r = *state;
    check_double(&r->row, air_dew_point_c(r->air), r->want_c, r->tolerance);
}

static void vapour(void **state)
{
    (void)state;
    check_double(HERE, air_saturation_hpa(0), 6.112, 1e-15);
    check_double(HERE, air_deficit_hpa((struct air){0, 0.5}), 3.056, 1e-15);
    check_double(HERE, air_deficit_hpa((struct air){23, 1.0}), 0, 0);
    check_true(HERE, air_dew_point_c((struct air){23, 0}) == -INFINITY, "dry air has no dew point");
}

static const struct air_spell daily[] = {{8 * 60, {18, 0.55}}, {18 * 60, {13, 0.62}}};
static const struct air_spell monday[] = {{6 * 60, {25, 0.40}}, {20 * 60, {9, 0.70}}};
/* 1970-01-05 was a Monday: day 4. */
static const struct air_day dated[] = {{4, monday, 2}};
static const struct air_year year = {{0, daily, 2}, dated, 1, false, NULL, 0};
static const struct zone utc = {"UTC", 0, NULL};

struct at_row {
    struct row row;
    int day, minute;
    double want_c;
    int until_day, until_minute;
};

static const struct at_row moments[] = {
    {ROW("before the first spell: last of the day before"), 3, 7 * 60, 13, 3, 8 * 60},
    {ROW("at a spell's begin"), 3, 8 * 60, 18, 3, 18 * 60},
    {ROW("a minute before"), 3, 18 * 60 - 1, 18, 3, 18 * 60},
    {ROW("evening, into the dated day"), 3, 20 * 60, 13, 4, 6 * 60},
    {ROW("dated day before its first spell"), 4, 5 * 60, 13, 4, 6 * 60},
    {ROW("dated day"), 4, 12 * 60, 25, 4, 20 * 60},
    {ROW("the dated evening goes on until the next day's first spell"), 5, 60, 9, 5, 8 * 60},
    {ROW("the daily round again"), 5, 9 * 60, 18, 5, 18 * 60},
};

static void air_is(void **state)
{
    const struct at_row *r = *state;
    int64_t until;
    struct air air = air_at(&year, &utc, r->day * 1440 + r->minute, &until);
    check_double(&r->row, air.temperature_c, r->want_c, 0);
    check_int(&r->row, until, r->until_day * 1440 + r->until_minute);
}

static void constant_air_never_changes(void **state)
{
    (void)state;
    static const struct air_spell one[] = {{0, {23, 0.5}}};
    static const struct air_year flat = {{0, one, 1}, NULL, 0, false, NULL, 0};
    int64_t until;
    air_at(&flat, &utc, 12345, &until);
    check_int(HERE, until, INT64_MAX);
    static const struct air_year once = {{0, one, 1}, dated, 1, false, NULL, 0};
    air_at(&once, &utc, 2 * 1440 + 5, &until);
    check_true(HERE, until < INT64_MAX, "a dated day lies ahead");
    air_at(&once, &utc, 7 * 1440, &until);
    check_int(HERE, until, INT64_MAX);
}

/* The wall falls back from 02:00 to 01:00 on day 10, at 01:00 UTC: 01:30 comes twice, its spell begins once. */
static void repeated_hour(void **state)
{
    (void)state;
    static const struct zone_change changes[] = {{INT64_MIN, 60}, {10 * 1440 + 60, 0}};
    static const struct zone zone = {"Test", 2, changes};
    static const struct air_spell spells[] = {{0, {10, 0.5}}, {90, {20, 0.5}}};
    static const struct air_year air = {{0, spells, 2}, NULL, 0, false, NULL, 0};
    int64_t until;
    /* First 01:30 is 00:30 UTC; the wall's second 01:10 is 01:10 UTC. */
    check_double(HERE, air_at(&air, &zone, 10 * 1440 + 29, &until).temperature_c, 10, 0);
    check_int(HERE, until, 10 * 1440 + 30);
    check_double(HERE, air_at(&air, &zone, 10 * 1440 + 70, &until).temperature_c, 20, 0);
    check_int(HERE, until, 11 * 1440);
}

/* The wall jumps from 02:00 to 03:00 on day 10, at 02:00 UTC: a spell from 02:30 begins at 03:30 on the wall. */
static void skipped_hour(void **state)
{
    (void)state;
    static const struct zone_change changes[] = {{INT64_MIN, 0}, {10 * 1440 + 120, 60}};
    static const struct zone zone = {"Test", 2, changes};
    static const struct air_spell spells[] = {{0, {10, 0.5}}, {150, {20, 0.5}}};
    static const struct air_year air = {{0, spells, 2}, NULL, 0, false, NULL, 0};
    int64_t until;
    check_double(HERE, air_at(&air, &zone, 10 * 1440 + 130, &until).temperature_c, 10, 0);
    check_int(HERE, until, 10 * 1440 + 150);
    check_double(HERE, air_at(&air, &zone, 10 * 1440 + 150, &until).temperature_c, 20, 0);
}

/* A round of 18 C from 07:00 and 12 C from 18:00; measured 9 C at 14:00 and 10 C at 16:00 on day 10, and 5 C at 20:00: each
 * holds until the next, or until the round goes on (by hand). */
struct measured_row {
    struct row row;
    int minute;
    double want_c;
    int until;
};

static const struct measured_row measured_air[] = {
    {ROW("before"), 13 * 60, 18, 14 * 60},      {ROW("measured"), 14 * 60, 9, 16 * 60},
    {ROW("again"), 17 * 60, 10, 18 * 60},       {ROW("the round goes on"), 18 * 60, 12, 20 * 60},
    {ROW("in the night"), 23 * 60, 5, 31 * 60}, {ROW("the next morning"), 31 * 60, 18, 42 * 60},
};

static void measured_air_is(void **state)
{
    const struct measured_row *r = *state;
    static const struct air_spell spells[] = {{7 * 60, {18, 0.5}}, {18 * 60, {12, 0.5}}};
    static const struct air_measured measured[] = {{10 * 1440 + 14 * 60, {9, 0.8}, 0},
                                                   {10 * 1440 + 16 * 60, {10, 0.8}, 1},
                                                   {10 * 1440 + 20 * 60, {5, 0.8}, 2}};
    static const struct air_year air = {{0, spells, 2}, NULL, 0, false, measured, 3};
    int64_t until;
    check_double(&r->row, air_at(&air, &utc, 10 * 1440 + r->minute, &until).temperature_c, r->want_c, 0);
    check_int(&r->row, until, 10 * 1440 + r->until);
}

static void measured_in_constant_air(void **state)
{
    (void)state;
    static const struct air_spell spell = {0, {20, 0.5}};
    static const struct air_measured measured = {10 * 1440 + 60, {9, 0.8}, 0};
    static const struct air_year air = {{0, &spell, 1}, NULL, 0, false, &measured, 1};
    int64_t until;
    check_double(HERE, air_at(&air, &utc, 10 * 1440, &until).temperature_c, 20, 0);
    check_int(HERE, until, 10 * 1440 + 60);
    check_double(HERE, air_at(&air, &utc, 10 * 1440 + 100, &until).temperature_c, 9, 0);
    check_int(HERE, until, 11 * 1440);
    check_double(HERE, air_at(&air, &utc, 11 * 1440, &until).temperature_c, 20, 0);
    check_int(HERE, until, INT64_MAX);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(dew_points, dew_point_is), CHECK_TEST(vapour), CHECK_ROWS(moments, air_is),
                     CHECK_TEST(constant_air_never_changes), CHECK_TEST(repeated_hour),
                     CHECK_TEST(skipped_hour), CHECK_ROWS(measured_air, measured_air_is),
                     CHECK_TEST(measured_in_constant_air));
}
