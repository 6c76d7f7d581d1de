/* American Softwood Lumber Standard PS 20, table of dressed dry sizes of boards and dimension: 1x4, 1x8, 2x4, 2x10 are
 * published values that the tests check; the other rows are from memory. NHLA surfaced thicknesses: 4/4, 5/4, 6/4 and
 * 8/4 published, the others from memory. */
#include "base/lumber.h"

#include "base/number_scan.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

struct dressed {
    double nominal_in, dressed_in;
};

static const struct dressed thicknesses[] = {
    {1, 0.75}, {1.25, 1}, {1.5, 1.25}, {2, 1.5}, {2.5, 2}, {3, 2.5}, {3.5, 3}, {4, 3.5},
};

static const struct dressed widths[] = {
    {2, 1.5},  {3, 2.5},   {4, 3.5},    {5, 4.5},    {6, 5.5},    {7, 6.5},    {8, 7.25},
    {9, 8.25}, {10, 9.25}, {11, 10.25}, {12, 11.25}, {14, 13.25}, {16, 15.25},
};

/* By quarters: 4/4 is 1 inch rough. */
static const struct dressed surfaced[] = {
    {1, 13.0 / 16}, {1.25, 17.0 / 16}, {1.5, 21.0 / 16}, {1.75, 1.5},
    {2, 1.75},      {2.5, 2.25},       {3, 2.75},        {4, 3.75},
};

static const double INCH_M = 0.0254;

static double look_up(const struct dressed *table, size_t count, double nominal_in)
{
    for (size_t i = 0; i < count; i++)
        if (table[i].nominal_in == nominal_in)
            return table[i].dressed_in * INCH_M;
    return 0;
}

#define LOOK_UP(table, nominal_in) look_up(table, sizeof(table) / sizeof(table)[0], nominal_in)

/* `5/4`, and then perhaps a word. */
static bool hardwood_parse(const char *text, struct lumber *lumber, struct err *fault)
{
    const char *at = text;
    uint64_t quarters;
    if (!whole_scan(&at, FRACTION_DIGITS, &quarters) || at[0] != '/' || at[1] != '4' ||
        (at[2] != '\0' && at[2] != ' '))
        return err_say(fault, "a size such as \"1x4\", \"4/4\" or \"5/4 rough\"");
    at += 2 + strspn(at + 2, " ");
    bool rough = text_same(at, "rough");
    if (!rough && *at != '\0' && !text_same(at, "surfaced") && !text_same(at, "s2s"))
        return err_say(fault, "\"rough\" or \"surfaced\" behind the thickness");
    double nominal_in = (double)quarters / 4, thickness_m = LOOK_UP(surfaced, nominal_in);
    if (thickness_m == 0)
        return err_say(fault, "a hardwood thickness: 4/4, 5/4, 6/4, 7/4, 8/4, 10/4, 12/4 or 16/4");
    *lumber = (struct lumber){rough ? nominal_in * INCH_M : thickness_m, 0};
    return true;
}

bool lumber_parse(const char *text, struct lumber *lumber, struct err *fault)
{
    static const char form[] = "a size such as \"1x4\", \"2x6\", \"4/4\" or \"5/4 rough\"";
    struct folded folded;
    struct exact nominal[2];
    if (!text_fold(text, &folded))
        return err_say(fault, form);
    const char *at = folded.text;
    if (!strpbrk(at, "xX"))
        return hardwood_parse(at, lumber, fault);
    for (int i = 0; i < 2; i++) {
        if (number_scan(&at, &nominal[i]) != SCAN_READ)
            return err_say(fault, form);
        at += strspn(at, " ");
        if (i == 0 && (*at == 'x' || *at == 'X'))
            at += 1 + strspn(at + 1, " ");
        else if (i == 0 || *at != '\0')
            return err_say(fault, form);
    }
    struct lumber found = {LOOK_UP(thicknesses, exact_round(nominal[0])),
                           LOOK_UP(widths, exact_round(nominal[1]))};
    if (found.thickness_m == 0)
        return err_say(fault, "a softwood thickness: 1, 5/4, 6/4, 2, 2 1/2, 3, 3 1/2 or 4");
    if (found.width_m == 0)
        return err_say(fault, "a softwood width of 2 to 12, 14 or 16");
    *lumber = found;
    return true;
}
