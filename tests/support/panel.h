/* A shop and jobs of one or two pieces for tests of the timetable: durations come out as given (no set-up, clean-up,
 * touch; an area and a rate of one m2 per hour), the air is at reference, the zone is UTC. It points into itself: do not
 * copy it. */
#ifndef TESTS_PANEL_H
#define TESTS_PANEL_H

#include "job/job.h"
#include "surface/takeoff.h"
#include "timetable/planning.h"

struct row;

enum { PANEL_PIECES = 3, PANEL_STEPS = 6 };

struct panel {
    struct component component;
    struct finish finish;
    const struct finish *table[1];
    struct step steps[PANEL_PIECES][PANEL_STEPS];
    struct schedule schedules[PANEL_PIECES];
    struct piece pieces[PANEL_PIECES];
    struct part parts[PANEL_PIECES];
    struct air_spell spells[2];
    struct stretch stretches[2];
    struct after after[PANEL_PIECES];
    struct surface surface_items[2 * PANEL_PIECES];
    struct surfaces surfaces;
    struct job job;
};

/* One piece "A" with a schedule "oil" and no steps yet, start Monday 1 March 2027 08:00, open daily 08:00-17:00. */
void panel_init(struct panel *panel);
/* Another piece of the same kind, "B", "C"; its index. Its schedule is "oil-b", "oil-c". */
size_t panel_add_piece(struct panel *panel);
/* Adds a step to a piece's schedule. Hours of work are m2 of its face. */
struct step *panel_add_step(struct panel *panel, size_t piece, enum step_kind kind);
/* Makes a piece flat with its back scheduled too, of the same area. */
void panel_two_sides(struct panel *panel, size_t piece);
/* Face (and back) area: hours of each operation at a rate of 1 m2/h. */
void panel_set_hours(struct panel *panel, size_t piece, double hours);

/* Every state and time of the finish is 0 until it is set, for all coats. */
void panel_set_state(struct panel *panel, enum finish_state state, int32_t minutes);
/* The recoat window; sanding waits as long as recoating. */
void panel_set_window(struct panel *panel, int32_t least_min, int32_t most_min);
/* The job planned; mistakes in it fail the test. */
struct timetable *panel_dated(struct arena *arena, struct panel *panel);
void check_starts(const struct row *row, const struct timetable *timetable, const char *id, int64_t want);
void check_ready(const struct row *row, const struct timetable *timetable, int64_t want);

/* An operation of a piece (-1: of the job alone) by hand, one lot, one person, at any time; what it takes is left to fill in. */
struct operation panel_operation(const struct panel *panel, int piece, enum doing doing);
/* A link of two operations by hand: the later one waits for the earlier one's end and so many minutes. */
struct link panel_link(int from, int to, int32_t span_min);

/* UTC minute of a day of March 2027. */
int64_t march(int day, int hour, int minute);

#endif
