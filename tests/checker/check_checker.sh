#!/bin/sh
# The checkers of plans and of calendars, tried on values, plans and files that are known by hand.
exec python3 -B "$(dirname "$0")/selftest.py"
