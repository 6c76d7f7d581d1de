/* Small random networks, the same from the same seed. */
#ifndef TESTS_NET_DRAW_H
#define TESTS_NET_DRAW_H

#include "check.h"
#include "solver/network.h"

enum { NET_DRAW_OPERATIONS = 7, NET_DRAW_FLAGS = 2, NET_DRAW_SLOTS = 14 };

/* Up to 7 operations, 14 slots, 2 resources, calendars with up to 3 holes, lags of both kinds, flags, pairs. */
void net_random(struct network *net, struct arena *arena, uint64_t *seed);

/* A random network in an arena of its own, and the row that tells its seed where a check of it fails. */
struct net_draw {
    char name[60];
    struct row row;
    struct arena *arena;
    struct network net;
};

void net_draw(struct net_draw *draw, const struct row *where, uint64_t seed);
void net_draw_release(struct net_draw *draw);

#endif
