#!/bin/sh
# The example jobs at the default effort: proven or open, the bound against the ready moment, what the search took.
cd "$(dirname "$0")/../.." && exec "${BUILD:-build}/tests/bench/bench_examples" examples/desk.json examples/doors.json examples/kitchen.json examples/staircase.json
