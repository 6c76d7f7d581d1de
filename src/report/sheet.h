/* The sheet on the wall of the shop, as one HTML file that prints on A4 and on Letter in black and white: the batches day by
 * day with boxes to tick, a card for each mix, the shopping, the parts and the timetable drawn, the cautions, and a care card
 * for the customer.
 *
 * Elements say what they are of: data-batch, data-done, data-mix, data-buy and data-piece hold the ids and names of the JSON
 * reports, data-job the name of the job. */
#ifndef REPORT_SHEET_H
#define REPORT_SHEET_H

#include "plan/day_card.h"
#include "report/drawing.h"
#include "report/table.h"

struct sheet_want {
    int64_t now_min; /* when it was planned */
    int64_t day;     /* the work of this day alone, since 1970; INT64_MIN: all of it */
    int person;      /* the work of this person alone, from 1; 0: everyone's */
    enum unit_system units;
    enum drawing_paper paper;
};

/* Appends the page. The plans are those of one shop and zone, each with a timetable. With a day or a person it holds their
 * work, mixes and cautions only. */
void write_sheet(struct buf *out, const struct plan *const *plans, size_t count, struct sheet_want want);

/* ---- Inside sheet*.c. */

struct sheet {
    struct buf *out;
    struct arena *arena;
    struct screen screen; /* of texts that are shared with the terminal */
    const struct plan *const *plans;
    size_t count;
    struct sheet_want want;
    const struct day_card *
        *days; /* those with work, or with work that was done; or the one that was asked for */
    size_t day_count;
};

/* A box to tick; one that is ticked. */
void sheet_box(const struct sheet *sheet, bool ticked);
/* The day of a moment with its year: "Sat 27 Mar 2027". */
const char *sheet_day(const struct sheet *sheet, int64_t minute);

/* What was done, ticked, and what is to be done, by day. */
void sheet_work(const struct sheet *sheet);
/* Every mix of the batches that are told. */
void sheet_mixes(const struct sheet *sheet);
void sheet_shopping(const struct sheet *sheet, const struct plan *plan);
/* When each piece may be used how, and how its finishes are looked after. */
void sheet_care(const struct sheet *sheet, const struct plan *plan);

#endif
