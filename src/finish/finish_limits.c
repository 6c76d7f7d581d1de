/* Times and windows in their order, air limits that hold the reference air, marks in their range. */
#include "finish/finish_check.h"

#include "base/measure.h"
#include "base/number.h"

#include <stdio.h>
#include <string.h>

/* `later` may not come before `earlier`. */
struct order {
    enum finish_state earlier, later;
};

static const struct order orders[] = {
    {STATE_DUST_FREE, STATE_HANDLE}, {STATE_DUST_FREE, STATE_SAND},  {STATE_HANDLE, STATE_WRAP},
    {STATE_HANDLE, STATE_LIGHT_USE}, {STATE_LIGHT_USE, STATE_CURED}, {STATE_HANDLE, STATE_CURED},
};

static void check_times(struct checker *c, const struct finish_times *times, const char *key)
{
    char expected[160], found[160];
    for (size_t i = 0; i < sizeof orders / sizeof orders[0]; i++) {
        int32_t earlier = times->after_min[orders[i].earlier], later = times->after_min[orders[i].later];
        if (later >= earlier)
            continue;
        snprintf(expected, sizeof expected, "no less than `%s`, %s", finish_state_name(orders[i].earlier),
                 span_format(earlier).text);
        finish_tell(c, expected, span_format(later).text, "/%s/%s", key, finish_state_name(orders[i].later));
    }
    if (times->recoat_last_min < times->after_min[STATE_RECOAT]) {
        snprintf(found, sizeof found, "%s to %s", span_format(times->after_min[STATE_RECOAT]).text,
                 span_format(times->recoat_last_min).text);
        finish_tell(c, "a window that ends after it begins", found, "/%s/recoat", key);
    }
}

static void check_range(struct checker *c, struct span_range range, const char *pointer)
{
    char found[160];
    if (range.most_min > 0 && range.least_min <= range.most_min)
        return;
    snprintf(found, sizeof found, "%s to %s", span_format(range.least_min).text,
             span_format(range.most_min).text);
    finish_tell(c, "two times, the second not before the first and above 0", found, "%s", pointer);
}

static void check_air(struct checker *c)
{
    const struct finish *f = c->finish;
    char found[160];
    if (!(f->air.lowest_c < f->air.highest_c))
        finish_tell(c, "a highest temperature above the lowest",
                    temperature_format(f->air.highest_c, UNITS_METRIC).text, "/air/temperature");
    if (!(f->air.driest >= 0 && f->air.driest < f->air.dampest && f->air.dampest <= 1))
        finish_tell(c, "humidities that rise, from 0 % to 100 %", share_format(f->air.dampest).text,
                    "/air/humidity");
    bool humid = f->at_humidity > 0 && f->at_humidity < 1;
    if (humid && f->at_c >= f->air.lowest_c && f->at_c <= f->air.highest_c)
        return;
    snprintf(found, sizeof found, "%s %s", temperature_format(f->at_c, UNITS_METRIC).text,
             share_format(f->at_humidity).text);
    finish_tell(c, "air inside the limits of `air`, humidity above 0 % and below 100 %", found, "/times/at");
}

static void check_marks(struct checker *c)
{
    const struct finish *f = c->finish;
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        if (f->resists[i] < 0 || f->resists[i] > 3)
            finish_tell(c, "a mark from 0 to 3", number_format(f->resists[i]).text, "/resists/%s",
                        resistance_name((enum resistance)i));
    if (f->voc_g_per_l != -1 && !(f->voc_g_per_l >= 0 && f->voc_g_per_l <= 1000))
        finish_tell(c, "at most 1000 g/l", number_format(f->voc_g_per_l).text, "/voc");
}

void finish_check_limits(struct checker *c)
{
    const struct finish *f = c->finish;
    check_times(c, &f->first, "times");
    if (memcmp(&f->first, &f->later, sizeof f->first) != 0)
        check_times(c, &f->later, "later-times");
    if (f->has_wipe_off)
        check_range(c, f->wipe_off, "/wipe-off");
    if (f->has_polish)
        check_range(c, f->polish, "/polish");
    check_air(c);
    check_marks(c);
}
