/* What a user is told of steps, states and reasons, in the same words in every kind of output. Texts lie in the arena given,
 * or are constant. */
#ifndef REPORT_SENTENCES_H
#define REPORT_SENTENCES_H

#include "base/measure.h"
#include "base/moment.h"
#include "finish/caution.h"
#include "plan/plan.h"

/* The units in which a job measures: those of sentences in JSON and in calendars. */
enum unit_system units_of(const struct job *job);

/* A state as it is said of a film: "dry to recoat", "safe to wrap", "fit for light use". */
const char *state_words(enum finish_state state);
/* The schedule of a surface; "bare" where it has none. */
const char *schedule_words(const struct job *job, int schedule);
/* "50 % RH". */
const char *humidity_words(struct arena *arena, double humidity);
/* "Fri 5 Mar 08:00"; "never" at INT64_MAX. */
const char *moment_words(struct arena *arena, const struct job *job, int64_t minute);

/* A moment, with the next opening where the shop is closed then: "Fri 12 Mar 00:40 (open from Fri 08:00)". */
const char *ready_words(struct arena *arena, const struct job *job, int64_t ready_min);
/* The delivery, with the day that the customer named where the shop is closed then; what is to spare between ready and delivery, or by
 * how much it is late: "2 working days 6 h (4 d 13 h 20 min by the clock)". */
const char *deliver_words(struct arena *arena, const struct timetable *timetable);
const char *to_spare_words(struct arena *arena, const struct timetable *timetable);

/* "coat 2 of 3, Wiping varnish": coats are counted by the finish, which has its short name. */
const char *coat_words(struct arena *arena, const struct operation *apply);
/* The same of a coat; "sand 150", "flip", "fit hinges". */
const char *step_words(struct arena *arena, const struct operation *operation);
/* The piece, with its side where it has two: "panel (back)"; "" for a task. */
const char *step_piece(struct arena *arena, const struct operation *operation);
/* How much: "400 ml on 2.35 m2", "2.35 m2"; "" where nothing is measured. */
const char *step_amount(struct arena *arena, const struct plan *plan, const struct operation *operation,
                        enum unit_system units);
/* "2 sections of 0.24 m2", and "wiped dry 6 to 21 min after it is wetted"; NULL: nothing is wiped off. */
const char *sections_words(struct arena *arena, const struct operation *operation, enum unit_system units);
const char *wipe_words(struct arena *arena, const struct operation *operation);
/* What is to be known of it but for its sections; NULL: nothing. */
const char *step_warning(struct arena *arena, const struct timetable *timetable, size_t step);
/* What is to be known while it is done; NULL: nothing. */
const char *step_note(struct arena *arena, const struct timetable *timetable, size_t step,
                      enum unit_system units);

/* " (lot 1 of 2)" of a piece with several lots; " (back)", " (face)" of one with two sides; "". */
const char *lot_words(struct arena *arena, const struct operation *operation);
const char *side_words(const struct operation *operation);

/* Whether names count on: "door 3" and "door 4"; the first and the last of such as one: "door 3 and 4", "door 7 to 10". */
bool names_count_on(const char *name, const char *next);
const char *names_span(struct arena *arena, const char *first, const char *last);

/* What a batch is: "coat 1 of 3, Wiping varnish", "coats 1 and 2, Wiping varnish", "sand 180". */
const char *batch_words(struct arena *arena, const struct timetable *timetable,
                        const struct timetable_batch *batch);
/* On what, in the order of work, in about so many cells: "case, legs", "wall door 7 to 10, larder door 1 and 4 more"; "":
 * a task. A side is named where the other is not done as well. */
const char *batch_pieces(struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch, size_t width);
size_t batch_piece_count(struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch);
/* How much of finish or of surface in all; "" where nothing is measured. */
const char *batch_amount(struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch, enum unit_system units);
/* Minutes in which it rests; 0: it goes through. */
int64_t batch_pause_min(const struct timetable_batch *batch);
/* A pause, and what is to be known of its steps; NULL: nothing. */
const char *batch_note(struct arena *arena, const struct timetable *timetable,
                       const struct timetable_batch *batch, enum unit_system units);
enum { BATCH_WATCHED_MIN = 7 * DAY_MINUTES }; /* what ends within a week is worth a look at the clock */
/* The moment before which the step at *at of a batch must begin because something ends by itself; INT64_MAX, and *at as it
 * was: nothing does, or only in some weeks, which nobody has to watch. */
int64_t batch_must_begin(const struct timetable *timetable, const struct timetable_batch *batch, size_t *at);
/* "begin case before Thu 4 Mar 18:26"; NULL: nothing ends. */
const char *batch_window_words(struct arena *arena, const struct timetable *timetable,
                               const struct timetable_batch *batch);
/* Who does it, with whoever helps to turn. */
const char *batch_person(struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch);

/* Steps of a batch, one after another, that are told as one: the same work on pieces whose names count on. What is turned
 * over and then coated is told together. */
struct batch_run {
    size_t first, count; /* the first of the batch's steps; pieces */
    size_t stride;       /* steps of one: 1, or 2 with turning over */
};
struct batch_runs {
    struct batch_run *items;
    size_t count;
};
struct batch_runs batch_runs_make(struct arena *arena, const struct timetable *timetable,
                                  const struct timetable_batch *batch);
/* "wall door 7 to 10 (back)". */
const char *batch_run_pieces(struct arena *arena, const struct timetable *timetable,
                             const struct timetable_batch *batch, const struct batch_run *run);
/* What it lays, without what stays in the tool, or its area: "161 ml each"; "". */
const char *batch_run_amount(struct arena *arena, const struct timetable *timetable,
                             const struct timetable_batch *batch, const struct batch_run *run,
                             enum unit_system units);
/* What stays in the tool: "4.2 ml stays in the pad"; NULL: nothing, or it is counted with another job's. */
const char *batch_left_in_tool(struct arena *arena, const struct timetable *timetable,
                               const struct timetable_batch *batch, enum unit_system units);
/* What is done where that is not what the batch is called: "coat 2 on", "flip", "flip, then"; "". */
const char *batch_run_words(struct arena *arena, const struct timetable *timetable,
                            const struct timetable_batch *batch, const struct batch_run *run);

/* All of that: "14:07 flip, then base door 13 and 14 (face), 170 ml each". */
const char *batch_run_line(struct arena *arena, const struct timetable *timetable,
                           const struct timetable_batch *batch, const struct batch_run *run,
                           enum unit_system units);

/* "take care: flammable; harmful vapour": of the hours of a batch, in a few words; NULL: nothing. */
const char *batch_care(struct arena *arena, const struct plan_caution *cautions, size_t count);

/* The mixing cards of a batch, one after another, the first after NULL; NULL: no more. */
const struct mix_card *batch_card(const struct plan *plan, const struct timetable_batch *batch,
                                  const struct mix_card *after);
/* "mix 1 of 2 at 08:05: 85.4 ml, apply by 10:58, pot life ends 11:22". */
const char *card_words(struct arena *arena, const struct plan *plan, const struct mix_card *card,
                       enum unit_system units);

/* What a step waits for: "dry to recoat", "recoat window"; in JSON and calendars. */
const char *link_words(const struct link *link, const struct operation *from, const struct operation *to);
/* "dries in air outside its limits from Mon 1 Mar 18:00 to Tue 2 Mar 07:00"; NULL: it does not. */
const char *outside_words(struct arena *arena, const struct job *job, const struct drying_wait *wait);
/* A reason of the timetable as a sentence without its full stop. */
const char *reason_words(struct arena *arena, const struct timetable *timetable, const struct reason *reason,
                         enum unit_system units);

/* What is wrong with a mix, as a sentence without its full stop. */
const char *mix_warning_words(struct arena *arena, const struct mix_warning *warning, enum unit_system units);

/* The change in words: "one more person", "4 coats of oil instead of 5 (Shelf), which makes Desk 3 h late". */
const char *advice_words(struct arena *arena, const struct advice *advice, enum unit_system units);
/* "ready Thu 4 Mar 12:00, 1 d 4 h sooner, in time". */
const char *advice_effect(struct arena *arena, const struct advice *advice, const struct zone *zone,
                          enum moment_style style);
/* One sentence with words, effect and, for each change, its files and, in backquotes, its patch. */
const char *advice_sentence(struct arena *arena, const struct advice *advice, const struct zone *zone,
                            enum unit_system units);
/* "desk-shop.json", "a.json and b.json". */
const char *change_files(struct arena *arena, const struct advice_change *change);
/* The JSON merge patch (RFC 7396) that makes it. */
const char *change_patch(struct arena *arena, const struct advice_change *change);

/* What a finish can do to the hand, the lungs and the shop, with its source. None of it replaces the data sheet: whoever
 * prints a caution adds caution_rider. */
struct caution {
    const char *name;   /* as in the finish files: "oily-rags" */
    const char *brief;  /* a few words */
    const char *text;   /* a sentence without its full stop */
    const char *source; /* document, place, year; or "common practice, from memory" */
};

/* NULL: unknown. */
const struct caution *caution_find(const char *name);

/* "the data sheet and local rules decide" */
const char *caution_rider(void);

/* What is breathed through; NULL for BREATHING_FREE. */
const char *breathing_words(enum breathing breathing);

/* The same in a few words, for a page, without the finishes: "wet rags can catch fire"; NULL: left to the sentence. */
const char *plan_caution_brief(struct arena *arena, const struct plan_caution *caution);
/* A caution of a plan: a sentence without its full stop and rider. */
const char *plan_caution_words(struct arena *arena, const struct plan_caution *caution,
                               enum unit_system units);

/* The size of a pack or kit as its file says it, a single "l" for litres as L: "1 L", "375 ml". */
const char *pack_words(struct arena *arena, const char *label);
/* "abrasive disc 150 mm, grit 180"; "thinner, mineral spirits". */
const char *sundry_name(struct arena *arena, const struct sundry *sundry);
/* "3 x", "120 ml", "2 pairs". */
const char *sundry_amount(struct arena *arena, const struct sundry *sundry, enum unit_system units);
/* Whether it is counted in millilitres, and not in pieces. */
bool sundry_is_liquid(const struct sundry *sundry);

/* "1 x 500 ml Wiping varnish, varnish", one a line, sundries after them; "": there is nothing to buy. */
const char *shopping_lines(struct arena *arena, const struct plan *plan);

/* A person of the shop, from 1: by name, else "person 2". */
const char *person_name(struct arena *arena, const struct shop *shop, int person);

#endif
