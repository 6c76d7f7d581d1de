#include "app/password.h"
#include "app/several.h"
#include "coatwright_server.h"

#include "base/text.h"

#include <stdio.h>

/* A server names its own address. */
static void put_json_text(const char *text)
{
    putchar('"');
    while (*text) {
        const char *from = text;
        uint32_t c = text_next(&text);
        if (text_is_control(c))
            printf("\\u%04x", (unsigned)c);
        else
            printf("%s%.*s", c == '"' || c == '\\' ? "\\" : "", (int)(text - from), from);
    }
    putchar('"');
}

static void tell(const struct run *run, const struct coatwright_published *done)
{
    const char *dry = option_value(&run->options, "dry-run") ? " (dry run: nothing was changed)" : "";
    if (run->options.json) {
        printf("{\"collection\": ");
        put_json_text(done->collection);
        printf(", \"added\": %zu, \"changed\": %zu, \"removed\": %zu, \"same\": %zu, "
               "\"again\": %zu, "
               "\"left\": %zu}\n",
               done->added, done->changed, done->removed, done->same, done->again, done->left);
    } else {
        printf("%s: %zu added, %zu changed, %zu removed, %zu as they were%s\n",
               run_shown(done->collection).text, done->added + done->again, done->changed, done->removed,
               done->same, dry);
    }
}

static int publish_of(struct run *run)
{
    struct coatwright_publish_want want = COATWRIGHT_PUBLISH_WANT_INIT;
    struct coatwright_published done = COATWRIGHT_PUBLISHED_INIT;
    struct password password;
    want.url = option_value(&run->options, "to");
    want.user = option_value(&run->options, "user");
    want.password_file = option_value(&run->options, "password-file");
    want.authorities = option_value(&run->options, "authorities");
    want.make = option_value(&run->options, "make") != NULL;
    want.dry_run = option_value(&run->options, "dry-run") != NULL;
    if (!password_get(&password, &run->options))
        return run_misused(run, password_wanted, "none");
    want.password = password.text;
    bool good = coatwright_publish(run->session, &want, &done);
    password_forget(&password);
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
        run_note(run->options.operands[0], "not published: there is no timetable");
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
    .more = PASSWORD_HELP,
    .options = {{"to", "URL", "a calendar, or a server that has one", NULL},
                OPTIONS_SERVER,
                {"make", NULL, "a new calendar where there is none", NULL},
                {"dry-run", NULL, "only say what would be done", NULL},
                OPTION_LATEST,
                OPTION_EFFORT},
    .run = publish,
};
