#!/bin/sh
# Networks like a shop's jobs: how many are proven, how far the others may be from the best.
exec "${BUILD:-build}/tests/bench/bench_shop" "$@"
