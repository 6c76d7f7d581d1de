/* Quantities of one number and one unit, or one unit per another. */
#include "base/measure.h"

#include "base/coverage.h"
#include "base/measure_scan.h"

static bool single_parse(const char *text, const struct kind *kind, double *value, struct err *fault)
{
    struct folded folded;
    struct exact number;
    const struct unit *unit;
    return kind_fold(text, kind, &folded, fault) && kind_single(folded.text, kind, &number, &unit, fault) &&
           kind_round(number, kind, value, fault);
}

bool volume_parse(const char *text, double *volume_l, struct err *fault)
{
    static const struct kind volume = {DIM_VOLUME, "a volume", "\"250 ml\" or \"1 l\""};
    return single_parse(text, &volume, volume_l, fault);
}

bool mass_parse(const char *text, double *mass_g, struct err *fault)
{
    static const struct kind mass = {DIM_MASS, "a mass", "\"120 g\" or \"4 oz\""};
    return single_parse(text, &mass, mass_g, fault);
}

bool thickness_parse(const char *text, double *thickness_m, struct err *fault)
{
    static const struct kind thickness = {DIM_THIN | DIM_LENGTH, "a thickness", "\"125 um\" or \"5 mil\""};
    return single_parse(text, &thickness, thickness_m, fault);
}

bool share_parse(const char *text, double *share, struct err *fault)
{
    static const struct kind kind = {DIM_SHARE, "a share", "\"50 %\""};
    return single_parse(text, &kind, share, fault);
}

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

/* One unit per another, with the dimensions a and b. */
static bool per_parse(const char *text, const struct kind *kind, enum dimension a, enum dimension b,
                      struct exact *number, struct err *fault)
{
    struct folded folded;
    const struct unit *sides[2];
    if (!kind_fold(text, kind, &folded, fault) || !kind_per(folded.text, kind, number, sides, fault))
        return false;
    if (sides[0]->dimension != a || sides[1]->dimension != b)
        return kind_fault(kind, fault);
    *number = exact_per(*number, sides[0], sides[1]);
    return true;
}

bool density_parse(const char *text, double *density_kg_per_l, struct err *fault)
{
    static const struct kind kind = {DIM_MASS | DIM_VOLUME, "a density", "\"0.9 kg/l\" or \"7.5 lb/gal\""};
    struct exact number;
    return per_parse(text, &kind, DIM_MASS, DIM_VOLUME, &number, fault) &&
           kind_round(exact_times(number, 1, 1000), &kind, density_kg_per_l, fault);
}

bool rate_parse(const char *text, double *rate_m2_per_h, struct err *fault)
{
    static const struct kind kind = {DIM_AREA | DIM_SPAN, "a rate", "\"7 m2/h\""};
    struct exact number;
    double rate;
    if (!per_parse(text, &kind, DIM_AREA, DIM_SPAN, &number, fault) ||
        !kind_round(exact_times(number, 60, 1), &kind, &rate, fault))
        return false;
    if (rate == 0)
        return err_say(fault, "a rate above zero, such as \"7 m2/h\"");
    *rate_m2_per_h = rate;
    return true;
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
