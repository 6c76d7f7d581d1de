/* From a schedule to its steps, what each waits for, and what must be over before the job is ready. */
#include "steps_words.h"

/* A coat waits until the one beneath may be recoated, what abrades until it may be sanded. */
static void a_schedule_in_its_order(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(&panel, 0, STEP_RUB)->words = "wax";
    check_steps(HERE, &panel,
                "a/oil/0/sand-180\n"
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/2/rub: sand of a/oil/2/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/rub\n");
}

/* The step between goes before further coats of one step. A coat on the piece waits until the dust that
 * was raised on it last has settled, but not where dust has a room of its own. */
static void dust_settles_before_a_coat(void **state)
{
    (void)state;
    struct panel panel;
    static const struct step between = {.kind = STEP_SCUFF, .grit = 320, .wait_min = -1};
    panel_init(&panel);
    panel.job.shop.settle_min = 30;
    struct step *coat = panel_add_step(&panel, 0, STEP_COAT);
    coat->coats = 3;
    coat->between = &between;
    panel_add_step(&panel, 0, STEP_SAND)->grit = 240;
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, settled 30 min after a/oil/1/scuff-320\n"
                "a/oil/2/scuff-320: sand of a/oil/2/apply\n"
                "a/oil/3/apply: recoat of a/oil/2/apply, settled 30 min after a/oil/2/scuff-320\n"
                "a/oil/3/sand-240: sand of a/oil/3/apply\n"
                "a/oil/4/apply: recoat of a/oil/3/apply, settled 30 min after a/oil/3/sand-240\n"
                "a/oil/5/apply: recoat of a/oil/4/apply, settled 30 min after a/oil/3/sand-240\n"
                "ready: handle of a/oil/5/apply\n"
                "ready: 0 min after a/oil/5/apply\n");
    panel.job.shop.dust_separate = true;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/2/scuff-320: sand of a/oil/2/apply\n"
                "a/oil/3/apply: recoat of a/oil/2/apply\n"
                "a/oil/3/sand-240: sand of a/oil/3/apply\n"
                "a/oil/4/apply: recoat of a/oil/3/apply\n"
                "a/oil/5/apply: recoat of a/oil/4/apply\n"
                "ready: handle of a/oil/5/apply\n"
                "ready: 0 min after a/oil/5/apply\n");
}

/* Grain that was raised dries 120 min, and the schedule waits for 30 more. What it waits for behind the
 * last step must be over before the job is ready: here 45 min, there that the last coat is cured. */
static void waits_add_up(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    struct step *raise = panel_add_step(&panel, 0, STEP_RAISE);
    raise->dry_min = 120;
    panel_add_step(&panel, 0, STEP_WAIT)->wait_min = 30;
    panel_add_step(&panel, 0, STEP_COAT);
    struct step *wait = panel_add_step(&panel, 0, STEP_WAIT);
    wait->wait_state = STATE_CURED;
    panel_add_step(&panel, 0, STEP_RUB)->words = "wax";
    panel_add_step(&panel, 0, STEP_WAIT)->wait_min = 45;
    check_steps(HERE, &panel,
                "a/oil/0/raise\n"
                "a/oil/1/apply: 150 min after a/oil/0/raise\n"
                "a/oil/1/rub: sand of a/oil/1/apply, cured of a/oil/1/apply\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 45 min after a/oil/1/rub\n");
    panel.schedules[0].step_count = 4;
    check_steps(HERE, &panel,
                "a/oil/0/raise\n"
                "a/oil/1/apply: 150 min after a/oil/0/raise\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: cured of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/apply\n");
}

/* Where the window may be missed a late scuff lifts it, with the grit of the finish, or 320; it may be
 * left out, so that the coat follows what was before it too. A finish that refuses late coats is not
 * scuffed for. Sanding between lifts the window of any other. */
static void windows_and_what_lifts_them(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel.job.shop.settle_min = 30;
    panel_set_window(&panel, 60, 600);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, 0 min after a/oil/1/apply, settled 30 min after "
                "a/oil/1/scuff-320, in the window of a/oil/1/apply unless a/oil/1/scuff-320\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel.finish.between_grit = 240;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-240: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, 0 min after a/oil/1/apply, settled 30 min after "
                "a/oil/1/scuff-240, in the window of a/oil/1/apply unless a/oil/1/scuff-240\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel.finish.refuses_late_recoat = true;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, in the window of a/oil/1/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    static const struct step between = {.kind = STEP_SAND, .grit = 320, .wait_min = -1};
    panel.steps[0][0].between = &between;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/sand-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, settled 30 min after a/oil/1/sand-320, in the "
                "window of a/oil/1/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel.finish.refuses_late_recoat = false;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/sand-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, settled 30 min after a/oil/1/sand-320\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
}

/* What neither sands nor scuffs the film leaves its window as it is. */
static void masking_lifts_no_window(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_set_window(&panel, 60, 600);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 0, STEP_MASK)->takes_min = 10;
    panel_add_step(&panel, 0, STEP_COAT);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/mask: handle of a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, 0 min after a/oil/1/mask, in the window of "
                "a/oil/1/apply unless a/oil/1/scuff-320\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
}

/* A wait of the schedule that is longer than the window lifts it, be it of minutes or for a state. */
static void a_wait_lifts_the_window(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_set_window(&panel, 60, 600);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 0, STEP_WAIT)->wait_min = 601;
    panel_add_step(&panel, 0, STEP_COAT);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, 601 min after a/oil/1/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel.steps[0][1].wait_min = 600;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply, 600 min after a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, 600 min after a/oil/1/apply, in the window of "
                "a/oil/1/apply unless a/oil/1/scuff-320\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel.steps[0][1].wait_min = -1;
    panel.steps[0][1].wait_state = STATE_CURED;
    panel_set_state(&panel, STATE_CURED, 601);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, cured of a/oil/1/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
    panel_set_state(&panel, STATE_CURED, 600);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply, cured of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, cured of a/oil/1/apply, 0 min after a/oil/1/apply, "
                "in the window of a/oil/1/apply unless a/oil/1/scuff-320\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
}

/* Two coats a day: the third is a day after the first. What the piece asks for holds where it is less. */
static void so_many_coats_a_day(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 5;
    panel.finish.coats_a_day = 2;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/3/apply: recoat of a/oil/2/apply, a day after a/oil/1/apply\n"
                "a/oil/4/apply: recoat of a/oil/3/apply, a day after a/oil/2/apply\n"
                "a/oil/5/apply: recoat of a/oil/4/apply, a day after a/oil/3/apply\n"
                "ready: handle of a/oil/5/apply\n"
                "ready: 0 min after a/oil/5/apply\n");
    panel.pieces[0].coats_a_day = 3;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/3/apply: recoat of a/oil/2/apply, a day after a/oil/1/apply\n"
                "a/oil/4/apply: recoat of a/oil/3/apply, a day after a/oil/2/apply\n"
                "a/oil/5/apply: recoat of a/oil/4/apply, a day after a/oil/3/apply\n"
                "ready: handle of a/oil/5/apply\n"
                "ready: 0 min after a/oil/5/apply\n");
    panel.pieces[0].coats_a_day = 1;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply, a day after a/oil/1/apply\n"
                "a/oil/3/apply: recoat of a/oil/2/apply, a day after a/oil/2/apply\n"
                "a/oil/4/apply: recoat of a/oil/3/apply, a day after a/oil/3/apply\n"
                "a/oil/5/apply: recoat of a/oil/4/apply, a day after a/oil/4/apply\n"
                "ready: handle of a/oil/5/apply\n"
                "ready: 0 min after a/oil/5/apply\n");
}

/* What is polished 10 to 20 minutes after each coat has that of the schedule in it already, once. */
static void polishing_follows_its_coat(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel.finish.has_polish = true;
    panel.finish.polish = (struct span_range){10, 20};
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(&panel, 0, STEP_POLISH);
    panel_add_step(&panel, 0, STEP_POLISH);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/polish: 10 min after a/oil/1/apply, within 20 min of a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/2/polish: 10 min after a/oil/2/apply, within 20 min of a/oil/2/apply\n"
                "a/oil/2/polish#2: sand of a/oil/2/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/polish#2\n");
    panel.finish.has_polish = false;
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/2/apply: recoat of a/oil/1/apply\n"
                "a/oil/2/polish: sand of a/oil/2/apply\n"
                "a/oil/2/polish#2: sand of a/oil/2/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/polish#2\n");
}

/* Four parts in two lots. */
static void each_lot_by_itself(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel.parts[0].qty = 4;
    panel.pieces[0].lots = 2;
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    check_steps(HERE, &panel,
                "a.1/oil/0/sand-180\n"
                "a.1/oil/1/apply\n"
                "a.2/oil/0/sand-180\n"
                "a.2/oil/1/apply\n"
                "ready: handle of a.1/oil/1/apply\n"
                "ready: 0 min after a.1/oil/1/apply\n"
                "ready: handle of a.2/oil/1/apply\n"
                "ready: 0 min after a.2/oil/1/apply\n");
}

/* 9 h a day, so that 9 h 1 min are two parts, and 9 h are one; the same words before and behind a coat are
 * two steps. */
static void a_task_is_cut_to_fit_the_day(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    struct step *task = panel_add_step(&panel, 0, STEP_TASK);
    task->words = "Glue up";
    task->takes_min = 541;
    panel_add_step(&panel, 0, STEP_COAT);
    task = panel_add_step(&panel, 0, STEP_TASK);
    task->words = "glue up";
    task->takes_min = 540;
    check_steps(HERE, &panel,
                "a/oil/0/glue-up\n"
                "a/oil/0/glue-up#2\n"
                "a/oil/1/apply\n"
                "a/oil/1/glue-up: handle of a/oil/1/apply\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/glue-up\n");
}

/* Left out: the sanding, and the last coat. Done again: the first coat, sanded before, and once more
 * without. */
static void the_log_asks(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_set_window(&panel, 60, 600);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    struct log_entry entries[] = {{.number = 1, .kind = LOG_SKIP, .step = "a/oil/3/apply"},
                                  {.number = 2, .kind = LOG_AGAIN, .step = "a/oil/1/apply", .grit = 400},
                                  {.number = 3, .kind = LOG_AGAIN, .step = "a/oil/1/apply"},
                                  {.number = 4, .kind = LOG_SKIP, .step = "a/oil/0/sand-180"}};
    panel.job.log = (struct log){.file = "log", .entries = entries, .count = 4, .last = 4};
    panel.job.now_min = march(1, 8, 0);
    check_steps(HERE, &panel,
                "a/oil/1/apply\n"
                "a/oil/1/sand-400-again: sand of a/oil/1/apply\n"
                "a/oil/1/apply-again: recoat of a/oil/1/apply\n"
                "a/oil/1/apply-again-2: sand of a/oil/1/apply-again\n"
                "a/oil/1/scuff-320: sand of a/oil/1/apply-again-2\n"
                "a/oil/2/apply: recoat of a/oil/1/apply-again-2, 0 min after a/oil/1/apply-again-2, in the "
                "window of a/oil/1/apply-again-2 unless a/oil/1/scuff-320\n"
                "a/oil/2/scuff-320: sand of a/oil/2/apply\n"
                "ready: handle of a/oil/2/apply\n"
                "ready: 0 min after a/oil/2/apply\n");
}

/* Of two sandings with one grit the first is left out, in the day's log: the second keeps its id, and is done. */
static void the_second_keeps_its_id(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_SAND);
    struct log_entry entry = {.number = 1, .kind = LOG_SKIP, .step = "a/oil/0/sand-180"};
    panel.job.log = (struct log){.file = "log", .entries = &entry, .count = 1, .last = 1};
    panel.job.now_min = march(1, 8, 0);
    check_steps(HERE, &panel,
                "a/oil/0/sand-180#2\n"
                "ready: 0 min after a/oil/0/sand-180#2\n");
}

/* A waits until B may be handled: its first step does. */
static void a_piece_behind_another(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT);
    panel.after[0] = (struct after){.index = 1, .state = STATE_HANDLE};
    panel.pieces[0].after = panel.after;
    panel.pieces[0].after_count = 1;
    check_steps(HERE, &panel,
                "a/oil/0/sand-180: handle of b/oil-b/1/apply\n"
                "a/oil/1/apply\n"
                "b/oil-b/1/apply\n"
                "ready: handle of a/oil/1/apply\n"
                "ready: 0 min after a/oil/1/apply\n"
                "ready: handle of b/oil-b/1/apply\n"
                "ready: 0 min after b/oil-b/1/apply\n");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(a_schedule_in_its_order), CHECK_TEST(dust_settles_before_a_coat),
                     CHECK_TEST(waits_add_up), CHECK_TEST(windows_and_what_lifts_them),
                     CHECK_TEST(masking_lifts_no_window), CHECK_TEST(a_wait_lifts_the_window),
                     CHECK_TEST(so_many_coats_a_day), CHECK_TEST(polishing_follows_its_coat),
                     CHECK_TEST(each_lot_by_itself), CHECK_TEST(a_task_is_cut_to_fit_the_day),
                     CHECK_TEST(the_log_asks), CHECK_TEST(the_second_keeps_its_id),
                     CHECK_TEST(a_piece_behind_another));
}
