/* The shortest text that reads back as the very same double: the base unit's digits with the decimal point moved, which
 * costs no rounding. */
#include "base/measure.h"

#include "base/coverage.h"
#include "base/number_scan.h"

static struct text_short with_unit(double value, int shift, const char *unit)
{
    return number_with(number_shifted(value, shift), unit);
}

struct text_short length_write(double length_m)
{
    return with_unit(length_m, 3, "mm");
}

struct text_short area_write(double area_m2)
{
    return with_unit(area_m2, 0, "m2");
}

struct text_short volume_write(double volume_l)
{
    return volume_l < 1 ? with_unit(volume_l, 3, "ml") : with_unit(volume_l, 0, "l");
}

struct text_short mass_write(double mass_g)
{
    return mass_g < 1000 ? with_unit(mass_g, 0, "g") : with_unit(mass_g, -3, "kg");
}

struct text_short density_write(double density_kg_per_l)
{
    return with_unit(density_kg_per_l, 0, "kg/l");
}

struct text_short thickness_write(double thickness_m)
{
    return with_unit(thickness_m, 6, "um");
}

struct text_short temperature_write(double temperature_c)
{
    return with_unit(temperature_c, 0, "C");
}

struct text_short share_write(double share)
{
    return with_unit(share, 2, "%");
}

struct text_short rate_write(double rate_m2_per_h)
{
    return with_unit(rate_m2_per_h, 0, "m2/h");
}

struct text_short span_write(double span_min)
{
    return with_unit(span_min, 0, "min");
}

struct text_short coverage_write(struct coverage coverage)
{
    static const char *const units[] = {
        [COVERAGE_M2_PER_L] = "m2/l",
        [COVERAGE_ML_PER_M2] = "ml/m2",
        [COVERAGE_G_PER_M2] = "g/m2",
        [COVERAGE_M2_PER_KG] = "m2/kg",
    };
    return with_unit(coverage.value, 0, units[coverage.form]);
}

struct text_short amount_write(struct amount amount)
{
    return amount.by_mass ? mass_write(amount.value) : volume_write(amount.value);
}
