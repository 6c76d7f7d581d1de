#include "base/text.h"

#include <string.h>

enum { WORD_MOST = 48 };

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Optimal string alignment, three rows of the usual table. */
static int distance(const char *a, size_t a_length, const char *b, size_t b_length)
{
    int rows[3][WORD_MOST + 1];
    int *before = rows[0], *last = rows[1], *row = rows[2];
    for (size_t k = 0; k <= b_length; k++)
        last[k] = (int)k;
    for (size_t i = 1; i <= a_length; i++) {
        row[0] = (int)i;
        for (size_t k = 1; k <= b_length; k++) {
            int differ = text_lower(a[i - 1]) != text_lower(b[k - 1]);
            row[k] = least(last[k - 1] + differ, least(last[k], row[k - 1]) + 1);
            if (i > 1 && k > 1 && differ && text_lower(a[i - 1]) == text_lower(b[k - 2]) &&
                text_lower(a[i - 2]) == text_lower(b[k - 1]))
                row[k] = least(row[k], before[k - 2] + 1);
        }
        int *oldest = before;
        before = last;
        last = row;
        row = oldest;
    }
    return last[b_length];
}

const char *text_nearest(const char *word, const char *const *candidates, size_t count)
{
    size_t length = strlen(word);
    if (length == 0 || length > WORD_MOST)
        return NULL;
    int limit = length <= 4 ? 1 : length <= 8 ? 2 : 3;
    const char *nearest = NULL;
    for (size_t i = 0; i < count; i++) {
        size_t other = strlen(candidates[i]);
        if (other > WORD_MOST)
            continue;
        int d = distance(word, length, candidates[i], other);
        /* A word of which nothing is left is not near anything. */
        if (d <= limit && d < (int)length) {
            nearest = candidates[i];
            limit = d - 1;
        }
    }
    return nearest;
}
