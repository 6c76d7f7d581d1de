/* Reading the command line. */
#ifndef APP_OPTIONS_H
#define APP_OPTIONS_H

#include "app/option_table.h"
#include "base/err.h"

/* Fills *options, as far as it came on failure too: `json` is then true if it stood anywhere. */
bool options_read(struct options *options, int argc, char *const *argv, struct err *misuse);

#endif
