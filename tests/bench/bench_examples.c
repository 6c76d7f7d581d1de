/* bench_examples [--effort N] [--soonest] JOB...: the timetable of each job, at the default effort unless told. Prints what is
 * proven, the bounds against the work and the ready moment, and what it took: nodes of the search, effort (counted work, the
 * same on every machine), seconds of the processor for planning alone, the most memory so far. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
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
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
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
    struct rusage used;
    getrusage(RUSAGE_SELF, &used);
    printf(", %lld nodes, effort %lld, %ld MB, %.3f s\n", (long long)timetable->nodes,
           (long long)timetable->effort, used.ru_maxrss / 1024, spent);
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

static bool plan_one(const char *path, struct timetable_options options)
{
    struct arena *arena = arena_make(0);
    struct err_list *errors = ARENA_NEW(arena, struct err_list);
    const struct operations *operations = work_of(arena, path, errors);
    if (operations) {
        double before = seconds();
        const struct timetable *timetable = timetable_make(arena, operations, options);
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
    bool sound = true;
    struct timetable_options options = {0};
    for (int i = 1; i < argc; i++)
        if (strcmp(argv[i], "--effort") == 0 && i + 1 < argc)
            options.effort = strtoll(argv[++i], NULL, 10);
        else if (strcmp(argv[i], "--soonest") == 0)
            options.aim = AIM_SOONEST;
        else
            sound = plan_one(argv[i], options) && sound;
    return sound ? EXIT_SUCCESS : EXIT_FAILURE;
}
