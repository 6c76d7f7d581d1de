#include "format/mesh_source.h"

#include "base/decimal.h"

#include <math.h>
#include <string.h>

/* What programs write for what is no number; some put digits behind "1.#IND". */
static bool named(struct mesh_word word, double *value)
{
    static const char *const names[] = {"nan", "nan(ind)", "inf", "infinity"};
    bool none = word.length > 3 && memcmp(word.text, "1.#", 3) == 0;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        none = none || mesh_word_is(word, names[i]);
    if (none)
        *value = NAN;
    return none;
}

bool mesh_number(struct mesh_word word, double *value)
{
    bool minus = word.length > 0 && word.text[0] == '-';
    if (word.length > 0 && (word.text[0] == '-' || word.text[0] == '+')) {
        word.text++;
        word.length--;
    }
    double read = 0;
    if (word.length == 0 || decimal_read(word.text, word.length, &read) != word.length)
        return named(word, value);
    *value = minus ? -read : read;
    return true;
}
