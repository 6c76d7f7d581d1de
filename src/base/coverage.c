#include "base/coverage.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/unit.h"

#include <assert.h>
#include <string.h>

bool amount_parse(const char *text, struct amount *amount, struct err *fault)
{
    static const struct kind kind = {DIM_VOLUME | DIM_MASS, "an amount", "\"500 ml\" or \"1 kg\""};
    struct folded folded;
    struct exact number;
    const struct unit *unit;
    double value;
    if (!kind_fold(text, &kind, &folded, fault) || !kind_single(folded.text, &kind, &number, &unit, fault) ||
        !kind_round(number, &kind, &value, fault))
        return false;
    *amount = (struct amount){unit->dimension == DIM_MASS, value};
    return true;
}

bool coverage_by_mass(struct coverage coverage)
{
    return coverage.form == COVERAGE_G_PER_M2 || coverage.form == COVERAGE_M2_PER_KG;
}

double coverage_m2_per_l(struct coverage coverage, double density_kg_per_l)
{
    assert(coverage.value > 0 && (!coverage_by_mass(coverage) || density_kg_per_l > 0));
    switch (coverage.form) {
    case COVERAGE_ML_PER_M2:
        return 1000 / coverage.value;
    case COVERAGE_G_PER_M2:
        return 1000 * density_kg_per_l / coverage.value;
    case COVERAGE_M2_PER_KG:
        return coverage.value * density_kg_per_l;
    default:
        return coverage.value;
    }
}

bool ratio_parse(const char *text, struct ratio *ratio, struct err *fault)
{
    static const char such[] = "a ratio such as \"2:1\" or \"100:35\"";
    struct folded folded;
    struct ratio found = {0, {0}};
    if (!text_fold(text, &folded))
        return err_say(fault, such);
    const char *at = folded.text;
    for (;;) {
        struct exact number;
        enum scan scan = number_scan(&at, &number);
        if (scan != SCAN_READ)
            return number_fault(scan, at, "a ratio", such, fault);
        double part = exact_round(number);
        if (part < 1e-9 || part > 1e12)
            return err_say(fault, "a ratio with every part above zero, such as \"2:1\"");
        if (found.count == RATIO_MOST)
            return err_say(fault, "a ratio of at most %d parts", RATIO_MOST);
        found.part[found.count++] = part;
        at = blanks_skip(at);
        if (*at != ':')
            break;
        at = blanks_skip(at + 1);
    }
    if (*at != '\0' || found.count < 2)
        return err_say(fault, such);
    *ratio = found;
    return true;
}

bool proportion_parse(const char *text, double *second_per_first, struct err *fault)
{
    struct ratio ratio;
    if (!strchr(text, ':'))
        return share_parse(text, second_per_first, NULL) ||
               err_say(fault, "a ratio such as \"2:1\", or a share such as \"10 %%\"");
    if (!ratio_parse(text, &ratio, fault))
        return false;
    if (ratio.count != 2)
        return err_say(fault, "a ratio of two parts, such as \"2:1\"");
    *second_per_first = ratio.part[1] / ratio.part[0];
    return true;
}

char *ratio_write(struct arena *arena, const struct ratio *ratio)
{
    struct buf buf;
    buf_init(&buf, arena);
    for (size_t i = 0; i < ratio->count; i++)
        buf_addf(&buf, "%s%s", i ? ":" : "", number_format(ratio->part[i]).text);
    return buf.text;
}

/* The four forms: what stands on either side, and the factor from base units per base unit to that of the form. */
struct form {
    enum dimension a, b;
    uint64_t up;
    enum coverage_form form;
};

bool coverage_parse(const char *text, struct coverage *coverage, struct err *fault)
{
    static const struct kind kind = {DIM_AREA | DIM_VOLUME | DIM_MASS, "a coverage",
                                     "\"12 m2/l\", \"500 ft2/gal\" or \"110 g/m2\""};
    static const struct form forms[] = {
        {DIM_AREA, DIM_VOLUME, 1, COVERAGE_M2_PER_L},
        {DIM_VOLUME, DIM_AREA, 1000, COVERAGE_ML_PER_M2},
        {DIM_MASS, DIM_AREA, 1, COVERAGE_G_PER_M2},
        {DIM_AREA, DIM_MASS, 1000, COVERAGE_M2_PER_KG},
    };
    struct folded folded;
    struct exact number;
    const struct unit *sides[2];
    if (!kind_fold(text, &kind, &folded, fault) || !kind_per(folded.text, &kind, &number, sides, fault))
        return false;
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++) {
        double value;
        if (sides[0]->dimension != forms[i].a || sides[1]->dimension != forms[i].b)
            continue;
        if (!kind_round(exact_times(exact_per(number, sides[0], sides[1]), forms[i].up, 1), &kind, &value,
                        fault))
            return false;
        if (value == 0)
            return err_say(fault, "a coverage above zero, such as %s", kind.such);
        *coverage = (struct coverage){forms[i].form, value};
        return true;
    }
    return kind_fault(&kind, fault);
}

struct text_short amount_write(struct amount amount)
{
    return amount.by_mass ? mass_write(amount.value) : volume_write(amount.value);
}

struct text_short coverage_write(struct coverage coverage)
{
    static const char *const units[] = {
        [COVERAGE_M2_PER_L] = "m2/l",
        [COVERAGE_ML_PER_M2] = "ml/m2",
        [COVERAGE_G_PER_M2] = "g/m2",
        [COVERAGE_M2_PER_KG] = "m2/kg",
    };
    return unit_write(coverage.value, 0, units[coverage.form]);
}

struct text_short coverage_format(struct coverage coverage, enum unit_system system)
{
    static const char *const metric[] = {
        [COVERAGE_M2_PER_L] = "m²/L",
        [COVERAGE_ML_PER_M2] = "ml/m²",
        [COVERAGE_G_PER_M2] = "g/m²",
        [COVERAGE_M2_PER_KG] = "m²/kg",
    };
    double feet = unit_per_base(DIM_AREA, "ft2");
    if (system == UNITS_METRIC)
        return unit_round(coverage.value, 1, metric[coverage.form]);
    if (coverage.form == COVERAGE_G_PER_M2)
        return unit_round(coverage.value * unit_per_base(DIM_MASS, "oz") / feet, 2, "oz/ft²");
    if (coverage.form == COVERAGE_M2_PER_KG)
        return unit_round(coverage.value / 1000 * feet / unit_per_base(DIM_MASS, "lb"), 0, "ft²/lb");
    return unit_round(coverage_m2_per_l(coverage, 0) * feet / unit_per_base(DIM_VOLUME, "gal"), 0, "ft²/gal");
}

struct text_short amount_format(struct amount amount, enum unit_system system)
{
    return amount.by_mass ? mass_format(amount.value, system) : volume_format(amount.value, system);
}
