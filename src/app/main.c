#include "app/run.h"

#include <signal.h>
#include <stdio.h>

/* What is printed without a session. */
static bool answered(const struct options *options)
{
    if (option_value(options, "help"))
        options_help(stdout, options->command);
    else if (option_value(options, "version"))
        printf("coatwright %s\n", coatwright_version());
    else if (option_value(options, "completion"))
        completion_script(stdout, option_value(options, "completion"));
    else
        return false;
    return true;
}

int main(int argc, char **argv)
{
    struct options options;
    struct err misuse = {.code = ERR_USAGE};
    struct run run = {.session = NULL};
    /* A closed pipe and a limit on the size of files are failed writes like any other. */
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN);
    if (completion_asked(argc, argv)) {
        completion_words((size_t)argc - 3, argv + 3);
        return run_close(&run, EXIT_DONE);
    }
    bool read = options_read(&options, argc, argv, &misuse);
    if (read && answered(&options))
        return run_close(&run, EXIT_DONE);
    run_open(&run, &options);
    if (!read)
        return run_close(&run, run_misused(&run, misuse.expected, misuse.found));
    return run_close(&run, run.session ? options.command->run(&run) : run_failed(&run));
}
