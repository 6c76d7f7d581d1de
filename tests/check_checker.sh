#!/bin/sh
# The checkers of plans and of calendars, tried on values, plans and files that are known by hand.
cd "$(dirname "$0")/checker" || exit 1
python3 -B selftest.py && python3 -B selftest_ics.py
