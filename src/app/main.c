#include "app/commands.h"
#include "app/options_help.h"

#include <signal.h>
#include <stdio.h>

static int run_command(struct run *run)
{
    static int (*const commands[COMMAND_COUNT])(struct run *) = {
        [COMMAND_CHECK] = run_check,
        [COMMAND_AREA] = run_area,
        [COMMAND_BUY] = run_buy,
        [COMMAND_MIX] = run_mix,
        [COMMAND_TIMETABLE] = run_timetable,
        [COMMAND_PLAN] = run_whole_plan,
        [COMMAND_FINISHES] = run_finishes,
    };
    if (!run->session)
        return run_failed(run);
    return commands[run->options->command](run);
}

/* What is printed without a session. */
static bool answered(const struct options *options)
{
    if (options->help)
        options_help(stdout, options->command);
    else if (options->version)
        printf("coatwright %s\n", coatwright_version());
    else if (options->completion)
        options_completion(stdout);
    else
        return false;
    return true;
}

int main(int argc, char **argv)
{
    struct options options;
    struct err misuse;
    struct run run;
    /* A closed pipe is a failed write like any other. */
    signal(SIGPIPE, SIG_IGN);
    bool read = options_read(&options, argc, argv, &misuse);
    run = (struct run){.options = &options};
    if (read && answered(&options))
        return run_close(&run, EXIT_DONE);
    run_open(&run, &options);
    return run_close(&run, read ? run_command(&run) : run_misused(&run, &misuse));
}
