/* What a user is told of steps, states and reasons, in the same words in every kind of output. Texts lie in the arena given,
 * or are constant. */
#ifndef REPORT_SENTENCES_H
#define REPORT_SENTENCES_H

#include "plan/plan.h"

/* A state as it is said of a film: "dry to recoat", "safe to wrap". */
const char *state_words(enum finish_state state);
/* The schedule of a surface; "bare" where it has none. */
const char *schedule_words(const struct job *job, int schedule);
/* "Fri 5 Mar 08:00"; "never" at INT64_MAX. */
const char *moment_words(struct arena *arena, const struct job *job, int64_t minute);

/* "coat 2 of 3, Wiping varnish", "sand 150", "flip", "fit hinges". */
const char *step_words(struct arena *arena, const struct operation *operation);
/* The piece, with its side where it has two: "panel, back"; "" for a task. */
const char *step_piece(struct arena *arena, const struct operation *operation);
/* How much: "350 ml on 2.35 m2", "2.35 m2"; "" where nothing is measured. */
const char *step_amount(struct arena *arena, const struct plan *plan, const struct operation *operation);
/* What is to be known while it is done; NULL: nothing. */
const char *step_note(struct arena *arena, const struct timetable *timetable, size_t step);

/* What a step waits for: "dry to recoat", "recoat window"; in JSON and calendars. */
const char *link_words(const struct link *link, const struct operation *from, const struct operation *to);
/* "dries in air outside its limits from Mon 1 Mar 18:00 to Tue 2 Mar 07:00"; NULL: it does not. */
const char *outside_words(struct arena *arena, const struct job *job, const struct drying_wait *wait);
/* A reason of the timetable as a sentence without its full stop. */
const char *reason_words(struct arena *arena, const struct timetable *timetable, const struct reason *reason);

#endif
