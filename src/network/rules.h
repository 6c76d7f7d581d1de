/* The rule numbers that a network's constraints carry. */
#ifndef NETWORK_RULES_H
#define NETWORK_RULES_H

#include "network/network.h"

/* Each once, rising, without NET_NONE. */
int *net_rules(const struct network *net, struct arena *arena, size_t *count);

#endif
