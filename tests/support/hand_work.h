/* Operations, links and lines written by hand, on the job of a panel: for tests of what is made of them.
 * Coats are laid with the panel's oil by cloth. It points into itself: do not copy it. */
#ifndef TESTS_HAND_WORK_H
#define TESTS_HAND_WORK_H

#include "panel.h"

enum { HAND_ITEMS = 10, HAND_LINKS = 14 };

struct hand_work {
    struct panel panel;
    int32_t ends_s[HAND_ITEMS];
    struct operation items[HAND_ITEMS];
    struct link links[HAND_LINKS];
    struct finish_line lines[HAND_ITEMS];
    struct fact facts[HAND_ITEMS];
    struct operations operations;
};

/* Nothing to do yet on piece "A". */
void hand_work(struct hand_work *work);
/* One unit of so many minutes on a piece of the panel, which makes its row; -1: a task. It has no skill's
 * set-up but its own doing's. */
struct operation *hand_add(struct hand_work *work, int piece, enum doing doing, int32_t minutes);
/* A link with its span; of a state it says which. */
struct link *hand_link(struct hand_work *work, int from, int to, enum link_kind kind, int32_t span_min);

#endif
