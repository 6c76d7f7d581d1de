#include "sums.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct reading {
    const char *at;
    bool good;
};

static double read_sum(struct reading *r);

static bool take(struct reading *r, const char *word)
{
    size_t length = strlen(word);
    bool there = strncmp(r->at, word, length) == 0;
    r->at += there ? length : 0;
    return there;
}

static double read_atom(struct reading *r)
{
    double value;
    char *end;
    if (take(r, "sqrt("))
        value = sqrt(read_sum(r));
    else if (take(r, "tan("))
        value = tan(read_sum(r));
    else if (take(r, "("))
        value = read_sum(r);
    else if (take(r, "pi"))
        return 3.14159265358979323846;
    else {
        value = strtod(r->at, &end);
        r->good = r->good && end != r->at && r->at[0] != ' ';
        r->at = end;
        return value;
    }
    r->good = r->good && take(r, ")");
    return value;
}

static double read_power(struct reading *r)
{
    double value = read_atom(r);
    return take(r, "^2") ? value * value : value;
}

static double read_product(struct reading *r)
{
    double value = read_power(r);
    for (;;)
        if (take(r, " x "))
            value *= read_power(r);
        else if (take(r, " / "))
            value /= read_power(r);
        else
            return value;
}

static double read_sum(struct reading *r)
{
    double value = read_product(r);
    for (;;)
        if (take(r, " + "))
            value += read_product(r);
        else if (take(r, " - "))
            value -= read_product(r);
        else
            return value;
}

bool sums_read(const char *text, double *value, const char **rest)
{
    struct reading r = {text, true};
    *value = read_sum(&r);
    *rest = r.at;
    return r.good;
}
