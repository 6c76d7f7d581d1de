#!/bin/sh
# A plan is the same on every run and from every compiler: the examples, planned by builds without optimization, by each
# compiler that is installed, against the program under test. Such builds are slow: all seek with a tenth of the effort.
cd "$(dirname "$0")/../.." || exit 1
coatwright=${COATWRIGHT:-$PWD/build/coatwright}
there=${TEST_TMP:-$(mktemp -d)}
LDLIBS=${LDLIBS:-$(sed -n 's/^\(APP\|LD\)LIBS *:= *//p' Makefile | tr '\n' ' ')}
passed=0 failed=0

build() { # build COMPILER: all sources at once, at -O0
    find src -name '*.c' | xargs -P2 -n24 sh -c '
        compiler=$0 there=$1; shift
        for source; do
            "$compiler" -std=c11 -D_XOPEN_SOURCE=700 -O0 -Isrc -Iinclude -DCOATWRIGHT_FINISHES="\"$PWD/finishes\"" \
                -c -o "$there/$(echo "$source" | tr / -).o" "$source" || exit 255
        done' "$1" "$there" || return 1
    src/page/assets.sh src/page/assets/* >"$there/assets.s" && "$1" -c -o "$there/assets.o" "$there/assets.s" || return 1
    # shellcheck disable=SC2086
    "$1" -o "$there/coatwright-$1" "$there"/*.o $LDLIBS
}

compare() { # compare NAME PROGRAM OPTION...
    name=$1 other=$2
    shift 2
    for job in examples/*.json; do
        case $job in *-shop.json) continue ;; esac
        "$coatwright" plan "$job" --json --now 2027-01-04T08:00Z "$@" >"$there/one" 2>/dev/null
        "$other" plan "$job" --json --now 2027-01-04T08:00Z "$@" >"$there/two" 2>/dev/null
        if [ -s "$there/one" ] && cmp -s "$there/one" "$there/two"; then
            passed=$((passed + 1))
        else
            failed=$((failed + 1))
            echo "$0: $job: $name gives another plan"
        fi
    done
}

compare 'a second run' "$coatwright" --effort 25000000
# What the sanitizers see is compared with the same golden outputs as any other build.
compilers='gcc clang'
[ "${coatwright%-san/*}" = "$coatwright" ] || compilers=
for compiler in $compilers; do
    command -v "$compiler" >/dev/null || continue
    if build "$compiler"; then
        compare "$compiler -O0" "$there/coatwright-$compiler" --effort 25000000
    else
        failed=$((failed + 1))
        echo "$0: $compiler does not build it"
    fi
    rm -f "$there"/*.o
done
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
