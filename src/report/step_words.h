/* A step of the timetable in the maker's words, for tables, calendars and sheets alike. */
#ifndef REPORT_STEP_WORDS_H
#define REPORT_STEP_WORDS_H

#include "plan/plan.h"

/* "coat 2 of 3, Wiping varnish", "sand 150", "flip", "fit hinges". */
const char *step_words(struct arena *arena, const struct operation *operation);
/* The piece, with its side where it has two: "panel, back"; "" for a task. */
const char *step_piece(struct arena *arena, const struct operation *operation);
/* How much: "350 ml on 2.35 m2", "2.35 m2"; "" where nothing is measured. */
const char *step_amount(struct arena *arena, const struct plan *plan, const struct operation *operation);
/* The schedule of a surface; "bare" where it has none. */
const char *schedule_words(const struct job *job, int schedule);
/* A state as it is said of a film: "dry to recoat", "safe to wrap". */
const char *state_words(enum finish_state state);

#endif
