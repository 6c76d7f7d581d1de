/* How far the planning has come, on a terminal; and Ctrl-C, which ends the search with the best plan so far. */
#ifndef APP_PROGRESS_H
#define APP_PROGRESS_H

#include "coatwright.h"

#include <signal.h>

struct progress {
    int64_t began_ms;
    int shown; /* per cent that stand on the terminal; -1: nothing does */
    sigset_t before;
};

/* Between the two an interruption waits for progress_ask. */
void progress_begin(struct progress *progress);
void progress_end(struct progress *progress);

/* For coatwright_options; the caller is the struct progress. */
bool progress_ask(void *caller, const struct coatwright_progress *how);

#endif
