/* The public functions: memory that ends anywhere, wrong calls, what a session hands out, and saving. */
#include "check.h"

#include "coatwright.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char now[] = "2027-01-04T08:00Z";

struct job_row {
    struct row row;
    const char *path;
    bool
        searched; /* its first plan is not the best one, and what follows the search needs less memory than it */
};

/* Whether the search for a small plan takes more memory than what is told of the plan afterwards: under the address sanitizer the gaps
 * between the many parts of that take more. */
#ifdef __SANITIZE_ADDRESS__
enum { SEARCH_TAKES_MOST = false };
#else
enum { SEARCH_TAKES_MOST = true };
#endif

/* Little effort: where memory ends is looked for, not a good plan. */
static const struct job_row jobs[] = {
    {ROW("a writing desk"), "examples/desk.json", SEARCH_TAKES_MOST},
    {ROW("twelve cupboard doors"), "examples/doors.json", false},
    {ROW("a kitchen"), "examples/kitchen.json", false},
    {ROW("a staircase"), "examples/staircase.json", false},
};
enum { EFFORT = 300000 };

static struct coatwright *open_with(size_t ceiling)
{
    struct coatwright_options options = {
        .size = sizeof options, .memory_ceiling = ceiling, .now = now, .effort = ceiling ? EFFORT : 0};
    struct coatwright *session = coatwright_open(&options);
    assert_non_null(session);
    return session;
}

/* Everything that the program does with a job, short of saving. */
static bool all_of_it(struct coatwright *session, const char *path, struct coatwright_outcome *outcome)
{
    static const struct {
        enum coatwright_report report;
        enum coatwright_format format;
    } outputs[] = {
        {COATWRIGHT_CHECK, COATWRIGHT_TEXT},     {COATWRIGHT_AREA, COATWRIGHT_TEXT},
        {COATWRIGHT_AREA, COATWRIGHT_SVG},       {COATWRIGHT_BUY, COATWRIGHT_TEXT},
        {COATWRIGHT_BUY, COATWRIGHT_CSV},        {COATWRIGHT_MIX, COATWRIGHT_TEXT},
        {COATWRIGHT_TIMETABLE, COATWRIGHT_TEXT}, {COATWRIGHT_PLAN, COATWRIGHT_TEXT},
        {COATWRIGHT_PLAN, COATWRIGHT_JSON},      {COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR},
        {COATWRIGHT_TIMETABLE, COATWRIGHT_SVG},  {COATWRIGHT_COST, COATWRIGHT_TEXT},
        {COATWRIGHT_COST, COATWRIGHT_JSON},      {COATWRIGHT_COST, COATWRIGHT_CSV},
        {COATWRIGHT_SHEET, COATWRIGHT_HTML},
    };
    if (!coatwright_read(session, path) || !coatwright_plan(session, outcome))
        return false;
    for (size_t i = 0; i < sizeof outputs / sizeof outputs[0]; i++)
        if (!coatwright_write(session, outputs[i].report, outputs[i].format))
            return false;
    return coatwright_chance(session, 2) && coatwright_write(session, COATWRIGHT_TIMETABLE, COATWRIGHT_JSON);
}

/* Small steps at first, where each one ends in another function, then larger ones. */
static size_t step_of(size_t ceiling)
{
    return ceiling < 64 * 1024 ? 1499 : ceiling < 4096 * 1024 ? 10007 : 200003;
}

static void memory_may_end_anywhere(void **state)
{
    const struct job_row *r = *state;
    bool done = false;
    size_t ceiling = 1;
    for (; !done; ceiling += step_of(ceiling)) {
        struct coatwright *session = open_with(ceiling);
        struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
        bool all = all_of_it(session, r->path, &outcome);
        done = all && !outcome.ended;
        if (!all) {
            check_int(&r->row, (intmax_t)coatwright_error_count(session), 1);
            check_int(&r->row, coatwright_error(session, 0)->code, COATWRIGHT_MEMORY);
            const char *told = coatwright_write(session, COATWRIGHT_ERRORS, COATWRIGHT_JSON);
            check_true(&r->row, told && strstr(told, "memory enough"), "the error can be told");
        }
        coatwright_close(session);
        check_true(&r->row, ceiling < (size_t)256 << 20, "256 MB suffice");
    }
}

static bool is_planned(size_t ceiling, const char *path, bool *ended)
{
    struct coatwright *session = open_with(ceiling);
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    bool planned = coatwright_read(session, path) && coatwright_plan(session, &outcome);
    *ended = outcome.ended;
    coatwright_close(session);
    return planned;
}

/* The least memory that a plan is made with ends inside the search: the plan found before is the outcome, said as such. */
static void memory_may_end_inside_the_search(void **state)
{
    const struct job_row *r = *state;
    size_t low = 1, high = (size_t)256 << 20;
    bool ended = false;
    check_true(&r->row, is_planned(high, r->path, &ended) && !ended, "256 MB suffice");
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (is_planned(middle, r->path, &ended))
            high = middle;
        else
            low = middle;
    }
    check_true(&r->row, is_planned(high, r->path, &ended), "enough for a plan");
    check_true(&r->row, ended || !r->searched, "memory ended inside the search");
}

static void check_error(const struct row *row, struct coatwright *session, const char *want)
{
    char line[1200];
    check_int(row, (intmax_t)coatwright_error_count(session), 1);
    coatwright_error_line(coatwright_error(session, 0), line, sizeof line);
    check_text(row, line, want);
}

static void a_report_needs_its_job(void **state)
{
    (void)state;
    struct coatwright *session = open_with(0);
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    check_true(HERE, !coatwright_write(session, COATWRIGHT_AREA, COATWRIGHT_TEXT), "nothing was read");
    check_int(HERE, coatwright_error(session, 0)->code, COATWRIGHT_USAGE);
    check_true(HERE, !coatwright_plan(session, &outcome) && !coatwright_take_off(session),
               "nothing was read");
    check_int(HERE, (intmax_t)coatwright_error_count(session), 3);
    check_true(HERE, !coatwright_write(session, COATWRIGHT_AREA, COATWRIGHT_ICALENDAR), "no such format");
    check_true(HERE, !coatwright_chance(session, 1), "nothing was planned");
    check_int(HERE, (intmax_t)coatwright_error_count(session), 5);
    coatwright_close(session);
}

static void one_job_a_session(void **state)
{
    (void)state;
    struct coatwright *session = open_with(0);
    check_true(HERE, coatwright_read(session, jobs[0].path), "the first");
    check_true(HERE, !coatwright_read(session, jobs[1].path), "not a second");
    check_error(HERE, session, "expected one job in a session, found a second one");
    coatwright_close(session);
}

static void now_may_be_wrong(void **state)
{
    (void)state;
    struct coatwright_options options = {.size = sizeof options, .now = "soon"};
    struct coatwright *session = coatwright_open(&options);
    check_true(HERE, !coatwright_read(session, jobs[0].path), "soon is no moment");
    check_error(
        HERE, session,
        "expected a moment such as \"2027-03-01 08:00\", \"2027-03-01T08:00:00+00:00\" or a date, found "
        "\"soon\"");
    coatwright_close(session);
}

static void options_are_copied_and_may_lack(void **state)
{
    (void)state;
    char moment[] = "2027-01-04T08:00Z";
    struct coatwright_options options = {.size = sizeof options, .now = moment};
    struct coatwright *session = coatwright_open(&options), *plain = coatwright_open(NULL);
    memset(moment, 'x', sizeof moment - 1);
    check_true(HERE, coatwright_read(session, jobs[0].path), "the moment is the session's own");
    check_true(HERE, coatwright_read(plain, jobs[0].path), "no options");
    coatwright_close(session);
    coatwright_close(plain);
    coatwright_close(NULL);
}

static void outcome_is_told(void **state)
{
    (void)state;
    struct coatwright *session = open_with(0);
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    check_true(HERE, coatwright_read(session, jobs[0].path) && coatwright_plan(session, &outcome), "planned");
    check_true(HERE, outcome.planned && outcome.in_time && outcome.mixes_sound, "in time");
    /* Not before the start, Mon 1 Mar 2027 08:00, and not after the delivery, Tue 16 Mar 14:00: minutes by hand,
     * 20878 days from 1970-01-01 to 2027-03-01. */
    check_true(HERE, outcome.ready_min > (int64_t)20878 * 1440 + 480, "after the start");
    check_true(HERE, outcome.ready_min <= (int64_t)20893 * 1440 + 840, "before the delivery");
    coatwright_close(session);
}

static void errors_of_the_caller(void **state)
{
    (void)state;
    struct coatwright *session = open_with(0);
    struct coatwright_error error = {.code = COATWRIGHT_FILE,
                                     .line = 3,
                                     .column = 14,
                                     .file = "a.json",
                                     .pointer = "/x",
                                     .found = "nothing",
                                     .expected = "a \"word\""};
    for (int i = 0; i < 23; i++)
        coatwright_error_add(session, &error);
    check_int(HERE, (intmax_t)coatwright_error_count(session), 20);
    check_int(HERE, (intmax_t)coatwright_error_more(session), 3);
    const char *told = coatwright_write(session, COATWRIGHT_ERRORS, COATWRIGHT_JSON);
    check_true(
        HERE,
        strstr(told,
               "    {\"file\": \"a.json\", \"line\": 3, \"column\": 14, \"pointer\": \"/x\", \"found\": "
               "\"nothing\", \"expected\": \"a \\\"word\\\"\"}\n") != NULL,
        told);
    char line[12];
    check_int(HERE, (intmax_t)coatwright_error_line(&error, line, sizeof line), 11);
    check_text(HERE, line, "a.json:3:14");
    coatwright_close(session);
}

static char *text_of(const char *path)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *text = calloc(1, 1 << 20);
    assert_non_null(text);
    size_t length = fread(text, 1, (1 << 20) - 1, file);
    check_true(HERE, length > 0 && length < (1 << 20) - 1, path);
    fclose(file);
    return text;
}

static void saved_is_what_is_written(void **state)
{
    (void)state;
    const char *there = check_folder();
    char path[300], folder[280];
    struct coatwright *session = open_with(0);
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    check_true(HERE, coatwright_read(session, jobs[1].path) && coatwright_plan(session, &outcome), "planned");
    snprintf(folder, sizeof folder, "%s/saved", there);
    snprintf(path, sizeof path, "%s/plan.json", folder);
    check_true(HERE, coatwright_save_all(session, folder), "a new folder");
    char *text = text_of(path);
    check_text(HERE, text, coatwright_write(session, COATWRIGHT_PLAN, COATWRIGHT_JSON));
    free(text);
    check_true(HERE, coatwright_save(session, COATWRIGHT_AREA, COATWRIGHT_TEXT, path), "another text");
    text = text_of(path);
    check_text(HERE, text, coatwright_write(session, COATWRIGHT_AREA, COATWRIGHT_TEXT));
    free(text);
    check_int(HERE, (intmax_t)coatwright_error_count(session), 0);
    check_true(HERE, !coatwright_save_all(session, path), "a file is no folder");
    check_int(HERE, coatwright_error(session, 0)->code, COATWRIGHT_FILE);
    check_true(HERE, !coatwright_save(session, COATWRIGHT_AREA, COATWRIGHT_TEXT, "no/such/folder/x"),
               "no folder");
    check_int(HERE, (intmax_t)coatwright_error_count(session), 2);
    coatwright_close(session);
}
int main(void)
{
    return CHECK_ALL(CHECK_ROWS(jobs, memory_may_end_anywhere),
                     CHECK_ROWS(jobs, memory_may_end_inside_the_search), CHECK_TEST(a_report_needs_its_job),
                     CHECK_TEST(one_job_a_session), CHECK_TEST(now_may_be_wrong),
                     CHECK_TEST(options_are_copied_and_may_lack), CHECK_TEST(outcome_is_told),
                     CHECK_TEST(errors_of_the_caller), CHECK_TEST(saved_is_what_is_written));
}
