#!/bin/sh
# Five thousand whole jobs, each changed at one place to four, under the address and undefined-behaviour sanitizers: nothing
# crashes or hangs, and what whole_job.h says of every job holds.
set -u
cd "$(dirname "$0")/../.." || exit 1
tmp=${TEST_TMP:-$(mktemp -d)}
build=build-san
make -s SAN=1 TSAN= FUZZ= COV= BUILD=$build $build/tests/api/mutated_jobs || exit 1
if "$build/tests/api/mutated_jobs" "${JOBS:-5000}" "${SEED:-2027}" tests/fuzz/corpus/job/* >"$tmp/jobs" 2>"$tmp/said"; then
    tail -n 1 "$tmp/jobs"
else
    tail -n 2 "$tmp/jobs"
    head -n 40 "$tmp/said"
    exit 1
fi
