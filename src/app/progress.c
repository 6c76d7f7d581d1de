#include "app/progress.h"

#include <stdio.h>
#include <time.h>
#include <unistd.h>

enum { QUIET_MS = 700 }; /* what is soon done needs no word */

static int64_t now_ms(void)
{
    struct timespec now = {0};
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static sigset_t interruption(void)
{
    sigset_t set;
    sigemptyset(&set);
    sigaddset(&set, SIGINT);
    return set;
}

/* Takes an interruption that came meanwhile. */
static bool interrupted(void)
{
    sigset_t waiting, set = interruption();
    int signal;
    return sigpending(&waiting) == 0 && sigismember(&waiting, SIGINT) == 1 && sigwait(&set, &signal) == 0;
}

void progress_begin(struct progress *progress)
{
    sigset_t set = interruption();
    progress->began_ms = now_ms();
    progress->shown = -1;
    sigprocmask(SIG_BLOCK, &set, &progress->before);
}

static void clear(struct progress *progress)
{
    if (progress->shown >= 0)
        fprintf(stderr, "\r\033[K");
    progress->shown = -1;
}

void progress_end(struct progress *progress)
{
    clear(progress);
    (void)interrupted(); /* one that came too late to end anything */
    sigprocmask(SIG_SETMASK, &progress->before, NULL);
}

static void show(struct progress *progress, const struct coatwright_progress *how)
{
    int percent = (int)(how->done * 100);
    if (percent == progress->shown || now_ms() - progress->began_ms < QUIET_MS || !isatty(STDERR_FILENO))
        return;
    progress->shown = percent;
    fprintf(stderr, "\r\033[K%s: %d %% (Ctrl-C takes the best plan so far)",
            how->stage == COATWRIGHT_ADVISING ? "looking for what would help" : "planning", percent);
}

bool progress_ask(void *caller, const struct coatwright_progress *how)
{
    struct progress *progress = caller;
    show(progress, how);
    if (!interrupted())
        return true;
    clear(progress);
    fprintf(stderr, "interrupted: the best plan so far\n");
    return false;
}
