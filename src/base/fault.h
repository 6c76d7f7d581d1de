/* Why a text could not be read: what should have stood there, ready for err_add's `expected`. */
#ifndef BASE_FAULT_H
#define BASE_FAULT_H

#include <stdbool.h>

enum { FAULT_SIZE = 200 };

struct fault {
    char expected[FAULT_SIZE];
};

/* Fills it in; too long text is cut. `fault` may be NULL. */
void fault_fill(struct fault *fault, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Fills it in and is false, so that a reader can `return fault_say(...)`; a macro, so that whoever analyses the
 * caller sees the false. */
#define fault_say(...) (fault_fill(__VA_ARGS__), false)

#endif
