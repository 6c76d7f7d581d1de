/* What every wrapped call asks of fault.c: whether it is the one that fails. */
#ifndef FAULT_H
#define FAULT_H

#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdbool.h>

/* Where a call is aimed: a path, or a descriptor (path NULL, fd >= 0), or nothing. */
struct aim {
    const char *path;
    int fd;
};

static const struct aim nowhere = {0, -1};

/* Whether this is the call of its kind that is to fail. */
bool fault_is_failing(const char *kind, const void *caller, struct aim aim);

#define fails(kind, aim) fault_is_failing(kind, __builtin_return_address(0), aim)
#define NEXT(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

#endif
