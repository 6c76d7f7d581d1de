/* Networks like a shop's jobs, seeded: pieces that are sanded, coated several times with waits and windows between,
 * polished; one person or two, a rack, dust against wet coats; five-minute slots over eight weeks of working days. */
#ifndef TESTS_NET_JOBS_H
#define TESTS_NET_JOBS_H

#include "solver/network.h"

void net_jobs_make(struct network *net, struct arena *arena, int operations, uint64_t seed);

#endif
