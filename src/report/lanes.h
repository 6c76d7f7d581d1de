/* What a timetable in characters and one in lines share: its rows, and the days that it shows.
 *
 * Rows: one for each schedule of a piece, in the order of the part list, then one for each task of the job. Days: from the
 * first to the day on which everything is ready, and on to the delivery where it is near. Days without hands-on work may be
 * drawn narrow: nobody has to be there. */
#ifndef REPORT_LANES_H
#define REPORT_LANES_H

#include "timetable/hours.h"
#include "timetable/timetable.h"

struct lane {
    const char *name;     /* of the piece or the task */
    const char *schedule; /* NULL: a task */
    bool first;           /* of its piece */
    bool alone;           /* the only one of its piece */
    bool back, face;      /* gets coats on that side alone */
};

struct lanes {
    struct lane *items;
    size_t count;
    size_t *of_step; /* per step of the timetable: its lane */
};

struct lanes lanes_make(struct arena *arena, const struct timetable *timetable);

/* One character for a step: a coat its number, counted by the finish ('+' from ten on), other work a letter. */
char step_mark(const struct operation *operation);
/* The marks of other work than coats, and what each says; ends with a mark of '\0'. */
struct mark_words {
    char mark;
    const char *words;
};
const struct mark_words *step_marks(void);

struct shown_day {
    int64_t day;                 /* since 1970-01-01 */
    int64_t from_min, to_min;    /* its midnights */
    int64_t open_min, close_min; /* first opening, last closing; equal: closed all day */
    bool worked;                 /* a step begins on it */
};

struct shown_days {
    struct shown_day *items;
    size_t count;              /* at least 1 */
    const struct hours *hours; /* of all of them */
};

struct shown_days shown_days_make(struct arena *arena, const struct timetable *timetable);

#endif
