/* What the program says of its own use. */
#ifndef APP_OPTIONS_HELP_H
#define APP_OPTIONS_HELP_H

#include "app/option_table.h"

#include <stdio.h>

/* Of one command, or of the program (COMMAND_NONE). */
void options_help(FILE *out, enum command command);

/* A script that teaches bash the commands and options. */
void options_completion(FILE *out);

#endif
