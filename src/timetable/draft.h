/* A plan while it is made: batches placed one after another, each as soon as everything that is placed already allows. */
#ifndef TIMETABLE_DRAFT_H
#define TIMETABLE_DRAFT_H

#include "timetable/placing.h"

struct draft *draft_make(struct arena *arena, const struct site *site);
void draft_clear(struct draft *draft);
void draft_copy(struct draft *to, const struct draft *from);

/* Whether all that an operation waits for is placed or left out. */
bool draft_is_open(const struct draft *draft, int operation);
/* Whether a link holds between what this plan does: neither end is left out, and no scuff lifts a window. */
bool draft_waits(const struct draft *draft, const struct link *link);

/* When an operation may start by what is placed already, whatever its batch. */
int32_t draft_free_from(const struct draft *draft, int operation);

/* Places a batch at its first possible start from a minute on. False: there is none before `before`, or the effort of the draft
 * has reached its limit, or a thrifty batch that may start from 0 on would save but for a window; *placed says at which item it
 * broke and why. batch.items must live as long as the draft. */
bool draft_place(struct draft *draft, struct batch batch, int32_t from, int32_t before,
                 struct placed *placed);
/* Adds what draft_place or draft_fits found. */
void draft_add(struct draft *draft, const struct placed *placed);
/* Adds the next batch of another draft as it stands there; its items, the same, are at another place. */
void draft_take_over(struct draft *draft, const struct draft *from, const int *items);
/* Keeps so many batches, those placed first. */
void draft_keep(struct draft *draft, size_t count);
/* Takes the placed batch at an index out again: its items are not placed any more. */
void draft_take_out(struct draft *draft, size_t index);

/* Whether the batch can start exactly then, with all that is placed before and behind it. */
bool draft_fits(struct draft *draft, struct batch batch, int32_t start, struct placed *placed);

/* When a job is ready; SITE_NEVER: some film never is. */
int32_t draft_ready(const struct draft *draft, int job);

/* Every batch as late as its job's delivery, its work and what follows it allow. Jobs may be ready by their aim, their delivery
 * or when they are now, the first of these that holds now. */
void draft_shift_late(struct draft *draft);

#endif
