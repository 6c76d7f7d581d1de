/* Formulas as text: with their names, with the numbers in them, and what comes out, in the user's units.
 *
 *     formula_set(&f, "length", 1.4, 1); formula_set(&f, "width", 0.7, 1);
 *     formula_line(&f, "face", "{length} x {width}", 0.98, 2);
 * writes
 *     face    length x width = 1400 x 700 = 980000 mm² = 0.98 m²
 * and knows {face} in the lines after it. */
#ifndef REPORT_FORMULA_H
#define REPORT_FORMULA_H

#include "base/buf.h"
#include "base/measure.h"

enum { FORMULA_NAMES = 40 };

struct formula_name {
    const char *name; /* outlives the formula */
    double value;
    int power; /* of metres: 0 a number, 1 a length, 2 an area */
};

struct formula {
    struct buf *text;
    enum unit_system units;
    size_t width; /* columns */
    size_t count;
    struct formula_name names[FORMULA_NAMES];
};

/* Gives a name its value; again: a new value. */
void formula_set(struct formula *formula, const char *name, double value, int power);

/* Adds the formula, its numbers and its value, broken into lines where it is longer than 80 columns; the label becomes
 * a name. Numbers are rounded to what matters: 1/1000 mm, 1/10 mm2, 1 cm2 (or 1/10000 in, 1/1000 in2 and ft2). A
 * pattern without a name is written once, and may as well be words. */
void formula_line(struct formula *formula, const char *label, const char *pattern, double value, int power);

/* The same of an area, with a remark behind it; an empty pattern: only its value. */
void formula_total(struct formula *formula, const char *label, const char *pattern, double area_m2,
                   const char *remark);

/* Words, broken into lines like a formula. */
void formula_words(struct formula *formula, const char *label, const char *words);

/* As the lines write it, without its unit. */
struct text_short formula_number(const struct formula *formula, double value, int power);

#endif
