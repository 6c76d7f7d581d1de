/* Lengths and areas, read. Factors: NIST Handbook 44 appendix C and SP 811 unless a row says otherwise. */
#include "check.h"

#include "base/measure.h"

struct value_row {
    struct row row;
    const char *text;
    double want;
};

/* Correctly rounded: the decimal literal is what the compiler makes of the exact value. */
static const struct value_row lengths[] = {
    {ROW("mm"), "19 mm", 0.019},
    {ROW("mm without blank"), "19mm", 0.019},
    {ROW("blanks around"), "  19 mm\t", 0.019},
    {ROW("no-break space"), "19\xC2\xA0mm", 0.019},
    {ROW("upper case"), "19 MM", 0.019},
    {ROW("cm"), "45 cm", 0.45},
    {ROW("m"), "1.2 m", 1.2},
    {ROW("metres"), "1.2 metres", 1.2},
    {ROW("fraction of an inch"), "3/4 in", 0.01905},
    {ROW("inch mark"), "3/4\"", 0.01905},
    {ROW("double prime"), "3/4\xE2\x80\xB3", 0.01905},
    {ROW("two apostrophes"), "3/4''", 0.01905},
    {ROW("curly quotation mark"), "12\xE2\x80\x9D", 0.3048},
    {ROW("three quarters sign"), "\xC2\xBE in", 0.01905},
    {ROW("mixed with blank"), "3 3/4 in", 0.09525},
    {ROW("mixed with hyphen"), "3-3/4 in", 0.09525},
    {ROW("mixed with sign"), "3\xC2\xBE in", 0.09525},
    {ROW("mixed with blank and sign"), "3 \xC2\xBE in", 0.09525},
    {ROW("fraction slash"),
     "3\xE2\x81\x84"
     "4 in",
     0.01905},
    {ROW("decimal inches"), "12.5 in", 0.3175},
    {ROW("dot behind the unit"), "12 in.", 0.3048},
    {ROW("inches"), "12 inches", 0.3048},
    {ROW("ft"), "12 ft", 3.6576},
    {ROW("foot mark"), "12'", 3.6576},
    {ROW("prime"), "12\xE2\x80\xB2", 3.6576},
    {ROW("decimal feet"), "2.5 ft", 0.762},
    {ROW("feet and inches by marks"), "5' 2 3/8\"", 1.584325},
    {ROW("feet and inches by words"), "5 ft 2 3/8 in", 1.584325},
    {ROW("feet and inches by primes"), "5\xE2\x80\xB2 2 3/8\xE2\x80\xB3", 1.584325},
    {ROW("feet and inches with a hyphen"), "5'-2 3/8\"", 1.584325},
    {ROW("feet and inches, dots"), "5 ft. 2 in.", 1.5748},
    {ROW("feet and decimal inches"), "5' 2.5\"", 1.5875},
    {ROW("feet and half an inch"), "5' 1/2\"", 1.5367},
    {ROW("yard"), "2 yd", 1.8288},
    {ROW("zero"), "0 mm", 0},
    {ROW("starts with the point"), ".75 in", 0.01905},
    {ROW("leading zeros"), "007 mm", 0.007},
    {ROW("nearest double"), "0.1 mm", 0.0001},
    {ROW("seventeen digits"), "304.79999999999995 mm", 0.30479999999999995},
    {ROW("a third"), "1/3 in", 0.00846666666666666666667},
};

static void length_reads(void **state)
{
    const struct value_row *r = *state;
    struct err fault = {.expected = ""};
    double got = -1;
    bool read = length_parse(r->text, LENGTH_NONE, &got, &fault);
    check_true(&r->row, read, fault.expected);
    check_double(&r->row, got, r->want, 0);
}

struct bare_row {
    struct row row;
    const char *text;
    enum length_unit bare;
    double want;
};

static const struct bare_row bares[] = {
    {ROW("bare mm"), "600", LENGTH_MM, 0.6},
    {ROW("bare cm"), "60", LENGTH_CM, 0.6},
    {ROW("bare m"), "0.6", LENGTH_M, 0.6},
    {ROW("bare inches"), "19", LENGTH_IN, 0.4826},
    {ROW("bare fraction"), "3/4", LENGTH_IN, 0.01905},
    {ROW("bare feet"), "2", LENGTH_FT, 0.6096},
    {ROW("a unit goes first"), "19 mm", LENGTH_IN, 0.019},
};

static void bare_reads(void **state)
{
    const struct bare_row *r = *state;
    double got = -1;
    check_true(&r->row, length_parse(r->text, r->bare, &got, NULL), "read");
    check_double(&r->row, got, r->want, 0);
}

static const struct value_row areas[] = {
    {ROW("m2"), "1.8 m2", 1.8},
    {ROW("superscript"), "1.8 m\xC2\xB2", 1.8},
    {ROW("caret"), "1.8 m^2", 1.8},
    {ROW("sq m"), "1.8 sq m", 1.8},
    {ROW("cm2"), "400 cm2", 0.04},
    {ROW("ft2"), "20 ft2", 1.8580608},
    {ROW("one ft2"), "1 ft2", 0.09290304},
    {ROW("sq ft"), "20 sq ft", 1.8580608},
    {ROW("dots"), "20 sq. ft.", 1.8580608},
    {ROW("in2"), "90 in2", 0.0580644},
    {ROW("yd2"), "1 yd2", 0.83612736},
    {ROW("product"), "300 mm x 120 mm", 0.3 * 0.12},
    {ROW("product without blanks"), "300mmx120mm", 0.3 * 0.12},
    {ROW("product sign"), "2 ft \xC3\x97 18 in", 0.6096 * 0.4572},
    {ROW("bare product"), "300 x 120", 0.3 * 0.12},
    {ROW("product of feet and inches"), "5' 2\" x 1'", 1.5748 * 0.3048},
};

static void area_reads(void **state)
{
    const struct value_row *r = *state;
    struct err fault = {.expected = ""};
    double got = -1;
    bool read = area_parse(r->text, LENGTH_MM, &got, &fault);
    check_true(&r->row, read, fault.expected);
    check_double(&r->row, got, r->want, 0);
}

struct count_row {
    struct row row;
    const char *text;
    intmax_t count;
    double a, b;
};

static const struct count_row counts[] = {
    {ROW("two lengths"), "300 mm x 120 mm", 1, 0.3, 0.12},
    {ROW("count and two lengths"), "2 x 40 mm x 600 mm", 2, 0.04, 0.6},
    {ROW("bare lengths"), "40 x 600", 1, 0.04, 0.6},
    {ROW("count and bare lengths"), "2 x 40 x 600", 2, 0.04, 0.6},
    {ROW("inches"), "4x3/4\"x12\"", 4, 0.01905, 0.3048},
};

static void counted_area_reads(void **state)
{
    const struct count_row *r = *state;
    int64_t count = 0;
    double length_m[2];
    check_true(&r->row, counted_area_parse(r->text, LENGTH_MM, &count, length_m, NULL), "read");
    check_int(&r->row, count, r->count);
    check_double(&r->row, length_m[0], r->a, 0);
    check_double(&r->row, length_m[1], r->b, 0);
}

static void bare_numbers_take_the_unit_of_the_job(void **state)
{
    (void)state;
    double got = -1;
    check_true(HERE, length_bare(19, LENGTH_IN, &got, NULL), "19 inches");
    check_double(HERE, got, 0.4826, 0);
    struct err fault;
    check_true(HERE, !length_bare(-1, LENGTH_MM, &got, &fault), "negative refused");
    check_text(HERE, fault.expected, "a length that is not negative");
    check_true(HERE, !length_bare(0.0 / 0.0, LENGTH_MM, &got, NULL), "NaN refused");
    check_true(HERE, !length_bare(1.0 / 0.0, LENGTH_MM, &got, NULL), "infinity refused");
    check_true(HERE, !length_bare(19, LENGTH_NONE, &got, &fault), "no unit, no bare number");
    check_text(HERE, fault.expected, "a length with a unit, such as \"19 mm\" or \"3/4 in\"");
    check_double(HERE, got, 0.4826, 0);
}

static void units_of_length_have_names(void **state)
{
    (void)state;
    for (int i = LENGTH_MM; i <= LENGTH_FT; i++) {
        enum length_unit unit = LENGTH_NONE;
        check_true(HERE, length_unit_parse(length_unit_name((enum length_unit)i), &unit, NULL), "read");
        check_int(HERE, unit, i);
    }
    enum length_unit unit = LENGTH_CM;
    check_true(HERE, !length_unit_parse("furlong", &unit, NULL), "refused");
    check_true(HERE, !length_unit_parse("", &unit, NULL), "refused");
    check_int(HERE, unit, LENGTH_CM);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(lengths, length_reads), CHECK_ROWS(bares, bare_reads),
                     CHECK_ROWS(areas, area_reads), CHECK_ROWS(counts, counted_area_reads),
                     CHECK_TEST(bare_numbers_take_the_unit_of_the_job),
                     CHECK_TEST(units_of_length_have_names));
}
