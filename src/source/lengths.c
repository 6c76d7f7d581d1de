#include "source/read_parts.h"

#include <string.h>

enum { TEXT_MOST = 200 };

/* Takes the first length off and the rest by itself: the shortest first that lets the rest be read. Since a number may
 * hold a blank ("3 1/2"), only trying tells where one ends; with three at most that is quick. */
bool lengths_split(const char *text, enum length_unit bare, size_t count, double *lengths)
{
    char first[TEXT_MOST];
    size_t length = strlen(text);
    if (count == 1)
        return length_parse(text, bare, lengths, NULL);
    if (length >= sizeof first)
        return false;
    for (size_t at = 1; at + 1 < length; at++) {
        if (text[at] != ' ' || text[at - 1] == ' ')
            continue;
        memcpy(first, text, at);
        first[at] = '\0';
        if (length_parse(first, bare, lengths, NULL) &&
            lengths_split(text + at + 1, bare, count - 1, lengths + 1))
            return true;
    }
    return false;
}
