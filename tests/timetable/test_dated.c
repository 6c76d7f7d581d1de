/* A plan in moments: batches, steps, what each waited for, films drying, the states of pieces, and when
 * all of it is ready. One person, open 08:00 to 17:00 daily from Monday 1 March 2027, unless a test says
 * otherwise. */
#include "check.h"
#include "panel_site.h"

#include "base/arena.h"
#include "base/buf.h"

/* "1 08:00": day of March and time; "-": never. */
static const char *at(struct arena *arena, int64_t moment)
{
    int64_t minute = moment - march(1, 0, 0);
    if (moment == INT64_MAX || moment == INT64_MIN)
        return "-";
    return arena_textf(arena, "%d %02d:%02d", (int)(minute / DAY_MINUTES + 1),
                       (int)(minute % DAY_MINUTES / 60), (int)(minute % 60));
}

static const char *id_of(const struct timetable *timetable, size_t step)
{
    return timetable->steps[step].operation->id;
}

static void tell_batches(struct arena *arena, struct buf *text, const struct timetable *timetable)
{
    for (size_t i = 0; i < timetable->batch_count; i++) {
        const struct timetable_batch *batch = &timetable->batches[i];
        buf_addf(text, "%s by %d", batch->id, batch->person);
        if (batch->helper > 0)
            buf_addf(text, " and %d", batch->helper);
        buf_addf(text, " %s to %s", at(arena, batch->start_min), at(arena, batch->end_min));
        buf_addf(text, ", work %s to %s", at(arena, batch->work_from_min), at(arena, batch->work_until_min));
        buf_addf(text, ", %d + %d of %d min, pause %d, float %d:", batch->set_up_min, batch->clean_up_min,
                 batch->hands_on_min, batch->pause_min, (int)batch->float_min);
        for (size_t k = 0; k < batch->step_count; k++)
            buf_addf(text, " %s", id_of(timetable, batch->steps[k]));
        buf_addf(text, "\n");
    }
}

static void tell_steps(struct arena *arena, struct buf *text, const struct timetable *timetable)
{
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[i];
        buf_addf(text, "%s %s to %s by %d in %s, dust-free %s", id_of(timetable, i),
                 at(arena, step->start_min), at(arena, step->end_min), step->person,
                 timetable->batches[step->batch].id, at(arena, step->dust_free_min));
        for (size_t k = 0; k < step->after_count; k++)
            buf_addf(text, "; after %s: %s to %s", id_of(timetable, step->after[k].step),
                     at(arena, step->after[k].min_until), at(arena, step->after[k].max_until));
        buf_addf(text, "\n");
    }
}

static const char *told(struct arena *arena, const struct timetable *timetable)
{
    struct buf text;
    buf_init(&text, arena);
    tell_batches(arena, &text, timetable);
    tell_steps(arena, &text, timetable);
    for (size_t i = 0; i < timetable->wait_count; i++) {
        const struct drying_wait *wait = &timetable->waits[i];
        buf_addf(&text, "%s dries %s to %s: %s, window %s\n", id_of(timetable, wait->step),
                 at(arena, wait->from_min), at(arena, wait->until_min), finish_state_name(wait->state),
                 at(arena, wait->window_min));
    }
    for (size_t i = 0; i < timetable->state_count; i++)
        if (timetable->states[i].state == STATE_HANDLE || timetable->states[i].state == STATE_CURED)
            buf_addf(&text, "%s %s %s\n", timetable->job->pieces[timetable->states[i].piece].name,
                     finish_state_name(timetable->states[i].state), at(arena, timetable->states[i].at_min));
    buf_addf(&text, "ready %s, late %d, spare %d, %d min of work\n", at(arena, timetable->ready_min),
             (int)timetable->late_min, (int)timetable->spare_min, (int)timetable->hands_on_min);
    return text.text;
}

static void check_dated(const struct row *row, struct panel *panel, const char *want)
{
    struct arena *arena = arena_make(0);
    check_text(row, told(arena, panel_dated(arena, panel)), want);
    arena_free(arena);
}

/* Set up for sanding 08:00 to 08:20, cleaned up until 09:30; for the coat until 09:35, cleaned up until
 * 10:50. Its film is dust-free 90 min, dry to handle 3 h and cured a day after 10:35. The delivery is on
 * Tuesday at 12:00. */
static void set_up_work_and_clean_up(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    panel.job.shop.set_up_min[WORK_SAND] = 20;
    panel.job.shop.clean_up_min[WORK_SAND] = 10;
    panel.job.shop.set_up_min[TOOL_CLOTH] = 5;
    panel.job.shop.clean_up_min[TOOL_CLOTH] = 15;
    panel_set_state(&panel, STATE_DUST_FREE, 90);
    panel_set_state(&panel, STATE_HANDLE, 180);
    panel_set_state(&panel, STATE_CURED, 1440);
    panel.job.deliver_min = march(2, 12, 0);
    check_dated(HERE, &panel,
                "sand/180/0/1 by 1 1 08:00 to 1 09:30, work 1 08:20 to 1 09:20, 20 + 10 of 90 min, pause 0, "
                "float 0: a/oil/0/sand-180\n"
                "apply/oil/1/1 by 1 1 09:30 to 1 10:50, work 1 09:35 to 1 10:35, 5 + 15 of 80 min, pause 0, "
                "float 0: a/oil/1/apply\n"
                "a/oil/0/sand-180 1 08:20 to 1 09:20 by 1 in sand/180/0/1, dust-free 1 09:20\n"
                "a/oil/1/apply 1 09:35 to 1 10:35 by 1 in apply/oil/1/1, dust-free 1 12:05; after "
                "a/oil/0/sand-180: 1 09:20 to -\n"
                "a/oil/1/apply dries 1 10:35 to 1 13:35: handle, window -\n"
                "A handle 1 13:35\n"
                "A cured 2 10:35\n"
                "ready 1 13:35, late 0, spare 1345, 170 min of work\n");
}

/* Sanded when the film allows it (09:00 and an hour), and the dust settles for 30 min: the second coat
 * waits for that, for the film until 11:00, and not beyond the window, ten hours from 09:00. All is ready
 * half an hour late. */
static void waits_and_windows(void **state)
{
    (void)state;
    struct panel panel;
    static const struct step between = {.kind = STEP_SAND, .grit = 320, .wait_min = -1};
    panel_init(&panel);
    panel.job.shop.settle_min = 30;
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel.steps[0][0].between = &between;
    panel_set_window(&panel, 120, 600);
    panel_set_state(&panel, STATE_SAND, 60);
    panel.finish.refuses_late_recoat = true;
    panel.job.deliver_min = march(1, 12, 0);
    check_dated(HERE, &panel,
                "apply/oil/1/1 by 1 1 08:00 to 1 09:00, work 1 08:00 to 1 09:00, 0 + 0 of 60 min, pause 0, "
                "float 0: a/oil/1/apply\n"
                "sand/320/1/1 by 1 1 10:00 to 1 11:00, work 1 10:00 to 1 11:00, 0 + 0 of 60 min, pause 0, "
                "float 0: a/oil/1/sand-320\n"
                "apply/oil/2/1 by 1 1 11:30 to 1 12:30, work 1 11:30 to 1 12:30, 0 + 0 of 60 min, pause 0, "
                "float 0: a/oil/2/apply\n"
                "a/oil/1/apply 1 08:00 to 1 09:00 by 1 in apply/oil/1/1, dust-free 1 09:00\n"
                "a/oil/1/sand-320 1 10:00 to 1 11:00 by 1 in sand/320/1/1, dust-free 1 11:00; after "
                "a/oil/1/apply: 1 10:00 to -\n"
                "a/oil/2/apply 1 11:30 to 1 12:30 by 1 in apply/oil/2/1, dust-free 1 12:30; after "
                "a/oil/1/apply: 1 11:00 to 1 19:00; after a/oil/1/sand-320: 1 11:30 to -\n"
                "a/oil/1/apply dries 1 09:00 to 1 11:00: recoat, window 1 19:00\n"
                "a/oil/2/apply dries 1 12:30 to 1 12:30: handle, window -\n"
                "A handle 1 12:30\n"
                "A cured 1 12:30\n"
                "ready 1 12:30, late 30, spare 0, 180 min of work\n");
}

/* Set-up takes 30 min. B and A (2 h and 3 h) are one batch, which rests for an hour at noon; ready at
 * 16:00, as it must be. */
static void over_noon(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_set_noon(&panel, 12 * 60, 13 * 60);
    panel_add_piece(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 1, STEP_SAND);
    panel_add_step(&panel, 2, STEP_SAND)->grit = 240;
    panel_set_hours(&panel, 0, 3);
    panel_set_hours(&panel, 1, 2);
    panel.job.shop.set_up_min[WORK_SAND] = 30;
    panel.job.deliver_min = march(1, 16, 0);
    check_dated(HERE, &panel,
                "sand/240/0/1 by 1 1 08:00 to 1 09:30, work 1 08:30 to 1 09:30, 30 + 0 of 90 min, pause 0, "
                "float 0: c/oil-c/0/sand-240\n"
                "sand/180/0/1 by 1 1 09:30 to 1 16:00, work 1 10:00 to 1 16:00, 30 + 0 of 330 min, pause 60, "
                "float 0: b/oil-b/0/sand-180 a/oil/0/sand-180\n"
                "c/oil-c/0/sand-240 1 08:30 to 1 09:30 by 1 in sand/240/0/1, dust-free 1 09:30\n"
                "b/oil-b/0/sand-180 1 10:00 to 1 12:00 by 1 in sand/180/0/1, dust-free 1 12:00\n"
                "a/oil/0/sand-180 1 13:00 to 1 16:00 by 1 in sand/180/0/1, dust-free 1 16:00\n"
                "ready 1 16:00, late 0, spare 0, 420 min of work\n");
}

/* A, both sides, and B: the back and B are one batch, A is turned when its back is dry to handle, and done
 * in the next with the face; over at 11:01, and as a batch at 11:05. Films are told on five minutes of the
 * clock. A piece is in a state when both of its sides are. */
static void piece_states(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT);
    panel_two_sides(&panel, 0);
    panel_set_state(&panel, STATE_HANDLE, 60);
    panel_set_state(&panel, STATE_CURED, 600);
    check_dated(HERE, &panel,
                "apply/oil/1/1 by 1 1 08:00 to 1 10:00, work 1 08:00 to 1 10:00, 0 + 0 of 120 min, pause 0, "
                "float 0: a/oil/1b/apply b/oil-b/1/apply\n"
                "apply/oil/1/2 by 1 1 10:00 to 1 11:05, work 1 10:00 to 1 11:01, 0 + 0 of 61 min, pause 4, "
                "float 0: a/oil/1b/flip a/oil/1f/apply\n"
                "a/oil/1b/apply 1 08:00 to 1 09:00 by 1 in apply/oil/1/1, dust-free 1 09:00\n"
                "b/oil-b/1/apply 1 09:00 to 1 10:00 by 1 in apply/oil/1/1, dust-free 1 10:00\n"
                "a/oil/1b/flip 1 10:00 to 1 10:01 by 1 in apply/oil/1/2, dust-free 1 10:01; after "
                "a/oil/1b/apply: 1 10:00 to -\n"
                "a/oil/1f/apply 1 10:01 to 1 11:01 by 1 in apply/oil/1/2, dust-free 1 11:05; after "
                "a/oil/1b/flip: 1 10:01 to -\n"
                "a/oil/1b/apply dries 1 09:00 to 1 10:00: handle, window -\n"
                "b/oil-b/1/apply dries 1 10:00 to 1 11:00: handle, window -\n"
                "a/oil/1f/apply dries 1 11:01 to 1 12:05: handle, window -\n"
                "A handle 1 12:05\n"
                "A cured 1 21:05\n"
                "B handle 1 11:00\n"
                "B cured 1 20:00\n"
                "ready 1 12:05, late 0, spare 16135, 181 min of work\n");
}

/* One batch of one grit, which is set up for what takes longer, and is called sanding, as some of it is. */
/* While A dries between its coats B is rubbed, at 09:00, or until 10:00. */
static void a_gap_is_used(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(&panel, 1, STEP_RUB)->words = "wax";
    panel_set_state(&panel, STATE_RECOAT, 120);
    check_dated(HERE, &panel,
                "apply/oil/1/1 by 1 1 08:00 to 1 09:00, work 1 08:00 to 1 09:00, 0 + 0 of 60 min, pause 0, "
                "float 0: a/oil/1/apply\n"
                "rub/rub/0/1 by 1 1 09:00 to 1 10:00, work 1 09:00 to 1 10:00, 0 + 0 of 60 min, pause 0, "
                "float 60: b/oil-b/0/rub\n"
                "apply/oil/2/1 by 1 1 11:00 to 1 12:00, work 1 11:00 to 1 12:00, 0 + 0 of 60 min, pause 0, "
                "float 0: a/oil/2/apply\n"
                "a/oil/1/apply 1 08:00 to 1 09:00 by 1 in apply/oil/1/1, dust-free 1 09:00\n"
                "b/oil-b/0/rub 1 09:00 to 1 10:00 by 1 in rub/rub/0/1, dust-free 1 10:00\n"
                "a/oil/2/apply 1 11:00 to 1 12:00 by 1 in apply/oil/2/1, dust-free 1 12:00; after "
                "a/oil/1/apply: 1 11:00 to -\n"
                "a/oil/1/apply dries 1 09:00 to 1 11:00: recoat, window -\n"
                "a/oil/2/apply dries 1 12:00 to 1 12:00: handle, window -\n"
                "A handle 1 12:00\n"
                "A cured 1 12:00\n"
                "ready 1 12:00, late 0, spare 16140, 180 min of work\n");
}

/* A was coated by 09:00: it is dry to handle at 12:00, and all is ready then, as B is rubbed by 09:15. */
static void one_piece_is_done(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_RUB)->words = "wax";
    panel_set_state(&panel, STATE_HANDLE, 180);
    panel_set_state(&panel, STATE_CURED, 600);
    struct log_entry entries[] = {{.number = 1,
                                   .kind = LOG_DONE,
                                   .step = "a/oil/1/apply",
                                   .began_min = march(1, 8, 0),
                                   .done_min = march(1, 9, 0),
                                   .used_l = -1}};
    panel.job.log = (struct log){.file = "log", .entries = entries, .count = 1, .last = 1};
    panel.job.now_min = march(1, 9, 0);
    panel_set_hours(&panel, 1, 0.25);
    check_dated(HERE, &panel,
                "rub/rub/0/1 by 1 1 09:00 to 1 09:15, work 1 09:00 to 1 09:15, 0 + 0 of 15 min, pause 0, "
                "float 165: b/oil-b/0/rub\n"
                "b/oil-b/0/rub 1 09:00 to 1 09:15 by 1 in rub/rub/0/1, dust-free 1 09:15\n"
                "A handle 1 12:00\n"
                "A cured 1 19:00\n"
                "ready 1 12:00, late 0, spare 16140, 15 min of work\n");
}

static void sanded_and_scuffed(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_SCUFF)->grit = 320;
    panel_add_step(&panel, 1, STEP_SAND)->grit = 320;
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_hours(&panel, 0, 2);
    panel.job.shop.set_up_min[WORK_SAND] = 10;
    panel.job.shop.set_up_min[WORK_SCUFF] = 20;
    check_dated(HERE, &panel,
                "sand/320/0/1 by 1 1 08:00 to 1 11:20, work 1 08:20 to 1 11:20, 20 + 0 of 200 min, pause 0, "
                "float 0: a/oil/0/scuff-320 b/oil-b/0/sand-320\n"
                "apply/oil/1/1 by 1 1 11:20 to 1 13:20, work 1 11:20 to 1 13:20, 0 + 0 of 120 min, pause 0, "
                "float 0: a/oil/1/apply\n"
                "a/oil/0/scuff-320 1 08:20 to 1 10:20 by 1 in sand/320/0/1, dust-free 1 10:20\n"
                "b/oil-b/0/sand-320 1 10:20 to 1 11:20 by 1 in sand/320/0/1, dust-free 1 11:20\n"
                "a/oil/1/apply 1 11:20 to 1 13:20 by 1 in apply/oil/1/1, dust-free 1 13:20; after "
                "a/oil/0/scuff-320: 1 10:20 to -\n"
                "a/oil/1/apply dries 1 13:20 to 1 13:20: handle, window -\n"
                "A handle 1 13:20\n"
                "A cured 1 13:20\n"
                "ready 1 13:20, late 0, spare 16060, 320 min of work\n");
}

/* Turned by two, at 09:00, and the face is coated at the next five minutes of the clock. Their minute
 * counts twice. */
static void two_at_work(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_two_sides(&panel, 0);
    panel.pieces[0].lift = 2;
    panel.job.shop.people = 2;
    check_dated(HERE, &panel,
                "apply/oil/1/1 by 1 1 08:00 to 1 09:00, work 1 08:00 to 1 09:00, 0 + 0 of 60 min, pause 0, "
                "float 0: a/oil/1b/apply\n"
                "flip/flip/1/1 by 1 and 2 1 09:00 to 1 09:05, work 1 09:00 to 1 09:01, 0 + 0 of 1 min, pause "
                "4, float 0: a/oil/1b/flip\n"
                "apply/oil/1/2 by 1 1 09:05 to 1 10:05, work 1 09:05 to 1 10:05, 0 + 0 of 60 min, pause 0, "
                "float 0: a/oil/1f/apply\n"
                "a/oil/1b/apply 1 08:00 to 1 09:00 by 1 in apply/oil/1/1, dust-free 1 09:00\n"
                "a/oil/1b/flip 1 09:00 to 1 09:01 by 1 in flip/flip/1/1, dust-free 1 09:01; after "
                "a/oil/1b/apply: 1 09:00 to -\n"
                "a/oil/1f/apply 1 09:05 to 1 10:05 by 1 in apply/oil/1/2, dust-free 1 10:05; after "
                "a/oil/1b/flip: 1 09:01 to -\n"
                "a/oil/1b/apply dries 1 09:00 to 1 09:00: handle, window -\n"
                "a/oil/1f/apply dries 1 10:05 to 1 10:05: handle, window -\n"
                "A handle 1 10:05\n"
                "A cured 1 10:05\n"
                "ready 1 10:05, late 0, spare 16255, 122 min of work\n");
}

/* The second coat waits until the first is dry to recoat, at 10:00, and until it is cured, at 14:00: the film dries to the former first. */
static void the_first_of_two_states(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 0, STEP_WAIT)->wait_state = STATE_CURED;
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_state(&panel, STATE_RECOAT, 60);
    panel_set_state(&panel, STATE_CURED, 300);
    check_dated(HERE, &panel,
                "apply/oil/1/1 by 1 1 08:00 to 1 09:00, work 1 08:00 to 1 09:00, 0 + 0 of 60 min, pause 0, "
                "float 0: a/oil/1/apply\n"
                "apply/oil/2/1 by 1 1 14:00 to 1 15:00, work 1 14:00 to 1 15:00, 0 + 0 of 60 min, pause 0, "
                "float 0: a/oil/2/apply\n"
                "a/oil/1/apply 1 08:00 to 1 09:00 by 1 in apply/oil/1/1, dust-free 1 09:00\n"
                "a/oil/2/apply 1 14:00 to 1 15:00 by 1 in apply/oil/2/1, dust-free 1 15:00; after "
                "a/oil/1/apply: 1 14:00 to -\n"
                "a/oil/1/apply dries 1 09:00 to 1 10:00: recoat, window -\n"
                "a/oil/2/apply dries 1 15:00 to 1 15:00: handle, window -\n"
                "A handle 1 15:00\n"
                "A cured 1 20:00\n"
                "ready 1 15:00, late 0, spare 15960, 120 min of work\n");
}

/* A was coated in the 19th batch of its kind: what follows is the 20th. B goes first, as A is dry to
 * recoat at 10:00 only. */
static void logged(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(&panel, 1, STEP_COAT);
    panel_set_state(&panel, STATE_RECOAT, 60);
    panel_set_state(&panel, STATE_CURED, 600);
    struct log_entry entries[] = {{.number = 1,
                                   .kind = LOG_DONE,
                                   .step = "a/oil/1/apply",
                                   .began_min = march(1, 8, 0),
                                   .done_min = march(1, 9, 0),
                                   .used_l = -1,
                                   .batch = "apply/oil/1/19"}};
    panel.job.log = (struct log){.file = "log", .entries = entries, .count = 1, .last = 1};
    panel.job.now_min = march(1, 9, 30);
    check_dated(HERE, &panel,
                "apply/oil/1/20 by 1 1 09:30 to 1 11:30, work 1 09:30 to 1 11:30, 0 + 0 of 120 min, pause 0, "
                "float 0: b/oil-b/1/apply a/oil/2/apply\n"
                "b/oil-b/1/apply 1 09:30 to 1 10:30 by 1 in apply/oil/1/20, dust-free 1 10:30\n"
                "a/oil/2/apply 1 10:30 to 1 11:30 by 1 in apply/oil/1/20, dust-free 1 11:30\n"
                "b/oil-b/1/apply dries 1 10:30 to 1 10:30: handle, window -\n"
                "a/oil/2/apply dries 1 11:30 to 1 11:30: handle, window -\n"
                "A handle 1 11:30\n"
                "A cured 1 21:30\n"
                "B handle 1 10:30\n"
                "B cured 1 20:30\n"
                "ready 1 11:30, late 0, spare 16170, 120 min of work\n");
}

/* Two jobs, coated with one set-up in one batch: of its 20 min the desk has 5, the shelf, with three times
 * the work, 15. */
static void shared(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel desk, shelf, *panels[] = {&desk, &shelf};
    const struct operations *jobs[2];
    for (int i = 0; i < 2; i++) {
        panel_init(panels[i]);
        panel_add_step(panels[i], 0, STEP_COAT)->coats = 2;
        panels[i]->job.shop.set_up_min[TOOL_CLOTH] = 20;
        panel_set_window(panels[i], 60, 600);
    }
    shelf.steps[0][0].finish = &desk.finish;
    panel_set_hours(&shelf, 0, 3);
    for (int i = 0; i < 2; i++)
        jobs[i] = panel_operations(arena, panels[i]);
    struct timetable **each = timetable_several(arena, jobs, 2, (struct timetable_options){0});
    check_text(HERE, told(arena, each[0]),
               "apply/oil/1/1 by 1 1 08:00 to 1 16:20, work 1 08:20 to 1 16:20, 20 + 0 of 125 min, pause 0, "
               "float 0: a/oil/1/apply a/oil/2/apply\n"
               "a/oil/1/apply 1 08:20 to 1 09:20 by 1 in apply/oil/1/1, dust-free 1 09:20\n"
               "a/oil/2/apply 1 12:20 to 1 13:20 by 1 in apply/oil/1/1, dust-free 1 13:20; after "
               "a/oil/1/apply: 1 10:20 to 1 19:20\n"
               "a/oil/1/apply dries 1 09:20 to 1 10:20: recoat, window 1 19:20\n"
               "a/oil/2/apply dries 1 13:20 to 1 13:20: handle, window -\n"
               "A handle 1 13:20\n"
               "A cured 1 13:20\n"
               "ready 1 13:20, late 0, spare 16060, 125 min of work\n");
    check_text(HERE, told(arena, each[1]),
               "apply/oil/1/1 by 1 1 08:00 to 1 16:20, work 1 08:20 to 1 16:20, 20 + 0 of 375 min, pause 0, "
               "float 0: a/oil/1/apply a/oil/2/apply\n"
               "a/oil/1/apply 1 09:20 to 1 12:20 by 1 in apply/oil/1/1, dust-free 1 12:20\n"
               "a/oil/2/apply 1 13:20 to 1 16:20 by 1 in apply/oil/1/1, dust-free 1 16:20; after "
               "a/oil/1/apply: 1 13:20 to 1 22:20\n"
               "a/oil/1/apply dries 1 12:20 to 1 13:20: recoat, window 1 22:20\n"
               "a/oil/2/apply dries 1 16:20 to 1 16:20: handle, window -\n"
               "A handle 1 16:20\n"
               "A cured 1 16:20\n"
               "ready 1 16:20, late 0, spare 15880, 375 min of work\n");
    /* Their coats take of the finish as their areas are: 1, 1, 3 and 3 m2. */
    for (int i = 0; i < 3; i += 2) { /* 1 is a late scuff, which is left out */
        check_double(HERE, each[0]->loss_share[i], 0.125, 1e-12);
        check_double(HERE, each[1]->loss_share[i], 0.375, 1e-12);
    }
    arena_free(arena);
}

/* What no film reaches is told as never, and nothing waits for it. */
static void never_cured(void **state)
{
    (void)state;
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_state(&panel, STATE_CURED, SPAN_NEVER);
    check_dated(HERE, &panel,
                "apply/oil/1/1 by 1 1 08:00 to 1 09:00, work 1 08:00 to 1 09:00, 0 + 0 of 60 min, pause 0, "
                "float 0: a/oil/1/apply\n"
                "a/oil/1/apply 1 08:00 to 1 09:00 by 1 in apply/oil/1/1, dust-free 1 09:00\n"
                "a/oil/1/apply dries 1 09:00 to 1 09:00: handle, window -\n"
                "A handle 1 09:00\n"
                "A cured -\n"
                "ready 1 09:00, late 0, spare 16320, 60 min of work\n");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(set_up_work_and_clean_up), CHECK_TEST(waits_and_windows),
                     CHECK_TEST(over_noon), CHECK_TEST(piece_states), CHECK_TEST(the_first_of_two_states),
                     CHECK_TEST(logged), CHECK_TEST(sanded_and_scuffed), CHECK_TEST(two_at_work),
                     CHECK_TEST(a_gap_is_used), CHECK_TEST(one_piece_is_done), CHECK_TEST(never_cured),
                     CHECK_TEST(shared));
}
