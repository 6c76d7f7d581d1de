#include "job/shop_same.h"

#include "base/measure.h"

#include <math.h>
#include <stdio.h>

typedef bool same_of(const struct shop *a, const struct shop *b);
typedef void words_of(const struct shop *shop, struct text_short *words);

static bool same_number(double a, double b)
{
    return fabs(a - b) < 1e-9;
}

static bool same_numbers(const double *a, const double *b, int count)
{
    for (int i = 0; i < count; i++)
        if (!same_number(a[i], b[i]))
            return false;
    return true;
}

static bool same_people(const struct shop *a, const struct shop *b)
{
    return a->people == b->people;
}

static bool same_day(const struct shop_day *a, const struct shop_day *b)
{
    for (size_t i = 0; i < a->count && a->count == b->count; i++)
        if (a->stretches[i].from_min != b->stretches[i].from_min ||
            a->stretches[i].to_min != b->stretches[i].to_min)
            return false;
    return a->count == b->count;
}

static bool same_hours(const struct shop *a, const struct shop *b)
{
    for (int day = 0; day < 7; day++)
        if (!same_day(&a->hours[day], &b->hours[day]))
            return false;
    return true;
}

/* Spans from and until, of which it does not matter how they are cut or ordered. */
typedef size_t count_of(const struct shop *shop);
typedef void span_of(const struct shop *shop, size_t index, struct busy *span);

static size_t closed_count(const struct shop *shop)
{
    return shop->closed_count;
}

static void closed_span(const struct shop *shop, size_t index, struct busy *span)
{
    *span = (struct busy){shop->closed[index].first_day, shop->closed[index].last_day + 1};
}

static size_t busy_count(const struct shop *shop)
{
    return shop->busy_count;
}

static void busy_span(const struct shop *shop, size_t index, struct busy *span)
{
    *span = shop->busy[index];
}

/* Whether every span of `a` lies within those of `b` together. */
static bool within(const struct shop *a, const struct shop *b, count_of *count, span_of *span)
{
    for (size_t i = 0; i < count(a); i++) {
        struct busy left, over;
        span(a, i, &left);
        for (bool moved = true; moved && left.from_min < left.to_min;) {
            moved = false;
            for (size_t k = 0; k < count(b); k++) {
                span(b, k, &over);
                if (over.from_min > left.from_min || over.to_min <= left.from_min)
                    continue;
                left.from_min = over.to_min;
                moved = true;
            }
        }
        if (left.from_min < left.to_min)
            return false;
    }
    return true;
}

static bool same_closed(const struct shop *a, const struct shop *b)
{
    return within(a, b, closed_count, closed_span) && within(b, a, closed_count, closed_span);
}

static bool same_busy(const struct shop *a, const struct shop *b)
{
    return within(a, b, busy_count, busy_span) && within(b, a, busy_count, busy_span);
}

static bool same_spells(const struct air_day *a, const struct air_day *b)
{
    for (size_t i = 0; i < a->spell_count && a->spell_count == b->spell_count; i++) {
        const struct air_spell *left = &a->spells[i], *right = &b->spells[i];
        if (left->from_min != right->from_min ||
            !same_number(left->air.temperature_c, right->air.temperature_c) ||
            !same_number(left->air.humidity, right->air.humidity))
            return false;
    }
    return a->spell_count == b->spell_count;
}

static bool same_air(const struct shop *a, const struct shop *b)
{
    if (!same_spells(&a->air.daily, &b->air.daily) || a->air.dated_count != b->air.dated_count)
        return false;
    for (size_t i = 0; i < a->air.dated_count; i++)
        if (a->air.dated[i].day != b->air.dated[i].day || !same_spells(&a->air.dated[i], &b->air.dated[i]))
            return false;
    return true;
}

static bool same_rack(const struct shop *a, const struct shop *b)
{
    return same_number(a->rack_m2, b->rack_m2);
}

static bool same_places(const struct shop *a, const struct shop *b)
{
    return a->spray_places == b->spray_places;
}

static bool same_room(const struct shop *a, const struct shop *b)
{
    return a->dust_separate == b->dust_separate;
}

static bool same_settle(const struct shop *a, const struct shop *b)
{
    return a->settle_min == b->settle_min;
}

static bool same_set_up(const struct shop *a, const struct shop *b)
{
    return same_numbers(a->set_up_min, b->set_up_min, WORK_COUNT);
}

static bool same_clean_up(const struct shop *a, const struct shop *b)
{
    return same_numbers(a->clean_up_min, b->clean_up_min, WORK_COUNT) &&
           same_numbers(a->two_part_clean_up_min, b->two_part_clean_up_min, TOOL_COUNT);
}

static bool same_handling(const struct shop *a, const struct shop *b)
{
    return same_numbers(a->handling_min, b->handling_min, WORK_COUNT);
}

static bool same_rates(const struct shop *a, const struct shop *b)
{
    return same_numbers(a->rate_m2_per_h, b->rate_m2_per_h, WORK_COUNT);
}

static void people_words(const struct shop *shop, struct text_short *words)
{
    snprintf(words->text, sizeof words->text, "%d", shop->people);
}

static void rack_words(const struct shop *shop, struct text_short *words)
{
    *words = shop->rack_m2 < 0 ? (struct text_short){"no limit"} : area_write(shop->rack_m2);
}

static void places_words(const struct shop *shop, struct text_short *words)
{
    snprintf(words->text, sizeof words->text, "%d", shop->spray_places);
}

static void room_words(const struct shop *shop, struct text_short *words)
{
    snprintf(words->text, sizeof words->text, "%s", shop->dust_separate ? "separate" : "shared");
}

static void settle_words(const struct shop *shop, struct text_short *words)
{
    *words = span_format(shop->settle_min);
}

size_t shop_differences(const struct shop *here, const struct shop *there,
                        struct shop_difference found[SHOP_DIFFERENCES_MOST])
{
    static const struct {
        const char *key;
        same_of *same;
        words_of *words; /* NULL: no single value */
    } keys[SHOP_DIFFERENCES_MOST] = {
        {"people", same_people, people_words},
        {"hours", same_hours, NULL},
        {"closed", same_closed, NULL},
        {"busy", same_busy, NULL},
        {"air", same_air, NULL},
        {"rack", same_rack, rack_words},
        {"spray-places", same_places, places_words},
        {"dust-room", same_room, room_words},
        {"settle", same_settle, settle_words},
        {"set-up", same_set_up, NULL},
        {"clean-up", same_clean_up, NULL},
        {"handling", same_handling, NULL},
        {"rates", same_rates, NULL},
    };
    size_t count = 0;
    for (size_t i = 0; i < SHOP_DIFFERENCES_MOST; i++) {
        if (keys[i].same(here, there))
            continue;
        found[count] = (struct shop_difference){.key = keys[i].key};
        if (keys[i].words) {
            keys[i].words(here, &found[count].here);
            keys[i].words(there, &found[count].there);
        }
        count++;
    }
    return count;
}
