/* mutated_jobs COUNT SEED BUNDLE...: tries so many whole jobs, each one of the bundles (whole_job.h) with one change to four.
 * The last line that was printed names the job that broke something; `mutated_jobs -n SEED BUNDLE...` prints job n alone. */
#include "whole_job.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { BUNDLE_MOST = 1 << 16, SECONDS_MOST = 60, TURNS = 8 };

/* How many changes: mostly one, which more often leaves a job that can be planned. */
static const int changes[TURNS] = {1, 1, 1, 1, 1, 2, 3, 4};

/* Job `number`, in storage of just its size, so that a read past its end is seen. */
static char *make(int number, uint64_t first, char **bundles, int count, size_t *size)
{
    char *room = malloc(BUNDLE_MOST);
    uint64_t seed = first + (uint64_t)number * 7919;
    FILE *file = fopen(bundles[number % count], "rb");
    if (!file || !room)
        exit(1);
    *size = fread(room, 1, BUNDLE_MOST / 2, file);
    fclose(file);
    for (int i = 0; i < changes[number / count % TURNS]; i++)
        *size = whole_job_mutate(room, *size, BUNDLE_MOST, &seed);
    char *bundle = realloc(room, *size ? *size : 1);
    if (!bundle)
        exit(1);
    return bundle;
}

int main(int argc, char **argv)
{
    if (argc < 4)
        return 2;
    int count = (int)strtol(argv[1], NULL, 10), read = 0, planned = 0;
    uint64_t seed = strtoull(argv[2], NULL, 10);
    for (int i = count < 0 ? -count : 0; i < (count < 0 ? 1 - count : count); i++) {
        size_t size;
        char *bundle = make(i, seed, argv + 3, argc - 3, &size);
        if (count < 0)
            fwrite(bundle, 1, size, stdout);
        else
            printf("job %d of seed %llu\n", i, (unsigned long long)seed);
        fflush(stdout);
        alarm(SECONDS_MOST);
        struct whole_job done = whole_job_try(bundle, size);
        read += done.read;
        planned += done.planned;
        free(bundle);
    }
    /* Mutations that only break a job would not reach the plan. */
    int deep = planned * 8 >= count;
    printf("%d were read, %d planned\n%d passed, %d failed\n", read, planned, count, !deep);
    return !deep;
}
