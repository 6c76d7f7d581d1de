/* The public functions that answer a question: a mix without a job, the arithmetic of a part and of a finish. */
#include "check.h"

#include "coatwright.h"

#include <string.h>

static struct coatwright *open_session(void)
{
    struct coatwright_options options = {.size = sizeof options, .now = "2027-01-04T08:00Z"};
    struct coatwright *session = coatwright_open(&options);
    assert_non_null(session);
    return session;
}

static void check_error(const struct row *row, struct coatwright *session, const char *want)
{
    char line[1200];
    check_int(row, (intmax_t)coatwright_error_count(session), 1);
    coatwright_error_line(coatwright_error(session, 0), line, sizeof line);
    check_text(row, line, want);
}

struct mix_row {
    struct row row;
    struct coatwright_mix_want asked;
    const char *want; /* NULL: no error */
    bool sound;
};

#define SIZED .size = sizeof(struct coatwright_mix_want)
#define TWO_PART SIZED, .finish = "hardwax-oil-two-part"
#define SHELLAC SIZED, .finish = "shellac-dewaxed", .amount = "500 ml"

static const struct mix_row mixes[] = {
    {ROW("by hand"), {TWO_PART, .amount = "400 ml"}, NULL, true},
    {ROW("cold"), {TWO_PART, .amount = "1 qt", .at = "40 F"}, NULL, true},
    {ROW("by mass"), {TWO_PART, .amount = "350 g"}, NULL, true},
    {ROW("for an area"), {TWO_PART, .amount = "15 sq ft", .by = "pad", .wood = "oak"}, NULL, true},
    {ROW("for a later coat, thinned"),
     {TWO_PART, .amount = "1.4 m2", .later = true, .thin = "10:1", .scale = "0.1 g"},
     NULL,
     true},
    {ROW("of what is there"), {TWO_PART, .have = "hardener 180 g"}, NULL, true},
    {ROW("of what is there, by volume"), {TWO_PART, .have = "oil 300 ml"}, NULL, true},
    {ROW("the only component need not be named"),
     {SIZED, .finish = "danish-oil", .have = "300 ml"},
     NULL,
     true},
    {ROW("a cut"), {SHELLAC, .cut = "1 1/2"}, NULL, true},
    {ROW("a weaker cut"), {SHELLAC, .cut = "1", .from = "3"}, NULL, true},
    {ROW("the flakes that are there"),
     {SIZED, .finish = "shellac-dewaxed", .have = "flakes 100 g", .cut = "2"},
     NULL,
     true},
    {ROW("too little for the scale"),
     {TWO_PART, .have = "hardener 1 g", .scale = "2 g"},
     "expected at least one step of the scale, found \"hardener 1 g\"",
     false},
    {ROW("no unit"),
     {TWO_PART, .amount = "350"},
     "expected a volume such as \"400 ml\", a mass, or an area such as \"1.4 m²\", found \"350\"",
     false},
    {ROW("nothing"), {TWO_PART, .amount = "0 ml"}, "expected an amount above 0, found \"0 ml\"", false},
    {ROW("an endless floor"),
     {TWO_PART, .amount = "1000000 m2"},
     "expected an amount that at most 100 mixes of 432 ml, the largest that one pot holds and that can be "
     "applied, "
     "make, found \"1000000 m2\"",
     false},
    {ROW("a lake"),
     {TWO_PART, .amount = "10000.5 l"},
     "expected at most 10000 l of a mix, found \"10000.5 l\"",
     false},
    {ROW("warm"),
     {TWO_PART, .amount = "400 ml", .at = "warm"},
     "expected a temperature such as \"20 C\" or \"68 F\", found \"warm\"",
     false},
    {ROW("unknown"),
     {SIZED, .finish = "hardwax-oil-to-part", .amount = "400 ml"},
     "expected a finish of the table (coatwright finishes lists them), found \"hardwax-oil-to-part\" (did "
     "you mean \"hardwax-oil-two-part\"?)",
     false},
    {ROW("a tool that it does not take"),
     {SIZED, .finish = "casting-epoxy", .amount = "1 l", .by = "brush"},
     "expected \"pour\", found \"brush\"",
     false},
    {ROW("no such wood"),
     {TWO_PART, .amount = "1 m2", .wood = "oack"},
     "expected a wood, found \"oack\" (did you mean \"oak\"?)",
     false},
    {ROW("no ratio"),
     {TWO_PART, .amount = "1 l", .thin = "a little"},
     "expected a ratio such as \"2:1\", or a share such as \"10 %\", found \"a little\"",
     false},
    {ROW("no scale"),
     {TWO_PART, .amount = "1 l", .scale = "0 g"},
     "expected a step above 0, found \"0 g\"",
     false},
    {ROW("no such component"),
     {TWO_PART, .have = "harder 180 g"},
     "expected a component and how much there is of it, such as \"hardener 180 g\", found \"harder 180 g\"",
     false},
    {ROW("a cut of what has none"),
     {TWO_PART, .amount = "1 l", .cut = "2"},
     "expected a shellac, which alone has a cut, found \"hardwax-oil-two-part\"",
     false},
    {ROW("of a weaker cut"),
     {SHELLAC, .cut = "2", .from = "2"},
     "expected a stronger cut to make it from, found \"2\"",
     false},
    {ROW("of a cut to nothing"),
     {SHELLAC, .from = "2"},
     "expected the cut to make as well, found \"2\"",
     false},
    {ROW("no cut at all"),
     {SHELLAC, .cut = "0"},
     "expected the pounds of a cut, such as \"2\", found \"0\"",
     false},
    {ROW("no amount"), {TWO_PART}, "expected a finish and an amount, found \"\"", false},
};

static void mix_stands_alone(void **state)
{
    const struct mix_row *r = *state;
    struct coatwright *session = open_session();
    bool sound = !r->sound;
    check_true(&r->row, coatwright_mix(session, &r->asked, &sound) == !r->want, "done");
    check_int(&r->row, sound, r->sound);
    if (r->want)
        check_error(&r->row, session, r->want);
    else
        check_true(&r->row,
                   coatwright_write(session, COATWRIGHT_MIX, COATWRIGHT_JSON) &&
                       coatwright_write(session, COATWRIGHT_MIX, COATWRIGHT_TEXT),
                   "written");
    coatwright_close(session);
}

/* The arithmetic of a part needs a job that was measured, and a part that is there. */
static void parts_are_explained(void **state)
{
    (void)state;
    struct coatwright *session = open_session();
    check_true(HERE, !coatwright_explain(session, "top"), "nothing was read");
    check_int(HERE, coatwright_error(session, 0)->code, COATWRIGHT_USAGE);
    assert_true(coatwright_read(session, "examples/desk.json") && coatwright_take_off(session));
    const char *text = coatwright_explain(session, "top");
    check_true(HERE, text && strncmp(text, "top: board, in millimetres\n", 27) == 0, "explained");
    check_true(HERE, !coatwright_explain(session, "tpo"), "no such part");
    check_text(HERE, coatwright_error(session, 1)->found, "\"tpo\" (did you mean \"top\"?)");
    coatwright_close(session);
}

/* The arithmetic of a finish needs a plan, and a finish that the job uses. */
static void finishes_are_explained(void **state)
{
    (void)state;
    struct coatwright *session = open_session();
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    assert_true(coatwright_read(session, "examples/desk.json"));
    check_true(HERE, !coatwright_explain_finish(session, "wiping-varnish"), "nothing was planned");
    check_int(HERE, coatwright_error(session, 0)->code, COATWRIGHT_USAGE);
    assert_true(coatwright_plan(session, &outcome));
    const char *text = coatwright_explain_finish(session, "wiping-varnish");
    check_true(HERE, text && strncmp(text, "Wiping varnish for Writing desk", 31) == 0, "explained");
    check_true(HERE, !coatwright_explain_finish(session, "danish-oil"), "not used here");
    coatwright_close(session);
}

static void finishes_of_a_folder(void **state)
{
    (void)state;
    struct coatwright *session = open_session();
    check_true(HERE, !coatwright_finishes(session, "danish-oyl", NULL), "no such finish");
    check_true(HERE, !coatwright_write(session, COATWRIGHT_FINISH_TABLE, COATWRIGHT_TEXT),
               "nothing was read");
    check_true(HERE, !coatwright_finishes(session, NULL, "no/such/folder"), "no such folder");
    check_int(HERE, (intmax_t)coatwright_error_count(session), 3);
    check_int(HERE, coatwright_error(session, 2)->code, COATWRIGHT_FILE);
    check_true(HERE, coatwright_finishes(session, NULL, "examples/desk-finishes"), "all of them");
    check_true(HERE, !coatwright_write(session, COATWRIGHT_FINISH_LABEL, COATWRIGHT_JSON), "which of them?");
    check_true(HERE, coatwright_finishes(session, "paste-wax", "examples/desk-finishes"), "one of them");
    const char *text = coatwright_write(session, COATWRIGHT_FINISH_TABLE, COATWRIGHT_TEXT);
    check_true(HERE, text && strstr(text, "Instead of the table's"), "what it takes the place of");
    check_true(HERE, coatwright_write(session, COATWRIGHT_FINISH_LABEL, COATWRIGHT_JSON) != NULL, "a file");
    coatwright_close(session);
}

static void logs_of_a_folder_are_asked(void **state)
{
    (void)state;
    struct coatwright *session = open_session();
    check_true(HERE, !coatwright_learn(session, NULL) && !coatwright_learn(NULL, "examples"),
               "no folder, no session");
    check_true(HERE, !coatwright_write(session, COATWRIGHT_LEARNED, COATWRIGHT_TEXT), "nothing was learned");
    check_true(HERE, !coatwright_save_learned(session) && !coatwright_save_learned(NULL), "nothing to save");
    check_int(HERE, (intmax_t)coatwright_error_count(session), 3);
    for (size_t i = 0; i < coatwright_error_count(session); i++)
        check_int(HERE, coatwright_error(session, i)->code, COATWRIGHT_USAGE);
    check_true(HERE, !coatwright_learn(session, "no/such/folder"), "no such folder");
    check_int(HERE, coatwright_error(session, 3)->code, COATWRIGHT_FILE);
    check_true(HERE, coatwright_learn(session, "examples"), "jobs without logs");
    check_true(HERE, !coatwright_learn(session, "examples"), "once");
    const char *text = coatwright_write(session, COATWRIGHT_LEARNED, COATWRIGHT_TEXT);
    check_true(HERE, text && strstr(text, "Nothing was measured yet"), "the table's figures");
    check_true(HERE, !coatwright_write(session, COATWRIGHT_LEARNED, COATWRIGHT_CSV), "no such format");
    coatwright_close(session);
}

/* A mix and a finish with its label, under ceilings that grow until they suffice. */
static void memory_may_end_without_a_job(void **state)
{
    (void)state;
    static const struct coatwright_mix_want want = {TWO_PART, .amount = "1.4 m2", .wood = "oak"};
    bool done = false, sound;
    for (size_t ceiling = 4096; !done; ceiling += ceiling < 65536 ? 1499 : 40009) {
        struct coatwright_options options = {.size = sizeof options, .memory_ceiling = ceiling};
        struct coatwright *session = coatwright_open(&options);
        assert_non_null(session);
        done = coatwright_mix(session, &want, &sound) &&
               coatwright_write(session, COATWRIGHT_MIX, COATWRIGHT_TEXT) &&
               coatwright_finishes(session, "danish-oil", "examples/desk-finishes") &&
               coatwright_write(session, COATWRIGHT_FINISH_TABLE, COATWRIGHT_JSON) &&
               coatwright_write(session, COATWRIGHT_FINISH_LABEL, COATWRIGHT_JSON);
        if (!done)
            check_int(HERE, coatwright_error(session, 0)->code, COATWRIGHT_MEMORY);
        coatwright_close(session);
        check_true(HERE, ceiling < (size_t)64 << 20, "64 MB suffice");
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(mixes, mix_stands_alone), CHECK_TEST(finishes_of_a_folder),
                     CHECK_TEST(logs_of_a_folder_are_asked), CHECK_TEST(memory_may_end_without_a_job),
                     CHECK_TEST(parts_are_explained), CHECK_TEST(finishes_are_explained));
}
