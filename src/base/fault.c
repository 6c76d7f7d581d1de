#include "base/fault.h"

#include <stdarg.h>
#include <stdio.h>

void fault_fill(struct fault *fault, const char *format, ...)
{
    if (!fault)
        return;
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(fault->expected, sizeof fault->expected, format, arguments);
    va_end(arguments);
}
