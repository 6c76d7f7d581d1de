#!/bin/sh
# Both examples under valgrind: no invalid access, nothing lost. What the time zone library keeps until the end is
# still reachable and does not count.
set -u
cd "$(dirname "$0")/../.." || exit 1
coatwright=${COATWRIGHT:-build/coatwright}
there=${TEST_TMP:-$(mktemp -d)}
passed=0 failed=0
case $coatwright in
*-san*) echo 'ok # skip: the sanitizers look themselves' && exit 0 ;;
esac
command -v valgrind >/dev/null || { echo 'ok # skip: no valgrind here' && exit 0; }

clean() { # clean ARGUMENT...
    if valgrind --quiet --leak-check=full --errors-for-leak-kinds=definite,indirect --show-leak-kinds=definite,indirect \
        --error-exitcode=99 "$coatwright" "$@" >/dev/null 2>"$there/said"; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "$*:" && cat "$there/said"
    fi
}

for job in desk doors; do
    clean plan "examples/$job.json" --now 2027-01-04T08:00Z --effort 1000000 --out "$there/$job"
    clean plan "examples/$job.json" --now 2027-01-05T08:00Z --effort 1000000 --out "$there/$job"
done
clean timetable examples/desk.json --now 2027-01-04T08:00Z --effort 1000000 --json
clean finishes
clean mix hardwax-oil-two-part 400 ml
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
