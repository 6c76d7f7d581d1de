#!/bin/sh
# No test depends on the order in which the tests run, nor on the machine's zone and locale: those of the rooms that read
# and write, shuffled by two seeds, 14 hours east of Greenwich and where a comma divides decimals.
set -u
cd "$(dirname "$0")/../.." || exit 1
build=${BUILD:-build}
LOCPATH=${TEST_TMP:-$(mktemp -d)}/locale
mkdir -p "$LOCPATH"
if localedef -i de_DE -f UTF-8 "$LOCPATH/de_DE.UTF-8" 2>/dev/null; then
    export LOCPATH LC_ALL=de_DE.UTF-8
else
    unset LOCPATH
    export LC_ALL=C.UTF-8
fi
export TZ=Pacific/Kiritimati COLUMNS=44
# The C library keeps what it made of LOCPATH until the end, which a build with the address sanitizer would call a leak.
[ -z "${SAN-}" ] || export ASAN_OPTIONS=detect_leaks=0
units=$(ls tests/base/test_*.c tests/format/test_*.c tests/report/test_*.c | sed "s|^|$build/|; s|\.c$||")
passed=0 failed=0
for seed in 1 $(date +%Y%m%d); do
    # shellcheck disable=SC2086
    if said=$(TEST_SHUFFLE=$seed tests/run tests/app/check_golden.sh tests/timetable/check_worked.py tests/base/check_units.sh $units); then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        printf '%s: seed %s, %s, %s: %s\n' "$0" "$seed" "$LC_ALL" "$TZ" "$said"
    fi
done
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
