/* An independent judge of solved networks: it shares no code with src/solver and reads only its structs. */
#ifndef TESTS_NET_VERIFY_H
#define TESTS_NET_VERIFY_H

#include "check.h"
#include "solver/solve.h"

/* map(t) by the header's words. */
int32_t net_verify_map(const struct network *net, struct net_map map, int32_t t);

/* The value of a plan, by the header's words; `broken` (at least 120 characters) gets the first constraint that
 * does not hold, "" where all do. */
int32_t net_verify_plan(const struct network *net, const int32_t *start, const unsigned char *flag,
                        char *broken);

/* Fails the running test unless the plan of `result` holds, its value is true and its bound is no greater. */
void net_verify(const struct row *row, const struct network *net, const struct net_result *result);

/* No single operation can start earlier while the others stay. */
void net_verify_left(const struct row *row, const struct network *net, const struct net_result *result);

#endif
