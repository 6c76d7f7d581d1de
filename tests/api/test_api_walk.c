/* The library as a program sees it: a job from memory, walked; sessions asked wrongly, again, and ended on the way. */
#include "check.h"

#include "coatwright_server.h"
#include "coatwright_walk.h"

#include <stdio.h>
#include <string.h>

static const char job[] =
    "{\"format\": \"coatwright-job/1\", \"job\": \"Shelf\", \"units\": \"mm\", \"zone\": \"Europe/London\",\n"
    " \"start\": \"2027-03-01 08:00\", \"deliver\": \"2027-04-19\", \"shop\": \"shop.json\", \"finishes\": "
    "\"own\",\n"
    " \"schedules\": {\"oil\": [{\"sand\": 180}, {\"coat\": \"hardwax-oil-two-part\"}, {\"coat\": "
    "\"own-oil\"}]},\n"
    " \"parts\": \"lists/parts.csv\"}\n";
static const char shop[] = "{\"people\": 1}";
static const char parts[] = "part,piece,qty,shape,wood,length,width,thickness,all\n"
                            "board,shelf,4,board,oak,900,300,20,oil\n";

static struct coatwright *open_given(void)
{
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    options.now = "2027-02-01T08:00Z";
    options.given_only = true;
    struct coatwright *session = coatwright_open(&options);
    assert_non_null(session);
    return session;
}

/* The shop's own oil is a shipped one under another name. */
static void add_own_oil(struct coatwright *session)
{
    static char text[32768];
    FILE *file = fopen("finishes/danish-oil.json", "rb");
    assert_non_null(file);
    size_t length = fread(text, 1, sizeof text - 64, file);
    fclose(file);
    text[length] = '\0';
    char *id = strstr(text, "\"danish-oil\"");
    assert_non_null(id);
    memcpy(id, "\"own-oil\"   ", strlen("\"danish-oil\""));
    check_true(HERE, coatwright_add_text(session, "own/own-oil.json", text, length), "an oil of the shop's");
}

static void give_all(struct coatwright *session)
{
    add_own_oil(session);
    check_true(HERE, coatwright_add_text(session, "shop.json", shop, strlen(shop)), "a shop");
    check_true(HERE, coatwright_add_text(session, "./lists/parts.csv", parts, strlen(parts)), "a part list");
}

static const char *first_error(struct coatwright *session)
{
    static char line[1200];
    coatwright_error_line(coatwright_error(session, 0), line, sizeof line);
    return line;
}

/* One coat of oil and one of the shop's own, on each of two sides: four are applied, and what is walked adds up. */
static void a_job_from_memory_is_walked(void **state)
{
    (void)state;
    struct coatwright *session = open_given();
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    give_all(session);
    bool planned =
        coatwright_read_text(session, "shelf.json", job, strlen(job)) && coatwright_plan(session, &outcome);
    check_text(HERE, planned ? "" : first_error(session), "");
    check_true(HERE, outcome.planned && outcome.in_time && !outcome.ended, "in time");
    double litres = 0, needed = 0;
    size_t coats = 0;
    int64_t last = 0;
    for (size_t i = 0; i < coatwright_step_count(session); i++) {
        const struct coatwright_step *step = coatwright_step(session, i);
        check_true(HERE, step->start_min >= last && step->end_min > step->start_min, step->id);
        check_text(HERE, step->schedule, "oil");
        check_true(HERE, strchr(step->batch, '/') != NULL, step->batch);
        last = step->start_min;
        litres += step->volume_l;
        coats += strcmp(step->action, "apply") == 0;
    }
    check_int(HERE, (intmax_t)coats, 4);
    for (size_t i = 0; i < coatwright_need_count(session); i++)
        needed += coatwright_need(session, i)->need_l;
    check_double(HERE, needed, litres, 1e-9);
    check_int(HERE, (intmax_t)coatwright_need_count(session), 3);
    for (size_t i = 0; i < coatwright_card_count(session); i++) {
        const struct coatwright_card *card = coatwright_card(session, i);
        check_text(HERE, card->finish, "hardwax-oil-two-part");
        check_int(HERE, (intmax_t)card->pour_count, 2);
        double poured = card->pours[0].volume_l + card->pours[1].volume_l;
        check_double(HERE, poured, card->volume_l, 1e-9);
        check_true(HERE, card->apply_by_min > card->mixed_min, "a pot life");
    }
    check_true(HERE, coatwright_card_count(session) > 0 && coatwright_pack_count(session) > 0,
               "to mix, to buy");
    check_int(HERE, (intmax_t)coatwright_state_count(session), 7);
    check_int(HERE, coatwright_state(session, 6)->at_min > outcome.ready_min, 1);
    check_true(HERE, coatwright_caution_count(session) > 0 && coatwright_caution(session, 0)->text[0],
               "cautions");
    check_true(HERE, !coatwright_step(session, coatwright_step_count(session)), "none behind the last");
    coatwright_close(session);
}

static const struct coatwright_step *step_of(struct coatwright *session, const char *id)
{
    for (size_t i = 0; i < coatwright_step_count(session); i++)
        if (strcmp(coatwright_step(session, i)->id, id) == 0)
            return coatwright_step(session, i);
    return NULL;
}

/* A batch holds its steps in the order of work, from set-up to clean-up, and takes what they take. */
static double walk_batch(struct coatwright *session, const struct coatwright_batch *batch)
{
    double litres = 0;
    int64_t last = batch->work_from_min;
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct coatwright_step *step = step_of(session, batch->steps[i]);
        check_true(HERE, step != NULL && strcmp(step->batch, batch->id) == 0, batch->steps[i]);
        check_true(HERE, step && step->start_min >= last && step->end_min <= batch->work_until_min, step->id);
        check_true(HERE, step && step->lot == 1 && step->lots == 1, step->id);
        last = step ? step->end_min : last;
        litres += step ? step->volume_l : 0;
    }
    check_true(HERE, batch->start_min <= batch->work_from_min && last == batch->work_until_min, batch->id);
    check_true(HERE, batch->work_until_min <= batch->end_min, batch->id);
    check_true(HERE, batch->hands_on_min > 0 && batch->hands_on_min <= batch->end_min - batch->start_min,
               batch->id);
    check_double(HERE, batch->volume_l, litres, 1e-12);
    check_int(HERE, batch->tool[0] != '\0', strcmp(batch->action, "apply") == 0);
    check_int(HERE, batch->mix_count > 0, strcmp(batch->finish, "hardwax-oil-two-part") == 0);
    for (size_t i = 0; i < batch->mix_count; i++)
        check_true(HERE, batch->mixes[i].mixed_min >= batch->start_min && batch->mixes[i].minutes > 0,
                   batch->id);
    return litres;
}

/* Every step is in one batch; the first sands, with a set-up of five minutes before it. */
static void batches_are_walked(void **state)
{
    (void)state;
    struct coatwright *session = open_given();
    check_int(HERE, (intmax_t)coatwright_batch_count(session), 0);
    give_all(session);
    check_true(
        HERE, coatwright_read_text(session, "shelf.json", job, strlen(job)) && coatwright_plan(session, NULL),
        "planned");
    size_t steps = 0;
    double litres = 0, needed = 0;
    for (size_t i = 0; i < coatwright_batch_count(session); i++) {
        const struct coatwright_batch *batch = coatwright_batch(session, i);
        steps += batch->step_count;
        litres += walk_batch(session, batch);
        check_true(HERE, i == 0 || batch->start_min >= coatwright_batch(session, i - 1)->start_min,
                   batch->id);
    }
    for (size_t i = 0; i < coatwright_need_count(session); i++)
        needed += coatwright_need(session, i)->need_l;
    check_double(HERE, litres, needed, 1e-9);
    check_int(HERE, (intmax_t)steps, (intmax_t)coatwright_step_count(session));
    const struct coatwright_batch *first = coatwright_batch(session, 0);
    check_text(HERE, first->id, "sand/180/0/1");
    check_text(HERE, first->words, "sand 180");
    check_text(HERE, first->person, "person 1");
    check_text(HERE, first->helper, "");
    check_int(HERE, first->work_from_min - first->start_min, 5);
    check_true(HERE, !coatwright_batch(session, coatwright_batch_count(session)), "none behind the last");
    check_true(HERE, !coatwright_batch(NULL, 0) && coatwright_batch_count(NULL) == 0, "no session");
    coatwright_close(session);
}

/* What was not given is not looked for: there is a README.md in this folder. */
static void only_what_was_given_is_read(void **state)
{
    (void)state;
    static const char wanting[] =
        "{\"format\": \"coatwright-job/1\", \"job\": \"a\", \"zone\": \"UTC\", \"shop\": \"README.md\"}";
    struct coatwright *session = open_given();
    check_true(HERE, !coatwright_read_text(session, "job.json", wanting, strlen(wanting)), "refused");
    size_t i = 0;
    while (i < coatwright_error_count(session) && strcmp(coatwright_error(session, i)->id, "file:/shop") != 0)
        i++;
    check_true(HERE, i < coatwright_error_count(session), "the shop is no file");
    check_int(HERE, coatwright_error(session, i)->line, 1);
    coatwright_close(session);
}

static void errors_have_identifiers(void **state)
{
    (void)state;
    static const char wrong[] =
        "part,piece,qty,shape,wood,length,width,thickness,all\n"
        "a,shelf,1,board,oak,900,300,20,oil\nb,shelf,1,board,oak,900,300,20 foo,oil\n";
    struct coatwright *session = open_given();
    give_all(session);
    check_true(HERE, coatwright_add_text(session, "lists/parts.csv", wrong, strlen(wrong)), "another list");
    check_true(HERE, !coatwright_read_text(session, "shelf.json", job, strlen(job)), "refused");
    check_int(HERE, (intmax_t)coatwright_error_count(session), 1);
    check_text(HERE, coatwright_error(session, 0)->id, "input:/*/thickness");
    check_text(HERE, coatwright_error(session, 0)->file, "lists/parts.csv");
    check_int(HERE, coatwright_error(session, 0)->line, 3);
    check_true(HERE, !coatwright_error(session, 1) && !coatwright_warning(session, 0), "no more");
    coatwright_close(session);
}

static struct coatwright *read_example(const char *path, const struct coatwright_options *options)
{
    struct coatwright *session = coatwright_open(options);
    check_text(HERE, coatwright_read(session, path) ? "" : first_error(session), "");
    return session;
}

/* A plan of its own after one with others: the calendar holds this job alone. */
static void alone_after_together(void **state)
{
    (void)state;
    struct coatwright_outcome outcomes[2] = {COATWRIGHT_OUTCOME_INIT, COATWRIGHT_OUTCOME_INIT};
    struct coatwright *sessions[2] = {read_example("examples/doors.json", NULL),
                                      read_example("examples/doors.json", NULL)};
    struct coatwright *alone = read_example("examples/doors.json", NULL);
    check_true(HERE, coatwright_plan_together(sessions, 2, outcomes), "together");
    check_true(HERE, coatwright_chance(sessions[0], 2), "drawn");
    check_true(HERE, coatwright_plan(sessions[0], NULL) && coatwright_plan(alone, NULL), "alone");
    const char *after = coatwright_write(sessions[0], COATWRIGHT_TIMETABLE, COATWRIGHT_TEXT);
    const char *never = coatwright_write(alone, COATWRIGHT_TIMETABLE, COATWRIGHT_TEXT);
    check_text(HERE, after, never);
    after = coatwright_write(sessions[0], COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR);
    never = coatwright_write(alone, COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR);
    check_text(HERE, after, never);
    coatwright_close(alone);
    coatwright_close(sessions[1]);
    coatwright_close(sessions[0]);
}

static void one_session_twice(void **state)
{
    (void)state;
    struct coatwright *session = read_example("examples/doors.json", NULL);
    struct coatwright *sessions[2] = {session, session}, *lacking[2] = {session, NULL};
    struct coatwright_outcome outcomes[2] = {COATWRIGHT_OUTCOME_INIT, COATWRIGHT_OUTCOME_INIT};
    check_true(HERE, !coatwright_plan_together(sessions, 2, outcomes), "refused");
    check_text(HERE, first_error(session), "expected each session once, found one given twice");
    check_true(HERE, !coatwright_plan_together(lacking, 2, outcomes), "one is missing");
    check_int(HERE, (intmax_t)coatwright_error_count(session), 2);
    check_true(HERE,
               !coatwright_plan_together(NULL, 2, outcomes) && !coatwright_plan_together(sessions, 0, NULL),
               "none");
    coatwright_close(session);
}

static void no_room_for_a_line(void **state)
{
    (void)state;
    struct coatwright_error error = {.code = COATWRIGHT_FILE, .file = "a"},
                            nothing = {.code = (enum coatwright_code)99};
    char line[4] = "xyz";
    check_int(HERE, (intmax_t)coatwright_error_line(&error, line, 0), 0);
    check_text(HERE, line, "xyz");
    check_int(HERE, (intmax_t)coatwright_error_line(&error, NULL, 10), 0);
    check_int(HERE, (intmax_t)coatwright_error_line(NULL, line, sizeof line), 0);
    check_text(HERE, line, "");
    check_int(HERE, (intmax_t)coatwright_error_line(&error, line, 1), 0);
    check_int(HERE, (intmax_t)coatwright_error_line(&nothing, line, sizeof line), 3);
}

/* Every function with NULL for each pointer that it takes: nearly all add an error, up to twenty. */
static void nothing_is_no_crash(void **state)
{
    (void)state;
    struct coatwright_outcome no_size = {.size = 0};
    struct coatwright_options options = {.size = 0};
    struct coatwright_mix_want want = {.size = 0};
    check_true(HERE, !coatwright_open(&options), "options without their size");
    coatwright_close(NULL);
    for (int given = 0; given < 2; given++) {
        struct coatwright *s = given ? coatwright_open(NULL) : NULL;
        bool any = coatwright_read(s, NULL) || coatwright_read_text(s, NULL, NULL, 0) ||
                   coatwright_add_text(s, NULL, "", 0) || coatwright_add_text(s, "", NULL, 0) ||
                   coatwright_plan(s, NULL) || coatwright_plan(s, &no_size) || coatwright_chance(s, 0) ||
                   coatwright_take_off(s) || coatwright_mix(s, NULL, NULL) ||
                   coatwright_mix(s, &want, NULL) || coatwright_explain(s, NULL) ||
                   coatwright_explain_finish(s, NULL) ||
                   coatwright_save(s, COATWRIGHT_PLAN, COATWRIGHT_JSON, NULL) ||
                   coatwright_save_all(s, NULL) || coatwright_plan_together(&s, 1, &no_size) ||
                   coatwright_write(s, (enum coatwright_report)99, (enum coatwright_format)99) ||
                   coatwright_step(s, 0) || coatwright_state(s, 0) || coatwright_need(s, 0) ||
                   coatwright_pack(s, 0) || coatwright_card(s, 0) || coatwright_caution(s, 0) ||
                   coatwright_warning(s, 0) || coatwright_step_count(s) || coatwright_state_count(s) ||
                   coatwright_need_count(s) || coatwright_pack_count(s) || coatwright_card_count(s) ||
                   coatwright_caution_count(s) || coatwright_warning_count(s) || coatwright_error_more(s);
        check_true(HERE, !any, "nothing was done");
        struct coatwright_new_want no_list = {.size = 0};
        struct coatwright_publish_want no_url = {.size = 0};
        any = coatwright_new(s, NULL, NULL) || coatwright_new(s, &no_list, NULL) || coatwright_save_new(s) ||
              coatwright_publish(s, NULL, NULL) || coatwright_publish(s, &no_url, NULL);
        check_true(HERE, !any, "nor made nor published");
        coatwright_error_add(s, NULL);
        check_int(HERE, (intmax_t)coatwright_error_count(s), given ? 20 : 0);
        check_true(HERE, !coatwright_error(s, 99) && !coatwright_warning(s, SIZE_MAX), "no such error");
        const char *told = coatwright_write(s, COATWRIGHT_ERRORS, COATWRIGHT_JSON);
        check_true(HERE, !told == !given, "errors as JSON");
        check_true(HERE, coatwright_finishes(s, NULL, NULL) == (given == 1), "all finishes");
        coatwright_close(s);
    }
    check_int(HERE, coatwright_version_number(), COATWRIGHT_VERSION_NUMBER);
}

/* A caller that was compiled when the struct was shorter. */
static void shorter_structs(void **state)
{
    (void)state;
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    options.size = offsetof(struct coatwright_options, effort);
    options.effort = -7;
    outcome.size = offsetof(struct coatwright_outcome, ready_min);
    outcome.ready_min = 42;
    struct coatwright *session = read_example("examples/doors.json", &options);
    check_true(HERE, coatwright_plan(session, &outcome) && outcome.planned, "planned");
    check_int(HERE, outcome.ready_min, 42);
    coatwright_close(session);
}

struct ending {
    struct coatwright *session;
    int asked, end_at;
    bool misused;
    double most;
};

static bool ask(void *caller, const struct coatwright_progress *progress)
{
    struct ending *ending = caller;
    ending->asked++;
    ending->misused |= coatwright_plan(ending->session, NULL);
    ending->most = progress->done > ending->most ? progress->done : ending->most;
    return ending->asked != ending->end_at;
}

static void a_search_is_ended(void **state)
{
    (void)state;
    struct ending ending = {.end_at = 3};
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    options.progress = ask;
    options.caller = &ending;
    ending.session = read_example("examples/kitchen.json", &options);
    check_true(HERE, coatwright_plan(ending.session, &outcome), "planned");
    check_int(HERE, ending.asked, 3);
    check_true(HERE, outcome.planned && outcome.ended, "the best so far");
    check_true(HERE, !ending.misused && coatwright_error_count(ending.session) > 0, "not from inside");
    const char *text = coatwright_write(ending.session, COATWRIGHT_TIMETABLE, COATWRIGHT_TEXT);
    check_true(HERE, text && strstr(text, "ended early"), "said as such");
    text = coatwright_write(ending.session, COATWRIGHT_TIMETABLE, COATWRIGHT_JSON);
    check_true(HERE, text && strstr(text, "\"ended_early\": true"), "in JSON too");
    check_true(HERE, ending.most >= 0 && ending.most <= 1, "a share");
    coatwright_close(ending.session);
}

struct stages {
    int asked[2];
    int end_at; /* the question about what would help at which it ends; 0: never */
};

static bool ask_by_stage(void *caller, const struct coatwright_progress *progress)
{
    struct stages *stages = caller;
    stages->asked[progress->stage]++;
    return progress->stage == COATWRIGHT_SEARCHING || stages->asked[progress->stage] != stages->end_at;
}

/* A late shelf, and how many things would help it. */
static size_t helped(struct stages *stages, bool *ended)
{
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    char late[sizeof job];
    size_t lines = 0;
    options.now = "2027-02-01T08:00Z";
    options.given_only = options.advice = true;
    options.progress = ask_by_stage;
    options.caller = stages;
    memcpy(late, job, sizeof job);
    memcpy(strstr(late, "2027-04-19"), "2027-03-03", strlen("2027-03-03"));
    struct coatwright *session = coatwright_open(&options);
    give_all(session);
    check_true(HERE, coatwright_read_text(session, "shelf.json", late, strlen(late)), "read");
    check_true(HERE, coatwright_plan(session, &outcome) && outcome.planned && !outcome.in_time, "late");
    const char *at = coatwright_write(session, COATWRIGHT_TIMETABLE, COATWRIGHT_JSON);
    for (at = strstr(at, "\"why\""); at; at = strchr(at + 1, '`'))
        lines++;
    *ended = outcome.ended;
    coatwright_close(session);
    return lines;
}

/* Asked for what would help, too; ended there, the plan stands and fewer things are told. */
static void advice_is_ended(void **state)
{
    (void)state;
    struct stages all = {.end_at = 0}, few = {.end_at = 3};
    bool ended;
    size_t told = helped(&all, &ended);
    check_true(HERE, all.asked[COATWRIGHT_ADVISING] > 3 && !ended, "asked for each alternative");
    check_true(HERE, helped(&few, &ended) < told && ended, "ended at the third");
    check_int(HERE, few.asked[COATWRIGHT_ADVISING], 3);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(a_job_from_memory_is_walked), CHECK_TEST(batches_are_walked),
                     CHECK_TEST(only_what_was_given_is_read), CHECK_TEST(errors_have_identifiers),
                     CHECK_TEST(alone_after_together), CHECK_TEST(one_session_twice),
                     CHECK_TEST(no_room_for_a_line), CHECK_TEST(nothing_is_no_crash),
                     CHECK_TEST(shorter_structs), CHECK_TEST(a_search_is_ended), CHECK_TEST(advice_is_ended));
}
