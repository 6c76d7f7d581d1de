/* What the log says was done, taken out of the work: each moment is worked by hand. The shop is open
 * 08:00-17:00 daily, the oil dries by reaction at its reference air unless a test says otherwise, now is
 * Wednesday 3 March 2027 12:00. */
#include "check.h"
#include "logged.h"

#include "timetable/facts.h"

enum { H = 60 };

static void without_a_log_all_is_left(void **state)
{
    (void)state;
    struct logged *logged = logged_rows();
    check_true(HERE, logged_settle(logged) == &logged->work.operations, "the same");
    logged_free(logged);
}

/* The second coat of A is recorded: what came before it in its row is passed over, what follows and the other
 * row are left. */
static void what_is_behind_a_fact_is_passed_over(void **state)
{
    (void)state;
    struct logged *logged = logged_rows();
    logged_done(logged, "a/oil/2/apply", march(1, 10, 0), march(1, 11, 0));
    const struct operations *left = logged_settle(logged);
    check_int(HERE, (intmax_t)left->count, 2);
    check_text(HERE, left->items[0].id, "a/oil/2/polish");
    check_text(HERE, left->items[1].id, "b/oil-b/1/apply");
    check_int(HERE, (intmax_t)left->fact_count, 4);
    for (int i = 0; i < 4; i++) {
        check_text(HERE, left->facts[i].operation.id, logged->work.items[i].id);
        check_true(HERE, (left->facts[i].entry != NULL) == (i == 3), "only one is recorded");
        check_int(HERE, left->facts[i].ready_min, INT64_MIN);
    }
    check_true(HERE, left->facts[3].entry == &logged->entries[0], "by that entry");
    check_int(HERE, left->facts[3].began_min, march(1, 10, 0));
    check_int(HERE, left->facts[3].done_min, march(1, 11, 0));
    check_int(HERE, (intmax_t)left->stray_count, 0);
    check_true(HERE, left->job == &logged->work.panel.job && left->surfaces == &logged->work.panel.surfaces,
               "of the same job");
    logged_free(logged);
}

/* Piece B is recorded: it does not pass over the row of A that stands before it. A coat without a beginning
 * began as long before its end as it takes. */
static void another_row_is_left(void **state)
{
    (void)state;
    struct logged *logged = logged_rows();
    logged_done(logged, "b/oil-b/1/apply", INT64_MIN, march(1, 11, 0));
    const struct operations *left = logged_settle(logged);
    check_int(HERE, (intmax_t)left->count, 5);
    check_int(HERE, (intmax_t)left->fact_count, 1);
    check_int(HERE, left->facts[0].began_min, march(1, 10, 0));
    logged_free(logged);
}

/* The first entry that says so counts; one of the future, of no such step, or taken back does not, and the
 * first two are told. */
static void entries_that_count(void **state)
{
    (void)state;
    struct logged *logged = logged_rows();
    static const struct log_entry asked = {.number = 99};
    const struct log_entry *strays[] = {&asked};
    logged->work.operations.strays = strays;
    logged->work.operations.stray_count = 1;
    logged_done(logged, "a/oil/0/sand-180", march(1, 8, 0), march(1, 8, 30));
    logged_done(logged, "a/oil/0/sand-180", march(1, 9, 0), march(1, 9, 30));
    logged_done(logged, "a/oil/7/apply", march(1, 9, 0), march(1, 9, 30));
    logged_done(logged, "b/oil-b/1/apply", march(3, 11, 0), march(3, 12, 1));
    logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 9, 30));
    logged_done(logged, "", 0, 0)->kind = LOG_UNDO;
    logged->entries[5].undone = 5;
    const struct operations *left = logged_settle(logged);
    check_int(HERE, (intmax_t)left->fact_count, 1);
    check_true(HERE, left->facts[0].entry == &logged->entries[0], "the first");
    check_int(HERE, (intmax_t)left->stray_count, 3);
    check_true(HERE, left->strays[0] == &asked, "asked of work that is none");
    check_true(HERE, left->strays[1] == &logged->entries[2], "no such step");
    check_true(HERE, left->strays[2] == &logged->entries[3], "not yet");
    logged->entries[3].done_min = march(3, 12, 0);
    check_int(HERE, (intmax_t)logged_settle(logged)->fact_count, 2);
    logged_free(logged);
}

/* Entries that are no work done change nothing. */
static void only_what_was_done_is_a_fact(void **state)
{
    (void)state;
    struct logged *logged = logged_rows();
    logged_done(logged, "a/oil/0/sand-180", march(1, 8, 0), march(1, 8, 30))->kind = LOG_SKIP;
    const struct operations *left = logged_settle(logged);
    check_int(HERE, (intmax_t)left->count, 6);
    check_int(HERE, (intmax_t)left->fact_count, 0);
    check_int(HERE, (intmax_t)left->stray_count, 0);
    logged_free(logged);
}

/* "a/..." says it of all its lots, "a.2/..." of the second, and of parts 3 and 4 only the lot that has no
 * others. */
static void lots_are_done_apart(void **state)
{
    (void)state;
    static const struct {
        const char *step;
        int first, parts;
        int want; /* facts */
        const char *id;
    } rows[] = {{"a/oil/1/apply", 0, 0, 3, "a.1/oil/1/apply"},
                {"a.2/oil/1/apply", 0, 0, 1, "a.2/oil/1/apply"},
                {"a/oil/1/apply", 3, 2, 1, "a.2/oil/1/apply"},
                {"a/oil/1/apply", 1, 4, 2, "a.1/oil/1/apply"}};
    static const char *const ids[] = {"a.1/oil/1/apply", "a.2/oil/1/apply", "a.3/oil/1/apply"};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct logged *logged = logged_make();
        for (int lot = 1; lot <= 3; lot++) {
            struct operation *operation =
                &logged->work.items[logged_add(logged, ids[lot - 1], 0, DO_APPLY, 60)];
            operation->lot = operation->chain = lot;
            operation->lots = 3;
            operation->pass.lot = (struct part_run){(size_t)lot * 2 - 2, (size_t)lot * 2};
        }
        struct log_entry *entry = logged_done(logged, rows[i].step, march(1, 9, 0), march(1, 10, 0));
        entry->first = rows[i].first;
        entry->parts = rows[i].parts;
        const struct operations *left = logged_settle(logged);
        check_int(HERE, (intmax_t)left->fact_count, rows[i].want);
        check_text(HERE, left->facts[0].operation.id, rows[i].id);
        check_int(HERE, (intmax_t)left->stray_count, 0);
        logged_free(logged);
    }
}

/* The first coat, 09:02-10:00, may be coated again after 3 h and until 5 h: what each link to the second asks
 * of it. */
static void what_a_fact_asks_of_the_next(void **state)
{
    (void)state;
    static const struct {
        struct link link;
        int day, hour, minute; /* when it may begin; day 0: nothing is asked */
        int last;              /* the hour by which it must begin; 0: any */
    } rows[] = {{{.kind = LINK_END, .span_min = 25}, 1, 10, 25, 0},
                {{.kind = LINK_STATE, .state = STATE_RECOAT}, 1, 13, 0, 0},
                {{.kind = LINK_DAY}, 2, 0, 0, 0},
                {{.kind = LINK_WINDOW}, 0, 0, 0, 15},
                {{.kind = LINK_POLISH, .span_min = 120}, 0, 0, 0, 12}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct logged *logged = logged_make();
        panel_set_window(&logged->work.panel, 180, 300);
        logged_add(logged, "b/oil-b/1/apply", 1, DO_APPLY, 60);
        logged_add(logged, "a/oil/1/apply", 0, DO_APPLY, 60);
        logged_add(logged, "a/oil/2/apply", 0, DO_APPLY, 60);
        struct link *link = hand_link(&logged->work, 1, 2, rows[i].link.kind, rows[i].link.span_min);
        link->state = rows[i].link.state;
        logged_done(logged, "a/oil/1/apply", march(1, 9, 2), march(1, 10, 0));
        const struct operations *left = logged_settle(logged);
        const struct operation *next = &left->items[1];
        bool waits = rows[i].day > 0;
        int64_t from_min = waits ? march(rows[i].day, rows[i].hour, rows[i].minute) : INT64_MIN;
        check_int(HERE, next->release_min, from_min);
        check_int(HERE, next->latest_min, rows[i].last > 0 ? march(1, rows[i].last, 0) : INT64_MAX);
        check_int(HERE, next->latest_unless, -1);
        check_int(HERE, (intmax_t)left->wait_count, waits);
        if (waits) {
            check_int(HERE, (intmax_t)left->waits[0].fact, 0);
            check_int(HERE, left->waits[0].to, 1);
            check_int(HERE, left->waits[0].until_min, from_min);
            check_int(HERE, left->waits[0].link.kind, rows[i].link.kind);
        }
        check_int(HERE, left->facts[0].window_min,
                  rows[i].link.kind == LINK_WINDOW ? march(1, 15, 0) : INT64_MAX);
        check_int(HERE, (intmax_t)left->link_count, 0);
        logged_free(logged);
    }
}

/* Two facts: it waits for the later, and is limited by the tighter, whichever comes first. */
static void of_two_the_tighter(void **state)
{
    (void)state;
    for (int turned = 0; turned < 2; turned++) {
        struct logged *logged = logged_make();
        logged_add(logged, "a/oil/1/apply", 0, DO_APPLY, 60);
        logged_add(logged, "b/oil-b/1/apply", 1, DO_APPLY, 60);
        logged->work.items[1].chain = 1;
        logged_add(logged, "task/hinges", -1, DO_TASK, 60);
        for (int i = 0; i < 2; i++) {
            hand_link(&logged->work, turned ? 1 - i : i, 2, LINK_END, 10);
            hand_link(&logged->work, turned ? 1 - i : i, 2, LINK_POLISH, 100);
        }
        logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0));
        logged_done(logged, "b/oil-b/1/apply", march(1, 10, 0), march(1, 11, 0));
        const struct operations *left = logged_settle(logged);
        check_int(HERE, left->items[0].release_min, march(1, 11, 10));
        check_int(HERE, left->items[0].latest_min, march(1, 11, 40));
        check_int(HERE, (intmax_t)left->wait_count, 2);
        logged_free(logged);
    }
}

/* The first coat's window of 5 h ends at 15:00 unless the late scuff is done, which is left; where it was
 * done the window is lifted. */
static void a_late_scuff_lifts_the_window(void **state)
{
    (void)state;
    for (int scuffed = 0; scuffed < 2; scuffed++) {
        struct logged *logged = logged_make();
        panel_set_window(&logged->work.panel, 180, 300);
        logged_add(logged, "a/oil/1/apply", 0, DO_APPLY, 60);
        logged->work.items[logged_add(logged, "a/oil/1/scuff-320", 0, DO_SCUFF, 30)].late_scuff = true;
        logged_add(logged, "a/oil/2/apply", 0, DO_APPLY, 60);
        hand_link(&logged->work, 0, 2, LINK_WINDOW, 0)->unless = 1;
        logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0));
        if (scuffed)
            logged_done(logged, "a/oil/1/scuff-320", march(2, 9, 0), march(2, 10, 0));
        const struct operations *left = logged_settle(logged);
        const struct operation *coat = &left->items[left->count - 1];
        check_int(HERE, coat->latest_min, scuffed ? INT64_MAX : march(1, 15, 0));
        check_int(HERE, coat->latest_unless, scuffed ? -1 : 0);
        check_int(HERE, left->facts[0].window_min, scuffed ? INT64_MAX : march(1, 15, 0));
        logged_free(logged);
    }
}

/* A window that never ends binds nothing. */
static void an_endless_window(void **state)
{
    (void)state;
    struct logged *logged = logged_rows();
    hand_link(&logged->work, 1, 3, LINK_WINDOW, 0);
    logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0));
    const struct operations *left = logged_settle(logged);
    check_int(HERE, left->items[1].latest_min, INT64_MAX);
    logged_free(logged);
}

/* Between what is left links keep their ends, by new numbers; the scuff that lifts a window is told by its
 * new number too. */
static void links_of_what_is_left(void **state)
{
    (void)state;
    struct logged *logged = logged_rows();
    hand_link(&logged->work, 0, 1, LINK_END, 0);
    hand_link(&logged->work, 0, 3, LINK_END, 0); /* asks nothing: nobody recorded the sanding */
    hand_link(&logged->work, 2, 3, LINK_END, 7);
    hand_link(&logged->work, 3, 4, LINK_WINDOW, 0)->unless = 2;
    hand_link(&logged->work, 4, 5, LINK_WINDOW, 0)->unless = 0;
    logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0));
    const struct operations *left = logged_settle(logged);
    check_int(HERE, (intmax_t)left->link_count, 3);
    check_int(HERE, left->links[0].from, 0);
    check_int(HERE, left->links[0].to, 1);
    check_int(HERE, left->links[0].span_min, 7);
    check_int(HERE, left->links[0].unless, -1);
    check_int(HERE, left->links[1].from, 1);
    check_int(HERE, left->links[1].to, 2);
    check_int(HERE, left->links[1].unless, 0);
    check_int(HERE, left->links[2].unless, -1);
    check_int(HERE, (intmax_t)left->wait_count, 0);
    check_int(HERE, left->items[1].release_min, INT64_MIN);
    logged_free(logged);
}

/* The coat of A, done at 10:00, is dry to handle after 4 h and must rest for 6: the job waits for it until
 * 16:00. */
static void lines_of_facts(void **state)
{
    (void)state;
    struct logged *logged = logged_rows();
    panel_set_state(&logged->work.panel, STATE_HANDLE, 240);
    struct finish_line *lines = logged->work.lines;
    lines[0] = (struct finish_line){.operation = 1, .span_min = 360};
    lines[1] = (struct finish_line){.operation = 5, .span_min = 45};
    lines[2] = (struct finish_line){.operation = 1, .is_state = true, .state = STATE_HANDLE};
    lines[3] = (struct finish_line){.operation = 0, .span_min = 9999};
    lines[4] = (struct finish_line){.operation = 2};
    logged->work.operations.line_count = 5;
    logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0));
    const struct operations *left = logged_settle(logged);
    check_int(HERE, (intmax_t)left->line_count, 2);
    check_int(HERE, left->lines[0].operation, 3);
    check_int(HERE, left->lines[0].span_min, 45);
    check_int(HERE, left->lines[1].operation, 0);
    check_int(HERE, left->facts[1].ready_min, march(1, 16, 0));
    check_int(HERE, left->facts[0].ready_min, INT64_MIN);
    lines[0].span_min = 0;
    check_int(HERE, logged_settle(logged)->facts[1].ready_min, march(1, 14, 0));
    logged_free(logged);
}

/* Begun on Sunday and done at 23:00, before the job's start; too cold between midnight and 06:00: 2 h are
 * over at 07:00. A film that is done at 09:02 is there on five minutes of the clock. */
static void films_dry_in_the_air_as_it_was(void **state)
{
    (void)state;
    static const struct air_spell cold[] = {{0, {3, 0.5}}, {6 * H, {23, 0.5}}};
    struct logged *logged = logged_rows();
    logged->work.panel.job.shop.air.daily = (struct air_day){.spells = cold, .spell_count = 2};
    panel_set_state(&logged->work.panel, STATE_HANDLE, 120);
    logged_done(logged, "a/oil/1/apply", march(0, 22, 0), march(0, 23, 0));
    logged_done(logged, "b/oil-b/1/apply", march(1, 8, 2), march(1, 9, 2));
    const struct operations *left = logged_settle(logged);
    check_int(HERE, left->facts[1].state_min[STATE_HANDLE], march(1, 7, 0));
    check_int(HERE, left->facts[1].state_min[STATE_DUST_FREE], march(0, 23, 0));
    check_int(HERE, left->facts[2].state_min[STATE_HANDLE], march(1, 11, 5));
    check_int(HERE, left->facts[0].state_min[STATE_HANDLE], 0); /* no film */
    logged_free(logged);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(without_a_log_all_is_left), CHECK_TEST(what_is_behind_a_fact_is_passed_over),
                     CHECK_TEST(another_row_is_left), CHECK_TEST(entries_that_count),
                     CHECK_TEST(only_what_was_done_is_a_fact), CHECK_TEST(lots_are_done_apart),
                     CHECK_TEST(what_a_fact_asks_of_the_next), CHECK_TEST(of_two_the_tighter),
                     CHECK_TEST(a_late_scuff_lifts_the_window), CHECK_TEST(an_endless_window),
                     CHECK_TEST(links_of_what_is_left), CHECK_TEST(lines_of_facts),
                     CHECK_TEST(films_dry_in_the_air_as_it_was));
}
