/* What every test shares: table rows that are tests of their own, and comparisons that say what they saw.
 *
 *     struct length_row { struct row row; const char *text; double want_m; };
 *     static const struct length_row lengths[] = {{ROW("inches"), "3/4 in", 0.01905}};
 *     static void length_is(void **state) { const struct length_row *r = *state; ...
 *         check_double(&r->row, got, r->want_m, 1e-12); }
 *     int main(void) { return CHECK_ALL(CHECK_ROWS(lengths, length_is), CHECK_TEST(round_trip)); }
 *
 * A row is its first member, so that a failing row prints its own file:line, name, got and want.
 */
#ifndef TESTS_CHECK_H
#define TESTS_CHECK_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

struct row {
    const char *name, *file;
    int line;
};

#define ROW(name)                                                                                            \
    {                                                                                                        \
        name, __FILE__, __LINE__                                                                             \
    }

/* One entry of CHECK_ALL: a table of rows with the function that judges one, or a single test. */
struct check_set {
    const char *name;
    void (*judge)(void **state);
    const void *rows; /* NULL: a single test */
    size_t count, size;
};

#define CHECK_ROWS(table, judge)                                                                             \
    (struct check_set)                                                                                       \
    {                                                                                                        \
#table, judge, table, sizeof(table) / sizeof(table)[0], sizeof(table)[0]                             \
    }
#define CHECK_TEST(test)                                                                                     \
    (struct check_set)                                                                                       \
    {                                                                                                        \
#test, test, NULL, 1, 0                                                                              \
    }
#define CHECK_ALL(...)                                                                                       \
    check_run(__FILE__, (struct check_set[]){__VA_ARGS__},                                                   \
              sizeof((struct check_set[]){__VA_ARGS__}) / sizeof(struct check_set))

/* Runs every row of every set under cmocka; the number of failures. */
int check_run(const char *file, const struct check_set *sets, size_t count);

/* |got - want| <= tolerance x max(1, |want|); equal infinities agree, a NaN never does. */
void check_double(const struct row *row, double got, double want, double tolerance);
void check_int(const struct row *row, intmax_t got, intmax_t want);
void check_text(const struct row *row, const char *got, const char *want);
void check_true(const struct row *row, bool got, const char *what);

/* The folder into which a test may write: TEST_TMP, made below the system's temporary one where nobody has set it. */
const char *check_folder(void);

/* For checks outside a table: the place of the call is the row. */
#define HERE (&(const struct row){__func__, __FILE__, __LINE__})

/* Seeded pseudo-random numbers (splitmix64): the same everywhere; print the seed in a failing property. */
uint64_t check_random(uint64_t *seed);
/* Uniform in low..high, both included. */
int check_random_int(uint64_t *seed, int low, int high);
/* Uniform in [0, 1). */
double check_random_unit(uint64_t *seed);

#endif
