/* A desk that is late, and what would help: a panel that is due on Monday at 08:30, its shop's hours given. */
#ifndef TESTS_LATE_DESK_H
#define TESTS_LATE_DESK_H

#include "panel.h"

#include "plan/advice.h"

struct desk {
    struct arena *arena;
    struct panel panel;
    int64_t now_min; /* when the job starts, so that it cannot start earlier */
};

/* Its arena holds itself too. */
struct desk *desk_make(void);
/* A coat step of so many coats. */
void desk_coat(struct desk *desk, size_t piece, int coats);
/* Minutes to every state in which a customer may take it; and air that may not be warmer. */
void desk_handled_after(struct desk *desk, int32_t minutes);
struct advice_list desk_asked(struct desk *desk);
/* All sentences, one a line; frees the desk. */
void check_told(const struct row *row, struct desk *desk, const char *want);

#endif
