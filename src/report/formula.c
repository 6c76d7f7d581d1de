#include "report/formula.h"

#include "base/number.h"
#include "base/text.h"

#include <assert.h>
#include <string.h>

enum { LABEL_WIDTH = 12 };

static const double inch_m = 0.0254, foot_m2 = 0.09290304;

static const struct formula_name *find(const struct formula *formula, const char *name, size_t length)
{
    for (size_t i = 0; i < formula->count; i++)
        if (strlen(formula->names[i].name) == length && memcmp(formula->names[i].name, name, length) == 0)
            return &formula->names[i];
    return NULL;
}

void formula_set(struct formula *formula, const char *name, double value, int power)
{
    size_t i = 0;
    while (i < formula->count && strcmp(formula->names[i].name, name) != 0)
        i++;
    assert(i < FORMULA_NAMES);
    formula->names[i] = (struct formula_name){name, value, power};
    if (i == formula->count)
        formula->count++;
}

struct text_short formula_number(const struct formula *formula, double value, int power)
{
    bool inches = formula->units == UNITS_US;
    double unit = inches ? inch_m : 1e-3;
    if (power == 0)
        return number_round(value, 6);
    if (power == 1)
        return number_round(value / unit, inches ? 4 : 3);
    return number_round(value / (unit * unit), inches ? 3 : 1);
}

/* "980000 mm2 = 0.98 m2", "1400 mm", "4". */
static void add_value(const struct formula *formula, struct buf *text, double value, int power)
{
    bool inches = formula->units == UNITS_US;
    buf_add(text, formula_number(formula, value, power).text);
    if (power == 1)
        buf_add(text, inches ? " in" : " mm");
    if (power == 2)
        buf_addf(text, inches ? " in² = %s ft²" : " mm² = %s m²",
                 number_round(inches ? value / foot_m2 : value, inches ? 3 : 4).text);
}

/* The pattern with the name, or with the number, in the place of each {name}. */
static void fill_in(const struct formula *formula, struct buf *text, const char *pattern, bool numbers)
{
    while (*pattern) {
        size_t plain = strcspn(pattern, "{");
        buf_add_n(text, pattern, plain);
        pattern += plain;
        if (*pattern == '\0')
            return;
        size_t length = strcspn(pattern + 1, "}");
        const struct formula_name *name = find(formula, pattern + 1, length);
        assert(name && "every name in a pattern was set before");
        buf_add(text, numbers ? formula_number(formula, name->value, name->power).text : name->name);
        pattern += length + 2;
    }
}

static void next_line(struct buf *text, size_t *column)
{
    buf_add_char(text, '\n');
    buf_add_repeat(text, ' ', LABEL_WIDTH);
    *column = LABEL_WIDTH;
}

/* Word by word, on to the next line where one does not fit. */
static void add_words(const struct formula *formula, size_t *column, const char *words)
{
    struct buf *text = formula->text;
    while (*words) {
        size_t length = strcspn(words, " ");
        if (*column + 1 + length > formula->width && *column > LABEL_WIDTH + 2)
            next_line(text, column);
        else if (*column > LABEL_WIDTH) {
            buf_add_char(text, ' ');
            (*column)++;
        }
        buf_add_n(text, words, length);
        *column += text_characters(words, length);
        words += length + (words[length] == ' ');
    }
}

/* Adds "= ..." on this line or, where it would be too long, on the next. */
static void add_step(const struct formula *formula, size_t *column, const char *step)
{
    if (*column + 3 + text_width(step) > formula->width)
        next_line(formula->text, column);
    add_words(formula, column, "=");
    add_words(formula, column, step);
}

/* Leaves the column at LABEL_WIDTH, or behind a label that is longer. */
static size_t begin(struct buf *text, const char *label)
{
    size_t column = 2 + text_width(label);
    buf_addf(text, "  %s", label);
    for (; column < LABEL_WIDTH; column++)
        buf_add_char(text, ' ');
    return column;
}

/* One number alone would stand there twice. */
static bool says_the_same(const char *number, const char *result)
{
    size_t length = strlen(number);
    return strncmp(number, result, length) == 0 && (result[length] == ' ' || result[length] == '\0');
}

static void add_line(struct formula *formula, const char *label, const char *pattern,
                     const struct formula_name *value, const char *remark)
{
    struct buf names, numbers, result;
    buf_init(&names, formula->text->arena);
    buf_init(&numbers, formula->text->arena);
    buf_init(&result, formula->text->arena);
    fill_in(formula, &names, pattern, false);
    fill_in(formula, &numbers, pattern, true);
    add_value(formula, &result, value->value, value->power);
    buf_add(&result, remark);
    size_t column = begin(formula->text, label);
    add_words(formula, &column, names.length ? names.text : result.text);
    if (strcmp(names.text, numbers.text) != 0 && !says_the_same(numbers.text, result.text))
        add_step(formula, &column, numbers.text);
    if (names.length > 0)
        add_step(formula, &column, result.text);
    buf_add_char(formula->text, '\n');
    formula_set(formula, label, value->value, value->power);
}

void formula_words(struct formula *formula, const char *label, const char *words)
{
    size_t column = begin(formula->text, label);
    add_words(formula, &column, words);
    buf_add_char(formula->text, '\n');
}

void formula_line(struct formula *formula, const char *label, const char *pattern, double value, int power)
{
    add_line(formula, label, pattern, &(struct formula_name){label, value, power}, "");
}

void formula_total(struct formula *formula, const char *label, const char *pattern, double area_m2,
                   const char *remark)
{
    add_line(formula, label, pattern, &(struct formula_name){label, area_m2, 2}, remark);
}
