#!/bin/sh
# The checker of plans, tried on values and plans that are known by hand.
exec python3 -B "$(dirname "$0")/checker/selftest.py"
