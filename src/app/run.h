/* One run of the program: its options, its session, and how both end in an exit status. */
#ifndef APP_RUN_H
#define APP_RUN_H

#include "app/options.h"
#include "app/progress.h"
#include "coatwright.h"

enum exit_status {
    EXIT_DONE,
    EXIT_MISSED, /* late, impossible, or a mix that cannot be made */
    EXIT_USAGE,
    EXIT_INPUT,
    EXIT_FILE
};

struct run {
    struct options options;
    struct progress progress;
    struct coatwright *session; /* NULL: there was no memory for one */
    int unwritten;              /* errno of a report that standard output did not take; 0: none */
    const char *finishes;       /* folder of the table of finishes; NULL: the one that the library knows */
    char beside[4096];          /* its name, where it is found by the place of the program */
};

/* Opens a session with what the options ask for; the run stays where it is. Reads the clock, the environment and the
 * terminal: nobody else does. */
void run_open(struct run *run, const struct options *options);
/* Closes the session and standard output; the status becomes EXIT_FILE where not all could be written. */
int run_close(struct run *run, int status);

/* Reads and plans the first operand. */
bool run_plan(struct run *run, struct coatwright_outcome *outcome);

/* The job as it was changed; its name must live as long as the run. */
struct applied {
    char path[4096];
};

/* --apply N: after the job was planned shows the line, makes its change, and puts the plan of the changed job into the run's
 * session. Without the option nothing is done. False: an error was added. */
bool apply_asked(struct run *run, struct applied *applied, struct coatwright_outcome *outcome);

/* Every warning of the session, on standard error. */
void run_tell_warnings(const struct run *run);
/* Prints the report, as JSON where asked, and the warnings on standard error; gives `status` if that went well. */
int run_report(struct run *run, enum coatwright_report report, int status);
/* Prints a text of the session; NULL: fails. */
int run_print(struct run *run, const char *text);
/* Tells every error, on standard error or as JSON; gives the status that they mean. */
int run_failed(struct run *run);
/* Adds a usage error and fails. */
int run_misused(struct run *run, const char *expected, const char *found);

/* A name of the command line, of a file or of a server, as it may stand on a screen. */
struct run_name {
    char text[600];
};
struct run_name run_shown(const char *name);
/* A remark about a file, on standard error. */
void run_note(const char *file, const char *remark);

#endif
