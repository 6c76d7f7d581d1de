/* The steps of a panel as words, for tests of schedules. */
#ifndef TESTS_STEPS_WORDS_H
#define TESTS_STEPS_WORDS_H

#include "check.h"
#include "panel_site.h"

/* A step a line, behind it what it waits for, but that it begins behind the one before it; last what must
 * be over. */
void check_steps(const struct row *row, struct panel *panel, const char *want);

#endif
