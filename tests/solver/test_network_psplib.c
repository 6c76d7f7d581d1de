/* Published problems, when ../shared/psplib is there: renumbered copies with all times tripled give three times the
 * published optimum. Seeds are fixed, so that every run tries the same copies. */
#include "check.h"

#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "net_verify.h"
#include "psplib.h"

struct problem_row {
    struct row row;
    const char *path;
    int optimum; /* optimum.csv beside the problem; -1: no plan exists */
    uint64_t seed;
};

static const struct problem_row problems[] = {
    {ROW("j301_1"), "j30/j301_1.sm", 43, 1},
    {ROW("j3010_1"), "j30/j3010_1.sm", 42, 2},
    {ROW("j3029_1, where a wrong learning rule proved 86"), "j30/j3029_1.sm", 85, 3},
    {ROW("j3045_2"), "j30/j3045_2.sm", 125, 4},
    {ROW("max10 PSP1"), "max10/PSP1.SCH", 26, 5},
    {ROW("max10 PSP7"), "max10/PSP7.SCH", 43, 6},
    {ROW("max20 PSP1"), "max20/PSP1.SCH", -1, 7},
    {ROW("max20 PSP7"), "max20/PSP7.SCH", 65, 8},
};

static FILE *open_problem(const char *path)
{
    char full[300];
    const char *folder = getenv("PSPLIB");
    snprintf(full, sizeof full, "%s/%s", folder ? folder : "../shared/psplib", path);
    return fopen(full, "r");
}

static void is_tripled(void **state)
{
    const struct problem_row *r = *state;
    uint64_t seed = r->seed;
    struct network read, net;
    struct net_result result;
    FILE *file = open_problem(r->path);
    if (!file) {
        print_message("skipped: there is no ../shared/psplib\n");
        skip();
    }
    struct arena *arena = arena_make(0);
    check_true(&r->row, psplib_read(&read, arena, file, strstr(r->path, ".SCH"), 3), "readable");
    fclose(file);
    psplib_renumber(&read, &net, arena, &seed);
    net_solve(&net, (struct net_options){0}, &result);
    net_verify(&r->row, &net, &result);
    check_int(&r->row, result.status, r->optimum < 0 ? NET_IMPOSSIBLE : NET_PLANNED);
    if (r->optimum >= 0) {
        check_true(&r->row, result.proven, "proven");
        check_int(&r->row, result.value, 3 * r->optimum);
    }
    arena_free(arena);
}

/* Invented, in the format of RCPSP/max: a (2 slots) and b (3 slots) share one unit, b starts at most 2 after a. In
 * either order the end is at 5. */
static void small_file(void **state)
{
    (void)state;
    struct network net;
    struct net_result result;
    struct arena *arena = arena_make(0);
    FILE *file = tmpfile();
    assert_non_null(file);
    fputs("2 1 0 0\n0 1 2 1 2 [0] [0]\n1 1 1 3 [2]\n2 1 2 3 1 [3] [-2]\n3 1 0\n", file);
    fputs("0 1 0 0\n1 1 2 1\n2 1 3 1\n3 1 0 0\n1\n", file);
    rewind(file);
    check_true(HERE, psplib_read(&net, arena, file, true, 1), "readable");
    fclose(file);
    net_solve(&net, (struct net_options){0}, &result);
    net_verify(HERE, &net, &result);
    check_int(HERE, result.value, 5);
    check_true(HERE, result.proven, "proven");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(small_file), CHECK_ROWS(problems, is_tripled));
}
