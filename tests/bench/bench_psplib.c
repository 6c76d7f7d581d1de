/* bench_psplib [--effort N] FILE...: solves published scheduling problems and prints one line each,
 *     file,optimal|feasible|infeasible|unknown,lower,upper,seconds of the processor,nodes,counted work
 * with the file's own name, empty bounds where there are none. Exit status 4 where a file could not be read. */
#include <errno.h>
#include <setjmp.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/arena.h"
#include "solver/solve.h"
#include "psplib.h"

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static void print(const char *name, const struct net_result *result, double spent)
{
    long long nodes = (long long)result->nodes, effort = (long long)result->effort;
    if (result->status == NET_IMPOSSIBLE)
        printf("%s,infeasible,,,%.3f,%lld,%lld\n", name, spent, nodes, effort);
    else if (result->status == NET_UNKNOWN)
        printf("%s,unknown,%d,,%.3f,%lld,%lld\n", name, (int)result->bound, spent, nodes, effort);
    else
        printf("%s,%s,%d,%d,%.3f,%lld,%lld\n", name, result->proven ? "optimal" : "feasible",
               (int)result->bound, (int)result->value, spent, nodes, effort);
    fflush(stdout);
}

static bool solve_file(const char *path, int64_t effort)
{
    FILE *file = fopen(path, "r");
    if (!file)
        return false;
    jmp_buf escape;
    struct arena *arena = arena_make(0);
    struct network net;
    struct net_result result;
    const char *slash = strrchr(path, '/'), *dot = strrchr(path, '.');
    bool read = false;
    if (arena && !setjmp(escape)) {
        arena_guard(arena, &escape);
        read = psplib_read(&net, arena, file, dot && strcmp(dot, ".SCH") == 0, 1);
        double before = seconds();
        if (read) {
            net_solve(&net, (struct net_options){effort}, &result);
            print(slash ? slash + 1 : path, &result, seconds() - before);
        }
    }
    arena_free(arena);
    fclose(file);
    return read;
}

static bool parse_effort(const char *text, int64_t *effort)
{
    char *end;
    errno = 0;
    *effort = text ? strtoll(text, &end, 10) : 0;
    return text && *text && !*end && !errno && *effort > 0;
}

int main(int argc, char **argv)
{
    int first = 1, status = 0;
    int64_t effort = 0;
    if (argc > 1 && strcmp(argv[1], "--effort") == 0) {
        if (!parse_effort(argv[2], &effort))
            first = argc;
        else
            first = 3;
    }
    if (first >= argc) {
        fprintf(stderr, "usage: bench_psplib [--effort N] FILE...\n");
        return 2;
    }
    for (int i = first; i < argc; i++)
        if (!solve_file(argv[i], effort)) {
            fprintf(stderr, "%s: not a scheduling problem that can be read\n", argv[i]);
            status = 4;
        }
    return status;
}
