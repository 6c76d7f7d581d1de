#include "check.h"

#include "base/exact.h"
#include "base/length.h"
#include "base/money.h"
#include "base/number.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

struct number_row {
    struct row row;
    const char *text;
    double want;
};

static const struct number_row numbers[] = {
    {ROW("whole"), "12", 12},
    {ROW("decimal"), "12.5", 12.5},
    {ROW("fraction"), "3/4", 0.75},
    {ROW("mixed"), "3 3/4", 3.75},
    {ROW("mixed with hyphen"), "3-3/4", 3.75},
    {ROW("sign"), "\xC2\xBE", 0.75},
    {ROW("sign behind"), "3\xC2\xBE", 3.75},
    {ROW("third"), "\xE2\x85\x93", 1.0 / 3},
    {ROW("improper"), "7/4", 1.75},
    {ROW("zero"), "0", 0},
    {ROW("blanks"), " 12 ", 12},
    {ROW("hard to round"), "9007199254740993", 9007199254740992.0},
    {ROW("tie to even, up"), "9007199254740995", 9007199254740996.0},
    {ROW("just above the tie"), "9007199254740993.00000000000000000001", 9007199254740994.0},
    {ROW("many decimals"), "0.1000000000000000055511151231257827021181583", 0.1},
    {ROW("largest digits"), "999999999999999999999999999999999999999999999999", 1e48},
};

static void number_reads(void **state)
{
    const struct number_row *r = *state;
    struct err fault = {.expected = ""};
    double got = -1;
    bool read = number_parse(r->text, &got, &fault);
    check_true(&r->row, read, fault.expected);
    check_double(&r->row, got, r->want, 0);
}

struct fixed_row {
    struct row row;
    double value;
    int decimals;
    const char *fixed, *round, *shortest;
};

static const struct fixed_row fixeds[] = {
    {ROW("zeros kept and dropped"), 2.5, 2, "2.50", "2.5", "2.5"},
    {ROW("whole"), 1200, 2, "1200.00", "1200", "1200"},
    {ROW("zero"), 0, 1, "0.0", "0", "0"},
    {ROW("no minus zero"), -0.001, 1, "0.0", "0", "-0.001"},
    {ROW("negative"), -2.26, 1, "-2.3", "-2.3", "-2.26"},
    {ROW("no decimals"), 99.7, 0, "100", "100", "99.7"},
    {ROW("a tenth"), 0.1, 3, "0.100", "0.1", "0.1"},
    {ROW("sum of tenths"), 0.1 + 0.2, 3, "0.300", "0.3", "0.30000000000000004"},
    {ROW("small"), 1.25e-7, 3, "0.000", "0", "0.000000125"},
    {ROW("large"), 123456789012345.0, 0, "123456789012345", "123456789012345", "123456789012345"},
    {ROW("round and large"), 5e15, 0, "5000000000000000", "5000000000000000", "5000000000000000"},
};

static void number_writes(void **state)
{
    const struct fixed_row *r = *state;
    check_text(&r->row, number_fixed(r->value, r->decimals).text, r->fixed);
    check_text(&r->row, number_round(r->value, r->decimals).text, r->round);
    check_text(&r->row, number_format(r->value).text, r->shortest);
}

/* The C library's own reader and writer, in the "C" locale, as the reference. */
static void agrees_with_the_c_library(void **state)
{
    (void)state;
    uint64_t seed = 20270302;
    for (int i = 0; i < 20000; i++) {
        uint64_t before = seed;
        char text[64];
        double size = pow(10, check_random_int(&seed, -8, 12)), got = -1;
        int decimals = check_random_int(&seed, 0, 20);
        double unit = check_random_unit(&seed);
        snprintf(text, sizeof text, "%.*f", decimals, unit * size);
        double want = strtod(text, NULL);
        if (!number_parse(text, &got, NULL) || got != want)
            fail_msg("seed %ju: \"%s\": got %.17g, want %.17g", (uintmax_t)before, text, got, want);
        if (strtod(number_format(want).text, NULL) != want)
            fail_msg("seed %ju: %.17g was written as %s", (uintmax_t)before, want, number_format(want).text);
    }
}

static void locale_changes_nothing(void **state)
{
    (void)state;
    static const char *const commas[] = {"de_DE.UTF-8", "fr_FR.UTF-8", "de_DE", "da_DK.UTF-8"};
    const char *set = NULL;
    for (size_t i = 0; i < sizeof commas / sizeof commas[0] && !set; i++)
        set = setlocale(LC_NUMERIC, commas[i]);
    double got = -1;
    bool read = number_parse("12.5", &got, NULL);
    struct text_short fixed = number_fixed(12.5, 2), shortest = number_format(12.5);
    setlocale(LC_NUMERIC, "C");
    check_true(HERE, read, "a point is read");
    check_double(HERE, got, 12.5, 0);
    check_text(HERE, fixed.text, "12.50");
    check_text(HERE, shortest.text, "12.5");
    if (!set)
        skip();
}

static void counts_are_whole(void **state)
{
    (void)state;
    int64_t count = -1;
    struct err fault;
    check_true(HERE,
               count_parse("123456789012345678", INT64_MAX, &count, NULL) && count == 123456789012345678,
               "eighteen digits");
    check_true(HERE, count_parse(" 12 ", 100, &count, NULL), "read");
    check_int(HERE, count, 12);
    static const char *const bad[] = {"0", "101", "-1", "1.5", "", "x", "12 x", "99999999999999999999"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        check_true(HERE, !count_parse(bad[i], 100, &count, &fault), bad[i]);
        check_text(HERE, fault.expected, "a whole number from 1 to 100");
    }
    check_int(HERE, count, 12);
}

struct money_row {
    struct row row;
    const char *currency, *text;
    intmax_t cents; /* -1: refused */
    const char *written;
};

static const struct money_row moneys[] = {
    {ROW("pounds"), "GBP", "14.50", 1450, "14.50"},
    {ROW("no decimals"), "GBP", "24", 2400, "24.00"},
    {ROW("one decimal"), "EUR", "0.5", 50, "0.50"},
    {ROW("blanks"), "EUR", " 7.05 ", 705, "7.05"},
    {ROW("yen"), "JPY", "1450", 1450, "1450"},
    {ROW("dinar"), "KWD", "1.005", 1005, "1.005"},
    {ROW("zero"), "GBP", "0", 0, "0.00"},
    {ROW("largest"), "GBP", "999999999999.99", 99999999999999, "999999999999.99"},
    {ROW("parts of a penny"), "GBP", "14.505", -1, "a price with at most 2 decimals"},
    {ROW("comma"), "GBP", "14,50", -1, "a decimal point: write \"14.50\""},
    {ROW("negative"), "GBP", "-3", -1, "a price such as \"14.50\""},
    {ROW("name of a currency"), "GBP", "3 GBP", -1, "a price such as \"14.50\""},
    {ROW("nothing"), "GBP", "", -1, "a price such as \"14.50\""},
    {ROW("no digit behind"), "GBP", "14.", -1, "a price such as \"14.50\""},
    {ROW("too large"), "GBP", "1000000000000", -1, "a price such as \"14.50\""},
    {ROW("example in yen"), "JPY", "x", -1, "a price such as \"14\""},
};

static void money_reads(void **state)
{
    const struct money_row *r = *state;
    int digits = money_digits(r->currency);
    int64_t cents = -1;
    struct err fault = {.expected = ""};
    check_int(&r->row, money_parse(r->text, digits, &cents, &fault), r->cents >= 0);
    check_int(&r->row, cents, r->cents);
    check_text(&r->row, r->cents >= 0 ? money_format(cents, digits).text : fault.expected, r->written);
}

static void money_below_zero(void **state)
{
    (void)state;
    check_text(HERE, money_format(-5, 2).text, "-0.05");
    check_int(HERE, money_digits("GBPX"), 2);
    check_int(HERE, money_digits("JP"), 2);
    check_int(HERE, money_digits("Y K"), 2);
}

/* Lumber: PS 20; NHLA as tabulated. Rows marked "memory" are from memory. */
struct lumber_row {
    struct row row;
    const char *text;
    double thickness_in, width_in;
};

static const struct lumber_row lumbers[] = {
    {ROW("1x4"), "1x4", 0.75, 3.5},
    {ROW("1x8"), "1x8", 0.75, 7.25},
    {ROW("2x4"), "2x4", 1.5, 3.5},
    {ROW("2x10"), "2x10", 1.5, 9.25},
    {ROW("2x6, memory"), "2x6", 1.5, 5.5},
    {ROW("5/4x6, memory"), "5/4x6", 1, 5.5},
    {ROW("4x4, memory"), "4 X 4", 3.5, 3.5},
    {ROW("cross sign"), "2 \xC3\x97 4", 1.5, 3.5},
    {ROW("4/4"), "4/4", 13.0 / 16, 0},
    {ROW("5/4"), "5/4", 17.0 / 16, 0},
    {ROW("6/4"), "6/4 surfaced", 21.0 / 16, 0},
    {ROW("8/4"), "8/4 surfaced", 1.75, 0},
    {ROW("5/4 rough"), "5/4 rough", 1.25, 0},
    {ROW("4/4 rough"), "4/4  Rough", 1, 0},
};

static void lumber_reads(void **state)
{
    const struct lumber_row *r = *state;
    struct lumber got = {-1, -1};
    check_true(&r->row, lumber_parse(r->text, &got, NULL), "read");
    check_double(&r->row, got.thickness_m, r->thickness_in * 0.0254, 1e-15);
    check_double(&r->row, got.width_m, r->width_in * 0.0254, 1e-15);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(numbers, number_reads), CHECK_ROWS(fixeds, number_writes),
                     CHECK_ROWS(moneys, money_reads), CHECK_ROWS(lumbers, lumber_reads),
                     CHECK_TEST(agrees_with_the_c_library), CHECK_TEST(locale_changes_nothing),
                     CHECK_TEST(counts_are_whole), CHECK_TEST(money_below_zero));
}
