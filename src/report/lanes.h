/* The rows of a drawn timetable: one for each schedule of a piece, in the order of the part list, then one for each task
 * of the job. */
#ifndef REPORT_LANES_H
#define REPORT_LANES_H

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

/* One character for a step: a coat its number ('+' from ten on), other work a letter. */
char step_mark(const struct operation *operation);
/* The marks of other work than coats, and what each says; ends with a mark of '\0'. */
struct mark_words {
    char mark;
    const char *words;
};
const struct mark_words *step_marks(void);

#endif
