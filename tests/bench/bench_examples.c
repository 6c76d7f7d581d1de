/* bench_examples [--effort N] JOB...: the timetable of each job, at the default effort unless told. Prints whether no
 * quicker one exists, the bound against the ready moment, and what it took: nodes of the search, effort (counted work, the
 * same on every machine), seconds of building and searching the network. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/arena.h"
#include "base/err.h"
#include "base/moment.h"
#include "source/job_file.h"
#include "surface/takeoff.h"
#include "timetable/planning.h"

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static const char *status_of(const struct timetable *timetable)
{
    if (timetable->status != TIMETABLE_PLANNED)
        return timetable->status == TIMETABLE_IMPOSSIBLE ? "impossible" : "unknown";
    return timetable->work_proven && timetable->ready_proven ? "work and ready proven"
           : timetable->work_proven                          ? "work proven"
           : timetable->ready_proven                         ? "ready proven"
                                                             : "open";
}

static void tell(const char *path, const struct timetable *timetable, double spent)
{
    const struct zone *zone = timetable->job->zone;
    printf("%s: %zu steps, %s", path, timetable->operations->count, status_of(timetable));
    if (timetable->status == TIMETABLE_PLANNED)
        printf(", %zu batches, work %lld min of no less than %lld, no earlier than %s, ready %s",
               timetable->batch_count, (long long)timetable->hands_on_min,
               (long long)timetable->no_less_work_min,
               moment_format(zone, timetable->no_earlier_than_min, MOMENT_RFC3339).text,
               moment_format(zone, timetable->ready_min, MOMENT_RFC3339).text);
    printf(", %lld nodes, effort %lld, %.3f s\n", (long long)timetable->nodes, (long long)timetable->effort,
           spent);
    fflush(stdout);
}

static const struct operations *work_of(struct arena *arena, const char *path, struct err_list *errors)
{
    struct err_list *warnings = ARENA_NEW(arena, struct err_list);
    struct job_source source = {.path = path, .finishes = "finishes"};
    const struct job *job = job_read(arena, &source, errors, warnings);
    const struct surfaces *surfaces = job ? surfaces_make(arena, job, errors) : NULL;
    return surfaces ? timetable_operations(arena, job, surfaces, errors) : NULL;
}

static bool plan_one(const char *path, int64_t effort)
{
    struct arena *arena = arena_make(0);
    struct err_list *errors = ARENA_NEW(arena, struct err_list);
    const struct operations *operations = work_of(arena, path, errors);
    if (operations) {
        double before = seconds();
        const struct timetable *timetable =
            timetable_make(arena, operations, (struct timetable_options){.effort = effort});
        double spent = seconds() - before;
        tell(path, timetable, spent);
    }
    for (size_t i = 0; i < errors->count; i++) {
        char line[ERR_LINE_SIZE];
        err_format(&errors->items[i], line, sizeof line);
        fprintf(stderr, "%s\n", line);
    }
    arena_free(arena);
    return operations != NULL;
}

int main(int argc, char **argv)
{
    bool sound = true, told = argc > 2 && strcmp(argv[1], "--effort") == 0;
    int64_t effort = told ? strtoll(argv[2], NULL, 10) : 0;
    for (int i = told ? 3 : 1; i < argc; i++)
        sound = plan_one(argv[i], effort) && sound;
    return sound ? EXIT_SUCCESS : EXIT_FAILURE;
}
