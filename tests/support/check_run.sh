#!/bin/sh
# The runner itself: what it counts, and that nothing bad passes in silence.
set -u
here=$(cd "$(dirname "$0")/.." && pwd)
cd "${TEST_TMP:-$(mktemp -d)}" || exit 1
passed=0 failed=0

# expect NAME STATUS LINE: standard input is the test to run
expect() {
    { echo '#!/bin/sh' && cat; } >"$1"
    chmod +x "$1"
    got=$(TEST_SECONDS=1 "$here/run" "./$1")
    status=$?
    if [ "$status" = "$2" ] && [ "$(echo "$got" | tail -n 1)" = "$3" ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        printf '%s: %s: want status %s and "%s", got status %s and:\n%s\n' "$0" "$1" "$2" "$3" "$status" "$got"
    fi
}

expect plain 0 '3 passed, 0 failed' <<'END'
echo '9 passed, 9 failed (of an inner run)'; echo '3 passed, 0 failed'
END
expect plain-failing 1 '3 passed, 2 failed' <<'END'
echo '3 passed, 2 failed'
END
expect failing-in-words-alone 1 '3 passed, 2 failed' <<'END'
echo '3 passed, 2 failed'; exit 0
END
expect failing-in-status-alone 1 '3 passed, 1 failed' <<'END'
echo '3 passed, 0 failed'; exit 1
END
expect silent 1 '0 passed, 1 failed' <<'END'
END
expect ran-nothing 1 '0 passed, 1 failed' <<'END'
echo '0 passed, 0 failed'
END
expect killed 1 '0 passed, 1 failed' <<'END'
kill -SEGV $$
END
expect endless 1 '0 passed, 1 failed' <<'END'
exec sleep 9
END
expect lines 1 '2 passed, 1 failed' <<'END'
echo 'ok 1'; echo 'not ok 2'; echo 'ok 3'; exit 1
END
expect group 1 '2 passed, 1 failed' <<'END'
exec 2>&1; echo '[==========] tests/a.c: Running 3 test(s).'; echo '[  PASSED  ] 2 test(s).' >&2
echo '[  FAILED  ] tests: 1 test(s), listed below:'; echo '[  FAILED  ] 1 test(s), listed below:'; exit 1
END
expect group-cut-short 1 '0 passed, 1 failed' <<'END'
echo '[==========] Running 3 test(s).'; echo '[       OK ] one'; exit 0
END
# Shuffled, the same tests run: by a seed in the same order, and not always in that of the call.
for test in a b c d e f; do
    printf '#!/bin/sh\necho "1 passed, 0 failed"; sleep 0.01\n' >$test && chmod +x $test
done
told() { TEST_SHUFFLE=$1 TEST_JOBS=1 "$here/run" ./a ./b ./c ./d ./e ./f | sed 's/:.*//' | tr '\n' ' '; }
orders=$(for seed in 1 2 3 4; do told $seed && echo; done)
if [ "$(told 1)" = "$(echo "$orders" | sed -n 1p)" ] && [ "$(echo "$orders" | sort -u | wc -l)" -gt 1 ] &&
    [ "$(echo "$orders" | tr -d '\n' | tr ' ' '\n' | sort | uniq -c | awk '{ print $1 }' | sort -u)" = 4 ]; then
    passed=$((passed + 1))
else
    failed=$((failed + 1))
    printf '%s: shuffled: got %s\n' "$0" "$orders"
fi
if "$here/run" >/dev/null; then failed=$((failed + 1)); else passed=$((passed + 1)); fi

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
