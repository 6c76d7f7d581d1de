/* What no reader of quantities accepts, with the exact words of what was expected. */
#include "check.h"

#include "base/coverage.h"
#include "base/length.h"
#include "base/measure.h"
#include "base/number.h"

struct refusal_row {
    struct row row;
    const char *text, *expected;
};

#define LENGTH "a length such as \"19 mm\" or \"3/4 in\""

static const struct refusal_row lengths[] = {
    {ROW("unknown unit"), "3/4 foo", LENGTH},
    {ROW("unit nearly right"), "19 mn", LENGTH " (did you mean \"mm\"?)"},
    {ROW("word nearly right"), "19 inhces", LENGTH " (did you mean \"inches\"?)"},
    {ROW("missing unit"), "19", "a length with a unit, such as \"19 mm\" or \"3/4 in\""},
    {ROW("decimal comma"), "1,5 mm", "a decimal point: write \"1.5\""},
    {ROW("thousands comma"), "1,500 mm", "a number without a comma: write \"1500\" or \"1.500\""},
    {ROW("two commas"), "1,500,000 mm", "a number without commas"},
    {ROW("point and comma"), "1.500,5 mm", "a number without commas"},
    {ROW("negative"), "-3 mm", "a length that is not negative"},
    {ROW("minus sign"),
     "\xE2\x88\x92"
     "3 mm",
     "a length that is not negative"},
    {ROW("exponent"), "1e3 mm", "a length written out, without exponent"},
    {ROW("overflow"), "1e400 mm", "a length written out, without exponent"},
    {ROW("NaN"), "nan mm", LENGTH},
    {ROW("infinity"), "inf mm", LENGTH},
    {ROW("empty"), "", LENGTH},
    {ROW("two lengths after feet"), "5' 2 in 3 in", LENGTH},
    {ROW("blank"), "  ", LENGTH},
    {ROW("unit alone"), "mm", LENGTH},
    {ROW("junk behind"), "19 mm!", LENGTH " (did you mean \"mm\"?)"},
    {ROW("junk before"), "~19 mm", LENGTH},
    {ROW("plus"), "+19 mm", LENGTH},
    {ROW("two lengths"), "19 mm 20 mm", LENGTH},
    {ROW("hexadecimal"), "0x10 mm", LENGTH},
    {ROW("point behind"), "12. mm", LENGTH},
    {ROW("two points"), "1.2.3 mm", LENGTH},
    {ROW("fraction of zero"), "3/0 in", LENGTH},
    {ROW("fraction above one behind a whole"), "3 5/4 in", LENGTH},
    {ROW("fraction behind a decimal"), "3.5 3/4 in", LENGTH},
    {ROW("two fractions"), "3/4 3/4 in", LENGTH},
    {ROW("fraction of a fraction"), "3/4/5 in", LENGTH},
    {ROW("superscript behind a digit"), "3\xC2\xB2 mm", LENGTH},
    {ROW("an area"), "3 m2", LENGTH},
    {ROW("mil is no length"), "5 mil", LENGTH},
    {ROW("inches before feet"), "2 in 5 ft", LENGTH},
    {ROW("inches without a unit"), "5' 2", "a length with a unit, such as \"19 mm\" or \"3/4 in\""},
    {ROW("feet not whole before inches"), "5.5' 2\"", LENGTH},
    {ROW("too many inches"), "5' 12\"", "less than 12 inches behind the feet"},
    {ROW("feet twice"), "5' 2'", LENGTH},
    {ROW("letters with blanks"), "5 m m", LENGTH " (did you mean \"mm\"?)"},
    {ROW("invalid UTF-8"), "19 mm\xFF", LENGTH},
    {ROW("a sign of no meaning"), "19 \xE2\x82\xAC", LENGTH},
    {ROW("a control character"), "19\x01mm", LENGTH},
    {ROW("larger than can be meant"), "1000000000001 m",
     "a length that can be meant, such as \"19 mm\" or \"3/4 in\""},
    {ROW("smaller than can be meant"), "0.0000001 mm",
     "a length that can be meant, such as \"19 mm\" or \"3/4 in\""},
    {ROW("fifty digits"), "11111111112222222222333333333344444444445555555555 mm",
     "a length of at most 48 digits"},
};

/* A refusal says what was expected and leaves the value alone. */
#define REFUSES(name, call, type, before, same)                                                              \
    static void name##_refuses(void **state)                                                                 \
    {                                                                                                        \
        const struct refusal_row *r = *state;                                                                \
        struct err fault = {.expected = ""};                                                                 \
        type got = before;                                                                                   \
        check_true(&r->row, !(call), "refused");                                                             \
        check_text(&r->row, fault.expected, r->expected);                                                    \
        check_true(&r->row, same, "left alone");                                                             \
    }
REFUSES(length, length_parse(r->text, LENGTH_NONE, &got, &fault), double, -7, got == -7)

#define AREA "an area such as \"1.8 m2\", \"20 sq ft\" or \"600 mm x 400 mm\""

static const struct refusal_row areas[] = {
    {ROW("a length"), "3 m", AREA " (did you mean \"m2\"?)"},
    {ROW("sf"), "3 sf", AREA " (did you mean \"ft2\"?)"},
    {ROW("one side without unit"), "300 x 120 mm", "both lengths with a unit, such as \"300 mm x 120 mm\""},
    {ROW("three sides"), "3 mm x 4 mm x 5 mm", AREA},
    {ROW("four sides"), "3 x 4 x 5 x 6", AREA},
    {ROW("nothing behind"), "3 mm x", LENGTH},
    {ROW("comma in a side"), "1,5 mm x 3 mm", "a decimal point: write \"1.5\""},
    {ROW("bare"), "3", "an area with a unit, such as \"1.8 m2\", \"20 sq ft\" or \"600 mm x 400 mm\""},
    {ROW("negative"), "-3 m2", "an area that is not negative"},
};
REFUSES(area, area_parse(r->text, LENGTH_MM, &got, &fault), double, -7, got == -7)

static const struct refusal_row volumes[] = {
    {ROW("missing unit"), "250", "a volume with a unit, such as \"250 ml\" or \"1 l\""},
    {ROW("ounces of what"), "12 oz", "a volume such as \"250 ml\" or \"1 l\" (did you mean \"fl oz\"?)"},
    {ROW("a mass"), "2 kg", "a volume such as \"250 ml\" or \"1 l\""},
    {ROW("negative"), "-2 l", "a volume that is not negative"},
    {ROW("nearly litres"), "2 litrse", "a volume such as \"250 ml\" or \"1 l\" (did you mean \"litre\"?)"},
};
REFUSES(volume, volume_parse(r->text, &got, &fault), double, -7, got == -7)

#define SPAN "a time span such as \"45 min\" or \"1 h 30 min\""

static const struct refusal_row spans[] = {
    {ROW("m is no minute"), "45 m", SPAN " (did you mean \"min\"?)"},
    {ROW("missing unit"), "45", "a time span with a unit, such as \"45 min\" or \"1 h 30 min\""},
    {ROW("second part without unit"), "1 h 30",
     "a time span with a unit, such as \"45 min\" or \"1 h 30 min\""},
    {ROW("small before large"), "30 min 1 h",
     "a time span with its largest unit first, such as \"45 min\" or \"1 h 30 min\""},
    {ROW("the same twice"), "1 h 1 h",
     "a time span with its largest unit first, such as \"45 min\" or \"1 h 30 min\""},
    {ROW("clock"), "1:30", SPAN},
    {ROW("half a minute"), "30 s", "a time span in whole minutes, such as \"45 min\" or \"1 h 30 min\""},
    {ROW("negative"), "-1 h", "a time span that is not negative"},
    {ROW("empty"), "", SPAN},
    {ROW("for ever"), "1001 y", "a time span of at most 1000 y"},
    {ROW("words"), "1 h and 5 min", SPAN},
};
REFUSES(span, span_parse(r->text, &got, &fault), int64_t, -7, got == -7)

static const struct refusal_row temperatures[] = {
    {ROW("missing unit"), "20", "a temperature with a unit, such as \"20 C\" or \"68 F\""},
    {ROW("degrees of what"), "20 \xC2\xB0", "a temperature such as \"20 C\" or \"68 F\""},
    {ROW("kelvin"), "293 K", "a temperature such as \"20 C\" or \"68 F\""},
    {ROW("below absolute zero"), "-274 C", "a temperature above absolute zero"},
    {ROW("two minus"), "--5 C", "a temperature such as \"20 C\" or \"68 F\""},
    {ROW("hot"), "1000001 C", "a temperature that can be meant, such as \"20 C\" or \"68 F\""},
    {ROW("empty"), "", "a temperature such as \"20 C\" or \"68 F\""},
    {ROW("junk"), "20 C!", "a temperature such as \"20 C\" or \"68 F\""},
};
REFUSES(temperature, temperature_parse(r->text, &got, &fault), double, -999, got == -999)

#define DENSITY "a density such as \"0.9 kg/l\" or \"7.5 lb/gal\""

static const struct refusal_row densities[] = {
    {ROW("one unit"), "0.9 kg", DENSITY},
    {ROW("the other way round"), "0.9 l/kg", DENSITY},
    {ROW("a coverage"), "12 m2/l", DENSITY},
    {ROW("empty"), "", DENSITY},
    {ROW("bare"), "0.9", "a density with a unit, such as \"0.9 kg/l\" or \"7.5 lb/gal\""},
};
REFUSES(density, density_parse(r->text, &got, &fault), double, -7, got == -7)

static const struct refusal_row rates[] = {
    {ROW("zero"), "0 m2/h", "a rate above zero, such as \"7 m2/h\""},
    {ROW("nothing behind"), "7 m2/", "a rate such as \"7 m2/h\""},
    {ROW("the other way round"), "7 h/m2", "a rate such as \"7 m2/h\""},
};
REFUSES(rate, rate_parse(r->text, &got, &fault), double, -7, got == -7)

#define PRODUCT "an area such as \"300 mm x 120 mm\" or \"2 x 40 mm x 600 mm\""

static const struct refusal_row products[] = {
    {ROW("empty"), "", PRODUCT},
    {ROW("one length"), "300 mm", PRODUCT},
    {ROW("an area"), "3 m2", PRODUCT},
    {ROW("four factors"), "2 x 3 x 4 x 5", PRODUCT},
    {ROW("a count with a unit"), "2 mm x 40 mm x 600 mm",
     "a count before the lengths, such as \"2 x 40 mm x 600 mm\""},
    {ROW("a count of zero"), "0 x 40 mm x 600 mm",
     "a count before the lengths, such as \"2 x 40 mm x 600 mm\""},
    {ROW("half a count"), "1.5 x 40 mm x 600 mm",
     "a count before the lengths, such as \"2 x 40 mm x 600 mm\""},
    {ROW("a bad length"), "2 x 40 foo x 600 mm", LENGTH},
    {ROW("many feet"), "1000001' 2\" x 1 m", "a length that can be meant, such as \"19 mm\" or \"3/4 in\""},
};
static void product_refuses(void **state)
{
    const struct refusal_row *r = *state;
    struct err fault = {.expected = ""};
    int64_t count = -7;
    double pair[2] = {-7, -7};
    check_true(&r->row, !counted_area_parse(r->text, LENGTH_MM, &count, pair, &fault), "refused");
    check_text(&r->row, fault.expected, r->expected);
    check_int(&r->row, count, -7);
}

#define COVERAGE "a coverage such as \"12 m2/l\", \"500 ft2/gal\" or \"110 g/m2\""

static const struct refusal_row coverages[] = {
    {ROW("no second unit"), "12 m2", COVERAGE},
    {ROW("nothing behind the slash"), "12 m2/", COVERAGE},
    {ROW("area per area"), "12 m2/m2", COVERAGE},
    {ROW("volume per mass"), "12 l/kg", COVERAGE},
    {ROW("unknown unit"), "12 m2/foo", COVERAGE},
    {ROW("zero"), "0 m2/l", "a coverage above zero, such as \"12 m2/l\", \"500 ft2/gal\" or \"110 g/m2\""},
    {ROW("negative"), "-12 m2/l", "a coverage that is not negative"},
    {ROW("bare"), "12", "a coverage with a unit, such as \"12 m2/l\", \"500 ft2/gal\" or \"110 g/m2\""},
};

static void coverage_refuses(void **state)
{
    const struct refusal_row *r = *state;
    struct err fault = {.expected = ""};
    struct coverage got = {COVERAGE_G_PER_M2, -7};
    check_true(&r->row, !coverage_parse(r->text, &got, &fault), "refused");
    check_text(&r->row, fault.expected, r->expected);
    check_double(&r->row, got.value, -7, 0);
}

static const struct refusal_row ratios[] = {
    {ROW("zero"), "2:0", "a ratio with every part above zero, such as \"2:1\""},
    {ROW("one part"), "2", "a ratio such as \"2:1\" or \"100:35\""},
    {ROW("no second part"), "2:", "a ratio such as \"2:1\" or \"100:35\""},
    {ROW("negative"), "2:-1", "a ratio that is not negative"},
    {ROW("comma"), "2:1,5", "a decimal point: write \"1.5\""},
    {ROW("nine parts"), "1:2:3:4:5:6:7:8:9", "a ratio of at most 8 parts"},
    {ROW("junk"), "2:1 by volume", "a ratio such as \"2:1\" or \"100:35\""},
};
static void ratio_refuses(void **state)
{
    const struct refusal_row *r = *state;
    struct err fault = {.expected = ""};
    struct ratio got = {99, {0}};
    check_true(&r->row, !ratio_parse(r->text, &got, &fault), "refused");
    check_text(&r->row, fault.expected, r->expected);
    check_int(&r->row, (intmax_t)got.count, 99);
}

static const struct refusal_row numbers[] = {
    {ROW("comma"), "1,5", "a decimal point: write \"1.5\""},
    {ROW("NaN"), "NaN", "a number such as \"12\", \"12.5\" or \"3 3/4\""},
    {ROW("exponent"), "1e400", "a number written out, without exponent"},
    {ROW("negative"), "-1", "a number that is not negative"},
    {ROW("a unit"), "1 mm", "a number such as \"12\", \"12.5\" or \"3 3/4\""},
};
REFUSES(number, number_parse(r->text, &got, &fault), double, -7, got == -7)

static const struct refusal_row lumbers[] = {
    {ROW("word"), "plank", "a size such as \"1x4\", \"4/4\" or \"5/4 rough\""},
    {ROW("no such thickness"), "9x4", "a softwood thickness: 1, 5/4, 6/4, 2, 2 1/2, 3, 3 1/2 or 4"},
    {ROW("no such width"), "1x13", "a softwood width of 2 to 12, 14 or 16"},
    {ROW("no such quarters"), "9/4", "a hardwood thickness: 4/4, 5/4, 6/4, 7/4, 8/4, 10/4, 12/4 or 16/4"},
    {ROW("no such word"), "4/4 polished", "\"rough\" or \"surfaced\" behind the thickness"},
};
static void lumber_refuses(void **state)
{
    const struct refusal_row *r = *state;
    struct err fault = {.expected = ""};
    struct lumber got = {-7, -7};
    check_true(&r->row, !lumber_parse(r->text, &got, &fault), "refused");
    check_text(&r->row, fault.expected, r->expected);
    check_double(&r->row, got.thickness_m, -7, 0);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(lengths, length_refuses), CHECK_ROWS(areas, area_refuses),
                     CHECK_ROWS(volumes, volume_refuses), CHECK_ROWS(spans, span_refuses),
                     CHECK_ROWS(temperatures, temperature_refuses), CHECK_ROWS(coverages, coverage_refuses),
                     CHECK_ROWS(ratios, ratio_refuses), CHECK_ROWS(numbers, number_refuses),
                     CHECK_ROWS(lumbers, lumber_refuses), CHECK_ROWS(densities, density_refuses),
                     CHECK_ROWS(rates, rate_refuses), CHECK_ROWS(products, product_refuses));
}
