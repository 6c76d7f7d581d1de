/* A small shop as a network, for worked problems: slots of five minutes from Monday 00:00, horizon nine days. */
#ifndef TESTS_NET_SHOP_H
#define TESTS_NET_SHOP_H

#include "check.h"
#include "solver/solve.h"

enum { HOUR = 12, DAY = 24 * HOUR, HORIZON = 9 * DAY, MON = 0, TUE = DAY, WED = 2 * DAY, THU = 3 * DAY };
enum { FRI = 4 * DAY, SAT = 5 * DAY, NEXT_MON = 7 * DAY };

/* Working hours: stretches of a day as pairs of hours, on the first `days` days of every week. */
struct hours {
    int days, count;
    int from[2], to[2];
};

extern const struct hours daily; /* 08:00-17:00 */
extern const struct hours week;  /* Monday to Friday 08:00-12:00 and 13:00-17:00 */

/* Who works when; resource 0 are the people. */
struct shop {
    struct network net;
    const struct hours *hours;
    int32_t free_from;
};

int32_t at(int day, int hour, int minute);

void shop_init(struct shop *shop, const struct hours *hours, int people, int32_t free_from);
void shop_release(struct shop *shop);

/* An operation of so many minutes that takes one person. */
int shop_work(struct shop *shop, int32_t minutes);
/* `to` starts at least `low`, at most `high` (-1: no limit) minutes after the end of `from`. */
void shop_lag(struct shop *shop, int from, int to, int low, int high);
/* Ready so many minutes after its end. */
void shop_ready(struct shop *shop, int operation, int minutes);
/* Solves and checks that the plan holds and is shifted left. */
void shop_solve(const struct row *row, struct shop *shop, struct net_result *result);

#endif
