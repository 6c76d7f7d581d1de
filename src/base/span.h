/* Time spans as text <-> minutes, by the rules of base/measure.h. */
#ifndef BASE_SPAN_H
#define BASE_SPAN_H

#include "base/err.h"
#include "base/text.h"

#include <stdint.h>

/* `1 h 30 min`, largest unit first; at most 1000 y. span_parse wants whole minutes. */
bool span_parse(const char *text, int64_t *span_min, struct err *fault);
bool span_parse_fraction(const char *text, double *span_min, struct err *fault);
struct text_short span_write(double span_min);
/* `2 d 4 h 30 min`, `0 min`; exact, so that span_parse reads it back. A minus for negative spans. */
struct text_short span_format(int64_t span_min);

#endif
