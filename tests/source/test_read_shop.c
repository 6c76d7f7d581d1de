#include "check.h"
#include "reader.h"

#include "base/measure.h"
#include "source/shop_file.h"

#include <string.h>

static const char full[] =
    "{\"people\": 2,\n"
    " \"hours\": {\"mon\": [\"08:00-12:30\", \"13:00-17:00\"], \"sat\": [\"09:00-24:00\"], \"sun\": []},\n"
    " \"closed\": [\"2027-03-08\", \"2027-03-12..2027-03-14\"],\n"
    " \"air\": [{\"from\": \"18:00\", \"temperature\": \"14 C\", \"humidity\": \"60 %\"},\n"
    "  {\"on\": \"2027-03-05\", \"from\": \"12:00\", \"temperature\": \"41 F\", \"humidity\": \"80 %\"},\n"
    "  {\"from\": \"07:00\", \"temperature\": \"20 C\", \"humidity\": \"50 %\"},\n"
    "  {\"on\": \"2027-03-05\", \"from\": \"00:00\", \"temperature\": \"-5 C\", \"humidity\": \"70 %\"},\n"
    "  {\"on\": \"2027-03-04\", \"from\": \"00:00\", \"temperature\": \"9 C\", \"humidity\": \"71 %\"}],\n"
    " \"rack\": \"4 m2\", \"spray-places\": 0, \"dust-room\": \"separate\", \"settle\": \"45 min\", "
    "\"scale\": \"0.1 g\",\n"
    " \"set-up\": \"12 min\", \"clean-up\": {\"brush\": \"15 min\", \"hvlp\": \"22 min\"},\n"
    " \"handling\": {\"sand\": \"0 min\", \"cloth\": \"1.5 min\"}, \"rates\": {\"brush\": \"7 m2/h\", "
    "\"sand\": "
    "\"100 ft2/h\"},\n"
    " \"losses\": {\"brush\": \"12 ml\"}, \"transfer\": {\"hvlp\": \"70 %\"}, \"rate-per-hour\": "
    "\"45.50\"}\n";

static struct shop read_text(struct reader *reader, const char *text)
{
    struct shop shop = {0};
    struct file_text *file = ARENA_NEW(reader->arena, struct file_text);
    struct json_at root;
    *file = reader_file("shop.json", text);
    if (json_parse(&reader->reading, file, &root))
        shop_read(root, 2, &shop);
    return shop;
}

static int64_t day(int year, int month, int day_of_month)
{
    return date_days((struct date){year, month, day_of_month});
}

static void check_hours(const struct shop *shop)
{
    check_true(HERE, !shop->hours_assumed, "given");
    check_int(HERE, (intmax_t)shop->hours[MONDAY].count, 2);
    check_int(HERE, shop->hours[MONDAY].stretches[0].to_min, 750);
    check_int(HERE, shop->hours[MONDAY].stretches[1].from_min, 780);
    check_int(HERE, (intmax_t)shop->hours[TUESDAY].count, 0);
    check_int(HERE, shop->hours[SATURDAY].stretches[0].to_min, 1440);
    check_int(HERE, (intmax_t)shop->hours[SUNDAY].count, 0);
    check_int(HERE, (intmax_t)shop->closed_count, 2);
    check_int(HERE, shop->closed[0].last_day, day(2027, 3, 8));
    check_int(HERE, shop->closed[1].first_day, day(2027, 3, 12));
    check_int(HERE, shop->closed[1].last_day, day(2027, 3, 14));
}

static void check_air(const struct air_year *air)
{
    check_true(HERE, !air->assumed, "given");
    check_int(HERE, (intmax_t)air->daily.spell_count, 2);
    check_int(HERE, air->daily.spells[0].from_min, 420);
    check_double(HERE, air->daily.spells[1].air.temperature_c, 14, 0);
    check_int(HERE, (intmax_t)air->dated_count, 2);
    check_int(HERE, air->dated[0].day, day(2027, 3, 4));
    check_int(HERE, air->dated[1].day, day(2027, 3, 5));
    check_int(HERE, (intmax_t)air->dated[1].spell_count, 2);
    check_double(HERE, air->dated[1].spells[0].air.temperature_c, -5, 0);
    check_double(HERE, air->dated[1].spells[1].air.temperature_c, 5, 1e-12); /* (41 - 32) / 1.8 */
    check_double(HERE, air->dated[1].spells[1].air.humidity, 0.8, 1e-15);
}

static void check_tools(const struct shop *shop, const struct shop *usual)
{
    check_double(HERE, shop->set_up_min[TOOL_CLOTH], 12, 0);
    check_double(HERE, shop->set_up_min[WORK_SAND], 12, 0);
    check_double(HERE, shop->clean_up_min[TOOL_BRUSH], 15, 0);
    check_double(HERE, shop->clean_up_min[TOOL_HVLP], 22, 0);
    check_double(HERE, shop->two_part_clean_up_min[TOOL_HVLP], 22, 0);
    check_double(HERE, shop->two_part_clean_up_min[TOOL_CONVENTIONAL],
                 usual->two_part_clean_up_min[TOOL_CONVENTIONAL], 0);
    check_double(HERE, shop->clean_up_min[TOOL_CLOTH], usual->clean_up_min[TOOL_CLOTH], 0);
    check_double(HERE, shop->handling_min[WORK_SAND], 0, 0);
    check_double(HERE, shop->handling_min[TOOL_CLOTH], 1.5, 0);
    check_double(HERE, shop->handling_min[TOOL_HVLP], usual->handling_min[TOOL_HVLP], 0);
    check_double(HERE, shop->rate_m2_per_h[TOOL_BRUSH], 7, 0);
    check_double(HERE, shop->rate_m2_per_h[WORK_SAND], 9.290304,
                 1e-12); /* 1 ft2 = 0.09290304 m2, NIST HB 44 */
    check_double(HERE, shop->loss_l[TOOL_BRUSH], 0.012, 1e-15);
    check_double(HERE, shop->transfer[TOOL_HVLP], 0.7, 1e-15);
}

static void reads_every_key(void **state)
{
    (void)state;
    struct shop usual;
    struct reader *reader = reader_make();
    struct shop shop = read_text(reader, full);
    shop_default(&usual);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_int(HERE, shop.people, 2);
    check_hours(&shop);
    check_air(&shop.air);
    check_double(HERE, shop.rack_m2, 4, 0);
    check_int(HERE, shop.spray_places, 0);
    check_true(HERE, shop.dust_separate, "separate");
    check_int(HERE, shop.settle_min, 45);
    check_double(HERE, shop.scale_g, 0.1, 1e-15);
    check_tools(&shop, &usual);
    check_int(HERE, shop.rate_cents_per_hour, 4550);
    reader_free(reader);
}

static void nothing_given(void **state)
{
    (void)state;
    struct shop usual;
    struct reader *reader = reader_make();
    struct shop shop = read_text(reader, "{}");
    shop_default(&usual);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_true(HERE, memcmp(&shop, &usual, sizeof shop) == 0, "the defaults");
    reader_free(reader);
}

/* One air all day is the daily round. */
static void one_air_all_day(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct shop shop = read_text(
        reader, "{\"air\": [{\"from\": \"00:00\", \"temperature\": \"9 C\", \"humidity\": \"70 %\"}]}");
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_true(HERE, !shop.air.assumed, "given");
    check_int(HERE, (intmax_t)shop.air.daily.spell_count, 1);
    check_double(HERE, shop.air.daily.spells[0].air.temperature_c, 9, 0);
    check_int(HERE, (intmax_t)shop.air.dated_count, 0);
    reader_free(reader);
}

/* Dated air alone: the daily round stays the assumed one. */
static void dated_air_alone(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct shop shop =
        read_text(reader, "{\"air\": [{\"on\": \"2027-03-05\", \"from\": \"00:00\", \"temperature\": "
                          "\"9 C\", \"humidity\": \"70 %\"}], \"clean-up\": \"3 min\"}");
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_true(HERE, shop.air.assumed, "assumed");
    check_int(HERE, (intmax_t)shop.air.daily.spell_count, 2);
    check_int(HERE, (intmax_t)shop.air.dated_count, 1);
    check_double(HERE, shop.two_part_clean_up_min[TOOL_CONVENTIONAL], 3, 0);
    check_double(HERE, shop.clean_up_min[WORK_SAND], 0, 0); /* sanding has no clean-up */
    reader_free(reader);
}

/* Nobody works while the shop is closed; Bob is away on a day of his own beside. */
static void closed_days_of_people(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct shop shop = read_text(reader, "{\"closed\": [\"2027-03-08\"], \"people\": [{\"person\": \"Ann\"}, "
                                         "{\"person\": \"Bob\", \"closed\": [\"2027-03-10\"]}]}");
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_int(HERE, shop.people, 2);
    const struct person *ann = &shop.crew[0], *bob = &shop.crew[1];
    assert_int_equal(ann->closed_count, 1);
    check_int(HERE, ann->closed[0].first_day, day(2027, 3, 8));
    assert_int_equal(bob->closed_count, 2);
    check_int(HERE, bob->closed[0].first_day, day(2027, 3, 8));
    check_int(HERE, bob->closed[1].first_day, day(2027, 3, 10));
    check_int(HERE, bob->closed[1].last_day, day(2027, 3, 10));
    check_int(HERE, (intmax_t)bob->closed_own, 1);
    reader_free(reader);
}

struct mistake_row {
    struct row row;
    const char *find, *put, *at, *want;
};

static const struct mistake_row mistakes[] = {
    {ROW("no people"), "\"people\": 2", "\"people\": 0", "0,\n",
     "/people: expected a whole number from 1 to 100, found 0"},
    {ROW("a day misspelt"), "\"mon\"", "\"man\"", "\"man\"",
     "/hours/man: expected a key of the hours, found \"man\" (did you mean \"mon\"?)"},
    {ROW("hours that overlap"), "13:00-17:00", "12:00-17:00", "\"12:00-17:00\"",
     "/hours/mon/1: expected working hours that begin after the ones before, found \"12:00-17:00\""},
    {ROW("hours backwards"), "13:00-17:00", "17:00-13:00", "\"17:00-13:00\"",
     "/hours/mon/1: expected an end after the beginning, in the same day (a night is 22:00-24:00, and "
     "00:00-06:00 of the next day), found \"17:00-13:00\""},
    {ROW("hours past midnight"), "09:00-24:00", "09:00-25:00", "\"09:00-25:00\"",
     "/hours/sat/0: expected working hours such as \"08:00-12:30\", found \"09:00-25:00\""},
    {ROW("a day that does not exist"), "\"2027-03-08\"", "\"2027-02-30\"", "\"2027-02-30\"",
     "/closed/0: expected a day that exists: Feb 2027 has 28 days, found \"2027-02-30\""},
    {ROW("a range backwards"), "2027-03-12..2027-03-14", "2027-03-14..2027-03-12", "\"2027-03-14..",
     "/closed/1: expected a last day that is not before the first, found \"2027-03-14..2027-03-12\""},
    {ROW("air without a time"), "\"from\": \"18:00\", ", "", "{\"temperature\": \"14 C\"",
     "/air/0/from: expected a time of day such as \"07:00\", found nothing"},
    {ROW("air twice at a time"), "\"18:00\"", "\"07:00\"", "\"07:00\", \"temperature\": \"20 C\"",
     "/air/2/from: expected each time of a day once, found \"07:00\""},
    {ROW("air wetter than wet"), "60 %", "101 %", "\"101 %\"",
     "/air/0/humidity: expected a humidity of at most 100 %, found \"101 %\""},
    {ROW("an oven"), "\"14 C\"", "\"140 C\"", "\"140 C\"",
     "/air/0/temperature: expected the temperature of a workshop, -40 C to 60 C, found \"140 C\""},
    {ROW("hours as an object"), "\"mon\": [", "\"mon\": {}, \"tue\": [", "{}, ",
     "/hours/mon: expected a list of working hours such as [\"08:00-12:30\"], found an empty object"},
    {ROW("a temperature without unit"), "\"14 C\"", "14", "14, ",
     "/air/0/temperature: expected a temperature such as \"20 C\" or \"68 F\", found 14"},
    {ROW("a scale of nothing"), "0.1 g", "0 g", "\"0 g\"",
     "/scale: expected a mass above 0: the smallest step of the scale, found \"0 g\""},
    {ROW("a rate without a time"), "7 m2/h", "7 m2", "\"7 m2\"",
     "/rates/brush: expected a rate such as \"7 m2/h\", found \"7 m2\""},
    {ROW("no such tool"), "{\"brush\": \"12 ml\"}", "{\"brsh\": \"12 ml\"}", "\"brsh\"",
     "/losses/brsh: expected a key of the losses, found \"brsh\" (did you mean \"brush\"?)"},
    {ROW("work has no losses"), "{\"brush\": \"12 ml\"}", "{\"sand\": \"12 ml\"}", "\"sand\": \"12",
     "/losses/sand: expected one of \"cloth\", \"brush\", \"foam-brush\", \"pad\", \"squeegee\", \"roller\", "
     "\"rubber\", "
     "\"hvlp\", \"conventional\", \"airless\", \"dip\", \"pour\", found \"sand\""},
    {ROW("all of it lands and more"), "70 %\"}, \"rate", "120 %\"}, \"rate", "\"120 %\"",
     "/transfer/hvlp: expected a share above 0 % and at most 100 %, found \"120 %\""},
    {ROW("another room"), "separate", "seperate", "\"seperate\"",
     "/dust-room: expected one of \"shared\", \"separate\", found \"seperate\" (did you mean \"separate\"?)"},
};

static void mistake_is_told(void **state)
{
    const struct mistake_row *r = *state;
    struct reader *reader = reader_make();
    const char *text = reader_swap(reader, full, r->find, r->put);
    (void)read_text(reader, text);
    reader_check_only(reader, &r->row, text, r->at, r->want);
    reader_free(reader);
}

static void never_open(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *text = "{\"hours\": {\"mon\": []}}";
    (void)read_text(reader, text);
    reader_check_only(reader, HERE, text, "{\"mon\"",
                      "/hours: expected working hours on at least one day, found an object");
    reader_free(reader);
}

/* What is written reads back as the same shop: over the defaults, and whole. */
static void written_and_read(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct shop shop = read_text(reader, full), usual;
    shop_default(&usual);
    for (int whole = 0; whole < 2; whole++) {
        struct buf out;
        struct json_write to;
        buf_init(&out, reader->arena);
        json_write_init(&to, &out);
        json_open(&to, NULL, '{');
        shop_write(&to, &shop, whole ? NULL : &usual);
        json_close(&to);
        struct shop again = read_text(reader, out.text);
        check_text(HERE, reader_lines(reader, &reader->errors), "");
        check_true(HERE, shop_same(&shop, &again), out.text);
        check_true(HERE, !shop_same(&usual, &again), "not the defaults");
    }
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(reads_every_key), CHECK_TEST(nothing_given), CHECK_TEST(one_air_all_day),
                     CHECK_TEST(dated_air_alone), CHECK_TEST(closed_days_of_people),
                     CHECK_ROWS(mistakes, mistake_is_told), CHECK_TEST(never_open),
                     CHECK_TEST(written_and_read));
}
