#include "format/ical_fold.h"

#include "base/buf.h"

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

enum { OCTETS_MOST = 75 };

static bool is_fold(const char *at)
{
    return at[0] == '\r' && at[1] == '\n' && (at[2] == ' ' || at[2] == '\t');
}

static size_t octets_of(const char *at)
{
    size_t octets = 1;
    while (((unsigned char)at[octets] & 0xC0) == 0x80)
        octets++;
    return octets;
}

void ical_fold(const char *text, struct buf *out)
{
    size_t used = 0;
    for (const char *at = text; *at;) {
        if (is_fold(at)) {
            at += 3;
            continue;
        }
        size_t octets = octets_of(at);
        bool line_end = *at == '\r' || *at == '\n';
        if (!line_end && used + octets > OCTETS_MOST) {
            buf_add(out, "\r\n ");
            used = 1;
        }
        buf_add_n(out, at, octets);
        used = line_end ? 0 : used + octets;
        at += octets;
    }
}
