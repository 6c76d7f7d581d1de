#include "app/several.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

enum { PASSWORD_MOST = 256 };

/* Asked for on the terminal, unseen; false: there is no terminal, or nothing was said. */
static bool ask_password(const char *user, char *password)
{
    struct termios before, hidden;
    FILE *terminal = fopen("/dev/tty", "r+");
    if (!terminal)
        return false;
    if (tcgetattr(fileno(terminal), &before) != 0) {
        fclose(terminal);
        return false;
    }
    hidden = before;
    hidden.c_lflag &= ~(tcflag_t)ECHO;
    fprintf(terminal, "Password of %s: ", user);
    fflush(terminal);
    (void)tcsetattr(fileno(terminal), TCSAFLUSH, &hidden);
    bool said = fgets(password, PASSWORD_MOST, terminal) != NULL;
    (void)tcsetattr(fileno(terminal), TCSAFLUSH, &before);
    fputc('\n', terminal);
    fclose(terminal);
    password[said ? strcspn(password, "\r\n") : 0] = '\0';
    return said;
}

static void tell(const struct run *run, const struct coatwright_published *done)
{
    const char *dry = option_value(&run->options, "dry-run") ? " (dry run: nothing was changed)" : "";
    if (run->options.json)
        printf("{\"collection\": \"%s\", \"added\": %zu, \"changed\": %zu, \"removed\": %zu, \"same\": %zu, "
               "\"again\": %zu, "
               "\"left\": %zu}\n",
               done->collection, done->added, done->changed, done->removed, done->same, done->again,
               done->left);
    else
        printf("%s: %zu added, %zu changed, %zu removed, %zu as they were%s\n", done->collection,
               done->added + done->again, done->changed, done->removed, done->same, dry);
}

static int publish_of(struct run *run)
{
    struct coatwright_publish_want want = COATWRIGHT_PUBLISH_WANT_INIT;
    struct coatwright_published done = COATWRIGHT_PUBLISHED_INIT;
    char typed[PASSWORD_MOST];
    want.url = option_value(&run->options, "to");
    want.user = option_value(&run->options, "user");
    want.password_file = option_value(&run->options, "password-file");
    want.authorities = option_value(&run->options, "authorities");
    want.password = want.password_file ? NULL : getenv("COATWRIGHT_PASSWORD");
    want.make = option_value(&run->options, "make") != NULL;
    want.dry_run = option_value(&run->options, "dry-run") != NULL;
    if (want.user && !want.password && !want.password_file) {
        if (!ask_password(want.user, typed))
            return run_misused(
                run, "a password: --password-file, COATWRIGHT_PASSWORD, or a terminal to ask on", "none");
        want.password = typed;
    }
    bool good = coatwright_publish(run->session, &want, &done);
    memset(typed, 0, sizeof typed);
    if (!good)
        return run_failed(run);
    tell(run, &done);
    run_tell_warnings(run);
    return EXIT_DONE;
}

static int publish(struct run *run)
{
    struct several several;
    if (!option_value(&run->options, "to"))
        return run_misused(run, "--to with the address of a calendar", "none");
    struct run *failed = several_read(&several, run);
    failed = failed ? failed : several_plan(&several, run);
    int status = failed ? run_failed(failed) : EXIT_DONE;
    if (!failed && !several.outcomes[0].planned) {
        fprintf(stderr, "%s: not published: there is no timetable\n", run->options.operands[0]);
        status = EXIT_MISSED;
    } else if (!failed) {
        status = publish_of(&several.runs[0]);
    }
    several_close(&several);
    return status;
}

const struct command command_publish = {
    .name = "publish",
    .operands = "JOB ...",
    .does = "keep the plan's calendar on a CalDAV server",
    .least = 1,
    .most = OPERANDS_MOST,
    .more = "The password is read from a file that only its owner may read, from COATWRIGHT_PASSWORD, or "
            "from the terminal.",
    .options = {{"to", "URL", "a calendar, or a server that has one", NULL},
                {"user", "NAME", "who owns it", NULL},
                {"password-file", "FILE", "the user's password", NULL},
                {"authorities", "FILE", "trusted certificates; the system's", NULL},
                {"make", NULL, "a new calendar where there is none", NULL},
                {"dry-run", NULL, "only say what would be done", NULL},
                OPTION_LATEST,
                OPTION_EFFORT},
    .run = publish,
};
