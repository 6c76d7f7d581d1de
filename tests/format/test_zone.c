/* The rules of each place are the IANA time zone database's, as Debian's tzdata has them. */
#include "check.h"
#include "reader.h"

#include "base/moment.h"
#include "base/text.h"
#include "format/zone.h"

#include <string.h>

struct change_row {
    struct row row;
    const char *zone, *utc; /* the first minute of the new time */
    int before_min, after_min;
};

static const struct change_row changes[] = {
    {ROW("London, spring"), "Europe/London", "2027-03-28T01:00:00Z", 0, 60},
    {ROW("London, autumn"), "Europe/London", "2027-10-31T01:00:00Z", 60, 0},
    {ROW("New York, spring"), "America/New_York", "2027-03-14T07:00:00Z", -300, -240},
    {ROW("New York, autumn"), "America/New_York", "2027-11-07T06:00:00Z", -240, -300},
    {ROW("Chicago, far ahead"), "America/Chicago", "2035-03-11T08:00:00Z", -360, -300},
    {ROW("Sydney, autumn"), "Australia/Sydney", "2027-04-03T16:00:00Z", 660, 600},
    {ROW("Lord Howe, half an hour"), "Australia/Lord_Howe", "2027-10-02T15:30:00Z", 630, 660},
    {ROW("Dublin, winter is the exception"), "Europe/Dublin", "2027-10-31T01:00:00Z", 60, 0},
};

static int64_t utc_minute(const char *text)
{
    static const struct zone utc = {"UTC", 0, NULL};
    struct moment_text moment;
    assert_true(moment_parse(text, &utc, &moment, NULL));
    return moment.minute;
}

static void change_is(void **state)
{
    const struct change_row *r = *state;
    struct err err;
    struct reader *reader = reader_make();
    const struct zone *zone = zone_load(reader->arena, r->zone, (struct zone_years){2026, 2036}, &err);
    int64_t at = utc_minute(r->utc);
    check_int(&r->row, zone_offset_at(zone, at - 1), r->before_min);
    check_int(&r->row, zone_offset_at(zone, at), r->after_min);
    reader_free(reader);
}

static void changes_rise(void **state)
{
    (void)state;
    struct err err;
    struct reader *reader = reader_make();
    const struct zone *zone =
        zone_load(reader->arena, "Europe/London", (struct zone_years){2027, 2028}, &err);
    check_text(HERE, zone->name, "Europe/London");
    check_int(HERE, (intmax_t)zone->count, 5); /* the first, and two a year */
    check_true(HERE, zone->changes[0].from_min == INT64_MIN, "the first holds from ever");
    for (size_t i = 1; i < zone->count; i++)
        check_true(HERE, zone->changes[i].from_min > zone->changes[i - 1].from_min, "rising");
    reader_free(reader);
}

static void zones_without_changes(void **state)
{
    (void)state;
    static const struct zone_years years = {2026, 2030};
    struct err err;
    struct reader *reader = reader_make();
    int64_t summer = utc_minute("2027-07-01T00:00:00Z");
    check_int(HERE, zone_offset_at(zone_load(reader->arena, "UTC", years, &err), summer), 0);
    check_int(HERE, zone_offset_at(zone_load(reader->arena, "Etc/UTC", years, &err), summer), 0);
    check_int(HERE, zone_offset_at(zone_load(reader->arena, "Asia/Kathmandu", years, &err), summer), 345);
    check_int(HERE, zone_offset_at(zone_load(reader->arena, "Asia/Tokyo", years, &err), summer), 540);
    reader_free(reader);
}

static void unknown_zones(void **state)
{
    (void)state;
    static const struct zone_years years = {2026, 2027};
    static const char *const wrong[] = {"Europe/Lundon", "",       "../../etc/passwd", "/etc/localtime",
                                        "London",        "Europe", "Europe/London/x"};
    struct err err;
    struct reader *reader = reader_make();
    size_t count;
    const char **names = zone_names(reader->arena, &count);
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        check_true(HERE, !zone_load(reader->arena, wrong[i], years, &err) && err.code == ERR_NONE, wrong[i]);
    check_true(HERE, count > 300, "more than 300 places");
    check_text(HERE, text_nearest("Europe/Lundon", names, count), "Europe/London");
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(changes, change_is), CHECK_TEST(changes_rise),
                     CHECK_TEST(zones_without_changes), CHECK_TEST(unknown_zones));
}
