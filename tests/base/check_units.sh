#!/bin/sh
# Every factor of the unit table against GNU units, to 12 digits.
set -u
cd "$(dirname "$0")/../.."
BUILD=${BUILD:-build}
list=${TEST_TMP:-$BUILD}/units.list
passed=0 failed=0
if ! command -v units >/dev/null; then
    echo "GNU units is not here: apt-get install units"
    echo "0 passed, 1 failed"
    exit 1
fi
"$BUILD/tests/base/test_units" --print >"$list" || exit 1
while IFS='|' read -r name base up down; do
    # 1 where units and the table agree.
    ratio=$(units -t -o '%.15g' "$name" "$base * $up / $down")
    if awk -v r="$ratio" 'BEGIN { d = r - 1; exit !(r + 0 && d < 1e-12 && d > -1e-12) }'; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "$0: $name: got $up/$down $base, GNU units gives $ratio times that"
    fi
done <"$list"
echo "$passed passed, $failed failed"
[ "$failed" = 0 ] && [ "$passed" -gt 30 ]
