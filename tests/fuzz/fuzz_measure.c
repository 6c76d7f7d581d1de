/* Every reader of src/base on any text. Invariants: what a reader accepts is finite and in range; written out it is
 * accepted again and gives the same value; what it refuses has an expectation and leaves the value alone. */
#include "base/arena.h"
#include "base/coverage.h"
#include "base/length.h"
#include "base/measure.h"
#include "base/moment.h"
#include "base/money.h"
#include "base/number.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void must(bool so, const char *what, const char *text)
{
    if (so)
        return;
    fprintf(stderr, "not so: %s: \"%s\"\n", what, text);
    abort();
}

static bool length(const char *text, double *value, struct err *fault)
{
    return length_parse(text, LENGTH_NONE, value, fault);
}

static bool area(const char *text, double *value, struct err *fault)
{
    return area_parse(text, LENGTH_MM, value, fault);
}

struct pair {
    const char *name;
    double least;
    bool (*parse)(const char *text, double *value, struct err *fault);
    struct text_short (*write)(double value);
};

static const struct pair pairs[] = {
    {"length", 0, length, length_write},
    {"area", 0, area, area_write},
    {"volume", 0, volume_parse, volume_write},
    {"mass", 0, mass_parse, mass_write},
    {"density", 0, density_parse, density_write},
    {"thickness", 0, thickness_parse, thickness_write},
    {"temperature", -273.15, temperature_parse, temperature_write},
    {"share", 0, share_parse, share_write},
    {"rate", 1e-9, rate_parse, rate_write},
    {"span", 0, span_parse_fraction, span_write},
};

static void check_pair(const struct pair *pair, const char *text)
{
    struct err fault = {.expected = ""};
    double value = -1234.5, back = -1;
    if (!pair->parse(text, &value, &fault)) {
        must(fault.expected[0] != '\0' && value == -1234.5, pair->name, text);
        return;
    }
    must(isfinite(value) && value >= pair->least && value <= 1e12 && !signbit(value) == (value >= 0),
         pair->name, text);
    struct text_short written = pair->write(value);
    must(pair->parse(written.text, &back, NULL) && back == value, pair->name, written.text);
}

static void check_numbers(const char *text)
{
    double number = -1, back = -2;
    if (number_parse(text, &number, NULL)) {
        must(isfinite(number) && number >= 0, "number", text);
        if (number < 1e15 && (number == 0 || number > 1e-25))
            must(number_parse(number_format(number).text, &back, NULL) && back == number, "number", text);
    }
    int64_t cents = -1, again = -2;
    if (money_parse(text, 2, &cents, NULL))
        must(cents >= 0 && money_parse(money_format(cents, 2).text, 2, &again, NULL) && again == cents,
             "money", text);
    int64_t span = -1;
    if (span_parse(text, &span, NULL))
        must(span >= 0 && span_parse(span_format(span).text, &again, NULL) && again == span, "whole span",
             text);
}

static void check_structs(struct arena *arena, const char *text)
{
    struct coverage coverage, same;
    if (coverage_parse(text, &coverage, NULL))
        must(coverage.value > 0 && coverage_m2_per_l(coverage, 1) > 0 &&
                 coverage_parse(coverage_write(coverage).text, &same, NULL) && same.form == coverage.form &&
                 same.value == coverage.value,
             "coverage", text);
    struct amount amount, left;
    if (amount_parse(text, &amount, NULL))
        must(amount_parse(amount_write(amount).text, &left, NULL) && left.by_mass == amount.by_mass &&
                 left.value == amount.value,
             "amount", text);
    struct ratio ratio, again;
    if (ratio_parse(text, &ratio, NULL)) {
        must(ratio_parse(ratio_write(arena, &ratio), &again, NULL) && again.count == ratio.count, "ratio",
             text);
        for (size_t i = 0; i < ratio.count; i++)
            must(ratio.part[i] > 0 && again.part[i] == ratio.part[i], "ratio", text);
    }
    struct lumber lumber;
    if (lumber_parse(text, &lumber, NULL))
        must(lumber.thickness_m > 0 && lumber.width_m >= 0, "lumber", text);
    int64_t count;
    double pair[2], t, h;
    if (counted_area_parse(text, LENGTH_IN, &count, pair, NULL))
        must(count > 0 && pair[0] >= 0 && pair[1] >= 0, "counted area", text);
    if (climate_parse(text, &t, &h, NULL))
        must(t >= -273.15 && h >= 0, "climate", text);
}

static void check_dates(const char *text)
{
    static const struct zone utc = {"UTC", 0, NULL};
    struct moment_text moment, back;
    struct date first, last;
    int from, to;
    if (moment_parse(text, &utc, &moment, NULL)) {
        struct text_short out =
            moment.date_only ? date_format(moment.date) : moment_format(&utc, moment.minute, MOMENT_RFC3339);
        /* An offset may carry a moment out of the years that are read. */
        if (moment_parse(out.text, &utc, &back, NULL))
            must(back.date_only == moment.date_only && (back.date_only || back.minute == moment.minute),
                 "moment", text);
    }
    if (date_range_parse(text, &first, &last, NULL))
        must(date_valid(first) && date_valid(last) && date_days(first) <= date_days(last), "dates", text);
    if (time_range_parse(text, &from, &to, NULL))
        must(from >= 0 && from < to && to <= DAY_MINUTES, "hours", text);
}

static void check_text(struct arena *arena, const char *text, size_t size)
{
    size_t bad_at = 0, length = strlen(text);
    bool valid = text_valid(text, length, &bad_at);
    must(valid || bad_at < length, "place of a broken byte", text);
    must(text_characters(text, length) <= length && text_width(text) <= 2 * length, "characters", text);
    must(strlen(text_trimmed(arena, text)) <= size, "trimmed", text);
    const char *slug = text_slug(arena, text);
    must(strcmp(slug, text_slug(arena, slug)) == 0, "a slug of a slug", text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = arena_make(0);
    const char *text = arena_text_n(arena, (const char *)data, size);
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
        check_pair(&pairs[i], text);
    check_numbers(text);
    check_structs(arena, text);
    check_dates(text);
    check_text(arena, text, size);
    arena_free(arena);
    return 0;
}
