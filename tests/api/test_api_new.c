/* A job made of a part list that was handed over in memory, through the public header alone. */
#include "check.h"
#include "coatwright.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char list[] =
    "Description;Anzahl;Holz;L\xC3\xA4nge;Breite;Dicke\n"
    "Seite;2;Eiche;800;300;20\nFachboden;3;Eiche;560;280;20\nLeiste;2;Eiche;560;40;20\n";

static struct coatwright *session_with(const char *text)
{
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    options.finishes = "finishes";
    options.now = "2027-03-01";
    struct coatwright *session = coatwright_open(&options);
    assert_non_null(session);
    if (text)
        assert_true(coatwright_add_text(session, "cuts.csv", text, strlen(text)));
    return session;
}

static struct coatwright_new_want wanted(void)
{
    struct coatwright_new_want want = COATWRIGHT_NEW_WANT_INIT;
    want.list = "cuts.csv";
    want.start = "2027-03-01";
    want.deliver = "2027-04-09";
    want.outside = "wiping-varnish";
    want.inside = "shellac-dewaxed";
    want.zone = "Europe/Berlin";
    return want;
}

static const char *first_error(struct coatwright *session)
{
    return coatwright_error_count(session) ? coatwright_error(session, 0)->expected : "none";
}

static void a_list_becomes_a_job(void **state)
{
    (void)state;
    struct coatwright *session = session_with(list);
    struct coatwright_new_want want = wanted();
    struct coatwright_new_job made = COATWRIGHT_NEW_JOB_INIT;
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    check_true(HERE, coatwright_new(session, &want, &made), first_error(session));
    check_text(HERE, made.job_file, "cuts.json");
    check_text(HERE, made.shop_file, "cuts-shop.json");
    check_text(HERE, made.prices_file, "cuts-prices.csv");
    check_text(HERE, made.flat, "Seite, Fachboden"); /* the strip has no large face */
    check_text(HERE, made.inner, "Fachboden");
    check_true(HERE, !made.parts_file && !made.units_meant, "a list that was there, in millimetres");
    check_true(HERE, coatwright_plan(session, &outcome) && outcome.planned && outcome.in_time,
               first_error(session));
    coatwright_close(session);
}

/* Sizes that no unit says and that look like inches are taken as such. */
static void inches_are_meant(void **state)
{
    (void)state;
    struct coatwright *session =
        session_with("part,length,width,thickness,wood\na,12,5,0.5,oak\nb,6,5,0.5,oak\n");
    struct coatwright_new_want want = wanted();
    struct coatwright_new_job made = COATWRIGHT_NEW_JOB_INIT;
    check_true(HERE, coatwright_new(session, &want, &made), first_error(session));
    check_text(HERE, made.units_meant, "in");
    coatwright_close(session);
}

static void a_kind_becomes_a_list(void **state)
{
    (void)state;
    struct coatwright *session = session_with(NULL);
    struct coatwright_new_want want = wanted();
    struct coatwright_new_job made = COATWRIGHT_NEW_JOB_INIT;
    want.list = NULL;
    want.kind = "shelf";
    want.sizes = "900 x 250 x 20";
    check_true(HERE, coatwright_new(session, &want, &made), first_error(session));
    check_text(HERE, made.parts_file, "shelf.csv");
    coatwright_close(session);
    session = session_with(NULL);
    want.list = "parts/hall.csv";
    check_true(HERE, coatwright_new(session, &want, &made), first_error(session));
    check_text(HERE, made.parts_file, "parts/hall.csv");
    check_text(HERE, made.job_file, "parts/hall.json");
    coatwright_close(session);
}

struct misuse_row {
    struct row row;
    void (*spoil)(struct coatwright_new_want *want);
    const char *want;
};

static void no_list(struct coatwright_new_want *want)
{
    want->list = NULL;
}
static void no_start(struct coatwright_new_want *want)
{
    want->start = NULL;
}
static void no_finish(struct coatwright_new_want *want)
{
    want->outside = "varnish-of-the-moon";
}
static void wrong_hours(struct coatwright_new_want *want)
{
    want->hours = "13:00-17:00 08:00-12:00";
}
static void no_kind(struct coatwright_new_want *want)
{
    want->list = NULL;
    want->kind = "boat";
}

static const struct misuse_row misuses[] = {
    {ROW("no list"), no_list, "a part list, or the kind of piece"},
    {ROW("no start"), no_start, "a start"},
    {ROW("no such finish"), no_finish, "a finish of the table (coatwright finishes lists them)"},
    {ROW("hours that go back"), wrong_hours, "working hours such as \"08:00-12:00 13:00-17:00\""},
    {ROW("no such kind"), no_kind, "one of \"table\", \"cabinet\", \"doors\", \"shelf\", \"chair\", \"box\""},
};

static void misuse_is_told(void **state)
{
    const struct misuse_row *r = *state;
    struct coatwright *session = session_with(list);
    struct coatwright_new_want want = wanted();
    r->spoil(&want);
    check_true(&r->row, !coatwright_new(session, &want, NULL), "refused");
    check_text(&r->row, first_error(session), r->want);
    check_true(&r->row, !coatwright_save_new(session), "nothing to save");
    coatwright_close(session);
}

static void nothing_is_given(void **state)
{
    (void)state;
    struct coatwright *session = session_with(list);
    check_true(HERE, !coatwright_new(session, NULL, NULL) && !coatwright_new(NULL, NULL, NULL), "refused");
    check_true(HERE, !coatwright_save_new(NULL), "refused");
    coatwright_close(session);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(a_list_becomes_a_job), CHECK_TEST(inches_are_meant),
                     CHECK_TEST(a_kind_becomes_a_list), CHECK_ROWS(misuses, misuse_is_told),
                     CHECK_TEST(nothing_is_given));
}
