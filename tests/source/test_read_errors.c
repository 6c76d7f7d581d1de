/* Each mistake that a job or its part list can hold, with the exact message and place. */
#include "check.h"
#include "job_text.h"
#include "reader.h"

#include <string.h>

struct mistake {
    struct row row;
    enum job_text where;
    const char *find, *put, *want;
};

static const struct mistake mistakes[] = {
    {ROW("broken JSON: no comma"), JOB, "\"mm\", \"zone\"", "\"mm\" \"zone\"",
     "job.json:1:61: /units: expected \",\" or \"}\", found \"zone\""},
    {ROW("unknown key of the job"), JOB, "\"reserve\"", "\"reserv\"",
     "job.json:2:62: /reserv: expected a key of a job, found \"reserv\" (did you mean \"reserve\"?)"},
    {ROW("unknown key of the shop"), JOB, "\"people\"", "\"peeple\"",
     "job.json:3:11: /shop/peeple: expected a key of a shop, found \"peeple\" (did you mean \"people\"?)"},
    {ROW("unknown key of a piece"), JOB, "\"laid\"", "\"lay\"",
     "job.json:6:30: /pieces/0/lay: expected one of \"piece\", \"laid\", \"after\", \"ready\", \"rack\", "
     "\"use\", \"lots\", \"lift\", \"flip\", \"coats-a-day\", \"dry-by\", \"patch\", \"all\", found \"lay\""},
    {ROW("unknown step"), JOB, "\"sand\": 150", "\"sandd\": 150",
     "job.json:4:25: /schedules/oil/0/sandd: expected a key of a step, found \"sandd\" (did you mean "
     "\"sand\"?)"},
    {ROW("duplicate key"), JOB, "\"zone\": \"Europe/London\"", "\"zone\": \"UTC\", \"zone\": \"UTC\"",
     "job.json:1:77: /zone: expected each key once, found a second one of this name"},
    {ROW("text after the value"), JOB, "\"parts.csv\"}", "\"parts.csv\"} {}",
     "job.json:8:24: expected nothing after the value, found \"{\""},
    {ROW("missing unit"), JOB, "\"4 m2\"", "4",
     "job.json:3:32: /shop/rack: expected an area such as \"1.8 m2\", \"20 sq ft\" or \"600 mm x 400 mm\", "
     "found 4"},
    {ROW("missing unit in text"), JOB, "\"45 min\"", "\"45\"",
     "job.json:7:44: /tasks/0/takes: expected a time span with a unit, such as \"45 min\" or \"1 h 30 min\", "
     "found \"45\""},
    {ROW("decimal comma in text"), JOB, "12.5 %", "12,5 %",
     "job.json:2:73: /reserve: expected a decimal point: write \"12.5\", found \"12,5 %\""},
    {ROW("decimal comma in JSON"), JOB, "{\"people\": 1,", "{\"people\": 1,5,",
     "job.json:3:21: /shop/people: expected a decimal point: write 1.5, not 1,5, found 1"},
    {ROW("decimal comma in a cell"), PARTS, "1200,600,25", "1200,600,\"2,5\"",
     "parts.csv:2:30: row 1, thickness: expected a decimal point: write \"2.5\", found \"2,5\""},
    {ROW("negative size"), PARTS, "1200,600,25", "1200,-600,25",
     "parts.csv:2:26: row 1, width: expected a length that is not negative, found \"-600\""},
    {ROW("negative span"), JOB, "\"45 min\"", "\"-45 min\"",
     "job.json:7:44: /tasks/0/takes: expected a time span that is not negative, found \"-45 min\""},
    {ROW("NaN"), JOB, "\"people\": 1", "\"people\": NaN",
     "job.json:3:21: /shop/people: expected a value, found NaN"},
    {ROW("NaN in a cell"), PARTS, "1200,600,25", "1200,NaN,25",
     "parts.csv:2:26: row 1, width: expected a length such as \"19 mm\" or \"3/4 in\", found \"NaN\""},
    {ROW("1e400"), JOB, "\"people\": 1", "\"people\": 1e400",
     "job.json:3:21: /shop/people: expected a number that is not beyond all measure, found 1e400"},
    {ROW("1e400 in a cell"), PARTS, "1200,600,25", "1200,1e400,25",
     "parts.csv:2:26: row 1, width: expected a length written out, without exponent, found \"1e400\""},
    {ROW("a city for its zone"), JOB, "Europe/London", "Chicago",
     "job.json:1:70: /zone: expected a time zone such as \"Europe/London\", found \"Chicago\" (did you mean "
     "\"America/Chicago\"?)"},
    {ROW("a city in small letters"), JOB, "Europe/London", "new_york",
     "job.json:1:70: /zone: expected a time zone such as \"Europe/London\", found \"new_york\" (did you mean "
     "\"America/New_York\"?)"},
    {ROW("the month first"), JOB, "2027-03-19 14:00", "12/22/2027",
     "job.json:2:42: /deliver: expected a date such as \"2027-03-05\": write \"2027-12-22\", found "
     "\"12/22/2027\""},
    {ROW("unknown shape"), PARTS, "1,board", "1,bord",
     "parts.csv:2:11: row 1, shape: expected one of \"board\", \"triangle\", \"polygon\", \"disc\", "
     "\"round\", "
     "\"taper\", \"cone\", \"turning\", \"moulding\", \"frame\", \"box\", \"mesh\", \"area\", found \"bord\" "
     "(did you mean \"board\"?)"},
    {ROW("unknown schedule"), PARTS, "50,oil,", "50,oli,",
     "parts.csv:5:42: row 3, all: expected a schedule of this job, found \"oli\" (did you mean \"oil\"?)"},
    {ROW("unknown finish"), JOB, "\"hardwax-oil\"", "\"hardwax-oill\"",
     "job.json:4:48: /schedules/oil/1/coat: expected a finish of the table, found \"hardwax-oill\" (did you "
     "mean \"hardwax-oil\"?)"},
    {ROW("unknown piece"), JOB, "\"piece\": \"top\"", "\"piece\": \"tpo\"",
     "job.json:6:23: /pieces/0/piece: expected a piece of the part list, found \"tpo\" (did you mean "
     "\"top\"?)"},
    {ROW("unknown piece in after"), JOB, "[\"legs\"]", "[\"leg\"]",
     "job.json:6:56: /pieces/0/after/0: expected a piece or a task of this job, found \"leg\" (did you mean "
     "\"legs\"?)"},
    {ROW("unknown state is a piece"), JOB, "\"top handle\"", "\"top handel\"",
     "job.json:7:64: /tasks/0/after/0: expected a piece or a task of this job, found \"top handel\""},
    {ROW("unknown zone"), JOB, "Europe/London", "Europe/Lundon",
     "job.json:1:70: /zone: expected a time zone such as \"Europe/London\", found \"Europe/Lundon\" (did you "
     "mean \"Europe/London\"?)"},
    {ROW("a ragged row: too few"), PARTS, "700,,,45,,wax,", "700,,,45,,wax",
     "parts.csv:3:1: row 2: expected 12 cells, as in the heading, found 11"},
    {ROW("a ragged row: too many"), PARTS, "700,,,45,,wax,", "700,,,45,,wax,,x",
     "parts.csv:3:37: row 2: expected 12 cells, as in the heading, found 13"},
    {ROW("an unclosed quote"), PARTS, "leg,legs", "\"leg,legs",
     "parts.csv:3:1: row 2: expected a closing quote for this one, found the end of the file"},
    {ROW("unknown column"), PARTS, "thickness", "thicknes",
     "parts.csv:2:1: row 1, thickness: expected a length above 0, found none\n"
     "parts.csv:5:1: row 3, thickness: expected a length above 0, found none"},
    {ROW("a column twice"), PARTS, "wood,length", "length,length",
     "parts.csv:1:29: expected each column once, found \"length\""},
    {ROW("a triangle that cannot close"), PARTS, "30 40 50", "30 40 70",
     "parts.csv:5:33: row 3, sides: expected three sides that close: each shorter than the others together, "
     "found 30 mm 40 mm 70 mm"},
    {ROW("more covered than there is"), PARTS, "back 1100 x 500", "back 1300 x 600",
     "parts.csv:2:39: row 1, covered: expected at most the back of 0.72 m², found 0.78 m²"},
    {ROW("covered without a size"), PARTS, "back 1100 x 500", "back",
     "parts.csv:2:39: row 1, covered: expected a region and a size, such as \"back 300 mm x 120 mm\", found "
     "\"back\""},
    {ROW("two thirds of a triangle"), PARTS, "30 40 50", "30 40",
     "parts.csv:5:33: row 3, sides: expected three lengths with blanks between: \"300 mm 400 mm 500 mm\", "
     "found "
     "\"30 40\""},
    {ROW("a dimension of another shape"), PARTS, "700,,,45", "700,30,,45",
     "parts.csv:3:26: row 2, width: expected no width: the shape round has none, found 30 mm"},
    {ROW("an unreadable length"), PARTS, "1200,600,25", "1200,600,3/4 foo",
     "parts.csv:2:30: row 1, thickness: expected a length such as \"19 mm\" or \"3/4 in\", found \"3/4 "
     "foo\""},
    {ROW("qty of a half"), PARTS, "legs,4", "legs,1/2",
     "parts.csv:3:10: row 2, qty: expected a whole number from 1 to 10000, found \"1/2\""},
    {ROW("part without a name"), PARTS, "inlay,", ",",
     "parts.csv:5:1: row 3, part: expected the part's name, found nothing"},
    {ROW("a file that is not there"), JOB, "\"parts.csv\"", "\"part.csv\"",
     "job.json:8:11: /parts: expected a readable file, found \"part.csv\" (no such file)"},
    {ROW("a directory instead of a file"), JOB, "\"parts.csv\"", "\"folder\"",
     "job.json:8:11: /parts: expected a readable file, found \"folder\" (a directory)"},
    {ROW("a path out of the folder"), JOB, "\"parts.csv\"", "\"../parts.csv\"",
     "job.json:8:11: /parts: expected a path inside the folder of this file (or --trust-paths), found "
     "\"../parts.csv\" (one that leaves it by \"..\")"},
    {ROW("a missing key"), JOB, " \"start\": \"2027-03-01 08:00\",", "",
     "job.json:1:1: /start: expected a moment such as \"2027-03-01 08:00\", found nothing"},
    {ROW("no such day"), JOB, "2027-03-01 08:00", "2027-02-29 08:00",
     "job.json:2:11: /start: expected a day that exists: Feb 2027 has 28 days, found \"2027-02-29 08:00\""},
    {ROW("a year beyond all plans"), JOB, "2027-03-19", "5027-03-19",
     "job.json:2:42: /deliver: expected a year from 1972 to 2400, found \"5027-03-19 14:00\""},
    {ROW("deliver before start"), JOB, "2027-03-19", "2027-02-19",
     "job.json:2:42: /deliver: expected a moment not before the start, 2027-03-01 08:00, found 2027-02-19 "
     "14:00"},
    {ROW("a task without time"), JOB, "\"takes\": \"45 min\", ", "",
     "job.json:7:12: /tasks/0/takes: expected a time span such as \"45 min\" or \"1 h 30 min\", found "
     "nothing"},
    {ROW("one task without its list"), JOB,
     "[{\"task\": \"fit hinges\", \"takes\": \"45 min\", \"after\": [\"top handle\"]}]",
     "{\"task\": \"fit hinges\", \"takes\": \"45 min\"}",
     "job.json:7:11: /tasks: expected a list of tasks, found an object"},
    {ROW("a circle of pieces"), JOB, "\"after\": [\"legs\"]}]",
     "\"after\": [\"legs\"]}, {\"piece\": \"legs\", \"after\": [\"top handle\"]}]",
     "job.json:6:56: /pieces/0/after/0: expected no circle in `after`, found top -> legs -> top"},
    {ROW("a skill misspelt"), JOB, "1, \"rack\"", "[{\"person\": \"Ann\", \"does\": [\"hvpl\"]}], \"rack\"",
     "job.json:3:49: /shop/people/0/does/0: expected one of \"cloth\", \"brush\", \"foam-brush\", \"pad\", "
     "\"squeegee\", \"roller\", \"rubber\", \"hvlp\", \"conventional\", \"airless\", \"dip\", \"pour\", "
     "\"sand\", "
     "\"scuff\", \"polish\", \"rub\", \"wipe\", \"raise\", found \"hvpl\" (did you mean \"hvlp\"?)"},
    {ROW("nobody who brushes"), JOB, "1, \"rack\"",
     "[{\"person\": \"Ann\", \"does\": [\"sand\", \"cloth\"]}, {\"person\": \"Bob\", \"does\": "
     "[\"polish\"]}], \"rack\"",
     "job.json:4:48: /schedules/oil/1/coat: expected somebody with \"brush\" in \"does\", to apply "
     "hardwax-oil, "
     "found nobody"},
    {ROW("nobody who sands"), JOB, "1, \"rack\"",
     "[{\"person\": \"Ann\", \"does\": [\"brush\", \"cloth\", \"polish\"]}], \"rack\"",
     "job.json:4:33: /schedules/oil/0/sand: expected somebody with \"sand\" in \"does\", found nobody"},
    {ROW("nobody who polishes"), JOB, "1, \"rack\"",
     "[{\"person\": \"Ann\", \"does\": [\"brush\", \"cloth\", \"sand\"]}], \"rack\"",
     "job.json:5:33: /schedules/wax/0/coat: expected somebody with \"polish\" in \"does\", found nobody"},
    {ROW("nobody who rubs between coats"), JOB,
     "1, \"rack\": \"4 m2\"},\n \"schedules\": {\"oil\": [{\"sand\": 150}, {\"coat\": \"hardwax-oil\", "
     "\"coats\": 2}",
     "[{\"person\": \"Ann\", \"does\": [\"sand\", \"brush\", \"cloth\", \"polish\"]}]},\n \"schedules\": "
     "{\"oil\": [{\"sand\": 150}, "
     "{\"coat\": \"hardwax-oil\", \"coats\": 2, \"between\": {\"rub\": \"steel wool 0000\"}}",
     "job.json:4:86: /schedules/oil/1/between: expected somebody with \"rub\" in \"does\", found nobody"},
    {ROW("an empty part list"), JOB, "\"parts.csv\"", "[]",
     "job.json:8:11: /parts: expected at least one part, found none"},
};

static void is_told(void **state)
{
    const struct mistake *r = *state;
    struct reader *reader = reader_make();
    struct job *job = job_text_read(reader, r->where, r->find, r->put);
    check_text(&r->row, reader_lines(reader, &reader->errors), r->want);
    check_true(&r->row, !job, "no job");
    reader_free(reader);
}

/* Five mistakes in one file: five messages in its order. */
static void five_mistakes(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *text = reader_swap(reader, job_text_job, "\"mm\"", "\"mmm\"");
    text = reader_swap(reader, text, "2027-03-01", "1.3.2027");
    text = reader_swap(reader, text, "\"people\": 1", "\"people\": 0");
    text = reader_swap(reader, text, "\"coats\": 2", "\"coat s\": 2");
    text = reader_swap(reader, text, "\"takes\": \"45 min\"", "\"takes\": \"45 mins ago\"");
    check_true(HERE, !job_text_read_as(reader, text), "no job");
    check_text(HERE, reader_lines(reader, &reader->errors),
               "job.json:1:56: /units: expected one of \"mm\", \"cm\", \"m\", \"in\", \"ft\", found \"mmm\" "
               "(did you mean \"mm\"?)\n"
               "job.json:2:11: /start: expected a date such as \"2027-03-05\": write \"2027-03-01\", found "
               "\"1.3.2027 08:00\"\n"
               "job.json:3:21: /shop/people: expected a whole number from 1 to 100, found 0\n"
               "job.json:4:63: /schedules/oil/1/coat s: expected a key of a coat, found \"coat s\" (did you "
               "mean \"coats\"?)\n"
               "job.json:7:44: /tasks/0/takes: expected a time span such as \"45 min\" or \"1 h 30 min\", "
               "found \"45 mins ago\"");
    reader_free(reader);
}

/* Twenty are kept, the rest is counted. */
static void many_mistakes(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *steps = "{\"sand\": 5}";
    for (int i = 1; i < 30; i++)
        steps = arena_textf(reader->arena, "%s, {\"sand\": 5}", steps);
    (void)job_text_read(reader, JOB, "{\"sand\": 150}", steps);
    check_int(HERE, (intmax_t)reader->errors.count, ERR_MOST);
    check_int(HERE, (intmax_t)reader->errors.dropped, 10);
    reader_free(reader);
}

static void not_a_job(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    (void)job_text_read_as(reader, "");
    (void)job_text_read_as(reader, "[]");
    (void)job_text_read_as(reader, "{\"job\": \"caf\xE9\"}");
    struct job_source folder = {.path = "folder"}, missing = {.path = "missing.json"};
    (void)job_read(reader->arena, &folder, &reader->errors, &reader->warnings);
    (void)job_read(reader->arena, &missing, &reader->errors, &reader->warnings);
    check_text(HERE, reader_lines(reader, &reader->errors),
               "job.json:1:1: expected JSON text, found an empty file\n"
               "job.json:1:1: expected a job as an object in braces, found an empty list\n"
               "job.json:1:13: expected UTF-8 text, found byte 0xe9\n"
               "folder: expected a readable file, found a directory\n"
               "missing.json: expected a readable file, found no such file");
    check_int(HERE, reader->errors.items[2].code, ERR_INPUT);
    check_int(HERE, reader->errors.items[3].code, ERR_FILE);
    check_int(HERE, reader->errors.items[4].code, ERR_FILE);
    reader_free(reader);
}

/* Files that other programs write: with a byte-order mark, with CR LF. A mistake behind them has the same place. */
static void other_programs_files(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *crlf = "part,length,width,thickness,all\r\ntop,1200,600,25,oil\r\nlegs,700,40,40,wax\r\n";
    const char *bad = "\xEF\xBB\xBFpart,length,width,thickness\r\ntop,1200,600,25\r\nlegs,700,40,40x\r\n";
    const char *mark = arena_textf(reader->arena, "\xEF\xBB\xBF%s", job_text_job);
    check_true(HERE, job_text_read_parts(reader, mark, crlf) != NULL, "read");
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_true(HERE, !job_text_read_parts(reader, mark, bad), "not read");
    check_text(
        HERE, reader_lines(reader, &reader->errors),
        "parts.csv:3:13: row 2, thickness: expected a length such as \"19 mm\" or \"3/4 in\", found \"40x\"");
    reader_free(reader);
}

struct list_row {
    struct row row;
    const char *text, *want;
};

static const struct list_row lists[] = {
    {ROW("an empty list"), "", "parts.csv:1:1: expected a row of column names, found an empty file"},
    {ROW("a list in no encoding"), "part,length\ntop,caf\x81\n",
     "parts.csv:2:8: expected text in UTF-8, UTF-16 or Windows-1252, found byte 0x81"},
    {ROW("a list in half of UTF-16"), "\xFF\xFEp",
     "parts.csv:1:1: expected text in UTF-8, UTF-16 or Windows-1252, found byte 0xff"},
    {ROW("no name that is known"), "# list\ntitle,colour\n",
     "parts.csv:2:1: expected a row with at least two columns of a part list, such as part and qty, found "
     "\"title\""},
    {ROW("no column for the part"), "# list\nqty,length\n1,2\n",
     "parts.csv:2:1: expected a column named \"part\", found none"},
    {ROW("no part"), "part,length\n\n", "parts.csv:1:1: expected at least one part, found none"},
    {ROW("a control character"), "part,length,width,thickness\nt\x1B[2Jop,1,2,3\n",
     "parts.csv:2:1: row 1, part: expected text without control characters, found \"t\\u001b[2Jop\""},
};

static void list_is_told(void **state)
{
    const struct list_row *r = *state;
    struct reader *reader = reader_make();
    const char *job = reader_swap(reader, job_text_job,
                                  "[{\"piece\": \"top\", \"laid\": \"flat\", \"after\": [\"legs\"]}]", "[]");
    job = reader_swap(reader, job, "\"after\": [\"top handle\"]", "\"after\": []");
    check_true(&r->row, !job_text_read_parts(reader, job, r->text), "no job");
    check_text(&r->row, reader_lines(reader, &reader->errors), r->want);
    reader_free(reader);
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_ROWS(mistakes, is_told), CHECK_TEST(five_mistakes), CHECK_TEST(many_mistakes),
                     CHECK_TEST(not_a_job), CHECK_TEST(other_programs_files),
                     CHECK_ROWS(lists, list_is_told));
}
