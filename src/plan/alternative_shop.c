/* More hands, room and hours. */
#include "plan/alternative.h"

#include "base/arena.h"
#include "base/measure.h"
#include "plan/patch.h"
#include "timetable/problem.h"

#include <math.h>

enum { MORE_EVENING_MIN = 60 };

static void add_person(struct alternatives *all)
{
    struct shop shop = all->job->shop;
    shop.people++;
    alternatives_add_to_shop(all, ALTERNATIVE_PEOPLE, "one more person", &shop,
                             arena_textf(all->arena, "{\"people\": %d}", shop.people));
}

static bool sprays(const struct operations *operations)
{
    for (size_t i = 0; i < operations->count; i++)
        if (operation_sprays(&operations->items[i]))
            return true;
    return false;
}

/* People beyond the spray places wait for one; places beyond the people stand empty. */
static void add_spray_place(struct alternatives *all)
{
    struct shop shop = all->job->shop;
    if (!sprays(all->operations) || shop.spray_places >= shop.people)
        return;
    shop.spray_places++;
    alternatives_add_to_shop(all, ALTERNATIVE_SPRAY, "one more spray place", &shop,
                             arena_textf(all->arena, "{\"spray-places\": %d}", shop.spray_places));
}

static void add_dust_room(struct alternatives *all)
{
    struct shop shop = all->job->shop;
    if (shop.dust_separate)
        return;
    shop.dust_separate = true;
    alternatives_add_to_shop(all, ALTERNATIVE_DUST, "a separate room for sanding", &shop,
                             "{\"dust-room\": \"separate\"}");
}

static void add_rack(struct alternatives *all, double rack_m2)
{
    struct shop shop = all->job->shop;
    double now_m2 = shop.rack_m2;
    shop.rack_m2 = ceil(rack_m2 * 10 - 1e-6) / 10;
    alternatives_add_to_shop(
        all, ALTERNATIVE_RACK,
        arena_textf(all->arena, "a rack of %s instead of %s", area_format(shop.rack_m2, UNITS_METRIC).text,
                    area_format(now_m2, UNITS_METRIC).text),
        &shop, arena_textf(all->arena, "{\"rack\": \"%s\"}", area_write(shop.rack_m2).text));
}

/* Room for one more of the smallest pieces, then of the largest; never less than the largest alone. */
static void add_racks(struct alternatives *all)
{
    double now_m2 = all->job->shop.rack_m2, least_m2 = INFINITY, most_m2 = 0;
    for (size_t i = 0; now_m2 >= 0 && i < all->operations->count; i++) {
        if (all->operations->items[i].doing != DO_APPLY)
            continue;
        double rack_m2 = problem_rack_m2(&all->operations->items[i]);
        least_m2 = fmin(least_m2, rack_m2);
        most_m2 = fmax(most_m2, rack_m2);
    }
    if (most_m2 <= 0)
        return;
    add_rack(all, fmax(now_m2 + least_m2, most_m2));
    if (now_m2 + most_m2 > fmax(now_m2 + least_m2, most_m2) + 0.05)
        add_rack(all, now_m2 + most_m2);
}

/* Days whose hours the patch must name: where the shop has none in its file, naming one would close the others. */
static unsigned days_named(const struct shop *shop, unsigned changed)
{
    for (int day = 0; shop->hours_assumed && day < 7; day++)
        changed |= shop->hours[day].count ? 1u << day : 0;
    return changed;
}

static void add_hours(struct alternatives *all, enum alternative_kind kind, const char *words,
                      const struct shop *shop, unsigned changed)
{
    struct buf patch;
    buf_init(&patch, all->arena);
    buf_add(&patch, "{\"hours\": ");
    patch_hours(&patch, shop, days_named(shop, changed));
    buf_add_char(&patch, '}');
    alternatives_add_to_shop(all, kind, words, shop, patch.text);
}

static struct shop_day longer_day(struct arena *arena, const struct shop_day *day)
{
    struct stretch *stretches = ARENA_ARRAY(arena, day->count, struct stretch);
    for (size_t i = 0; i < day->count; i++)
        stretches[i] = day->stretches[i];
    struct stretch *last = &stretches[day->count - 1];
    last->to_min =
        last->to_min + MORE_EVENING_MIN < DAY_MINUTES ? last->to_min + MORE_EVENING_MIN : DAY_MINUTES;
    return (struct shop_day){stretches, day->count};
}

static void add_evening(struct alternatives *all)
{
    struct shop shop = all->job->shop;
    unsigned changed = 0;
    for (int day = 0; day < 7; day++) {
        const struct shop_day *hours = &shop.hours[day];
        if (hours->count == 0 || hours->stretches[hours->count - 1].to_min == DAY_MINUTES)
            continue;
        shop.hours[day] = longer_day(all->arena, hours);
        changed |= 1u << day;
    }
    if (changed)
        add_hours(all, ALTERNATIVE_EVENING, "an hour more every evening", &shop, changed);
}

static void add_saturday(struct alternatives *all)
{
    struct shop shop = all->job->shop;
    if (shop.hours[SATURDAY].count > 0 || shop.hours[FRIDAY].count == 0)
        return;
    shop.hours[SATURDAY] = shop.hours[FRIDAY];
    add_hours(all, ALTERNATIVE_SATURDAY, "Saturdays worked as Fridays are", &shop, 1u << SATURDAY);
}

void alternatives_add_shop(struct alternatives *all)
{
    add_person(all);
    add_spray_place(all);
    add_dust_room(all);
    add_racks(all);
    add_evening(all);
    add_saturday(all);
}
