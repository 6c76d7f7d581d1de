/* Lengths and areas as text <-> m and m2, by the rules of base/measure.h, and lumber by its trade size. */
#ifndef BASE_LENGTH_H
#define BASE_LENGTH_H

#include "base/err.h"
#include "base/text.h"

#include <stdint.h>

enum unit_system { UNITS_METRIC, UNITS_US };

/* The unit of bare numbers; LENGTH_NONE: a bare number is refused. */
enum length_unit { LENGTH_NONE, LENGTH_MM, LENGTH_CM, LENGTH_M, LENGTH_IN, LENGTH_FT };

/* `mm` `cm` `m` `in` `ft`, as the job's `units`. */
bool length_unit_parse(const char *text, enum length_unit *unit, struct err *fault);
const char *length_unit_name(enum length_unit unit);
/* A number that stood bare (a JSON number) in metres. NaN, infinity and negative ones are refused. */
bool length_bare(double number, enum length_unit bare, double *length_m, struct err *fault);
bool length_parse(const char *text, enum length_unit bare, double *length_m, struct err *fault);
/* `1.8 m2`, `20 sq ft`, or `length x length`: both with a unit, or both bare. */
bool area_parse(const char *text, enum length_unit bare, double *area_m2, struct err *fault);
/* `[count x] length x length`, as `2 x 40 mm x 600 mm`; three numbers begin with a count (1 to a million). */
bool counted_area_parse(const char *text, enum length_unit bare, int64_t *count, double length_m[2],
                        struct err *fault);
struct text_short length_write(double length_m);
struct text_short area_write(double area_m2);
/* US lengths are inches with a fraction to 1/16 where that is true to 0.05 mm, decimal inches otherwise. */
struct text_short length_format(double length_m, enum unit_system system);
struct text_short area_format(double area_m2, enum unit_system system);

/* Lumber by its trade size -> what it measures when dressed. */
struct lumber {
    double thickness_m;
    double width_m; /* 0: hardwood by thickness, the width is not said */
};

/* Dressed dry softwood `1x4`, `2 x 6`, `5/4x6` (PS 20); hardwood thickness `4/4`, `5/4 rough`, `8/4 surfaced`
 * (NHLA; without a word: surfaced two sides, since a part to be coated is planed). */
bool lumber_parse(const char *text, struct lumber *lumber, struct err *fault);

#endif
