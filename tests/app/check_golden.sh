#!/bin/sh
# check_golden.sh [--accept] - what the program prints, against what it is known to print.
#
# tests/golden/NAME.cmd is a command line, run by sh in the root of the checkout with `coatwright` on its path and
# $TEST_TMP as a scratch folder; NAME.out is its standard output, its messages and its exit status. --accept writes
# NAME.out anew: read the diff before you commit it. How many blanks keep columns apart is not compared: that is tried by
# tests/report/test_table.c, and by the pages, whose examples are compared to the letter (tests/documents).
set -u
cd "$(dirname "$0")/../.."
PATH=$(dirname "${COATWRIGHT:-$PWD/build/coatwright}"):$PATH
TEST_TMP=${TEST_TMP:-$(mktemp -d)}
LC_ALL=C.UTF-8
export PATH TEST_TMP LC_ALL
unset COLUMNS NO_COLOR TZ COATWRIGHT_FINISHES
passed=0 failed=0
for cmd in tests/golden/*.cmd; do
    [ -f "$cmd" ] || continue
    want=${cmd%.cmd}.out got=$TEST_TMP/got
    sh "$cmd" >"$got" 2>"$TEST_TMP/messages" </dev/null
    code=$?
    [ ! -s "$TEST_TMP/messages" ] || { echo "--- messages" && cat "$TEST_TMP/messages"; } >>"$got"
    echo "--- exit $code" >>"$got"
    [ "${1-}" != --accept ] || cp "$got" "$want"
    if diff -ub "$want" "$got"; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "$cmd: differs from what was accepted; see it, and run make golden if it is right"
    fi
done
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
