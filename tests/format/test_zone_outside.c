/* Zones are read as others read them: zdump and zoneinfo the files of the system (zone_changes.py), the C library the rules that
 * stand at the end of a file; and of what is no such file, or only a part of one, nothing is read. */
#include "check.h"

#include "base/arena.h"
#include "base/buf.h"
#include "format/zone.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { PLACES_LEAST = 500, LOCALS_LEAST = 10000, LINE_SIZE = 200 };

/* What of the changes was compared. */
struct comparing {
    struct arena *arena;
    const struct zone *zone;
    struct zone_years years;
    size_t next; /* of its changes */
    int places, changes, locals, different;
};

static void differs(struct comparing *all, const char *line)
{
    print_error("%s in %d..%d: %s", all->zone->name, all->years.first, all->years.last, line);
    all->different++;
}

/* Whether all changes of the zone at hand were named, but for the first minute after its years. */
static void end_zone(struct comparing *all)
{
    if (all->zone && all->next < all->zone->count &&
        zone_wall(&(const struct zone){"UTC", 0, NULL}, all->zone->changes[all->next].from_min).year <=
            all->years.last)
        differs(all, "more changes than another reader finds\n");
}

static void compare_line(struct comparing *all, const char *line)
{
    char name[LINE_SIZE];
    struct err err;
    int64_t minute, other;
    if (sscanf(line, "zone %s %d %d", name, &all->years.first, &all->years.last) == 3) {
        end_zone(all);
        all->zone = zone_load(all->arena, name, all->years, &err);
        all->next = 0;
        all->places++;
        assert_non_null(all->zone);
    } else if (sscanf(line, "change %" SCNd64 " %" SCNd64, &minute, &other) == 2) {
        const struct zone_change *change = &all->zone->changes[all->next++];
        if (all->next > all->zone->count || change->offset_min != other ||
            change->from_min != (all->next == 1 ? INT64_MIN : minute))
            differs(all, line);
        all->changes++;
    } else {
        assert_int_equal(sscanf(line, "local %" SCNd64 " %" SCNd64, &minute, &other), 2);
        if (zone_moment_on(all->zone, minute / DAY_MINUTES, (int)(minute % DAY_MINUTES)) != other)
            differs(all, line);
        all->locals++;
    }
}

static void as_other_readers(void **state)
{
    (void)state;
    struct comparing all = {.arena = arena_make(0)};
    char line[LINE_SIZE];
    FILE *from = popen("/usr/bin/python3 tests/format/zone_changes.py",
                       "r"); /* NOLINT(cert-env33-c): a fixed command */
    assert_non_null(from);
    while (fgets(line, sizeof line, from))
        compare_line(&all, line);
    end_zone(&all);
    assert_int_equal(pclose(from), 0);
    check_int(HERE, all.different, 0);
    check_true(HERE, all.places >= PLACES_LEAST && all.locals >= LOCALS_LEAST, "hundreds of places");
    arena_free(all.arena);
}

/* A file of version 2 with one offset, east of Greenwich, no change, and a rule. */
static struct buf file_with(struct arena *arena, int32_t seconds, const char *rule)
{
    struct buf out;
    buf_init(&out, arena);
    for (int block = 0; block < 2; block++) {
        static const unsigned char counts[24] = {[19] = 1, [23] = 4};
        buf_add(&out, "TZif2");
        buf_add_n(&out, "\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0", 15);
        buf_add_n(&out, (const char *)counts, sizeof counts);
        for (int i = 3; i >= 0; i--)
            buf_add_char(&out, (char)((uint32_t)seconds >> 8 * i & 0xFF));
        buf_add_n(&out, "\0\0ABC", 6);
    }
    buf_addf(&out, "\n%s\n", rule);
    return out;
}

struct rule_row {
    struct row row;
    const char *rule;
    int32_t seconds;
};

/* Every form of POSIX.1-2017, section 8.3, and the hours beyond a day of RFC 8536, section 3.3.1. */
static const struct rule_row rules[] = {
    {ROW("no summer"), "EST5", -18000},
    {ROW("an abbreviation in brackets"), "<+0330>-3:30", 12600},
    {ROW("weekdays of months"), "EST5EDT,M3.2.0,M11.1.0", -18000},
    {ROW("the last Sunday, at one"), "GMT0BST,M3.5.0/1,M10.5.0", 0},
    {ROW("winter is the exception"), "IST-1GMT0,M10.5.0,M3.5.0/1", 3600},
    {ROW("half an hour, south"), "<+1030>-10:30<+11>-11,M10.1.0,M4.1.0", 37800},
    {ROW("at minus one o'clock"), "<-02>2<-01>,M3.5.0/-1,M10.5.0/0", -7200},
    {ROW("at fifty o'clock"), "IST-2IDT,M3.4.4/50,M10.5.0", 7200},
    {ROW("days that leave out 29 February"), "AAA3BBB,J59,J300/2:30", -10800},
    {ROW("days behind it"), "AAA3BBB,J60,J301/23:59", -10800},
    {ROW("days from 0"), "AAA-5BBB-6,59/2:30,365/1", 18000},
    {ROW("two hours of summer"), "<+00>0<+02>-2,M3.5.0/1,M10.5.0/3", 0},
    {ROW("the fourth and fifth of weekdays"), "AAA1BBB,M2.4.4,M5.5.6/4", -3600},
    {ROW("summer over the new year"), "AAA-9BBB,M12.4.3,M1.2.2", 32400},
};

static void rule_is_the_c_librarys(void **state)
{
    const struct rule_row *r = *state;
    struct arena *arena = arena_make(0);
    struct buf file = file_with(arena, r->seconds, r->rule);
    struct zone_years years = {2026, 2033};
    const struct zone *zone = zone_parse(arena, "ABC", file.text, file.length, years);
    int different = 0;
    assert_non_null(zone);
    setenv("TZ", r->rule, 1);
    tzset();
    for (int64_t at = date_days((struct date){2026, 1, 1}) * DAY_MINUTES;
         at < date_days((struct date){2034, 1, 1}) * DAY_MINUTES; at++) {
        if (at % 30 > 1 && at % 30 < 29)
            continue;
        struct wall wall = zone_wall(zone, at);
        time_t second = (time_t)at * 60;
        struct tm tm;
        assert_non_null(localtime_r(&second, &tm));
        if (wall.day != tm.tm_mday || wall.hour != tm.tm_hour || wall.minute != tm.tm_min)
            different++;
    }
    check_int(&r->row, different, 0);
    unsetenv("TZ");
    arena_free(arena);
}

static void summer_all_year(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct buf file = file_with(arena, -10800, "AST3EDT4,0/0,J365/23"); /* RFC 8536, section 3.3.1 */
    const struct zone *zone =
        zone_parse(arena, "AST", file.text, file.length, (struct zone_years){2026, 2030});
    assert_non_null(zone);
    check_int(HERE, (intmax_t)zone->count, 1);
    check_int(HERE, zone->changes[0].offset_min, -240);
    arena_free(arena);
}

struct wrong_row {
    struct row row;
    const char *rule;
    int32_t seconds;
};

static const struct wrong_row wrong[] = {
    {ROW("a word"), "Europe/London", 0},
    {ROW("an offset of more than a day"), "ABC0", 26 * 3600},
    {ROW("an abbreviation too short"), "AB3", 0},
    {ROW("brackets that stay open"), "<-03", 0},
    {ROW("no offset"), "ABC", 0},
    {ROW("an offset of 25 hours"), "ABC25", 0},
    {ROW("summer without its days"), "ABC3DEF", 0},
    {ROW("one day of two"), "ABC3DEF,M3.2.0", 0},
    {ROW("a month 13"), "ABC3DEF,M13.2.0,M4.1.0", 0},
    {ROW("a week 0"), "ABC3DEF,M3.0.0,M4.1.0", 0},
    {ROW("a weekday 7"), "ABC3DEF,M3.2.7,M4.1.0", 0},
    {ROW("a day J0"), "ABC3DEF,J0,M4.1.0", 0},
    {ROW("a day 366"), "ABC3DEF,366,M4.1.0", 0},
    {ROW("a minute 60"), "ABC3DEF,M3.2.0/2:60,M4.1.0", 0},
    {ROW("168 hours"), "ABC3DEF,M3.2.0/168,M4.1.0", 0},
    {ROW("more behind it"), "ABC3DEF,M3.2.0,M4.1.0 ", 0},
};

static void is_refused(void **state)
{
    const struct wrong_row *r = *state;
    struct arena *arena = arena_make(0);
    struct buf file = file_with(arena, r->seconds, r->rule);
    check_true(&r->row, !zone_parse(arena, "ABC", file.text, file.length, (struct zone_years){2026, 2027}),
               "refused");
    arena_free(arena);
}

/* Whatever stands at one place of the file of London, reading it ends, in a table that rises. In the first part of a file that
 * was cut there is no rule any more. */
static void parts_and_changed_bytes(void **state)
{
    (void)state;
    static char bytes[8192];
    static const struct zone_years years = {1970, 2037};
    FILE *file = fopen("/usr/share/zoneinfo/Europe/London", "rb");
    assert_non_null(file);
    size_t length = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    assert_in_range(length, 100, sizeof bytes - 1);
    for (size_t i = 0; i < length; i++) {
        struct arena *arena = arena_make(0);
        char *part = malloc(i + 1), was = bytes[i]; /* of just this size: a read past its end is seen */
        assert_non_null(part);
        memcpy(part, bytes, i);
        check_true(HERE, !zone_parse(arena, "London", part, i, years), "a part");
        free(part);
        for (int value = 0; value < 256; value += 15) {
            bytes[i] = (char)value;
            const struct zone *zone = zone_parse(arena, "London", bytes, length, years);
            for (size_t k = 1; zone && k < zone->count; k++)
                check_true(HERE, zone->changes[k].from_min > zone->changes[k - 1].from_min, "rising");
        }
        bytes[i] = was;
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(as_other_readers), CHECK_ROWS(rules, rule_is_the_c_librarys),
                     CHECK_TEST(summer_all_year), CHECK_ROWS(wrong, is_refused),
                     CHECK_TEST(parts_and_changed_bytes));
}
