#include "check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static size_t rows_in(const struct check_set *sets, size_t count)
{
    size_t total = 0;
    for (size_t i = 0; i < count; i++)
        total += sets[i].count;
    return total;
}

const char *check_folder(void)
{
    char made[] = P_tmpdir "/coatwright-XXXXXX";
    if (!getenv("TEST_TMP")) {
        assert_non_null(mkdtemp(made));
        assert_int_equal(setenv("TEST_TMP", made, 1), 0);
    }
    return getenv("TEST_TMP");
}

int check_run(const char *file, const struct check_set *sets, size_t count)
{
    size_t total = rows_in(sets, count), n = 0;
    struct CMUnitTest *tests = calloc(total ? total : 1, sizeof *tests);
    assert_non_null(tests);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < sets[i].count; k++, n++) {
            const char *at = sets[i].rows ? (const char *)sets[i].rows + k * sets[i].size : NULL;
            tests[n].name = at ? ((const struct row *)(const void *)at)->name : sets[i].name;
            tests[n].test_func = sets[i].judge;
            tests[n].initial_state = (void *)(uintptr_t)at;
        }
    int failed = _cmocka_run_group_tests(file, tests, total, NULL, NULL);
    free(tests);
    return failed;
}

void check_double(const struct row *row, double got, double want, double tolerance)
{
    double room = tolerance * fmax(1.0, fabs(want));
    if (got == want || fabs(got - want) <= room)
        return;
    fail_msg("%s:%d: %s: got %.17g, want %.17g", row->file, row->line, row->name, got, want);
}

void check_int(const struct row *row, intmax_t got, intmax_t want)
{
    if (got != want)
        fail_msg("%s:%d: %s: got %jd, want %jd", row->file, row->line, row->name, got, want);
}

void check_text(const struct row *row, const char *got, const char *want)
{
    if (!got || strcmp(got, want) != 0)
        fail_msg("%s:%d: %s:\n  got  %s\n  want %s", row->file, row->line, row->name, got ? got : "(null)",
                 want);
}

void check_true(const struct row *row, bool got, const char *what)
{
    if (!got)
        fail_msg("%s:%d: %s: not so: %s", row->file, row->line, row->name, what);
}

uint64_t check_random(uint64_t *seed)
{
    uint64_t z = *seed += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

int check_random_int(uint64_t *seed, int low, int high)
{
    return low + (int)(check_random(seed) % ((uint64_t)high - (uint64_t)low + 1));
}

double check_random_unit(uint64_t *seed)
{
    return (double)(check_random(seed) >> 11) * 0x1.0p-53;
}
