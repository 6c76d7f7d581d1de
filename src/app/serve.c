/* The page, in a browser on this machine or on those of the shop. */
#include "app/run.h"

#include "coatwright_folder.h"
#include "base/number.h"
#include "page/page.h"

#include <stdlib.h>

enum { PORT_MOST = 65535 };

static bool port_reads(const char *value, struct err *misuse)
{
    int64_t port = 0;
    bool reads = count_parse(value, PORT_MOST, &port, NULL) || (value[0] == '0' && !value[1]);
    if (!reads)
        err_fill(misuse, ERR_USAGE, "a port from 0 (any) to 65535 after --port", value);
    return reads;
}

static int serve(struct run *run)
{
    const char *port = option_value(&run->options, "port");
    const char *token_file = option_value(&run->options, "token-file");
    struct page_settings settings = {.folder = run->options.operands[0],
                                     .finishes = run->finishes,
                                     .now = option_value(&run->options, "now"),
                                     .listen = option_value(&run->options, "listen"),
                                     .port = port ? (int)strtol(port, NULL, 10) : 0};
    struct err err;
    if (settings.listen && !token_file)
        return run_misused(run, "--token-file with --listen: whoever reaches the page may change the jobs",
                           "--listen alone");
    if (token_file && !(settings.token = coatwright_secret(run->session, token_file)))
        return run_failed(run);
    if (!coatwright_list_folder(run->session, settings.folder))
        return run_failed(run);
    if (page_serve(settings, &err))
        return EXIT_DONE;
    struct coatwright_error error = {
        .code = COATWRIGHT_FILE, .file = "coatwright", .found = err.found, .expected = err.expected};
    coatwright_error_add(run->session, &error);
    return run_failed(run);
}

const struct command command_serve = {
    .name = "serve",
    .operands = "FOLDER",
    .does = "the page: the jobs of a folder in a browser",
    .least = 1,
    .most = 1,
    .more = "It prints its address, and answers until Ctrl-C.",
    .options = {{"port", "NUMBER", "listen at this port; any that is free", port_reads},
                {"listen", "ADDRESS", "for other machines as well: at this address", NULL},
                {"token-file", "FILE", "the secret that they must know, readable by its owner only", NULL}},
    .run = serve,
};
