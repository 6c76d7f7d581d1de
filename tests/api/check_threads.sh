#!/bin/sh
# Two threads with sessions of their own under the thread sanitizer, which tells every access that no lock orders.
set -u
cd "$(dirname "$0")/../.." || exit 1
program=build-tsan/tests/api/thread_sessions
make -s TSAN=1 SAN= COV= FUZZ= BUILD=build-tsan $program || exit 1
TSAN_OPTIONS=exitcode=66 "./$program"
