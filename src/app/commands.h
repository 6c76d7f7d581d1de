/* What each command does with a session that is open; gives the exit status. One file each. */
#ifndef APP_COMMANDS_H
#define APP_COMMANDS_H

#include "app/run.h"

int run_check(struct run *run);
int run_area(struct run *run);
int run_buy(struct run *run);
int run_mix(struct run *run);
int run_timetable(struct run *run);
int run_whole_plan(struct run *run);
int run_finishes(struct run *run);

#endif
