/* Plans a job, says on standard error how far it has come, and stops after so many questions (0: never) with the best plan so
 * far.
 *
 *     cc -std=c11 progress.c $(pkg-config --cflags --libs coatwright) -o progress && ./progress kitchen.json 20 */
#include <coatwright.h>

#include <stdio.h>
#include <stdlib.h>

struct looking {
    long asked, most;
    int tenths;
};

/* Called in the midst of the work: it must not use the session. */
static bool look(void *caller, const struct coatwright_progress *progress)
{
    struct looking *looking = caller;
    int tenths = (int)(progress->done * 10);
    if (tenths > looking->tenths) {
        looking->tenths = tenths;
        fprintf(stderr, "%s: %d0 %%\n",
                progress->stage == COATWRIGHT_SEARCHING ? "planning" : "what would help", tenths);
    }
    looking->asked++;
    return looking->most == 0 || looking->asked < looking->most;
}

static int failed(struct coatwright *session)
{
    char line[1200];
    for (size_t i = 0; i < coatwright_error_count(session); i++) {
        coatwright_error_line(coatwright_error(session, i), line, sizeof line);
        fprintf(stderr, "%s\n", line);
    }
    coatwright_close(session);
    return 1;
}

int main(int argc, char **argv)
{
    struct looking looking = {0, argc > 2 ? strtol(argv[2], NULL, 10) : 0, 0};
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    options.progress = look;
    options.caller = &looking;
    struct coatwright *session = coatwright_open(&options);
    if (!coatwright_read(session, argc > 1 ? argv[1] : "-") || !coatwright_plan(session, &outcome))
        return failed(session);
    printf("%s after %ld questions: %s\n", outcome.ended ? "ended" : "searched to the end", looking.asked,
           !outcome.planned  ? "no plan"
           : outcome.in_time ? "a plan in time"
                             : "a plan, late");
    coatwright_close(session);
    return 0;
}
