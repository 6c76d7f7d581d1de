/* The operations of a network as seekers of a start, each by itself: the starts that it may have, what it holds from
 * there on, and the one other start that has to wait for it (relax.h). */
#ifndef SOLVER_BOUNDS_SEEKERS_H
#define SOLVER_BOUNDS_SEEKERS_H

#include "solver/propagators/profile.h"

enum { SHARE_WHOLE = 1 << 12 };

/* What an operation holds of one resource, in parts of SHARE_WHOLE of the capacity, rounded down. */
struct share {
    int resource;
    int64_t part;
    struct net_map until;
    int32_t own; /* slots that no other use of the same holder shares */
};

/* An operation that looks for its start. Arrays are per allowed start. */
struct seeker {
    int operation;
    int next; /* seeker whose start must wait for this one, NET_NONE */
    const int32_t *starts;
    int32_t count;
    int32_t first, last; /* the window, as places in `starts` */
    int32_t *link;       /* per start of `next`: the last start here that leaves it free, -1: none */
    int64_t *before;     /* what those that must come before pay at least */
    int64_t *least;      /* the same with this one, when it starts then or sooner */
    int32_t *cheapest;   /* the place that pays `least` */
    struct share *shares;
    size_t share_count;
    int32_t chosen;
};

struct seekers {
    const struct network *net;
    struct seeker *items; /* those before first, a tree */
    size_t count;         /* 0: they have too many starts to be listed */
    int32_t span;         /* no share lasts longer; at most horizon + 1 */
};

/* Lists the starts in the windows of the trail, which may only shrink afterwards. Operations that may be absent are
 * left out; of the minimum lags one to a later operation is kept for each. */
void seekers_init(struct seekers *seekers, const struct profiles *profiles, const struct trail *trail,
                  struct arena *arena);

/* Takes the windows from the trail. False: one is empty. */
bool seekers_window(struct seekers *seekers, const struct trail *trail);

/* The end of a share from a start, not before it, cut at the span's most. */
int32_t share_end(const struct seekers *seekers, const struct share *share, int32_t start);

#endif
