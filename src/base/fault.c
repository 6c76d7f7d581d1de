#include "base/fault.h"

#include <stdarg.h>
#include <stdio.h>

bool fault_say(struct fault *fault, const char *format, ...)
{
    if (fault) {
        va_list arguments;
        va_start(arguments, format);
        vsnprintf(fault->expected, sizeof fault->expected, format, arguments);
        va_end(arguments);
    }
    return false;
}
