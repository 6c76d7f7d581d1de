/* The password for a server: from a file that the library reads, from the environment, or asked for on the terminal; never an
 * argument, which everybody on the machine could read. */
#ifndef APP_PASSWORD_H
#define APP_PASSWORD_H

#include "app/options.h"

enum { PASSWORD_MOST = 256 };

struct password {
    const char *text; /* NULL: none is needed, or it is in the file of --password-file */
    char typed[PASSWORD_MOST];
};

/* That of --user. False: none is to be had. */
bool password_get(struct password *password, const struct options *options);
void password_forget(struct password *password);

extern const char password_wanted[];

#define PASSWORD_HELP                                                                                        \
    "The password is read from a file that only its owner may read, from COATWRIGHT_PASSWORD, or "           \
    "from the terminal."

/* Options of the commands that ask a server. */
#define OPTIONS_SERVER                                                                                       \
    {"user", "NAME", "who owns it", NULL}, {"password-file", "FILE", "the user's password", NULL},           \
    {                                                                                                        \
        "authorities", "FILE", "trusted certificates; the system's", NULL                                    \
    }

#endif
