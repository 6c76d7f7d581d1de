#include "app/password.h"
#include "app/run.h"
#include "coatwright_server.h"

/* Where one calendar fails the others were fetched all the same: both are told. */
static int fetch_busy(struct run *run)
{
    struct coatwright_fetch_want want = COATWRIGHT_FETCH_WANT_INIT;
    struct password password;
    want.from = option_value(&run->options, "from");
    want.user = option_value(&run->options, "user");
    want.password_file = option_value(&run->options, "password-file");
    want.authorities = option_value(&run->options, "authorities");
    if (!password_get(&password, &run->options))
        return run_misused(run, password_wanted, "none");
    want.password = password.text;
    bool good = coatwright_fetch_busy(run->session, run->options.operands[0], &want);
    password_forget(&password);
    if (good)
        return run_report(run, COATWRIGHT_BUSY, EXIT_DONE);
    if (!run->options.json && coatwright_fetched_count(run->session) > 0)
        (void)run_report(run, COATWRIGHT_BUSY, EXIT_DONE);
    return run_failed(run);
}

const struct command command_fetch_busy = {
    .name = "fetch-busy",
    .operands = "JOB",
    .does = "fetch busy times from calendars on a server",
    .least = 1,
    .most = 1,
    .more = "Planning reads the files that it writes and asks no server. " PASSWORD_HELP,
    .options = {{"from", "URL", "one of the addresses; all of the job's", NULL}, OPTIONS_SERVER},
    .run = fetch_busy,
};
