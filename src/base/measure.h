/* Quantities as text <-> base units. Every factor is exact (unit.h) and the result is rounded once.
 *
 * Base units: length m · area m2 · volume l · mass g · density kg/l (= g/ml) · thickness m · temperature C ·
 * share 1 (50 % is 0.5) · time span min · rate m2/h. Readers take the whole text (blanks around it allowed), any
 * case of a unit's letters, UTF-8 signs (′ ″ ² ³ µ ° × ¾ and no-break space). They refuse negative values (but for
 * temperatures), NaN, infinity, exponents, and sizes that cannot be meant (not 0, but below 1e-9 or above 1e12 base
 * units); 0 is accepted unless said otherwise: whether it makes sense is the caller's to judge. On failure they return
 * false, leave the result untouched and say in *fault (may be NULL) what was expected:
 * `a length such as "19 mm" or "3/4 in"`.
 *
 * S_write gives the shortest text that reads back as the very same double; S_format is for people: rounded, in metric
 * or US units.
 */
#ifndef BASE_MEASURE_H
#define BASE_MEASURE_H

#include "base/err.h"
#include "base/length.h"
#include "base/text.h"

#include <stdint.h>

bool volume_parse(const char *text, double *volume_l, struct err *fault);
bool mass_parse(const char *text, double *mass_g, struct err *fault);
bool density_parse(const char *text, double *density_kg_per_l, struct err *fault);
/* As a length, with um and mil; never bare. */
bool thickness_parse(const char *text, double *thickness_m, struct err *fault);
bool temperature_parse(const char *text, double *temperature_c, struct err *fault);
bool share_parse(const char *text, double *share, struct err *fault);
/* `23 C 50 %`: temperature and humidity. */
bool climate_parse(const char *text, double *temperature_c, double *humidity, struct err *fault);
/* Area worked per time: `7 m2/h`, above 0. */
bool rate_parse(const char *text, double *rate_m2_per_h, struct err *fault);

struct text_short volume_write(double volume_l);
struct text_short mass_write(double mass_g);
struct text_short density_write(double density_kg_per_l);
struct text_short thickness_write(double thickness_m);
struct text_short temperature_write(double temperature_c);
struct text_short share_write(double share);
struct text_short rate_write(double rate_m2_per_h);

struct text_short volume_format(double volume_l, enum unit_system system);
struct text_short mass_format(double mass_g, enum unit_system system);
struct text_short density_format(double density_kg_per_l, enum unit_system system);
struct text_short thickness_format(double thickness_m, enum unit_system system);
struct text_short temperature_format(double temperature_c, enum unit_system system);
struct text_short rate_format(double rate_m2_per_h, enum unit_system system);
struct text_short share_format(double share);

/* `1 h 30 min`, largest unit first; at most 1000 y. span_parse wants whole minutes. */
bool span_parse(const char *text, int64_t *span_min, struct err *fault);
bool span_parse_fraction(const char *text, double *span_min, struct err *fault);
struct text_short span_write(double span_min);
/* `2 d 4 h 30 min`, `0 min`; exact, so that span_parse reads it back. A minus for negative spans. */
struct text_short span_format(int64_t span_min);
/* `32 h 20 min`: of work, whose day has no 24 hours. */
struct text_short hours_format(int64_t work_min);

#endif
