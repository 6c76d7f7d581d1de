/* Quantities for people: rounded to what the trade reads, in metric or US units. The factors are those of
 * measure_units.c. */
#include "base/measure.h"

#include "base/coverage.h"
#include "base/measure_units.h"
#include "base/number.h"
#include "base/number_scan.h"

#include <assert.h>
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* One base unit in `name`. */
static double per_unit(enum dimension dimension, const char *name)
{
    const struct unit *unit = unit_find(dimension, name, strlen(name));
    assert(unit);
    return (double)unit->down / (double)unit->up;
}

static struct text_short rounded(double value, int decimals, const char *unit)
{
    return number_with(number_round(value, decimals), unit);
}

/* Sixteenths of an inch as `5 ft 2 3/8 in`, feet from 96 inches on. */
static struct text_short inches_format(int64_t sixteenths)
{
    struct text_short out;
    int64_t inches = sixteenths / 16, feet = inches > 96 ? inches / 12 : 0;
    int top = (int)(sixteenths % 16), bottom = 16, n = 0;
    const int size = sizeof out.text;
    inches -= feet * 12;
    for (; top && top % 2 == 0; top /= 2)
        bottom /= 2;
    if (feet)
        n += snprintf(out.text, (size_t)size, "%" PRId64 " ft", feet);
    if (feet && (inches || top))
        n += snprintf(out.text + n, (size_t)(size - n), " ");
    if (inches || (!feet && !top))
        n += snprintf(out.text + n, (size_t)(size - n), "%" PRId64 "%s", inches, top ? " " : "");
    if (top)
        n += snprintf(out.text + n, (size_t)(size - n), "%d/%d", top, bottom);
    if (!feet || inches || top)
        snprintf(out.text + n, (size_t)(size - n), " in");
    return out;
}

struct text_short length_format(double length_m, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return length_m < 10 ? rounded(length_m * 1000, 1, "mm") : rounded(length_m, 2, "m");
    double inches = length_m * per_unit(DIM_LENGTH, "in");
    double nearest = round(inches * 16) / 16;
    if (fabs(inches - nearest) / per_unit(DIM_LENGTH, "in") > 0.05e-3)
        return rounded(inches, 3, "in");
    return inches_format((int64_t)(nearest * 16));
}

struct text_short area_format(double area_m2, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return area_m2 > 0 && area_m2 < 0.01 ? rounded(area_m2 * 10000, 1, "cm2") : rounded(area_m2, 2, "m2");
    double feet = area_m2 * per_unit(DIM_AREA, "ft2");
    return feet > 0 && feet < 1 ? rounded(feet * 144, 1, "in2") : rounded(feet, 1, "ft2");
}

struct text_short volume_format(double volume_l, enum unit_system system)
{
    if (system == UNITS_METRIC) {
        double ml = volume_l * 1000;
        return ml < 999.5 ? rounded(ml, ml < 99.95 ? 1 : 0, "ml") : rounded(volume_l, 2, "l");
    }
    double gallons = volume_l * per_unit(DIM_VOLUME, "gal");
    if (gallons >= 0.99)
        return rounded(gallons, 2, "gal");
    if (gallons * 4 >= 0.99)
        return rounded(gallons * 4, 2, "qt");
    return rounded(volume_l * per_unit(DIM_VOLUME, "fl oz"), 1, "fl oz");
}

struct text_short mass_format(double mass_g, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return mass_g < 999.5 ? rounded(mass_g, mass_g < 99.95 ? 1 : 0, "g")
                              : rounded(mass_g / 1000, 2, "kg");
    double ounces = mass_g * per_unit(DIM_MASS, "oz");
    return ounces < 15.95 ? rounded(ounces, 1, "oz") : rounded(ounces / 16, 2, "lb");
}

struct text_short density_format(double density_kg_per_l, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return rounded(density_kg_per_l, 2, "kg/l");
    double lb_per_l = density_kg_per_l * 1000 * per_unit(DIM_MASS, "lb");
    return rounded(lb_per_l / per_unit(DIM_VOLUME, "gal"), 2, "lb/gal");
}

struct text_short thickness_format(double thickness_m, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return rounded(thickness_m * 1e6, 0, "um");
    return rounded(thickness_m * per_unit(DIM_THIN, "mil"), 1, "mil");
}

struct text_short temperature_format(double temperature_c, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return rounded(temperature_c, 1, "C");
    return rounded(temperature_c * 9 / 5 + 32, 0, "F");
}

struct text_short rate_format(double rate_m2_per_h, enum unit_system system)
{
    if (system == UNITS_METRIC)
        return rounded(rate_m2_per_h, 1, "m2/h");
    return rounded(rate_m2_per_h * per_unit(DIM_AREA, "ft2"), 0, "ft2/h");
}

struct text_short coverage_format(struct coverage coverage, enum unit_system system)
{
    static const char *const metric[] = {
        [COVERAGE_M2_PER_L] = "m2/l",
        [COVERAGE_ML_PER_M2] = "ml/m2",
        [COVERAGE_G_PER_M2] = "g/m2",
        [COVERAGE_M2_PER_KG] = "m2/kg",
    };
    double feet = per_unit(DIM_AREA, "ft2");
    if (system == UNITS_METRIC)
        return rounded(coverage.value, 1, metric[coverage.form]);
    if (coverage.form == COVERAGE_G_PER_M2)
        return rounded(coverage.value * per_unit(DIM_MASS, "oz") / feet, 2, "oz/ft2");
    if (coverage.form == COVERAGE_M2_PER_KG)
        return rounded(coverage.value / 1000 * feet / per_unit(DIM_MASS, "lb"), 0, "ft2/lb");
    return rounded(coverage_m2_per_l(coverage, 0) * feet / per_unit(DIM_VOLUME, "gal"), 0, "ft2/gal");
}

struct text_short amount_format(struct amount amount, enum unit_system system)
{
    return amount.by_mass ? mass_format(amount.value, system) : volume_format(amount.value, system);
}

struct text_short share_format(double share)
{
    return rounded(share * 100, 1, "%");
}

struct text_short span_format(int64_t span_min)
{
    static const char *const names[] = {"d", "h", "min"};
    struct text_short out;
    uint64_t whole = span_min < 0 ? 0 - (uint64_t)span_min : (uint64_t)span_min;
    const uint64_t parts[] = {whole / 1440, whole / 60 % 24, whole % 60};
    int n = 0;
    const char *before = span_min < 0 ? "-" : "";
    for (int i = 0; i < 3; i++)
        if (parts[i] || (i == 2 && whole == 0)) {
            n += snprintf(out.text + n, sizeof out.text - (size_t)n, "%s%" PRIu64 " %s", before, parts[i],
                          names[i]);
            before = " ";
        }
    return out;
}
