/* Mistakes under the keys that few jobs and finishes use: the message, and nothing else is told. */
#include "check.h"
#include "full_job.h"

#include <string.h>

struct wrong_row {
    struct row row;
    const char *find, *put, *want; /* without the file and the place */
};

static const struct wrong_row of_the_finish[] = {
    {ROW("more than all of it is solid"), "\"98 %\"", "\"120 %\"",
     "/solids: expected a share of at most 100 %, found 120 %"},
    {ROW("more solvent than there is"), "\"12 g/l\"", "\"1200 g/l\"",
     "/voc: expected at most 1000 g/l, found 1200"},
    {ROW("no heat at all"), "[\"10 C\", \"86 F\"]", "[\"30 C\", \"10 C\"]",
     "/times/at: expected air inside the limits of `air`, humidity above 0 % and below 100 %, found 20 "
     "\xC2\xB0"
     "C 55 %\n"
     "own/own-oil.json:18:25: /air/temperature: expected a highest temperature above the lowest, found 10 "
     "\xC2\xB0"
     "C"},
    {ROW("no air at all"), "[\"5 %\", \"80 %\"]", "[\"80 %\", \"5 %\"]",
     "/air/humidity: expected humidities that rise, from 0 % to 100 %, found 5 %"},
    {ROW("no tool"), "\"by\": [\"pad\", \"cloth\"]", "\"by\": []",
     "/by: expected a list of tools such as [\"brush\"], found an empty list"},
    {ROW("kept for no time"), "\"shelf-life\": \"2 y\"", "\"shelf-life\": \"0 d\"",
     "/components/0/shelf-life: expected a time span above 0, found 0 min"},
    {ROW("a coverage of nothing"), "\"first\": \"40 m2/l\"", "\"first\": \"0 m2/l\"",
     "/coverage/first: expected a coverage above zero, such as \"12 m2/l\", \"500 ft2/gal\" or \"110 g/m2\", "
     "found \"0 m2/l\""},
    {ROW("a coverage without end"), "\"28 m2/l\"", "\"2800 m2/l\"",
     "/by-tool/cloth/coverage: expected a coverage of at most 1000 m2/l, found \"2800 m2/l\""},
    {ROW("a short name that is long"), "\"Own\"", "\"Own oil of the shop\"",
     "/short: expected a name of at most 16 characters, found \"Own oil of the shop\""},
    {ROW("a film of nothing"), "\"first\": \"40 m2/l\", \"later\": \"50 m2/l\"", "\"wet-film\": \"0 um\"",
     "/coverage/wet-film: expected a thickness above 0, found \"0 um\""},
    {ROW("a film of a metre"), "\"first\": \"40 m2/l\", \"later\": \"50 m2/l\"", "\"wet-film\": \"1 m\"",
     "/coverage/wet-film: expected a wet film of at most 100 mm, found \"1 m\""},
    {ROW("a film that is none"), "\"first\": \"40 m2/l\", \"later\": \"50 m2/l\"", "\"wet-film\": \"thick\"",
     "/coverage/wet-film: expected a thickness such as \"125 um\" or \"5 mil\", found \"thick\""},
    {ROW("the air that the times are of"), "\"20 C 55 %\"", "\"warm and dry\"",
     "/times/at: expected a temperature and a humidity such as \"23 C 50 %\", found \"warm and dry\""},
    {ROW("later times that are none"), "{\"recoat\": [\"13 h\", \"4 d\"]}", "{}",
     "/later-times: expected at least one time, found an empty object"},
    {ROW("two works between coats"), "\"between\": {\"scuff\": 320}",
     "\"between\": {\"scuff\": 320, \"sand\": 320}",
     "/between: expected either \"sand\" or \"scuff\", with a grit, found an object"},
    {ROW("a caution twice"), "[\"oily-rags\", \"isocyanate\"]",
     "[\"oily-rags\", \"isocyanate\", \"oily-rags\"]",
     "/cautions/2: expected each caution once, found \"oily-rags\""},
    {ROW("a pack like a tanker"), "\"size\": \"1 l\"", "\"size\": \"30000 l\"",
     "/components/0/packs/0/size: expected a pack of at most 10000 l, found \"30000 l\""},
    {ROW("a coverage by a tool that is none"), "\"28 m2/l\"", "\"28 m2\"",
     "/by-tool/cloth/coverage: expected a coverage such as \"12 m2/l\", \"500 ft2/gal\" or \"110 g/m2\", "
     "found \"28 m2\""},
};

static const struct wrong_row of_the_job[] = {
    {ROW("a schedule that a part list cannot name"), "\"mend\": [",
     "\"-\": [{\"coat\": \"own-oil\"}], \"mend\": [",
     "/schedules/-: expected a name that a part list can say, found \"-\""},
    {ROW("a schedule with a blank behind its name"), "\"mend\": [",
     "\"mend \": [{\"coat\": \"own-oil\"}], \"mend\": [",
     "/schedules/mend : expected a name that a part list can say, found \"mend \""},
    {ROW("longer than time is counted"), "\"settle\": \"30 min\"", "\"settle\": \"5000 y\"",
     "/shop/settle: expected a time span of at most 1000 y, found \"5000 y\""},
    {ROW("a shop that never opens"),
     "\"hours\": {\"mon\": [\"08:00-12:30\", \"13:00-17:00\"], \"tue\": [\"08:00-17:00\"], \"fri\": "
     "[\"08:00-12:00\"]}",
     "\"hours\": {\"mon\": []}", "/shop/hours: expected working hours on at least one day, found an object"},
    {ROW("a currency in words"), "\"GBP\"", "\"pounds\"",
     "/currency: expected a currency of three capital letters, such as \"GBP\", found \"pounds\""},
    {ROW("a currency in small letters"), "\"GBP\"", "\"gbp\"",
     "/currency: expected a currency of three capital letters, such as \"GBP\", found \"gbp\""},
    {ROW("the time to dry as words"), "\"raise\": true, \"dry\": \"2 h\"", "\"raise\": \"2 h\"",
     "/schedules/oil/0/raise: expected true, or words, and the time as \"dry\", found \"2 h\""},
    {ROW("the time to mask as words"), "\"mask\": \"the tenons\"", "\"mask\": \"20 min\"",
     "/schedules/oil/2/mask: expected true, or words, and the time as \"takes\", found \"20 min\""},
    {ROW("two works between coats"), "{\"scuff\": 320}", "{\"scuff\": 320, \"rub\": \"wool\"}",
     "/schedules/oil/3/between: expected one of \"sand\", \"scuff\" or \"rub\", found an object"},
    {ROW("a state that is none"), "{\"wait\": \"cured\"}", "{\"wait\": \"hard\"}",
     "/schedules/oil/4/wait: expected a time span or a state such as \"cured\", found \"hard\""},
    {ROW("an hour that is none"), "\"dry-by\": \"17:00\"", "\"dry-by\": \"five\"",
     "/pieces/0/dry-by: expected a time of day such as \"08:00\", found \"five\""},
    {ROW("a patch that gets nothing"), "\"schedule\": \"mend\", ", "",
     "/pieces/0/patch/schedule: expected \"schedule\": the schedule of the patch, found nothing"},
    {ROW("lumber that nobody sells"), "\"1x4\"", "\"1x400\"",
     "/parts/4/size: expected a softwood width of 2 to 12, 14 or 16, found \"1x400\""},
    {ROW("lumber as a rim"), "\"girth\": 80", "\"girth\": 80, \"size\": \"1x4\"",
     "/parts/11/size: expected nothing: lumber has no size as a moulding, found \"1x4\""},
    {ROW("as many corners as a word"), "\"corners\": 6", "\"corners\": \"six\"",
     "/parts/6/corners: expected a whole number from 1 to 100000, found \"six\""},
    {ROW("an area that is none"), "\"1.2 m2\"", "\"large\"",
     "/parts/15/area: expected an area such as \"1.8 m2\", \"20 sq ft\" or \"600 mm x 400 mm\", found "
     "\"large\""},
    {ROW("an area like a county"), "\"1.2 m2\"", "\"120000000 m2\"",
     "/parts/15/area: expected an area of at most 10000 m2 a part, found \"120000000 m2\""},
    {ROW("a groove as long as a street"), "3 x 600 mm x 12 mm", "3 x 600 m x 12 mm",
     "/parts/4/grooves: expected a length of at most 100 m, found \"3 x 600 m x 12 mm\""},
    {ROW("a year before zones had rules"), "\"2027-03-01 08:00\"", "\"1971-03-01 08:00\"",
     "/start: expected a year from 1972 to 2400, found \"1971-03-01 08:00\""},
    {ROW("a year that none will see"), "\"2027-04-19 17:00\"", "\"2401-04-19 17:00\"",
     "/deliver: expected a year from 1972 to 2400, found \"2401-04-19 17:00\""},
    {ROW("a task called like a piece"), "\"tasks\": [",
     "\"tasks\": [{\"task\": \"leg\", \"takes\": \"1 h\"}, ",
     "/tasks/0/task: expected a name that no piece has, found \"leg\""},
    {ROW("two tasks of one name"), "\"tasks\": [",
     "\"tasks\": [{\"task\": \"fit hinges\", \"takes\": \"1 h\"}, ",
     "/tasks/1/task: expected a name that no other task has, found \"fit hinges\""},
};

/* Behind "file:line:column: ". */
static void check_told(struct reader *reader, const struct wrong_row *r)
{
    const char *lines = reader_lines(reader, &reader->errors), *at = strstr(lines, ": ");
    assert_non_null(at);
    check_text(&r->row, at + 2, r->want);
}

static void finish_is_refused(void **state)
{
    const struct wrong_row *r = *state;
    struct reader *reader = reader_make();
    (void)full_job_read(reader, full_job_text(reader),
                        reader_swap(reader, full_job_finish(reader), r->find, r->put));
    check_told(reader, r);
    reader_free(reader);
}

static void job_is_refused(void **state)
{
    const struct wrong_row *r = *state;
    struct reader *reader = reader_make();
    (void)full_job_read(reader, reader_swap(reader, full_job_text(reader), r->find, r->put),
                        full_job_finish(reader));
    check_told(reader, r);
    reader_free(reader);
}

int main(void)
{
    full_job_begin();
    return CHECK_ALL(CHECK_ROWS(of_the_finish, finish_is_refused), CHECK_ROWS(of_the_job, job_is_refused));
}
