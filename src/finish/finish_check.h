/* What finish_check.c shares with its two parts; nobody else needs it. */
#ifndef FINISH_FINISH_CHECK_H
#define FINISH_FINISH_CHECK_H

#include "finish/finish.h"

struct checker {
    const struct finish *finish;
    struct err_list *errors;
};

/* Adds a mistake at a formatted pointer. */
void finish_tell(struct checker *c, const char *expected, const char *found, const char *pointer, ...)
    __attribute__((format(printf, 4, 5)));

/* Times, windows, air, marks. */
void finish_check_limits(struct checker *c);
/* A source for every group of figures. */
void finish_check_sources(struct checker *c);

#endif
