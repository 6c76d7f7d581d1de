#include "app/run.h"

#include "base/day.h"
#include "base/moment.h"
#include "base/number.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { ANSWER_SIZE = 400, WEEKS_USUAL = 4, QUESTIONS_MOST = 16, TRIES = 3, PEOPLE_MOST = 100 };

static const char usual_outside[] = "hardwax-oil";

/* Answers, each either an option or typed. */
struct asking {
    struct run *run;
    bool asks; /* there is somebody to ask */
    char answers[QUESTIONS_MOST][ANSWER_SIZE];
    int count;
};

/* The zone of this machine, as far as it says one. */
static const char *zone_here(char *name, size_t size)
{
    static const char folder[] = "zoneinfo/";
    const char *given = getenv("TZ");
    if (given && *given)
        return given + (*given == ':');
    ssize_t length = readlink("/etc/localtime", name, size - 1);
    if (length > 0) {
        name[length] = '\0';
        const char *at = strstr(name, folder);
        return at ? at + sizeof folder - 1 : "UTC";
    }
    return "UTC";
}

/* Today, or the day of --now; and that day some weeks later. */
static int64_t today(const struct run *run)
{
    const char *now = option_value(&run->options, "now");
    struct date date;
    char day[11] = "";
    if (now)
        snprintf(day, sizeof day, "%.10s", now);
    return date_parse(day, &date, NULL) ? date_days(date) : (int64_t)time(NULL) / 60 / DAY_MINUTES;
}

/* The option, else what is typed (Enter: the usual answer), else the usual answer. The text lives as long as `asking`. */
static const char *ask(struct asking *asking, const char *option, const char *question, const char *usual)
{
    const char *given = option ? option_value(&asking->run->options, option) : NULL;
    char *answer = asking->answers[asking->count++];
    if (given)
        return given;
    snprintf(answer, ANSWER_SIZE, "%s", usual ? usual : "");
    if (asking->asks) {
        char typed[ANSWER_SIZE];
        printf("%s%s%s%s: ", question, usual && *usual ? " [" : "", usual ? usual : "",
               usual && *usual ? "]" : "");
        fflush(stdout);
        if (fgets(typed, sizeof typed, stdin)) {
            typed[strcspn(typed, "\r\n")] = '\0';
            if (typed[0])
                snprintf(answer, ANSWER_SIZE, "%s", typed);
        } else {
            asking->asks = false;
        }
    }
    return *answer ? answer : NULL;
}

/* A finish of the table, asked for again where it is none; "-" for none where none may be. */
static const char *ask_finish(struct asking *asking, const char *option, const char *question,
                              const char *usual)
{
    for (int i = 0; i < TRIES; i++) {
        struct run look;
        bool asked = asking->asks && !option_value(&asking->run->options, option);
        const char *id = ask(asking, option, question, usual);
        if (!id || strcmp(id, "-") == 0)
            return NULL;
        if (!asked)
            return id;
        run_open(&look, &asking->run->options);
        bool known = coatwright_finishes(look.session, id, NULL);
        if (!known)
            run_failed(&look);
        coatwright_close(look.session);
        if (known)
            return id;
        asking->count--;
    }
    return usual;
}

/* How the list was understood, before anything is asked about it. */
static bool show_list(struct run *run, struct coatwright_new_want *want, struct coatwright_new_job *made)
{
    bool good = coatwright_new(run->session, want, made);
    const char *text = good ? coatwright_write(run->session, COATWRIGHT_CHECK, COATWRIGHT_TEXT) : NULL;
    if (text)
        fputs(text, stdout);
    return text != NULL;
}

/* What only the maker knows. */
static void ask_rest(struct asking *asking, const struct coatwright_new_job *made,
                     struct coatwright_new_want *want)
{
    char people[16];
    if (made->units_meant && !want->units)
        want->units = ask(asking, "units-of-list", "Numbers without a unit are in (mm, cm, m, in, ft)",
                          made->units_meant);
    want->deliver = ask(asking, "deliver", "Delivery (year-month-day)", want->deliver);
    want->outside = ask_finish(asking, "outside", "Finish (coatwright finishes lists them)", usual_outside);
    want->inside = ask_finish(asking, "inside", "Another finish inside", "-");
    want->flat = ask(asking, "flat", "Pieces that lie flat", made->flat && *made->flat ? made->flat : "-");
    if (want->inside)
        want->inner = ask(asking, "inner", "Pieces that get the finish of the inside",
                          made->inner && *made->inner ? made->inner : "-");
    snprintf(people, sizeof people, "%d", 1);
    int64_t count = 1;
    for (int i = 0; i < TRIES; i++) {
        const char *answer = ask(asking, "people", "People", people);
        if (!answer || count_parse(answer, PEOPLE_MOST, &count, NULL))
            break;
        asking->count--;
    }
    want->people = (int)count;
    want->hours = ask(asking, "hours", "Hours, Monday to Friday", "08:00-12:00 13:00-17:00");
}

/* "-" is nothing. */
static void clear(const char **text)
{
    if (*text && strcmp(*text, "-") == 0)
        *text = "";
}

static int finish_job(struct run *run, struct coatwright_new_want *want)
{
    struct coatwright_new_job made = COATWRIGHT_NEW_JOB_INIT;
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    clear(&want->flat);
    clear(&want->inner);
    if (!coatwright_new(run->session, want, &made) || !coatwright_save_new(run->session))
        return run_failed(run);
    progress_begin(&run->progress);
    bool planned = coatwright_plan(run->session, &outcome);
    progress_end(&run->progress);
    if (!planned)
        return run_failed(run);
    int status =
        run_report(run, COATWRIGHT_PLAN, outcome.in_time && outcome.mixes_sound ? EXIT_DONE : EXIT_MISSED);
    if (!run->options.json)
        printf("\nWritten\n  %s, %s, %s%s%s\n\nNext\n  look over the areas: coatwright area %s\n"
               "  put what you pay into %s, your hours and air into %s\n  then: coatwright plan %s\n",
               run_shown(made.job_file).text, run_shown(made.shop_file).text,
               run_shown(made.prices_file).text, made.parts_file ? ", " : "",
               run_shown(made.parts_file ? made.parts_file : "").text, run_shown(made.job_file).text,
               run_shown(made.prices_file).text, run_shown(made.shop_file).text,
               run_shown(made.job_file).text);
    return status;
}

static int new (struct run *run)
{
    struct asking asking = {.run = run};
    struct run look;
    char zone[256];
    struct text_short start = date_format(date_of(today(run)));
    struct text_short deliver = date_format(date_of(today(run) + 7 * WEEKS_USUAL));
    struct coatwright_new_want want = COATWRIGHT_NEW_WANT_INIT;
    struct coatwright_new_job made = COATWRIGHT_NEW_JOB_INIT;
    const struct options *options = &run->options;
    asking.asks = !option_value(options, "yes") && !options->json && isatty(STDIN_FILENO);
    want.list = options->operand_count ? options->operands[0] : NULL;
    if (!want.list) {
        want.kind = ask(&asking, "kind", "Kind of piece (table, cabinet, doors, shelf, chair, box)", "table");
        want.sizes = ask(&asking, "size", "Length x width x height", "1800 x 900 x 750");
        want.wood = ask(&asking, "wood", "Wood", "oak");
    }
    want.start = option_value(options, "start") ? option_value(options, "start") : start.text;
    want.deliver = option_value(options, "deliver") ? option_value(options, "deliver") : deliver.text;
    want.outside = option_value(options, "outside") ? option_value(options, "outside") : usual_outside;
    want.inside = option_value(options, "inside");
    want.zone = option_value(options, "zone") ? option_value(options, "zone") : zone_here(zone, sizeof zone);
    want.units = option_value(options, "units-of-list");
    want.name = option_value(options, "name");
    want.currency = option_value(options, "currency");
    run_open(&look, options);
    bool shown = options->json || show_list(&look, &want, &made);
    int failed = shown ? EXIT_DONE : run_failed(&look);
    if (shown)
        ask_rest(&asking, &made, &want);
    coatwright_close(look.session);
    return shown ? finish_job(run, &want) : failed;
}

static bool people_reads(const char *value, struct err *misuse)
{
    int64_t count;
    if (count_parse(value, PEOPLE_MOST, &count, NULL))
        return true;
    err_fill(misuse, ERR_USAGE, "a number of people from 1 to 100 after --people", value);
    return false;
}

const struct command command_new = {
    .name = "new",
    .operands = "[LIST]",
    .does = "a job from a part list, or a folder with one: asks for what the list does not say",
    .most = 1,
    .more =
        "It writes the job, its shop and a price list beside LIST, and nothing over a file that is there.",
    .options = {{"deliver", "DAY", "when the customer gets it; four weeks from now", NULL},
                {"outside", "FINISH", "the finish of what is seen; hardwax-oil", NULL},
                {"inside", "FINISH", "the finish of insides; as outside", NULL},
                {"flat", "PIECES", "what lies flat, commas between; what has a large face and back", NULL},
                {"inner", "PIECES", "what gets the finish of the inside; shelves and drawers", NULL},
                {"people", "NUMBER", "who work at it; 1", people_reads},
                {"hours", "HOURS", "Monday to Friday; 08:00-12:00 13:00-17:00", NULL},
                {"zone", "ZONE", "the shop's time zone; this machine's", NULL},
                {"start", "DAY", "when work may begin; today", NULL},
                {"units-of-list", "UNIT", "of numbers without one; as the list looks", NULL},
                {"name", "NAME", "the job's name; the list's", NULL},
                {"currency", "CODE", "of the prices; none", NULL},
                {"kind", "KIND", "without LIST: table, cabinet, doors, shelf, chair or box", NULL},
                {"size", "SIZES", "of it, length x width x height", NULL},
                {"wood", "WOOD", "of it; oak", NULL},
                {"yes", NULL, "ask nothing", NULL}},
    .run = new,
};
