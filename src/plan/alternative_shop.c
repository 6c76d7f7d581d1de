/* More hands, room and hours. */
#include "plan/alternative.h"

#include "base/arena.h"
#include "timetable/problem.h"

#include <math.h>
#include <string.h>

enum { MORE_EVENING_MIN = 60 };

/* A name that nobody of the crew has. */
static const char *spare_name(struct arena *arena, const struct shop *shop)
{
    const char *name = "helper";
    for (int n = 1, i = 0; i < shop->people; i++)
        if (strcmp(shop->crew[i].name, name) == 0) {
            name = arena_textf(arena, "helper %d", ++n);
            i = -1;
        }
    return name;
}

/* Somebody who does everything and keeps the shop's hours joins those who are named. */
static void add_to_crew(struct arena *arena, struct shop *shop)
{
    struct person *crew = ARENA_ARRAY(arena, (size_t)shop->people + 1, struct person);
    memcpy(crew, shop->crew, (size_t)shop->people * sizeof *crew);
    struct shop counted = *shop;
    counted.crew = NULL;
    crew[shop->people] = shop_person(&counted, 0);
    crew[shop->people].name = spare_name(arena, shop);
    shop->crew = crew;
}

static void add_person(struct alternatives *all)
{
    struct shop shop = all->job->shop;
    if (shop.people == PEOPLE_MOST)
        return;
    if (shop.crew)
        add_to_crew(all->arena, &shop);
    shop.people++;
    alternatives_add_to_shop(all, (struct change){.kind = ALTERNATIVE_PEOPLE}, &shop);
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
    alternatives_add_to_shop(all, (struct change){.kind = ALTERNATIVE_SPRAY}, &shop);
}

static void add_dust_room(struct alternatives *all)
{
    struct shop shop = all->job->shop;
    if (shop.dust_separate)
        return;
    shop.dust_separate = true;
    alternatives_add_to_shop(all, (struct change){.kind = ALTERNATIVE_DUST}, &shop);
}

static void add_rack(struct alternatives *all, double rack_m2)
{
    struct shop shop = all->job->shop;
    double now_m2 = shop.rack_m2;
    shop.rack_m2 = ceil(rack_m2 * 10 - 1e-6) / 10;
    alternatives_add_to_shop(
        all, (struct change){.kind = ALTERNATIVE_RACK, .from_m2 = now_m2, .to_m2 = shop.rack_m2}, &shop);
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

/* Who has no hours of their own keeps those of the shop. */
static void follow_hours(struct arena *arena, struct shop *shop)
{
    if (!shop->crew)
        return;
    struct person *crew = ARENA_ARRAY(arena, (size_t)shop->people, struct person);
    for (int i = 0; i < shop->people; i++) {
        crew[i] = shop->crew[i];
        if (!crew[i].hours_own)
            memcpy(crew[i].hours, shop->hours, sizeof crew[i].hours);
    }
    shop->crew = crew;
}

static void add_evening(struct alternatives *all)
{
    struct shop shop = all->job->shop;
    bool changed = false;
    for (int day = 0; day < 7; day++) {
        const struct shop_day *hours = &shop.hours[day];
        if (hours->count == 0 || hours->stretches[hours->count - 1].to_min == DAY_MINUTES)
            continue;
        shop.hours[day] = longer_day(all->arena, hours);
        changed = true;
    }
    follow_hours(all->arena, &shop);
    if (changed)
        alternatives_add_to_shop(all, (struct change){.kind = ALTERNATIVE_EVENING}, &shop);
}

static void add_saturday(struct alternatives *all)
{
    struct shop shop = all->job->shop;
    if (shop.hours[SATURDAY].count > 0 || shop.hours[FRIDAY].count == 0)
        return;
    shop.hours[SATURDAY] = shop.hours[FRIDAY];
    follow_hours(all->arena, &shop);
    alternatives_add_to_shop(all, (struct change){.kind = ALTERNATIVE_SATURDAY}, &shop);
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
