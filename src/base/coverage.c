#include "base/coverage.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/measure.h"
#include "base/number.h"
#include "base/number_scan.h"

#include <assert.h>
#include <string.h>

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

static const char *blanks(const char *at)
{
    while (*at == ' ' || *at == '\t')
        at++;
    return at;
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
        at = blanks(at);
        if (*at != ':')
            break;
        at = blanks(at + 1);
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
