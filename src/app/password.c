#include "app/password.h"

#include "app/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

const char password_wanted[] = "a password: --password-file, COATWRIGHT_PASSWORD, or a terminal to ask on";

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
    fprintf(terminal, "Password of %s: ", run_shown(user).text);
    fflush(terminal);
    (void)tcsetattr(fileno(terminal), TCSAFLUSH, &hidden);
    bool said = fgets(password, PASSWORD_MOST, terminal) != NULL;
    (void)tcsetattr(fileno(terminal), TCSAFLUSH, &before);
    fputc('\n', terminal);
    fclose(terminal);
    password[said ? strcspn(password, "\r\n") : 0] = '\0';
    return said;
}

bool password_get(struct password *password, const struct options *options)
{
    const char *user = option_value(options, "user");
    *password = (struct password){.text = NULL};
    if (option_value(options, "password-file"))
        return true;
    password->text = getenv("COATWRIGHT_PASSWORD");
    if (!user || password->text)
        return true;
    password->text = password->typed;
    return ask_password(user, password->typed);
}

void password_forget(struct password *password)
{
    memset(password, 0, sizeof *password);
}
